package plan

import (
	"math"
	"testing"

	"swingwright/drilling"
	"swingwright/fact"
	"swingwright/judge"
	"swingwright/opening"
	q "swingwright/quantity"
)

// A trade example, worked by hand and printed to 0.1 lbf: a leaf of 36 in and 120 lb on
// hinges 64.5 in apart pulls at its top hinge with 33.5 lbf; a unit of 20 lb, 10 in from
// the hinge, adds 3.1 lbf.
func TestHangOfAnAddedUnit(t *testing.T) {
	in := func(x float64) q.Measured[q.Length] { return q.Exactly(q.Length(x) * q.Inch) }
	o := &opening.Opening{
		ID:       "1",
		Leaf:     opening.Leaf{Width: in(36), Height: in(84), Weight: q.Exactly(120 * q.Pound)},
		Frame:    opening.Frame{PinAlong: in(0), PinOff: in(0)},
		Hinges:   opening.Hinges{Span: in(64.5)},
		Drilling: opening.Drilling{Fixtures: []string{"unit"}},
	}
	sheets := &opening.Sheets{Fixtures: []opening.FixtureSheet{{Name: "unit", Weight: q.Exactly(20 * q.Pound), Holes: []opening.Hole{
		{Mark: "A", On: opening.LeafFace, Along: in(6), Across: in(2), Diameter: in(0.25)},
		{Mark: "B", On: opening.LeafFace, Along: in(14), Across: in(2), Diameter: in(0.25)},
	}}}}
	h := Make(o, sheets, nil, Options{Draws: 64}).Holes(sheets, judge.Policy{})
	if h.Hang == nil {
		t.Fatal("nothing is told of the hinges")
	}
	before, more := float64(h.Hang.Before/q.PoundForce), float64((h.Hang.After-h.Hang.Before)/q.PoundForce)
	if math.Abs(before-33.5) > 0.051 || math.Abs(more-3.1) > 0.051 {
		t.Errorf("%.3f lbf and %.3f lbf more, want 33.5 and 3.1", before, more)
	}
	o.Hinges.Span = q.Measured[q.Length]{}
	if h := Make(o, sheets, nil, Options{Draws: 64}).Holes(sheets, judge.Policy{}); h.Hang != nil {
		t.Error("hinges that nobody measured pull all the same")
	}
}

// Holes that are planned count as holes drilled on site, in a labelled opening only.
func TestPlannedHolesAreFacts(t *testing.T) {
	in := func(x float64) q.Measured[q.Length] { return q.Exactly(q.Length(x) * q.Inch) }
	made := func(fire opening.YesNo, drilled q.Measured[q.Length], shape opening.HoleShape) *Plan {
		o := &opening.Opening{ID: "1", Leaf: opening.Leaf{Width: in(36), Height: in(84)}, Drilling: opening.Drilling{Fixtures: []string{"plate"}}}
		o.Use.FireRated, o.Fire.HoleDiameter = fire, drilled
		sheets := &opening.Sheets{Fixtures: []opening.FixtureSheet{{Name: "plate", Holes: []opening.Hole{{Mark: "A", On: opening.LeafFace, Along: in(6), Across: in(6), Diameter: in(1.125), Shape: shape}}}}}
		return Make(o, sheets, nil, Options{Draws: 64})
	}
	for _, c := range []struct {
		fire    opening.YesNo
		drilled q.Measured[q.Length]
		known   bool
		want    float64 // in
		origin  Origin
	}{
		{"yes", q.Measured[q.Length]{}, true, 1.125, Computed},
		{"yes", in(0.5), true, 1.125, Computed},
		{"yes", in(1.5), true, 1.5, Read},
		{"no", q.Measured[q.Length]{}, false, 0, Nowhere},
		{"no", in(0.5), true, 0.5, Read},
	} {
		f := made(c.fire, c.drilled, "").Facts[fact.HoleDiameter]
		if f.Known != c.known || c.known && (math.Abs(f.Value/float64(q.Inch)-c.want) > 1e-9 || f.Origin != c.origin) {
			t.Errorf("fire rated %s, drilled %v: %+v", c.fire, c.drilled, f)
		}
	}
	if f := made("yes", in(0.5), "slot").Facts[fact.Modified]; !f.Known || f.Value != 1 {
		t.Errorf("a slot is no modification: %+v", f)
	}
	if f := made("yes", in(0.5), "round").Facts[fact.Modified]; f.Known {
		t.Errorf("a round hole is a modification: %+v", f)
	}
}

// The far end of the demonstration's arm bears, by the drive, what its torque over the
// arm's lever at the pinion is.
func TestStrainsOfTheDemo(t *testing.T) {
	j, books := clinic(t)
	for i := range j.Openings {
		o := &j.Openings[i]
		if o.ID != "102" {
			continue
		}
		p := Make(o, &j.Sheets, books, Options{Draws: 64})
		h := p.Holes(&j.Sheets, judge.Policy{})
		if len(h.Strains) != 2 {
			t.Fatalf("%d strains", len(h.Strains))
		}
		m, err := p.Model()
		if err != nil {
			t.Fatal(err)
		}
		s := h.Strains[0] // 50 N·m at 0.8 efficiency, by the sheet
		_, pinion, ok := drilling.Lever(m.DriveArm(), s.At)
		if !ok || math.Abs(float64(s.Force)-40/float64(pinion)) > 1e-6*float64(s.Force) || s.Fixings != 3 || math.Abs(float64(s.Each)*3-float64(s.Force)) > 1e-9 {
			t.Errorf("%+v, lever %v m", s, pinion)
		}
	}
}
