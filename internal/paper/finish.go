package paper

import (
	"fmt"
	"slices"
	"strconv"

	"swingwright/internal/draw"
)

// Leader writes a line of the contents: a title, what it is for, and the page on
// which the paper with the key begins, which is filled in by Finish.
func (d *Document) Leader(key, title, about string) {
	const number = 12.
	names := Strong.Wrap(title, 0.42*d.Width())
	texts := cell.Wrap(about, d.Width()*0.58-number-5)
	height := max(float64(len(names))*d.lead(Strong), float64(len(texts))*d.lead(cell)) + 1.6
	d.need(height)
	y := d.y + 0.5
	d.leaders = append(d.leaders, leader{key, len(d.pages) - 1, y})
	d.y = y
	d.text(Strong, side, names)
	d.y = y + Strong.Cap - cell.Cap // on one base line
	d.text(cell, side+0.42*d.Width()+4, texts)
	d.y = y + height - 0.5
	d.line(side, d.y-0.7, d.size.Width-side, d.y-0.7, draw.Style{Width: 0.12, Stroke: draw.Grey})
}

// rawNumber is how far from the left the number of a page stands that was given whole, mm.
const rawNumber = 117

// Lacking are the letters on the pages so far that the font has no picture of.
func (d *Document) Lacking() (all []rune) {
	for i, p := range d.pages {
		all = append(all, p.Lacking()...)
		if b, ok := d.below[i]; ok && b.Scene != nil {
			all = append(all, b.Scene.Lacking()...)
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// Finish puts what is only known at the end: the page numbers, "3 of 17", and those
// of the contents. Nothing is added after it.
func (d *Document) Finish() {
	d.flush()
	all := d.pages
	for i := range all {
		d.pages = all[:i+1]
		number := fmt.Sprintf("page %d of %d", i+1, len(all))
		if d.raw[i] {
			p := all[i]
			p.Add(draw.Text{At: draw.Point{X: rawNumber, Y: 8}, Body: number, Height: running.Cap})
			continue
		}
		y := d.size.Height - edge - running.Cap - float64(len(d.foot)-1)*running.Lead
		d.line(side, y-3.4, d.size.Width-side, y-3.4, draw.Style{Width: 0.25})
		for k, line := range d.foot {
			d.put(running, side, y+float64(k)*running.Lead, draw.Start, line)
		}
		d.put(running, d.size.Width-side, y, draw.End, number)
		for _, l := range d.leaders {
			if page, ok := d.targets[l.key]; ok && l.page == i {
				d.put(Strong, d.size.Width-side, l.y, draw.End, strconv.Itoa(page+1))
			}
		}
	}
}
