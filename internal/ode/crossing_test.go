package ode

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// thrown goes up at 1 rad/s and is pulled back at 1 rad/s²: x = t - t²/2, with
// its top of 0.5 at t = 1, all in one step.
var thrown = Segment{T0: 0, T1: 2, From: State{0, 1}, To: State{0, -1}, FromAcceleration: -1, ToAcceleration: -1}

func TestCrossingsOfAParabola(t *testing.T) {
	for _, c := range []struct {
		level float64
		d     Direction
		want  float64 // 1 ± √(1 - 2·level)
	}{
		{0.499, Rising, 1 - math.Sqrt(0.002)},
		{0.499, Falling, 1 + math.Sqrt(0.002)},
		{0.499, Either, 1 - math.Sqrt(0.002)},
		{0.49999999, Rising, 1 - math.Sqrt(2e-8)}, // a visit of 0.3 ms
		{0.49999999, Falling, 1 + math.Sqrt(2e-8)},
		{0.1, Either, 1 - math.Sqrt(0.8)},
		{0, Falling, 2}, // at the very end
	} {
		got, ok := thrown.AngleCrosses(c.level, c.d)
		if !ok || got < c.want-1e-12 || got > c.want+TimeTolerance {
			t.Errorf("level %v direction %v: %v, %v; want %v", c.level, c.d, got, ok, c.want)
		}
		f := func(_ float64, y State) float64 { return y.Angle - c.level }
		got, ok = thrown.Crosses(f, c.d)
		if c.level < 0.49 && (!ok || got < c.want-1e-12 || got > c.want+TimeTolerance) {
			t.Errorf("by looking, level %v direction %v: %v, %v; want %v", c.level, c.d, got, ok, c.want)
		}
	}
	if got, ok := thrown.RateCrosses(0, Falling); !ok || math.Abs(got-1) > TimeTolerance {
		t.Errorf("top at %v, %v; want 1", got, ok)
	}
}

func TestNoCrossing(t *testing.T) {
	rest := Segment{T0: 0, T1: 1, From: State{0.3, 0}, To: State{0.3, 0}}
	for name, found := range map[string]func() (float64, bool){
		"above the top":               func() (float64, bool) { return thrown.AngleCrosses(0.5000001, Either) },
		"leaving is no crossing":      func() (float64, bool) { return thrown.AngleCrosses(0, Rising) },
		"rate falls only":             func() (float64, bool) { return thrown.RateCrosses(0, Rising) },
		"at rest on the level":        func() (float64, bool) { return rest.AngleCrosses(0.3, Either) },
		"at rest, rate zero":          func() (float64, bool) { return rest.RateCrosses(0, Either) },
		"leaving, by looking":         func() (float64, bool) { return thrown.Crosses(func(t float64, _ State) float64 { return t }, Either) },
		"rest on a level, by looking": func() (float64, bool) { return rest.Crosses(func(float64, State) float64 { return 0 }, Either) },
		"not a number, by looking": func() (float64, bool) {
			return rest.Crosses(func(float64, State) float64 { return math.NaN() }, Either)
		},
	} {
		if at, ok := found(); ok {
			t.Errorf("%s: found one at %v", name, at)
		}
	}
}

// TestCrossingsOfKnownRoots builds quintics from their roots.
func TestCrossingsOfKnownRoots(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// Roots at least 0.02 s apart; those outside (0, 1) are not crossings.
		q := quintic{1}
		var roots [5]float64
		root := rapid.Float64Range(-0.3, 0.3).Draw(t, "first root")
		for i := range roots {
			roots[i] = root
			for k := 5; k > 0; k-- {
				q[k] = q[k-1] - root*q[k]
			}
			q[0] *= -root
			root += rapid.Float64Range(0.02, 0.4).Draw(t, "gap")
		}
		for i, root := range roots {
			if root < 0.01 || root > 0.99 {
				continue
			}
			g, d := q.over(root-0.01, 1), Rising
			if i%2 == 1 {
				d = Falling
			}
			// The slope at a root is at least 0.02·0.04·0.02·0.04 and the rounding
			// of the value about 1e-15.
			for _, d := range []Direction{Either, d} {
				if got, ok := g.AngleCrosses(0, d); !ok || math.Abs(got-root) > 1e-8+TimeTolerance {
					t.Fatalf("root %v, direction %v: found %v, %v", root, d, got, ok)
				}
			}
			near := q.over(root-0.01, root+0.01)
			if got, ok := near.AngleCrosses(0, Rising+Falling-d); ok {
				t.Fatalf("root %v found in the wrong direction at %v", root, got)
			}
		}
	})
}

// TestFirstCrossing looks at random curves closely: before the crossing that is
// reported nothing may cross, and at it the sign must have changed. Where the
// curve lingers on the level within rounding, any time there is as good.
func TestFirstCrossing(t *testing.T) {
	const rounding = 1e-10
	rapid.Check(t, func(t *rapid.T) {
		g := drawQuintic(t).over(-1, 1)
		level := rapid.Float64Range(-1, 1).Draw(t, "level")
		d := rapid.SampledFrom([]Direction{Either, Rising, Falling}).Draw(t, "direction")
		ofRate := rapid.Bool().Draw(t, "of the rate")
		value := func(x float64) float64 { return g.At(x).Angle - level }
		at, ok := g.AngleCrosses(level, d)
		if ofRate {
			value = func(x float64) float64 { return g.At(x).Rate - level }
			at, ok = g.RateCrosses(level, d)
		}
		until := g.T1
		if ok {
			until = at - TimeTolerance
			before, after := value(until), value(at)
			if math.Abs(before) > rounding && (before*after > 0 && math.Abs(after) > rounding || !d.from(before)) {
				t.Fatalf("no crossing at %v: from %v to %v", at, before, after)
			}
		}
		const looks = 3000
		last := value(g.T0)
		for i := 1; i <= looks; i++ {
			x := g.T0 + (until-g.T0)*float64(i)/looks
			v := value(x)
			if v*last < 0 && d.from(last) && math.Abs(v) > rounding && math.Abs(last) > rounding {
				t.Fatalf("missed the crossing before %v (%v to %v), reported %v, %v", x, last, v, at, ok)
			}
			last = v
		}
	})
}

// TestRestartDoesNotMeetTheSameCrossing cuts a motion at each passage of zero
// and starts again there.
func TestRestartDoesNotMeetTheSameCrossing(t *testing.T) {
	sys := Func(func(_, x, _ float64) float64 { return -x })
	var s Solver
	t0, y := 0., State{1, 0}
	var times []float64
	for len(times) < 20 {
		if err := s.Start(sys, t0, y, 1000, Options{Rel: 1e-10, AbsAngle: 1e-10, AbsRate: 1e-10}); err != nil {
			t.Fatal(err)
		}
		for {
			g, err := s.Step()
			if err != nil {
				t.Fatal(err)
			}
			if at, ok := g.AngleCrosses(0, Either); ok {
				times = append(times, at)
				t0, y = at, g.At(at)
				break
			}
		}
	}
	for i, at := range times {
		if want := math.Pi * (float64(i) + 0.5); math.Abs(at-want) > 1e-7 { // cosine; 20 passages at 1e-10 a step
			t.Fatalf("passage %d at %v, want %v", i, at, want)
		}
	}
}

// TestPendulumPeriod swings a pendulum through large angles. Its period is
// 4·K(sin(θ/2))/ω with K(k) = π/(2·agm(1, √(1-k²))) (Abramowitz, Stegun,
// Handbook of Mathematical Functions, 1964, 17.6.3).
func TestPendulumPeriod(t *testing.T) {
	const w = 2.
	sys := Func(func(_, x, _ float64) float64 { return -w * w * math.Sin(x) })
	for _, top := range []float64{0.1, 1, 2, 3} {
		a, b := 1., math.Cos(top/2)
		for range 20 {
			a, b = (a+b)/2, math.Sqrt(a*b)
		}
		quarter := math.Pi / (2 * a) / w
		var back, through float64
		follow(t, sys, State{top, 0}, 4.5*quarter, Options{Rel: 1e-9, AbsAngle: 1e-10, AbsRate: 1e-10}, func(g *Segment) {
			if at, ok := g.AngleCrosses(0, Falling); ok {
				through = at
			}
			if at, ok := g.RateCrosses(0, Falling); ok {
				back = at
			}
		})
		if math.Abs(through-quarter) > 1e-7 || math.Abs(back-4*quarter) > 1e-6 {
			t.Errorf("from %v rad: through after %v (want %v), back after %v (want %v)", top, through, quarter, back, 4*quarter)
		}
	}
}

func TestCrossesSeesTimeAndState(t *testing.T) {
	// Kinetic energy v²/2 falls to 1/8 when v = 1 - t = 1/2.
	got, ok := thrown.Crosses(func(_ float64, y State) float64 { return y.Rate*y.Rate/2 - 1./8 }, Falling)
	if !ok || math.Abs(got-0.5) > TimeTolerance {
		t.Errorf("%v, %v; want 0.5", got, ok)
	}
	got, ok = thrown.Crosses(func(t float64, _ State) float64 { return t - 1.3 }, Rising)
	if !ok || math.Abs(got-1.3) > TimeTolerance {
		t.Errorf("%v, %v; want 1.3", got, ok)
	}
}

func TestRefineNeedsFewLooks(t *testing.T) {
	for name, f := range map[string]func(float64) float64{
		"line":      func(x float64) float64 { return x - 0.3 },
		"steep":     func(x float64) float64 { return math.Expm1(30 * (x - 0.3)) },
		"flat":      func(x float64) float64 { return math.Pow(x-0.3, 9) },
		"jump":      func(x float64) float64 { return math.Copysign(1, x-0.3) },
		"backwards": func(x float64) float64 { return math.Atan(100 * (0.3 - x)) },
	} {
		looks := 0
		got := refine(func(x float64) float64 { looks++; return f(x) }, 0, 1, f(0), f(1))
		if got < 0.3 || got > 0.3+TimeTolerance {
			t.Errorf("%s: %v, want 0.3", name, got)
		}
		// Bisection needs 30 for this width; one more is the method's worst.
		if looks > 31 {
			t.Errorf("%s: %d looks", name, looks)
		}
	}
}
