package plan

import (
	"math"
	"testing"

	"swingwright/fact"
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/power"
	q "swingwright/quantity"
)

// feed is a circuit's supply and one device at the end of one cable.
func feed(kind opening.DeviceKind, amps, feet float64, gauge int) opening.Wiring {
	a := q.Give(q.Current(amps), 0)
	return opening.Wiring{
		Devices: []opening.Device{
			{Name: "supply", Kind: opening.PowerSupply, Volts: q.Give[q.Voltage](24, 0.1), Working: q.Give[q.Current](4, 0), Peak: q.Give[q.Current](6, 0)},
			{Name: "device", Kind: kind, Working: a, Peak: a, Idle: a, Fails: "fail-secure"},
		},
		Cables: []opening.Cable{{Name: "W1", From: "supply", To: "device", Gauge: gauge, Length: q.Give(q.Length(feet)*q.Foot, 0), Conductors: 2, Class: opening.ClassTwoCircuit}},
	}
}

func fedBy(w opening.Wiring) *Feeding {
	p := &Plan{Opening: &opening.Opening{ID: "1", Wiring: w}}
	p.feed(make([]float64, fact.Count), nil, Options{})
	return p.Power(nil, judge.Policy{})
}

// A strike of 0.3 A, a coil of 80 Ω, at the end of 18 AWG of 7.95 Ω per 1000 ft out and
// back: 24·80/(80 + 0.0159·feet) V, of which 22.8 are needed, reached at 264 ft. Well
// before it meets, well beyond it falls short, near it is too close to call.
func TestStrikeAtTheEndOfAWire(t *testing.T) {
	for feet, want := range map[float64]judge.Verdict{60: judge.Meets, 260: judge.TooClose, 400: judge.FallsShort} {
		f := fedBy(feed(opening.ElectricStrike, 0.3, feet, 18))
		one := f.Circuits[0].Devices[0]
		if v := 24 * 80 / (80 + 0.0159*feet); math.Abs(float64(one.Volts)-v) > 1e-9 || one.Verdict != want {
			t.Errorf("%v ft: %v V %v, want %v V %v", feet, one.Volts, one.Verdict, v, want)
		}
	}
}

// What the wiring comes to as a whole.
func TestStandOfAFeeding(t *testing.T) {
	good := feed(opening.ElectricStrike, 0.3, 60, 18)
	for name, c := range map[string]struct {
		change func(*opening.Wiring)
		want   Standing
	}{
		"as it is":             {func(*opening.Wiring) {}, Good},
		"nothing wired":        {func(w *opening.Wiring) { *w = opening.Wiring{} }, Undecided},
		"a length is missing":  {func(w *opening.Wiring) { w.Cables[0].Length.Known = false }, Undecided},
		"a supply too small":   {func(w *opening.Wiring) { w.Devices[0].Working.Value, w.Devices[0].Peak.Value = 0.2, 0.2 }, Bad},
		"rating not known":     {func(w *opening.Wiring) { w.Devices[0].Working.Known, w.Devices[0].Peak.Known = false, false }, Undecided},
		"beyond Class 2":       {func(w *opening.Wiring) { w.Devices[0].Working.Value, w.Devices[0].Peak.Value = 6, 6 }, Undecided},
		"a pipe that is full":  {fullPipe, Undecided},
		"a battery too small":  {battery(0.1), Bad},
		"a battery that lasts": {battery(9), Good},
		"too long":             {func(w *opening.Wiring) { w.Cables[0].Length.Value *= 20 }, Bad},
	} {
		w := good
		w.Devices, w.Cables = append([]opening.Device(nil), good.Devices...), append([]opening.Cable(nil), good.Cables...)
		c.change(&w)
		if got := fedBy(w).Stand(); got != c.want {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

func fullPipe(w *opening.Wiring) {
	w.Conduits = []opening.Conduit{{Name: "K1", Kind: "EMT", Trade: "1/2"}}
	w.Cables[0].Conduit, w.Cables[0].Diameter = "K1", q.Exactly(0.6*q.Inch)
}

func battery(hours float64) func(*opening.Wiring) {
	return func(w *opening.Wiring) {
		w.Devices = append(w.Devices, opening.Device{Name: "battery", Kind: opening.StandbyBattery, Capacity: q.Exactly(q.Charge(hours) * q.AmpereHour)})
		w.Standby = opening.Standby{Time: q.Exactly[q.Time](4 * 3600), Openings: q.Exactly[q.Ratio](60)}
	}
}

// The leaves of a pair are asked together, the second by its stagger later; the doors of
// a vestibule at any time.
func TestGroupsStartAsTheyDo(t *testing.T) {
	w := feed(opening.Drive, 2, 20, 16)
	w.Devices[1].Opening = "A"
	other := w.Devices[1]
	other.Name, other.Opening = "second", "B"
	w.Devices = append(w.Devices, other)
	w.Cables = append(w.Cables, opening.Cable{Name: "W2", From: "supply", To: "second", Gauge: 16, Length: q.Give(20*q.Foot, 0)})
	w.Devices[1].Peak, w.Devices[2].Peak = q.Give[q.Current](5, 0), q.Give[q.Current](5, 0)
	plans := []*Plan{{Opening: &opening.Opening{ID: "A"}}, {Opening: &opening.Opening{ID: "B"}}}
	g := &opening.Group{ID: "g", Kind: opening.Pair, Of: []string{"A", "B"}, Wiring: w}
	together := PowerOf(g, plans, nil, judge.Policy{}).Circuits[0].Course.Peak
	g.Stagger = q.Exactly[q.Time](1)
	apart := PowerOf(g, plans, nil, judge.Policy{}).Circuits[0]
	g.Kind = opening.Vestibule
	any := PowerOf(g, plans, nil, judge.Policy{}).Circuits[0].Course.Peak
	if !(together > 10) || !(apart.Course.Peak < 8) || any != together {
		t.Errorf("together %v A, a second apart %v A, at any time %v A", together, apart.Course.Peak, any)
	}
	if s := apart.Stagger; s == nil || apart.Tree.Sequences[1].Start != 1 {
		t.Errorf("stagger %+v", s)
	}
}

// What is found smallest is enough with its guard band: judged again it meets.
func TestSmallestMeets(t *testing.T) {
	w := feed(opening.Drive, 2, 70, 22)
	f := fedBy(w)
	d := &f.Circuits[0]
	if d.Devices[0].Verdict != judge.FallsShort || d.Smallest == nil {
		t.Fatalf("%v, %v", d.Devices[0].Verdict, d.Smallest)
	}
	w.Cables[0].Gauge = int(d.Smallest[0])
	if v := fedBy(w).Circuits[0].Devices[0].Verdict; v != judge.Meets {
		t.Errorf("with %v: %v", d.Smallest[0], v)
	}
	w.Cables[0].Gauge += 2
	if v := fedBy(w).Circuits[0].Devices[0].Verdict; v == judge.Meets {
		t.Errorf("%d AWG would do", w.Cables[0].Gauge)
	}
	if d.Course.Ending == power.Unfinished {
		t.Error("not decided")
	}
}
