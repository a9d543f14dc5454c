package paper

import (
	"maps"
	"slices"

	"swingwright/internal/draw"
)

// A setting is how close things stand on a page.
type setting struct {
	leading float64 // from line to line, as a share of the face's own
	padding float64 // above and below the text of a table's row, mm
	blank   float64 // height of a blank to write on, mm
	line    float64 // from line to line to write on, mm
	row     float64 // least height of a row that is written in, mm
	above   float64 // room above headings, as a share of the usual
	least   int     // lines to write on at a paper's end
}

// settings from the usual one to the closest. Lines to write on never stand closer than
// 7 mm, as ruled paper has them (common practice).
var settings = [...]setting{
	{1, 1.25, 9, 8, 8, 1, 2},
	{0.96, 1, 8.2, 7.6, 7.5, 0.8, 2},
	{0.92, 0.8, 7.4, 7.1, 7, 0.65, 1},
	{0.89, 0.6, 7, 7, 7, 0.5, 1},
}

func (d *Document) set() *setting { return &settings[d.close] }

// lead is the distance of the lines of a face here.
func (d *Document) lead(f Face) float64 { return d.set().leading * f.Lead }

// Fitted begins a paper and has it written. One whose last page would hold little is set
// closer, where that saves the page; write is then called again, and must write the same.
func (d *Document) Fitted(key, title string, write func()) {
	const little = 0.8 // of a page; where more stands on it, closer setting saves none
	d.flush()
	before := d.state()
	attempt := func(close int) {
		d.close = close
		d.Paper(key, title)
		write()
		d.flush()
	}
	attempt(0)
	loose := d.state()
	for close := 1; close < len(settings); close++ {
		if len(d.pages)-len(before.pages) < 2 || (d.y-d.top)/(d.bottom()-d.top) > little || d.raw[len(d.pages)-1] {
			break
		}
		d.back(before)
		attempt(close)
		if len(d.pages) < len(loose.pages) {
			d.close = 0
			return
		}
		d.back(loose)
	}
	d.close = 0
}

// Whole has something written on one page: on the next one, where this one has not
// room for all of it. What takes more than a page begins where it is.
func (d *Document) Whole(write func()) {
	d.settle()
	if d.y <= d.top {
		write()
		return
	}
	before := d.state()
	write()
	d.settle()
	if len(d.pages) == len(before.pages) {
		return
	}
	over := d.state()
	d.back(before)
	d.turn()
	turned := len(d.pages)
	write()
	d.settle()
	if len(d.pages) > turned && turned == len(before.pages)+1 { // too much for any page
		d.back(over)
	}
}

// state is a copy of a document, with what stands on each of its pages.
type state struct {
	Document
	items [][]draw.Item
}

func (d *Document) state() state {
	s := state{Document: *d}
	s.pages, s.marks, s.leaders = slices.Clone(d.pages), slices.Clone(d.marks), slices.Clone(d.leaders)
	s.waiting, s.floats = slices.Clone(d.waiting), slices.Clone(d.floats)
	s.targets, s.raw, s.below = maps.Clone(d.targets), maps.Clone(d.raw), maps.Clone(d.below)
	for _, p := range d.pages {
		s.items = append(s.items, p.Items[:len(p.Items):len(p.Items)])
	}
	return s
}

// back makes the document what it was.
func (d *Document) back(to state) {
	*d = to.Document
	for i, p := range d.pages {
		p.Items = to.items[i]
	}
	*d = d.state().Document // so that what is written now leaves the kept one alone
}
