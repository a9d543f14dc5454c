package trace

import (
	"math"
	"testing"

	"swingwright/quantity"
)

// Three times of 5.01, 5.03 and 5.05 s: s = 0.02 s and s/√3 = 0.01155 s. With a
// scale that all share, u = √(0.02² + 0.01155²), and ν = u⁴/(0.01155⁴/2) by Welch
// and Satterthwaite (JCGM 100:2008, 4.2.3 and G.4).
func TestRepeat(t *testing.T) {
	var readings []Reading[quantity.Time]
	for _, v := range []float64{5.01, 5.03, 5.05} {
		readings = append(readings, got(v, Term[quantity.Time]{scaleAssumed, 0.02}, Term[quantity.Time]{byNoise, 0.3}))
	}
	readings = append(readings, no[quantity.Time]("it was not recorded"))
	r := Repeat(readings...)
	scatter := 0.02 / math.Sqrt(3)
	u := math.Hypot(0.02, scatter)
	df := math.Pow(u, 4) / (math.Pow(scatter, 4) / 2)
	if r.N != 3 || math.Abs(float64(r.Mean)-5.03) > 1e-9 || math.Abs(float64(r.S)-0.02) > 1e-9 || math.Abs(float64(r.U)-u) > 1e-9 || math.Abs(r.DF-df) > 1e-6 {
		t.Errorf("%+v, want u %v, ν %v", r, u, df)
	}
	one := Repeat(readings[:1]...)
	if one.N != 1 || math.Abs(float64(one.U)-math.Hypot(0.02, 0.3)) > 1e-9 || !math.IsNaN(float64(one.S)) {
		t.Errorf("of one: %+v", one)
	}
	if none := Repeat(readings[3:]...); none.N != 0 || !math.IsNaN(float64(none.Mean)) {
		t.Errorf("of none: %+v", none)
	}
}
