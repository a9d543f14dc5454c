package record

import (
	"flag"
	"fmt"
	"math"
	"strings"
	"testing"

	"swingwright/internal/reference"
	"swingwright/quantity"
	"swingwright/trace"
)

// profile is the swing of the simulation below: 3 s still, open to
// 90° in 5 s, hold 6 s, close to 10° in 5 s and to closed in 2 s, 3 s still. How
// the opening gathers and loses speed is not told there; a fifth of the time is
// taken for each, as the trade does.
func profile() *Course {
	var c Course
	return c.Rest(3).Trapezoid(trace.Opening, 90*deg, 5, 0.2).Rest(6).
		Trapezoid(trace.Sweep, 10*deg, 5, 0).Trapezoid(trace.Sweep, 0, 2, 0).Rest(3)
}

// upright is the attitude in which the device's z axis is the hinge.
var upright = [4]float64{1, 0, 0, 0}

// corrections of that simulation, each from the rates alone.
const (
	uncorrected = iota
	fromStart   // bias from the first 2.5 s
	fromBoth    // and from the last 2.5 s, linear between
	closed      // bias from the first 2.5 s, and the end made zero
)

// sums are times, s, and angles, degrees, of a plain sum of the rates about z.
func sums(t *testing.T, data []byte, how int) (at, angle []float64) {
	t.Helper()
	rec, err := trace.Read("simulated", data, nil)
	if err != nil {
		t.Fatal(err)
	}
	n := rec.Rows()
	rate := make([]float64, n)
	var first, last, few, many float64
	for i := range n {
		s, _, w := rec.Row(i)
		at = append(at, float64(s))
		rate[i] = float64(w[2]) / rad
		if at[i] < 2.5 {
			first, few = first+rate[i], few+1
		}
		if at[i] > 21.5 {
			last, many = last+rate[i], many+1
		}
	}
	first, last = first/few, last/many
	angle = make([]float64, n)
	bias := func(s float64) float64 {
		switch how {
		case uncorrected:
			return 0
		case fromBoth:
			return first + (last-first)*(s-1.25)/(22.75-1.25)
		}
		return first
	}
	for i := 1; i < n; i++ {
		angle[i] = angle[i-1] + ((rate[i]-bias(at[i]))+(rate[i-1]-bias(at[i-1])))/2*(at[i]-at[i-1])
	}
	if how == closed {
		left := angle[n-1]
		for i := range angle {
			angle[i] -= left * at[i] / at[n-1]
		}
	}
	return at, angle
}

// passes is when an angle is first passed upward, or last downward, s.
func passes(at, angle []float64, mark float64, up bool) (t float64) {
	for i := 1; i < len(at); i++ {
		a, b := angle[i-1], angle[i]
		if up && a < mark && b >= mark || !up && a >= mark && b < mark {
			t = at[i-1] + (at[i]-at[i-1])*(mark-a)/(b-a)
			if up {
				return t
			}
		}
	}
	return t
}

// A simulation of drift and its correction by another program, made before this
// one was written: errors of the open and the end angle and of the times to 80° and
// to 10°, mean and standard deviation of 200 recordings at 60 Hz with rates rounded
// to 0.1 deg/s, as its table prints them. The open angle is compared where its
// error does not depend on when in the hold it is read. The page of validation tells the
// rows.
func TestDriftTableValidation(t *testing.T) {
	t.Parallel()
	var page strings.Builder
	page.WriteString(`## Drift of a recorder (package record)

Source: a simulation of drift and its correction by another program, 200 recordings at 60 Hz, rates rounded to 0.1 deg/s; means and
standard deviations as its table prints them. Here, the simulated recorder with the same plain corrections.

| Correction | Quantity | Ours | Reference | Open |
|---|---|---|---|---|
`)
	// The rate leaps just at a sample, at 14 s and at 19 s where 10° is passed:
	// whether that sample has the old rate or the new is not told there, and moves
	// the time to 10° by half a sample.
	const half = 1.0 / 120
	const none = 1e9 // not told in the table, or not comparable
	for _, row := range []struct {
		name                              string
		density, bias, drift, scale       float64 // deg/s over √Hz, deg/s, deg/s², ratio
		how                               int
		open, end, to80, to10             float64 // means
		openS, endS, to80S, to10S         float64 // standard deviations
		openTol, endTol, to80Tol, to10Tol float64
	}{
		{"none", 0.01, 0.3, 0, 0, uncorrected, none, 7.20, -0.096, 1.21, none, 0.04, none, none, 0, 0.02, 0.004, 0.02},
		{"bias from the start", 0.01, 0.3, 0, 0, fromStart, 0, 0, 0, 0.005, 0.04, 0.12, 0.001, 0.012, 0.01, 0.03, 0.001, half},
		{"start and end, linear", 0.01, 0.3, 0, 0, fromBoth, 0, 0, 0, 0.003, 0.03, 0.08, 0.001, 0.009, 0.01, 0.02, 0.001, half},
		{"start and closure", 0.01, 0.3, 0, 0, closed, 0, 0, 0, 0.001, 0.02, 0, 0.001, 0.002, 0.01, 0.001, 0.001, half},
		{"drifting, bias from the start", 0.01, 0.3, 0.002, 0, fromStart, none, 0.51, -0.001, 0.062, none, none, none, none, 0, 0.03, 0.002, half},
		{"drifting, start and end", 0.01, 0.3, 0.002, 0, fromBoth, -0.01, 0, 0.001, 0.003, none, none, none, none, 0.015, 0.03, 0.002, half},
		{"scale + 1 %", 0.01, 0.3, 0, 0.01, closed, 0.90, 0, -0.039, 0.020, none, none, none, none, 0.01, 0.001, 0.004, 1.2 * half},
	} {
		const runs = 200
		c := profile()
		want80, want10 := c.mark(80*deg, false), c.mark(10*deg, true)
		var open, end, to80, to10 spread
		for seed := range uint64(runs) {
			o := Options{
				Seed: seed, Rate: 60, NoiseDensity: quantity.AngularSpeed(row.density * rad), Rounding: quantity.AngularSpeed(0.1 * rad),
				Scale: quantity.Ratio(row.scale), Attitude: &upright,
			}
			o.Bias[2], o.BiasDrift[2] = quantity.AngularSpeed(row.bias*rad), quantity.AngularSpeed(row.drift*rad)
			at, angle := sums(t, Simulate(c, o), row.how)
			open.add(angle[int(8.5*60)] - 90)
			end.add(angle[len(angle)-1])
			to80.add(passes(at, angle, 80, true) - want80)
			to10.add(passes(at, angle, 10, false) - want10)
		}
		check := func(what string, s spread, mean, tolerance, deviation float64) {
			if mean < none && math.Abs(s.mean()-mean) > tolerance {
				t.Errorf("%s: %s is off by %.4f, want %.4f within %.3f", row.name, what, s.mean(), mean, tolerance)
			}
			if mean < none {
				digits, unit := 3, "s"
				if strings.Contains(what, "angle") {
					digits, unit = 2, "°"
				}
				zero := func(x float64) float64 { // no minus before a printed nought
					ten := math.Pow10(digits)
					return math.Round(x*ten)/ten + 0
				}
				fmt.Fprintf(&page, "| %s | %s, error | %+.*f %s | %+.*f %s | ±%.3f |\n", row.name, what, digits, zero(s.mean()), unit, digits, mean, unit, tolerance)
			}
			// the standard deviation of 200 runs is good to 5 %, and printed to a digit or two
			if deviation < none && math.Abs(s.deviation()-deviation) > 0.2*deviation+0.0006 {
				t.Errorf("%s: %s scatters by %.4f, want %.4f", row.name, what, s.deviation(), deviation)
			}
		}
		check("open angle", open, row.open, row.openTol, row.openS)
		check("end angle", end, row.end, row.endTol, row.endS)
		check("time to 80°", to80, row.to80, row.to80Tol, row.to80S)
		check("time to 10°", to10, row.to10, row.to10Tol, row.to10S)
	}
	if err := reference.Section(page.String(), "record", *update); err != nil {
		t.Error(err)
	}
}

var update = flag.Bool("update", false, "write this package's part of docs/validation.md anew")

// spread sums up values.
type spread struct{ n, sum, squares float64 }

func (s *spread) add(x float64) { s.n, s.sum, s.squares = s.n+1, s.sum+x, s.squares+x*x }

func (s *spread) mean() float64 { return s.sum / s.n }

func (s *spread) deviation() float64 {
	return math.Sqrt(max(0, s.squares/s.n-s.mean()*s.mean()) * s.n / (s.n - 1))
}

// What trace makes of the same recordings is as good as the best of the table: to
// its printed digits the open angle, and the times from mark to mark.
func TestDriftOfTrace(t *testing.T) {
	t.Parallel()
	c := profile()
	var open, to10 spread
	for seed := range uint64(200) {
		o := Options{Seed: seed, Rate: 60, NoiseDensity: quantity.AngularSpeed(0.01 * rad), Rounding: quantity.AngularSpeed(0.1 * rad)}
		o.Bias = [3]quantity.AngularSpeed{0.003, -0.004, 0.002}
		rec, err := trace.Read("simulated", Simulate(c, o), nil)
		if err != nil {
			t.Fatal(err)
		}
		s := rec.Analyse(trace.Settings{}).Swings[0]
		open.add(float64(s.OpenAngle().Value)/rad - 90)
		to10.add(float64(s.Between(80*deg, 10*deg, true).Value - c.Between(80*deg, 10*deg, true)))
	}
	if math.Abs(open.mean()) > 0.01 || open.deviation() > 0.025 {
		t.Errorf("open angle off by %.4f ± %.4f°", open.mean(), open.deviation())
	}
	if math.Abs(to10.mean()) > 1.0/120 || to10.deviation() > 0.005 {
		t.Errorf("closing time off by %.4f ± %.4f s", to10.mean(), to10.deviation())
	}
}
