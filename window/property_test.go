package window

import (
	"maps"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
	_ "swingwright/internal/steady"
	"swingwright/quantity"
	"swingwright/swing"
)

// drawn is the typical opening with much of it drawn anew.
func drawn(t *rapid.T) Question {
	r := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	ask := typical()
	v := &ask.Values
	v[swing.SlabMass] = r("mass", 30, 90)
	v[swing.CloserLoss] = r("loss", 0.1, 0.35)
	v[swing.HingeFriction] = r("friction", 0.1, 1.5)
	v[swing.BoltForce] = r("bolt", 0, 12)
	v[swing.SealStiffness] = r("seal", 0, 150)
	v[swing.LeanAngle] = r("lean", 0, 0.003)
	v[swing.LeanAzimuth] = r("azimuth", -3, 3)
	pressure := r("pressure", 0, 15)
	for i := range ask.Demands {
		if d := &ask.Demands[i]; d.Kind == Shuts {
			d.Limit = pressure
		}
	}
	ask.Demands[1].Limit = r("force", 20, 70)
	return ask
}

// within tells that a span lies in another, but for the precision of edges. An edge at
// which the leaf just latches hangs on resistances that are themselves sought, and so
// is a few times less precise than the search along the settings.
func within(a, b Span, whole quantity.Ratio) bool {
	slack := 10 * Precision * whole
	return a.Empty() || a.Low >= b.Low-slack && a.High <= b.High+slack
}

// What helps the leaf shut never narrows the window; what hinders it never widens it.
func TestWindowFollowsWhatHelps(t *testing.T) {
	changes := map[string]func(*Question, float64){
		"pressure": func(q *Question, by float64) {
			for i := range q.Demands {
				if q.Demands[i].Kind == Shuts {
					q.Demands[i].Limit *= 1 - by
				}
			}
		},
		"bolt":        func(q *Question, by float64) { q.Values[swing.BoltForce] *= 1 - by },
		"friction":    func(q *Question, by float64) { q.Values[swing.HingeFriction] *= 1 - by },
		"force limit": func(q *Question, by float64) { q.Demands[1].Limit *= 1 + by },
		"allowance":   func(q *Question, by float64) { q.Demands[1].Allowance = -5 * by },
		"valves": func(q *Question, by float64) {
			q.Valves.Sweep[1] *= quantity.Damping(1 + by)
			q.Valves.Latch[1] *= quantity.Damping(1 + by)
		},
	}
	names := slices.Sorted(maps.Keys(changes))
	open := 0
	var f Finder
	rapid.Check(t, func(t *rapid.T) {
		ask := drawn(t)
		before := f.window(&ask)
		if before.Open() {
			open++
		}
		by := rapid.Float64Range(0, 0.9).Draw(t, "by")
		name := rapid.SampledFrom(names).Draw(t, "change")
		eased := ask
		eased.Demands = append([]Demand(nil), ask.Demands...)
		changes[name](&eased, by)
		if after := f.window(&eased); !within(before.Window, after.Window, before.Settings.Width()) {
			t.Errorf("%s eased: window %v becomes %v", name, before.Window, after.Window)
		}
	})
	if open == 0 {
		t.Error("no opening had a window: the test shows nothing")
	}
}

// With the least resistances that keep the slow demands, latching from an angle
// turns but once along the settings: what the search for its edge stands on.
func TestStrongerSpringsLatchBetter(t *testing.T) {
	var f Finder
	turned := 0
	rapid.Check(t, func(t *rapid.T) {
		ask := drawn(t)
		f.begin(&ask)
		s := setOf(ask.Demands)
		before := make([]bool, len(s.demands))
		for k := range 9 {
			q := 1 + quantity.Ratio(k)/2
			good := make([]bool, len(s.demands))
			f.quickGood(s, q, good)
			for _, i := range s.quick {
				if before[i] && !good[i] {
					t.Errorf("%s is kept below the setting %.3f and not there", s.demands[i].Name, float64(q))
				}
				if good[i] && !before[i] && k > 0 {
					turned++
				}
			}
			before = good
		}
	})
	if turned == 0 {
		t.Error("latching never turned: the test shows nothing")
	}
}

// The spring between two marks runs in proportion, and ends at the outer ones.
func TestSpringAt(t *testing.T) {
	s := Spring{{1, 10, 2}, {3, 20, 6}, {4, 30, 7}}
	for _, c := range []struct {
		setting quantity.Ratio
		want    Power
	}{{1, s[0]}, {2, Power{2, 15, 4}}, {3, s[1]}, {3.5, Power{3.5, 25, 6.5}}, {4, s[2]}, {9, s[2]}, {0, s[0]}} {
		if got := s.At(c.setting); got != c.want {
			t.Errorf("at %g: %v, want %v", float64(c.setting), got, c.want)
		}
	}
	if got := s[:1].At(5); got != s[0] {
		t.Errorf("a single power: %v", got)
	}
}

// A seeker finds the root of a rising function, and the place of a jump.
func TestSeeker(t *testing.T) {
	for name, c := range map[string]struct {
		f    func(float64) float64
		want float64
	}{
		"line":           {func(x float64) float64 { return x - 2.5 }, 2.5},
		"cubic":          {func(x float64) float64 { return (x-3)*(x-3)*(x-3)/9 + (x-3)/3 }, 3},
		"jump":           {func(x float64) float64 { return map[bool]float64{false: -0.5, true: math.Inf(1)}[x >= 1.7] }, 1.7},
		"kept all along": {func(x float64) float64 { return 5 + x }, 0},
		"never kept":     {func(x float64) float64 { return x - 9 }, 6},
		"never passes":   {func(float64) float64 { return math.Inf(1) }, 0},
	} {
		k := newSeeker(0, 6, 4, 0)
		for range tries {
			if !k.step(c.f(k.x)) {
				break
			}
		}
		x := min(k.good, k.high)
		if math.Abs(x-c.want) > 2e-3 {
			t.Errorf("%s: %g, want %g", name, x, c.want)
		}
	}
}
