package ode

import (
	"math"
	"testing"
)

// closing is a leaf of 15 kg m² drawn shut by 20 N m and 8 N m/rad, held by 100
// N m s/rad in the sweep and 250 in the latch zone below 0.2 rad: the work of a
// typical reckoning, some 80 ns per call.
type closing struct{}

func (closing) Acceleration(_, x, v float64) float64 {
	latch := 1 / (1 + math.Exp((x-0.2)/0.026))
	damping := 100 * math.Exp(latch*0.9162907318741551) // ln 2.5
	return (-(20 + 8*x) - damping*v) / 15
}

var marks = []float64{80, 70, 12, 10, 0} // degrees

// closeLeaf runs the whole closing and returns the times of the marks.
func closeLeaf(s *Solver, opt Options, times []float64) ([]float64, error) {
	if err := s.Start(closing{}, 0, State{Angle: math.Pi / 2}, 60, opt); err != nil {
		return nil, err
	}
	for len(times) < len(marks) {
		g, err := s.Step()
		if err != nil {
			return nil, err
		}
		for _, m := range marks {
			if at, ok := g.AngleCrosses(m*math.Pi/180, Falling); ok {
				times = append(times, at)
			}
		}
	}
	return times, nil
}

// TestDefaultTolerance holds the promise made at Options.
func TestDefaultTolerance(t *testing.T) {
	var s Solver
	got, err := closeLeaf(&s, Options{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if n := s.Work().Accepted; n > 80 {
		t.Errorf("%d steps", n)
	}
	want, err := closeLeaf(&s, Options{Rel: 1e-12, AbsAngle: 1e-13, AbsRate: 1e-13}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for i := range want {
		if math.Abs(got[i]-want[i]) > 2e-5 {
			t.Errorf("mark %v°: %v s, with the finest tolerances %v s", marks[i], got[i], want[i])
		}
	}
}

func TestNoGarbage(t *testing.T) {
	var s Solver
	times := make([]float64, 0, len(marks))
	energy := func(_ float64, y State) float64 { return y.Rate*y.Rate - 0.01 }
	if n := testing.AllocsPerRun(10, func() {
		if _, err := closeLeaf(&s, Options{}, times); err != nil {
			t.Fatal(err)
		}
		thrown.Crosses(energy, Falling)
		thrown.RateCrosses(0, Falling)
	}); n != 0 {
		t.Errorf("%v allocations per motion", n)
	}
}

// BenchmarkClosing follows one closing with its five marks. Calling the system
// through an interface costs nothing that could be measured against a direct call.
func BenchmarkClosing(b *testing.B) {
	var s Solver
	times := make([]float64, 0, len(marks))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := closeLeaf(&s, Options{}, times); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(s.Work().Accepted), "steps")
	b.ReportMetric(float64(s.Work().Calls), "calls")
}

func BenchmarkAcceleration(b *testing.B) {
	x := 0.3
	for b.Loop() {
		x = 0.3 + 1e-9*closing{}.Acceleration(0, x, 0.2)
	}
}

func BenchmarkCrossing(b *testing.B) {
	b.Run("none", func(b *testing.B) {
		for b.Loop() {
			thrown.AngleCrosses(3, Either)
		}
	})
	b.Run("one", func(b *testing.B) {
		for b.Loop() {
			thrown.AngleCrosses(0.3, Falling)
		}
	})
}
