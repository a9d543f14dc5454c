package book

import (
	"cmp"
	"context"
	"errors"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"

	"swingwright/job"
	"swingwright/job/amend"
)

// admit refuses a change that makes a part say what a job file cannot say. What
// was wrong before, perhaps for a sheet that is gone, stands in nobody's way.
func (w *writer) admit(r *Revision, before, now *Part) error {
	if !w.checked || before != nil && before.Text == now.Text {
		return nil
	}
	if len(now.Text) > most {
		return w.invalid(r, "a text that grows too long", "take out what is not needed", nil)
	}
	problems, err := w.problems(now)
	if err != nil || len(problems) == 0 {
		return err
	}
	if before != nil {
		known, err := w.problems(before)
		if err != nil {
			return err
		}
		problems = slices.DeleteFunc(problems, func(p job.Problem) bool {
			return slices.ContainsFunc(known, func(k job.Problem) bool { return p.Field == k.Field && p.Found == k.Found })
		})
	}
	if len(problems) == 0 {
		return nil
	}
	return w.invalid(r, "a value that does not fit", "", problems)
}

// problems are those of a part within its job, at their fields.
func (w *writer) problems(p *Part) (job.Problems, error) {
	_, err := decode(w.ctx, w.tx, p)
	var list job.Problems
	if !errors.As(err, &list) {
		return nil, err
	}
	list = slices.Clone(list)
	for i := range list {
		if rest, ok := strings.CutPrefix(list[i].Field, "openings[0]."); ok && p.Kind == BeginOpening {
			list[i].Field, list[i].Place = rest, job.Place{File: "opening " + p.Name}
		}
	}
	return list, nil
}

// Decode reads the job of a part, with that opening alone and those that it is the
// same as: the first of its openings is the one asked for. Of another part it is the
// job without openings. The error is job.Problems where something in it is wrong.
func (b *Book) Decode(ctx context.Context, key string) (*job.Job, error) {
	p, err := partOf(ctx, b.read, key)
	if err != nil {
		return nil, err
	}
	return decode(ctx, b.read, p)
}

func decode(ctx context.Context, q querier, p *Part) (*job.Job, error) {
	around, err := partsOf(q.QueryContext(ctx, "SELECT "+partColumns+" FROM part WHERE job = ? AND kind <> ? AND state = ? AND key <> ? ORDER BY n", p.Job, BeginOpening, Live, p.Key))
	if err != nil {
		return nil, err
	}
	parts := append(around, p)
	if p.Kind == BeginOpening {
		more, err := followed(ctx, q, p)
		if err != nil {
			return nil, err
		}
		parts = append(parts, more...)
	}
	files, name := put(parts)
	var wrong error
	j, err := job.DecodePart(files, name, func(sort, name string) bool {
		if sort != "opening" || wrong != nil {
			return false
		}
		var found bool
		wrong = q.QueryRowContext(ctx, "SELECT EXISTS (SELECT 1 FROM part WHERE job = ? AND kind = ? AND name = ? AND state = ?)", p.Job, BeginOpening, name, Live).Scan(&found)
		return found
	})
	return j, errors.Join(wrong, err)
}

// followed are the openings that one takes its fields over from, one from the other.
func followed(ctx context.Context, q querier, p *Part) ([]*Part, error) {
	seen := map[string]bool{p.Name: true}
	var list []*Part
	for {
		names := amend.Plain(p.Text, "same_as", "in_place_of")
		id := cmp.Or(names...)
		if id == "" || seen[id] {
			return list, nil
		}
		seen[id] = true
		next, err := partsOf(q.QueryContext(ctx, "SELECT "+partColumns+" FROM part WHERE job = ? AND kind = ? AND name = ? AND state = ?", p.Job, BeginOpening, id, Live))
		if err != nil || len(next) == 0 {
			return list, err
		}
		p = next[0]
		list = append(list, p)
	}
}

// put puts the parts of a job together as its files, and returns them with the name of
// the job file. Openings come in the order that they are given in.
func put(parts []*Part) (pages, string) {
	files, name := pages{}, "job.yaml"
	var front, back string
	var openings []string
	for _, p := range parts {
		switch p.Kind {
		case BeginJob:
			front, name = p.Text, p.File
		case BeginOpening:
			openings = append(openings, p.Text)
		case BeginEnding:
			back = p.Text
		case BeginFile:
			files[p.File] = p.Text
		}
	}
	var b strings.Builder
	for _, piece := range append(append([]string{front}, openings...), back) {
		if text := b.String(); piece != "" && text != "" && text[len(text)-1] != '\n' {
			b.WriteByte('\n') // what was once the last line is not any more
		}
		b.WriteString(piece)
	}
	files[name] = b.String()
	return files, name
}

// pages are texts by their file names, as a file system.
type pages map[string]string

// Open opens one of them; it is for fs.FS.
func (p pages) Open(name string) (fs.File, error) {
	text, ok := p[name]
	if !ok {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	return &page{Reader: strings.NewReader(text), name: path.Base(name), size: int64(len(text))}, nil
}

// page is one text as a file.
type page struct {
	io.Reader
	name string
	size int64
}

func (p *page) Stat() (fs.FileInfo, error) { return p, nil }
func (p *page) Close() error               { return nil }
func (p *page) Name() string               { return p.name }
func (p *page) Size() int64                { return p.size }
func (p *page) Mode() fs.FileMode          { return 0o444 }
func (p *page) ModTime() time.Time         { return time.Time{} }
func (p *page) IsDir() bool                { return false }
func (p *page) Sys() any                   { return nil }
