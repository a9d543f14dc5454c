package schedule

import (
	"encoding/csv"
	"io"
	"slices"
	"strconv"
	"strings"

	"swingwright/internal/workbook"
	"swingwright/opening"
)

// A Schedule is a job's openings as a table.
type Schedule struct {
	Headings []string
	Fields   []string // by column: what it holds, empty for a note
	Units    []string // by column: of cells without one, empty where none is needed
	columns  []out
}

// out is one column that is written.
type out struct {
	heading, unit string
	target        *target  // nil for a note
	note          []string // keys under survey
}

// Of makes the schedule of a job's openings: under the headings of a mapping, in their
// order, if there is one, then every field that any opening gives, then every note.
func Of(openings []opening.Opening, m *Mapping) *Schedule {
	s := new(Schedule)
	given, heads := map[string]bool{}, map[string]bool{}
	add := func(c out, path string) {
		s.columns = append(s.columns, c)
		s.Headings, s.Fields = append(s.Headings, c.heading), append(s.Fields, path)
		s.Units = append(s.Units, c.unit)
		heads[c.heading] = true
		given[path] = true
	}
	if m != nil {
		for i := range m.Sheets {
			for _, c := range m.Sheets[i].Columns {
				if heads[c.Heading] {
					continue
				}
				add(out{c.Heading, c.Unit, targets[c.Field], notePath(c.Heading)}, c.Field)
			}
		}
	}
	if given[nominalWidth] || given[nominalHeight] {
		given[nominalField] = true
	}
	for i := range fields {
		path := fields[i].Path
		t := targets[path]
		if !given[path] && slices.ContainsFunc(openings, func(o opening.Opening) bool { return path == "id" || t.get(&o) != "" }) {
			add(out{heading: strings.ReplaceAll(strings.ReplaceAll(path, ".", " "), "_", " "), target: t}, path)
		}
	}
	for _, heading := range notesOf(openings) {
		if !heads[heading] && !heads[strings.TrimPrefix(heading, writtenHead)] {
			add(out{heading: heading, note: notePath(heading)}, "")
		}
	}
	return s
}

// notesOf are the headings of the notes of openings that are texts: theirs, then those
// of cells as they stood in another schedule.
func notesOf(openings []opening.Opening) []string {
	seen := map[string]bool{}
	var notes, written []string
	gather := func(record map[string]any, lead string, into *[]string) {
		for k, v := range record {
			if _, ok := v.(string); ok && !seen[lead+k] {
				seen[lead+k] = true
				*into = append(*into, lead+k)
			}
		}
	}
	for i := range openings {
		gather(openings[i].Survey, "", &notes)
		cells, _ := openings[i].Survey[asWritten].(map[string]any)
		gather(cells, writtenHead, &written)
	}
	slices.Sort(notes)
	slices.Sort(written)
	return append(notes, written...)
}

// Row is the row of an opening.
func (s *Schedule) Row(o *opening.Opening) []string {
	written, _ := o.Survey[asWritten].(map[string]any)
	cells := make([]string, len(s.columns))
	for i := range s.columns {
		cells[i] = s.columns[i].cell(o, written)
	}
	return cells
}

// cell is what a column says of an opening: as it was written, as long as that still
// means what the job says.
func (c *out) cell(o *opening.Opening, written map[string]any) string {
	if c.target == nil {
		record := o.Survey
		for _, key := range c.note[:len(c.note)-1] {
			record, _ = record[key].(map[string]any)
		}
		note, _ := record[c.note[len(c.note)-1]].(string)
		return note
	}
	value := c.target.get(o)
	cell, ok := written[c.heading].(string)
	if !ok {
		return value
	}
	text, err := c.target.read(cell, c.unit)
	switch {
	case c.target.path == "id" && value != "" && strings.HasPrefix(value, cell+" ("):
		return cell
	case value == "" && strings.HasPrefix(cell, "="), // a formula that nobody had reckoned
		isBlank(cell) && value == "", err != nil && value == "", err == nil && c.target.same(text, value),
		err == nil && c.target.half && value == "": // the other half was not read
		return cell
	}
	return value
}

// WriteCSV writes the schedule of openings as CSV in UTF-8, no cell of which a
// spread-sheet takes for a formula.
func (s *Schedule) WriteCSV(w io.Writer, openings []opening.Opening) error {
	c := csv.NewWriter(w)
	c.UseCRLF = true // RFC 4180, 2.1
	line := func(cells []string) error {
		safe := make([]string, len(cells))
		for i := range cells {
			safe[i] = guarded(cells[i])
		}
		return c.Write(safe)
	}
	if err := line(s.Headings); err != nil {
		return err
	}
	for i := range openings {
		if err := line(s.Row(&openings[i])); err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
}

// Sheet is the schedule of openings as a sheet of a workbook: plain numbers as numbers.
func (s *Schedule) Sheet(openings []opening.Opening) workbook.Sheet {
	sheet := workbook.Sheet{Name: "Schedule"}
	for _, h := range s.Headings {
		sheet.Columns = append(sheet.Columns, workbook.Column{Heading: h})
	}
	for i := range openings {
		cells := s.Row(&openings[i])
		row := make([]any, len(cells))
		for k, c := range cells {
			row[k] = asNumber(c)
		}
		sheet.Rows = append(sheet.Rows, row)
	}
	return sheet
}

// asNumber is a text as a number where that is written alike, so that 007 and 1.50
// stay what they are.
func asNumber(text string) any {
	if text == "" {
		return nil
	}
	if x, err := strconv.ParseFloat(text, 64); err == nil && len(text) < 15 && strconv.FormatFloat(x, 'f', -1, 64) == text {
		return x
	}
	return text
}
