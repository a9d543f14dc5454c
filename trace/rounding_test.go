package trace

import (
	"math"
	"math/rand/v2"
	"testing"
)

func TestQuantum(t *testing.T) {
	d := rand.New(rand.NewPCG(3, 4))
	fine := make([]float64, 2000)
	for i := range fine {
		fine[i] = 0.3 * d.NormFloat64()
	}
	for _, q := range []float64{0, 0.1, 0.1 * degree, 0.05, 1} {
		values := make([]float64, len(fine))
		for i, x := range fine {
			if values[i] = 5 * x; q > 0 {
				values[i] = q * math.Round(5*x/q)
			}
		}
		if got := quantum(values); math.Abs(got-q) > 1e-6*q+1e-4*q {
			if q > 0 || got > 1e-3 {
				t.Errorf("rounded to %v: %v", q, got)
			}
		}
	}
	if got := quantum(make([]float64, 100)); got != 0 {
		t.Errorf("all alike: %v", got)
	}
}

// The mean of a rate at rest that is rounded to q is wrong by up to q/2 without
// noise and hardly at all with noise of q: its spread over all rates is what
// rounding says, by simulation here.
func TestRoundingOfTheBias(t *testing.T) {
	const q = 0.1 * degree
	d := rand.New(rand.NewPCG(5, 6))
	for _, sigma := range []float64{0, 0.2 * q, 0.3 * q, 0.4 * q} {
		squares, said := 0.0, 0.0
		const runs, n = 300, 4000
		for range runs {
			rate := 3 * q * d.Float64()
			values := make([]float64, n)
			sum := 0.0
			for i := range values {
				values[i] = q * math.Round((rate+sigma*d.NormFloat64())/q)
				sum += values[i]
			}
			off := sum/n - rate
			squares += off * off
			r := Recording{axes: 1, rate: [3][]float64{values}}
			u, _ := r.rounding(vertical{axis: vector{1, 0, 0}})
			said += u
		}
		is := math.Sqrt(squares / runs)
		if mean := said / runs; sigma > 0 && (mean < is/1.5-0.005*q || mean > 1.8*is+0.02*q) {
			t.Errorf("noise of %.2g q: off by %.3f q, said to be %.3f q", sigma/q, is/q, mean/q)
		}
	}
}

func TestStampStep(t *testing.T) {
	d := rand.New(rand.NewPCG(7, 8))
	for _, q := range []float64{0, 0.001, 0.01} {
		var at []float64
		x := 0.0
		for range 500 {
			x += 1.0/60 + 0.001*d.NormFloat64()
			if y := x; q > 0 {
				at = append(at, q*math.Round(y/q))
			} else {
				at = append(at, y)
			}
		}
		if got := stampStep(at); math.Abs(got-q) > 1e-9 {
			t.Errorf("stamps rounded to %v: %v", q, got)
		}
	}
}
