package propagate

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
	_ "swingwright/internal/steady"
)

// near tells whether two numbers agree to the relative tolerance.
func near(got, want, rel float64) bool { return math.Abs(got-want) <= rel*math.Abs(want) }

func TestNormalQuantiles(t *testing.T) {
	// Abramowitz, Stegun, Handbook of Mathematical Functions (1964), table 26.5 and 26.6.
	in := Input{Mean: 10, U: 2}
	for p, z := range map[float64]float64{0.5: 0, 0.75: 0.6744897502, 0.9: 1.2815515655, 0.975: 1.9599639845, 0.995: 2.5758293035, 0.001: -3.0902323062} {
		if got := in.quantile(p); math.Abs(got-(10+2*z)) > 1e-9 {
			t.Errorf("share %v: %v, want %v", p, got, 10+2*z)
		}
	}
}

func TestTailsAreFinite(t *testing.T) {
	for _, share := range []float64{0, 1e-300, 1} {
		if z := (Input{U: 1}).quantile(share); math.Abs(z) < 8 || math.Abs(z) > 9 {
			t.Errorf("share %v: %v", share, z)
		}
	}
}

// within is the value below which a share p of the draws lies.
func (in Input) within(p float64) float64 {
	low, high := in.shares()
	return in.quantile(low + p*(high-low))
}

func TestTruncatedQuantiles(t *testing.T) {
	// Cut at its mean a normal becomes a half normal, whose median is the
	// quartile point of the normal, 0.6744897502.
	half := Input{Mean: 3, U: 1, Low: 3, High: math.Inf(1)}
	if got := half.within(0.5); math.Abs(got-3.6744897502) > 1e-9 {
		t.Errorf("median of the half normal %v", got)
	}
	// Cut far narrower than its spread it becomes even.
	even := Input{Mean: 0, U: 1000, Low: -1, High: 1}
	for _, p := range []float64{0.1, 0.5, 0.9} {
		if got := even.within(p); math.Abs(got-(2*p-1)) > 1e-5 {
			t.Errorf("share %v of the even one: %v", p, got)
		}
	}
}

func TestQuantilesStayInBoundsAndRise(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.Float64Range(-1e3, 1e3).Draw(t, "low")
		high := low + rapid.Float64Range(1e-6, 1e3).Draw(t, "width")
		in := Input{
			Mean: low + (high-low)*rapid.Float64Range(0, 1).Draw(t, "place"),
			U:    rapid.Float64Range(1e-6, 1e3).Draw(t, "u"), Low: low, High: high,
		}
		if in.Mean > high {
			in.Mean = high
		}
		p := rapid.Float64Range(1e-9, 0.999).Draw(t, "p")
		a, b := in.within(p), in.within(p+1e-3*(1-p))
		if a < low || b > high || b < a {
			t.Fatalf("%+v: %v at %v, then %v", in, a, p, b)
		}
	})
}

func TestUnusableInputsAreAllReported(t *testing.T) {
	bad := []Input{
		{Mean: math.NaN(), U: 1},
		{Mean: 1, U: -1},
		{Mean: 1, U: 1, Low: 3, High: 2},
		{Mean: 5, U: 1, Low: 1, High: 2},
		{Mean: 1, U: 1, Low: math.NaN()},
		{Mean: 1, U: 1, Low: 0, High: 2}, // fine
	}
	f := func(x, out []float64) {}
	_, err := MonteCarlo(1, 1, bad, 1, f)
	if err == nil {
		t.Fatal("accepted")
	}
	for _, word := range []string{"input 0", "input 1", "input 2", "input 3", "input 4", "1 draws"} {
		if !strings.Contains(err.Error(), word) {
			t.Errorf("%q is not reported in %v", word, err)
		}
	}
	if strings.Contains(err.Error(), "input 5") {
		t.Errorf("a good input is reported: %v", err)
	}
	if _, err := Linear(bad, 1, f); err == nil || !strings.Contains(err.Error(), "input 3") {
		t.Errorf("linear law: %v", err)
	}
	if _, err := Linear(nil, -1, f); err == nil {
		t.Error("linear law accepts -1 outputs")
	}
}
