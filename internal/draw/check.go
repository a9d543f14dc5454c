package draw

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"unicode"
	"unicode/utf8"
)

// farthest is how far from the origin anything may lie, mm: ten metres of paper.
const farthest = 1e4

// Check reports everything that keeps the scene from being drawn, each with the
// number of its item, counted from 0.
func (s *Scene) Check() error {
	var found []error
	if !(s.Width > 0 && s.Width <= farthest && s.Height > 0 && s.Height <= farthest) {
		found = append(found, fmt.Errorf("draw: page of %v mm by %v mm; give sides above 0 and up to %v mm", s.Width, s.Height, farthest))
	}
	if strings.ContainsFunc(s.ID, func(r rune) bool {
		return r != '-' && (r > unicode.MaxASCII || !unicode.IsLetter(r) && !unicode.IsDigit(r))
	}) {
		found = append(found, fmt.Errorf("draw: scene ID %q; use letters, digits and hyphens of ASCII only", s.ID))
	}
	for i, l := range s.Layers {
		if !layerName.MatchString(l.Name) {
			found = append(found, fmt.Errorf("draw: layer %d is named %q; use 1 to 31 letters, digits, hyphens and underscores of ASCII", i, l.Name))
		}
	}
	for i, item := range s.Items {
		if item == nil {
			found = append(found, fmt.Errorf("draw: item %d is nil; leave it out", i))
			continue
		}
		for _, p := range item.problems() {
			found = append(found, fmt.Errorf("draw: item %d (%s): %s", i, strings.TrimPrefix(fmt.Sprintf("%T", item), "draw."), p))
		}
	}
	return errors.Join(found...)
}

// faults collects what is wrong with one item.
type faults []string

func (f *faults) add(format string, args ...any) { *f = append(*f, fmt.Sprintf(format, args...)) }

func (f *faults) place(what string, p Point) {
	if !(math.Abs(p.X) <= farthest && math.Abs(p.Y) <= farthest) {
		f.add("%s at (%v, %v) mm; keep within %v mm of the origin", what, p.X, p.Y, farthest)
	}
}

// size demands a positive length.
func (f *faults) size(what string, x float64) {
	if !(x > 0 && x <= farthest) {
		f.add("%s is %v mm; give more than 0 and up to %v mm", what, x, farthest)
	}
}

func (f *faults) angle(what string, x float64) {
	if !(math.Abs(x) <= 1000) {
		f.add("%s is %v rad; give an angle of some turns at most", what, x)
	}
}

func (f *faults) style(s Style) {
	if s.Width != 0 {
		f.size("line width", s.Width)
	}
	for i, d := range s.Dash {
		// Shorter marks would be neither seen nor soon drawn.
		if !(d >= 0.05 && d <= farthest) {
			f.add("dash length %d is %v mm; give 0.05 mm or more", i, d)
		}
	}
}

func (p Path) problems() []string {
	var f faults
	if len(p.Points) < 2 {
		f.add("%d points; give two or more", len(p.Points))
	}
	for i, q := range p.Points {
		f.place(fmt.Sprintf("point %d", i), q)
	}
	f.style(p.Style)
	return f
}

func (c Circle) problems() []string {
	var f faults
	f.place("centre", c.Center)
	f.size("radius", c.Radius)
	f.style(c.Style)
	return f
}

func (a Arc) problems() []string {
	var f faults
	f.place("centre", a.Center)
	f.size("radius", a.Radius)
	f.angle("begin", a.From)
	f.angle("end", a.To)
	if sweep := math.Abs(a.To - a.From); !(sweep > 0 && sweep < 2*math.Pi) {
		f.add("goes from %v to %v rad; give directions less than a turn apart, or a circle", a.From, a.To)
	}
	f.style(a.Style)
	return f
}

func (t Text) problems() []string {
	var f faults
	f.place("text", t.At)
	f.size("text height", t.Height)
	f.angle("rotation", t.Rotation)
	if t.Halo != 0 {
		f.size("halo", t.Halo)
	}
	if !utf8.ValidString(t.Body) || strings.ContainsFunc(t.Body, unicode.IsControl) {
		f.add("text %q holds a line break, a control character or broken UTF-8; give one text per line", t.Body)
	}
	return f
}
