package draw

import (
	"image/color"
	"math"
)

// look is how one series is told from the others. Dash and marker tell it
// without colour.
type look struct {
	dash   []float64
	marker func(at Point, size float64, style Style) Item
	filled bool
	colour color.NRGBA
}

var looks = [...]look{
	{nil, round, true, Ink},
	{[]float64{5, 1.5}, square, false, Blue},
	{[]float64{1.2, 1.2}, triangle, true, Red},
	{[]float64{6, 1.2, 1.2, 1.2}, diamond, false, Green},
	{[]float64{3, 1.2}, round, false, Purple},
	{[]float64{6, 1.2, 1.2, 1.2, 1.2, 1.2}, square, true, Grey},
}

func round(at Point, size float64, style Style) Item {
	return Circle{Center: at, Radius: size / 2, Style: style}
}

func square(at Point, size float64, style Style) Item {
	r := 0.44 * size
	return Rectangle(Point{at.X - r, at.Y - r}, Point{at.X + r, at.Y + r}, style)
}

func triangle(at Point, size float64, style Style) Item {
	r := 0.62 * size
	return Path{Points: []Point{{at.X, at.Y + r}, {at.X - 0.87*r, at.Y - r/2}, {at.X + 0.87*r, at.Y - r/2}}, Closed: true, Style: style}
}

func diamond(at Point, size float64, style Style) Item {
	r := 0.62 * size
	return Path{Points: []Point{{at.X, at.Y + r}, {at.X - r, at.Y}, {at.X, at.Y - r}, {at.X + r, at.Y}}, Closed: true, Style: style}
}

func (l look) line() Style { return Style{Width: seriesWidth, Stroke: l.colour, Dash: l.dash} }

// mark is the marker of a series at a place; size is its height, mm.
func (l look) mark(at Point, size float64) Item {
	style := Style{Width: 0.35, Stroke: l.colour, Fill: White}
	if l.filled {
		style.Fill = l.colour
	}
	return l.marker(at, size, style)
}

// spacing is the distance between the markers of a series, mm of line.
const spacing = 24.

// series draws the lines and, on top of all of them, their markers.
func (a Axes) series(s *Scene) {
	var markers []Item
	for i, series := range a.Series {
		look := looks[i]
		points := make([]Point, len(series.Points))
		for k, v := range series.Points {
			points[k] = a.at(v)
		}
		// The first marker of each series sits a little further on than that of
		// the series before, so that lines which coincide still show both.
		next := spacing / 4 * (1 + float64(i)/2)
		for _, run := range a.Frame.clip(points) {
			s.Add(Path{Points: run, Style: look.line(), Title: series.Name})
			var at []Point
			at, next = evenly(run, next)
			for _, p := range at {
				markers = append(markers, look.mark(p, 0.7*a.TextHeight))
			}
		}
	}
	s.Add(markers...)
}

// evenly finds places along a line, the first after the length next (mm), and
// tells how far after the end the one to follow would be.
func evenly(line []Point, next float64) (places []Point, left float64) {
	for k := 1; k < len(line); k++ {
		a, b := line[k-1], line[k]
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		for ; next <= length && length > 0; next += spacing {
			u := next / length
			places = append(places, Point{a.X + u*(b.X-a.X), a.Y + u*(b.Y-a.Y)})
		}
		next -= length
	}
	return places, next
}

// legend names the series above the frame, line by line, the last line lowest.
func (a Axes) legend(s *Scene) {
	h, sample := a.TextHeight, 12.
	type entry struct {
		look look
		text Text
	}
	var lines [][]entry
	x := math.Inf(1)
	for i, series := range a.Series {
		if series.Name == "" {
			continue
		}
		text := Text{Body: series.Name, Height: h, Level: Centre}
		need := sample + h + 1.1*text.Width()
		if x+need > a.Frame.Max.X {
			lines = append(lines, nil)
			x = a.Frame.Min.X
		}
		text.At.X = x + sample + h
		last := len(lines) - 1
		lines[last] = append(lines[last], entry{looks[i], text})
		x += need + 2*h
	}
	for k, line := range lines {
		y := a.Frame.Max.Y + 2*h + 2*h*float64(len(lines)-1-k)
		for _, e := range line {
			e.text.At.Y = y
			from := Point{e.text.At.X - h - sample, y}
			s.Add(Line(from, Point{from.X + sample, y}, e.look.line()),
				e.look.mark(Point{from.X + sample/2, y}, 0.7*h), e.text)
		}
	}
}
