package picture

import (
	"fmt"
	"slices"
	"strings"

	"swingwright/internal/draw"
	"swingwright/judge"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/trace"
)

// Recording draws the swings of a recording one below the other: leaf angle over time
// with the phases, and beside the closing the one that the plan reckons.
func Recording(p *plan.Plan, t *trace.Trace, sys quantity.System) *draw.Scene {
	return In{Units: sys}.Recording(p, t)
}

// Recording draws as the function of that name does, for a reader.
func (to In) Recording(p *plan.Plan, t *trace.Trace) *draw.Scene {
	sys := to.Units
	const name, title = "recording", "As recorded"
	if len(t.Swings) == 0 {
		return to.notice(p, name, title, "No swing was found on the recording.")
	}
	g := to.newPage(p, name, title)
	g.Description = g.phrases.Say(fmt.Sprintf("%d swings, leaf angle over time.", len(t.Swings)))
	course := reckoned(p)
	for i, s := range t.Swings {
		g.swung(course, i, s)
	}
	for i := range p.Findings {
		if f := &p.Findings[i]; f.Origin == plan.Read && f.Verdict != judge.DoesNotApply && moving(f) {
			g.say(fmt.Sprintf("%s: %s; %s.", f.Rule.Title, outcome(f, sys), bound(f, sys)))
		}
	}
	g.y -= 2
	g.say("Solid: as recorded, with its phases below. Dashed: the closing from 90° that the survey lets one expect.")
	g.Table = recordedTable(t)
	return g.done()
}

// moving tells a finding about how the leaf moves.
func moving(f *plan.Finding) bool {
	name := f.Rule.Of.String()
	return strings.HasPrefix(name, "closing.") || strings.HasPrefix(name, "powered.")
}

// reckoned is the closing that the plan reckons, s and degrees.
func reckoned(p *plan.Plan) []draw.Point {
	at, angle := p.Course()
	course := make([]draw.Point, len(at))
	for k := range at {
		course[k] = draw.Point{X: float64(at[k]), Y: float64(angle[k] / quantity.Degree)}
	}
	return course
}

// swung draws one swing, with the course of the reckoned closing beside it.
func (g *page) swung(course []draw.Point, i int, s *trace.Swing) {
	g.lines(draw.Text{Height: letter, Bold: true}, fmt.Sprintf("Swing %d: %s", i+1, s.Kind))
	if why := s.Spoilt(); why != "" {
		g.say("Nothing can be told of it: " + why)
		return
	}
	g.y -= 3
	samples := s.Samples()
	if len(samples) < 2 {
		return
	}
	var line []draw.Point
	top := 90.
	for _, x := range samples {
		a := float64(x.Angle / quantity.Degree)
		line, top = append(line, draw.Point{X: float64(x.Time), Y: a}), max(top, a)
	}
	c := plot{page: g, Axes: draw.Axes{
		Frame: g.frame(60), TextHeight: letter,
		X: draw.Axis{Low: line[0].X, High: line[len(line)-1].X, Label: "s"},
		Y: draw.Axis{Low: 0, High: top + 5, Label: "leaf angle, deg"},
	}}
	c.place()
	for k, ph := range s.Phases {
		at := float64(ph.From)
		if k > 0 {
			g.Add(draw.Line(c.at(at, c.Y.Low), c.at(at, c.Y.High), thin(draw.Faint)))
		}
	}
	c.line(line, draw.Style{Width: 0.5, Stroke: draw.Ink}, "as recorded")
	c.expected(course, line)
	g.y -= 16
	var words string
	for k, ph := range s.Phases {
		if k > 0 {
			words += "; "
		}
		words += fmt.Sprintf("%s from %.1f s", ph.Kind, float64(ph.From))
	}
	g.say(words + ".")
	g.y -= 3
}

// expected lays the reckoned closing beside the recorded one: both pass 80 degrees at
// the same time, or where the leaf was not opened so far, nothing is laid.
func (c *plot) expected(course, line []draw.Point) {
	const meet = 80.
	passed, found := 0., false
	for k := 1; k < len(line); k++ {
		if line[k-1].Y >= meet && line[k].Y < meet {
			passed, found = line[k].X, true
		}
	}
	first := slices.IndexFunc(course, func(p draw.Point) bool { return p.Y <= meet })
	if !found || first < 0 {
		return
	}
	course = slices.Clone(course)
	shift := passed - course[first].X
	for k := range course {
		course[k].X += shift
	}
	c.line(course, worstStyle, "as reckoned")
}
