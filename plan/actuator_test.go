package plan

import (
	"testing"

	"swingwright/fact"
	"swingwright/opening"
	q "swingwright/quantity"
)

// What nobody measured of a switch comes from its sheet; what was measured outranks it.
func TestSwitchBySheet(t *testing.T) {
	sheets := &opening.Sheets{Actuators: []opening.ActuatorSheet{{Name: "A", Size: q.Exactly(4.5 * q.Inch), Force: q.Exactly(3 * q.PoundForce), Range: q.Exactly(4 * q.Inch)}}}
	o := &opening.Opening{Controls: []opening.Control{{Sheet: "A", Force: q.Exactly(2 * q.PoundForce)}}}
	want := map[fact.ID]float64{fact.ControlSize: float64(4.5 * q.Inch), fact.ControlForce: float64(2 * q.PoundForce), fact.ControlRange: float64(4 * q.Inch)}
	got := taped(o, sheets)
	for id, v := range want {
		found := false
		for _, one := range got {
			found = found || one.id == id && one.value == v
		}
		if !found {
			t.Errorf("%v is not %g among %+v", id, v, got)
		}
	}
	if o.Controls[0].Size.Known {
		t.Error("the survey itself was changed")
	}
}
