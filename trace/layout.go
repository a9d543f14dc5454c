package trace

import (
	"bytes"
	"slices"
)

// layout is how a file writes its rows.
type layout struct {
	sep     byte
	comma   bool // before decimals
	columns int
	names   []string // of the header; empty without one
	header  int      // its line, from 0; -1 without one
	first   int      // first line of data
	above   int      // cells of a line above the data that has another number of them; 0 without one
}

// comment tells a line that holds no data: blank, or begun as comments are.
func comment(line []byte) bool {
	line = bytes.TrimSpace(line)
	return len(line) == 0 || line[0] == '#' || line[0] == '%' || bytes.HasPrefix(line, []byte("//"))
}

// sniff finds the layout from lines of the file's second half, where no
// preamble stands; false where no lines look like rows of numbers.
func sniff(lines [][]byte) (layout, bool) {
	sample := sampleOf(lines)
	best, most := layout{}, 0
	for _, sep := range []byte{'\t', ';', ',', '|', ' '} {
		for _, comma := range []bool{false, true} {
			if score, columns := score(sample, sep, comma); score > most {
				best, most = layout{sep: sep, comma: comma, columns: columns, header: -1}, score
			}
		}
	}
	if most == 0 {
		return best, false
	}
	return best, best.begin(lines)
}

// sampleOf takes lines that are no comments from the second half of a file.
func sampleOf(lines [][]byte) (sample [][]byte) {
	const wanted = 40
	half := lines[len(lines)/2:]
	step := max(1, len(half)/wanted)
	for i := 0; i < len(half); i += step {
		if !comment(half[i]) {
			sample = append(sample, half[i])
		}
	}
	if len(sample) > 1 && step == 1 {
		sample = sample[:len(sample)-1] // it may be cut short
	}
	return sample
}

// score is how well lines read as rows of numbers, and their number of columns.
func score(sample [][]byte, sep byte, comma bool) (total, columns int) {
	var row [][]byte
	counts := make(map[int]int)
	for _, line := range sample {
		row = cells(line, sep, row[:0])
		counts[len(row)]++
		if len(row) < 2 || len(row) > mostColumns {
			continue
		}
		for _, c := range row {
			total += worth(c, comma)
		}
	}
	for n, count := range counts {
		if count > counts[columns] || count == counts[columns] && n > columns {
			columns = n
		}
	}
	if columns < 2 || columns > mostColumns {
		return 0, 0
	}
	return total, columns
}

// mostColumns is how many columns a recording may have.
const mostColumns = 200

// worth is what a cell says for a layout.
func worth(c []byte, comma bool) int {
	if _, s := numberIn(c, comma); s == number {
		return 2
	} else if s == missing {
		return 0
	}
	if _, ok := clockIn(c); ok {
		return 2
	}
	return -3
}

// begin finds the first row of numbers and the header above it; false where
// there is no such row.
func (l *layout) begin(lines [][]byte) bool {
	var row [][]byte
	for i, line := range lines {
		if comment(line) {
			continue
		}
		if row = cells(line, l.sep, row[:0]); l.numeric(row) {
			l.first = i
			l.findHeader(lines[:i])
			return true
		}
	}
	return false
}

// numeric tells a row of numbers.
func (l *layout) numeric(row [][]byte) bool {
	numbers := 0
	for _, c := range row {
		if worth(c, l.comma) == 2 {
			numbers++
		}
	}
	return len(row) == l.columns && numbers >= 2
}

// findHeader looks for names in the nearest line above the data that has as many
// cells; it may be a comment. A line of units alone is joined to the names above.
func (l *layout) findHeader(above [][]byte) {
	var units []string
	for i := len(above) - 1; i >= 0; i-- {
		line := bytes.TrimLeft(above[i], "#%/ ")
		names := l.namesIn(line)
		if len(names) != l.columns {
			if l.above == 0 && len(names) > 1 && !comment(above[i]) {
				l.above = len(names)
			}
			continue
		}
		if units == nil && onlyUnits(names) {
			units = names
			continue
		}
		l.names, l.header = names, i
		break
	}
	if l.names == nil {
		l.names = units
		return
	}
	for i, u := range units {
		if u != "" {
			l.names[i] += " (" + bareUnit(u) + ")"
		}
	}
}

// namesIn cuts a header line, which may be parted otherwise than the data.
func (l *layout) namesIn(line []byte) []string {
	named := func(sep byte) (names []string) {
		for _, c := range cells(line, sep, nil) {
			names = append(names, words(c))
		}
		return names
	}
	names := named(l.sep)
	for _, sep := range []byte{'\t', ';', ',', '|'} {
		if len(names) != l.columns {
			if other := named(sep); len(other) == l.columns || len(names) < 2 {
				names = other
			}
		}
	}
	return names
}

// onlyUnits tells a line below the header that holds its units.
func onlyUnits(names []string) bool {
	some := false
	for _, n := range names {
		if _, ok := unitOf(bareUnit(n)); !ok && n != "" {
			return false
		}
		some = some || n != ""
	}
	return some && !slices.Contains(names, "t")
}

// bareUnit is a unit without brackets around it.
func bareUnit(text string) string {
	if n := len(text); n > 2 && (text[0] == '(' || text[0] == '[') {
		return text[1 : n-1]
	}
	return text
}
