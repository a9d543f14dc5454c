package leaf

import (
	"math"
	"testing"

	"swingwright/opening"
	"swingwright/quantity"
)

// A leaf with a lite and a lock weighs and turns like the sum of strips across
// its width, each with the construction that is there.
func TestBuildUpIsTheSumOfStrips(t *testing.T) {
	s := Slab{Width: 0.9, Height: 2.1, Thickness: 0.044, PinToEdge: 0.003, PinToFace: 0.01}
	at := func(x float64) quantity.Measured[quantity.Length] { return quantity.Exactly(quantity.Length(x)) }
	l := opening.Leaf{
		Layers:   []opening.Layer{{What: "core", Density: quantity.Exactly(quantity.Density(500)), Thickness: at(0.044)}},
		Lites:    []opening.Lite{{Width: at(0.3), Height: at(0.8), Thickness: at(0.006), FromHinge: at(0.6)}},
		Hardware: []opening.Hardware{{What: "lock", Weight: quantity.Exactly(quantity.Mass(3)), FromHinge: at(0.84)}},
	}
	b := BuildUp(&l, s)
	var mass, moment, inertia float64
	const strips = 9000 // of 0.1 mm, which divide the lite evenly
	dx := float64(s.Width) / strips
	y := float64(s.PinToFace) + float64(s.Thickness)/2
	for i := range strips {
		x := (float64(i) + 0.5) * dx
		m := 22 * float64(s.Height) * dx
		if x > 0.45 && x < 0.75 {
			m += (2500*0.006 - 22) * 0.8 * dx
		}
		r := x + float64(s.PinToEdge)
		mass, moment, inertia = mass+m, moment+m*r, inertia+m*(r*r+y*y)
	}
	mass, moment, inertia = mass+3, moment+3*0.84, inertia+3*(0.84*0.84+y*y)

	slab, k := float64(b.Slab.Value), float64(s.Gyration())
	xc := float64(s.PinToEdge) + float64(s.Width)/2
	got := [3]float64{
		slab + float64(b.Attached.Mass.Value),
		slab*xc + float64(b.Attached.Moment.Value)/quantity.StandardGravity,
		slab*k*k + float64(b.Attached.Inertia.Value),
	}
	for i, want := range [3]float64{mass, moment, inertia} {
		// strips of no thickness leave out t²/12, 6e-4 of the inertia
		if math.Abs(got[i]/want-1) > 1e-3 {
			t.Errorf("%s: %g, strips give %g", [...]string{"mass", "moment", "inertia"}[i], got[i], want)
		}
	}
	if len(b.Parts) != 3 || len(b.Doubts) != 0 {
		t.Errorf("parts %v, doubts %v", b.Parts, b.Doubts)
	}
}

// What cannot be used is told, every one, and the rest is still added up.
func TestBuildUpTellsEveryDoubt(t *testing.T) {
	l := opening.Leaf{Layers: []opening.Layer{{What: "core"}, sheet("steel", 0.05), {What: "face", Material: "steel"}}}
	b := BuildUp(&l, Slab{Width: 1, Height: 2})
	if len(b.Doubts) != 2 || len(b.Parts) != 1 || !b.Slab.Known || b.Attached.Mass.Value != 0 {
		t.Errorf("doubts %v, parts %v, slab %+v", b.Doubts, b.Parts, b.Slab)
	}
	if b := BuildUp(&opening.Leaf{}, Slab{Width: 1, Height: 2}); b.Slab.Known || !b.Attached.Mass.Known {
		t.Errorf("a leaf without layers: slab %+v, attached %+v", b.Slab, b.Attached)
	}
}
