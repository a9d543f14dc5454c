package paper

import (
	"swingwright/internal/draw"
)

// Running is what stands at the head and the foot of every page.
type Running struct {
	Head string // left above, such as the job
	Foot string // left below, such as opening, revision and date
}

// A Document is filled from the top down, paper by paper.
type Document struct {
	size    Size
	run     Running
	title   string // of the paper under way, right above
	pages   []*draw.Scene
	y, top  float64 // how far the page is filled, and where its text begins, mm from the upper edge
	marks   []bookmark
	targets map[string]int // first page of each paper, by its key
	leaders []leader
	waiting []heading     // headings that stand with what follows them
	floats  []*draw.Scene // pictures that wait for the next page
	close   int           // which of settings
	foot    []string
	raw     map[int]bool  // pages that were given whole
	below   map[int]Below // what lies below the words of a page
}

// Below is the part of a drawing that lies below what is written on a page; the zero
// Below is nothing.
type Below struct {
	Scene *draw.Scene
	Part  draw.Box
	// At is the place of the part's upper left corner, from that of the page, mm, y down.
	At draw.Point
	// Scale is full size when zero.
	Scale float64
}

// scale is how large it is drawn.
func (b *Below) scale() float64 {
	if b.Scale == 0 {
		return 1
	}
	return b.Scale
}

// Sheet puts in a page as it is, at full size and without running head; only its
// number comes below. A title makes a bookmark.
func (d *Document) Sheet(page *draw.Scene, title string, below Below) {
	d.flush()
	d.pages = append(d.pages, page)
	d.raw[len(d.pages)-1], d.below[len(d.pages)-1] = true, below
	if title != "" {
		d.marks = append(d.marks, bookmark{clean(title), 1, len(d.pages) - 1, 0})
	}
	d.top, d.y = 0, d.bottom() // nothing more has room on it
}

// bookmark is a place that a reader of the file finds in its outline.
type bookmark struct {
	text  string
	level int
	page  int
	y     float64
}

// leader is a line of the contents that waits for its page number.
type leader struct {
	key  string
	page int
	y    float64
}

type heading struct {
	face  Face
	lines []string
	text  string
	level int
	above float64
}

// New begins a document. Its first page comes with its first paper.
func New(size Size, run Running) *Document {
	d := &Document{size: size, run: run, targets: map[string]int{}, raw: map[int]bool{}, below: map[int]Below{}}
	d.foot = running.brief(run.Foot, d.Width()-numbered, runLines)
	return d
}

const (
	runLines = 3   // of a running head or foot at most
	numbered = 40. // room for the page number, mm
)

// Width is the width of the text, mm.
func (d *Document) Width() float64 { return d.size.Width - 2*side }

// Pages are the pages so far; all of them once Finish has been called.
func (d *Document) Pages() []*draw.Scene { return d.pages }

// Paper begins a paper on a page of its own. The key is what Leader asks for.
func (d *Document) Paper(key, title string) {
	d.flush()
	d.title = title
	d.turn()
	d.targets[key] = len(d.pages) - 1
	d.marks = append(d.marks, bookmark{clean(title), 0, len(d.pages) - 1, d.y})
	d.text(Title, side, Title.Wrap(title, d.Width()))
	d.Space(1.5)
}

// page is the page under way.
func (d *Document) page() *draw.Scene { return d.pages[len(d.pages)-1] }

// turn begins a page with its running head.
func (d *Document) turn() {
	p := &draw.Scene{Width: d.size.Width, Height: d.size.Height, Title: clean(d.title)}
	d.pages = append(d.pages, p)
	half := d.Width()/2 - 3
	left, right := running.brief(d.run.Head, half, runLines), running.brief(d.title, half, runLines)
	d.y = edge
	for i := range max(len(left), len(right)) {
		if i < len(left) {
			d.put(running, side, d.y, draw.Start, left[i])
		}
		if i < len(right) {
			d.put(running, d.size.Width-side, d.y, draw.End, right[i])
		}
		d.y += running.Lead
	}
	d.line(side, d.y, d.size.Width-side, d.y, draw.Style{Width: 0.25})
	d.y += 7
	d.top = d.y
	d.settleFloats()
}

// bottom is how far down text may reach, mm from the upper edge.
func (d *Document) bottom() float64 {
	return d.size.Height - footed - float64(len(d.foot)-1)*running.Lead
}

// Below is what lies below the words of a page, of which 0 is the first.
func (d *Document) Below(page int) Below { return d.below[page] }

// Left is the height that the page under way has left, mm.
func (d *Document) Left() float64 { return d.bottom() - d.y }

// need makes room for so much, on the next page where this one has none, and
// puts the headings that wait above it.
func (d *Document) need(height float64) {
	d.room(height + d.pending())
	for _, h := range d.waiting {
		if d.y > d.top {
			d.y += d.set().above * h.above
		}
		d.marks = append(d.marks, bookmark{clean(h.text), h.level, len(d.pages) - 1, d.y})
		d.text(h.face, side, h.lines)
		d.y += 0.8
	}
	d.waiting = d.waiting[:0]
}

// room turns pages until one has so much left, or has nothing on it.
func (d *Document) room(height float64) {
	for height > d.Left()+1e-6 && d.y > d.top {
		d.turn()
	}
}

// pending is the height of the headings that wait.
func (d *Document) pending() (height float64) {
	for i := range d.waiting {
		h := &d.waiting[i]
		height += d.set().above*h.above + float64(len(h.lines))*d.lead(h.face) + 0.8
	}
	return height
}

// settle puts headings that nothing followed.
func (d *Document) settle() {
	if len(d.waiting) > 0 {
		d.need(0)
	}
}

// Heading puts a heading above what comes next, on the same page as its beginning.
func (d *Document) Heading(text string) {
	d.waiting = append(d.waiting, heading{Head, Head.Wrap(text, d.Width()), text, 1, 5})
}

// Subheading puts a lesser heading likewise.
func (d *Document) Subheading(text string) {
	d.waiting = append(d.waiting, heading{Sub, Sub.Wrap(text, d.Width()), text, 2, 3})
}

// Space leaves so much room, mm, but none at the top of a page.
func (d *Document) Space(mm float64) {
	if d.y > d.top {
		d.y += mm
	}
}

// Say writes a paragraph.
func (d *Document) Say(text string) { d.SayIn(Body, text) }

// SayIn writes a paragraph in a face. No single line of it stands alone at the end
// or the beginning of a page, where it has three or more.
func (d *Document) SayIn(f Face, text string) {
	d.hang(f, 0, nil, text)
	d.Space(0.35 * d.lead(f))
}

// Item writes a paragraph behind a dash.
func (d *Document) Item(text string) {
	d.hang(Body, 5, func(y float64) { d.put(Body, side, y, draw.Start, "–") }, text)
	d.Space(0.8)
}

// Numbered writes a paragraph behind a mark such as a number.
func (d *Document) Numbered(mark, text string) {
	indent := max(8, Strong.width(mark)+2.5)
	d.hang(Body, indent, func(y float64) { d.put(Strong, side, y, draw.Start, mark) }, text)
	d.Space(0.8)
}

// Tick writes a paragraph behind a box to tick.
func (d *Document) Tick(text string) {
	d.hang(Body, 6.5, func(y float64) { d.box(side, y-0.35, 3.2) }, text)
	d.Space(1.1)
}

// Todo writes a numbered step with its box to tick.
func (d *Document) Todo(mark, text string) {
	d.hang(Body, 14, func(y float64) {
		d.box(side, y-0.35, 3.2)
		d.put(Strong, side+6, y, draw.Start, mark)
	}, text)
	d.Space(1.1)
}

// Framed writes a paragraph in a frame with a strong first word or two: a caution.
func (d *Document) Framed(lead, text string) {
	const pad, bar = 2.2, 1.4
	column := d.Width() - 2*pad - bar
	head := Strong.Wrap(lead, column)
	lines := Body.Wrap(text, column)
	if text == "" {
		lines = nil
	}
	height := float64(len(head)+len(lines))*d.lead(Body) + 2*pad - 0.8
	if height > 0.5*(d.bottom()-d.top) { // too much for a frame
		d.SayIn(Strong, lead)
		d.Say(text)
		return
	}
	d.need(height)
	y := d.y
	d.line(side+bar/2, y, side+bar/2, y+height, draw.Style{Width: bar})
	d.rect(side, y, d.Width(), height, draw.Style{Width: 0.2})
	d.y += pad
	d.text(Strong, side+bar+pad, head)
	d.text(Body, side+bar+pad, lines)
	d.y = y + height + 3
}

// hang writes a paragraph that hangs behind what first draws beside its first line.
func (d *Document) hang(f Face, indent float64, first func(y float64), text string) {
	lines := f.Wrap(text, d.Width()-indent)
	lead := d.lead(f)
	for i := 0; i < len(lines); {
		rest := len(lines) - i
		d.need(float64(min(rest, 2)) * lead)
		n := min(rest, max(1, int((d.Left()+1e-6)/lead)))
		if n < rest && rest-n < 2 && n > 2 {
			n-- // no single last line on the next page
		}
		if i == 0 && first != nil {
			first(d.y)
		}
		d.text(f, side+indent, lines[i:i+n])
		if i += n; i < len(lines) {
			d.turn()
		}
	}
}

// text puts lines at the pen, which moves below them; what the page has no room for
// goes to the next one.
func (d *Document) text(f Face, x float64, lines []string) {
	for _, line := range lines {
		d.room(d.lead(f))
		d.put(f, x, d.y, draw.Start, line)
		d.y += d.lead(f)
	}
}

// put writes one line whose capitals begin so far down the page.
func (d *Document) put(f Face, x, y float64, anchor draw.Anchor, line string) {
	if line == "" {
		return
	}
	d.page().Add(draw.Text{At: draw.Point{X: x, Y: d.size.Height - y}, Body: line, Height: f.Cap, Bold: f.Bold, Anchor: anchor, Level: draw.Top})
}

func (d *Document) line(x1, y1, x2, y2 float64, style draw.Style) {
	h := d.size.Height
	d.page().Add(draw.Line(draw.Point{X: x1, Y: h - y1}, draw.Point{X: x2, Y: h - y2}, style))
}

func (d *Document) rect(x, y, w, h float64, style draw.Style) {
	H := d.size.Height
	d.page().Add(draw.Rectangle(draw.Point{X: x, Y: H - y}, draw.Point{X: x + w, Y: H - y - h}, style))
}

// box is a box to tick.
func (d *Document) box(x, y, size float64) { d.rect(x, y, size, size, draw.Style{Width: 0.3}) }

func clean(text string) string {
	s := ""
	for i, w := range words(text) {
		if i > 0 {
			s += " "
		}
		s += w
	}
	return s
}

// Lead writes a line or two below a title, larger than the text.
func (d *Document) Lead(text string) {
	d.hang(Face{3.1, 5.6, false}, 0, nil, text)
	d.Space(3)
}

// Note writes a paragraph in small print.
func (d *Document) Note(text string) {
	d.hang(Small, 0, nil, text)
	d.Space(1.2)
}
