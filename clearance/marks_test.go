package clearance

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
	q "swingwright/quantity"
)

// Chords in inches by the printed table of the trade: half a unit of the last digit.
func TestChordTable(t *testing.T) {
	angles := []q.Angle{5, 10, 12, 45, 60, 70, 80, 90}
	for i := range angles {
		angles[i] *= q.Degree
	}
	for leaf, row := range map[float64][]float64{
		30: {2.62, 5.23, 6.27, 22.96, 30.00, 34.41, 38.57, 42.43},
		34: {2.97, 5.93, 7.11, 26.02, 34.00, 39.00, 43.71, 48.08},
		36: {3.14, 6.28, 7.53, 27.55, 36.00, 41.30, 46.28, 50.91},
		42: {3.66, 7.32, 8.78, 32.15, 42.00, 48.18, 53.99, 59.40},
		48: {4.19, 8.37, 10.03, 36.74, 48.00, 55.06, 61.71, 67.88},
	} {
		marks, err := Marks(q.Exactly(q.Length(leaf)*q.Inch), 0, angles...)
		if err != nil {
			t.Fatal(err)
		}
		for i, m := range marks {
			if got := float64(m.Chord / q.Inch); math.Abs(got-row[i]) > 0.00501 {
				t.Errorf("%g in leaf at %g°: chord %.4f in, the table has %.2f", leaf, float64(m.Angle/q.Degree), got, row[i])
			}
		}
	}
}

// Worked by hand in the references of the trade, in inches and millimetres.
func TestMarksWorkedByHand(t *testing.T) {
	for _, c := range []struct {
		radius, unit  q.Length
		angle         q.Angle
		chord, across float64 // 0 where not given
		within        float64
	}{
		{36, q.Inch, 12, 7.53, 7.48, 0.00501},
		{36, q.Inch, 10, 0, 6.25, 0.00501},
		{36, q.Inch, 70, 0, 33.8, 0.0501},
		{36, q.Inch, 80, 0, 35.5, 0.0501},
		{900, q.Millimetre, 10, 157, 0, 0.501},
		{900, q.Millimetre, 12, 188, 0, 0.501},
		{900, q.Millimetre, 80, 1157, 0, 0.501},
	} {
		marks, err := Marks(q.Exactly(c.radius*c.unit), 0, c.angle*q.Degree)
		if err != nil {
			t.Fatal(err)
		}
		m := marks[0]
		if got := float64(m.Chord / c.unit); c.chord > 0 && math.Abs(got-c.chord) > c.within {
			t.Errorf("radius %g at %g°: chord %g, want %g", float64(c.radius), float64(c.angle), got, c.chord)
		}
		if got := float64(m.Across / c.unit); c.across > 0 && math.Abs(got-c.across) > c.within {
			t.Errorf("radius %g at %g°: across %g, want %g", float64(c.radius), float64(c.angle), got, c.across)
		}
		if arc := float64(c.radius*c.unit) * float64(c.angle) * math.Pi / 180; math.Abs(float64(m.Arc)-arc) > 1e-15 {
			t.Errorf("arc %g m, want %g", m.Arc, arc)
		}
	}
}

// Across readings at 30 in from the pin, as a standard for closers takes them,
// worked by hand to the digits printed.
func TestAngleFromAcrossWorkedByHand(t *testing.T) {
	for across, want := range map[float64]float64{0.5: 0.95, 2: 3.82, 3: 5.74, 4: 7.66, 12: 23.6} {
		got, err := AngleFromAcross(q.Exactly(q.Length(across)*q.Inch), q.Exactly(30*q.Inch))
		within := 0.00501
		if want > 10 {
			within = 0.0501
		}
		if err != nil || math.Abs(float64(got.Value/q.Degree)-want) > within {
			t.Errorf("%g in at 30 in: %.4f°, want %g (%v)", across, float64(got.Value/q.Degree), want, err)
		}
	}
}

// A marking error of 1/2 in at 36 in is about 0.8°, one of 10 mm at 0.9 m 0.64°.
func TestMarkSpreadWorkedByHand(t *testing.T) {
	for _, c := range []struct {
		radius, tape q.Length
		want, within float64
	}{
		{36 * q.Inch, q.Inch / 2, 0.8, 0.0501},
		{0.9, 0.010, 0.64, 0.00501},
	} {
		marks, err := Marks(q.Exactly(c.radius), c.tape, 10*q.Degree)
		if err != nil || math.Abs(float64(marks[0].U/q.Degree)-c.want) > c.within {
			t.Errorf("tape %g m at %g m: %v, want %g° (%v)", c.tape, c.radius, marks, c.want, err)
		}
	}
}

func TestAngleComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		radius := q.Give(q.Length(rapid.Float64Range(0.3, 1.5).Draw(t, "radius")), q.Length(rapid.Float64Range(0, 0.01).Draw(t, "its spread")))
		tape := q.Length(rapid.Float64Range(0, 0.01).Draw(t, "tape"))
		angle := q.Angle(rapid.Float64Range(0.1, 170).Draw(t, "degrees")) * q.Degree
		marks, err := Marks(radius, tape, angle)
		if err != nil {
			t.Fatal(err)
		}
		back, err := AngleFromChord(q.Give(marks[0].Chord, tape), radius)
		if err != nil || math.Abs(float64(back.Value-angle)) > 1e-13 || math.Abs(float64(back.U-marks[0].U)) > 1e-12 {
			t.Errorf("%g rad ± %g comes back as %g ± %g (%v)", angle, marks[0].U, back.Value, back.U, err)
		}
		// The spread by differences: what one spread of each input makes of the angle.
		const h = 1e-6
		by := func(chord, r q.Length) float64 {
			a, err := AngleFromChord(q.Exactly(chord), q.Exactly(r))
			if err != nil {
				t.Fatal(err)
			}
			return float64(a.Value)
		}
		c, r := marks[0].Chord, radius.Value
		alongChord := (by(c+h/2, r) - by(c-h/2, r)) / h * float64(tape)
		alongRadius := (by(c, r+h/2) - by(c, r-h/2)) / h * float64(radius.U)
		if u := math.Hypot(alongChord, alongRadius); math.Abs(u-float64(back.U)) > 1e-6*u+1e-9 {
			t.Errorf("spread %g rad, by differences %g", back.U, u)
		}
		if angle < 85*q.Degree {
			over, err := AngleFromAcross(q.Give(marks[0].Across, tape), radius)
			if err != nil || math.Abs(float64(over.Value-angle)) > 1e-13 {
				t.Errorf("%g rad comes back from across as %g (%v)", angle, over.Value, err)
			}
			tan := math.Tan(float64(angle))
			u := math.Hypot(float64(tape/r)/math.Cos(float64(angle)), tan*float64(radius.U/r))
			if math.Abs(u-float64(over.U)) > 1e-9*(1+u) {
				t.Errorf("spread from across %g rad, want %g", over.U, u)
			}
		}
	})
}

func TestMarksTellAllThatIsWrong(t *testing.T) {
	_, err := Marks(q.Measured[q.Length]{}, -1, 0, 10*q.Degree, 180*q.Degree)
	for _, want := range []string{"radius is not known", "tape's uncertainty is -1 m", "mark 1 is at 0°", "mark 3 is at 180°"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("the error lacks %q: %v", want, err)
		}
	}
	for _, c := range []struct {
		chord, radius q.Measured[q.Length]
		want          string
	}{
		{q.Exactly(2 * q.Metre), q.Exactly(0.9 * q.Metre), "cannot be reached"},
		{q.Measured[q.Length]{}, q.Exactly(0.9 * q.Metre), "not known"},
		{q.Exactly(-q.Metre), q.Exactly(-q.Metre), "zero or more"},
		{q.Exactly(q.Metre), q.Exactly(q.Length(math.NaN())), "above zero"},
	} {
		if _, err := AngleFromChord(c.chord, c.radius); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("chord %v at %v: %v, want %q", c.chord, c.radius, err, c.want)
		}
		if _, err := AngleFromAcross(c.chord, c.radius); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("across %v at %v: %v, want %q", c.chord, c.radius, err, c.want)
		}
	}
}
