package picture

import (
	"fmt"
	"math"
	"slices"

	"swingwright/fact"
	"swingwright/internal/draw"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/swing"
)

// Closing shows leaf angle and kinetic energy over time of the closing from 90
// degrees, left to itself at the usual pressure, with faint lines for what the
// survey leaves possible, the limits of the plan's findings, and the end.
func Closing(p *plan.Plan, sys quantity.System) *draw.Scene { return In{Units: sys}.Closing(p) }

// Closing draws as the function of that name does, for a reader.
func (to In) Closing(p *plan.Plan) *draw.Scene {
	sys := to.Units
	const name, title = "closing", "Closing from 90°"
	if why := untimed(p); why != "" {
		return to.notice(p, name, title, why, "So there are no times and no energies to show.")
	}
	m, err := p.Model()
	if err != nil {
		return to.notice(p, name, title, err.Error())
	}
	c := closing{p: p, sys: sys, page: to.newPage(p, name, title), best: follow(&m, 6), times: timeLimits(p)}
	// Where no spread can be drawn the picture does without.
	_ = p.Drawn(draws, 1, func(d plan.Draw) { c.drawn = append(c.drawn, follow(d.Model, 3)) })
	if p.Swing.Worst90.End != c.best.end.End {
		m.SetAir(p.Resolved.Most.Value, m.Values()[swing.OilFactor])
		worst := follow(&m, 6)
		c.worst = &worst
	}
	c.draw()
	c.page.Table = c.table()
	return c.page.done()
}

// worstStyle is the line of the closing at the largest pressure.
var worstStyle = draw.Style{Width: 0.5, Dash: []float64{1.2, 1.2}}

// draws is how many closings stand for the spread: enough for a band, few
// enough to be told apart.
const draws = 24

// untimed says why a closing cannot be shown, nothing where it can.
func untimed(p *plan.Plan) string {
	s := &p.Swing
	switch {
	case !p.Resolved.Link.Closer:
		return "Closer, arm and spring are not all known, and without them the closing cannot be reckoned. Give the arm's sheet and the power setting, or gauge the closer opening and closing."
	case !s.Reachable:
		return "The arm as entered does not carry the leaf to 90°: check where pinion and shoe are, and the lengths of the arm."
	case p.Problem != nil:
		return "The closing cannot be reckoned: " + p.Problem.Error() + "."
	case s.From90.End == swing.Unfinished:
		return fmt.Sprintf("The closing could not be followed to its end: %v.", s.From90.Err)
	case !p.Resolved.Times:
		return "Neither the times of sweep and latch nor the turns of the valves with their sheet are known: take the time from 90° to 12° and from 12° to closed."
	}
	return ""
}

// ending says how a closing ended.
func ending(m *swing.Motion) string {
	switch {
	case m.End.Shut():
		return fmt.Sprintf("%s after %.1f s.", m.End, float64(m.Time))
	case m.End == swing.RestsOpen && m.Angle > 89.9*quantity.Degree:
		return "stays at 90°."
	case m.End == swing.RestsOpen:
		return fmt.Sprintf("comes to rest open at %s.", degrees(m.Angle, 1))
	}
	return fmt.Sprintf("still under way after %.0f s.", float64(m.Time))
}

// closing is the picture being drawn.
type closing struct {
	p     *plan.Plan
	sys   quantity.System
	page  *page
	best  track
	drawn []track
	worst *track // at the largest pressure, where that changes the end; else nil
	times []timeLimit
	ticks []float64
}

func (c *closing) draw() {
	words := "Let go at rest: " + ending(&c.best.end)
	if energy := c.p.Facts[fact.ClosePeakEnergy]; energy.Known && c.best.end.Time > 0 {
		words += fmt.Sprintf(" Largest energy %s at %s.", value(quantity.DimEnergy, energy.Value, energy.U, c.sys)+measured(energy.Origin), degrees(c.best.end.PeakAt, 0))
	}
	c.page.say(words)
	c.page.Description = c.page.phrases.Say("Leaf angle over time, and below it kinetic energy over time. " + words)
	if c.worst != nil {
		windy := fmt.Sprintf("At the largest pressure stated, %s: %s",
			value(quantity.DimPressure, c.p.Resolved.Most.Value, 0, c.sys), ending(&c.worst.end))
		c.page.sampled(worstStyle, windy)
		c.page.Description += " " + c.page.phrases.Say(windy)
	}
	c.page.y -= 3
	time := c.timeAxis()
	c.angle(time)
	c.page.y -= 4
	c.energy(time)
	c.page.y -= 5.2 * letter
	if len(c.drawn) > 0 {
		c.page.say(fmt.Sprintf("Faint lines: %d other closings that the spread of the survey allows.", len(c.drawn)))
	}
	for _, t := range c.times {
		c.page.y -= 1.5
		c.flag(t, time)
	}
	shown := []fact.ID{fact.ClosePeakEnergy}
	for _, l := range laps {
		shown = append(shown, l.id)
	}
	c.page.foot(limited(c.p, shown...))
}

// timeAxis reaches over the closing and all limits, with room for the last
// mark's label.
func (c *closing) timeAxis() draw.Axis {
	most := max(0.5, float64(c.best.end.Time))
	for _, t := range c.times {
		most = max(most, float64(t.due))
		if !math.IsNaN(float64(t.passed)) {
			most = max(most, float64(t.passed))
		}
	}
	most *= 1.04
	for _, mark := range c.p.Swing.Marks {
		if mark.Angle == 12*quantity.Degree && !math.IsNaN(float64(mark.Time)) {
			most = max(most, float64(mark.Time)/c.page.format.lastMark())
		}
	}
	c.ticks = draw.Ticks(0, most, c.page.format.ticks())
	return draw.Axis{High: most, Label: "time (s)", Ticks: c.ticks}
}

// angle is the upper plot.
func (c *closing) angle(time draw.Axis) {
	time.Ticks, time.Label = []float64{}, ""
	pl := plot{page: c.page, Axes: draw.Axes{
		Frame: c.page.frame(52), TextHeight: letter, X: time,
		Y: draw.Axis{High: 104, Label: "leaf angle (°)", Ticks: []float64{0, 30, 60, 90}},
	}}
	pl.upright(c.ticks)
	curve := func(t *track) []draw.Point {
		var points []draw.Point
		for i := range t.at {
			points = append(points, draw.Point{X: float64(t.at[i]), Y: max(0, float64(t.angle[i]/quantity.Degree))})
		}
		return points
	}
	c.curves(&pl, curve, "leaf angle")
	c.marks(&pl)
}

// curves draws one curve of every closing, the faint ones behind the plot and the
// others on it.
func (c *closing) curves(pl *plot, curve func(*track) []draw.Point, name string) {
	for i := range c.drawn {
		pl.line(curve(&c.drawn[i]), draw.Style{Width: 0.2, Stroke: draw.Faint}, "")
	}
	pl.place()
	if c.worst != nil {
		pl.line(curve(c.worst), worstStyle, name+" at the largest pressure stated")
	}
	pl.line(curve(&c.best), draw.Style{Width: 0.7}, name)
}

// energy is the lower plot, with the limits of energy above it in words.
func (c *closing) energy(time draw.Axis) {
	top := 0.
	in := func(e float64) float64 { return number(quantity.DimEnergy, e, c.sys) }
	for _, t := range append(c.drawn, c.best) {
		top = max(top, in(float64(t.end.Energy)))
	}
	limits := distinct(limited(c.p, fact.ClosePeakEnergy))
	var lines []draw.Limit
	for _, f := range limits {
		at := in(f.Limit)
		top = max(top, at)
		if len(lines) == 0 || math.Abs(lines[0].At-at) > 0.02*at {
			lines = append(lines, draw.Limit{At: at, Label: bound(f, c.sys)})
		}
	}
	high := max(1.3*top, 1e-3)
	nameApart(lines, 0.15*high)
	for _, f := range limits {
		c.page.sampled(draw.Style{Width: 0.5, Dash: []float64{3, 1}},
			fmt.Sprintf("kinetic energy %s (%s): %s", bound(f, c.sys), source(f), outcome(f, c.sys)))
	}
	c.page.y -= 1
	pl := plot{page: c.page, Axes: draw.Axes{
		Frame: c.page.frame(36), TextHeight: letter, X: time, Limits: lines,
		Y: draw.Axis{High: high, Label: "energy (" + quantity.Unit(quantity.DimEnergy, c.sys) + ")", Ticks: draw.Ticks(0, high, 6)},
	}}
	curve := func(t *track) []draw.Point {
		var points []draw.Point
		for i := range t.at {
			points = append(points, draw.Point{X: float64(t.at[i]), Y: in(float64(t.energy[i]))})
		}
		return points
	}
	pl.free(curve(&c.best))
	c.curves(&pl, curve, "kinetic energy")
}

// nameApart takes away the names of lines that would run into one above; the
// words over the plot tell every limit.
func nameApart(lines []draw.Limit, least float64) {
	for i := range lines {
		near := func(named draw.Limit) bool { return named.Label != "" && math.Abs(named.At-lines[i].At) < least }
		if slices.ContainsFunc(lines[:i], near) {
			lines[i].Label = ""
		}
	}
}
