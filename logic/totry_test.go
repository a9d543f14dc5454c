package logic

import (
	"slices"
	"strings"
	"testing"

	"swingwright/opening"
	q "swingwright/quantity"
)

// What nobody knows has to be tried, and what is known need not: the load on a
// strike, the order in which things give up.
func TestToTry(t *testing.T) {
	says := func(r *rig, doors []Door, word string) bool {
		p, err := Prove(&r.Wiring, doors, Effort{Tick: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		return slices.ContainsFunc(p.ToTry(), func(s string) bool { return strings.Contains(s, word) })
	}
	gauged := altered(backed(12, 18), func(r *rig) { r.set("strike", strong(60*q.Newton)) })
	unsaid := altered(backed(12, 18), func(r *rig) { r.set("strike", func(d *opening.Device) { d.Least = q.Measured[q.Voltage]{} }) })
	for _, c := range []struct {
		name  string
		rig   *rig
		doors []Door
		word  string
		want  bool
	}{
		{"load not gauged", backed(12, 18), anyDoor, "Lean on the leaf", true},
		{"load gauged", gauged, windy, "Lean on the leaf", false},
		{"retraction", ward(), fireDoor, "Hold the latch of exit device", true},
		{"order known", backed(12, 18), anyDoor, "run down while", false},
		{"order told", backed(12, 18), anyDoor, "drive below 18.2 V, then strike below 12.2 V", true},
		{"order not known", unsaid, anyDoor, "run down while", true},
		{"too near", backed(18.3, 18), anyDoor, "too near", true},
		{"no battery", office(), fireDoor, "battery", false},
		{"transmitters", plain(), anyDoor, "it does: plate in, plate out.", true},
	} {
		if got := says(c.rig, c.doors, c.word); got != c.want {
			t.Errorf("%s: says %q: %v, want %v", c.name, c.word, got, c.want)
		}
	}
}

// Where nobody knows which gives up first, the rule is not broken and not proved: it
// is told which order would break it.
func TestBatteryOfUnknownOrder(t *testing.T) {
	r := altered(backed(12, 18), func(r *rig) { r.set("strike", func(d *opening.Device) { d.Least = q.Measured[q.Voltage]{} }) })
	p, err := Prove(&r.Wiring, anyDoor, Effort{})
	if err != nil {
		t.Fatal(err)
	}
	v := p.Verdicts[LowBattery]
	if !v.Applies || v.Broken || !v.Undone || v.Story == nil || !strings.Contains(v.Why, "volts_min") {
		t.Errorf("%+v", v)
	}
	if p, err = Prove(&plain().Wiring, anyDoor, Effort{}); err != nil || p.Verdicts[LowBattery].Applies {
		t.Errorf("without a battery: %+v, %v", p.Verdicts[LowBattery], err)
	}
}
