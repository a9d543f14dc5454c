package schedule

import (
	"bufio"
	"fmt"
	"io"
	"reflect"
	"strings"

	"swingwright/job"
	"swingwright/opening"
)

// A Writer writes a new job file, opening by opening.
type Writer struct {
	w *bufio.Writer
	n int
}

// NewWriter begins a job of a name on w; from tells what it is made of.
func NewWriter(w io.Writer, name, from string) *Writer {
	b := bufio.NewWriter(w)
	fmt.Fprintf(b, "# Made from %s. Cells that no field takes stand under survey, and those that are\n# kept in other words under its note %q. Without rulebooks, such as [ada-2010], nothing\n# is judged: swingwright rules list shows them.\nrulebooks: []\njob: %s\n\nopenings:\n", oneLine(from), asWritten, job.Scalar(name))
	return &Writer{w: b}
}

// Write writes one opening.
func (w *Writer) Write(e *Entry) error {
	w.n++
	for line := range strings.Lines(string(job.NewOpening(e.Additions()))) {
		w.w.WriteString("  " + line)
	}
	return nil // the first error stays until End
}

// End writes what was kept besides the openings.
func (w *Writer) End(r *Result, file string) error {
	if w.n == 0 {
		w.w.WriteString("  []\n")
	}
	if len(r.Kept) > 0 {
		w.w.WriteString("\nnotes:\n  " + rowsNote + ":\n    " + job.Scalar(file) + ":\n")
		for i := range r.Kept {
			w.w.WriteString("      - " + job.Flow(r.Kept[i].note()) + "\n")
		}
	}
	return w.w.Flush()
}

// rowsNote is where rows that are no openings are kept with the job.
const rowsNote = "schedule rows that are no openings"

// note is a row as it is kept.
func (k *Kept) note() any {
	cells := make([]any, len(k.Cells))
	for i, c := range k.Cells {
		cells[i] = c
	}
	note := map[string]any{"row": fmt.Sprint(k.Row), "cells": cells, "why": k.Why}
	if k.Sheet != "" {
		note["sheet"] = k.Sheet
	}
	return note
}

// A Merge adds a schedule to a job that is there: fields that are not given yet, and
// openings that are not there. What somebody wrote stays, byte by byte; where the
// schedule says otherwise that is told, and its cell is kept as a note.
type Merge struct {
	j    *job.Job
	at   map[string]*opening.Opening
	adds []job.Addition
	more []byte
	// Fresh, Filled, Agreed and Told count openings that were added, fields that were
	// filled, those that agree, and those that the job has otherwise.
	Fresh, Filled, Agreed int
	Told                  []Told
}

// NewMerge begins to merge into a job.
func NewMerge(j *job.Job) *Merge {
	m := &Merge{j: j, at: map[string]*opening.Opening{}}
	for i := range j.Openings {
		m.at[j.Openings[i].ID] = &j.Openings[i]
	}
	return m
}

// Add adds one opening of a schedule.
func (m *Merge) Add(e *Entry) error {
	o := m.at[e.ID]
	if o == nil {
		m.Fresh++
		m.more = append(m.more, job.NewOpening(e.Additions())...)
		return nil
	}
	e.Additions() // in order
	for i := range e.Values {
		v := &e.Values[i]
		switch {
		case len(v.Path) == 1 && v.Path[0] == "id":
		case v.Path[0] == "survey":
			m.note(e, o, v.Path[1:], v.Text)
		default:
			m.field(e, o, v)
		}
	}
	return nil
}

// field adds a field that is not given yet.
func (m *Merge) field(e *Entry, o *opening.Opening, v *Value) {
	path := strings.Join(v.Path, ".")
	t := targets[path]
	switch has := t.get(o); {
	case has == "" || has == "unknown" && o.SameAs != "":
		m.Filled++
		m.adds = append(m.adds, job.Addition{Opening: e.ID, Path: v.Path, Value: v.Text})
	case t.same(has, v.Text):
		m.Agreed++
	default:
		m.Told = append(m.Told, Told{v.Place, fmt.Sprintf("%s: the job has %s %s, the schedule %s", e.ID, path, has, v.cell), "the job's was left, the schedule's is kept as a note"})
		m.note(e, o, []string{"schedule says", path}, v.cell)
	}
}

// note adds a note, under another name where there is one that says something else.
func (m *Merge) note(e *Entry, o *opening.Opening, path []string, text string) {
	at := any(map[string]any(o.Survey))
	for i, key := range path {
		record, ok := at.(map[string]any)
		if !ok { // somebody's own note has the name of a record
			path = append([]string{strings.Join(path[:i], " ") + " (schedule)"}, path[i:]...)
			if i == 0 {
				return
			}
			m.note(e, o, path, text)
			return
		}
		has, there := record[key]
		if !there {
			m.Filled++
			m.adds = append(m.adds, job.Addition{Opening: e.ID, Path: append([]string{"survey"}, path...), Value: text})
			return
		}
		at = has
	}
	if has, ok := at.(string); ok && has == text {
		m.Agreed++
		return
	}
	m.note(e, o, append(append([]string(nil), path[:len(path)-1]...), path[len(path)-1]+" (schedule)"), text)
}

// Text is the text of the job file with everything added to it. Its error is
// job.Problems.
func (m *Merge) Text(name string, text []byte, r *Result, file string) ([]byte, error) {
	adds := m.adds
	if len(r.Kept) > 0 {
		rows := make([]any, len(r.Kept))
		for i := range r.Kept {
			rows[i] = r.Kept[i].note()
		}
		key := file
		before, _ := m.j.Notes[rowsNote].(map[string]any)
		for before[key] != nil && !reflect.DeepEqual(before[key], any(rows)) {
			key += " again"
		}
		if before[key] == nil {
			adds = append(adds, job.Addition{Path: []string{"notes", rowsNote, key}, Value: rows})
		}
	}
	if len(adds)+len(m.more) == 0 {
		return text, nil
	}
	return job.Amend(name, text, adds, m.more)
}
