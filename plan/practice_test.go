package plan

import (
	"strings"
	"testing"

	q "swingwright/quantity"
	"swingwright/swing"
)

// From 70 to 110 degrees is usual, ends included, and a drive that gives all it
// has past 70 degrees asks for less backcheck (both common practice).
func TestUnpractised(t *testing.T) {
	for _, one := range []struct {
		degrees q.Angle
		strain  swing.Strain
		want    string
	}{
		{70, swing.Strain{}, ""},
		{110, swing.Strain{}, ""},
		{69, swing.Strain{}, "open angle"},
		{111, swing.Strain{}, "open angle"},
		{90, swing.Strain{Saturated: true}, "backcheck"},
		{90, swing.Strain{Lag: 0.6}, "backcheck"},
		{90, swing.Strain{Lag: 0.4}, ""},
		{120, swing.Strain{Lag: 0.6}, "open angle backcheck"},
	} {
		p := &Plan{Resolved: &Resolved{}}
		p.Resolved.Rows[swing.OpenAngle].Value = float64(one.degrees * q.Degree)
		p.Swing.Power.Fitted, p.Swing.Power.Usual.Strain = true, one.strain
		var got []string
		for _, c := range p.unpractised() {
			got = append(got, c.Matter)
		}
		if text := strings.Join(got, " "); text != one.want {
			t.Errorf("open to %v degrees, %+v: cautions on %q, want %q", float64(one.degrees), one.strain, text, one.want)
		}
	}
}
