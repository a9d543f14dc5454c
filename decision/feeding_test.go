package decision

import (
	"math"
	"testing"

	"swingwright/judge"
	"swingwright/opening"
	"swingwright/plan"
	q "swingwright/quantity"
)

// porch is a group that shares a wiring: the drive of the first member hangs on a wire
// of its own, as long as asked.
func porch(id string, feet float64) opening.Group {
	amps := func(a float64) q.Measured[q.Current] { return q.Give(q.Current(a), 0) }
	drive := func(name, of string) opening.Device {
		return opening.Device{Name: name, Kind: opening.Drive, Opening: of, Idle: amps(0.1), Working: amps(1), Peak: amps(2), Holding: amps(0.3)}
	}
	cable := func(name, to string, feet float64) opening.Cable {
		return opening.Cable{Name: name, From: "supply", To: to, Gauge: 18, Conductors: 2, Length: q.Give(q.Length(feet)*q.Foot, 0), Class: opening.ClassTwoCircuit}
	}
	return opening.Group{ID: "porch", Kind: opening.Vestibule, Of: []string{id, "other"}, Wiring: opening.Wiring{
		Devices: []opening.Device{{Name: "supply", Kind: opening.PowerSupply, Volts: q.Give[q.Voltage](24, 0.1), Working: amps(4), Peak: amps(8)}, drive("first", id), drive("second", "other")},
		Cables:  []opening.Cable{cable("W1", "first", feet), cable("W2", "second", 10)},
	}}
}

// The wiring of a group counts for its members: for the one whose drive is short of
// volts, and not for the one whose drive has enough.
func TestGroupFeedsItsMembers(t *testing.T) {
	const test = "Every device has the voltage"
	for _, c := range []struct {
		name string
		as   int // which member the opening is
		feet float64
		want judge.Verdict
	}{{"near", 0, 20, judge.Meets}, {"far", 0, 200, judge.FallsShort}, {"the other is far", 1, 200, judge.Meets}} {
		j := sound(t)
		o := &j.Openings[0]
		g := porch(o.ID, c.feet)
		if c.as == 1 {
			g.Of[0], g.Of[1] = "other", o.ID
			g.Wiring.Devices[1].Opening, g.Wiring.Devices[2].Opening = "other", o.ID
		}
		p := plan.Make(o, &j.Sheets, nil, plan.Options{Draws: draws, Groups: []opening.Group{g}})
		r := rung(Make(p, &j.Sheets, Options{}), test)
		if r == nil || r.Verdict != c.want {
			t.Errorf("%s: %+v, want %v", c.name, r, c.want)
			continue
		}
		if c.want == judge.FallsShort && (len(r.Cures) == 0 || !r.Cures[0].Works) {
			t.Errorf("%s: no cure works: %+v", c.name, r.Cures)
		}
	}
	j := sound(t)
	p := plan.Make(&j.Openings[0], &j.Sheets, nil, plan.Options{Draws: draws})
	if r := rung(Make(p, &j.Sheets, Options{}), test); r != nil {
		t.Errorf("asked of an opening without wiring: %+v", r)
	}
}

// A cord that is too short is told with its number and what would do; one that reaches
// passes, and one whose length nobody wrote down is not asked for.
func TestCordIsOnTheLadder(t *testing.T) {
	const test = "The cord across the hinges reaches"
	for inches, want := range map[float64]judge.Verdict{3: judge.FallsShort, 14: judge.Meets, 0: judge.DoesNotApply} {
		j := sound(t)
		o := &j.Openings[0]
		at := func(along, off float64) opening.Spot {
			return opening.Spot{Along: q.Exactly(q.Length(along) * q.Inch), Off: q.Exactly(q.Length(off) * q.Inch)}
		}
		o.DoorLoop = opening.DoorLoop{Frame: at(-1.5, -3), Leaf: at(3, -2.5)}
		if inches > 0 {
			o.DoorLoop.Length = q.Exactly(q.Length(inches) * q.Inch)
		}
		r := rung(decide(t, j, Options{}), test)
		switch {
		case want == judge.DoesNotApply:
			if r != nil {
				t.Errorf("asked though nobody knows its length: %+v", r)
			}
		case r == nil || r.Verdict != want:
			t.Errorf("%v in: %+v, want %v", inches, r, want)
		case want == judge.FallsShort:
			// closed, the anchors are √(4.5² + 0.5²) in apart, and farther open
			if r.Number == nil || !(r.Number.Limit > math.Hypot(4.5, 0.5)*0.0254) || len(r.Cures) != 1 || !(r.Cures[0].Number.Value > r.Number.Limit) {
				t.Errorf("%v in: %+v", inches, r)
			}
		}
	}
}
