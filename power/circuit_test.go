package power

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"swingwright/opening"
	q "swingwright/quantity"
)

func amps(a float64) q.Measured[q.Current] { return q.Give(q.Current(a), 0) }

// wired is an opening as the trade wires it: a supply feeds drive, access controller and,
// through a contact of the controller, the strike.
func wired() opening.Wiring {
	cable := func(name, from, to string, gauge int, feet float64) opening.Cable {
		return opening.Cable{Name: name, From: from, To: to, Gauge: gauge, Conductors: 2, Length: q.Give(q.Length(feet)*q.Foot, 0), Class: opening.ClassTwoCircuit}
	}
	return opening.Wiring{
		Devices: []opening.Device{
			{Name: "supply", Kind: opening.PowerSupply, Volts: q.Give[q.Voltage](24, 0.2), Working: amps(4), Peak: amps(6)},
			{Name: "drive", Kind: opening.Drive, Working: amps(2), Peak: amps(5), Idle: amps(0.1), Holding: amps(0.6), OnDelay: q.Exactly[q.Time](0.5)},
			{Name: "access", Kind: opening.AccessRelay, Idle: amps(0.1), Working: amps(0.1)},
			{Name: "strike", Kind: opening.ElectricStrike, Fails: "fail-secure", Working: amps(0.3), Peak: amps(0.75), PeakTime: q.Exactly[q.Time](0.2)},
			{Name: "plate", Kind: opening.PushPlate},
			{Name: "alarm", Kind: opening.AlarmModule},
		},
		Cables: []opening.Cable{
			cable("W1", "supply", "drive", 16, 30), cable("W2", "supply", "access", 18, 20), cable("W3", "access", "strike", 18, 40),
			cable("W4", "plate", "drive", 22, 10), cable("W5", "alarm", "drive", 22, 50),
		},
		Wires: []opening.Wire{
			{From: "supply.+", To: "drive.+", Cable: "W1"}, {From: "supply.-", To: "drive.-", Cable: "W1"},
			{From: "supply.+", To: "access.+", Cable: "W2"}, {From: "supply.-", To: "access.-", Cable: "W2"},
			{From: "access.+", To: "access.C"},
			{From: "access.NO", To: "strike.+", Cable: "W3"}, {From: "access.-", To: "strike.-", Cable: "W3"},
			{From: "plate.C", To: "drive.COM", Cable: "W4"}, {From: "plate.NO", To: "drive.START", Cable: "W4"},
			{From: "alarm.C", To: "drive.COM", Cable: "W5"}, {From: "alarm.NC", To: "drive.ALARM", Cable: "W5"},
		},
	}
}

// The tree follows the plus side: the strike lies behind the controller's contact, and
// what switches inputs is fed by nobody and feeds nobody.
func TestCircuitFollowsThePlusSide(t *testing.T) {
	w := wired()
	all, faults := Circuits(&w, nil, Options{})
	if len(all) != 1 || len(faults) != 0 {
		t.Fatalf("%d circuits, %v", len(all), faults)
	}
	c := &all[0]
	if err := c.Tree.Check(); err != nil {
		t.Fatal(err)
	}
	got := ""
	for i := range c.Tree.Runs {
		got += fmt.Sprintf("%s<%d ", c.Tree.Runs[i].Name, c.Tree.Runs[i].Parent)
	}
	for i := range c.Tree.Loads {
		got += fmt.Sprintf("%s@%d ", c.Tree.Loads[i].Name, c.Tree.Loads[i].Node)
	}
	runs := map[string]string{} // each load's way
	for i := range c.Tree.Loads {
		for k := c.Tree.Loads[i].Node; k > 0; k = c.Tree.Runs[k-1].Parent {
			runs[c.Tree.Loads[i].Name] = c.Tree.Runs[k-1].Name + " " + runs[c.Tree.Loads[i].Name]
		}
	}
	for name, way := range map[string]string{"drive": "W1 ", "access": "W2 ", "strike": "W2 W3 "} {
		if runs[name] != way {
			t.Errorf("%s is fed by %q, want %q (%s)", name, runs[name], way, got)
		}
	}
	if len(c.Tree.Loads) != 3 || len(c.Tree.Runs) != 3 {
		t.Errorf("%s", got)
	}
	// by hand: at its inrush the strike is a coil of 32 Ω behind 20 ft that the controller's 0.1 A share, and 40 ft
	course := c.Tree.Follow()
	strike := course.Loads[slices.IndexFunc(c.Tree.Loads, func(l Load) bool { return l.Name == "strike" })]
	r2, r3, coil := 2*20*7.95/1000, 2*40*7.95/1000, 24/0.75
	v2 := (24 - r2*0.1) / (1 + r2/(r3+coil))
	near(t, "strike", float64(strike.Volts), v2*coil/(r3+coil), 1e-9)
	if s := c.Tree.Sequences[0]; s.Lasts[Releasing] != 0.2 || math.Abs(float64(s.Lasts[Waiting]-0.3)) > 1e-12 || s.Lasts[Colliding] != 0 {
		t.Errorf("sequence %+v", s)
	}
}

// Without a delay the drive starts while the lock lets go, and both take their largest
// current at once.
func TestNoDelayCollides(t *testing.T) {
	w := wired()
	w.Devices[1].OnDelay = q.Exactly[q.Time](0)
	all, _ := Circuits(&w, nil, Options{})
	c := &all[0]
	together := c.Tree.Follow()
	w = wired()
	all, _ = Circuits(&w, nil, Options{})
	apart := all[0].Tree.Follow()
	if c.Tree.Sequences[0].Lasts[Colliding] != 0.2 || together.Moments[together.PeakAt].Phase[0] != Colliding || !(together.Peak > apart.Peak+0.3) {
		t.Errorf("peak %v A without delay, %v A with", together.Peak, apart.Peak)
	}
}

// Every mistake is told with its place, all at once.
func TestFaults(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*opening.Wiring)
		where  string
		what   string
		hazard bool
	}{
		"ring": {func(w *opening.Wiring) {
			w.Cables = append(w.Cables, opening.Cable{Name: "W9", From: "drive", To: "access", Gauge: 18, Length: q.Give[q.Length](3, 0)})
			w.Wires = append(w.Wires, opening.Wire{From: "drive.+", To: "access.+", Cable: "W9"})
		}, "cable W9", "ring", false},
		"fed by nobody": {func(w *opening.Wiring) { w.Wires = w.Wires[1:] }, "drive", "no supply feeds it", false},
		"two supplies": {func(w *opening.Wiring) {
			w.Devices = append(w.Devices, opening.Device{Name: "supply 2", Kind: opening.PowerSupply})
			w.Wires = append(w.Wires, opening.Wire{From: "supply 2.+", To: "access.+", Cable: ""})
		}, "supply 2", "side by side", true},
		"no length":  {func(w *opening.Wiring) { w.Cables[0].Length.Known = false }, "cable W1", "length is not given", false},
		"no gauge":   {func(w *opening.Wiring) { w.Cables[1].Gauge = 0 }, "cable W2", "gauge is not given", false},
		"odd gauge":  {func(w *opening.Wiring) { w.Cables[1].Gauge = 19 }, "cable W2", "19 AWG", false},
		"one pipe":   {pipe, "conduit K1", "line voltage (W8) and low voltage (W1)", true},
		"one box":    {box("no"), "enclosure box", "without a barrier", true},
		"maybe":      {box(""), "enclosure box", "nobody wrote down a barrier", false},
		"all apart":  {box("yes"), "", "", false},
		"no signals": {func(w *opening.Wiring) { w.Cables[3].Length.Known = false }, "", "", false},
	} {
		t.Run(name, func(t *testing.T) {
			w := wired()
			c.change(&w)
			_, faults := Circuits(&w, nil, Options{})
			if c.where == "" {
				if len(faults) > 0 {
					t.Errorf("%+v", faults)
				}
				return
			}
			if !slices.ContainsFunc(faults, func(f Fault) bool {
				return f.Where == c.where && strings.Contains(f.What, c.what) && f.Hint != "" && f.Hazard == c.hazard
			}) {
				t.Errorf("%+v", faults)
			}
		})
	}
	w := wired()
	w.Cables[0].Length.Known, w.Cables[1].Gauge, w.Cables[2].Length.Known = false, 0, false
	pipe(&w)
	if _, faults := Circuits(&w, nil, Options{}); len(faults) != 4 {
		t.Errorf("of four faults: %+v", faults)
	}
}

func pipe(w *opening.Wiring) {
	w.Conduits = append(w.Conduits, opening.Conduit{Name: "K1"})
	w.Devices = append(w.Devices, opening.Device{Name: "breaker", Kind: opening.BranchCircuit})
	w.Cables = append(w.Cables, opening.Cable{Name: "W8", From: "breaker", To: "supply", Conduit: "K1"})
	w.Wires = append(w.Wires, opening.Wire{From: "supply.L", To: "breaker.L", Cable: "W8"}, opening.Wire{From: "breaker.N", To: "supply.N", Cable: "W8"})
	for i := range w.Wires { // either end may come first
		if i%2 == 0 && w.Wires[i].Cable == "W8" {
			w.Wires[i].From, w.Wires[i].To = w.Wires[i].To, w.Wires[i].From
		}
	}
	w.Cables[0].Conduit = "K1"
}

func box(barrier opening.YesNo) func(*opening.Wiring) {
	return func(w *opening.Wiring) {
		w.Enclosures = []opening.Enclosure{{Name: "box", Barrier: barrier}}
		w.Devices[0].Enclosure, w.Devices[2].Enclosure = "box", "box"
	}
}

// Two contacts side by side are a usual way to release a lock, and no ring; two
// conductors side by side are twice the copper.
func TestSecondWays(t *testing.T) {
	w := wired()
	w.Devices = append(w.Devices, opening.Device{Name: "relay", Kind: opening.PlainRelay, Working: amps(0)})
	w.Cables = append(w.Cables, opening.Cable{Name: "W9", From: "supply", To: "relay", Gauge: 18, Length: q.Give(300*q.Foot, 0)},
		opening.Cable{Name: "W10", From: "relay", To: "strike", Gauge: 18, Length: q.Give(300*q.Foot, 0)})
	w.Wires = append(w.Wires, opening.Wire{From: "supply.+", To: "relay.C", Cable: "W9"}, opening.Wire{From: "relay.NO", To: "strike.+", Cable: "W10"})
	all, faults := Circuits(&w, nil, Options{})
	if len(faults) != 0 || len(all) != 1 || len(all[0].Notes) != 1 || len(all[0].Tree.Runs) != 3 {
		t.Errorf("%+v, notes %v", faults, all[0].Notes)
	}
	w = wired()
	w.Wires = append(w.Wires, opening.Wire{From: "supply.+", To: "drive.+", Cable: "W1"})
	all, faults = Circuits(&w, nil, Options{})
	if len(faults) != 0 || all[0].Tree.Runs[slices.IndexFunc(all[0].Tree.Runs, func(r Run) bool { return r.Name == "W1" })].Doubled != 2 {
		t.Errorf("%+v, %+v", faults, all[0].Tree.Runs)
	}
	// a contact's two throws are never closed together, so nothing passes from one to the other
	w = wired()
	w.Devices = append(w.Devices, opening.Device{Name: "relay", Kind: opening.PlainRelay, Working: amps(0)}, opening.Device{Name: "eye", Kind: opening.PresenceSensor})
	w.Wires = append(w.Wires, opening.Wire{From: "supply.+", To: "relay.NO"}, opening.Wire{From: "relay.NC", To: "eye.+"})
	if _, faults = Circuits(&w, nil, Options{}); len(faults) != 1 || faults[0].Where != "eye" {
		t.Errorf("%+v", faults)
	}
}

// A wiring that lists cables only is fed along them.
func TestCablesOnly(t *testing.T) {
	w := wired()
	w.Wires = nil
	w.Cables = w.Cables[:3]
	all, faults := Circuits(&w, nil, Options{})
	if len(all) != 1 || len(faults) != 0 || len(all[0].Tree.Runs) != 3 || len(all[0].Tree.Loads) != 3 {
		t.Fatalf("%+v %+v", all, faults)
	}
	w.Cables = append(w.Cables, opening.Cable{Name: "W9", From: "drive", To: "strike", Gauge: 18, Length: q.Give[q.Length](3, 0)})
	if _, faults = Circuits(&w, nil, Options{}); len(faults) != 1 || !strings.Contains(faults[0].What, "ring") {
		t.Errorf("%+v", faults)
	}
}

// A device that says nothing of itself is taken as its kind, and every value so taken
// is told; what its sheet says goes before, and its own label before that.
func TestWhereValuesComeFrom(t *testing.T) {
	sheets := &opening.Sheets{Strikes: []opening.StrikeSheet{{Name: "s", Page: "p. 2", Hold: amps(0.2), Inrush: amps(0.4), Volts: q.Exactly[q.Voltage](12)}}}
	for _, c := range []struct {
		d             opening.Device
		hold, peak, v float64
		assumed       int
	}{
		{opening.Device{Name: "x", Kind: opening.ElectricStrike}, 0.305, 0.75, 24, 5},
		{opening.Device{Name: "x", Kind: opening.ElectricStrike, Sheet: "s"}, 0.2, 0.4, 12, 2},
		{opening.Device{Name: "x", Kind: opening.ElectricStrike, Sheet: "s", Working: amps(0.3), Least: q.Exactly[q.Voltage](11), PeakTime: q.Exactly[q.Time](0.1)}, 0.3, 0.4, 12, 0},
	} {
		var givens []Given
		l, _ := loadOf(&c.d, sheets, &givens)
		near(t, "hold", float64(l.Draws[Moving]), c.hold, 1e-9)
		near(t, "peak", float64(l.Draws[Releasing]), c.peak, 1e-9)
		near(t, "volts", float64(l.Rated), c.v, 1e-9)
		n := 0
		for _, g := range givens {
			if g.Assumed {
				n++
			}
		}
		if n != c.assumed {
			t.Errorf("%d values are assumed, want %d: %+v", n, c.assumed, givens)
		}
	}
	// a fail-safe lock takes its current while it locks, and none while it is released
	var givens []Given
	l, _ := loadOf(&opening.Device{Name: "m", Kind: opening.Magnet}, nil, &givens)
	if l.Draws[Resting] != 0.24 || l.Draws[Moving] != 0 {
		t.Errorf("%+v", l)
	}
}

// The middle values are the trade's label ranges (from memory).
func TestTypicalRanges(t *testing.T) {
	for kind, want := range map[opening.DeviceKind][3]between{
		opening.Drive:          {{0.05, 0.15}, {1, 3}, {4, 6}},
		opening.ElectricStrike: {{}, {0.11, 0.5}, {0.5, 1}},
		opening.SolenoidExit:   {{}, {0.3, 0.5}, {12, 16}},
		opening.MotorExit:      {{}, {0.2, 0.4}, {0.5, 1}},
		opening.RequestToExit:  {{0.02, 0.05}, {0.02, 0.05}, {}},
		opening.PresenceSensor: {{0.1, 0.2}, {0.1, 0.2}, {}},
	} {
		if got := typicals[kind]; got.idle != want[0] || got.working != want[1] || got.peak != want[2] {
			t.Errorf("%s: %+v", kind, got)
		}
	}
	if typicals[opening.Magnet].held != (between{0.13, 0.35}) {
		t.Error("magnet")
	}
}

// Whatever a wiring says, it is told or reckoned: nothing crashes, nothing is endless.
func TestAnyWiring(t *testing.T) {
	kinds, functions := opening.DeviceKind("").Choices(), opening.Function("").Choices()
	rapid.Check(t, func(t *rapid.T) {
		name := func(of string) string { return of + fmt.Sprint(rapid.IntRange(0, 6).Draw(t, of)) }
		var w opening.Wiring
		maybe := func() q.Measured[q.Current] {
			return q.Measured[q.Current]{Value: q.Current(rapid.Float64Range(0, 1000).Draw(t, "amps")), Known: rapid.Bool().Draw(t, "known")}
		}
		for range rapid.IntRange(0, 8).Draw(t, "devices") {
			d := opening.Device{Name: name("d"), Kind: opening.DeviceKind(rapid.SampledFrom(kinds).Draw(t, "kind")), Working: maybe(), Peak: maybe(), Idle: maybe(), Enclosure: name("e"), Opening: name("o")}
			for range rapid.IntRange(0, 3).Draw(t, "terminals") {
				d.Terminals = append(d.Terminals, opening.Terminal{Name: name("t"), Function: opening.Function(rapid.SampledFrom(functions).Draw(t, "function"))})
			}
			w.Devices = append(w.Devices, d)
		}
		end := func() string {
			return name("d") + "." + rapid.SampledFrom([]string{"+", "-", "C", "NO", "NC", "L", "t0", "t1", "t2", "OUT+", ""}).Draw(t, "end")
		}
		for range rapid.IntRange(0, 6).Draw(t, "cables") {
			w.Cables = append(w.Cables, opening.Cable{Name: name("c"), From: name("d"), To: name("d"), Gauge: rapid.IntRange(0, 30).Draw(t, "gauge"), Conduit: name("k"),
				Length: q.Measured[q.Length]{Value: q.Length(rapid.Float64Range(0, 1e6).Draw(t, "length")), Known: rapid.Bool().Draw(t, "known")}})
		}
		for range rapid.IntRange(0, 20).Draw(t, "wires") {
			w.Wires = append(w.Wires, opening.Wire{From: end(), To: end(), Cable: name("c")})
		}
		w.Conduits = []opening.Conduit{{Name: "k0"}, {Name: "k1"}}
		w.Enclosures = []opening.Enclosure{{Name: "e0"}, {Name: "e1", Barrier: "no"}}
		all, faults := Circuits(&w, nil, Options{AnyTime: rapid.Bool().Draw(t, "any")})
		for _, f := range faults {
			if f.Where == "" || f.What == "" || f.Hint == "" {
				t.Fatalf("%+v", f)
			}
		}
		for i := range all {
			c := &all[i]
			if len(c.Faults) > 0 {
				continue
			}
			if err := c.Tree.Check(); err != nil {
				t.Fatal(err)
			}
			course := c.Tree.Follow()
			for k := range course.Loads {
				if l := &course.Loads[k]; l.Works && l.Ending == Fed && !(l.Volts > 0 && l.Volts <= c.Tree.Volts && l.U >= 0) {
					t.Fatalf("%+v", l)
				}
			}
			c.Tree.Currents()
		}
	})
}
