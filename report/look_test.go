package report

import (
	"bytes"
	"encoding/json"
	"math"
	"testing"

	"swingwright/quantity"
)

// The look from 90 degrees is the plan's own closing: same times at the marks
// that both have, and the same ending.
func TestLookAgreesWithThePlan(t *testing.T) {
	_, plans := demo(t)
	for _, p := range plans[:4] {
		l := NewLook(p, 90*quantity.Degree)
		if l.Problem != nil || !l.Reached {
			t.Fatalf("%s: %v", p.Opening.ID, l.Problem)
		}
		if l.Motion.End != p.Swing.From90.End {
			t.Errorf("%s: ends %v, in the plan %v", p.Opening.ID, l.Motion.End, p.Swing.From90.End)
		}
		times := make(map[quantity.Angle]quantity.Time)
		for _, m := range l.Marks {
			times[m.Angle] = m.Time
		}
		for _, m := range p.Swing.Marks {
			// the plan's model is the same to the last bit, or nearly
			if got := times[m.Angle]; !(math.Abs(float64(got-m.Time)) < 1e-6) {
				t.Errorf("%s: at %s after %v s, in the plan %v s", p.Opening.ID, degrees(m.Angle), got, m.Time)
			}
		}
	}
}

// A force at a radius is the moment over the radius: the product is the same for all radii.
func TestLookForcesShareTheirMoment(t *testing.T) {
	_, plans := demo(t)
	var out bytes.Buffer
	if err := NewLook(plans[0], 90*quantity.Degree, quantity.Metre/2).JSON(&out); err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Hand []struct {
			Moment float64                       `json:"hand_moment"`
			Forces []struct{ At, Force float64 } `json:"hand_forces"`
		}
	}
	if err := json.Unmarshal(out.Bytes(), &doc); err != nil {
		t.Fatal(err)
	}
	for _, h := range doc.Hand {
		if len(h.Forces) != 3 {
			t.Fatalf("%d forces, want 3", len(h.Forces))
		}
		for _, f := range h.Forces {
			if math.Abs(f.At*f.Force-h.Moment) > 1e-12*math.Abs(h.Moment) {
				t.Errorf("%v N at %v m is not the moment %v N·m", f.Force, f.At, h.Moment)
			}
		}
	}
}
