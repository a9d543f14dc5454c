package author

import (
	"cmp"
	"io/fs"
	"slices"
	"strings"

	yaml "go.yaml.in/yaml/v4"

	"swingwright/job"
)

// Limits that keep a hostile or mistaken file from holding up the program. The
// largest book that comes with the program has about 40 kB.
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
	root, text, p := job.ReadYAML(fsys, name, mostBytes, "the largest book that comes with the program has about 40 kB; split yours")
	r := &reader{file: name, lines: strings.Split(string(text), "\n")}
	if p != nil {
		r.problems = job.Problems{*p}
	}
	return r, root
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
