package logic

import (
	"slices"
	"strings"
	"testing"

	"swingwright/opening"
)

// TestMistakes holds that each mistake that the trade commonly makes in wiring is
// found, with what one sees of it (common practice; the ones that are a matter of volts
// are package power's, those of the door loop's length package clearance's).
func TestMistakes(t *testing.T) {
	free := func(r *rig) { // without what else would tell of it
		r.cut("drive.SHUNT NO", "access.REX")
		r.remove("contact")
	}
	for _, c := range []struct {
		mistake string
		change  func(r *rig)
		rule    Rule   // that is broken, or
		fault   string // what is seen without following anything
		sees    string
	}{
		{"outside plate wired straight to the drive", func(r *rig) { r.join("plate out.C", "drive.COM") }, OutsideDead, "", "strike damage, a fault beep, a forced-door alarm"},
		{"unlock pulse shorter than the release", func(r *rig) {
			r.set("drive", func(d *opening.Device) { d.Relays[0].Pulse = seconds(0.3) })
			free(r)
		}, ReleasedFirst, "", "It works once in three"},
		{"no delay", func(r *rig) { r.set("drive", delay(0)) }, ReleasedFirst, "", "The leaf hits its latch, rattles and reverses"},
		{"alarm contact swapped", func(r *rig) { r.move("alarm.NC1", "alarm.NO1") }, InsideWorks, "", "The button never works"},
		{"link left in at the alarm", func(r *rig) { r.join("drive.ALARM", "drive.COM") }, NoDriveInAlarm, "", "The drive is never switched off in alarm"},
		{"alarm off the sounder circuit", func(r *rig) { r.set("alarm", func(d *opening.Device) { d.Kind = opening.AlarmSounder }) }, NoDriveInAlarm, "", "As soon as the sounders are silenced"},
		{"no suppressor at the lock", func(r *rig) {}, 0, "no-suppressor", "The controller restarts now and then"},
		{"return shared with the access panel", func(r *rig) {
			r.add("panel supply", opening.PowerSupply)
			r.add("panel", opening.PlainRelay)
			r.join("panel supply.+", "panel.+")
			r.join("panel.-", "panel supply.-", "supply.-")
		}, 0, "shared-return", "Ghost opens"},
		{"line and low voltage in one box", func(r *rig) {
			r.add("breaker", opening.BranchCircuit, func(d *opening.Device) { d.Enclosure = "box" })
			r.join("breaker.L", "supply.L")
			r.set("motor", func(d *opening.Device) { d.Enclosure = "box" })
			r.Enclosures = []opening.Enclosure{{Name: "box"}}
		}, 0, "line-beside-low", "The inspector fails it"},
		{"exit not told", func(r *rig) { r.cut("drive.SHUNT NO", "access.REX") }, NoFalseAlarm, "", "A forced-door alarm each time"},
		{"radio learned to the neighbour", func(r *rig) {
			r.add("radio", opening.Transmitter, func(d *opening.Device) { d.LearnedOf = "104" })
		}, 0, "learned-elsewhere", "Pressing it opens the wrong door"},
		{"hold-open relay past the alarm", func(r *rig) {
			r.add("hold relay", opening.AlarmModule)
			r.join("hold relay.C", "drive.COM")
			r.join("hold relay.NC", "drive.HOLD")
			r.cut("drive.ALARM", "alarm.C1")
		}, NoDriveInAlarm, "", "In alarm the fire door is held open by its drive"},
		{"two supplies in parallel", func(r *rig) {
			r.add("second", opening.PowerSupply)
			r.join("second.+", "supply.+")
			r.join("second.-", "supply.-")
		}, 0, "supplies-in-parallel", "One of them heats up and odd things happen"},
		{"integration by others, and nobody", func(r *rig) {
			r.add("latch", opening.MotorExit, func(d *opening.Device) { d.By = "others" })
		}, 0, "not-connected", "opens onto a locked door"},
		{"latch not confirmed", func(r *rig) {
			r.set("strike", func(d *opening.Device) { d.Kind = opening.MotorExit })
		}, RetractedFirst, "", "The latch hangs, and the drive pushes the leaf against it"},
	} {
		t.Run(c.mistake, func(t *testing.T) {
			r := altered(office(), c.change)
			if c.fault != "" {
				all := Faults(&r.Wiring)
				i := slices.IndexFunc(all, func(f Fault) bool { return f.Key == c.fault })
				if i < 0 || !strings.Contains(all[i].Symptom, c.sees) {
					t.Fatalf("%+v", all)
				}
			}
			if c.fault != "" {
				return
			}
			p, err := Prove(&r.Wiring, fireDoor, Effort{Tick: 0.25})
			if err != nil {
				t.Fatal(err)
			}
			if v := p.Verdicts[c.rule]; !v.Broken || !strings.Contains(v.Symptom, c.sees) {
				t.Errorf("broken: %v; what one sees: %q", v.Broken, v.Symptom)
			}
		})
	}
}
