package plan

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"swingwright/fact"
	"swingwright/opening"
	q "swingwright/quantity"
)

// Two switches, one of them low and one far off, are held against rules by the
// worse of each; what one of them leaves open stays open.
func TestControlsCountByTheWorst(t *testing.T) {
	o := opening.Opening{Controls: []opening.Control{
		{Side: "pull", Reach: "side", Height: q.Exactly(0.9 * q.Metre), FromMiddle: q.Exactly(2 * q.Metre), FromLatch: q.Exactly(0.6 * q.Metre), OneHand: "yes", InSight: "yes", Symbol: "no"},
		{Side: "push", Reach: "forward", Height: q.Exactly(1.1 * q.Metre), FromLatch: q.Exactly(1.6 * q.Metre), OneHand: "yes"},
	}}
	got := map[fact.ID]float64{}
	for _, one := range taped(&o, &opening.Sheets{}) {
		got[one.id] = one.value
	}
	want := map[fact.ID]float64{fact.ControlLowest: 0.9, fact.ControlHighest: 1.1, fact.ControlBeside: 0.6, fact.ControlAheadPush: 1.6}
	for id, v := range want {
		if got[id] != v {
			t.Errorf("%s is %v, want %v", id, got[id], v)
		}
	}
	if len(got) != len(want) {
		t.Errorf("got %v, want no more than %v: the second switch has no distance from the middle", got, want)
	}
	var facts [fact.Count]float64
	for i := range facts {
		facts[i] = math.NaN()
	}
	seen(&o, &facts)
	if facts[fact.ControlOneHand] != 1 || facts[fact.ControlSymbol] != 0 || !math.IsNaN(facts[fact.ControlInSight]) {
		t.Errorf("one hand %v, symbol %v, in sight %v", facts[fact.ControlOneHand], facts[fact.ControlSymbol], facts[fact.ControlInSight])
	}
	if forward := 0.0; facts[fact.ControlReach] != forward {
		t.Errorf("reach is choice %v, and one of them is reached forward", facts[fact.ControlReach])
	}
}

// Of gaps the widest and the narrowest count; those of a pair only where there is one.
func TestGaps(t *testing.T) {
	mm := func(x float64) q.Measured[q.Length] { return q.Exactly(q.Length(x) * q.Millimetre) }
	o := opening.Opening{Doorway: opening.Doorway{Gaps: opening.Gaps{Head: mm(3), Latch: mm(2), Hinge: mm(4)}}}
	for _, c := range []struct {
		meeting     q.Measured[q.Length]
		small, wide float64
	}{{q.Measured[q.Length]{}, 0.002, 0.004}, {mm(1), 0.001, 0.004}} {
		o.Doorway.Gaps.Meeting = c.meeting
		for _, one := range taped(&o, &opening.Sheets{}) {
			if want := map[fact.ID]float64{fact.GapSmallest: c.small, fact.GapLargest: c.wide}[one.id]; math.Abs(one.value-want) > 1e-12 {
				t.Errorf("%s is %v, want %v", one.id, one.value, want)
			}
		}
	}
}

// What was taped brings its own spread, a tape's where none was stated, and none
// where there plainly is nothing or a thing is called by its size.
func TestSpreadOfWhatWasTaped(t *testing.T) {
	o := opening.Opening{
		Doorway: opening.Doorway{ClearWidth: q.Measured[q.Length]{Value: 0.84, Known: true}, ClearHeight: q.Give[q.Length](2.1, 0.003), LowThings: q.Measured[q.Length]{Known: true}},
		Fire:    opening.Fire{HoleDiameter: q.Measured[q.Length]{Value: q.Inch, Known: true}},
	}
	want := map[fact.ID]float64{fact.ClearWidth: 0.0015875, fact.ClearHeight: 0.003, fact.LowProjection: 0, fact.HoleDiameter: 0}
	for _, one := range taped(&o, &opening.Sheets{}) {
		if u, ok := want[one.id]; !ok || math.Abs(u-one.u) > 1e-12 {
			t.Errorf("%s has the spread %v, want %v", one.id, one.u, u)
		}
	}
}

// Marks stand in falling order, each once, whatever the leaf; the time to latch
// check ends at 10 degrees unless the zone is known to begin above it.
func TestMarks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		edge := q.Length(rapid.Float64Range(0.2, 3).Draw(t, "edge"))
		zone := rapid.OneOf(rapid.Just(math.NaN()), rapid.Float64Range(-0.1, 2), rapid.SampledFrom([]float64{float64(10 * q.Degree), float64(12 * q.Degree), float64(70 * q.Degree)})).Draw(t, "zone")
		var timed timing
		timed.set(edge, zone)
		for i, mark := range timed.marks {
			if i > 0 && mark.Angle >= timed.marks[i-1].Angle {
				t.Fatalf("mark %d at %v after %v", i, mark.Angle, timed.marks[i-1].Angle)
			}
			timed.marks[i].Time = q.Time(i)
		}
		check := float64(10 * q.Degree)
		if zone > check && zone < float64(90*q.Degree) {
			check = zone
		}
		if float64(timed.check) != check || math.IsNaN(timed.at(timed.near)) || !(timed.toCheck() > 0) {
			t.Fatalf("check at %v, want %v; 75 mm passed at %v", timed.check, check, timed.at(timed.near))
		}
	})
}

// A time read to 10 degrees counts to latch check only where no zone is known
// to end it earlier, and never over a reading of its own.
func TestReadingToCheck(t *testing.T) {
	to10, toCheck := reading{id: fact.CloseTime90To10, value: 4, u: 0.1}, reading{id: fact.CloseTime90ToCheck, value: 3.8, u: 0.1}
	for _, c := range []struct {
		read  readings
		known bool
		want  int
	}{{readings{to10}, false, 2}, {readings{to10}, true, 1}, {readings{to10, toCheck}, false, 2}, {nil, false, 0}} {
		if got := c.read.toCheck(c.known); len(got) != c.want {
			t.Errorf("%v with a known zone %v gives %v", c.read, c.known, got)
		}
	}
}
