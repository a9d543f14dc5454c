package swing

import (
	"math"
	"testing"

	"swingwright/quantity"
)

// FuzzClose puts any two numbers into a random model. Whatever they are, the
// motion ends within its bound of steps and says how.
func FuzzClose(f *testing.F) {
	nan, inf := math.NaN(), math.Inf(1)
	f.Add(uint64(1), uint8(SlabMass), nan, uint8(SpringClosed), 1e300, 90*deg)
	f.Add(uint64(2), uint8(Blend), 0.0, uint8(PressureFades), 0.0, 30*deg)
	f.Add(uint64(3), uint8(SealStiffness), 1e12, uint8(SlabMass), 1e-9, 5*deg)
	f.Add(uint64(4), uint8(SweepViscous), 0.0, uint8(LatchViscous), -1.0, inf)
	f.Add(uint64(5), uint8(HingeFriction), 0.0, uint8(CloserLoss), 0.0, -1.0)
	f.Add(uint64(6), uint8(Pressure), inf, uint8(MainArm), 0.3, 0.0)
	f.Add(uint64(7), uint8(BoltMeets), 1.0, uint8(BoltForce), 1e9, 1e-9)
	f.Add(uint64(8), uint8(LeanAngle), 1.5, uint8(LeanAzimuth), 1.5, 90*deg)
	f.Fuzz(func(t *testing.T, seed uint64, which uint8, x float64, other uint8, y float64, from float64) {
		v, link := randomModel(seed, int(seed%uint64(len(armKinds))))
		v[int(which)%NumValues] = x
		v[int(other)%NumValues] = y
		m, err := New(&v, link)
		if err != nil {
			return
		}
		var mv Mover
		marks := []Mark{{Angle: 90 * quantity.Degree}, {Angle: 0.1}, {Angle: 0}}
		got := mv.Close(&m, quantity.Angle(from), marks)
		switch {
		case (got.End == Unfinished) != (got.Err != nil):
			t.Errorf("ends %v with error %v", got.End, got.Err)
		case got.End != Unfinished && (math.IsNaN(float64(got.Angle)) || !(got.Time >= 0 && got.Time <= Limit)):
			t.Errorf("ends %v at %v rad after %v s", got.End, got.Angle, got.Time)
		case mv.Steps > mv.options(true).MaxTries:
			t.Errorf("took %d steps", mv.Steps)
		}
		m.HandMoment(0)
		m.BudgetAt(5 * quantity.Degree)
	})
}
