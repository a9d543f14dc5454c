package picture

import (
	"swingwright/internal/ode"
	"swingwright/quantity"
	"swingwright/swing"
)

// track is a closing from 90 degrees, sampled.
type track struct {
	at     []quantity.Time
	angle  []quantity.Angle
	energy []quantity.Energy
	end    swing.Motion
}

// follow lets a leaf close from 90 degrees and samples every step of it so
// many times.
func follow(m *swing.Model, samples int) (t track) {
	keep := func(at float64, y ode.State) {
		t.at = append(t.at, quantity.Time(at))
		t.angle = append(t.angle, quantity.Angle(y.Angle))
		t.energy = append(t.energy, quantity.Energy(0.5*float64(m.Inertia())*y.Rate*y.Rate))
	}
	keep(0, ode.State{Angle: float64(from90)})
	mover := swing.Mover{Watch: func(g *ode.Segment) {
		for i := 1; i <= samples; i++ {
			at := g.T0 + (g.T1-g.T0)*float64(i)/float64(samples)
			keep(at, g.At(at))
		}
	}}
	t.end = mover.Close(m, from90, nil)
	return t
}

// from90 is where the closing that is judged begins.
const from90 = 90 * quantity.Degree
