package judge

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Wilks 1941: the least n with 1 - 0.95ⁿ >= 0.95 is 59. For 99 % at a risk of
// 1 % it is 459, the least with 1 - 0.99ⁿ >= 0.99.
func TestDrawsWithoutException(t *testing.T) {
	for _, c := range []struct {
		p    Policy
		n    int
		want Verdict
	}{{Policy{}, 58, TooClose}, {Policy{}, 59, Meets}, {Policy{Risk: 0.01}, 458, TooClose}, {Policy{Risk: 0.01}, 459, Meets}} {
		if got := DecideProbability(1, c.n, c.p); got != c.want {
			t.Errorf("%d draws without exception: %v, want %v", c.n, got, c.want)
		}
	}
}

// One exception needs 93 draws and two need 124 to show 95 % at a risk of 5 %:
// the table of distribution-free tolerance limits (Wilks 1941; Somerville,
// Annals of Mathematical Statistics 29, 1958, 599). From memory; the
// binomial sum below tells the same.
func TestDrawsWithExceptions(t *testing.T) {
	for _, c := range []struct{ exceptions, n int }{{1, 93}, {2, 124}} {
		for n, want := range map[int]Verdict{c.n - 1: TooClose, c.n: Meets} {
			if got := DecideProbability(float64(n-c.exceptions)/float64(n), n, Policy{}); got != want {
				t.Errorf("%d exceptions in %d draws: %v, want %v", c.exceptions, n, got, want)
			}
		}
	}
}

// NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.4.1: 4 of 20 gives the
// two-sided exact interval 0.071354 to 0.401029 at 90 %, 5 % on either side.
func TestExactBoundAgreesWithHandbook(t *testing.T) {
	if got := atLeastHits(4, 16, 0.071354); math.Abs(got-0.05) > 1e-5 {
		t.Errorf("at the lower bound, 4 or more of 20 have the probability %v, want 0.05", got)
	}
	if got := 1 - atLeastHits(5, 15, 0.401029); math.Abs(got-0.05) > 1e-5 {
		t.Errorf("at the upper bound, 4 or fewer of 20 have the probability %v, want 0.05", got)
	}
}

// The incomplete beta function is the binomial sum, term by term.
func TestAtLeastHitsIsTheBinomialSum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 60).Draw(t, "n")
		hits := rapid.IntRange(0, n).Draw(t, "hits")
		p := rapid.Float64Range(0.01, 0.99).Draw(t, "p")
		sum := 0.0
		for k := hits; k <= n; k++ {
			sum += choose(n, k) * math.Pow(p, float64(k)) * math.Pow(1-p, float64(n-k))
		}
		if got := atLeastHits(float64(hits), float64(n-hits), p); math.Abs(got-sum) > 1e-11 {
			t.Fatalf("%d or more of %d at %v: %v, want %v", hits, n, p, got, sum)
		}
	})
}

// choose is the binomial coefficient, by the product formula.
func choose(n, k int) float64 {
	c := 1.0
	for i := 1; i <= k; i++ {
		c = c * float64(n-k+i) / float64(i)
	}
	return c
}

func TestDecideProbabilityEdges(t *testing.T) {
	for _, c := range []struct {
		share float64
		n     int
		want  Verdict
	}{
		{1, 256, Meets}, {0, 256, FallsShort}, {0.5, 256, TooClose}, {0.95, 256, TooClose},
		{1, 0, NotMeasured}, {1, -1, NotMeasured}, {math.NaN(), 10, NotMeasured}, {-0.1, 10, NotMeasured}, {1.1, 10, NotMeasured},
	} {
		if got := DecideProbability(c.share, c.n, Policy{}); got != c.want {
			t.Errorf("share %v of %d draws: %v, want %v", c.share, c.n, got, c.want)
		}
	}
}

func TestDecideProbabilityIsMonotoneAndAntisymmetric(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 2000).Draw(t, "n")
		yes := rapid.IntRange(0, n).Draw(t, "yes")
		p := Policy{Risk: rapid.Float64Range(0.001, 0.4).Draw(t, "risk")}
		decide := func(yes int) Verdict { return DecideProbability(float64(yes)/float64(n), n, p) }
		if a, b := decide(yes), decide(n-yes); rank[a] != 2-rank[b] {
			t.Fatalf("%d of %d: %v, but %v for the opposite", yes, n, a, b)
		}
		if yes < n && rank[decide(yes)] > rank[decide(yes+1)] {
			t.Fatalf("%d of %d: %v, one more: %v", yes, n, decide(yes), decide(yes+1))
		}
	})
}
