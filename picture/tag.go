package picture

import (
	"fmt"
	"math"

	"swingwright/internal/draw"
)

// tags finds places for the numbers of limits.
type tags struct {
	frame  draw.Box
	curves []draw.Point // points along the curves, which no number should hide
	others []draw.Point // points along the lines of the other limits, on which none may stand
	taken  []draw.Point
}

// tagRadius is the room that a number takes, mm.
const tagRadius = 3.

// number is the number of a limit with, where it cannot stand at its line, a
// lead to it.
func (t *tags) number(from, to draw.Point, i int) []draw.Item {
	p := t.place(from, to)
	foot := draw.Point{X: min(max(p.X, from.X), to.X), Y: to.Y}
	var items []draw.Item
	if math.Hypot(p.X-foot.X, p.Y-foot.Y) > tagRadius+0.5 {
		thin := draw.Style{Width: 0.25}
		items = append(items, draw.Line(p, foot, thin), draw.Circle{Center: foot, Radius: 0.6, Style: draw.Style{Width: 0.25, Fill: draw.Ink}})
	}
	return append(items, numbered(p, i)...)
}

// place is where the number of a limit stands: on its line or close to it, as
// near to the right end as neither curve nor line nor other number is; if need
// be on a curve, or farther away.
func (t *tags) place(from, to draw.Point) draw.Point {
	candidates := t.candidates(from, to)
	for _, clear := range [][]draw.Point{t.curves, nil} {
		for _, p := range candidates {
			if apartFrom(p, t.taken, 2*tagRadius) && apartFrom(p, clear, 1.7*tagRadius) && apartFrom(p, t.others, tagRadius) && t.inside(p) {
				t.taken = append(t.taken, p)
				return p
			}
		}
	}
	return to
}

// candidates are the places for a number, the best first.
func (t *tags) candidates(from, to draw.Point) []draw.Point {
	var all []draw.Point
	for _, off := range []float64{0, tagRadius + 0.2, -tagRadius - 0.2} {
		for x := to.X - tagRadius - 0.5; x > from.X+tagRadius; x-- {
			all = append(all, draw.Point{X: x, Y: to.Y + off})
		}
	}
	const near = 20.
	for x := 1.; x < near; x++ {
		all = append(all, draw.Point{X: to.X + tagRadius + x, Y: to.Y}, draw.Point{X: from.X - tagRadius - x, Y: to.Y})
	}
	for y := 0.; y < t.frame.Max.Y-t.frame.Min.Y; y++ {
		for x := t.frame.Min.X; x < t.frame.Max.X; x++ {
			all = append(all, draw.Point{X: x, Y: to.Y + y}, draw.Point{X: x, Y: to.Y - y})
		}
	}
	return all
}

// inside tells that a number lies in the frame; it may stand on the lower edge.
func (t *tags) inside(p draw.Point) bool {
	f := t.frame
	return p.X-tagRadius > f.Min.X && p.X+tagRadius < f.Max.X && p.Y > f.Min.Y && p.Y+tagRadius < f.Max.Y
}

// apartFrom tells that a place is farther than distance, mm, from all others.
func apartFrom(p draw.Point, others []draw.Point, distance float64) bool {
	for _, q := range others {
		if math.Hypot(p.X-q.X, p.Y-q.Y) < distance {
			return false
		}
	}
	return true
}

// numbered is the number of a limit, as it stands at its line and its row.
func numbered(center draw.Point, i int) []draw.Item {
	radius := 2.3
	if i >= 9 {
		radius = 3
	}
	return []draw.Item{
		draw.Circle{Center: center, Radius: radius, Style: draw.Style{Width: 0.25, Fill: draw.White}},
		draw.Text{At: center, Body: fmt.Sprint(i + 1), Height: letter, Anchor: draw.Middle, Level: draw.Centre, Bold: true},
	}
}
