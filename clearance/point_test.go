package clearance

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	q "swingwright/quantity"
)

func TestTurned(t *testing.T) {
	p := Point{1, 0}.Turned(90 * q.Degree)
	if p.To(Point{0, 1}) > 1e-15 {
		t.Errorf("a quarter turn of (1, 0) m gives %v, want (0, 1)", p)
	}
}

func TestBands(t *testing.T) {
	for _, c := range []struct {
		a, b  Band
		meets bool
	}{
		{Band{}, Band{}, true},
		{Band{}, Band{1, 2}, true},
		{Band{0, 0.1}, Band{1.9, 2}, false}, // a low stop and a high closer
		{Band{0, 1}, Band{0.9, 2}, true},
		{Band{0, 1}, Band{1, 2}, false}, // one on top of the other
	} {
		if c.a.Meets(c.b) != c.meets || c.b.Meets(c.a) != c.meets {
			t.Errorf("%v and %v: meets is %v, want %v", c.a, c.b, !c.meets, c.meets)
		}
	}
}

// Turning keeps distances, whatever is turned.
func TestTurningKeepsDistances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, o := drawPoint(t, "p"), drawPoint(t, "o")
		theta := q.Angle(rapid.Float64Range(-7, 7).Draw(t, "theta"))
		before, after := p.To(o), p.Turned(theta).To(o.Turned(theta))
		if math.Abs(float64(before-after)) > 1e-14 {
			t.Errorf("%g m apart, %g m when both are turned", before, after)
		}
	})
}

func drawPoint(t *rapid.T, name string) Point {
	at := rapid.Float64Range(-2, 2)
	return Point{q.Length(at.Draw(t, name+" x")), q.Length(at.Draw(t, name+" y"))}
}
