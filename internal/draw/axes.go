package draw

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// Axes is a plot: a frame with ticks, series of values, limits and bands.
// Fill in the fields and call Place.
type Axes struct {
	// Frame is where the values go on the page, mm. Ticks, labels and the legend
	// lie outside: leave about 4 text heights below, 6 to the left, 3 above for
	// each line of the legend, and 1 to the right.
	Frame Box
	X, Y  Axis
	// TextHeight is the height of capitals, mm; 0 is 2.5.
	TextHeight float64
	Series     []Series
	Limits     []Limit
	Bands      []Band
}

// Axis is a range of values and how it is written.
type Axis struct {
	// Low and High are the values at the ends of the frame, Low below High.
	Low, High float64
	// Label names the quantity and its unit.
	Label string
	// Ticks are the values to mark; nil chooses round ones.
	Ticks []float64
}

// Series is a line through values, in order. A value that is not finite
// interrupts the line. Each series of a plot has its own dash, marker and
// colour, by its place, up to six.
type Series struct {
	// Name stands in the legend; without one the series is left out of it.
	Name string
	// Points are pairs of values, not millimetres.
	Points []Point
}

// Side tells which axis a limit or a band belongs to.
type Side uint8

// The axes of a plot.
const (
	OnY Side = iota
	OnX
)

// Limit is a line across the frame at one value.
type Limit struct {
	On Side
	// At is the value.
	At float64
	// Label stands at the line.
	Label string
}

// Band is a shaded range of values across the frame.
type Band struct {
	On       Side
	From, To float64
	// Label stands inside, at the top left.
	Label string
}

// Lines of a plot, mm.
const (
	frameWidth  = 0.35
	gridWidth   = 0.13
	seriesWidth = 0.5
	limitWidth  = 0.5
)

// Place puts the plot on top of the scene. It reports everything that makes
// the plot impossible and then leaves the scene as it was.
func (a Axes) Place(s *Scene) error {
	if err := a.check(); err != nil {
		return err
	}
	if a.TextHeight == 0 {
		a.TextHeight = 2.5
	}
	a.bands(s)
	a.axes(s)
	a.limits(s)
	a.series(s)
	s.Add(Rectangle(a.Frame.Min, a.Frame.Max, Style{Width: frameWidth}))
	a.notes(s)
	a.labels(s)
	a.legend(s)
	return nil
}

func (a Axes) check() error {
	var found []error
	fault := func(format string, args ...any) { found = append(found, fmt.Errorf("draw: "+format, args...)) }
	if !(a.Frame.Max.X-a.Frame.Min.X > 1 && a.Frame.Max.Y-a.Frame.Min.Y > 1) {
		fault("plot frame from %v to %v mm; make it more than 1 mm wide and high", a.Frame.Min, a.Frame.Max)
	}
	for i, axis := range []Axis{a.X, a.Y} {
		if span := axis.High - axis.Low; !(span > 0) || math.IsInf(span, 0) {
			fault("%s axis from %v to %v; give two finite numbers, the lower first", [...]string{"x", "y"}[i], axis.Low, axis.High)
		}
	}
	if !(a.TextHeight >= 0 && a.TextHeight <= farthest) {
		fault("text height is %v mm; give more than 0, or 0 for 2.5", a.TextHeight)
	}
	if len(a.Series) > len(looks) {
		fault("%d series in one plot; %d can be told apart, so make more plots", len(a.Series), len(looks))
	}
	return errors.Join(found...)
}

// at is the place of a pair of values on the page.
func (a Axes) at(v Point) Point { return Point{a.along(OnX, v.X), a.along(OnY, v.Y)} }

// along is the place of one value along its axis, mm.
func (a Axes) along(on Side, v float64) float64 {
	axis, low, high := a.Y, a.Frame.Min.Y, a.Frame.Max.Y
	if on == OnX {
		axis, low, high = a.X, a.Frame.Min.X, a.Frame.Max.X
	}
	return low + (v-axis.Low)/(axis.High-axis.Low)*(high-low)
}

// across is the line through the frame at a place along an axis.
func (a Axes) across(on Side, at float64) (from, to Point) {
	if on == OnX {
		return Point{at, a.Frame.Min.Y}, Point{at, a.Frame.Max.Y}
	}
	return Point{a.Frame.Min.X, at}, Point{a.Frame.Max.X, at}
}

// axes draws grid lines, ticks and their labels.
func (a Axes) axes(s *Scene) {
	h := a.TextHeight
	for _, on := range []Side{OnX, OnY} {
		ticks := a.ticks(on)
		free := math.Inf(-1) // where along the axis the last label ends
		for i, body := range Labels(ticks) {
			from, to := a.across(on, a.along(on, ticks[i]))
			label := Text{At: Point{from.X - h, from.Y}, Body: body, Height: h, Anchor: End, Level: Centre}
			tick, at, half := Point{from.X - h/2, from.Y}, from.Y, h/2
			if on == OnX {
				label.At, label.Anchor, label.Level = Point{from.X, from.Y - h}, Middle, Top
				tick, at, half = Point{from.X, from.Y - h/2}, from.X, label.Width()/2
			}
			s.Add(Line(from, to, Style{Width: gridWidth, Stroke: Faint}), Line(from, tick, Style{Width: frameWidth}))
			if at-half > free {
				s.Add(label)
				free = at + half + h/2
			}
		}
	}
}

// ticks are the values to mark on an axis, those within the frame.
func (a Axes) ticks(on Side) []float64 {
	axis, room := a.Y, (a.Frame.Max.Y-a.Frame.Min.Y)/(4*a.TextHeight)
	if on == OnX {
		axis, room = a.X, (a.Frame.Max.X-a.Frame.Min.X)/(7*a.TextHeight)
	}
	if axis.Ticks == nil {
		return Ticks(axis.Low, axis.High, max(2, int(room)+1))
	}
	var inside []float64
	for _, v := range axis.Ticks {
		if v >= axis.Low && v <= axis.High {
			inside = append(inside, v)
		}
	}
	slices.Sort(inside)
	return inside
}

// labels writes what the axes mean.
func (a Axes) labels(s *Scene) {
	h := a.TextHeight
	f := a.Frame
	s.Add(
		Text{At: Point{(f.Min.X + f.Max.X) / 2, f.Min.Y - 3*h}, Body: a.X.Label, Height: h, Anchor: Middle, Level: Top},
		Text{At: Point{f.Min.X - 5*h, (f.Min.Y + f.Max.Y) / 2}, Body: a.Y.Label, Height: h, Anchor: Middle, Rotation: math.Pi / 2},
	)
}
