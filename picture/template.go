package picture

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"swingwright/drilling"
	"swingwright/internal/draw"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/quantity"
)

// Sheet is what the templates of an opening say of the job.
type Sheet struct {
	Job  string
	Date string
}

// Template is the drawing, at full size, of the holes that one thing is fixed with in
// one face, from one corner.
type Template struct {
	// Name for its files, in small letters and hyphens.
	Name string
	// Whole is one large sheet with the drawing and everything that is said with it.
	Whole *draw.Scene
	// Part is the drawing alone, a box of Whole.
	Part draw.Box
	// Holes are the middles of the holes in Whole, by the names that [drilling.Hole]
	// gives them.
	Holes map[string]draw.Point

	head  []string                    // what heads every page of it
	rows  func(width float64) []block // what is said with it
	title string
}

// Templates draws the templates of an opening's holes. There are none without holes to
// be drilled, where the hand is not known, or while the patterns are impossible: a
// template that may be wrong is worse than none.
func Templates(p *plan.Plan, h *plan.Holes, about Sheet, sys quantity.System) []*Template {
	if !h.HandKnown || len(h.Problems) > 0 {
		return nil
	}
	var all []*Template
	for i := range h.Sides {
		for _, part := range parts(&h.Sides[i]) {
			t := templ{p: p, h: h, laid: &h.Sides[i], part: part, about: about, sys: sys}
			all = append(all, t.make())
		}
	}
	return all
}

// part is what one template shows: the holes for one thing, measured from one corner.
type part struct {
	of            string
	latch, bottom bool // which edges; hinge side and top otherwise
}

func partOf(h *drilling.Hole) part {
	edged := slices.Contains([]opening.Surface{opening.LeafFace, opening.HeadFace, opening.Soffit}, h.Spec.On) // jambs have edges of their own
	return part{h.Of, edged && h.Spec.AlongFrom == opening.FromLatchEdge, h.Spec.On == opening.LeafFace && h.Spec.AcrossFrom == "bottom"}
}

// parts are what templates the holes to be drilled in a face take.
func parts(l *drilling.Laid) (all []part) {
	for i := range l.Holes {
		if c := partOf(&l.Holes[i]); l.Holes[i].Planned && !slices.Contains(all, c) {
			all = append(all, c)
		}
	}
	return all
}

// Measures of a template, mm.
const (
	rim      = 32.  // beyond the edges, for distances and the names of the edges
	roomy    = 22.  // around the holes
	farAway  = 450. // a hole farther than that from an edge is measured from a line
	template = 260. // least width of the large sheet
)

// templ is one template being made. The drawing is made in millimetres of the face as
// it is seen, from the corner, x to the right and y up.
type templ struct {
	p     *plan.Plan
	h     *plan.Holes
	laid  *drilling.Laid
	part  part
	about Sheet
	sys   quantity.System

	sx, sy    float64 // which way the face lies from its corner: +1 or −1
	x0, y0    float64 // distances of the lines that the paper is held to from the edges
	far, deep float64 // how far the drawing goes in from the edges
	page      *page
	named     map[string]draw.Point
	box       draw.Box      // of the drawing, on the page
	circles   []draw.Circle // of its holes
	taken     []draw.Box    // what is written on
}

func (t *templ) make() *Template {
	t.named = map[string]draw.Point{}
	x, y := t.laid.Face.OnPaper(drilling.Place{X: 1, Y: 1}, t.laid.HingesLeft)
	t.sx, t.sy = math.Copysign(1, x), math.Copysign(1, y)
	if t.part.latch {
		t.sx = -t.sx
	}
	if t.part.bottom {
		t.sy = -t.sy
	}
	t.extent()
	w, h := t.far-t.x0+rim, t.deep-t.y0+rim
	title := t.name()
	g := &page{Scene: &draw.Scene{Width: max(template, w+2*margin), Title: title, ID: identifier("template", t.p.Opening.ID)}, format: format{width: template, rim: margin, plotLeft: plotLeft}, y: -margin}
	g.Description = "Drilling template at full size: " + title
	t.page = g
	out := &Template{Name: t.fileName(), Whole: g.Scene, title: title, head: t.heading(), Holes: t.named}
	g.Begin("text")
	g.column(margin, g.Width-2*margin, draw.Text{Height: 5, Bold: true}, title)
	for _, line := range out.head[1:] {
		g.column(margin, g.Width-2*margin, draw.Text{Height: letter}, line)
	}
	g.y -= 4
	top := g.y
	t.drawing(margin, top, w, h)
	upright(g, 2.5, top)
	g.y = top - h - 6
	g.Begin("text")
	out.rows = t.said
	for _, b := range t.said(g.Width - 2*margin) {
		b.put(g, margin)
	}
	g.done()
	out.Part = draw.Box{Min: draw.Point{X: margin, Y: g.Height + top - h}, Max: draw.Point{X: margin + w, Y: g.Height + top}}
	for name, at := range t.named {
		t.named[name] = draw.Point{X: at.X, Y: at.Y + g.Height}
	}
	return out
}

// name names the template.
func (t *templ) name() string {
	o := t.p.Opening
	return clean(fmt.Sprintf("Drilling template 1:1 – opening %s – %s – %s", o.ID, t.part.of, t.laid.Face))
}

// fileName is the face, and the corner where it is not the usual one.
func (t *templ) fileName() string {
	words := []string{"holes", slug(t.part.of), string(t.laid.Face.On), string(t.laid.Face.Side)}
	if t.part.latch {
		words = append(words, "latch")
	}
	if t.part.bottom {
		words = append(words, "bottom")
	}
	return strings.Join(words, "-")
}

// slug is a text in small letters, digits and single hyphens.
func slug(text string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9')
	}), "-")
}

// heading is what identifies the template on each of its pages.
func (t *templ) heading() []string {
	side := map[bool]string{true: "hinges at your left", false: "hinges at your right"}[t.laid.HingesLeft]
	words := []string{clean(t.about.Job)}
	if n := t.p.Opening.Name; n != "" {
		words = append(words, clean(t.p.Opening.ID+" "+n))
	}
	if t.about.Date != "" {
		words = append(words, t.about.Date)
	}
	if r := t.p.Opening.Drilling.Revision; r != "" {
		words = append(words, "revision "+clean(r))
	}
	hand := fmt.Sprintf("Hand %s. As you face it: %s.", t.p.Opening.Frame.Hand, side)
	switch t.laid.Face.On {
	case opening.LatchRabbet, opening.LatchStop:
		at := map[bool]string{true: "right", false: "left"}[t.laid.HingesLeft]
		hand = fmt.Sprintf("Hand %s. As you stand in the opening and face the latch jamb: the %s side is at your %s.", t.p.Opening.Frame.Hand, t.laid.Face.Side, at)
	case opening.Soffit:
		hand = fmt.Sprintf("Hand %s. As you stand on the push side and look up at it, the leaf below: %s.", t.p.Opening.Frame.Hand, side)
	}
	return []string{t.name(), strings.Join(words, " · "), hand + " Hold the paper to: " + t.edgeName(true) + ", " + t.edgeName(false) + "."}
}

// edgeName names the edge that distances along or across are measured from.
func (t *templ) edgeName(along bool) string {
	switch f := t.laid.Face.On; {
	case f == opening.LeafFace && along && t.part.latch:
		return "latch edge of the leaf"
	case f == opening.LeafFace && along:
		return "hinge edge of the leaf"
	case f == opening.LeafFace && t.part.bottom:
		return "bottom edge of the leaf"
	case f == opening.LeafFace:
		return "top edge of the leaf"
	case (f == opening.HeadFace || f == opening.Soffit) && along && t.part.latch:
		return "rabbet of the latch jamb"
	case (f == opening.HeadFace || f == opening.Soffit) && along:
		return "rabbet of the hinge jamb"
	case f == opening.HeadFace:
		return "lower edge of the head"
	case f == opening.Soffit:
		return "face of the closed leaf"
	case f == opening.LatchRabbet && along:
		return "corner of rabbet and stop"
	case f == opening.LatchStop && along:
		return "edge of the stop at the leaf"
	case along:
		return "edge of the jamb at the opening"
	}
	return "underside of the head"
}

// from are the distances of a place from the two edges, mm.
func (t *templ) from(p drilling.Place) (x, y float64) {
	x, y = float64(p.X)*1000, float64(p.Y)*1000
	if t.part.latch {
		x = float64(t.laid.Width.Value)*1000 - x
	}
	if t.part.bottom {
		y = float64(t.laid.Height.Value)*1000 - y
	}
	return x, y
}

// mine tells a hole that this template shows as its own.
func (t *templ) mine(h *drilling.Hole) bool { return h.Planned && partOf(h) == t.part }

// extent finds how much of the face the drawing shows. What is far from an edge is
// measured from a line at a round distance, which has to be drawn on the face first.
func (t *templ) extent() {
	lowX, lowY := math.Inf(1), math.Inf(1)
	for i := range t.laid.Holes {
		h := &t.laid.Holes[i]
		if !t.mine(h) {
			continue
		}
		x, y := t.from(h.At)
		wide, high := t.half(h)
		lowX, lowY = min(lowX, x-wide), min(lowY, y-high)
		beside := roomy
		if h.Spec.Shape == opening.CutOut {
			beside = 2 * roomy // its words are longer
		}
		t.far, t.deep = max(t.far, x+wide+beside), max(t.deep, y+high+roomy)
	}
	t.x0, t.y0 = t.start(lowX), t.start(lowY)
}

// start is where the paper begins.
func (t *templ) start(low float64) float64 {
	if low < farAway {
		return 0
	}
	step := 50.
	if t.sys == quantity.US {
		step = 2 * 25.4
	}
	return math.Floor((low-roomy)/step) * step
}

// length prints a length for the reader.
func (t *templ) length(mm float64) string {
	return together(quantity.ByRule(quantity.Length(mm/1000), t.sys))
}
