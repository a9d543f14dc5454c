package report

import (
	"bufio"
	"strings"
	"unicode"
	"unicode/utf8"

	"swingwright/phrasebook"
)

// table lays out rows in columns. A column is as wide as its widest cell; where
// the page is too narrow the widest column gives way first, and its cells wrap
// between words. Only where that does not suffice do columns narrower than their
// longest word break it, down to their least width.
type table struct {
	indent int
	width  int   // of the page, characters
	least  []int // narrowest width of each column
	rows   []row
	// phrases say the cells in another language; nil for English.
	phrases *phrasebook.Book
}

// row is one row of a table.
type row struct {
	cells []string
	tint  tint // of the first cell
	note  bool // the only cell runs on from the second column to the page's end
}

// gap is the space between two columns.
const gap = 2

func (t *table) add(cells ...string) { t.rows = append(t.rows, row{cells: cells}) }

// note adds a line of text that belongs to the row above.
func (t *table) note(text string) {
	t.rows = append(t.rows, row{cells: []string{text}, note: true})
}

// write lays the table out.
func (t *table) write(w *bufio.Writer, colour bool) {
	t.say()
	widths := t.widths()
	for _, r := range t.rows {
		if r.note {
			left := t.indent + widths[0] + gap
			for _, line := range wrap(r.cells[0], t.width-left) {
				w.WriteString(strings.Repeat(" ", left) + line + "\n")
			}
			continue
		}
		t.writeRow(w, r, widths, colour)
	}
}

// say says all cells in the language of the report.
func (t *table) say() {
	if t.phrases == nil {
		return
	}
	for _, r := range t.rows {
		for i, text := range r.cells {
			r.cells[i] = t.phrases.Say(text)
		}
	}
}

func (t *table) writeRow(w *bufio.Writer, r row, widths []int, colour bool) {
	cells, height := make([][]string, len(r.cells)), 0
	for i, text := range r.cells {
		cells[i] = wrap(text, widths[i])
		height = max(height, len(cells[i]))
	}
	for line := range height {
		var out strings.Builder
		out.WriteString(strings.Repeat(" ", t.indent))
		pad := 0
		for i, cell := range cells {
			text := ""
			if line < len(cell) {
				text = cell[line]
			}
			if text != "" {
				out.WriteString(strings.Repeat(" ", pad))
				pad = 0
				if i == 0 && colour {
					out.WriteString(r.tint.paint(text))
				} else {
					out.WriteString(text)
				}
			}
			pad += widths[i] - utf8.RuneCountInString(text) + gap
		}
		w.WriteString(out.String() + "\n")
	}
}

// widths are the widths of the columns.
func (t *table) widths() []int {
	widths, whole := make([]int, len(t.least)), make([]int, len(t.least))
	copy(whole, t.least)
	for _, r := range t.rows {
		if r.note {
			continue
		}
		for i, text := range r.cells {
			widths[i] = max(widths[i], utf8.RuneCountInString(text))
			for _, word := range words(text) {
				whole[i] = max(whole[i], utf8.RuneCountInString(word))
			}
		}
	}
	t.narrow(widths, whole)
	t.narrow(widths, t.least)
	return widths
}

// narrow takes from the widest columns what the page has no room for, as far as
// the least widths allow.
func (t *table) narrow(widths, least []int) {
	total := t.indent - gap
	for _, width := range widths {
		total += width + gap
	}
	for ; total > t.width; total-- {
		widest := -1
		for i, width := range widths {
			if width > least[i] && (widest < 0 || width > widths[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			return
		}
		widths[widest]--
	}
}

// words are the parts of a text between which a line may break.
func words(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return r != '\u00a0' && unicode.IsSpace(r) })
}

// hold keeps a text such as "3.5 s" on one line.
func hold(text string) string { return strings.ReplaceAll(text, " ", noBreak) }

const noBreak = "\u00a0"

// wrap breaks a text into lines of at most width characters, between words where
// it can. Control characters are left out: what a file says must not steer the
// terminal it is shown on.
func wrap(text string, width int) []string {
	width = max(width, 1)
	var lines []string
	line, used := "", 0
	flush := func() {
		lines = append(lines, strings.ReplaceAll(line, noBreak, " "))
		line, used = "", 0
	}
	for _, word := range words(text) {
		word = strings.Map(printable, word)
		size := utf8.RuneCountInString(word)
		if used > 0 && used+1+size > width {
			flush()
		}
		if used > 0 {
			line, used = line+" ", used+1
		}
		for ; size > width; size -= width { // a word longer than the line
			runes := []rune(word)
			line, word = string(runes[:width]), string(runes[width:])
			flush()
		}
		line, used = line+word, used+size
	}
	flush()
	return lines
}

func printable(r rune) rune {
	if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) {
		return -1
	}
	return r
}

// tint is a colour of the terminal, by its number among the basic sixteen.
type tint int

const (
	plainTint tint = 0
	red       tint = 31
	green     tint = 32
	yellow    tint = 33
	grey      tint = 90
)

// paint puts a text into colour.
func (t tint) paint(text string) string {
	if t == plainTint {
		return text
	}
	return "\x1b[" + string(rune('0'+int(t)/10)) + string(rune('0'+int(t)%10)) + "m" + text + "\x1b[0m"
}
