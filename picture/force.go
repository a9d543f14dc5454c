package picture

import (
	"fmt"
	"math"
	"slices"

	"swingwright/fact"
	"swingwright/internal/draw"
	"swingwright/plan"
	"swingwright/quantity"
)

// forceLimit is a limit on a moment, or on a force at a stated radius, as the
// force at the handle that has the same moment.
type forceLimit struct {
	finding  *plan.Finding
	what     string
	from, to float64 // degrees over which it holds
	radius   quantity.Length
	here     quantity.Force
}

// reaches are the moments that are shown, with the angles over which their
// limits hold.
var reaches = []struct {
	id       fact.ID
	from, to float64
	what     string
}{
	{fact.HandToStart, 0, 3, "to set in motion"},
	{fact.HandToOpen, 1, 90, "1° to 90°"},
	{fact.Hand0To30, 0, 30, "0° to 30°"},
	{fact.Hand30To60, 30, 60, "30° to 60°"},
	{fact.CloserOpeningMoment0To60, 0, 60, "opening, closer alone, 0° to 60°"},
	{fact.CloserMoment0To4, 0, 4, "closer alone, 0° to 4°"},
	{fact.CloserMoment88To92, 88, 90, "closer alone, 88° to 92°"},
	{fact.CloserMomentElsewhere, 0, 90, "closer alone, 0° to 90°"},
}

// forceLimits are the limits on what the picture shows.
func forceLimits(p *plan.Plan, handle quantity.Length) []forceLimit {
	var all []forceLimit
	for _, r := range reaches {
		for _, f := range distinct(limited(p, r.id)) {
			l := forceLimit{finding: f, what: r.what, from: r.from, to: r.to}
			moment := f.Limit
			if f.Rule.At != nil {
				if !(f.At > 0) {
					continue
				}
				l.radius, moment = f.At, moment*float64(f.At)
			}
			l.here = quantity.Force(moment / float64(handle))
			all = append(all, l)
		}
	}
	return all
}

// lines draws the limits into the plot, each over the angles where it holds,
// with ends and its number.
func (h *hand) lines(pl *plot) {
	type drawn struct {
		i        int
		from, to draw.Point
	}
	var lines []drawn
	for i, l := range h.limits {
		y := number(quantity.DimForce, float64(l.here), h.sys)
		if !(y >= pl.Y.Low && y <= pl.Y.High) {
			h.off[i] = true
			continue
		}
		from, to := pl.at(l.from, y), pl.at(l.to, y)
		style := draw.Style{Width: 0.5, Dash: []float64{3, 1}}
		if to.X-from.X < 8 {
			style.Dash = nil
		}
		path := draw.Line(from, to, style)
		path.Title = h.words(l)
		h.page.Add(path, end(from), end(to))
		lines = append(lines, drawn{i, from, to})
	}
	t := tags{frame: pl.Frame, curves: slices.Concat(pl.placed(h.curve(h.force)), pl.placed(h.curve(h.closing)))}
	for _, l := range lines {
		t.others = nil
		for _, o := range lines {
			if o != l {
				t.others = append(t.others, along(o.from, o.to)...)
			}
		}
		h.page.Add(t.number(l.from, l.to, l.i)...)
	}
}

// along are points along a level line, a millimetre apart.
func along(from, to draw.Point) (points []draw.Point) {
	for x := from.X; x <= to.X; x++ {
		points = append(points, draw.Point{X: x, Y: from.Y})
	}
	return points
}

// end is a short upright tick at the end of a limit.
func end(p draw.Point) draw.Path {
	return draw.Line(draw.Point{X: p.X, Y: p.Y - 1.2}, draw.Point{X: p.X, Y: p.Y + 1.2}, draw.Style{Width: 0.4})
}

// words tell a limit, where it is from and how the leaf stands to it.
func (h *hand) words(l forceLimit) string {
	f := l.finding
	text := l.what + ": " + bound(f, h.sys)
	if l.radius != 0 {
		text += " at " + value(quantity.DimLength, float64(l.radius), 0, h.sys)
	}
	if math.Abs(float64(l.radius/h.radius)-1) > 0.002 {
		text += ", here " + together(quantity.FormatValue(l.here, h.sys, 1))
	}
	return text + fmt.Sprintf(" (%s): %s", source(f), outcome(f, h.sys))
}

// row writes a limit below the plot, behind its number.
func (h *hand) row(i int, l forceLimit) {
	h.page.Add(numbered(draw.Point{X: h.page.format.rim + 3, Y: h.page.y - letter/2}, i)...)
	text := h.words(l)
	if h.off[i] {
		text += "; off the scale"
	}
	h.page.beside(8, text)
	h.page.y -= 0.8
}
