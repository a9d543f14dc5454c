package picture

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"swingwright/drilling"
	"swingwright/internal/draw"
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/quantity"
)

// block is a piece of what is said with a template, that no page break may part. Its
// items lie below y = 0, from x = 0.
type block struct {
	items  []draw.Item
	height float64
}

// put adds the block to a page, below what is there.
func (b *block) put(g *page, left float64) {
	for _, item := range b.items {
		g.Add(moved(item, draw.Point{X: left, Y: g.y}))
	}
	g.y -= b.height
}

// flow makes a block with a page to write on.
func flow(write func(g *page)) block {
	g := &page{Scene: &draw.Scene{}}
	write(g)
	return block{g.Items, -g.y}
}

// said is all that is said with the drawing, in blocks over a width.
func (t *templ) said(width float64) []block {
	all := []block{t.bars(), t.stops(width), t.tableHead(width)}
	for i := range t.laid.Holes {
		if h := &t.laid.Holes[i]; t.mine(h) {
			all = append(all, t.tableRow(h, width))
		}
	}
	if t.unsure() {
		all = append(all, flow(func(g *page) {
			g.column(0, width, draw.Text{Height: 2.6}, "Bolts: the length next to this one may be right; measure the leaf's thickness before buying.")
		}))
	}
	return append(all, t.cautions(width)...)
}

// unsure tells that the length of a bolt turns on the leaf's thickness.
func (t *templ) unsure() bool {
	return slices.ContainsFunc(t.laid.Holes, func(h drilling.Hole) bool { return t.mine(&h) && h.Bolt.Unsure && !h.Transferred })
}

// bars are what shows whether the paper was printed at full size, with [upright]: a
// tenth of a metre, four inches, and the outline of a bank card (ISO/IEC 7810, ID-1).
func (t *templ) bars() block {
	return flow(func(g *page) {
		const high = 82.
		at := func(x, y float64) draw.Point { return draw.Point{X: x, Y: y} }
		ruler(g, at(0, -4), 100, 10, 4, "100 mm")
		ruler(g, at(0, -17), 101.6, 25.4, 4, "4 in")
		g.Add(draw.Path{Points: rounded(at(0, -27), 85.6, 53.98, 3.18), Closed: true, Style: draw.Style{Width: 0.25, Dash: []float64{3, 1.5}}})
		g.y = -38
		g.column(6, 74, draw.Text{Height: 3.6, Bold: true}, "MEASURE BEFORE DRILLING")
		g.y -= 1
		g.column(6, 74, draw.Text{Height: 2.6}, "Print at 100 %, without “fit to page”. Lay a steel rule on the bars, across and up, and a bank card on this outline. If one of them does not fit, the paper is no template.")
		t.key(g, 122, 0, 62, high)
		g.y = -high - 3
	})
}

// upright is the bar up the left margin of a page, from a height down, for the other way.
func upright(g *page, left, top float64) {
	g.Add(draw.Rectangle(draw.Point{X: left, Y: top}, draw.Point{X: left + 2, Y: top - 100}, draw.Style{Fill: draw.Ink}),
		draw.Text{At: draw.Point{X: left + 2.6, Y: top - 50}, Body: "100 mm", Height: 2.2, Rotation: math.Pi / 2, Anchor: draw.Middle, Level: draw.Top})
}

// ruler is a bar with ticks below.
func ruler(g *page, at draw.Point, long, step float64, high float64, label string) {
	g.Add(draw.Rectangle(at, draw.Point{X: at.X + long, Y: at.Y + 3}, draw.Style{Fill: draw.Ink}))
	for x := 0.; x <= long+1e-6; x += step {
		g.Add(draw.Line(draw.Point{X: at.X + x, Y: at.Y}, draw.Point{X: at.X + x, Y: at.Y - high/2}, draw.Style{Width: 0.2}))
	}
	g.Add(draw.Text{At: draw.Point{X: at.X, Y: at.Y - high/2 - 1}, Body: label, Height: letter, Level: draw.Top})
}

// rounded is the outline of a card from its upper left corner.
func rounded(at draw.Point, w, h, r float64) (points []draw.Point) {
	for _, c := range []struct{ x, y, from float64 }{
		{at.X + w - r, at.Y - r, 0}, {at.X + r, at.Y - r, math.Pi / 2}, {at.X + r, at.Y - h + r, math.Pi}, {at.X + w - r, at.Y - h + r, 1.5 * math.Pi},
	} {
		points = append(points, draw.ArcPoints(draw.Arc{Center: draw.Point{X: c.x, Y: c.y}, Radius: r, From: c.from, To: c.from + math.Pi/2})...)
	}
	return points
}

// key shows small where on the opening the paper goes, in a box.
func (t *templ) key(g *page, left, top, w, h float64) {
	o := t.p.Opening
	wide, high := float64(o.Leaf.Width.Value)*1000, float64(o.Leaf.Height.Value)*1000
	if wide == 0 || high == 0 {
		wide, high = 900, 2100
	}
	scale := min((w-16)/wide, (h-16)/high)
	x0, y0 := left+8, top-8-high*scale // lower left of the leaf
	to := func(x, y float64) draw.Point { return draw.Point{X: x0 + x*scale, Y: y0 + high*scale - y*scale} }
	left4 := t.laid.HingesLeft
	across := func(x float64) float64 { // from the hinge edge
		if left4 {
			return x
		}
		return wide - x
	}
	g.Add(
		draw.Path{Points: []draw.Point{to(-60, high), to(-60, -60), to(wide+60, -60), to(wide+60, high)}, Style: draw.Style{Width: 0.25}},
		draw.Path{Points: []draw.Point{to(-8, high), to(-8, -8), to(wide+8, -8), to(wide+8, high)}, Style: draw.Style{Width: 0.25}},
		draw.Rectangle(to(0, 0), to(wide, high), draw.Style{Width: 0.4}),
	)
	for _, y := range []float64{0.1, 0.5, 0.88} { // hinges, as signs for their side
		g.Add(draw.Rectangle(to(across(-18), high*y), to(across(10), high*y+100), draw.Style{Fill: draw.Ink}))
	}
	for i := range o.Leaf.Lites {
		l := &o.Leaf.Lites[i]
		mid := wide / 2
		if l.FromHinge.Known {
			mid = float64(l.FromHinge.Value) * 1000
		}
		if l.FromTop.Known {
			half, y := float64(l.Width.Value)*500, float64(l.FromTop.Value)*1000
			g.Add(draw.Rectangle(to(across(mid-half), y), to(across(mid+half), y+float64(l.Height.Value)*1000), draw.Style{Width: 0.2}))
		}
	}
	x1, y1, x2, y2 := t.onKey(wide, high)
	g.Add(draw.Rectangle(to(across(x1), y1), to(across(x2), y2), draw.Style{Width: 0.5, Fill: draw.Shade}))
	words := "hinges " + map[bool]string{true: "left", false: "right"}[left4] + ", " + string(t.laid.Face.Side) + " side"
	g.Add(draw.Text{At: draw.Point{X: x0 + wide*scale/2, Y: y0 - 2}, Body: words, Height: 2.5, Anchor: draw.Middle, Level: draw.Top})
}

// onKey is where the drawing lies on the leaf seen from this side, from the hinge edge
// and the top, mm.
func (t *templ) onKey(wide, high float64) (x1, y1, x2, y2 float64) {
	x1, x2, y1, y2 = t.x0, t.far, t.y0, t.deep
	if t.part.latch {
		x1, x2 = wide-t.x0, wide-t.far
	}
	if t.part.bottom {
		y1, y2 = high-t.y0, high-t.deep
	}
	switch t.laid.Face.On {
	case opening.HeadFace:
		y1, y2 = -y1-8, -y2-8
	case opening.Soffit:
		y1, y2 = -30, -8
	case opening.HingeJamb:
		x1, x2 = -8-x1, -8-x2
	case opening.LatchRabbet:
		x1, x2 = wide-10, wide+60
	case opening.LatchStop:
		x1, x2 = wide-70, wide
	case opening.LatchJamb:
		x1, x2 = wide+8+x1, wide+8+x2
	}
	return x1, y1, x2, y2
}

// column of the table of holes: its share of the width, its heading and its cell.
var holeColumns = []struct {
	share float64
	head  string
	cell  func(t *templ, h *drilling.Hole) string
}{
	{0.06, "hole", func(_ *templ, h *drilling.Hole) string { return h.Mark }},
	{0.13, "", func(t *templ, h *drilling.Hole) string { x, _ := t.from(h.At); return t.length(x) }},
	{0.13, "", func(t *templ, h *drilling.Hole) string { _, y := t.from(h.At); return t.length(y) }},
	{0.09, "pilot", func(t *templ, h *drilling.Hole) string {
		switch {
		case h.Transferred:
			return "comes out"
		case h.Pilot == 0:
			return "–"
		}
		return t.length(float64(h.Pilot) * 1000)
	}},
	{0.09, "drill", func(t *templ, h *drilling.Hole) string { return h.Size(t.words) }},
	{0.14, "how deep", func(t *templ, h *drilling.Hole) string { return t.depth(h) }},
	{0.36, "fastener", func(t *templ, h *drilling.Hole) string { return t.fastener(h) }},
}

func (t *templ) tableHead(width float64) block {
	return flow(func(g *page) {
		g.y = -2
		g.column(0, width, draw.Text{Height: letter, Bold: true}, "Holes")
		heads := make([]string, len(holeColumns))
		for i, c := range holeColumns {
			heads[i] = c.head
		}
		heads[1], heads[2] = "from the "+t.edgeName(true), "from the "+t.edgeName(false)
		t.row(g, width, heads, true)
		g.Add(draw.Line(draw.Point{Y: g.y}, draw.Point{X: width, Y: g.y}, draw.Style{Width: 0.35}))
		g.y -= 1.5
	})
}

func (t *templ) tableRow(h *drilling.Hole, width float64) block {
	return flow(func(g *page) {
		cells := make([]string, len(holeColumns))
		for i, c := range holeColumns {
			cells[i] = c.cell(t, h)
		}
		t.row(g, width, cells, false)
		for _, c := range h.Checks {
			if c.Verdict != judge.Meets {
				g.column(0.06*width, 0.92*width, draw.Text{Height: 2.3, Bold: true}, t.check(&c))
			}
		}
		g.Add(draw.Line(draw.Point{Y: g.y}, draw.Point{X: width, Y: g.y}, draw.Style{Width: 0.13, Stroke: draw.Grey}))
		g.y -= 1.2
	})
}

// check says what a distance came to that is not kept for sure.
func (t *templ) check(c *drilling.Check) string {
	sign := map[judge.Verdict]string{judge.FallsShort: "!!", judge.TooClose: "??"}[c.Verdict]
	advice := ""
	if c.Advice {
		advice = " (advice, from memory of the trade)"
	}
	return fmt.Sprintf("%s %s: %s %s, ± %s%s", sign, c.What, t.length(math.Abs(float64(c.Room))*1000),
		map[bool]string{true: "too little", false: "to spare"}[c.Room < 0], together(quantity.FormatValue(2*c.U, t.sys, 2)), advice)
}

// row writes one row of the table.
func (t *templ) row(g *page, width float64, cells []string, bold bool) {
	top, low, x := g.y, g.y, 0.
	for i, c := range holeColumns {
		g.y = top
		g.column(x, c.share*width-2, draw.Text{Height: 2.3, Bold: bold || i == 0}, cells[i])
		low = min(low, g.y)
		x += c.share * width
	}
	g.y = low - 0.8
}

// fastener says what goes into a hole.
func (t *templ) fastener(h *drilling.Hole) string {
	s := h.Spec
	if s.Fastener == opening.Passage {
		return "nothing: a way through"
	}
	words := []string{strings.TrimSpace(s.Thread + " " + string(s.Fastener))}
	if b := h.Bolt; b.Stock > 0 {
		words[0] += " " + t.length(float64(b.Stock)*1000)
	}
	if s.Torque.Known {
		words = append(words, together(quantity.FormatValue(s.Torque.Value, t.sys, -1)))
	}
	return strings.Join(words, ", ")
}

// stops are the cautions that have to be settled before the first hole.
func (t *templ) stops(width float64) block {
	return flow(func(g *page) {
		for _, c := range t.h.Cautions {
			if !c.Stop {
				continue
			}
			top := g.y
			g.y -= 2.5
			g.column(4, width-8, draw.Text{Height: letter, Bold: true}, "STOP – "+c.Topic)
			g.column(4, width-8, draw.Text{Height: letter}, c.Say+" ("+c.Source+")")
			g.y -= 0.5
			g.Add(draw.Rectangle(draw.Point{Y: top}, draw.Point{X: width, Y: g.y}, draw.Style{Width: 0.7}))
			g.y -= 3
		}
	})
}

// cautions are the others.
func (t *templ) cautions(width float64) (all []block) {
	all = append(all, flow(func(g *page) {
		g.y = -3
		g.column(0, width, draw.Text{Height: letter, Bold: true}, "Cautions")
	}))
	for _, c := range t.h.Cautions {
		if c.Stop || t.laid.Face.On != opening.LeafFace && (c.Topic == "square" || c.Topic == "fixings" || c.Topic == "silica") {
			continue
		}
		all = append(all, flow(func(g *page) {
			g.column(0, 20, draw.Text{Height: 2.4, Bold: true}, c.Topic)
			g.y = 0
			g.column(20, width-20, draw.Text{Height: 2.4}, c.Say+" ("+c.Source+")")
			g.y -= 0.6
		}))
	}
	return append(all, flow(func(g *page) {
		g.y = -2
		g.column(0, width, draw.Text{Height: 2.4}, "This paper certifies nothing: the maker's own template, the listing of the leaf, locally adopted codes and the licensed person on site come first.")
	}))
}
