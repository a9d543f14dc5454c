// Package label draws the square codes (ISO/IEC 18004) that lead a phone to an opening's
// page: sheets of labels to stick on frames, and a code of letters for a terminal.
package label

import (
	"fmt"
	"strings"

	"rsc.io/qr"

	"swingwright/internal/draw"
)

// A Label is what sticks on one frame.
type Label struct {
	Address string // of the opening's page; what the code says
	ID      string // of the opening, large
	Name    string // of the opening
	Job     string // its customer or site
}

// quiet is how many modules stay white around a code: ISO/IEC 18004:2015, 6.3.8.
const quiet = 4

// The layout of a sheet, mm.
const (
	margin  = 10.0 // what office printers leave white
	width   = 62.0
	height  = 38.0
	code    = 32.0 // the code with its quiet zone
	inset   = 3.0
	letters = 2.3
)

// Sheets lays labels out on pages of a size in mm, three beside one another on Letter and A4, with
// lines to cut along. An address that no code can hold is an error.
func Sheets(pageWidth, pageHeight float64, labels []Label) ([]*draw.Scene, error) {
	columns, rows := int((pageWidth-2*margin)/width), int((pageHeight-2*margin)/height)
	if columns < 1 || rows < 1 {
		return nil, fmt.Errorf("a page of %g mm × %g mm has no room for a label", pageWidth, pageHeight)
	}
	var pages []*draw.Scene
	for i, l := range labels {
		at := i % (columns * rows)
		if at == 0 {
			pages = append(pages, &draw.Scene{Width: pageWidth, Height: pageHeight, Title: fmt.Sprintf("Labels, sheet %d", len(pages)+1),
				Description: "Labels to cut out and stick on frames. The code of each leads a phone to the page of the opening."})
		}
		left := (pageWidth-float64(columns)*width)/2 + float64(at%columns)*width
		bottom := pageHeight - margin - float64(at/columns+1)*height
		if err := l.put(pages[len(pages)-1], left, bottom); err != nil {
			return nil, err
		}
	}
	return pages, nil
}

// put draws one label.
func (l *Label) put(s *draw.Scene, left, bottom float64) error {
	c, err := qr.Encode(l.Address, qr.M)
	if err != nil {
		return fmt.Errorf("the label of %s: %w; hint: give a shorter address", l.ID, err)
	}
	cut := draw.Rectangle(draw.Point{X: left, Y: bottom}, draw.Point{X: left + width, Y: bottom + height}, draw.Style{Width: 0.1, Dash: []float64{1, 2}})
	cut.Title = "label of " + l.ID + ": " + l.Address
	s.Add(cut)
	module := code / float64(c.Size+2*quiet)
	x, y := left+inset/2+quiet*module, bottom+height-(height-code)/2-quiet*module // of its upper left corner
	for row := range c.Size {
		for from := 0; from < c.Size; from++ {
			if !c.Black(from, row) {
				continue
			}
			to := from
			for to < c.Size && c.Black(to, row) {
				to++
			}
			s.Add(draw.Rectangle(draw.Point{X: x + float64(from)*module, Y: y - float64(row)*module}, draw.Point{X: x + float64(to)*module, Y: y - float64(row+1)*module}, draw.Style{Fill: draw.Ink}))
			from = to
		}
	}
	at := draw.Point{X: left + code + inset, Y: bottom + height - inset - 2}
	room := width - code - 2*inset
	id := 5.0
	if most := room / (0.75 * float64(len([]rune(l.ID)))); most < id {
		id = max(most, letters)
	}
	s.Add(draw.Text{At: at, Body: cutTo(l.ID, room, id), Height: id, Level: draw.Top, Bold: true})
	at.Y -= id + 3
	for _, line := range append(wrap(l.Name, room, letters, 3), wrap(l.Job, room, letters, 2)...) {
		s.Add(draw.Text{At: at, Body: line, Height: letters, Level: draw.Top})
		at.Y -= 1.7 * letters
	}
	return nil
}

// wide is how wide a letter is on the average, in heights of capitals, with something to spare.
const wide = 0.85

// cutTo cuts a text to what has room.
func cutTo(text string, room, height float64) string {
	r := []rune(text)
	if most := max(int(room/(wide*height)), 1); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return text
}

// wrap breaks a text into at most so many lines.
func wrap(text string, room, height float64, most int) (lines []string) {
	letters := int(room / (wide * height))
	for _, word := range strings.Fields(text) {
		if n := len(lines); n > 0 && len([]rune(lines[n-1]))+1+len([]rune(word)) <= letters {
			lines[n-1] += " " + word
		} else {
			lines = append(lines, word)
		}
	}
	if len(lines) > most {
		lines = append(lines[:most-1], strings.Join(lines[most-1:], " "))
	}
	for i := range lines {
		lines[i] = cutTo(lines[i], room, height)
	}
	return lines
}

// Terminal is the code of a text in half blocks, two rows of modules in a line. On a terminal that can
// colour, black stands on white whatever its own colours are; else dark modules are left blank, which
// reads on a dark ground.
func Terminal(text string, colours bool) (string, error) {
	c, err := qr.Encode(text, qr.L)
	if err != nil {
		return "", err
	}
	var b strings.Builder
	for y := -quiet; y < c.Size+quiet; y += 2 {
		if colours {
			b.WriteString("\x1b[97;40m") // white letters on black
		}
		for x := -quiet; x < c.Size+quiet; x++ {
			upper, lower := !c.Black(x, y), !c.Black(x, y+1) && y+1 < c.Size+quiet
			switch {
			case upper && lower:
				b.WriteRune('█')
			case upper:
				b.WriteRune('▀')
			case lower:
				b.WriteRune('▄')
			default:
				b.WriteByte(' ')
			}
		}
		if colours {
			b.WriteString("\x1b[0m")
		}
		b.WriteByte('\n')
	}
	return b.String(), nil
}
