package swing

import (
	"math"
	"testing"

	"swingwright/quantity"
)

// Followed finely, the time of a closing has a derivative by differences of a
// thousandth in resistance that agrees with the exact way to one part in two hundred.
func TestFineTimesHaveDerivatives(t *testing.T) {
	v, link := typical()
	slope := func(mv *Mover) float64 {
		var at [2]float64
		for i, by := range []float64{-1e-3, 1e-3} {
			w := v
			w[SweepViscous] *= math.Exp(by)
			m, err := New(&w, link)
			if err != nil {
				t.Fatal(err)
			}
			marks := []Mark{{Angle: 12 * quantity.Degree}}
			mv.Close(&m, 90*quantity.Degree, marks)
			at[i] = float64(marks[0].Time)
		}
		return (at[1] - at[0]) / 2e-3
	}
	fine, exact := slope(&Mover{Fine: true}), slope(&Mover{Exact: true})
	if off := math.Abs(fine/exact - 1); !(off < 5e-3) {
		t.Errorf("slope %.5g s, exactly %.5g s", fine, exact)
	}
}
