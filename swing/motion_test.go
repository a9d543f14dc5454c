package swing

import (
	"math"
	"testing"

	"swingwright/quantity"
)

const deg = float64(quantity.Degree)

// plain is a leaf of inertia i (kg·m²) whose arm turns with it, n = 1: the
// pinion stands on the hinge axis.
func plain(i float64) (Values, Linkage) {
	var v Values
	v[LeafWidth], v[LeafHeight] = 1, 2
	v[SlabMass] = i * 3 // a thin slab: I = m·w²/3
	v[ShoeX], v[MainArm], v[Forearm] = 0.5, 0.3, 0.3
	v[Blend], v[OilFactor], v[PressureFades] = 1.5*deg, 1, 6*deg
	return v, Linkage{Closer: true, Bend: 1}
}

// The textbook exercise restated in the reference notes, section 6.1: torque
// 13.5 N·m closed, 50 N·m/rad, 100 N·m·s/rad, I = 90 kg·m², let go at 90°.
// It closes in 3.420 s at 17.5 °/s.
func TestTextbookExercise(t *testing.T) {
	v, link := plain(90)
	v[SpringClosed], v[SpringRise] = 13.5, 50
	v[SweepViscous], v[LatchViscous] = 100, 100
	m, err := New(&v, link)
	if err != nil {
		t.Fatal(err)
	}
	var mv Mover
	got := mv.Close(&m, 90*quantity.Degree, nil)
	if got.End != Closed || math.Abs(float64(got.Time)-3.420) > 0.0005 || math.Abs(float64(got.Rate)/deg+17.5) > 0.05 {
		t.Errorf("%v after %.4f s at %.3f °/s, want closed after 3.420 s at -17.5 °/s", got.End, got.Time, float64(got.Rate)/deg)
	}
}

// typical is a regular-arm closer on an ordinary leaf.
func typical() (Values, Linkage) {
	var v Values
	in := float64(quantity.Inch)
	v[LeafWidth], v[LeafHeight], v[LeafThickness] = 35.75*in, 83.75*in, 1.75*in
	v[PinToEdge], v[PinToFace] = 0.125*in, 0.375*in
	v[SlabMass] = 54
	v[PinionX], v[PinionY], v[ShoeX], v[ShoeY] = 6.5*in, 2.25*in, 12.5*in, 1*in
	v[MainArm], v[Forearm] = 11*in, 10.47*in
	v[SpringClosed], v[SpringRise], v[CloserLoss] = 12, 3, 0.25
	v[SweepViscous], v[LatchViscous], v[LatchZone] = 35, 90, 20*deg
	v[Blend], v[OilFactor] = 1.5*deg, 1
	v[HingeFriction], v[BoltForce], v[BoltRadius] = 0.6, 7, 0.89
	v[BoltClears], v[BoltMeets] = 0.6*deg, 2*deg
	v[SealStiffness], v[SealMeets] = 300, 1*deg
	v[Pressure], v[PressureFades] = 5, 6*deg
	v[DragCoefficient], v[AirDensity] = 1.9, 1.2
	return v, Linkage{Closer: true, OnLeaf: true, Bend: 1, Latch: true}
}

// An ordinary leaf passes its marks within half a millisecond of the exact
// solution, in steps that are few.
func TestTypicalClosing(t *testing.T) {
	v, link := typical()
	m, err := New(&v, link)
	if err != nil {
		t.Fatal(err)
	}
	mv, exact := Mover{}, Mover{Exact: true}
	marks, fine := closingTimes(), closingTimes()
	got, want := mv.Close(&m, 90*quantity.Degree, marks[:]), exact.Close(&m, 90*quantity.Degree, fine[:])
	if got.End != Latched || want.End != Latched || mv.Steps > 150 {
		t.Errorf("%v in %d steps, exactly %v in %d", got.End, mv.Steps, want.End, exact.Steps)
	}
	for i := range marks {
		if math.Abs(float64(marks[i].Time-fine[i].Time)) > 0.5e-3 {
			t.Errorf("%.0f° after %.5f s, exactly %.5f s", float64(marks[i].Angle)/deg, marks[i].Time, fine[i].Time)
		}
	}
}

// closingTimes are the marks by which closings are timed.
func closingTimes() (marks [6]Mark) {
	for i, a := range closingMarks {
		marks[i].Angle = quantity.Angle(a)
	}
	return marks
}
