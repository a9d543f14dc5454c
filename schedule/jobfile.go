package schedule

import (
	"bufio"
	"fmt"
	"io"
	"reflect"
	"strings"

	"swingwright/job"
	"swingwright/job/amend"
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
	fmt.Fprintf(b, "# Made from %s. Cells that no field takes stand under survey, and those that are\n# kept in other words under its note %q. Without rulebooks, such as [ada-2010], nothing\n# is judged: swingwright rules list shows them.\nrulebooks: []\njob: %s\n\nopenings:\n", oneLine(from), asWritten, amend.Inline(name))
	return &Writer{w: b}
}

// Write writes one opening.
func (w *Writer) Write(e *Entry) error {
	w.n++
	text, err := amend.OpeningOf(e.Changes(), 2)
	if err != nil {
		return err
	}
	w.w.WriteString(text) // its first error stays until End
	return nil
}

// End writes what was kept besides the openings.
func (w *Writer) End(r *Result, file string) error {
	if w.n == 0 {
		w.w.WriteString("  []\n")
	}
	if len(r.Kept) > 0 {
		w.w.WriteString("\nnotes:\n  " + rowsNote + ":\n    " + amend.Inline(file) + ":\n")
		for i := range r.Kept {
			w.w.WriteString("      - " + amend.Inline(r.Kept[i].note()) + "\n")
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
	j       *job.Job
	at      map[string]int // places of its openings
	changes []amend.Change
	// Fresh, Filled, Agreed and Told count openings that were added, fields that were
	// filled, those that agree, and those that the job has otherwise.
	Fresh, Filled, Agreed int
	Told                  []Told
}

// NewMerge begins to merge into a job.
func NewMerge(j *job.Job) *Merge {
	m := &Merge{j: j, at: map[string]int{}}
	for i := range j.Openings {
		m.at[j.Openings[i].ID] = i
	}
	return m
}

// Add adds one opening of a schedule.
func (m *Merge) Add(e *Entry) error {
	changes := e.Changes()
	i, there := m.at[e.ID]
	if !there {
		m.Fresh++
		value, err := amend.Record(changes)
		m.changes = append(m.changes, amend.Change{Path: "openings", Value: value, Add: true})
		return err
	}
	o := &m.j.Openings[i]
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

// fill gives something in an opening that is there a value.
func (m *Merge) fill(e *Entry, path []string, text string) {
	m.Filled++
	at := fmt.Sprintf("openings[%d].%s", m.at[e.ID], amend.Path(path...))
	m.changes = append(m.changes, amend.Change{Path: at, Value: amend.Text(text)})
}

// field adds a field that is not given yet.
func (m *Merge) field(e *Entry, o *opening.Opening, v *Value) {
	path := strings.Join(v.Path, ".")
	t := targets[path]
	switch has := t.get(o); {
	case has == "" || has == "unknown" && o.SameAs != "":
		m.fill(e, v.Path, v.Text)
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
			m.fill(e, append([]string{"survey"}, path...), text)
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

// Text is the text of the job file with everything added to it.
func (m *Merge) Text(text string, r *Result, file string) (string, error) {
	changes := m.changes
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
			changes = append(changes, amend.Change{Path: amend.Path("notes", rowsNote, key), Value: amend.Inline(rows)})
		}
	}
	if len(changes) == 0 {
		return text, nil
	}
	return amend.Fill(text, changes)
}
