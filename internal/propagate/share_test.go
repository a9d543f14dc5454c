package propagate

import (
	"math"
	"testing"
)

// For a sum of independent inputs each explains its own variance: 9, 1 and 0
// parts in 10 of y = 3·x1 + x2 with equal spreads.
func TestSharesOfASum(t *testing.T) {
	inputs := []Input{{Mean: 1, U: 2}, {Mean: -5, U: 2}, {Mean: 7, U: 2}}
	d, err := MonteCarlo(3, 4096, inputs, 1, func(x, out []float64) { out[0] = 3*x[0] + x[1] })
	if err != nil {
		t.Fatal(err)
	}
	d.Output(0)[17] = math.NaN()
	got := d.Shares(d.Output(0))
	for i, want := range []float64{0.9, 0.1, 0} {
		if math.Abs(got[i]-want) > 0.02 {
			t.Errorf("input %d explains %.3f, want %.1f", i, got[i], want)
		}
	}
}
