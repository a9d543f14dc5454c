package author

import (
	"errors"
	"io/fs"
	"path"
	"slices"
	"strings"
	"sync"

	"swingwright/job"
	"swingwright/quantity"
	"swingwright/rulebook"
)

// Builtin reads every book that comes with the program, in the order of their
// file names. They are read once; callers share them and must not change them.
func Builtin() ([]*rulebook.Book, error) { return builtin() }

var builtin = sync.OnceValues(func() ([]*rulebook.Book, error) {
	return LoadAll(rulebook.Builtin())
})

// LoadAll reads every book in the top folder of fsys. The error joins those of
// all files; the books that are sound are returned beside it.
func LoadAll(fsys fs.FS) ([]*rulebook.Book, error) {
	names, err := bookFiles(fsys)
	if err != nil {
		return nil, err
	}
	var books []*rulebook.Book
	var errs []error
	for _, name := range names {
		book, err := Load(fsys, name)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		books = append(books, book)
	}
	return books, errors.Join(errs...)
}

// bookFiles lists the files of books in the top folder of fsys.
func bookFiles(fsys fs.FS) ([]string, error) {
	names, err := fs.Glob(fsys, "*.yaml")
	return slices.DeleteFunc(names, func(name string) bool { return name == collisionsFile }), err
}

// BuiltinBook reads one of the books that come with the program, by its ID. The
// error of an unknown ID is a NoBook.
func BuiltinBook(id string) (*rulebook.Book, error) {
	books := rulebook.Builtin()
	if name := id + ".yaml"; idPattern.MatchString(id) && name != collisionsFile {
		if _, err := fs.Stat(books, name); err == nil {
			return Load(books, name)
		}
	}
	return nil, NoBook{ID: id, Nearest: job.Nearest(id, BuiltinIDs())}
}

// BuiltinIDs lists the IDs of the books that come with the program.
func BuiltinIDs() []string {
	names, err := bookFiles(rulebook.Builtin())
	if err != nil {
		return nil
	}
	for i, name := range names {
		names[i] = strings.TrimSuffix(path.Base(name), ".yaml")
	}
	return names
}

// NoBook tells that no book of that ID comes with the program.
type NoBook struct {
	ID      string
	Nearest string // the ID most likely meant; may be empty
}

// Error names the book and the one most likely meant.
func (e NoBook) Error() string {
	text := "no rulebook " + quantity.Quote(e.ID) + " comes with the program"
	if e.Nearest != "" {
		return text + "; did you mean " + e.Nearest + "?"
	}
	return text + "; name one of " + listed(BuiltinIDs())
}
