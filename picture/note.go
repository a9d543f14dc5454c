package picture

import (
	"math"

	"swingwright/internal/draw"
)

// noted is a word that still wants its place.
type noted struct {
	body string
	at   draw.Point
	on   bool // may stand on the place itself
}

// note remembers a word by a spot. Words are placed when all else is drawn.
func (a *above) note(body string, s spot, on bool) {
	a.notes = append(a.notes, noted{a.page.phrases.Say(body), a.at(s), on})
}

// writeNotes puts every word as near to its spot as neither another word nor the edge
// of the drawing is, with a line to the spot where that is some way off. A word for
// which there is no room is left out; the key tells the same.
func (a *above) writeNotes(low, high draw.Point) {
	for _, n := range a.notes {
		text := draw.Text{Body: n.body, Height: letter, Anchor: draw.Middle, Level: draw.Centre, Bold: true, Halo: 0.7}
		if n.on && a.free(text, n.at, low, high) {
			text.At = n.at
			a.page.Scene.Add(text)
			continue
		}
		if at, ok := a.beside(text, n.at, low, high); ok {
			text.At = at
			if math.Hypot(at.X-n.at.X, at.Y-n.at.Y) > 5+text.Width()/2 {
				a.page.Add(draw.Line(n.at, at, draw.Style{Width: 0.2}))
			}
			a.page.Scene.Add(text)
		}
	}
}

// beside is the nearest place that is free; one farther away is taken rather than one
// on lines.
func (a *above) beside(text draw.Text, at, low, high draw.Point) (best draw.Point, ok bool) {
	const (
		rays = 16
		line = 7. // mm; how much farther a word goes for a line less below it
	)
	least := math.Inf(1)
	for out := 5.; out < 45; out += 1.5 {
		if out >= least {
			break // no place farther away is better
		}
		for i := range rays {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / rays)
			p := draw.Point{X: at.X + cos*(out+text.Width()/2), Y: at.Y + sin*out}
			if !a.free(text, p, low, high) {
				continue
			}
			text.At = p
			if cost := out + line*float64(draw.Under(text, a.page.Items)); cost < least {
				best, least, ok = p, cost, true
			}
		}
	}
	return best, ok
}

// free tells that a word about a place lies within the drawing and on no other word.
func (a *above) free(text draw.Text, at, low, high draw.Point) bool {
	const rim = 1.5
	w, h := 1.05*text.Width()/2+rim, text.Height/2+rim
	if at.X-w < low.X || at.X+w > high.X || at.Y-h < low.Y || at.Y+h > high.Y {
		return false
	}
	for _, item := range a.page.Items {
		if t, ok := item.(draw.Text); ok && near(t, at, w, h) {
			return false
		}
	}
	return true
}

// near tells that the letters of a text come within a box about a place.
func near(t draw.Text, at draw.Point, w, h float64) bool {
	low := lowLeft(t, t.Width())
	return low.X < at.X+w && low.X+t.Width() > at.X-w && low.Y < at.Y+h && low.Y+t.Height > at.Y-h
}
