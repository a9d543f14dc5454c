package judge

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	_ "swingwright/internal/steady"
)

// twoU has a guard band of U = 2u, the r = 1 of ILAC-G8:09/2019, 4.2.2.
var twoU = Policy{Risk: 0.022750131948179}

// A force of at most 67 N with u = 2 N, and a time of at least 3.00 s with
// u = 0.10 s: the four zones of ILAC-G8:09/2019, 4.2.3, of which the two
// conditional ones are too close to call. Percentages from the normal
// distribution.
func TestWorkedExamples(t *testing.T) {
	for _, c := range []struct {
		side            Side
		value, limit, u float64
		percentOver     float64 // probability that the true value is on the bad side
		tolerance       float64
		want            Verdict
	}{
		{AtMost, 61, 67, 2, 0.13, 0.0051, Meets},
		{AtMost, 64, 67, 2, 6.7, 0.051, TooClose},
		{AtMost, 66, 67, 2, 30.9, 0.051, TooClose},
		{AtMost, 68, 67, 2, 69.1, 0.051, TooClose},
		{AtMost, 72, 67, 2, 99.4, 0.051, FallsShort},
		{AtLeast, 3.25, 3, 0.1, 0.6, 0.051, Meets},
		{AtLeast, 3.10, 3, 0.1, 15.9, 0.051, TooClose},
		{AtLeast, 3.00, 3, 0.1, 50, 0.051, TooClose},
	} {
		if got := Decide(Margin(c.side, c.value, c.limit), c.u, twoU); got != c.want {
			t.Errorf("%v, %v %v with u = %v: %v, want %v", c.value, c.side, c.limit, c.u, got, c.want)
		}
		lower, upper := c.limit, math.Inf(1)
		if c.side == AtMost {
			lower, upper = math.Inf(-1), c.limit
		}
		if got := 100 * (1 - Conformance(c.value, c.u, lower, upper)); math.Abs(got-c.percentOver) > c.tolerance {
			t.Errorf("%v, %v %v: wrong with %v %%, want %v %%", c.value, c.side, c.limit, got, c.percentOver)
		}
	}
}

// The same examples: the value that just meets.
func TestAcceptanceLimit(t *testing.T) {
	for _, c := range []struct {
		side           Side
		limit, u, want float64
		p              Policy
	}{
		{AtMost, 67, 2, 63.0, twoU},
		{AtLeast, 3, 0.1, 3.20, twoU},
		{AtLeast, 3, 0.1, 3.16, Policy{}}, // at 5 %, printed to two decimals
		{AtMost, 20, 0.1, 19.80, twoU},
	} {
		got := AcceptanceLimit(c.side, c.limit, c.u, c.p)
		if math.Abs(got-c.want) > 0.0051 {
			t.Errorf("%v %v with u = %v is accepted from %v, want %v", c.side, c.limit, c.u, got, c.want)
		}
		if v := Decide(Margin(c.side, got, c.limit), c.u*(1-1e-9), c.p); v != Meets {
			t.Errorf("the acceptance limit %v of %v %v: %v", got, c.side, c.limit, v)
		}
	}
}

// A time from 3 s to 20 s with u = 0.10 s meets both limits from 3.20 s to 19.80 s.
func TestRangeIsTwoLimits(t *testing.T) {
	for value, want := range map[float64][2]Verdict{
		3.19: {TooClose, Meets}, 3.21: {Meets, Meets}, 19.79: {Meets, Meets}, 19.81: {Meets, TooClose}, 20.21: {Meets, FallsShort},
	} {
		got := [2]Verdict{Decide(Margin(AtLeast, value, 3), 0.1, twoU), Decide(Margin(AtMost, value, 20), 0.1, twoU)}
		if got != want {
			t.Errorf("%v s: %v, want %v", value, got, want)
		}
	}
}

func TestDecideAtTheEdges(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		margin, u float64
		want      Verdict
	}{
		{0, 0, Meets}, // limits are inclusive
		{math.Copysign(0, -1), 0, Meets},
		{1e-300, 0, Meets},
		{-1e-300, 0, FallsShort},
		{0, 1e-9, TooClose},
		{inf, 1, Meets},
		{-inf, 1, FallsShort},
		{nan, 1, NotMeasured},
		{1, nan, NotMeasured},
		{1, -1, NotMeasured},
		{inf, inf, TooClose},
		{-5, inf, TooClose},
	} {
		if got := Decide(c.margin, c.u, Policy{}); got != c.want {
			t.Errorf("margin %v with u = %v: %v, want %v", c.margin, c.u, got, c.want)
		}
	}
	noGuard := Policy{Risk: 0.5} // simple acceptance, ILAC-G8:09/2019, 4.2.1
	if a, b := Decide(0, 1, noGuard), Decide(-0.001, 1, noGuard); a != Meets || b != FallsShort {
		t.Errorf("without guard band: %v on the limit and %v below", a, b)
	}
}

// With three readings, two degrees of freedom, t is 2.92 (JCGM 100:2008, G.3).
func TestFewReadingsNeedMoreMargin(t *testing.T) {
	for margin, want := range map[float64]Verdict{2.91: TooClose, 2.93: Meets, -2.91: TooClose, -2.93: FallsShort} {
		if got := DecideDF(margin, 1, 2, Policy{}); got != want {
			t.Errorf("margin %v of three readings: %v, want %v", margin, got, want)
		}
		if got := Decide(margin, 1, Policy{}); got == TooClose {
			t.Errorf("margin %v with a known spread: %v", margin, got)
		}
	}
}

func drawCase(t *rapid.T) (margin, u float64, p Policy) {
	margin = rapid.Float64Range(-10, 10).Draw(t, "margin")
	u = rapid.Float64Range(0, 5).Draw(t, "u")
	p = Policy{Risk: rapid.Float64Range(1e-6, 0.5).Draw(t, "risk")}
	return margin, u, p
}

// rank orders the three decided verdicts from bad to good.
var rank = map[Verdict]int{FallsShort: 0, TooClose: 1, Meets: 2}

func TestDecideIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		margin, u, p := drawCase(t)
		more := rapid.Float64Range(0, 10).Draw(t, "more")
		if a, b := Decide(margin, u, p), Decide(margin+more, u, p); rank[a] > rank[b] {
			t.Fatalf("%v at %v, but %v at %v", a, margin, b, margin+more)
		}
		nu := rapid.Float64Range(1, 100).Draw(t, "nu")
		if v := DecideDF(margin, u, nu, p); v != TooClose && v != Decide(margin, u, p) {
			t.Fatalf("%v degrees of freedom decide %v, infinitely many %v", nu, v, Decide(margin, u, p))
		}
		if a, b := Decide(margin, u, p), Decide(margin, u+more, p); b != TooClose && a != b {
			t.Fatalf("more spread turns %v into %v", a, b)
		}
	})
}

func TestDecideIsAntisymmetric(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		margin, u, p := drawCase(t)
		if math.Abs(margin) == p.Coverage()*u {
			t.Skip("the edge of the guard band belongs to the good side")
		}
		if a, b := Decide(margin, u, p), Decide(-margin, u, p); rank[a] != 2-rank[b] {
			t.Fatalf("%v at %v, %v at %v", a, margin, b, -margin)
		}
	})
}

// Whatever is decided is wrong with no more than the allowed probability.
func TestDecideKeepsItsRisk(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		margin, u, p := drawCase(t)
		good := Conformance(margin, u, 0, math.Inf(1))
		switch Decide(margin, u, p) {
		case Meets:
			if 1-good > p.Risk*(1+1e-9) {
				t.Fatalf("meets, but wrong with %v", 1-good)
			}
		case FallsShort:
			if good > p.Risk*(1+1e-9) {
				t.Fatalf("falls short, but wrong with %v", good)
			}
		}
	})
}
