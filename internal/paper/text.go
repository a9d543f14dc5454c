package paper

import (
	"strings"
	"sync"
	"unicode"

	"swingwright/internal/draw"
)

// A Face is how text looks.
type Face struct {
	// Cap is the height of capital letters, mm; Lead the distance from one line
	// to the next.
	Cap, Lead float64
	Bold      bool
}

// The faces. What is to be read at arm's length needs capitals of 2.5 mm (as
// ISO 3098-1 counts them); tables are read close by.
var (
	Title   = Face{5.2, 9, true}
	Head    = Face{3.1, 5.6, true}
	Sub     = Face{2.5, 4.9, true}
	Body    = Face{2.5, 4.9, false}
	Strong  = Face{2.5, 4.9, true}
	Small   = Face{2, 3.7, false}
	cell    = Face{2.15, 4.1, false}
	cellHd  = Face{2.1, 3.9, true}
	running = Face{2, 3.6, false}
)

// advances are the widths of letters 1 mm high, of those that are used most.
var advances = sync.OnceValue(func() *[2][0x2680]float64 {
	var w [2][0x2680]float64
	for bold := range w {
		for r := ' '; int(r) < len(w[bold]); r++ {
			w[bold][r] = draw.Text{Body: string(r), Height: 1, Bold: bold == 1}.Width()
		}
	}
	return &w
})

// advance is how far a letter moves the pen, in heights of capitals.
func (f *Face) advance(r rune) float64 {
	face := 0
	if f.Bold {
		face = 1
	}
	if w := advances(); r >= 0 && int(r) < len(w[face]) {
		return w[face][r]
	}
	return draw.Text{Body: string(r), Height: 1, Bold: f.Bold}.Width()
}

// width is the length of a line, mm.
func (f Face) width(line string) float64 {
	w := 0.
	for _, r := range line {
		w += f.advance(r)
	}
	return w * f.Cap
}

// Hold keeps a text on one line, as a number with its unit.
func Hold(text string) string { return strings.ReplaceAll(text, " ", noBreak) }

const noBreak = "\u00a0"

// words are the parts of a text between which a line may break, without what has
// no picture: what a file says must not reach the page as a control character.
func words(text string) []string {
	text = strings.ToValidUTF8(text, draw.InPlace)
	parts := strings.FieldsFunc(text, func(r rune) bool { return unicode.IsSpace(r) && r != '\u00a0' })
	all := parts[:0]
	for _, p := range parts {
		p = strings.Map(func(r rune) rune {
			switch {
			case r == '\u00a0':
				return ' '
			case unicode.IsControl(r) || unicode.Is(unicode.Cf, r):
				return -1
			}
			return r
		}, p)
		if p != "" {
			all = append(all, p)
		}
	}
	return all
}

// Wrap breaks a text into lines no longer than width, mm, between words where it
// can and within a word that is longer than a line. It gives at least one line.
func (f Face) Wrap(text string, width float64) []string {
	const slack = 1e-6
	space := f.advance(' ') * f.Cap
	var lines []string
	line, used := "", 0.
	for _, word := range words(text) {
		w := f.width(word)
		switch {
		case line == "" && w <= width+slack:
			line, used = word, w
			continue
		case line != "" && used+space+w <= width+slack:
			line, used = line+" "+word, used+space+w
			continue
		case line != "":
			lines = append(lines, line)
			line, used = "", 0
		}
		if w <= width+slack {
			line, used = word, w
			continue
		}
		for _, r := range word {
			one := f.advance(r) * f.Cap
			if line != "" && used+one > width+slack {
				lines = append(lines, line)
				line, used = "", 0
			}
			line, used = line+string(r), used+one
		}
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// brief is a text in so many lines at most, the last one cut short by an ellipsis
// where it has more: for what is said again elsewhere in full.
func (f Face) brief(text string, width float64, most int) []string {
	lines := f.Wrap(text, width)
	if len(lines) <= most {
		return lines
	}
	last := []rune(lines[most-1])
	for len(last) > 0 && f.width(string(last)+"…") > width {
		last = last[:len(last)-1]
	}
	return append(lines[:most-1:most-1], string(last)+"…")
}

// longest is the width of the longest word.
func (f Face) longest(text string) float64 {
	most := 0.
	for _, word := range words(text) {
		most = max(most, f.width(word))
	}
	return most
}
