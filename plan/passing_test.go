package plan

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"swingwright/judge"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/transit"
)

// example is the trade's worked opening: open in 3.5 s, held 5 s, the switch 5 ft
// away, 3 ft to be clear of a 3-0 leaf; nothing is known of its closing.
func example(opens, holds string) opening.Opening {
	o := opening.Opening{
		ID: "x", Use: opening.Use{Operation: "low-energy", Activation: "switch", Place: "interior"},
		Leaf:     opening.Leaf{Width: q.Exactly(36 * q.Inch), Height: q.Exactly(84 * q.Inch)},
		Controls: []opening.Control{{What: "plate", Side: opening.PullSide, FromMiddle: q.Exactly(5 * q.Foot)}},
	}
	if opens != "" {
		o.Readings = append(o.Readings, opening.Reading{Fact: "powered.time_to_open", Value: opens})
	}
	if holds != "" {
		o.Readings = append(o.Readings, opening.Reading{Fact: "powered.dwell", Value: holds})
	}
	return o
}

func passingOf(o opening.Opening) *Passing {
	return Make(&o, &opening.Sheets{}, nil, Options{Draws: 64}).Passing
}

// 12 ft take 8.0, 6.0 and 4.8 s, of 8.5 s: half a second to spare for a frail
// person, as the example has it. "Each extra foot costs 0.5 to 0.7 s."
func TestPassingOfTheWorkedExample(t *testing.T) {
	s := passingOf(example("3.5 s ± 0 s", "5 s ± 0 s"))
	if s == nil || len(s.Missing) > 0 || len(s.Walks) != 3 {
		t.Fatalf("%+v", s)
	}
	for i, want := range []struct{ needs, spare float64 }{{8.0, 0.5}, {6.0, 2.5}, {4.8, 3.7}} {
		w := &s.Walks[i]
		if math.Abs(float64(w.Needed)-want.needs) > 1e-9 || math.Abs(float64(w.Margin)-want.spare) > 1e-9 || w.Verdict != judge.Meets {
			t.Errorf("%s: needs %.3f s, %.3f to spare, %v; want %g and %g", w.Who, float64(w.Needed), float64(w.Margin), w.Verdict, want.needs, want.spare)
		}
		if must := w.Who == "wheelchair"; w.Must != must {
			t.Errorf("%s must get through: %v", w.Who, w.Must)
		}
	}
	if h := s.Holds[0]; h.Least != 5 || h.Verdict != judge.Meets { // 5 s up to 5 ft
		t.Errorf("recommended hold %+v", h)
	}
	farther := example("3.5 s ± 0 s", "5 s ± 0 s")
	farther.Controls[0].FromMiddle = q.Exactly(6 * q.Foot)
	if w := passingOf(farther).Walks[0]; w.Verdict != judge.FallsShort || math.Abs(float64(w.Margin)+1.0/6) > 1e-9 {
		t.Errorf("a foot farther: %.3f s, %v; want 0.5 - 0.667", float64(w.Margin), w.Verdict)
	}
}

// Half a second to spare with a spread of 0.5 s is too close to call; the hold
// advised meets, and so does the distance.
func TestPassingWithItsSpread(t *testing.T) {
	s := passingOf(example("3.5 s ± 0.8 s", "5 s ± 0.6 s")) // u = 0.4 and 0.3, together 0.5
	frail := s.Walks[0]
	if math.Abs(float64(frail.U)-0.5) > 1e-9 || frail.Verdict != judge.TooClose {
		t.Errorf("spread %.3f s, %v", float64(frail.U), frail.Verdict)
	}
	if brisk := s.Walks[2]; brisk.Verdict != judge.Meets {
		t.Errorf("brisk: %v", brisk.Verdict)
	}
	held := passingOf(example("3.5 s ± 0.8 s", fmt.Sprintf("%.9f s ± 0.6 s", float64(frail.Advice.Hold)+1e-6)))
	if held.Walks[0].Verdict != judge.Meets {
		t.Errorf("with the hold advised, %.2f s: %v", float64(frail.Advice.Hold), held.Walks[0].Verdict)
	}
	nearer := example("3.5 s ± 0.8 s", "5 s ± 0.6 s")
	nearer.Controls[0].FromMiddle = q.Exactly(frail.Actuator - 1e-6)
	if got := passingOf(nearer).Walks[0].Verdict; got != judge.Meets {
		t.Errorf("with the switch where it is advised: %v", got)
	}
}

func TestFrailUsersSetThePace(t *testing.T) {
	o := example("3.5 s", "5 s")
	o.Building.FrailUsers = "yes"
	i := slices.IndexFunc(passingOf(o).Walks, func(w Walked) bool { return w.Must })
	if w := passingOf(o).Walks[i]; w.Speed != transit.Frail {
		t.Errorf("%s must get through", w.Who)
	}
}

// The lock's release comes before the opening; a leaf that a push starts, and one
// that a hand opens, has no walk.
func TestPassingCountsTheRelease(t *testing.T) {
	o := example("3.5 s ± 0 s", "5 s ± 0 s")
	o.Lock = opening.Lock{Release: "strike", ReleaseDelay: q.Exactly(0.5 * q.Second)}
	if s := passingOf(o); s.Opening != 4 {
		t.Errorf("opening %.2f s, want 0.5 + 3.5", float64(s.Opening))
	}
	o.Lock.Release = "dogged"
	if s := passingOf(o); s.Opening != 3.5 {
		t.Errorf("a dogged lock takes %.2f s", float64(s.Opening-3.5))
	}
	o.Use.Activation = "push-pull"
	if passingOf(o) != nil {
		t.Error("a walk to a switch that is not there")
	}
	if s := passingOf(example("3.5 s", "")); s == nil || len(s.Missing) != 1 {
		t.Errorf("without a hold: %+v", s)
	}
}

// The usable part of closing is that of the plan's own closing: with the leaf let
// go at 90 degrees it is passed when PathAngle is, and measured times stretch it.
func TestUsableClosing(t *testing.T) {
	j, books := clinic(t)
	o := *demoOpening(t, j, "101")
	p := Make(&o, &j.Sheets, books, Options{Draws: 64})
	c := p.Cycle(&j.Sheets)
	// cos of the angle is the path's distance from the hinge, over the radius:
	// (35.875 - 0.625 - 30)/35.875, so 81.6 degrees.
	if got := float64(c.FreeTo / q.Degree); math.Abs(got-81.585) > 0.01 {
		t.Errorf("free to %.3f degrees", got)
	}
	marks := &p.Swing.Marks // 90, 80
	if whole := marks[1].Time - marks[0].Time; !(c.Usable > 0 && c.Usable < whole) {
		t.Errorf("usable %.3f s, of %.3f s to 80 degrees", float64(c.Usable), float64(whole))
	}
	lap := marks[4].Time - marks[0].Time // 90 to 10
	o.Readings = append(slices.Clone(o.Readings), opening.Reading{Fact: "closing.time_90_to_10", Value: fmt.Sprintf("%.6f s", 2*float64(lap))})
	slow := Make(&o, &j.Sheets, books, Options{Draws: 64}).Cycle(&j.Sheets)
	if math.Abs(float64(slow.Usable/c.Usable)-2) > 1e-4 {
		t.Errorf("measured twice as long, usable %.3f times", float64(slow.Usable/c.Usable))
	}
}

// A switch keeps its number in the survey, whichever of them were taped, and one whose
// place is known needs no tape.
func TestPassingTakesEverySwitchItCan(t *testing.T) {
	o := example("3.5 s", "5 s")
	o.Controls = []opening.Control{{Side: opening.PullSide}, {Side: opening.PullSide, FromMiddle: q.Exactly(5 * q.Foot)}}
	if got := passingOf(o).Walks[0].Control; got != "switch 2" {
		t.Errorf("the second switch is called %q", got)
	}
	o.Controls = []opening.Control{{What: "plate", Side: opening.PullSide, Place: opening.Spot{Along: q.Exactly(18*q.Inch + 4*q.Foot), Off: q.Exactly(q.Length(0))}}}
	s := passingOf(o)
	if len(s.Missing) > 0 || len(s.Walks) == 0 {
		t.Fatalf("a switch whose place is known: %q is missing", s.Missing)
	}
	if got := s.Walks[0].From; math.Abs(float64(got-4*q.Foot)) > float64(q.Inch) { // the middle is about half a leaf from the pin
		t.Errorf("it is %.3f m from the middle of the doorway, want about 4 ft", float64(got))
	}
}
