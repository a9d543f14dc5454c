package picture

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"swingwright/fact"
	"swingwright/internal/draw"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/rulebook"
)

// timeLimit is a limit on the time between two places of a closing.
type timeLimit struct {
	finding *plan.Finding
	what    string
	begun   quantity.Time // when the closing passes the first place
	due     quantity.Time // when it may pass the second, at the earliest or the latest
	passed  quantity.Time // when it does; NaN if never, or not known
}

// laps are the facts that are times of a closing, with the angle from which
// they count.
var laps = []struct {
	id   fact.ID
	from quantity.Angle
	what string
}{
	{fact.CloseTime90To12, 90 * quantity.Degree, "90° to 12°"},
	{fact.CloseTime90To10, 90 * quantity.Degree, "90° to 10°"},
	{fact.CloseTime90ToCheck, 90 * quantity.Degree, ""}, // see checkWords
	{fact.CloseTime10ToClosed, 10 * quantity.Degree, "10° to closed"},
	{fact.CloseTime90ToClosed, 90 * quantity.Degree, "90° to closed"},
	{fact.CloseTime70ToClosed, 70 * quantity.Degree, "70° to closed"},
	{fact.CloseTime70To75mm, 70 * quantity.Degree, "70° to 75 mm from closed"},
}

// timeLimits are the limits on times whose beginning the closing passes, in
// the order in which they are due.
func timeLimits(p *plan.Plan) []timeLimit {
	var all []timeLimit
	for _, l := range laps {
		begun := passing(p, l.from)
		if math.IsNaN(float64(begun)) {
			continue
		}
		for _, f := range distinct(limited(p, l.id)) {
			what := cmp.Or(l.what, checkWords(p))
			all = append(all, timeLimit{f, what, begun, begun + quantity.Time(f.Limit), begun + quantity.Time(f.Value)})
		}
	}
	slices.SortStableFunc(all, func(a, b timeLimit) int { return cmp.Compare(a.due, b.due) })
	return all
}

// checkWords name the stretch from 90 degrees to latch check or 10 degrees,
// whichever the leaf comes to first.
func checkWords(p *plan.Plan) string {
	zone := p.Facts[fact.LatchZoneFrom]
	if from := quantity.Angle(zone.Value); zone.Known && from > 10*quantity.Degree {
		return "90° to latch check at " + degrees(from, 0)
	}
	return "90° to 10°"
}

// passing is when the closing passes an angle, NaN if never or if it is no mark.
func passing(p *plan.Plan, angle quantity.Angle) quantity.Time {
	for _, mark := range p.Swing.Marks {
		if mark.Angle == angle {
			return mark.Time
		}
	}
	return quantity.Time(math.NaN())
}

// flag draws one time limit in words and as a bar on the time axis: grey is the
// time that is not allowed, the flag its end, and a dot (a cross where it falls
// in the grey) the time that the leaf takes.
func (c *closing) flag(t timeLimit, time draw.Axis) {
	when := "not before"
	if t.finding.Rule.Side == rulebook.AtMost {
		when = "not after"
	}
	c.page.lines(draw.Text{Height: letter}, fmt.Sprintf("%s %s %s (%s): %s", t.what, when,
		value(quantity.DimTime, t.finding.Limit, 0, c.sys), source(t.finding), outcome(t.finding, c.sys)))
	c.page.y -= 1.5 // for the flag
	bar := plot{page: c.page, Axes: draw.Axes{Frame: c.page.frame(2.2), X: time, Y: draw.Axis{High: 1}}}
	c.page.y -= 2.5
	from, to := float64(t.begun), float64(t.due)
	if t.finding.Rule.Side == rulebook.AtMost {
		from, to = to, time.High
	}
	due := bar.at(float64(t.due), 0)
	c.page.Add(
		draw.Line(bar.at(0, 0), bar.at(time.High, 0), draw.Style{Width: 0.2, Stroke: draw.Grey}),
		draw.Rectangle(bar.at(from, 0), bar.at(to, 1), draw.Style{Width: 0.25, Fill: draw.Shade}),
		draw.Line(due, draw.Point{X: due.X, Y: due.Y + 4}, draw.Style{Width: 0.5}),
		draw.Path{Points: []draw.Point{{X: due.X, Y: due.Y + 4}, {X: due.X + 2.4, Y: due.Y + 3}, {X: due.X, Y: due.Y + 2}}, Closed: true, Style: draw.Style{Fill: draw.Ink, Width: 0.3}},
	)
	if at := float64(t.passed); !math.IsNaN(at) {
		c.page.Add(passMark(bar.at(at, 0.5), at < from || at >= to)...)
	}
}

// passMark is a dot, or a cross where the time is bad.
func passMark(at draw.Point, good bool) []draw.Item {
	const r = 1.2
	if good {
		return []draw.Item{draw.Circle{Center: at, Radius: r, Style: draw.Style{Width: 0.3, Fill: draw.Ink}}}
	}
	return cross(at, r, draw.Style{Width: 0.7})
}

// cross is a lying cross in a square of twice the radius.
func cross(at draw.Point, r float64, s draw.Style) []draw.Item {
	return []draw.Item{
		draw.Line(draw.Point{X: at.X - r, Y: at.Y - r}, draw.Point{X: at.X + r, Y: at.Y + r}, s),
		draw.Line(draw.Point{X: at.X - r, Y: at.Y + r}, draw.Point{X: at.X + r, Y: at.Y - r}, s),
	}
}
