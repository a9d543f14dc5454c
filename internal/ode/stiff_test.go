package ode

import (
	"math"
	"testing"
)

// stiffened is the harmonic motion sin t, to which the rate is drawn with a time
// constant of 1/rate (Prothero, Robinson, Math. Comp. 28 (1974) 145-162).
func stiffened(rate float64) known {
	return known{"stiffened", func(t, _, v float64) float64 { return -rate*(v-math.Cos(t)) - math.Sin(t) }, 10,
		func(t float64) State { return State{math.Sin(t), math.Cos(t)} }}
}

// worstStiff is the largest error at the ends of n stiff steps.
func (k known) worstStiff(t *testing.T, n int) (worst float64) {
	var s Solver
	h := k.end / float64(n)
	if err := s.Start(k.sys, 0, k.at(0), k.end, fixed(h)); err != nil {
		t.Fatal(err)
	}
	for range n {
		s.stiff, s.slope = true, s.slopes()
		g, err := s.Step()
		if err != nil {
			t.Fatal(err)
		}
		worst = max(worst, k.units(g.T1, g.To, 1))
	}
	return worst
}

// TestStiffConvergenceOrder halves the step and watches the error fall by 2⁴,
// which a wrong coefficient would spoil.
func TestStiffConvergenceOrder(t *testing.T) {
	for _, k := range closedForms {
		if k.name == "constant torque" {
			continue // exact
		}
		n := 64
		before := k.worstStiff(t, n)
		for range 3 {
			n *= 2
			after := k.worstStiff(t, n)
			if p := math.Log2(before / after); p < 3.7 || p > 5.5 {
				t.Errorf("%s: order %.2f, down to %d steps", k.name, p, n)
			}
			before = after
		}
	}
}

// Stiff motions are followed within the tolerance in few steps, by the solver's own choice.
func TestStiffMotionTakesFewSteps(t *testing.T) {
	for rate, most := range map[float64]int{100: 400, 1e4: 150, 1e6: 150} { // up to 3e6 by the explicit pair, at 3.3 over the rate each
		k := stiffened(rate)
		worst := 0.
		_, work := follow(t, k.sys, k.at(0), k.end, Options{}, func(g *Segment) {
			worst = max(worst, k.units(g.T1, g.To, 1e-5))
			for i := 1; i < 7; i++ {
				x := g.time(float64(i) / 7)
				worst = max(worst, k.units(x, g.At(x), 1e-5))
			}
		})
		if worst > 100 || work.Accepted > most {
			t.Errorf("rate %g: worst error %.3g tolerances, %+v", rate, worst, work)
		}
	}
}
