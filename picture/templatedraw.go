package picture

import (
	"cmp"
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

// Lines of a template, mm.
const (
	edgeLine  = 0.7
	holeLine  = 0.3
	crossLine = 0.18
	crossOver = 4. // how far the cross goes beyond the hole
)

// drawing puts the drawing of the face with its upper left corner at a place of the page.
func (t *templ) drawing(left, top, w, h float64) {
	// The corner of the two lines on the page.
	origin := draw.Point{X: left + rim, Y: top - rim}
	if t.sx < 0 {
		origin.X = left + w - rim
	}
	if t.sy > 0 {
		origin.Y = top - h + rim
	}
	at := func(x, y float64) draw.Point { // from distances from the edges
		return draw.Point{X: origin.X + t.sx*(x-t.x0), Y: origin.Y + t.sy*(y-t.y0)}
	}
	g := t.page
	box := draw.Box{Min: draw.Point{X: left, Y: top - h}, Max: draw.Point{X: left + w, Y: top}}
	t.box = box
	for i := range t.laid.Holes {
		if hole := &t.laid.Holes[i]; t.mine(hole) {
			x, y := t.from(hole.At)
			t.circles = append(t.circles, draw.Circle{Center: at(x, y), Radius: float64(hole.Diameter) * 500})
		}
	}
	g.Begin("frame")
	g.Add(draw.Rectangle(box.Min, box.Max, draw.Style{Width: 0.2, Stroke: draw.Grey}))
	t.grid(at)
	t.regions(at)
	t.edges(at)
	t.ordinates(at)
	g.Begin("old")
	for i := range t.laid.Old {
		t.old(at, &t.laid.Old[i])
	}
	for i := range t.laid.Holes {
		if hole := &t.laid.Holes[i]; !t.mine(hole) {
			t.hanging(at, hole)
		}
	}
	for i := range t.laid.Holes {
		if hole := &t.laid.Holes[i]; t.mine(hole) {
			t.hole(at, hole)
		}
	}
}

// grid is a net of inches or centimetres from the edges.
func (t *templ) grid(at func(x, y float64) draw.Point) {
	step, unit := 10., "10 mm"
	if t.sys == quantity.US {
		step, unit = 25.4, "1 in"
	}
	g := t.page
	g.Begin("grid")
	style := draw.Style{Width: 0.1, Stroke: draw.Faint}
	for x := t.x0 + step; x < t.far; x += step {
		g.Add(draw.Line(at(x, t.y0), at(x, t.deep), style))
	}
	for y := t.y0 + step; y < t.deep; y += step {
		g.Add(draw.Line(at(t.x0, y), at(t.far, y), style))
	}
	end := at(t.far, t.deep)
	text := draw.Text{At: draw.Point{X: end.X - t.sx*2, Y: end.Y - t.sy*2}, Body: "grid " + together(unit), Height: 2.2, Colour: draw.Grey, Anchor: draw.End}
	if t.sx < 0 {
		text.Anchor = draw.Start
	}
	if t.sy > 0 {
		text.Level = draw.Top
	}
	g.Add(text)
}

// edges are the two lines that the paper is held to, with their names.
func (t *templ) edges(at func(x, y float64) draw.Point) {
	g := t.page
	g.Begin("edges")
	corner := at(t.x0, t.y0)
	over := func(x, y float64) draw.Point { return draw.Point{X: corner.X - t.sx*x, Y: corner.Y - t.sy*y} }
	for _, along := range []bool{true, false} {
		to, beyondCorner, start := at(t.x0, t.deep), over(0, 6), t.x0
		if !along {
			to, beyondCorner, start = at(t.far, t.y0), over(6, 0), t.y0
		}
		style := draw.Style{Width: edgeLine}
		words := strings.ToUpper(t.edgeName(along))
		if start > 0 {
			style.Dash = []float64{8, 2}
			words = fmt.Sprintf("LINE %s FROM THE %s", t.length(start), words)
		}
		g.Add(draw.Line(beyondCorner, to, style))
		// beginning or ending near the corner, where the first tile is
		text := draw.Text{Body: words, Height: letter, Bold: true, Level: draw.Centre}
		if along {
			text.At, text.Rotation = draw.Point{X: corner.X - t.sx*(rim-5), Y: corner.Y}, math.Pi/2
			text.Anchor = map[bool]draw.Anchor{true: draw.Start, false: draw.End}[t.sy > 0]
			fit(&text, math.Abs(to.Y-corner.Y)-2)
		} else {
			text.At = draw.Point{X: corner.X, Y: corner.Y - t.sy*(rim-5)}
			text.Anchor = map[bool]draw.Anchor{true: draw.Start, false: draw.End}[t.sx > 0]
			fit(&text, math.Abs(to.X-corner.X)-2)
		}
		g.Add(text)
	}
	// A corner mark, so that the paper is not laid the wrong way round.
	g.Add(draw.Path{Points: []draw.Point{over(2, 2), over(9, 2), over(2, 9)}, Closed: true, Style: draw.Style{Fill: draw.Ink}})
}

// fit makes a text smaller until it is no longer than a width, mm, or as small as can
// still be read: ISO 3098-1 has 1.8 mm as the smallest height of capitals (from memory),
// and papers keep above it.
func fit(t *draw.Text, width float64) {
	const least = 2.
	if w := t.Width(); w > width {
		t.Height = max(min(t.Height, least), t.Height*width/w)
	}
}

// ordinates are the distances of the holes from the edges, beyond the edges.
func (t *templ) ordinates(at func(x, y float64) draw.Point) {
	g := t.page
	g.Begin("distances")
	thin := draw.Style{Width: 0.13, Stroke: draw.Grey, Dash: []float64{2, 1}}
	tick := draw.Style{Width: 0.25}
	for _, along := range []bool{true, false} {
		last := math.Inf(-1)
		for _, o := range t.distances(along) {
			edge, inside := at(o.d, t.y0), at(o.d, o.reach)
			if !along {
				edge, inside = at(t.x0, o.d), at(o.reach, o.d)
			}
			g.Add(draw.Line(edge, inside, thin))
			place := max(o.d, last+3.6) // where the words go: beside their tick, but not over one another
			last = place
			text := draw.Text{Body: t.length(o.d), Height: 2.5, Level: draw.Centre}
			if along {
				out := draw.Point{X: at(place, 0).X, Y: edge.Y - t.sy*4}
				g.Add(draw.Path{Points: []draw.Point{edge, {X: edge.X, Y: edge.Y - t.sy*1.5}, out}, Style: tick})
				text.At, text.Rotation = draw.Point{X: out.X, Y: out.Y - t.sy}, math.Pi/2
				text.Anchor = map[bool]draw.Anchor{true: draw.End, false: draw.Start}[t.sy > 0]
			} else {
				out := draw.Point{X: edge.X - t.sx*4, Y: at(0, place).Y}
				g.Add(draw.Path{Points: []draw.Point{edge, {X: edge.X - t.sx*1.5, Y: edge.Y}, out}, Style: tick})
				text.At = draw.Point{X: out.X - t.sx, Y: out.Y}
				text.Anchor = map[bool]draw.Anchor{true: draw.End, false: draw.Start}[t.sx > 0]
			}
			g.Add(text)
		}
	}
}

// ordinate is a distance from an edge, and how far in the line to its holes reaches.
type ordinate struct{ d, reach float64 }

// distances are those of the template's holes from one edge, nearest first, each once.
func (t *templ) distances(along bool) (all []ordinate) {
	for i := range t.laid.Holes {
		h := &t.laid.Holes[i]
		if !t.mine(h) {
			continue
		}
		x, y := t.from(h.At)
		if !along {
			x, y = y, x
		}
		if k := slices.IndexFunc(all, func(o ordinate) bool { return math.Abs(o.d-x) < 0.05 }); k >= 0 {
			all[k].reach = max(all[k].reach, y)
			continue
		}
		all = append(all, ordinate{x, y})
	}
	slices.SortFunc(all, func(a, b ordinate) int { return cmp.Compare(a.d, b.d) })
	return all
}

// words are those for a length.
func (t *templ) words(x quantity.Length) string { return t.length(float64(x) * 1000) }

// half is how far a hole reaches from its middle on paper, to the side and up, mm.
func (t *templ) half(h *drilling.Hole) (wide, high float64) {
	along, across := h.Half()
	return float64(along) * 1000, float64(across) * 1000
}

// hole draws a hole to be drilled: its circle, its middle and its name.
func (t *templ) hole(at func(x, y float64) draw.Point, h *drilling.Hole) {
	x, y := t.from(h.At)
	middle, r := at(x, y), float64(h.Diameter)*500
	g := t.page
	t.named[h.Name()] = middle
	g.Begin("holes")
	style := draw.Style{Width: holeLine}
	if h.Transferred {
		style.Dash = []float64{1.6, 0.8}
	}
	wide, high := t.half(h)
	if h.Spec.Shape == opening.CutOut {
		outline := draw.Rectangle(draw.Point{X: middle.X - wide, Y: middle.Y - high}, draw.Point{X: middle.X + wide, Y: middle.Y + high}, style)
		outline.Title = h.Name()
		g.Add(outline)
	} else {
		g.Add(draw.Circle{Center: middle, Radius: r, Style: style, Title: h.Name()})
	}
	g.Begin("centres")
	thin := draw.Style{Width: crossLine}
	g.Add(
		draw.Line(draw.Point{X: middle.X - wide - crossOver, Y: middle.Y}, draw.Point{X: middle.X + wide + crossOver, Y: middle.Y}, thin),
		draw.Line(draw.Point{X: middle.X, Y: middle.Y - high - crossOver}, draw.Point{X: middle.X, Y: middle.Y + high + crossOver}, thin),
	)
	if p := float64(h.Pilot) * 500; p > 0 && p < r-0.5 {
		g.Add(draw.Circle{Center: middle, Radius: p, Style: draw.Style{Width: 0.13}})
	}
	g.Begin("text")
	words := h.Size(t.words)
	if h.Spec.Shape != opening.CutOut {
		words = "dia " + words
	}
	words = together(words)
	if h.Transferred {
		words += " from the other face"
	}
	name := h.Mark
	if v, _ := h.Worst(); v == judge.FallsShort || v == judge.TooClose {
		name += map[judge.Verdict]string{judge.FallsShort: " !! see list", judge.TooClose: " ?? see list"}[v]
	}
	t.label(middle, wide, high, name, words)
}

// label writes the name of a hole and its size beside it: to the right, else to the
// left, else above, wherever nothing else is written yet.
func (t *templ) label(middle draw.Point, wide, high float64, name, words string) {
	for i, at := range []draw.Point{{X: wide + 1.5}, {X: -wide - 1.5}, {X: 1, Y: high + 7}, {X: -1, Y: high + 7}, {X: 1, Y: -high - 7}, {X: -1, Y: -high - 7}} {
		anchor := draw.Start
		if at.X < 0 {
			anchor = draw.End
		}
		p := draw.Point{X: middle.X + at.X, Y: middle.Y + at.Y}
		upper := draw.Text{At: draw.Point{X: p.X, Y: p.Y + 1.5}, Body: name, Height: 3.2, Bold: true, Halo: 0.6, Anchor: anchor}
		lower := draw.Text{At: draw.Point{X: p.X, Y: p.Y - 1.5}, Body: words, Height: 2.3, Halo: 0.5, Anchor: anchor, Level: draw.Top}
		long := 1.05*max(upper.Width(), lower.Width()) + 1
		box := draw.Box{Min: draw.Point{X: p.X, Y: p.Y - 4.5}, Max: draw.Point{X: p.X + long, Y: p.Y + 5.5}}
		if anchor == draw.End {
			box.Min.X, box.Max.X = p.X-long, p.X
		}
		if i < 5 && !t.free(box, middle) {
			continue
		}
		t.taken = append(t.taken, box)
		t.page.Add(upper, lower)
		return
	}
}

// free tells a box of the drawing that holds no writing and no other hole.
func (t *templ) free(box draw.Box, own draw.Point) bool {
	overlaps := func(o draw.Box) bool {
		return box.Min.X < o.Max.X && o.Min.X < box.Max.X && box.Min.Y < o.Max.Y && o.Min.Y < box.Max.Y
	}
	if box.Min.X < t.box.Min.X || box.Max.X > t.box.Max.X || slices.ContainsFunc(t.taken, overlaps) {
		return false
	}
	return !slices.ContainsFunc(t.circles, func(c draw.Circle) bool {
		return c.Center != own && overlaps(draw.Box{Min: draw.Point{X: c.Center.X - c.Radius, Y: c.Center.Y - c.Radius}, Max: draw.Point{X: c.Center.X + c.Radius, Y: c.Center.Y + c.Radius}})
	})
}

// hanging draws a hole of what hangs there, or one that another template is for.
func (t *templ) hanging(at func(x, y float64) draw.Point, h *drilling.Hole) {
	x, y := t.from(h.At)
	r := float64(h.Diameter) * 500
	if !t.shown(x, y, r) {
		return
	}
	word := h.Mark + " there"
	if h.Planned {
		word = h.Mark + ": other template"
	}
	t.grey(at(x, y), r, word)
}

func (t *templ) old(at func(x, y float64) draw.Point, o *drilling.Old) {
	x, y := t.from(o.At)
	if r := float64(o.Diameter) * 500; t.shown(x, y, r) {
		t.grey(at(x, y), r, "old hole")
	}
}

// grey is a hole that is not to be drilled: a dotted circle with a stroke through it.
func (t *templ) grey(middle draw.Point, r float64, word string) {
	s := draw.Style{Width: 0.2, Stroke: draw.Grey, Dash: []float64{0.7, 0.7}}
	d := r / math.Sqrt2
	t.page.Add(draw.Circle{Center: middle, Radius: r, Style: s},
		draw.Line(draw.Point{X: middle.X - d, Y: middle.Y - d}, draw.Point{X: middle.X + d, Y: middle.Y + d}, draw.Style{Width: 0.2, Stroke: draw.Grey}),
		draw.Text{At: draw.Point{X: middle.X + r + 1, Y: middle.Y}, Body: clean(word), Height: 2.2, Level: draw.Centre, Colour: draw.Grey, Halo: 0.4})
}

// shown tells what lies on the drawing.
func (t *templ) shown(x, y, r float64) bool {
	return x > t.x0+r && x < t.far-r && y > t.y0+r && y < t.deep-r
}

// regions are what lies in the leaf: hatched where to keep clear, a line around where
// screws are to hold.
func (t *templ) regions(at func(x, y float64) draw.Point) {
	g := t.page
	g.Begin("inside")
	for i := range t.laid.Inside {
		r := &t.laid.Inside[i]
		x1, y1 := t.from(r.From)
		x2, y2 := t.from(r.To)
		x1, x2 = max(min(x1, x2), t.x0), min(max(x1, x2), t.far)
		y1, y2 = max(min(y1, y2), t.y0), min(max(y1, y2), t.deep)
		if x1 >= x2 || y1 >= y2 {
			continue
		}
		words := r.What + ": keep clear"
		style := draw.Style{Width: 0.35}
		if r.Kind.Holds() {
			words, style.Dash = r.What, []float64{5, 1, 1, 1}
		} else {
			t.hatch(at, x1, y1, x2, y2)
		}
		g.Add(draw.Rectangle(at(x1, y1), at(x2, y2), style))
		mid := at((x1+x2)/2, (y1+y2)/2)
		text := draw.Text{At: mid, Body: words, Height: 2.5, Bold: true, Anchor: draw.Middle, Level: draw.Centre, Halo: 0.8}
		if x2-x1 < text.Width()+4 && y2-y1 > x2-x1 {
			text.Rotation = math.Pi / 2
		}
		g.Add(text)
	}
}

// hatch fills a rectangle with slanting lines.
func (t *templ) hatch(at func(x, y float64) draw.Point, x1, y1, x2, y2 float64) {
	const gap = 4.
	for c := x1 + y1 + gap; c < x2+y2; c += gap { // x + y = c
		from := draw.Point{X: max(x1, c-y2), Y: c - max(x1, c-y2)}
		to := draw.Point{X: min(x2, c-y1), Y: c - min(x2, c-y1)}
		t.page.Add(draw.Line(at(from.X, from.Y), at(to.X, to.Y), draw.Style{Width: 0.13, Stroke: draw.Grey}))
	}
}

// depth says how deep a hole goes.
func (t *templ) depth(h *drilling.Hole) string {
	depth, words := h.Depth()
	if words == "" {
		words = t.length(float64(depth)*1000) + " deep"
	}
	return words
}
