package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"swingwright/job"
	"swingwright/opening"
	"swingwright/quantity"
	"swingwright/rulebook"
	"swingwright/rulebook/author"
)

// usualJob is the file that commands read when none is named.
const usualJob = "job.yaml"

// work is a job with the rulebooks it is judged by.
type work struct {
	*job.Job
	books []*rulebook.Book
}

// load reads a job and its rulebooks, and collects the problems of both. The
// path may be a folder that holds a job.yaml.
func load(path string) (*work, error) {
	path = jobPath(path)
	if _, err := os.Stat(path); err != nil {
		return nil, problem{what: fmt.Sprintf("there is no job file %s", path), hint: "name one, or write a new one: swingwright new " + path}
	}
	dir, name := filepath.Split(path)
	folder := os.DirFS(filepath.Clean(dir + "."))
	j, err := job.Decode(folder, name)
	if err != nil {
		return nil, under(dir, err)
	}
	w := &work{Job: j}
	return w, w.findBooks(folder, dir)
}

// jobPath is the job file that a command names: job.yaml where it names none, or a folder.
func jobPath(path string) string {
	if path == "" {
		return usualJob
	}
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return filepath.Join(path, usualJob)
	}
	return path
}

// findBooks reads the rulebooks that the job names.
func (w *work) findBooks(folder fs.FS, dir string) error {
	var errs []error
	for _, id := range w.Rulebooks {
		w.addBuiltin(id, &errs)
	}
	for _, name := range w.OwnRules {
		b, err := author.Load(folder, name)
		w.addBook(b, under(dir, err), &errs)
	}
	return errors.Join(errs...)
}

// addBuiltin adds a rulebook that comes with the program.
func (w *work) addBuiltin(id string, errs *[]error) {
	b, err := author.BuiltinBook(id)
	w.addBook(b, noBook(err), errs)
}

func (w *work) addBook(b *rulebook.Book, err error, errs *[]error) {
	if err != nil {
		*errs = append(*errs, err)
		return
	}
	w.books = append(w.books, b)
}

// collisions are the known differences between rulebooks, looked up only where
// there are two to differ.
func (w *work) collisions() ([]rulebook.Collision, error) {
	if len(w.books) < 2 {
		return nil, nil
	}
	return author.Collisions()
}

// noBook adds the hint to the error of an unknown book.
func noBook(err error) error {
	if missing, ok := errors.AsType[author.NoBook](err); ok {
		hint := "swingwright rules list shows them all"
		if missing.Nearest != "" {
			hint = "did you mean " + missing.Nearest + "? " + hint
		}
		return problem{what: fmt.Sprintf("no rulebook %q comes with the program", missing.ID), hint: hint}
	}
	return err
}

// under puts the folder before the file names in problems, so that they can be
// opened from where the command was typed.
func under(dir string, err error) error {
	list, ok := errors.AsType[job.Problems](err)
	if !ok || dir == "" {
		return err
	}
	list = slices.Clone(list)
	for i := range list {
		list[i].File = filepath.Join(dir, list[i].File)
	}
	return list
}

// openings are those of the given names, or all of them, in the job's order. Those
// that may stand in place of others are left out: compare shows them.
func (w *work) openings(names []string) ([]*opening.Opening, error) {
	var picked []*opening.Opening
	for i := range w.Openings {
		if o := &w.Openings[i]; o.InPlaceOf == "" && (len(names) == 0 || slices.Contains(names, o.ID)) {
			picked = append(picked, o)
		}
	}
	var errs []error
	for i := range w.Openings {
		if o := &w.Openings[i]; o.InPlaceOf != "" && slices.Contains(names, o.ID) {
			errs = append(errs, problem{what: fmt.Sprintf("%s is a possible change of %s, not an opening", o.ID, o.InPlaceOf), hint: "swingwright compare -o " + o.InPlaceOf + " shows it"})
			names = slices.DeleteFunc(slices.Clone(names), func(n string) bool { return n == o.ID })
		}
	}
	for _, name := range names {
		if !slices.ContainsFunc(picked, func(o *opening.Opening) bool { return o.ID == name }) {
			errs = append(errs, problem{what: fmt.Sprintf("the job has no opening %q", name), hint: among(name, w.ids())})
		}
	}
	return picked, errors.Join(errs...)
}

func (w *work) ids() []string {
	var ids []string
	for i := range w.Openings {
		if o := &w.Openings[i]; o.InPlaceOf == "" {
			ids = append(ids, o.ID)
		}
	}
	return ids
}

// among is the hint for a name that is not among those there are.
func among(name string, names []string) string {
	if hint := job.DidYouMean(name, names); hint != "" {
		return hint + " There are " + listed(names)
	}
	return "there are " + listed(names)
}

// listed names a dozen things and counts the rest.
func listed(names []string) string {
	const most = 12
	if len(names) > most {
		return strings.Join(names[:most], ", ") + fmt.Sprintf(" and %d more", len(names)-most)
	}
	return strings.Join(names, ", ")
}

// unitsOf are the units asked for, else the job's, if there is one, else US.
func unitsOf(j *job.Job, asked string) (quantity.System, error) {
	if asked == "" && j != nil {
		asked = string(j.Units)
	}
	switch job.Units(asked) {
	case job.SI:
		return quantity.SI, nil
	case job.US, "":
		return quantity.US, nil
	}
	return 0, problem{what: fmt.Sprintf("there are no units %q", asked), hint: "write --units us or --units si"}
}
