package picture

import (
	"fmt"
	"math"

	"swingwright/internal/draw"
	"swingwright/plan"
	"swingwright/quantity"
)

// Measures of the strips of floor marks, mm.
const (
	stripLong = 170. // of the floor in one strip
	stripHigh = 16.
	stripRow  = 18.
	checkBar  = 100.
)

// Marks draws the floor marks of a leaf at full size, as strips to be cut out and
// laid end to end from under the latch edge of the closed leaf.
func Marks(p *plan.Plan, sys quantity.System) *draw.Scene {
	return MarksOn(p, sys, math.Inf(1))[0]
}

// MarksOn draws them likewise on as many pages as it takes, none higher than the given
// height, mm, unless a single strip is; each has a bar to be measured.
func MarksOn(p *plan.Plan, sys quantity.System, height float64) (all []*draw.Scene) {
	const name, title = "marks", "Floor marks at full size"
	if len(p.Room.Marks) == 0 {
		return []*draw.Scene{notice(p, name, title, "Cannot be told. What is missing: the leaf's width.")}
	}
	g := newPage(p, name, title)
	last := p.Room.Marks[len(p.Room.Marks)-1]
	g.Description = fmt.Sprintf("Strips of paper with %d marks, the farthest %s from the closed latch edge.", len(p.Room.Marks), together(quantity.ByTape(last.Chord, sys)))
	g.say("Print at 100 %, measure the bar, cut out the strips and join them at their numbered ends. Lay the tape straight from the point of the latch edge, leaf closed, to the same point of the open leaf: where that is at a mark, the leaf stands at the mark's angle.")
	g.bar(sys)
	strips := int(float64(last.Chord)*1000/stripLong) + 1
	for i, first := 0, true; i < strips; i++ {
		if !first && margin-(g.y-stripRow) > height {
			all = append(all, g.done())
			g = newPage(p, fmt.Sprintf("%s-%d", name, len(all)+1), title)
			g.Description = fmt.Sprintf("More strips, from strip %d on.", i+1)
			g.bar(sys)
			first = true
		}
		g.strip(p, i, strips, sys)
		first = false
	}
	return append(all, g.done())
}

// bar is what shows whether the page was printed at full size.
func (g *page) bar(sys quantity.System) {
	g.y -= 4
	g.Add(draw.Rectangle(draw.Point{X: margin, Y: g.y - 3}, draw.Point{X: margin + checkBar, Y: g.y}, draw.Style{Fill: draw.Ink}))
	text := "100 mm"
	if sys == quantity.US {
		text = "3-15/16 in (100 mm)"
	}
	g.Add(draw.Text{At: draw.Point{X: margin + checkBar + 3, Y: g.y}, Body: text, Height: letter, Level: draw.Top})
	g.y -= 8
}

// strip is the i-th strip of the floor.
func (g *page) strip(p *plan.Plan, i, strips int, sys quantity.System) {
	from := float64(i) * stripLong
	top := g.y
	line := draw.Style{Width: 0.25, Stroke: draw.Ink}
	g.Add(draw.Rectangle(draw.Point{X: margin, Y: top - stripHigh}, draw.Point{X: margin + stripLong, Y: top}, line))
	var words []draw.Item // on top, so that no line runs through them
	level := 0
	at := func(k int) float64 { // the k-th mark along the strip, mm; far off where there is none
		if k < 0 || k >= len(p.Room.Marks) {
			return math.Copysign(math.Inf(1), float64(k))
		}
		return float64(p.Room.Marks[k].Chord)*1000 - from
	}
	for k, m := range p.Room.Marks {
		x := at(k)
		if x < 0 || x >= stripLong {
			continue
		}
		g.Add(draw.Line(draw.Point{X: margin + x, Y: top - stripHigh}, draw.Point{X: margin + x, Y: top}, draw.Style{Width: 0.5, Stroke: draw.Ink}))
		t := draw.Text{
			At: draw.Point{X: margin + x + 1, Y: top - 1.2 - 4*float64(level%3)}, Level: draw.Top, Height: letter, Bold: true,
			Body: together(fmt.Sprintf("%.3g° %s", float64(m.Angle/quantity.Degree), quantity.ByTape(m.Chord, sys))),
		}
		room := 1.1*t.Width() + 2 // a word stands left of its mark where the next one is nearer than it is long
		if x > stripLong-35 || at(k+1)-x < room && x-at(k-1) > room && x > room {
			t.At.X, t.Anchor = margin+x-1, draw.End
		}
		words = append(words, label(t)...)
		level++
	}
	words = append(words, label(draw.Text{At: draw.Point{X: margin + 2, Y: top - stripHigh + 0.9}, Height: 2.2, Body: fmt.Sprintf("strip %d of %d", i+1, strips)})...)
	g.Add(words...)
	g.y -= stripRow
}
