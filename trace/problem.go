package trace

import (
	"cmp"
	"fmt"
	"strings"
)

// A Place is a point in a file. A zero Line stands for the file as a whole.
type Place struct {
	File         string
	Line, Column int // counted from 1, columns in characters
}

// String is the place as editors and terminals understand it: door.csv:12:10.
func (p Place) String() string {
	if p.Line == 0 {
		return p.File
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column)
}

// A Problem is one thing in a file that must be mended before it can be used.
type Problem struct {
	Place
	Found  string // what stands there; empty where nothing does
	Needed string // what has to stand there
	Hint   string // a way to mend it; may be empty
}

// Error is the problem in one line.
func (p Problem) Error() string {
	s := p.Place.String() + ": found " + cmp.Or(p.Found, "nothing") + ", needed " + p.Needed
	if p.Hint != "" {
		s += "; hint: " + p.Hint
	}
	return s
}

// Problems are all the problems of one file, from top to bottom.
type Problems []Problem

// Error lists the problems, one a line.
func (ps Problems) Error() string {
	lines := make([]string, len(ps))
	for i, p := range ps {
		lines[i] = p.Error()
	}
	return strings.Join(lines, "\n")
}

// mostProblems is how many problems are told at once: more would not be read.
const mostProblems = 20

// err is nil when there are no problems.
func (ps Problems) err() error {
	if len(ps) == 0 {
		return nil
	}
	return ps
}
