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

// onMains are supplies in a row on one breaker, each with a drive of 2 A at work and
// 4 A at its start behind no cable, and feet of 12 AWG between one and the next.
func onMains(supplies int, feet float64) opening.Wiring {
	w := opening.Wiring{Devices: []opening.Device{{Name: "breaker", Kind: opening.BranchCircuit}}}
	at := "breaker"
	for i := range supplies {
		supply, drive, cable := fmt.Sprint("supply ", i), fmt.Sprint("drive ", i), fmt.Sprint("L", i)
		w.Devices = append(w.Devices,
			opening.Device{Name: supply, Kind: opening.PowerSupply, Volts: q.Give[q.Voltage](24, 0), Working: amps(4), Peak: amps(8)},
			opening.Device{Name: drive, Kind: opening.Drive, Working: amps(2), Peak: amps(4), Idle: amps(0.1), Holding: amps(0.5)})
		w.Cables = append(w.Cables, opening.Cable{Name: cable, From: at, To: supply, Gauge: 12, Conductors: 3, Length: q.Exactly(q.Length(feet) * q.Foot), Class: opening.LineCircuit})
		w.Wires = append(w.Wires,
			opening.Wire{From: at + ".L", To: supply + ".L", Cable: cable}, opening.Wire{From: at + ".N", To: supply + ".N", Cable: cable},
			opening.Wire{From: supply + ".+", To: drive + ".+"}, opening.Wire{From: supply + ".-", To: drive + ".-"})
		at = supply
	}
	return w
}

func branchesOf(w *opening.Wiring) []Branch {
	circuits, _ := Circuits(w, nil, Options{})
	return Branches(w, nil, circuits, Options{})
}

// One supply at the end of 100 ft of 12 AWG, by hand: 24 V · 4 A over 0.65 of 120 V are
// 1.2308 A; out and back 200 ft of 1.98 Ω per 1000 ft (NEC Chapter 9 Table 8) are 0.396 Ω;
// a steady power P leaves (120 + √(120² − 4·0.396·P))/2.
func TestBranchByHand(t *testing.T) {
	w := onMains(1, 100)
	all := branchesOf(&w)
	if len(all) != 1 || len(all[0].Missing) > 0 || all[0].Operators != 1 || all[0].Rated != 15 || len(all[0].Tree.Runs) != 1 {
		t.Fatalf("%+v", all)
	}
	b := &all[0]
	working, peak, _, _ := b.Currents()
	near(t, "working", float64(working), 24*2/(0.65*120), 1e-12)
	near(t, "peak", float64(peak), 24*4/(0.65*120), 1e-12)
	course := b.Tree.Follow()
	want := (120 + math.Sqrt(120*120-4*0.396*24*4/0.65)) / 2
	near(t, "volts at the supply", float64(course.Loads[0].Volts), want, 1e-9)
}

// What a wiring may leave out or tell of a branch circuit.
func TestBranchTold(t *testing.T) {
	for name, c := range map[string]struct {
		change    func(*opening.Wiring)
		operators float64
		rated     q.Current
		peak      float64 // A at 120 V
		missing   string
	}{
		"as it is":          {func(*opening.Wiring) {}, 2, 15, 2 * 1.2308, ""},
		"a breaker of 20 A": {func(w *opening.Wiring) { w.Devices[0].Working = amps(20) }, 2, 20, 2 * 1.2308, ""},
		"three others":      {func(w *opening.Wiring) { w.Devices[0].Doors = q.Exactly[q.Ratio](3) }, 5, 15, 5 * 1.2308, ""},
		"at 230 V":          {func(w *opening.Wiring) { w.Devices[0].Volts = q.Exactly[q.Voltage](230) }, 2, 15, 2 * 1.2308 * 120 / 230, ""},
		"no length":         {func(w *opening.Wiring) { w.Cables[1].Length.Known = false }, 2, 15, 2 * 1.2308, "cable L1"},
		"not wired":         {func(w *opening.Wiring) { w.Wires = w.Wires[2:] }, 0, 15, 0, ""},
		"line-fed drive": {func(w *opening.Wiring) {
			w.Devices = append(w.Devices, opening.Device{Name: "header", Kind: opening.Drive, Volts: q.Exactly[q.Voltage](120), Working: amps(1), Peak: amps(3),
				Terminals: []opening.Terminal{{Name: "L", Function: opening.Line}, {Name: "N", Function: opening.Neutral}, {Name: "START", Function: opening.StartInput}}})
			w.Wires = append(w.Wires, opening.Wire{From: "breaker.L", To: "header.L"}, opening.Wire{From: "breaker.N", To: "header.N"})
		}, 3, 15, 2*1.2308 + 3, ""},
		"cables only": {func(w *opening.Wiring) {
			w.Wires = nil
			for i := range 2 {
				w.Cables = append(w.Cables, opening.Cable{Name: fmt.Sprint("W", i), From: fmt.Sprint("supply ", i), To: fmt.Sprint("drive ", i), Gauge: 18, Length: q.Exactly[q.Length](1)})
			}
		}, 2, 15, 2 * 1.2308, ""},
	} {
		t.Run(name, func(t *testing.T) {
			w := onMains(2, 50)
			c.change(&w)
			b := branchesOf(&w)[0]
			_, peak, _, _ := b.Currents()
			near(t, "peak", float64(peak), c.peak, 0.001)
			if b.Operators != c.operators || b.Rated != c.rated || (c.missing == "") != (len(b.Missing) == 0) || !strings.Contains(strings.Join(b.Missing, "; "), c.missing) {
				t.Errorf("%v operators on %v A, missing %q", b.Operators, b.Rated, b.Missing)
			}
		})
	}
}

// However many there are: every supply counts once, currents add up, the volts fall along
// the row, and more cable takes no less.
func TestBranchesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 8).Draw(t, "supplies")
		feet := rapid.Float64Range(0, 150).Draw(t, "feet")
		w := onMains(n, feet)
		b := branchesOf(&w)[0]
		_, peak, _, _ := b.Currents()
		if b.Operators != float64(n) || len(b.Tree.Loads) != n || math.Abs(float64(peak)-float64(n)*24*4/(0.65*120)) > 1e-9 {
			t.Fatalf("%v operators, %d loads, %v A of %d supplies", b.Operators, len(b.Tree.Loads), peak, n)
		}
		course := b.Tree.Follow()
		if !slices.IsSortedFunc(course.Loads, func(a, b Worst) int { return -compare(float64(a.Volts), float64(b.Volts)) }) {
			t.Errorf("the volts rise along the row: %+v", course.Loads)
		}
		longer := onMains(n, feet+10)
		if far := branchesOf(&longer)[0].Tree.Follow(); far.Loads[n-1].Ending == Fed && far.Loads[n-1].Volts > course.Loads[n-1].Volts {
			t.Errorf("%v V behind more cable, %v V behind less", far.Loads[n-1].Volts, course.Loads[n-1].Volts)
		}
	})
}

func compare(a, b float64) int {
	switch {
	case a < b-1e-9:
		return -1
	case a > b+1e-9:
		return 1
	}
	return 0
}

// The delay that the wires make goes before the one that is written down.
func TestDelayOfTheWires(t *testing.T) {
	w := wired() // written down: 0.5 s after a lock of 0.2 s
	for made, want := range map[q.Time][3]q.Time{0: {0, 0.2, 0}, 0.1: {0.1, 0.1, 0}, 1.2: {0.2, 0, 1}} {
		all, _ := Circuits(&w, nil, Options{Delays: map[string]q.Time{"": made}})
		s := all[0].Tree.Sequences[0].Lasts
		for i, p := range []Phase{Releasing, Colliding, Waiting} {
			near(t, fmt.Sprint(made, " s: ", p), float64(s[p]), float64(want[i]), 1e-12)
		}
	}
}
