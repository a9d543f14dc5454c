package judge

import (
	"math"
	"strings"
	"testing"
)

// Guard bands as a share r of the expanded uncertainty U = 2u, by the allowed
// risk: normal distribution, computed apart and rounded as tables print it
// (r = 0.82 to 0.83 for 5 % is the 1.65·u of ISO 14253-1:2017).
func TestCoverageByRisk(t *testing.T) {
	for _, c := range []struct{ risk, r float64 }{{0.05, 0.822}, {0.025, 0.980}, {0.01, 1.163}, {0.001, 1.545}, {0.5, 0}} {
		if got := (Policy{Risk: c.risk}).Coverage() / 2; math.Abs(got-c.r) > 0.0005 {
			t.Errorf("guard band at a risk of %v = %v U, want %v U", c.risk, got, c.r)
		}
	}
	if got := (Policy{}).Coverage(); math.Abs(got-1.6448536) > 1e-7 { // z(0.95), any table of the normal distribution
		t.Errorf("coverage of the default policy = %v, want 1.6448536", got)
	}
}

// The percentages are those that ILAC-G8:09/2019 gives for w = r·U (2.5 % and
// less at r = 1), computed from the normal distribution.
func TestRiskAtTheAcceptanceLimit(t *testing.T) {
	for _, c := range []struct{ r, percent, tolerance float64 }{
		{0, 50, 0.05}, {0.5, 15.9, 0.05}, {0.82, 5.05, 0.005}, {0.83, 4.85, 0.005}, {1, 2.28, 0.005}, {1.5, 0.135, 0.0005}, {3, 1e-7, 0.05e-7},
	} {
		const u = 1
		got := 100 * Conformance(-c.r*2*u, u, 0, math.Inf(1)) // true value above the upper limit 0
		if math.Abs(got-c.percent) > c.tolerance {
			t.Errorf("risk at the acceptance limit with r = %v: %v %%, want %v %%", c.r, got, c.percent)
		}
	}
}

// Student's t: JCGM 100:2008, table G.2 for the two-sided columns; the
// one-sided column and the inflation of k = 2 were computed apart.
func TestCoverageOfFewReadings(t *testing.T) {
	const two95, two9545, one95 = 0.025, 0.02275, 0.05
	for _, c := range []struct{ nu, two95, two9545, one95, inflation float64 }{
		{1, 12.71, 13.97, 6.31, 7.0},
		{2, 4.30, 4.53, 2.92, 2.3},
		{3, 3.18, 3.31, 2.35, 1.65},
		{4, 2.78, 2.87, 2.13, 1.44},
		{5, 2.57, 2.65, 2.02, 1.32},
		{6, 2.45, 2.52, 1.94, 1.26},
		{7, 2.36, 2.43, 1.89, 1.21},
		{8, 2.31, 2.37, 1.86, 1.18},
		{9, 2.26, 2.32, 1.83, 1.16},
		{10, 2.23, 2.28, 1.81, 1.14},
		{19, 2.09, 2.14, 1.73, 1.07},
		{29, 2.05, 2.09, 1.70, 1.05},
		{math.Inf(1), 1.96, 2.00, 1.645, 1.00},
	} {
		for _, k := range []struct{ risk, want, tolerance float64 }{
			{two95, c.two95, 0.0051}, {two9545, c.two9545, 0.0051}, {one95, c.one95, 0.0051},
		} {
			if got := (Policy{Risk: k.risk}).CoverageDF(c.nu); math.Abs(got-k.want) > k.tolerance {
				t.Errorf("t at a risk of %v with %v degrees of freedom = %v, want %v", k.risk, c.nu, got, k.want)
			}
		}
		tolerance := 0.0076 // halves of the two-decimal column, rounded again; one decimal in the first two rows
		if c.nu <= 2 {
			tolerance = 0.051
		}
		if got := (Policy{Risk: two9545}).CoverageDF(c.nu) / 2; math.Abs(got-c.inflation) > tolerance {
			t.Errorf("inflation with %v degrees of freedom = %v, want %v", c.nu, got, c.inflation)
		}
	}
}

// Closed forms: t with one degree of freedom is Cauchy, tan(pi(1/2-risk));
// with two it is (1-2r)/sqrt(2r(1-r)).
func TestCoverageOfFewReadingsClosedForm(t *testing.T) {
	for _, risk := range []float64{0.4, 0.2, 0.05, 0.01, 1e-4} {
		p := Policy{Risk: risk}
		one, two := math.Tan(math.Pi*(0.5-risk)), (1-2*risk)/math.Sqrt(2*risk*(1-risk))
		if got := p.CoverageDF(1); math.Abs(got/one-1) > 1e-9 {
			t.Errorf("t of one degree of freedom at %v = %v, want %v", risk, got, one)
		}
		if got := p.CoverageDF(2); math.Abs(got/two-1) > 1e-9 {
			t.Errorf("t of two degrees of freedom at %v = %v, want %v", risk, got, two)
		}
	}
}

// The quantile of t is the normal one plus (z³+z)/(4·nu) to first order
// (Abramowitz and Stegun, 26.7.5); at the change-over no step may show.
func TestManyDegreesOfFreedomAreNormal(t *testing.T) {
	p := Policy{}
	z := p.Coverage()
	for _, nu := range []float64{1e3, 1e4, 1e5, 1e6, normalFrom * 0.999, normalFrom, 1e9} {
		want := z + (z*z*z+z)/(4*nu)
		if got := p.CoverageDF(nu); math.Abs(got-want) > 4/(nu*nu)+2e-7 {
			t.Errorf("t of %v degrees of freedom = %v, want %v", nu, got, want)
		}
	}
}

func TestUnworkablePoliciesDecideNothing(t *testing.T) {
	for _, risk := range []float64{-0.05, 0.51, 1, math.NaN(), math.Inf(1)} {
		p := Policy{Risk: risk}
		if err := p.Check(); err == nil || !strings.Contains(err.Error(), "up to 0.5") {
			t.Errorf("a risk of %v: %v, want an error that gives the range", risk, err)
		}
		if p.Coverage() < math.Inf(1) || p.CoverageDF(10) < math.Inf(1) {
			t.Errorf("a risk of %v has the coverage %v", risk, p.Coverage())
		}
		for _, got := range []Verdict{Decide(100, 1, p), Decide(-100, 1, p), Decide(100, 0, p), DecideProbability(1, 1000, p)} {
			if got != TooClose {
				t.Errorf("with a risk of %v: %v, want %v", risk, got, TooClose)
			}
		}
	}
	for _, nu := range []float64{0, -1, math.NaN()} {
		if got := (Policy{}).CoverageDF(nu); !math.IsInf(got, 1) {
			t.Errorf("coverage of %v degrees of freedom = %v, want infinity", nu, got)
		}
	}
	for _, risk := range []float64{0, 0.5, 1e-9} {
		if err := (Policy{Risk: risk}).Check(); err != nil {
			t.Errorf("a risk of %v is refused: %v", risk, err)
		}
	}
}
