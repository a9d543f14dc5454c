// Package schedule reads door schedules as owners keep them, CSV or XLSX under
// headings of their own, into openings of a job, and writes openings as schedules.
//
// Nothing that stands in a schedule is dropped in silence: a column that goes with no
// field of an opening is kept as a note under its heading, a cell that cannot be read
// is kept as it stands and told with its place, and a row that is no opening is kept
// with the job.
package schedule

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"iter"
	"strings"
)

// A Place is a cell of a schedule. Row and Column count from 1; zero stands for all.
type Place struct {
	Sheet       string
	Row, Column int
}

// String is the place as spread-sheets name it: Doors!C12, or C12 where there is one
// sheet only.
func (p Place) String() string {
	cell := columnName(p.Column)
	if p.Row > 0 {
		cell += fmt.Sprint(p.Row)
	}
	switch {
	case cell == "":
		return p.Sheet
	case p.Sheet == "":
		return cell
	}
	return p.Sheet + "!" + cell
}

// columnName is that of a column, A to Z and on with AA; empty for 0.
func columnName(n int) (name string) {
	for ; n > 0; n = (n - 1) / 26 {
		name = string(rune('A'+(n-1)%26)) + name
	}
	return name
}

// A Row is one row of a sheet, cells as text.
type Row struct {
	Number int
	Cells  []string
	// Formulas and Merged tell the columns, from 0, whose cells hold the value of a
	// formula, or that of a merged cell which begins above.
	Formulas, Merged []int
	// unsaved tells, by column, the formulas whose value the file does not hold; the cell
	// then is the formula.
	unsaved map[int]unsaved
}

// unsaved is a formula whose value the file does not hold, and what it comes to where that
// is worked out.
type unsaved struct{ formula, value string }

// workOut takes what formulas come to for their cells.
func (r *Row) workOut() {
	for i, u := range r.unsaved {
		if u.value != "" {
			r.Cells[i] = u.value
		}
	}
}

// blank tells a row without any text.
func (r *Row) blank() bool {
	for _, c := range r.Cells {
		if strings.TrimSpace(c) != "" {
			return false
		}
	}
	return true
}

// cell is that of a column from 0, without space around it.
func (r *Row) cell(i int) string {
	if i < len(r.Cells) {
		return strings.TrimSpace(r.Cells[i])
	}
	return ""
}

// A Sheet is one table of a file. Its rows can be walked once, after those of the
// sheets before it.
type Sheet struct {
	Name string // empty in a CSV file
	Rows iter.Seq2[*Row, error]
	// groups tells, for a row, how far its merged cells reach: first column to last.
	groups map[int][][2]int
}

// A Source is a file with schedules.
type Source struct {
	Kind      string // CSV or XLSX
	Encoding  Encoding
	Separator rune
	Sheets    []Sheet
	strays    *strays
	close     func() error
}

// Close lets go of what was needed for reading.
func (s *Source) Close() error {
	if s.close == nil {
		return nil
	}
	return s.close()
}

// Strays counts the bytes of a file in UTF-8 that are none and were read as
// Windows-1252; it is whole once all rows were walked.
func (s *Source) Strays() int {
	if s.strays == nil {
		return 0
	}
	return s.strays.count
}

// Refused is a file that is not read, and why.
type Refused struct{ What, Hint string }

func (r *Refused) Error() string { return r.What }

const (
	sniffed = 64 << 10
	// longestRow is the most bytes of one row of a CSV file: a quotation mark that is
	// never closed would else take the rest of the file for one cell.
	longestRow = 4 << 20
	// mostColumns is how many columns are read; no schedule is as wide.
	mostColumns = 1000
)

// Open looks at the first bytes of a file and gets ready to walk its rows. A CSV file
// is read as its rows are walked, so that its length does not matter. Its error is a
// *Refused where the file is none that is read.
func Open(r io.Reader) (*Source, error) {
	b := bufio.NewReaderSize(r, sniffed)
	head, err := b.Peek(sniffed)
	if err != nil && !errors.Is(err, io.EOF) {
		return nil, err
	}
	switch {
	case len(bytes.TrimSpace(head)) == 0:
		return nil, &Refused{"the file is empty", "save the schedule again"}
	case bytes.HasPrefix(head, []byte("PK\x03\x04")):
		return openXLSX(b)
	case bytes.HasPrefix(head, []byte("\xd0\xcf\x11\xe0")):
		return nil, &Refused{"this is an old binary spread-sheet, or one with a password", "save it as .xlsx without a password, or as CSV"}
	case bytes.HasPrefix(head, []byte("%PDF")):
		return nil, &Refused{"this is a PDF, not a table", "ask the owner for the spread-sheet that it was made from"}
	}
	return openCSV(b, head), nil
}

func openCSV(r io.Reader, head []byte) *Source {
	s := &Source{Kind: "CSV", Encoding: encodingOf(head), strays: new(strays)}
	sample, _ := io.ReadAll(decoded(bytes.NewReader(whole(head)), s.Encoding, new(strays)))
	text := string(sample)
	lines := lineEnds{}
	if strings.Contains(text, "\r") && !strings.Contains(text, "\n") {
		lines.old = true
		text = strings.ReplaceAll(text, "\r", "\n")
	}
	skip := 0
	if first, _, _ := strings.Cut(text, "\n"); strings.HasPrefix(first, "sep=") && len(strings.TrimSpace(first)) == len("sep=")+1 {
		s.Separator, skip = rune(first[len("sep=")]), 1 // a first line that names it, as office programs write
	} else {
		s.Separator = separatorOf(text)
	}
	lines.r = decoded(r, s.Encoding, s.strays)
	s.Sheets = []Sheet{{Rows: func(yield func(*Row, error) bool) { rowsOfCSV(&lines, s.Separator, skip, yield) }}}
	return s
}

// lineEnds reads a text, with old line ends made new ones, and stops at a row that
// does not end.
type lineEnds struct {
	r     io.Reader
	old   bool
	taken int // bytes since the last row
}

var errLongRow = errors.New("row too long")

// Read is that of io.Reader.
func (l *lineEnds) Read(p []byte) (int, error) {
	if l.taken > longestRow {
		return 0, errLongRow
	}
	n, err := l.r.Read(p)
	l.taken += n
	if l.old {
		for i := range p[:n] {
			if p[i] == '\r' {
				p[i] = '\n'
			}
		}
	}
	return n, err
}

func rowsOfCSV(lines *lineEnds, separator rune, skip int, yield func(*Row, error) bool) {
	r := csv.NewReader(lines)
	r.Comma, r.LazyQuotes, r.FieldsPerRecord = separator, true, -1
	for {
		cells, err := r.Read()
		lines.taken = 0
		switch {
		case errors.Is(err, io.EOF):
			return
		case errors.Is(err, errLongRow):
			yield(nil, &Refused{fmt.Sprintf("a row is longer than %d MB", longestRow>>20), "look for a quotation mark that is never closed"})
			return
		case err != nil:
			yield(nil, err)
			return
		}
		line, _ := r.FieldPos(0)
		if line <= skip {
			continue
		}
		if len(cells) > mostColumns {
			yield(nil, &Refused{fmt.Sprintf("row %d has %d columns", line, len(cells)), fmt.Sprintf("at most %d are read; is this a schedule?", mostColumns)})
			return
		}
		for i := range cells {
			cells[i] = unguarded(cells[i])
		}
		if !yield(&Row{Number: line, Cells: cells}, nil) {
			return
		}
	}
}
