package logic

import (
	"slices"
	"testing"

	"swingwright/opening"
	q "swingwright/quantity"
)

// TestFaults puts each mistake that no order of events is needed to see into a
// sound wiring (the mistakes are those of common practice).
func TestFaults(t *testing.T) {
	quiet := func(r *rig) { // a suppressor at the strike
		r.add("diode", opening.Snubber)
		r.join("strike.+", "diode.a")
		r.join("strike.-", "diode.b")
	}
	cable := func(r *rig, c opening.Cable) { r.Cables = append(r.Cables, c) }
	for _, c := range []struct {
		name   string
		change func(r *rig)
		want   []string
	}{
		{"none", func(r *rig) {}, nil},
		{"two supplies in parallel", func(r *rig) {
			r.add("second", opening.PowerSupply)
			r.join("second.+", "supply.+")
			r.join("second.-", "supply.-")
		}, []string{"supplies-in-parallel"}},
		{"shared return", func(r *rig) {
			r.add("second", opening.PowerSupply)
			r.add("lamp", opening.PlainRelay)
			r.join("second.+", "lamp.+")
			r.join("lamp.-", "second.-", "supply.-")
		}, []string{"shared-return"}},
		{"a supply shorted", func(r *rig) { r.join("supply.+", "supply.-") }, []string{"supply-shorted", "reversed", "reversed", "reversed", "reversed"}},
		{"no suppressor", func(r *rig) { r.remove("diode") }, []string{"no-suppressor"}},
		{"reversed", func(r *rig) {
			r.add("bell", opening.PlainRelay)
			r.join("bell.+", "supply.-")
			r.join("bell.-", "supply.+")
		}, []string{"reversed"}},
		{"line beside low voltage", func(r *rig) {
			r.add("breaker", opening.BranchCircuit, func(d *opening.Device) { d.Enclosure = "box" })
			r.join("breaker.L", "supply.L")
			r.set("motor", func(d *opening.Device) { d.Enclosure = "box" })
			r.Enclosures = []opening.Enclosure{{Name: "box"}}
		}, []string{"line-beside-low"}},
		{"with a barrier", func(r *rig) {
			r.add("breaker", opening.BranchCircuit, func(d *opening.Device) { d.Enclosure = "box" })
			r.join("breaker.L", "supply.L")
			r.set("motor", func(d *opening.Device) { d.Enclosure = "box" })
			r.Enclosures = []opening.Enclosure{{Name: "box", Barrier: "yes"}}
		}, nil},
		{"line in one conduit with low voltage", func(r *rig) {
			r.Conduits = []opening.Conduit{{Name: "K"}}
			r.Wires[0].Cable, r.Wires[1].Cable = "W1", "W2"
			cable(r, opening.Cable{Name: "W1", Conduit: "K", Class: opening.LineCircuit})
			cable(r, opening.Cable{Name: "W2", Conduit: "K", Class: opening.ClassTwoCircuit})
		}, []string{"line-beside-low"}},
		{"line in a cable of low voltage", func(r *rig) {
			r.add("breaker", opening.BranchCircuit)
			r.join("breaker.L", "supply.L")
			r.Wires[len(r.Wires)-1].Cable = "W1"
			cable(r, opening.Cable{Name: "W1", Class: opening.ClassTwoCircuit})
		}, []string{"line-in-low-cable"}},
		{"learned to the neighbour", func(r *rig) {
			r.add("radio", opening.Transmitter, func(d *opening.Device) { d.LearnedOf = "104" })
		}, []string{"learned-elsewhere"}},
		{"learned to nothing", func(r *rig) { r.add("radio", opening.Transmitter) }, []string{"not-learned"}},
		{"a receiver that nobody is learned to", func(r *rig) {
			r.add("receiver", opening.Receiver)
			r.join("supply.+", "receiver.+")
			r.join("supply.-", "receiver.-")
		}, []string{"nobody-learned"}},
		{"by others, and nobody", func(r *rig) {
			r.add("latch", opening.MotorExit, func(d *opening.Device) { d.By = "others" })
		}, []string{"not-connected"}},
		{"one pole of a lock", func(r *rig) {
			r.cut("access.LOCK NO", "strike.+")
			r.cut("drive.LOCK NO", "strike.+")
			r.cut("strike.+", "diode.a")
		},
			[]string{"half-connected", "half-connected", "half-connected"}},
		{"a plate with one wire", func(r *rig) { r.cut("plate in.NO", "drive.START") }, []string{"half-connected"}},
		{"inputs without their common", func(r *rig) {
			r.add("relay", opening.DelayRelay)
			r.join("supply.+", "relay.+")
			r.join("supply.-", "relay.-")
			r.join("relay.TRIG", "motor.NO")
		}, []string{"half-connected"}},
		{"too few conductors", func(r *rig) {
			for i := range 3 {
				r.Wires[i].Cable = "W1"
			}
			cable(r, opening.Cable{Name: "W1", Conductors: 2})
		}, []string{"too-few-conductors"}},
		{"a cable for nothing", func(r *rig) { cable(r, opening.Cable{Name: "W1"}) }, []string{"idle-cable"}},
		{"a ring", func(r *rig) { r.join("reader.+", "supply.+") }, []string{"ring"}},
	} {
		r := office()
		quiet(r)
		c.change(r)
		var got []string
		for _, f := range Faults(&r.Wiring) {
			got = append(got, f.Key)
		}
		if slices.Sort(got); !slices.Equal(got, sorted(c.want)) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

func sorted(s []string) []string {
	s = slices.Clone(s)
	slices.Sort(s)
	return s
}

// TestDelays holds what a lock needs against the sum by hand: of 0.20, 0.30 and
// 0.40 s the mean is 0.30, the standard deviation 0.10, so 0.50 with twice that,
// above the worst; and 0.2 s over it.
func TestDelays(t *testing.T) {
	r := office()
	r.set("strike", func(d *opening.Device) {
		d.Tries = []q.Measured[q.Time]{seconds(0.2), seconds(0.3), seconds(0.4)}
	})
	ds, err := Delays(&r.Wiring, fireDoor)
	if err != nil || len(ds) != 1 {
		t.Fatal(ds, err)
	}
	d := ds[0]
	near := func(a, b q.Time) bool { return a-b < 1e-9 && b-a < 1e-9 }
	if !near(d.Release, 0.5) || !near(d.Needed, 0.7) || !d.Measured || !d.Known || !near(d.Set, 0.8) {
		t.Errorf("%+v", d)
	}
	// one try counts with twice its spread, none with what is usual
	r.set("strike", func(d *opening.Device) {
		d.Tries, d.Release = nil, q.Give(q.Time(0.3), q.Time(0.05))
	})
	if ds, _ = Delays(&r.Wiring, fireDoor); !near(ds[0].Release, 0.4) || ds[0].Measured {
		t.Errorf("%+v", ds[0])
	}
}
