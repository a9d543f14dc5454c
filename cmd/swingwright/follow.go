package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"swingwright/book"
)

// follower keeps a job file and a book beside it alike: what is edited in the file goes
// into the book, and what is entered by the app goes into the file.
type follower struct {
	sync.Mutex
	ctx       context.Context
	book      *book.Book
	dir, name string // of the job file
	alike     string // the file that tells at which revision both were alike
	seen      map[string]time.Time
	has       map[string]string // the files, as they were read or written last
	rev       int64             // of the book, when both were last alike
	told      error             // what was wrong with the file as it was last seen
}

// alike tells when file and book were alike.
type alike struct {
	Job    string `json:"job"`
	Rev    int64  `json:"rev"`
	Digest string `json:"digest"` // of the files
}

// followJob opens or makes the book beside a job file.
func followJob(ctx context.Context, name string) (*follower, error) {
	dir, file := filepath.Split(name)
	dir = filepath.Clean(dir + ".")
	folder := strings.TrimSuffix(name, filepath.Ext(name)) + ".book"
	f := &follower{ctx: ctx, dir: dir, name: file, alike: filepath.Join(folder, "job-file.json")}
	files, err := f.files()
	if err != nil {
		return nil, err
	}
	if _, err := os.Stat(filepath.Join(folder, "book.sqlite")); err != nil {
		if f.book, err = book.Create(ctx, folder); err != nil {
			return nil, err
		}
		key := book.NewKey()
		if err := f.book.Import(ctx, time.Now(), f.by(), key, files); err != nil {
			return nil, errors.Join(err, f.book.Close())
		}
		rev, _, err := f.book.Head(ctx)
		if err != nil {
			return nil, errors.Join(err, f.book.Close())
		}
		return f, f.settle(key, files, rev)
	}
	if f.book, err = book.Open(ctx, folder); err != nil {
		return nil, err
	}
	return f, f.read()
}

func (f *follower) by() book.By { return book.By{Who: "job file " + f.name, Made: time.Now()} }

// files reads the job file and those that it lists.
func (f *follower) files() (*book.Files, error) {
	files, err := book.ReadFiles(os.DirFS(f.dir), f.name)
	return files, under(f.dir+string(filepath.Separator), err)
}

// last tells when both were alike.
func (f *follower) last() (a alike, err error) {
	text, err := os.ReadFile(f.alike)
	if err == nil {
		err = json.Unmarshal(text, &a)
	}
	return a, err
}

// settle notes that the files are what the book said at a revision, and when they were written. Somebody else may
// have entered more since.
func (f *follower) settle(key string, files *book.Files, rev int64) error {
	text, err := json.Marshal(alike{key, rev, digestOf(files)})
	if err != nil {
		return err
	}
	f.has, f.rev, f.seen = files.Texts, rev, map[string]time.Time{}
	for name := range files.Texts {
		if info, err := os.Stat(filepath.Join(f.dir, name)); err == nil {
			f.seen[name] = info.ModTime()
		}
	}
	return writeWhole(f.alike, func(w io.Writer) error { _, err := w.Write(text); return err })
}

// digestOf names texts by what is in them.
func digestOf(files *book.Files) string {
	var b strings.Builder
	for _, name := range slices.Sorted(maps.Keys(files.Texts)) {
		fmt.Fprintf(&b, "%q %d\n%s\n", name, len(files.Texts[name]), files.Texts[name])
	}
	return book.Digest(b.String())
}

// touched tells whether a file was written since it was last looked at.
func (f *follower) touched() bool {
	for name, at := range f.seen {
		if info, err := os.Stat(filepath.Join(f.dir, name)); err != nil || !info.ModTime().Equal(at) {
			return true
		}
	}
	return f.seen == nil
}

// read takes into the book what was edited in the file, and writes into the file what
// the book has besides.
func (f *follower) read() error {
	f.Lock()
	defer f.Unlock()
	rev, _, err := f.book.Head(f.ctx)
	if err != nil {
		return err
	}
	if !f.touched() && (rev == f.rev || f.told != nil) {
		return f.told
	}
	files, err := f.files()
	if f.told = err; err != nil {
		return err
	}
	f.has = files.Texts
	a, err := f.last()
	if err != nil {
		return err
	}
	if digestOf(files) != a.Digest {
		if _, err := f.book.Update(f.ctx, time.Now(), f.by(), a.Job, a.Rev, files); err != nil {
			return err
		}
	}
	return f.export(a.Job)
}

// write writes into the file what was entered by the app, after what was edited in it
// meanwhile was taken up.
func (f *follower) write() error {
	if err := f.read(); err != nil {
		return fmt.Errorf("what was entered is kept in the book, but the job file cannot be written: %w", err)
	}
	f.Lock()
	defer f.Unlock()
	a, err := f.last()
	if err != nil {
		return err
	}
	return f.export(a.Job)
}

// export writes the files as the book has them. A file that somebody saved since it was read is left alone,
// and both stay as unlike as they are: what stands in it is taken up when it is read next.
func (f *follower) export(key string) error {
	files, rev, err := f.book.Export(f.ctx, key, 0)
	if err != nil {
		return err
	}
	for name, text := range files.Texts {
		path := filepath.Join(f.dir, filepath.FromSlash(name))
		was, err := os.ReadFile(path)
		if err == nil && string(was) == text {
			continue
		}
		if read, known := f.has[name]; known && err == nil && string(was) != read {
			f.seen = nil
			return nil
		}
		if err := writeWhole(path, func(w io.Writer) error { _, err := io.WriteString(w, text); return err }); err != nil {
			return err
		}
	}
	return f.settle(key, files, rev)
}
