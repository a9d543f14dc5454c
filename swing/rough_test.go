package swing

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"swingwright/quantity"
)

// On ordinary leaves the loose tolerances keep times to 5 ms and the peak
// energy to 0.3 % of the exact ones.
func TestRoughIsGoodEnoughForDraws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, link := typical()
		v[SlabMass] = rapid.Float64Range(25, 100).Draw(t, "mass")
		v[SpringClosed] = rapid.Float64Range(9, 20).Draw(t, "spring")
		v[SweepViscous] = rapid.Float64Range(10, 60).Draw(t, "sweep")
		v[LatchViscous] = rapid.Float64Range(20, 90).Draw(t, "latch")
		v[Pressure] = rapid.Float64Range(-5, 3).Draw(t, "pressure")
		m, err := New(&v, link)
		if err != nil {
			t.Fatal(err)
		}
		rough, exact := Mover{Rough: true}, Mover{Exact: true}
		marks := func() []Mark {
			return []Mark{{Angle: 90 * quantity.Degree}, {Angle: 70 * quantity.Degree}, {Angle: 12 * quantity.Degree}, {Angle: 10 * quantity.Degree}, {Angle: 0}}
		}
		got, want := marks(), marks()
		a, b := rough.Close(&m, 90*quantity.Degree, got), exact.Close(&m, 90*quantity.Degree, want)
		if a.End != b.End {
			t.Fatalf("ends %v, exactly %v", a.End, b.End)
		}
		for i := range want {
			if d := math.Abs(float64(got[i].Time - want[i].Time)); !(d < 0.005) && b.End.Shut() {
				t.Errorf("passes %.0f° %.2g ms off", float64(want[i].Angle)/deg, d*1e3)
			}
		}
		if d := math.Abs(float64(a.Energy/b.Energy) - 1); d > 0.003 {
			t.Errorf("peak energy off by %.2g", d)
		}
	})
}
