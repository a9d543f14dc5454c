package trace

import (
	"math"
	"math/rand/v2"
	"testing"
)

// A start whose law is among those that are weighed is found as well as it is
// said to be: rises of several powers, and a sudden one, with noise.
func TestEdge(t *testing.T) {
	for _, c := range []struct {
		name   string
		power  float64
		slope  float64 // deg/s at 0.1 s after
		sudden bool
	}{
		{"even push", 1, 4, false},
		{"hand", 2, 1, false},
		{"in between", 1.5, 2, false},
		{"stop", 0, 8, true},
		{"soft stop", 1, 3, true},
	} {
		d := rand.New(rand.NewPCG(1, 2))
		const n, sigma = 300, 0.06 * degree
		inside, squares := 0, 0.0
		for range n {
			t0 := 0.3 + 0.02*d.Float64()
			var at, u []float64
			for i := range 40 {
				x := float64(i) / 60
				v := 0.0
				if x > t0 {
					v = c.slope * degree * math.Pow((x-t0)/0.1, c.power)
				}
				if at, u = append(at, x), append(u, v+sigma*d.NormFloat64()); x > t0+0.05 && v > 2*degree {
					break
				}
			}
			m := edge(at, u, sigma, c.sudden)
			if z := (m.t - t0) / m.u; math.Abs(z) < 1.96 {
				inside++
			}
			squares += (m.t - t0) * (m.t - t0)
		}
		if inside < n*90/100 {
			t.Errorf("%s: %d of %d are within 1.96 u", c.name, inside, n)
		}
		if rms := math.Sqrt(squares / n); rms > 0.02 {
			t.Errorf("%s: off by %.4f s", c.name, rms)
		}
	}
}
