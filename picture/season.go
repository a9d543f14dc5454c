package picture

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"swingwright/internal/draw"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/window"
)

// Seasons draws the months across the page: what the leaf does in each, told by a
// shape and a word, at today's setting and at the one that serves the year best;
// and below it the pressure, what is left to latch with, and how long it closes.
func Seasons(p *plan.Plan, s *plan.Seasons, sys quantity.System) *draw.Scene {
	const name, title = "seasons", "Through the year"
	if len(s.Missing) > 0 {
		return notice(p, name, title, append([]string{"The months cannot be told. What is missing:"}, s.Missing...)...)
	}
	c := calendar{page: newPage(p, name, title), s: s, sys: sys}
	c.draw()
	return c.page.done()
}

// calendar is the picture of a year on its way onto a page.
type calendar struct {
	page *page
	s    *plan.Seasons
	sys  quantity.System
}

func (c *calendar) draw() {
	g := c.page
	g.Description = "Today: " + tellYear(c.s.Today)
	g.say(g.Description)
	if c.s.Set != nil {
		text := fmt.Sprintf("Best for the year, power %.2f: %s", float64(c.s.Set.Power), tellYear(c.s.Best))
		g.say(text)
		g.Description += " " + text
	}
	g.y -= 2
	c.states("Today", c.s.Today)
	if c.s.Set != nil {
		c.states("Best for the year", c.s.Best)
	}
	c.pressure()
	c.latching()
	c.closing()
	c.key()
}

// tellYear says of every outcome in which months it comes.
func tellYear(year []plan.Season) string {
	var parts []string
	for _, o := range []window.Outcome{window.StaysOpen, window.TooHard, window.Slams, window.Latches} {
		var in []string
		for i := range year {
			if year[i].Outcome == o {
				in = append(in, year[i].Month)
			}
		}
		if len(in) == len(year) {
			return o.String() + " in every month."
		}
		if len(in) > 0 {
			parts = append(parts, o.String()+" in "+strings.Join(in, ", "))
		}
	}
	return strings.Join(parts, "; ") + "."
}

// x is the middle of a month's column, mm.
func (c *calendar) x(month int) float64 {
	return plotLeft + (float64(month)+0.5)*(plotRight-plotLeft)/float64(len(c.s.Months))
}

// names writes the months, all cut short where one has not the room.
func (c *calendar) names() {
	room := (plotRight - plotLeft) / float64(len(c.s.Months))
	texts, short := make([]draw.Text, len(c.s.Months)), false
	for i, m := range c.s.Months {
		texts[i] = draw.Text{At: draw.Point{X: c.x(i), Y: c.page.y}, Body: clean(m.Name), Height: letter, Anchor: draw.Middle, Level: draw.Top, Title: clean(m.Name)}
		short = short || 1.1*texts[i].Width() > room
	}
	free := math.Inf(-1) // where the last name ends
	for _, text := range texts {
		if short {
			text.Body = shortened(text.Body)
		}
		if half := text.Width() / 2; text.At.X-half > free {
			c.page.Add(text)
			free = text.At.X + half + 1
		}
	}
	c.page.y -= lineHeight
}

// shortened is a name cut to three letters.
func shortened(name string) string {
	if utf8.RuneCountInString(name) <= 3 {
		return name
	}
	return string([]rune(name)[:3])
}

// states draws a row of shapes with their words, which stand upright below them.
func (c *calendar) states(name string, year []plan.Season) {
	g := c.page
	tallest := 0.
	g.lines(draw.Text{Height: letter, Bold: true}, name)
	c.names()
	top := g.y
	for i := range year {
		one := &year[i]
		at := draw.Point{X: c.x(i), Y: top - shapeRadius}
		g.Add(shape(one, at)...)
		text := draw.Text{At: draw.Point{X: at.X + letter/2, Y: top - 2*shapeRadius - 1.6}, Body: word(one), Height: letter, Anchor: draw.End, Rotation: math.Pi / 2}
		g.Add(text)
		tallest = max(tallest, text.Width())
	}
	g.y -= 2*shapeRadius + 1.6 + tallest + 3
}

// word is what stands below a shape: no longer than the two words of the key.
func word(s *plan.Season) string {
	switch {
	case s.TooClose:
		return "too close"
	case s.Stalls:
		return "operator stalls"
	case s.Outcome == window.TooHard:
		return "too hard"
	}
	return s.Outcome.String()
}

const shapeRadius = 2.6 // mm

// shape tells a state: a full disc latches, a triangle slams, a full square is
// too hard to open, an empty ring stays open, and a cross through any stalls the
// operator. A month that is too close to call has a ring around it.
func shape(s *plan.Season, at draw.Point) []draw.Item {
	const r = shapeRadius - 0.6
	line, full := draw.Style{Width: 0.6}, draw.Style{Width: 0.3, Fill: draw.Ink}
	title := s.Month + ": " + s.Words()
	var items []draw.Item
	switch s.Outcome {
	case window.Latches:
		items = append(items, draw.Circle{Center: at, Radius: r, Style: full, Title: title})
	case window.Slams:
		items = append(items, draw.Path{Closed: true, Style: full, Title: title, Points: []draw.Point{
			{X: at.X - r, Y: at.Y - r}, {X: at.X + r, Y: at.Y - r}, {X: at.X, Y: at.Y + r}}})
	case window.TooHard:
		box := draw.Rectangle(draw.Point{X: at.X - r, Y: at.Y - r}, draw.Point{X: at.X + r, Y: at.Y + r}, full)
		box.Title = title
		items = append(items, box)
	default:
		items = append(items, draw.Circle{Center: at, Radius: r, Style: draw.Style{Width: 0.7, Fill: draw.White}, Title: title})
	}
	if s.TooClose {
		items = append(items, draw.Circle{Center: at, Radius: shapeRadius, Style: draw.Style{Width: 0.3}})
	}
	if s.Stalls {
		white := draw.Style{Width: 1.6, Stroke: draw.White}
		for _, style := range []draw.Style{white, line} {
			items = append(items, cross(at, r, style)...)
		}
	}
	return items
}

// pressure is the upper plot.
func (c *calendar) pressure() {
	unit := quantity.Unit(quantity.DimPressure, c.sys)
	c.page.say("Pressure on the closed leaf, " + together(unit) + "; above zero it pushes the leaf open.")
	values := make([]draw.Point, len(c.s.Months))
	for i, m := range c.s.Months {
		values[i] = draw.Point{X: float64(i) + 0.5, Y: number(quantity.DimPressure, float64(m.Pressure.Value), c.sys)}
	}
	c.plot(28, true, []draw.Series{{Points: values}})
}

// latching is what is left of the latch budget.
func (c *calendar) latching() {
	unit := quantity.Unit(quantity.DimTorque, c.sys)
	c.page.say("Moment left to latch with at 5°, " + together(unit) + ", " + c.legend() + ". Below zero it does not pull itself home.")
	c.plot(30, true, c.both(func(s *plan.Season) float64 {
		return number(quantity.DimTorque, float64(s.Budget), c.sys)
	}))
}

// closing is how long the leaf takes from 90 degrees to closed.
func (c *calendar) closing() {
	c.page.say("Time from 90° to closed, s, " + c.legend() + "; a gap where it never closes.")
	c.plot(30, false, c.both(func(s *plan.Season) float64 { return float64(s.Passed[1].Time) }))
}

// legend tells the two lines of a plot apart.
func (c *calendar) legend() string {
	if c.s.Set == nil {
		return "today"
	}
	return "full line today, dashed best for the year"
}

// both are the values of both settings, that of today last and on top.
func (c *calendar) both(of func(*plan.Season) float64) []draw.Series {
	var all []draw.Series
	for _, year := range [][]plan.Season{c.s.Today, c.s.Best} {
		if len(year) == 0 {
			continue
		}
		points := make([]draw.Point, len(year))
		for i := range year {
			points[i] = draw.Point{X: float64(i) + 0.5, Y: of(&year[i])}
		}
		all = append(all, draw.Series{Points: points})
	}
	return all
}

// plot draws one row of values over the months, from zero or with it in the frame.
func (c *calendar) plot(height float64, zero bool, series []draw.Series) {
	low, high := 0., 0.
	for _, s := range series {
		for _, v := range s.Points {
			if !math.IsNaN(v.Y) {
				low, high = min(low, v.Y), max(high, v.Y)
			}
		}
	}
	if room := 0.08 * (high - low); room > 0 {
		high += room
		if low < 0 {
			low -= room
		}
	} else {
		high = 1
	}
	c.page.y -= letter / 2 // for the upper half of a number at the top of the axis
	pl := plot{page: c.page, Axes: draw.Axes{
		Frame: c.page.frame(height), TextHeight: letter, Series: series,
		X: draw.Axis{High: float64(len(c.s.Months)), Ticks: []float64{}},
		Y: draw.Axis{Low: low, High: high, Ticks: draw.Ticks(low, high, 5)},
	}}
	var ticks []float64
	for i := range c.s.Months {
		ticks = append(ticks, float64(i)+0.5)
	}
	pl.upright(ticks)
	if zero && low < 0 {
		pl.Limits = []draw.Limit{{At: 0}}
	}
	pl.place()
	for _, s := range series { // a month between two gaps has no line
		for _, v := range s.Points {
			if !math.IsNaN(v.Y) {
				c.page.Add(draw.Circle{Center: pl.at(v.X, v.Y), Radius: 0.5, Style: draw.Style{Width: 0.1, Fill: draw.Ink}})
			}
		}
	}
	c.page.y -= 1.5
	c.names()
	c.page.y -= 1.5
}

// key says what the shapes mean.
func (c *calendar) key() {
	g := c.page
	for _, k := range []struct {
		of   plan.Season
		says string
	}{
		{plan.Season{Forecast: window.Forecast{Outcome: window.Latches}}, "latches from every angle, no faster than it may, and opens lightly enough"},
		{plan.Season{Forecast: window.Forecast{Outcome: window.Slams}}, "slams: latches, but with too much energy"},
		{plan.Season{Forecast: window.Forecast{Outcome: window.TooHard}}, "too hard to open by hand"},
		{plan.Season{Forecast: window.Forecast{Outcome: window.StaysOpen}}, "stays open: does not latch from 5°, 30° or 90°"},
		{plan.Season{TooClose: true}, "ring around any: what is left to latch with is within its spread; it may end either way"},
		{plan.Season{Stalls: true}, "cross through any: the operator cannot open it against the pressure"},
	} {
		g.Add(shape(&k.of, draw.Point{X: margin + shapeRadius, Y: g.y - letter/2})...)
		g.beside(2*shapeRadius+3, k.says)
	}
	g.say("Best estimates: the weather of the months as stated, not as it will be.")
}
