package picture

import (
	"math"
	"testing"

	"swingwright/fact"
	"swingwright/plan"
	"swingwright/quantity"
)

// The curve is that of the plan: it ends where and when the plan's closing ends,
// passes the marks when the plan says, and peaks at the plan's largest energy (to
// within what sampling between steps may miss, 0.1 %).
func TestCurveIsThePlansClosing(t *testing.T) {
	j, books := demo(t)
	for i := range j.Openings[:4] {
		p := plan.Make(&j.Openings[i], &j.Sheets, books[:1], quick)
		m, err := p.Model()
		if err != nil {
			t.Fatal(err)
		}
		got := follow(&m, 6)
		if want := p.Swing.From90; got.end != want {
			t.Errorf("opening %s ends as %+v, want %+v", p.Opening.ID, got.end, want)
		}
		peak := 0.
		for k, e := range got.energy {
			peak = max(peak, float64(e))
			if k > 0 && got.at[k] < got.at[k-1] {
				t.Errorf("opening %s: time runs backward at %v", p.Opening.ID, got.at[k])
			}
		}
		if want := p.Facts[fact.ClosePeakEnergy].Value; math.Abs(peak/want-1) > 1e-3 {
			t.Errorf("opening %s peaks at %v J, want %v J", p.Opening.ID, peak, want)
		}
		for _, mark := range p.Swing.Marks {
			if a := got.angleAt(mark.Time); mark.Angle > 0 && math.Abs(float64(a-mark.Angle)) > 2e-3 {
				t.Errorf("opening %s is at %v when it passes %v", p.Opening.ID, a/quantity.Degree, mark.Angle/quantity.Degree)
			}
		}
	}
}

// angleAt is the angle at a time, straight between samples.
func (t *track) angleAt(at quantity.Time) quantity.Angle {
	for i := 1; i < len(t.at); i++ {
		if at <= t.at[i] {
			u := quantity.Angle((at - t.at[i-1]) / (t.at[i] - t.at[i-1]))
			return t.angle[i-1] + u*(t.angle[i]-t.angle[i-1])
		}
	}
	return t.angle[len(t.angle)-1]
}
