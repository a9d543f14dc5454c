package job

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// A Place is a point in a file. A zero Line stands for the file as a whole.
type Place struct {
	File         string
	Line, Column int // counted from 1, in characters
}

// String is the place as editors and terminals understand it: job.yaml:12:10.
func (p Place) String() string {
	if p.Line == 0 {
		return p.File
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column)
}

// before orders places by file, then from top to bottom.
func (p Place) before(o Place) int {
	return cmp.Or(cmp.Compare(p.File, o.File), cmp.Compare(p.Line, o.Line), cmp.Compare(p.Column, o.Column))
}

// A Problem is one thing in a file that must be mended before it can be used.
type Problem struct {
	Place
	Field  string // path of the field, such as openings[0].leaf.width; empty for the whole file
	Found  string // what stands there; empty where nothing does
	Needed string // what has to stand there
	Hint   string // a way to mend it; may be empty
}

// Error is the problem in one line.
func (p Problem) Error() string {
	var b strings.Builder
	b.WriteString(p.Place.String())
	if p.Field != "" {
		b.WriteString(": " + p.Field)
	}
	b.WriteString(": found " + cmp.Or(p.Found, "nothing") + ", needed " + p.Needed)
	if p.Hint != "" {
		b.WriteString("; hint: " + p.Hint)
	}
	return b.String()
}

// Problems are all the problems of a job's files, by place.
type Problems []Problem

// Error lists the problems, one a line.
func (ps Problems) Error() string {
	lines := make([]string, len(ps))
	for i, p := range ps {
		lines[i] = p.Error()
	}
	return strings.Join(lines, "\n")
}

// mostProblems is how many problems are told at once: more would not be read,
// and a hostile file could otherwise fill the memory with them.
const mostProblems = 500

func (ps *Problems) add(p Problem) {
	if !ps.full() {
		*ps = append(*ps, p)
	}
}

// full tells that looking for more is in vain.
func (ps *Problems) full() bool { return len(*ps) >= mostProblems }

// err is nil when there are no problems, else the problems by place.
func (ps Problems) err() error {
	if len(ps) == 0 {
		return nil
	}
	slices.SortStableFunc(ps, func(a, b Problem) int { return a.Place.before(b.Place) })
	if ps.full() {
		last := Place{File: ps[len(ps)-1].File}
		ps = append(ps, Problem{Place: last, Found: fmt.Sprint(len(ps), " problems"), Needed: "none", Hint: "there may be more; mend these first"})
	}
	return ps
}
