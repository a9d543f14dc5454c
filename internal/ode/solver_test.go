package ode

import (
	"math"
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
	return s.State(), s.Work()
}

func TestHarmonicOscillatorClosedForm(t *testing.T) {
	const w = 3.
	worst := 0.
	y, work := follow(t, Func(func(_, x, _ float64) float64 { return -w * w * x }), State{1, 0}, 10, Options{}, func(g *Segment) {
		for i := range 11 {
			u := g.time(float64(i) / 10)
			worst = max(worst, math.Abs(g.At(u).Angle-math.Cos(w*u)), math.Abs(g.At(u).Rate+w*math.Sin(w*u))/w)
		}
	})
	t.Logf("end %v, worst %.3g, %+v", y, worst, work)
	if worst > 5e-5 {
		t.Errorf("worst error %.3g", worst)
	}
}

func TestTwoCrossingsInOneStep(t *testing.T) {
	// Thrown up at 1 rad/s, pulled back at 1 rad/s²: x = t - t²/2, top 0.5 at t = 1.
	g := Segment{T0: 0, T1: 2, From: State{0, 1}, To: State{0, -1}, FromAcceleration: -1, ToAcceleration: -1}
	for _, c := range []struct {
		level float64
		d     Direction
		want  float64 // from the quadratic formula
	}{
		{0.499, Rising, 1 - math.Sqrt(0.002)},
		{0.499, Falling, 1 + math.Sqrt(0.002)},
		{0.499, Either, 1 - math.Sqrt(0.002)},
		{0.49999999, Falling, 1 + math.Sqrt(2e-8)},
		{0, Falling, 2},
	} {
		got, ok := g.AngleCrosses(c.level, c.d)
		if !ok || math.Abs(got-c.want) > TimeTolerance {
			t.Errorf("level %v direction %v: %v, %v; want %v", c.level, c.d, got, ok, c.want)
		}
	}
	if got, ok := g.AngleCrosses(0, Rising); ok {
		t.Errorf("leaving a level is no crossing, got %v", got)
	}
	if got, ok := g.RateCrosses(0, Either); !ok || math.Abs(got-1) > TimeTolerance {
		t.Errorf("top at %v, %v; want 1", got, ok)
	}
}
