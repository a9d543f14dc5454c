package book

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path"
	"slices"
	"time"
	"unicode/utf8"

	"swingwright/job"
	"swingwright/job/amend"
)

// Files are the texts of a job's files by their names, of which Name is the job file.
type Files struct {
	Name  string
	Texts map[string]string
}

// ReadFiles reads a job file of fsys, in whose root it lies, and the files that it lists. The error is job.Problems where the
// job has some.
func ReadFiles(fsys fs.FS, name string) (*Files, error) {
	j, err := job.Decode(fsys, name)
	if err != nil {
		return nil, err
	}
	f := &Files{Name: name, Texts: map[string]string{}}
	for _, file := range slices.Concat([]string{name}, j.SheetFiles, j.OwnRules, j.Readings) {
		file = path.Clean(file)
		text, err := fs.ReadFile(fsys, file)
		if err != nil {
			return nil, err
		}
		if !utf8.Valid(text) || len(text) > most {
			return nil, fmt.Errorf("%s is no text in UTF-8 of at most %d MB; hint: leave it out of the job, or save it again", file, most>>20)
		}
		f.Texts[file] = string(text)
	}
	return f, nil
}

// Write writes the files into a folder, which is made where it is not there. A file
// that is there already is left as it is, and told.
func (f *Files) Write(dir string) error {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return err
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return err
	}
	defer root.Close()
	for _, name := range slices.Sorted(maps.Keys(f.Texts)) {
		if folder := path.Dir(name); folder != "." {
			if err := root.MkdirAll(folder, 0o777); err != nil {
				return err
			}
		}
		file, err := root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if errors.Is(err, fs.ErrExist) {
			return fmt.Errorf("%s is there already and was left as it is; hint: export to a new folder", path.Join(dir, name))
		} else if err != nil {
			return full(err)
		}
		_, err = file.WriteString(f.Texts[name])
		if err := errors.Join(err, file.Close()); err != nil {
			return full(err)
		}
	}
	return nil
}

// By says who changes a job by its files, when, and on which device.
type By struct {
	Who, Device string
	Made        time.Time
}

// Import keeps a job that is not in the book yet, under a key of the caller's choice,
// such as NewKey makes; all of it or nothing. The openings have the keys key.1, key.2 and so on.
func (b *Book) Import(ctx context.Context, now time.Time, by By, key string, f *Files) error {
	cut, err := amend.Split(f.Texts[f.Name])
	if err != nil {
		return fmt.Errorf("%s: %w", f.Name, err)
	}
	m := &maker{by: by, key: key, prefix: key}
	m.add(Change{Kind: BeginJob, Subject: key, Path: f.Name, Value: cut.Front})
	m.files(f)
	for i, text := range cut.Openings {
		m.add(Change{Kind: BeginOpening, Subject: fmt.Sprint(key, ".", i+1), Value: text})
	}
	if cut.Back != "" {
		m.add(Change{Kind: BeginEnding, Subject: key + ".end", Value: cut.Back})
	}
	_, err = b.apply(ctx, now, false, m.changes)
	return err
}

// maker makes the changes of one import.
type maker struct {
	by          By
	key, prefix string
	changes     []Change
}

func (m *maker) add(c Change) {
	c.ID, c.Job, c.Who, c.Device, c.Made = fmt.Sprintf("%s.%d", m.prefix, len(m.changes)+1), m.key, m.by.Who, m.by.Device, m.by.Made
	m.changes = append(m.changes, c)
}

// files adds the files beside the job file, by name.
func (m *maker) files(f *Files) {
	n := 0
	for _, name := range slices.Sorted(maps.Keys(f.Texts)) {
		if name != f.Name {
			n++
			m.add(Change{Kind: BeginFile, Subject: fmt.Sprint(m.key, ".file", n), Path: name, Value: f.Texts[name]})
		}
	}
}

// Update keeps what was changed in a job's files since they were exported at a
// revision of the book: openings, matched by their ids, and files that have another
// text than then are rewritten, new ones begun, missing ones withdrawn. What somebody else changed meanwhile
// in the same opening or file is a conflict; all else stays.
func (b *Book) Update(ctx context.Context, now time.Time, by By, key string, base int64, f *Files) ([]Receipt, error) {
	cut, err := amend.Split(f.Texts[f.Name])
	if err != nil {
		return nil, fmt.Errorf("%s: %w", f.Name, err)
	}
	then, err := b.parts(ctx, key, base)
	if err != nil {
		return nil, err
	}
	m := &maker{by: by, key: key, prefix: NewID()}
	before := map[[2]string]*Part{}
	for _, p := range then {
		before[p.match()] = p
	}
	m.compare(base, before, &Part{Kind: BeginJob, File: f.Name, Text: cut.Front})
	for _, name := range slices.Sorted(maps.Keys(f.Texts)) {
		if name != f.Name {
			m.compare(base, before, &Part{Kind: BeginFile, File: name, Name: name, Text: f.Texts[name]})
		}
	}
	for _, text := range cut.Openings {
		m.compare(base, before, &Part{Kind: BeginOpening, Text: text, Name: amend.Plain(text, "id")[0]})
	}
	if cut.Back != "" {
		m.compare(base, before, &Part{Kind: BeginEnding, Text: cut.Back})
	}
	for _, p := range then {
		if before[p.match()] != nil {
			m.add(Change{Kind: Withdraw, Subject: p.Key, Base: base})
		}
	}
	return b.apply(ctx, now, false, m.changes)
}

// match is by what a part is known again in a file: its kind, and the id of an
// opening or the name of a file.
func (p *Part) match() [2]string {
	if p.Kind == BeginOpening || p.Kind == BeginFile {
		return [2]string{string(p.Kind), p.Name}
	}
	return [2]string{string(p.Kind)}
}

// compare adds the change that leads to a part from what it was before, and strikes
// it off what was before.
func (m *maker) compare(base int64, before map[[2]string]*Part, p *Part) {
	was := before[p.match()]
	delete(before, p.match())
	switch {
	case was == nil:
		m.add(Change{Kind: p.Kind, Subject: NewKey(), Path: p.File, Value: p.Text})
	case was.Text != p.Text:
		m.add(Change{Kind: Rewrite, Subject: was.Key, Value: p.Text, Base: base})
	}
}

// Export puts the files of a job together as they were after a revision, 0 for the
// latest, and tells which that was. Untouched, they are to the byte what was imported.
func (b *Book) Export(ctx context.Context, key string, n int64) (*Files, int64, error) {
	if n == 0 {
		var err error
		if n, _, err = b.Head(ctx); err != nil {
			return nil, 0, err
		}
	}
	parts, err := b.parts(ctx, key, n)
	if err != nil {
		return nil, 0, err
	}
	texts, name := put(parts)
	return &Files{Name: name, Texts: texts}, n, nil
}

// parts are the live parts of a job as they were after a revision, in order.
func (b *Book) parts(ctx context.Context, key string, n int64) ([]*Part, error) {
	tx, err := b.read.BeginTx(ctx, &sql.TxOptions{ReadOnly: true})
	if err != nil {
		return nil, told(err)
	}
	defer tx.Rollback()
	if p, err := partOf(ctx, tx, key); err != nil {
		return nil, err
	} else if p.Kind != BeginJob || p.n > n {
		return nil, fmt.Errorf("%w: a job of the key %s, at revision %d", ErrNone, key, n)
	}
	all, err := partsOf(tx.QueryContext(ctx, "SELECT "+partColumns+" FROM part WHERE job = ? AND n <= ? ORDER BY n", key, n))
	if err != nil {
		return nil, err
	}
	later, err := revisions(tx.QueryContext(ctx, "SELECT "+revisionColumns+" FROM revision WHERE job = ? AND n > ? ORDER BY n DESC", key, n))
	if err != nil {
		return nil, err
	}
	changed := map[string][]*Revision{}
	for _, r := range later {
		changed[r.Subject] = append(changed[r.Subject], r)
	}
	for _, p := range all {
		if list := changed[p.Key]; len(list) > 0 {
			if err := back(ctx, tx, p, n, list); err != nil {
				return nil, err
			}
		}
	}
	return slices.DeleteFunc(all, func(p *Part) bool { return p.State != Live && p.Kind != BeginJob }), nil
}
