package picture

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"swingwright/internal/draw"
	"swingwright/plan"
	"swingwright/quantity"
)

// On the strips every mark stands as far along as its chord, 2·r·sin(θ/2), at full size.
func TestMarksAreAtFullSize(t *testing.T) {
	o, sheets, books := demoOpening(t, "101")
	p := plan.Make(&o, sheets, books, quick)
	for _, sys := range []quantity.System{quantity.US, quantity.SI} {
		scene := Marks(p, sys)
		var tops []float64 // of the strips, in their order
		var bar float64
		for _, item := range scene.Items {
			if path, ok := item.(draw.Path); ok && len(path.Points) > 2 {
				wide := path.Points[1].X - path.Points[0].X
				switch {
				case math.Abs(wide-checkBar) < 1e-9 && bar == 0:
					bar = wide
				case math.Abs(wide-stripLong) < 1e-9:
					tops = append(tops, path.Points[0].Y)
				}
			}
		}
		if bar == 0 || len(tops) == 0 {
			t.Fatalf("bar %v, %d strips", bar, len(tops))
		}
		marks := 0
		for _, item := range scene.Items {
			path, ok := item.(draw.Path)
			if !ok || len(path.Points) != 2 {
				continue
			}
			low := math.Min(path.Points[0].Y, path.Points[1].Y)
			for i, top := range tops {
				if math.Abs(low-top) < 1e-6 {
					at := (path.Points[0].X - margin + float64(i)*stripLong) / 1000
					if !isMark(p, at) {
						t.Errorf("a line at %.2f mm, where no mark is", at*1000)
					}
					marks++
				}
			}
		}
		if marks != len(p.Room.Marks) {
			t.Errorf("%d lines for %d marks", marks, len(p.Room.Marks))
		}
	}
}

// isMark tells a distance that is the chord of one of the marks, by the formula.
func isMark(p *plan.Plan, at float64) bool {
	r := float64(p.Room.Leaf.Radius())
	for _, m := range p.Room.Marks {
		if math.Abs(2*r*math.Sin(float64(m.Angle)/2)-at) < 1e-5 {
			return true
		}
	}
	return false
}

// Without the leaf's width the picture says so.
func TestMarksWithoutWidth(t *testing.T) {
	o, sheets, books := demoOpening(t, "101")
	o.Leaf.Width, o.Leaf.Nominal.Width = quantity.Measured[quantity.Length]{}, 0
	if d := Marks(plan.Make(&o, sheets, books, quick), quantity.SI).Description; !strings.Contains(d, "missing") {
		t.Errorf("described as %q", d)
	}
}

// On pages of a height no page is higher, every strip is there once, in its order, and
// each page has its bar.
func TestMarksOnPages(t *testing.T) {
	o, sheets, books := demoOpening(t, "114")
	p := plan.Make(&o, sheets, books, quick)
	pages := MarksOn(p, quantity.US, 200)
	if len(pages) < 2 {
		t.Fatalf("%d pages for a leaf of four feet, wants two or more", len(pages))
	}
	var all string
	for i, s := range pages {
		if s.Height > 200 {
			t.Errorf("page %d is %v mm high", i+1, s.Height)
		}
		if !strings.Contains(words(s), "(100 mm)") {
			t.Errorf("page %d has no bar", i+1)
		}
		all += words(s) + " "
	}
	strips := int(float64(p.Room.Marks[len(p.Room.Marks)-1].Chord)*1000/stripLong) + 1
	at := -1
	for i := range strips {
		want := fmt.Sprintf("strip %d of %d", i+1, strips)
		next := strings.Index(all, want)
		if next <= at || strings.Count(all, want) != 1 {
			t.Errorf("%q is missing, stands twice or out of its order", want)
		}
		at = next
	}
}
