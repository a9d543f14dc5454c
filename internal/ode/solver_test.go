package ode

import (
	"math"
	"slices"
	"testing"
)

// follow runs sys from y over [0, end] and hands every segment to visit.
func follow(t testing.TB, sys System, y State, end float64, opt Options, visit func(*Segment)) (State, Work) {
	t.Helper()
	var s Solver
	if err := s.Start(sys, 0, y, end, opt); err != nil {
		t.Fatal(err)
	}
	for !s.Done() {
		g, err := s.Step()
		if err != nil {
			t.Fatal(err)
		}
		if visit != nil {
			visit(g)
		}
	}
	if s.Time() != end {
		t.Fatalf("stopped at %v, not at %v", s.Time(), end)
	}
	return s.State(), s.Work()
}

// known is a motion with a closed form.
type known struct {
	name string
	sys  Func
	end  float64
	at   func(t float64) State
}

// wavy is exp(sin t): nonlinear, and its acceleration needs time, angle and rate.
var wavy = known{
	name: "exp(sin t)",
	sys:  func(t, x, v float64) float64 { return v*v/x - x*math.Sin(t) },
	end:  10,
	at:   func(t float64) State { x := math.Exp(math.Sin(t)); return State{x, x * math.Cos(t)} },
}

var closedForms = []known{
	wavy,
	{"constant torque", func(_, _, _ float64) float64 { return 2 }, 3,
		func(t float64) State { return State{1 + t*t, 2 * t} }},
	{"harmonic oscillator", func(_, x, _ float64) float64 { return -9 * x }, 10,
		func(t float64) State { return State{math.Cos(3 * t), -3 * math.Sin(3*t)} }},
	// m = 1, c = 0.4, k = 1.04: roots -0.2 ± i.
	{"underdamped oscillator", func(_, x, v float64) float64 { return -1.04*x - 0.4*v }, 10,
		func(t float64) State {
			d, s, c := math.Exp(-0.2*t), math.Sin(t), math.Cos(t)
			return State{d * (c + 0.2*s), -1.04 * d * s}
		}},
	// Roots -1 and -20, as of a leaf held by its closer.
	{"overdamped oscillator", func(_, x, v float64) float64 { return -20*x - 21*v }, 5,
		func(t float64) State {
			p, q := math.Exp(-t), math.Exp(-20*t)
			return State{(20*p - q) / 19, (-20*p + 20*q) / 19}
		}},
	// Drag as the square of the rate, from rest: ln cosh.
	{"square drag", func(_, _, v float64) float64 { return 1 - v*math.Abs(v) }, 5,
		func(t float64) State { return State{math.Log(math.Cosh(t)), math.Tanh(t)} }},
}

// units is how far y is off the closed form, in units of the tolerance.
func (k known) units(t float64, y State, tol float64) float64 {
	want := k.at(t)
	return max(math.Abs(y.Angle-want.Angle)/(tol*(1+math.Abs(want.Angle))),
		math.Abs(y.Rate-want.Rate)/(tol*(1+math.Abs(want.Rate))))
}

func TestClosedForms(t *testing.T) {
	for _, k := range closedForms {
		for _, tol := range []float64{1e-4, 1e-6, 1e-8, 1e-10} {
			worst := 0.
			_, work := follow(t, k.sys, k.at(0), k.end, Options{Rel: tol, AbsAngle: tol, AbsRate: tol}, func(g *Segment) {
				for i := 1; i <= 7; i++ {
					x := g.time(float64(i) / 7)
					worst = max(worst, k.units(x, g.At(x), tol))
				}
			})
			// Errors of single steps add up, the interpolant adds its own, and
			// exp(sin t) lets them grow by itself up to e²-fold.
			if worst > 100 {
				t.Errorf("%s, tolerance %v: worst error %.3g tolerances", k.name, tol, worst)
			}
			if work.Accepted > 1000 || work.Refused > work.Accepted/2+5 {
				t.Errorf("%s, tolerance %v: wasteful, %+v", k.name, tol, work)
			}
		}
	}
}

// fixed makes the solver take steps of length h whatever the error.
func fixed(h float64) Options {
	return Options{Rel: 1e9, AbsAngle: 1e9, AbsRate: 1e9, FirstStep: h, MaxStep: h}
}

// TestConvergenceOrder halves the step and watches the error fall: by 2⁵, both
// at the step ends and inside. Where the terms of order five happen to be small
// it falls faster, never slower.
func TestConvergenceOrder(t *testing.T) {
	for name, fastest := range map[string]float64{"underdamped oscillator": 5.2, "square drag": 5.2, "exp(sin t)": 6.2} {
		k := closedForms[slices.IndexFunc(closedForms, func(k known) bool { return k.name == name })]
		atEnds, inside := k.worst(t, k.end/64)
		for halvings := 1.; halvings <= 3; halvings++ {
			h := k.end / 64 / math.Exp2(halvings)
			atEnds2, inside2 := k.worst(t, h)
			for where, p := range map[string]float64{"at the step ends": math.Log2(atEnds / atEnds2), "inside the steps": math.Log2(inside / inside2)} {
				if p < 4.8 || p > fastest {
					t.Errorf("%s: order %.2f %s, down to step %v", name, p, where, h)
				}
			}
			atEnds, inside = atEnds2, inside2
		}
	}
}

// worst is the largest error at step ends and inside with steps of length h.
func (k known) worst(t *testing.T, h float64) (atEnds, inside float64) {
	follow(t, k.sys, k.at(0), k.end, fixed(h), func(g *Segment) {
		atEnds = max(atEnds, k.units(g.T1, g.To, 1))
		for i := 1; i < 10; i++ {
			x := g.time(float64(i) / 10)
			inside = max(inside, k.units(x, g.At(x), 1))
		}
	})
	return atEnds, inside
}

// TestErrorEstimateBoundsTheError takes single steps off the exact solution:
// the estimate belongs to the fourth-order result and must exceed the error of
// the fifth-order one that is kept.
func TestErrorEstimateBoundsTheError(t *testing.T) {
	for _, k := range closedForms {
		for start := 0.; start < k.end/2; start += k.end / 20 {
			for _, h := range []float64{0.02, 0.05, 0.1} {
				s := Solver{sys: k.sys, opt: Options{AbsAngle: 1, AbsRate: 1}}
				y := k.at(start)
				s.seg = Segment{T0: start, T1: start, From: y, To: y, ToAcceleration: k.sys(start, y.Angle, y.Rate)}
				g, squared := s.try(h, start+h)
				want := k.at(start + h)
				actual := math.Hypot(g.To.Angle-want.Angle, g.To.Rate-want.Rate) / math.Sqrt2
				if estimate := math.Sqrt(squared); actual > estimate+1e-14 {
					t.Errorf("%s at %v, step %v: error %.3g, estimate %.3g", k.name, start, h, actual, estimate)
				}
			}
		}
	}
}

func TestTighterToleranceIsBetter(t *testing.T) {
	var last float64
	for i, tol := range []float64{1e-3, 1e-5, 1e-7, 1e-9} {
		y, _ := follow(t, wavy.sys, wavy.at(0), wavy.end, Options{Rel: tol, AbsAngle: tol, AbsRate: tol}, nil)
		e := wavy.units(wavy.end, y, 1)
		// Tolerance proportionality (HNW II.4): two decades of one for about two of the other.
		if i > 0 && e > last/20 {
			t.Errorf("tolerance %v: error %.3g after %.3g", tol, e, last)
		}
		last = e
	}
}

func TestStiffDampingTakesBoundedSteps(t *testing.T) {
	// A leaf held by a nearly closed valve: settles within 5 ms, then creeps for 20 s.
	sys := Func(func(_, _, v float64) float64 { return -1 - 200*v })
	y, work := follow(t, sys, State{Angle: 1}, 20, Options{}, nil)
	// Closed form: v = -(1 - e^-200t)/200.
	if want := 1 - (20-1./200)/200; math.Abs(y.Angle-want) > 1e-5 {
		t.Errorf("angle %v, want %v", y.Angle, want)
	}
	// Stability on the negative real axis ends at 3.3 (HNW II, IV.2), so 20 s
	// need 1200 steps; the controller must stay near that, without thrashing.
	if work.Accepted > 2000 || work.Refused > work.Accepted/5 {
		t.Errorf("work %+v", work)
	}
}

func TestSameInputSameBits(t *testing.T) {
	record := func(s *Solver) (all []Segment) {
		if err := s.Start(wavy.sys, 0, wavy.at(0), wavy.end, Options{}); err != nil {
			t.Fatal(err)
		}
		for !s.Done() {
			g, err := s.Step()
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, *g)
		}
		return all
	}
	var used Solver
	first := record(&used)
	again := record(&used) // a used solver must not remember
	if len(first) != len(again) {
		t.Fatalf("%d steps, then %d", len(first), len(again))
	}
	for i := range first {
		if first[i] != again[i] {
			t.Fatalf("step %d: %+v, then %+v", i, first[i], again[i])
		}
	}
}
