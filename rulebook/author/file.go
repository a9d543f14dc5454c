package author

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"slices"
	"strings"
	"unicode/utf8"

	yaml "go.yaml.in/yaml/v4"

	"swingwright/job"
)

// Limits that keep a hostile or mistaken file from holding up the program. The
// largest book that comes with the program has about 25 kB.
const (
	mostBytes    = 1 << 20
	mostProblems = 200
	mostRules    = 2000 // of one book; likewise tables and cases
)

// reader reads one file and gathers its problems.
type reader struct {
	file     string
	lines    []string
	problems job.Problems
	hidden   bool // more problems were found than are told
}

// open parses the named file; a nil node means that the problems say why not.
func open(fsys fs.FS, name string) (*reader, *yaml.Node) {
	r := &reader{file: name}
	text, err := load(fsys, name)
	if err != nil {
		r.wrongAt(0, 0, "", err.Error(), "a readable text file", "")
		return r, nil
	}
	return r, r.parse(text)
}

func load(fsys fs.FS, name string) ([]byte, error) {
	f, err := fsys.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, errors.New("no such file")
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, mostBytes+1))
	if err == nil && len(text) > mostBytes {
		err = errors.New("more than 1 MB")
	}
	return text, err
}

// parse turns text into the root of its only document.
func (r *reader) parse(text []byte) *yaml.Node {
	text = bytes.TrimPrefix(text, []byte("\xef\xbb\xbf"))
	if !utf8.Valid(text) || bytes.IndexByte(text, 0) >= 0 {
		r.wrongAt(0, 0, "", "bytes that are not UTF-8 text", "a text file in UTF-8", "save it again with the encoding UTF-8")
		return nil
	}
	r.lines = strings.Split(string(text), "\n")
	loader, err := yaml.NewLoader(bytes.NewReader(text), yaml.WithUniqueKeys(false))
	if err != nil {
		r.wrongAt(0, 0, "", err.Error(), "YAML", "")
		return nil
	}
	var document, second yaml.Node
	if err := loader.Load(&document); err != nil {
		r.syntax(err)
		return nil
	}
	if err := loader.Load(&second); err == nil {
		r.wrongAt(second.Line, second.Column, "", "a second document", "one document in a file", "give each a file of its own")
		return nil
	} else if !errors.Is(err, io.EOF) {
		r.syntax(err)
		return nil
	}
	return document.Content[0]
}

// syntax tells that the text is not YAML.
func (r *reader) syntax(err error) {
	var at *yaml.LoadError
	switch {
	case errors.Is(err, io.EOF):
		r.wrongAt(0, 0, "", "", "keys and values", "the file is empty or holds only comments")
	case errors.As(err, &at):
		r.wrongAt(at.Mark.Line, at.Mark.Column, "", "a text that is not YAML", "a key, a colon, a space and a value on each line", at.Message)
	default:
		r.wrongAt(0, 0, "", "a text that is not YAML", "YAML", err.Error())
	}
}

// wrongAt notes a problem at a place; an empty found stands for nothing. The
// first problem of a field at its place is told, for it explains those after it.
func (r *reader) wrongAt(line, column int, field, found, needed, hint string) {
	place := job.Place{File: r.file, Line: line, Column: column}
	if slices.ContainsFunc(r.problems, func(p job.Problem) bool { return p.Place == place && p.Field == field }) {
		return
	}
	if len(r.problems) >= mostProblems {
		r.hidden = true
		return
	}
	r.problems = append(r.problems, job.Problem{Place: place, Field: field, Found: found, Needed: needed, Hint: hint})
}

// wrong notes a problem at a node.
func (r *reader) wrong(n *yaml.Node, field, found, needed, hint string) {
	r.wrongAt(n.Line, n.Column, field, found, needed, hint)
}

// err is nil when there are no problems, else all of them by place.
func (r *reader) err() error {
	if len(r.problems) == 0 {
		return nil
	}
	slices.SortStableFunc(r.problems, func(a, b job.Problem) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	if r.hidden {
		last := r.problems[len(r.problems)-1].Place
		r.problems = append(r.problems, job.Problem{Place: last, Found: "more problems after this one", Needed: "these mended first"})
	}
	return r.problems
}

// quote shows a text of the file, cut where it is long.
func quote(text string) string {
	const shown = 60
	if runes := []rune(text); len(runes) > shown {
		text = string(runes[:shown]) + "…"
	}
	return fmt.Sprintf("%q", text)
}
