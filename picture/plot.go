package picture

import (
	"math"

	"swingwright/internal/draw"
)

// plot is a plot on its way into a page: [draw.Axes], with lines of our own.
type plot struct {
	draw.Axes
	page *page
}

// at is the place of a pair of values on the page.
func (c *plot) at(x, y float64) draw.Point {
	f := c.Frame
	return draw.Point{
		X: f.Min.X + (x-c.X.Low)/(c.X.High-c.X.Low)*(f.Max.X-f.Min.X),
		Y: f.Min.Y + (y-c.Y.Low)/(c.Y.High-c.Y.Low)*(f.Max.Y-f.Min.Y),
	}
}

// line draws a line through pairs of values, as far as they lie in the frame.
func (c *plot) line(values []draw.Point, style draw.Style, title string) {
	path := draw.Path{Style: style, Title: title}
	for _, v := range values {
		if v.X >= c.X.Low && v.X <= c.X.High && v.Y >= c.Y.Low && v.Y <= c.Y.High {
			path.Points = append(path.Points, c.at(v.X, v.Y))
		}
	}
	if len(path.Points) > 1 {
		path.Points = thinned(path.Points)
		c.page.Add(path)
	}
}

// placed are pairs of values as places on the page.
func (c *plot) placed(values []draw.Point) []draw.Point {
	points := make([]draw.Point, len(values))
	for i, v := range values {
		points[i] = c.at(v.X, v.Y)
	}
	return points
}

// free takes away the names of the limits that a curve would run through;
// what they say stands above the plot as well.
func (c *plot) free(curve []draw.Point) {
	for i, l := range c.Limits {
		text := draw.Text{Body: c.page.phrases.Say(l.Label), Height: letter}
		corner := draw.Point{X: c.Frame.Max.X - 1.2*text.Width() - letter, Y: c.at(0, l.At).Y}
		for _, v := range curve {
			if p := c.at(v.X, v.Y); p.X > corner.X && math.Abs(p.Y-corner.Y) < 2.5*letter {
				c.Limits[i].Label = ""
			}
		}
	}
}

// upright draws a faint line across the frame at every tick of the x axis of
// the plot below, which goes without numbers.
func (c *plot) upright(ticks []float64) {
	for _, t := range ticks {
		c.page.Add(draw.Line(c.at(t, c.Y.Low), c.at(t, c.Y.High), thin(draw.Faint)))
	}
}

// place puts frame, ticks and series onto the page.
func (c *plot) place() {
	say := c.page.phrases.Say
	c.X.Label, c.Y.Label = say(c.X.Label), say(c.Y.Label)
	for i := range c.Series {
		c.Series[i].Name = say(c.Series[i].Name)
	}
	for i := range c.Limits {
		c.Limits[i].Label = say(c.Limits[i].Label)
	}
	if err := c.Axes.Place(c.page.Scene); err != nil {
		// A plot that nothing sensible can be put into says so in its place.
		c.page.Add(draw.Text{At: c.Frame.Min, Body: err.Error(), Height: letter})
	}
}
