package judge

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// n = (u²-c²)/((margin/k)²-c²), rounded up, worked by hand with k = 1.645
// (and 2 for the third).
func TestRepeats(t *testing.T) {
	for _, c := range []struct {
		margin, u, common float64
		p                 Policy
		n                 int
		ok                bool
	}{
		{1, 1, 0, Policy{}, 3, true},     // 1.645² = 2.71
		{-1, 1, 0, Policy{}, 3, true},    // the same on the bad side
		{0.499, 1, 0, twoU, 17, true},    // 16.06
		{1, 1, 0.5, Policy{}, 7, true},   // 0.75/(0.36959-0.25) = 6.27
		{1, 1, 0.61, Policy{}, 0, false}, // 1.645·0.61 = 1.003 spans the margin
		{0.1, 1, 0, Policy{}, 271, true}, // 270.6
		{0.05, 1, 0, Policy{}, 0, false}, // 1082 is too many
		{0, 1, 0, Policy{}, 0, false},
		{5, 1, 0, Policy{}, 1, true}, // one decides already
		{0, 0, 0, Policy{}, 1, true},
		{1, 1, 1, Policy{}, 0, false}, // nothing varies
		{1, 1, 2, Policy{}, 0, false}, // the common part is a part
		{1, 1, -1, Policy{}, 0, false},
		{math.NaN(), 1, 0, Policy{}, 0, false},
		{1, math.NaN(), 0, Policy{}, 0, false},
		{1, math.Inf(1), 0, Policy{}, 0, false},
		{1, 1, 0, Policy{Risk: 0.7}, 0, false},
	} {
		if n, ok := Repeats(c.margin, c.u, c.common, c.p); n != c.n || ok != c.ok {
			t.Errorf("margin %v, u = %v, common %v: %d, %v; want %d, %v", c.margin, c.u, c.common, n, ok, c.n, c.ok)
		}
	}
}

// The number is the least that decides: one less does not.
func TestRepeatsIsTheLeastNumber(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		margin, u, p := drawCase(t)
		common := u * rapid.Float64Range(0, 1).Draw(t, "common share")
		verdict := func(n int) Verdict {
			return Decide(margin, math.Sqrt(common*common+(u*u-common*common)/float64(n)), p)
		}
		n, ok := Repeats(margin, u, common, p)
		edge := p.Coverage() * common
		switch {
		case math.Abs(math.Abs(margin)-edge) < 1e-9*(1+edge):
			t.Skip("on the edge of what can be decided")
		case !ok && math.Abs(margin) > edge && verdict(mostRepeats-1) != TooClose:
			t.Fatalf("no number of repeats, but %d decide %v", mostRepeats-1, verdict(mostRepeats-1))
		case ok && verdict(n+1) == TooClose:
			t.Fatalf("%d repeats are said to decide, %d do not", n, n+1)
		case ok && n > 2 && verdict(n-2) != TooClose:
			t.Fatalf("%d repeats are said to be needed, %d decide %v", n, n-2, verdict(n-2))
		}
	})
}
