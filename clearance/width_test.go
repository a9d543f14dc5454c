package clearance

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	q "swingwright/quantity"
)

// tableDoor is the doorway of the trade's tables: pin on the corner of the
// pull face, 1-3/4 in leaf, 1/8 in gaps, 5/8 in stops.
func tableDoor(opening q.Length) (Leaf, Frame) {
	return Leaf{Width: opening - 0.25*q.Inch, Thickness: 1.75 * q.Inch},
		Frame{Width: opening, HingeGap: 0.125 * q.Inch, HingeStop: 0.625 * q.Inch, LatchStop: 0.625 * q.Inch}
}

// Clear widths in inches by the printed table of the trade: half a unit of the
// last digit. The cell of 32 in at 70° is printed as 18.8; the formula printed above
// the table, 32 − 5/8 − 1/8 − 31-3/4 cos 70° − 1-3/4 sin 70°, gives 18.746.
func TestClearWidthTable(t *testing.T) {
	angles := []float64{70, 75, 80, 85, 87, 88, 90}
	for opening, row := range map[float64][]float64{
		36: {21.4, 24.3, 27.3, 30.4, 31.6, 32.3, 33.5},
		34: {20.1, 22.8, 25.7, 28.6, 29.7, 30.3, 31.5},
		32: {18.746, 21.3, 24.0, 26.7, 27.8, 28.4, 29.5},
	} {
		for i, theta := range angles {
			l, f := tableDoor(q.Length(opening) * q.Inch)
			w := ClearWidth(l, f, q.Angle(theta)*q.Degree)
			if got := float64(w.Bare / q.Inch); math.Abs(got-row[i]) > 0.0501 || w.Bare != w.ToLeaf || w.Bare != w.Net {
				t.Errorf("%g in opening at %g°: %.3f in clear, the table has %.1f (%+v)", opening, theta, got, row[i], w)
			}
		}
	}
}

// The estimate of the trade for a 3-0 leaf with the pin 3/8 in before its pull
// face and 1/16 in of gap: 36 − 5/8 − (1/16 + 3/8 + 1-3/4) = 33-3/16 in.
func TestClearWidthWithPinBeforeTheFace(t *testing.T) {
	l := Leaf{Face: 0.375 * q.Inch, Width: 35.875 * q.Inch, Thickness: 1.75 * q.Inch}
	f := Frame{Width: 36 * q.Inch, HingeGap: q.Inch / 16, HingeStop: 0.625 * q.Inch, LatchStop: 0.625 * q.Inch}
	if got := float64(ClearWidth(l, f, 90*q.Degree).Bare / q.Inch); math.Abs(got-33.1875) > 1e-12 {
		t.Errorf("%g in clear, want 33-3/16", got)
	}
}

// Swing-clear hinges set the open leaf behind the face of its jamb. The trade
// counts on its thickness gained, 33.2 in to the latch stop for a 34 in opening
// and 31.2 for a 32 in one. The hinge stop then stands in the way, so that
// from stop to stop there is the opening less twice 5/8 in.
func TestSwingClearHinges(t *testing.T) {
	for opening, want := range map[float64]float64{34: 33.25, 32: 31.25} {
		l, f := tableDoor(q.Length(opening) * q.Inch)
		l.Edge = l.Thickness // at 90° the push face is where the hinge edge was
		w := ClearWidth(l, f, 90*q.Degree)
		if got := float64(w.ToLeaf / q.Inch); math.Abs(got-want) > 1e-12 {
			t.Errorf("%g in opening: %g in to the leaf, want %g", opening, got, want)
		}
		if got := float64(w.Bare / q.Inch); math.Abs(got-(opening-1.25)) > 1e-12 {
			t.Errorf("%g in opening: %g in between the stops, want %g", opening, got, opening-1.25)
		}
	}
}

// An exit bar 3 in deep on the push face takes its depth at 90°; a knob on the
// pull face takes nothing.
func TestProjectionsTakeWidth(t *testing.T) {
	l, f := tableDoor(36 * q.Inch)
	bar := Projection{Name: "exit bar", Side: Push, At: 18 * q.Inch, Along: 30 * q.Inch, Out: 3 * q.Inch, Heights: Band{0.9, 1.1}}
	knob := Projection{Name: "knob", Side: Pull, At: 33 * q.Inch, Along: 2 * q.Inch, Out: 2.5 * q.Inch}
	w := ClearWidth(l, f, 90*q.Degree, knob, bar)
	if math.Abs(float64((w.Bare-w.Net)/q.Inch)-3) > 1e-12 {
		t.Errorf("%g in bare and %g net, want 3 in between them", float64(w.Bare/q.Inch), float64(w.Net/q.Inch))
	}
	if len(w.Cuts) != 1 || w.Cuts[0].Name != "exit bar" || math.Abs(float64(w.Cuts[0].Into/q.Inch)-3) > 1e-12 || w.Cuts[0].Heights != bar.Heights {
		t.Errorf("cuts %+v, want the exit bar's 3 in", w.Cuts)
	}
}

// With the leaf clear of the hinge stop, what stands out of it no farther than
// that stop takes nothing.
func TestProjectionBehindTheHingeStop(t *testing.T) {
	l, f := tableDoor(36 * q.Inch)
	l.Edge = l.Thickness
	plate := Projection{Name: "plate", Side: Push, At: 18 * q.Inch, Along: 30 * q.Inch, Out: 0.25 * q.Inch}
	bar := Projection{Name: "bar", Side: Push, At: 18 * q.Inch, Along: 30 * q.Inch, Out: 2.5 * q.Inch}
	w := ClearWidth(l, f, 90*q.Degree, plate, bar)
	// The stop stands 1/2 in out of the leaf's push face: 5/8 in less the gap.
	if len(w.Cuts) != 1 || w.Cuts[0].Name != "bar" || math.Abs(float64(w.Cuts[0].Into/q.Inch)-2) > 1e-12 {
		t.Errorf("cuts %+v, want 2 in of the bar", w.Cuts)
	}
}

// Up to 90° the way only widens as the leaf opens; the closed form of the
// reference, with pin offsets, gives every width.
func TestClearWidthFollowsItsFormula(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string, low, high float64) q.Length {
			return q.Length(rapid.Float64Range(low, high).Draw(t, name))
		}
		l := Leaf{length("e", 0, 0.03), length("g", 0, 0.03), length("w", 0.5, 1.3), length("t", 0.02, 0.06)}
		f := Frame{Width: l.Width + 0.006, HingeGap: 0.003, LatchStop: length("stop", 0, 0.02)}
		theta := rapid.Float64Range(1, 90).Draw(t, "degrees") * deg
		w := ClearWidth(l, f, q.Angle(theta))
		sin, cos := math.Sincos(theta)
		want := float64(l.Edge-f.HingeGap+f.Width-f.LatchStop) - float64(l.Edge+l.Width)*cos - float64(l.Face+l.Thickness)*sin
		if math.Abs(float64(w.ToLeaf)-want) > 1e-12 {
			t.Errorf("%g m to the leaf, want %g", w.ToLeaf, want)
		}
		corner := math.Atan2(float64(l.Face+l.Thickness), float64(l.Radius()))
		if wider := ClearWidth(l, f, q.Angle(theta+0.01)); theta > corner && wider.Bare < w.Bare-1e-12 && theta+0.01 < math.Pi/2 {
			t.Errorf("narrower when opened farther: %g m, then %g", w.Bare, wider.Bare)
		}
	})
}
