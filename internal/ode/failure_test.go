package ode

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// fails follows sys from rest at angle 1 until it fails.
func fails(t *testing.T, sys Func, opt Options) *Failure {
	t.Helper()
	var s Solver
	err := s.Start(sys, 0, State{Angle: 1}, 10, opt)
	for err == nil && !s.Done() {
		_, err = s.Step()
	}
	var f *Failure
	if !errors.As(err, &f) {
		t.Fatalf("error %v, want a Failure", err)
	}
	return f
}

func TestFailures(t *testing.T) {
	swing := Func(func(_, x, _ float64) float64 { return -x })
	for _, c := range []struct {
		name     string
		sys      Func
		opt      Options
		why      error
		from, to float64 // where it must happen, s
	}{
		{"too many", swing, Options{MaxTries: 5}, ErrTooManySteps, 0, 5},
		{"not a number from the start", func(_, _, _ float64) float64 { return math.NaN() }, Options{}, ErrNotFinite, 0, 0},
		// Falls from 1 to 0.5 in 1 s, and is undefined below.
		{"not a number further on", func(_, x, _ float64) float64 { return -1 + 0*math.Sqrt(x-0.5) }, Options{}, ErrNotFinite, 0.99, 1.01},
		// The acceleration 6x² from 1 with rate 0 grows without bound before 2 s.
		{"blow-up", func(_, x, _ float64) float64 { return 6 * x * x }, Options{MaxTries: 1e6}, ErrStepTooSmall, 0.5, 2},
	} {
		f := fails(t, c.sys, c.opt)
		if !errors.Is(f, c.why) || f.Time < c.from || f.Time > c.to {
			t.Errorf("%s: %v; want %v between %v and %v s", c.name, f, c.why, c.from, c.to)
		}
		if text := f.Error(); !strings.Contains(text, "at t = ") || !strings.Contains(text, c.why.Error()) {
			t.Errorf("%s: text %q lacks place or reason", c.name, text)
		}
	}
}

func TestStepPastTheEnd(t *testing.T) {
	var s Solver
	if err := s.Start(Func(func(_, _, _ float64) float64 { return 1 }), 0, State{}, 1, Options{}); err != nil {
		t.Fatal(err)
	}
	for !s.Done() {
		if _, err := s.Step(); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := s.Step(); !errors.Is(err, ErrPastEnd) {
		t.Errorf("error %v", err)
	}
}

func TestStartReportsEverything(t *testing.T) {
	var s Solver
	sys := Func(func(_, _, _ float64) float64 { return 1 })
	err := s.Start(sys, 2, State{Angle: math.NaN()}, 1, Options{Rel: -1, AbsAngle: math.Inf(1), AbsRate: -2, FirstStep: math.NaN(), MaxStep: -3, MaxTries: -4})
	if err == nil {
		t.Fatal("accepted")
	}
	for _, word := range []string{"Rel", "AbsAngle", "AbsRate", "FirstStep", "MaxStep", "MaxTries", "start 2 s, end 1 s", "start state"} {
		if !strings.Contains(err.Error(), word) {
			t.Errorf("%q is not reported in: %v", word, err)
		}
	}
}

func TestJumpIsPassed(t *testing.T) {
	// A jump in the acceleration costs steps but does not stop the motion; -1 until 0.5 rad, then -2.
	sys := Func(func(_, x, _ float64) float64 {
		if x > 0.5 {
			return -1
		}
		return -2
	})
	y, work := follow(t, sys, State{Angle: 1}, 2, Options{}, nil)
	// By hand: 1 s to 0.5 rad at rate -1, then 1 s more. The error of the step
	// over the jump is only estimated, hence the loose tolerance.
	if math.Abs(y.Rate+3) > 1e-3 || math.Abs(y.Angle+1.5) > 1e-3 || work.Accepted > 60 {
		t.Errorf("%+v after %+v", y, work)
	}
}
