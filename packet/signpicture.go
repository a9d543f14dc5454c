package packet

import (
	"swingwright/internal/draw"
	"swingwright/internal/paper"
	q "swingwright/quantity"
	"swingwright/swing"
)

// signPicture is the leaf from in front, with the band in which the middles of signs
// lie: 50 in ± 12 in (ANSI/BHMA A156.19, section 6), and the signs at its middle.
func (s *sheet) signPicture() *draw.Scene {
	const (
		scale  = 1. / 40
		left   = 64. // of the leaf on the page, mm
		bottom = 12.
		margin = 8.
	)
	v := s.p.Values()
	wide, high := v[swing.LeafWidth], v[swing.LeafHeight]
	if !(wide > 0) || !(high > 0) {
		wide, high = 0.914, 2.134 // a leaf of 3 ft by 7 ft, only to show the places
	}
	mm := func(metres float64) float64 { return 1000 * metres * scale }
	at := func(height float64) float64 { return bottom + mm(height) }
	p := &draw.Scene{Width: 190, Height: bottom + mm(high) + 8, Title: "Where signs go", Description: "The leaf from in front, with signs between 38 and 62 in above the floor."}
	low, middle, top := float64(38*q.Inch), float64(50*q.Inch), float64(62*q.Inch)
	p.Add(draw.Rectangle(draw.Point{X: left, Y: at(low)}, draw.Point{X: left + mm(wide), Y: at(top)}, draw.Style{Fill: draw.Shade}))
	p.Add(draw.Rectangle(draw.Point{X: left, Y: bottom}, draw.Point{X: left + mm(wide), Y: at(high)}, draw.Style{Width: 0.5}))
	p.Add(draw.Line(draw.Point{X: margin, Y: bottom}, draw.Point{X: 182, Y: bottom}, draw.Style{Width: 0.5}))
	centre := draw.Point{X: left + mm(wide)/2, Y: at(middle)}
	radius := mm(float64(3*q.Inch)) * 1.6
	p.Add(draw.Circle{Center: centre, Radius: radius, Style: draw.Style{Width: 0.4, Fill: draw.White}, Title: "round sign"})
	p.Add(draw.Line(draw.Point{X: centre.X - 0.75*radius, Y: centre.Y}, draw.Point{X: centre.X + 0.75*radius, Y: centre.Y}, draw.Style{Width: 0.9})) // its word
	wideSign, highSign := mm(float64(9*q.Inch)), mm(float64(5*q.Inch))
	below := draw.Point{X: centre.X, Y: centre.Y - radius - highSign/2 - 1.5}
	p.Add(draw.Rectangle(draw.Point{X: below.X - wideSign/2, Y: below.Y - highSign/2}, draw.Point{X: below.X + wideSign/2, Y: below.Y + highSign/2}, draw.Style{Width: 0.4, Fill: draw.White}))
	for i, height := range []float64{low, middle, top} {
		y := at(height)
		p.Add(draw.Line(draw.Point{X: left - 14, Y: y}, draw.Point{X: left - 1, Y: y}, draw.Style{Width: 0.2}))
		text := paper.Hold(q.ByTape(q.Length(height), s.units))
		p.Add(draw.Text{At: draw.Point{X: left - 15, Y: y}, Body: []string{"lowest middle ", "best ", "highest middle "}[i] + text, Height: 2.4, Anchor: draw.End, Level: draw.Centre, Bold: i == 1})
	}
	x := left + mm(wide) + 6
	words := []struct {
		y    float64
		text string
	}{{centre.Y + 1.9, "round sign, " + paper.Hold(q.ByTape(6*q.Inch, s.units)) + " across at least:"}, {below.Y, "sign with the words that tell how it is started"}, {centre.Y - 1.9, "AUTOMATIC CAUTION DOOR"}, {at(low) - 3, "shaded: where the middles of signs lie"}}
	for i, w := range words {
		if i < 2 {
			from, y := centre.X+radius, []float64{centre.Y, below.Y}[i]
			p.Add(draw.Line(draw.Point{X: from + 0.5, Y: y}, draw.Point{X: x - 1, Y: y}, draw.Style{Width: 0.2}))
		}
		p.Add(draw.Text{At: draw.Point{X: x, Y: w.y}, Body: w.text, Height: 2.4, Level: draw.Centre})
	}
	p.Add(draw.Text{At: draw.Point{X: margin, Y: bottom - 4.5}, Body: "floor; the leaf drawn 1 to 40, the signs larger", Height: 2.4, Level: draw.Centre})
	return p
}
