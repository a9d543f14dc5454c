package paper

import "swingwright/internal/draw"

// Blank is a line to write on behind its label, so wide as a share of the page.
type Blank struct {
	Label string
	Share float64 // of the width; all blanks of a row share what is left by theirs
}

// Blanks puts blanks in a row, each with its label below its line.
func (d *Document) Blanks(blanks ...Blank) {
	const gap = 5.
	tall := d.set().blank
	total := 0.
	for _, b := range blanks {
		total += max(b.Share, 0)
	}
	if total == 0 {
		return
	}
	room := d.Width() - gap*float64(len(blanks)-1)
	most := 1
	labels := make([][]string, len(blanks))
	for i, b := range blanks {
		labels[i] = Small.brief(b.Label, room*b.Share/total, 4)
		most = max(most, len(labels[i]))
	}
	height := tall + 1.3 + float64(most)*Small.Lead
	d.need(height)
	x := float64(side)
	for i, b := range blanks {
		w := room * b.Share / total
		d.line(x, d.y+tall, x+w, d.y+tall, draw.Style{Width: 0.2})
		for k, line := range labels[i] {
			d.put(Small, x, d.y+tall+1.3+float64(k)*Small.Lead, draw.Start, line)
		}
		x += w + gap
	}
	d.y += height
	d.Space(2.6)
}

// Lines leaves so many lines to write on.
func (d *Document) Lines(n int) {
	tall := d.set().line
	for range n {
		d.need(tall)
		d.y += tall
		d.line(side, d.y, d.size.Width-side, d.y, draw.Style{Width: 0.15, Stroke: draw.Grey})
	}
	d.Space(2)
}

// LinesToFoot leaves lines to write on down to the foot of the page, save what is
// written below them: a line or two at least, on the next page where they have no room,
// and a dozen at most.
func (d *Document) LinesToFoot(below func()) {
	const most = 12
	rest := d.height(below)
	tall, least := d.set().line, d.set().least
	d.need(float64(least)*tall + 2 + rest)
	d.Lines(max(least, min(most, int((d.Left()-rest-2)/tall))))
	below()
}

// height is what something takes that is written by itself, mm.
func (d *Document) height(write func()) float64 {
	alone := New(d.size, d.run)
	alone.close = d.close
	outer := *d
	*d = *alone
	d.turn()
	write()
	d.settle()
	height := d.y - d.top
	*d = outer
	return height
}

// Pair writes a label and its value beside it, in columns that line up.
func (d *Document) Pair(label, value string) {
	const column = 46.
	l, v := Body.Wrap(label, column-3), Strong.Wrap(value, d.Width()-column)
	n := max(len(l), len(v))
	lead := d.lead(Body)
	d.need(float64(min(n, 4)) * lead)
	for i := range n {
		d.need(lead)
		if i < len(l) {
			d.put(Body, side, d.y, draw.Start, l[i])
		}
		if i < len(v) {
			d.put(Strong, side+column, d.y, draw.Start, v[i])
		}
		d.y += lead
	}
	d.y += 0.6
}
