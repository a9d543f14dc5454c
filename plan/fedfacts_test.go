package plan

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"swingwright/clearance"
	"swingwright/fact"
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/power"
	q "swingwright/quantity"
)

// What a wiring tells, a rule can judge: each fact by hand from a drive of 2 A, 4 A at
// its start, behind 50 ft of 16 AWG (4.99 Ω per 1000 ft) on a supply of 4 A, 24 V.
func TestFactsOfAWiring(t *testing.T) {
	w := feed(opening.Drive, 2, 50, 16)
	w.Devices[1].Peak, w.Devices[1].Idle = q.Give[q.Current](4, 0), q.Give[q.Current](0, 0)
	p := &Plan{Opening: &opening.Opening{ID: "1", Wiring: w}}
	p.feed(make([]float64, fact.Count), nil, Options{})
	got := make(map[fact.ID]reading)
	for _, one := range p.fedFacts() {
		got[one.id] = one
	}
	ohms := 2 * 50 * 4.99 / 1000
	volts := (24 + math.Sqrt(24*24-4*ohms*24*4)) / 2
	moving := 24 * 2 * 2 / (24 + math.Sqrt(24*24-4*ohms*24*2)) // a steady 48 W
	starting := 24 * 4 / volts
	for id, want := range map[fact.ID]float64{
		fact.VoltsAtOperator: volts, fact.DropAtOperator: 1 - volts/24, fact.SupplyLoad: moving / 4, fact.SupplyPeakLoad: starting / 6,
		fact.ClassTwo: 1, fact.SourceVolts: 24, fact.SourcePower: 96, fact.LinesApart: 1, fact.ConduitCables: 0, fact.BranchOperators: 0,
	} {
		if one, ok := got[id]; !ok || math.Abs(one.value-want) > 1e-9 {
			t.Errorf("%v is %v, want %v", id, one.value, want)
		}
	}
	for _, id := range []fact.ID{fact.VoltsAtLock, fact.BranchLoad, fact.StandbyLasts, fact.LoopSlack} {
		if _, ok := got[id]; ok {
			t.Errorf("%v is known of a wiring without it", id)
		}
	}
	if u := got[fact.VoltsAtOperator].u; !(u > 0.1) || math.Abs(got[fact.DropAtOperator].u-u/24) > 1e-12 {
		t.Errorf("uncertainties %v V and %v", u, got[fact.DropAtOperator].u)
	}
	// a measured voltage goes before
	p.read = readings{{id: fact.VoltsAtOperator, value: 22}}
	for _, one := range p.fedFacts() {
		if one.id == fact.VoltsAtOperator {
			t.Error("computed though it was measured")
		}
	}
}

// The openings of a group are fed by its wiring: its facts stand in their plans, for each
// by its own devices, and are what the group's own reckoning tells, with the times of
// every opening's own leaf: each is fed alike in the plans of all.
func TestMembersAreFedByTheirGroup(t *testing.T) {
	j, books := clinic(t)
	g := opening.Sharing(j.Groups, "103")
	if g == nil {
		t.Fatal("103 shares no wiring")
	}
	opt := Options{Draws: 64, Groups: j.Groups, Openings: j.Openings}
	var plans []*Plan
	for _, id := range g.Of {
		plans = append(plans, Make(demoOpening(t, j, id), &j.Sheets, books, opt))
	}
	group := PowerOf(g, plans, &j.Sheets, judge.Policy{})
	for _, p := range plans {
		f := p.Facts[fact.VoltsAtOperator]
		if p.Feeding == nil || p.Feeding.Group != g || p.Facts[fact.Wired].Value != 1 || !f.Known {
			t.Fatalf("%s is not fed by %s", p.Opening.ID, g.ID)
		}
		for _, d := range group.Circuits[0].Devices {
			if d.Device.Kind == opening.Drive && d.Device.Opening == p.Opening.ID && math.Abs(float64(d.Volts)-f.Value) > 1e-9 {
				t.Errorf("%s: %v V, by its group %v V", p.Opening.ID, f.Value, d.Volts)
			}
		}
	}
	for _, p := range plans {
		if !reflect.DeepEqual(p.Feeding, group) {
			t.Errorf("%s: fed otherwise than its group", p.Opening.ID)
		}
	}
	if lasts := group.Circuits[0].Tree.Sequences; lasts[0].Lasts == lasts[1].Lasts {
		t.Error("the two leaves move alike, so nothing is tried")
	}
	if a, b := plans[0].Facts[fact.VoltsAtLock], plans[1].Facts[fact.VoltsAtLock]; !a.Known || b.Known {
		t.Errorf("the strike is %s's alone, volts known: %v, %v", g.Of[0], a.Known, b.Known)
	}
	alone := Make(demoOpening(t, j, "103"), &j.Sheets, books, Options{Draws: 64})
	if alone.Feeding != nil || alone.Facts[fact.Wired].Value != 0 {
		t.Error("103 is fed though nobody told of its group")
	}
}

// The delay is what the wires make: in the demonstration the drive of 107 starts 0.8 s
// after its strike, by its own delay; and where the drive has none, both start at once.
func TestDelayComesFromTheWires(t *testing.T) {
	j, _ := clinic(t)
	for delay, waits := range map[q.Time]bool{0.8: true, 0: false} {
		o := *demoOpening(t, j, "107")
		o.Wiring.Devices = append([]opening.Device(nil), o.Wiring.Devices...)
		o.Wiring.Device("operator").OnDelay = q.Exactly(delay)
		f := (&Plan{Opening: &o}).Power(&j.Sheets, judge.Policy{})
		s := f.Circuits[0].Tree.Sequences[0].Lasts
		if waits != (s[power.Waiting] > 0) || waits == (s[power.Colliding] > 0) {
			t.Errorf("delay of %v s: %v", delay, s)
		}
		found := false
		for _, g := range f.Circuits[0].Givens {
			found = found || strings.HasPrefix(g.Source, "what the wires make")
		}
		if !found {
			t.Errorf("delay of %v s: not from the wires", delay)
		}
	}
}

// A cord must reach, and have slack; what is told has the length that would do.
func TestCordIsLongEnough(t *testing.T) {
	cord := &Cord{Loop: clearance.Loop{Longest: 0.2, Length: 0.23}, U: 0.001}
	for length, want := range map[float64][2]judge.Verdict{
		0.15: {judge.FallsShort, judge.FallsShort}, 0.2: {judge.TooClose, judge.FallsShort}, 0.21: {judge.Meets, judge.FallsShort}, 0.24: {judge.Meets, judge.Meets},
	} {
		o := &opening.Opening{ID: "1"}
		o.DoorLoop.Length = q.Give(q.Length(length), 0.0005)
		f := (&Plan{Opening: o, Room: &Room{Cord: cord}}).Power(nil, judge.Policy{})
		s := f.Cords[0].Statements
		if len(s) != 2 || s[0].Verdict != want[0] || s[1].Verdict != want[1] || !strings.Contains(s[0].Say, "230 mm (9.25 in)") || !strings.Contains(s[0].Say, "fails after months") {
			t.Errorf("%v m: %+v", length, s)
		}
	}
	o := &opening.Opening{ID: "1"}
	if f := (&Plan{Opening: o, Room: &Room{Cord: cord}}).Power(nil, judge.Policy{}); len(f.Cords[0].Statements) != 0 {
		t.Error("a length that nobody wrote down was judged")
	}
}

// Whatever hangs on a branch circuit: more operators never make its verdicts better, and
// seven on 15 A are too many.
func TestBranchesAreJudged(t *testing.T) {
	on := func(operators, rated float64) judge.Verdict {
		return onCircuit(operators, q.Current(rated)).Verdict
	}
	for _, c := range []struct {
		operators, rated float64
		want             judge.Verdict
	}{{1, 15, judge.Meets}, {4, 15, judge.Meets}, {5, 15, judge.TooClose}, {6, 15, judge.TooClose}, {7, 15, judge.FallsShort}, {5, 20, judge.Meets}, {8, 20, judge.TooClose}, {9, 20, judge.FallsShort}} {
		if got := on(c.operators, c.rated); got != c.want {
			t.Errorf("%v operators on %v A: %v, want %v", c.operators, c.rated, got, c.want)
		}
	}
	rank := map[judge.Verdict]int{judge.Meets: 0, judge.TooClose: 1, judge.FallsShort: 2}
	rapid.Check(t, func(t *rapid.T) {
		n, rated := float64(rapid.IntRange(1, 30).Draw(t, "operators")), rapid.Float64Range(10, 40).Draw(t, "rated")
		if rank[on(n+1, rated)] < rank[on(n, rated)] {
			t.Errorf("%v operators on %v A are worse than one more", n, rated)
		}
	})
}
