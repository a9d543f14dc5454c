package picture

import (
	"fmt"
	"math"

	"swingwright/internal/draw"
	"swingwright/quantity"
	"swingwright/swing"
)

// marks are the angles that closings are timed by, and the end.
func (c *closing) marks(pl *plot) {
	tight := false // no room beneath the curve for the mark at 10 degrees
	for _, mark := range c.p.Swing.Marks {
		if mark.Angle == 10*quantity.Degree && !math.IsNaN(float64(mark.Time)) {
			tight = pl.at(float64(mark.Time), 0).X-1.2*markText(mark).Width()-3 < pl.Frame.Min.X
		}
	}
	for _, mark := range c.p.Swing.Marks {
		if math.IsNaN(float64(mark.Time)) || mark.Angle == 0 {
			continue
		}
		at := pl.at(float64(mark.Time), float64(mark.Angle/quantity.Degree))
		text := markText(mark)
		text.At = draw.Point{X: at.X + 2, Y: at.Y + 0.9}
		switch {
		case mark.Angle == 10*quantity.Degree && !tight: // beneath, clear of the mark at 12 degrees
			text.At, text.Anchor, text.Level = draw.Point{X: at.X - 1.8, Y: at.Y - 1.1}, draw.End, draw.Top
		case mark.Angle == 12*quantity.Degree && tight: // a line higher, clear of the mark at 10 degrees
			text.At.Y += letter + 1.4
		}
		c.page.Add(text, draw.Circle{Center: at, Radius: 0.9, Style: draw.Style{Width: 0.4, Fill: draw.White}})
	}
	end := square(pl.at(float64(c.best.end.Time), float64(c.best.end.Angle/quantity.Degree)))
	end.Title = "end: " + c.best.end.End.String()
	c.page.Add(end)
}

// markText is what stands by a mark: its angle, and when the leaf passes it.
func markText(mark swing.Mark) draw.Text {
	text := draw.Text{Body: degrees(mark.Angle, 0), Height: letter}
	if mark.Time > 0 {
		text.Body += fmt.Sprintf("  %.2f s", float64(mark.Time))
	}
	return text
}
