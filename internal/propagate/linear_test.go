package propagate

import (
	"math"
	"testing"
)

// near tells whether two numbers agree to the relative tolerance.
func near(got, want, rel float64) bool { return math.Abs(got-want) <= rel*math.Abs(want) }

func TestLinearIsExactOnAPlane(t *testing.T) {
	b, err := Linear([]Input{{Mean: 1, U: 0.3}, {Mean: 2, U: 0.4}, {Mean: 9}}, 1, func(x, out []float64) { out[0] = 2*x[0] - 3*x[1] + x[2] })
	if err != nil {
		t.Fatal(err)
	}
	// By hand: 2*0.3 = 0.6, -3*0.4 = -1.2, root of the sum of squares.
	if !near(b.Value(0), 5, 1e-15) || !near(b.Part(0, 0), 0.6, 1e-14) || !near(b.Part(1, 0), -1.2, 1e-14) || b.Part(2, 0) != 0 || !near(b.U(0), math.Sqrt(1.8), 1e-14) {
		t.Errorf("budget %+v", b)
	}
}

func TestBothLawsAgreeOnAPlane(t *testing.T) {
	d, err := MonteCarlo(7, 256, []Input{{Mean: 1, U: 0.3}, {Mean: 2, U: 0.4}}, 1, func(x, out []float64) { out[0] = 2*x[0] - 3*x[1] })
	if err != nil {
		t.Fatal(err)
	}
	s := d.Summary(0)
	if math.Abs(s.Mean+4) > 0.01 || !near(s.SD, math.Sqrt(1.8), 0.03) {
		t.Errorf("mean %v, sd %v", s.Mean, s.SD)
	}
}
