package tune

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pgregory.net/rapid"
	_ "swingwright/internal/steady"

	"swingwright/quantity"
	"swingwright/swing"
)

var unknown quantity.Measured[quantity.Turns]

// Points without error give their valve back, wherever it is known to stop.
func TestExactPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := math.Exp(rapid.Float64Range(0, 6).Draw(t, "slope"))
		u0 := rapid.Float64Range(-0.1, 0.25).Draw(t, "shut")
		var points []Point
		for i := range rapid.IntRange(2, 5).Draw(t, "points") {
			u := u0 + 0.3 + 0.2*float64(i)
			points = append(points, Point{Turns: quantity.Turns(u), Resistance: c / (u - u0), U: 1e-4})
		}
		v, err := LearnValve(points, quantity.Give(quantity.Turns(0), 10), nil)
		if err != nil {
			t.Fatal(err)
		}
		if !v.Known || v.Points != len(points) || math.Abs(float64(v.Shut)-u0) > 1e-4 || math.Abs(v.Slope/c-1) > 1e-3 {
			t.Fatalf("%+v, want slope %g and %g", v, c, u0)
		}
		at := quantity.Turns(u0 + 0.5)
		a, _ := v.At(at)
		if want := c / 0.5; math.Abs(a/want-1) > 1e-3 {
			t.Fatalf("resists %g at %g, want %g", a, float64(at), want)
		}
		ratio, _ := v.Ratio(at, at+0.25)
		if math.Abs(float64(ratio)-0.5/0.75) > 1e-3 || math.Abs(float64(v.Where(at, ratio)-at-0.25)) > 1e-6 {
			t.Fatalf("ratio %g", float64(ratio))
		}
		// the law of package swing
		b, _, err := swing.ValveAt(quantity.Damping(a), 0, at, at+0.25, v.Shut)
		if err != nil || math.Abs(float64(b)/(a*float64(ratio))-1) > 1e-9 {
			t.Fatalf("package swing has %g, %v", float64(b), err)
		}
	})
}

// One point tells which way, and no more than an eighth; two tell the law.
func TestOnePointTellsAnEighth(t *testing.T) {
	one := []Point{{Turns: 0.75, Resistance: 30, U: 0.02}}
	v, err := LearnValve(one, unknown, nil)
	if err != nil || v.Known || v.Points != 1 {
		t.Fatal(v, err)
	}
	if low, high := v.Reach(0.75); low != 0.625 || high != 0.875 {
		t.Errorf("from %g to %g turns", float64(low), float64(high))
	}
	two := append(one, Point{Turns: 0.625, Resistance: 38, U: 0.02})
	w, err := LearnValve(two, unknown, nil)
	if err != nil || !w.Known {
		t.Fatal(w, err)
	}
	if low, high := w.Reach(0.625); !(low < 0.4 && low >= w.Shut+1.0/16) || high != mostOpen {
		t.Errorf("from %g to %g turns", float64(low), float64(high))
	}
	_, before := v.At(0.4)
	_, after := w.At(0.4)
	if !(after < before) || !(w.ShutU < v.ShutU) {
		t.Errorf("known to %.3f by one point and %.3f by two", float64(before), float64(after))
	}
	if a, u := w.At(w.Shut); !math.IsInf(a, 1) || !math.IsInf(float64(u), 1) {
		t.Error("a shut valve has a resistance")
	}
	if r, _ := w.Ratio(0.5, w.Shut-1); !math.IsInf(float64(r), 1) {
		t.Error("a shut valve has a ratio")
	}
	near := append(one, Point{Turns: 0.76, Resistance: 30, U: 0.02})
	if n, _ := LearnValve(near, unknown, nil); n.Known || n.Points != 1 {
		t.Error("two points at one position teach a law")
	}
	if low, _ := w.Reach(w.Shut + 0.01); low > w.Shut+0.01 {
		t.Error("a valve that stands farther in than it should may stay there")
	}
}

// Spreads are honest: of valves learned from two noisy points, their resistance elsewhere
// lies within one and two spreads as often as it should.
func TestLearnedValvesAreHonest(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	n, one, two := 2000, 0, 0
	for range n {
		u0 := float64(stops) + float64(seat)*random.NormFloat64()
		truly := func(u float64) float64 { return 20 / max(u-u0, 0.02) }
		var points []Point
		for _, u := range []float64{0.9, 0.775} {
			set := u + float64(hand)*random.NormFloat64()
			points = append(points, Point{Turns: quantity.Turns(u), Resistance: truly(set) * math.Exp(0.015*random.NormFloat64()), U: 0.015})
		}
		v, err := LearnValve(points, unknown, nil)
		if err != nil {
			t.Fatal(err)
		}
		a, u := v.At(0.6)
		z := math.Log(a/truly(0.6+float64(hand)*random.NormFloat64())) / float64(u)
		if math.Abs(z) <= 1 {
			one++
		}
		if math.Abs(z) <= 2 {
			two++
		}
	}
	t.Logf("%d and %d of %d within one and two spreads", one, two, n)
	if math.Abs(float64(one)/float64(n)-0.68) > 0.05 || math.Abs(float64(two)/float64(n)-0.954) > 0.03 {
		t.Error("not as often as 68 and 95 of a hundred")
	}
}

// Times at cold and warm teach what resistances at the reference temperature do:
// viscosities from ASTM D341.
func TestTemperatureIsTakenOut(t *testing.T) {
	at := func(celsius quantity.Temperature) quantity.Ratio {
		cold, err1 := swing.OilViscosity(15e-6, 4e-6, quantity.Celsius0+celsius)
		warm, err2 := swing.OilViscosity(15e-6, 4e-6, quantity.Celsius0+20)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		return quantity.Ratio(cold / warm)
	}
	time := func(u float64, oil quantity.Ratio) Point {
		return Point{Turns: quantity.Turns(u), Resistance: 4 / (u - 0.1) * float64(oil), U: 0.01, Oil: oil}
	}
	a, err1 := LearnValve([]Point{time(0.5, at(5)), time(0.8, at(30)), time(1, at(20))}, unknown, nil)
	b, err2 := LearnValve([]Point{time(0.5, 1), time(0.8, 1), time(1, 1)}, unknown, nil)
	if err1 != nil || err2 != nil || math.Abs(float64(a.Shut-b.Shut)) > 1e-9 || math.Abs(a.Slope/b.Slope-1) > 1e-9 {
		t.Errorf("%+v and %+v", a, b)
	}
}

// A point that does not go with the others is told, and hardly heard.
func TestWildPoint(t *testing.T) {
	var points []Point
	for _, u := range []float64{0.4, 0.6, 0.8, 1, 1.2} {
		points = append(points, Point{Turns: quantity.Turns(u), Resistance: 20 / (u - 0.1), U: 0.02})
	}
	points[2].Resistance *= 2
	v, err := LearnValve(points, unknown, nil)
	if err != nil || len(v.Wild) != 1 || v.Wild[0] != 2 || math.Abs(float64(v.Shut)-0.1) > 0.06 {
		t.Errorf("%+v, %v", v, err)
	}
}

func TestPointsNoValveHas(t *testing.T) {
	for _, p := range [][]Point{nil, {{Turns: 0.5, Resistance: -1, U: 0.1}}, {{Turns: 0.5, Resistance: 1}}, {{Turns: -1, Resistance: 1, U: 1}}} {
		if _, err := LearnValve(p, unknown, nil); err == nil {
			t.Errorf("%v taught a valve", p)
		}
	}
	if _, err := LearnValve([]Point{{Turns: 1, Resistance: 1}}, unknown, make([]float64, 4)); err == nil || !strings.Contains(err.Error(), "4 covariances") {
		t.Error(err)
	}
}
