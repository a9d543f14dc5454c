package swing

import (
	"math"
	"testing"

	"swingwright/quantity"
)

// An arm that is out of reach a degree beyond closed turns too wildly for the
// chart, whose nodes run on there: the closing is then followed without it. The
// shoe stands where pinion, shoe and the arms' difference of 15 mm say so.
func TestChartLeavesOutAnArmNearItsReach(t *testing.T) {
	v, link := typical()
	v[PinionX], v[PinionY], v[MainArm], v[Forearm] = 0.15, 0, 0.25, 0.235
	const shoe = 0.16
	// a² + b² − 2ab·cos φ = (L1 − L2)², and closed is one degree farther out
	phi := math.Acos((0.15*0.15 + shoe*shoe - 0.015*0.015) / (2 * 0.15 * shoe))
	v[ShoeX], v[ShoeY] = shoe*math.Cos(phi+deg), -shoe*math.Sin(phi+deg)
	link.Bend = -1
	m, err := New(&v, link)
	if err != nil {
		t.Fatal(err)
	}
	if _, _, ok := m.arm.Turn(0); !ok {
		t.Fatal("out of reach closed")
	}
	if _, _, ok := m.arm.Turn(-1.1 * deg); ok {
		t.Fatal("in reach beyond closed")
	}
	var mv Mover
	exact := Mover{Exact: true}
	got, want := mv.Close(&m, 60*quantity.Degree, nil), exact.Close(&m, 60*quantity.Degree, nil)
	if got.End != want.End || !(math.Abs(float64(got.Time-want.Time)) < 2e-3) {
		t.Errorf("%v after %v s (%v), exactly %v after %v s (%v)", got.End, got.Time, got.Err, want.End, want.Time, want.Err)
	}
}
