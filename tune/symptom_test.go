package tune

import (
	"strings"
	"testing"

	"swingwright/quantity"
)

// The rules of common practice, each as the trade states it: what is said, what is turned
// first, and which way.
func TestRulesOfTheTrade(t *testing.T) {
	for said, want := range map[string][]Nudge{
		"It closes too fast.":                         {{SweepValve, false}, {LatchValve, false}},
		"fast, then abruptly slow just before closed": {{SweepValve, false}},
		"slow then fast just before closed":           {{LatchValve, false}},
		"Struggles past 70 degrees":                   {{BackcheckValve, true}},
		"the door slams":                              {{LatchValve, false}},
		"it does not latch":                           {{LatchValve, true}},
		"hangs before latching":                       {{LatchValve, true}},
		"too hard to push":                            {{SpringPart, false}},
		"opens too fast by hand and bangs the stop":   {{BackcheckValve, false}},
	} {
		got := Recognise(said)
		if len(got) == 0 || len(got[0].First) != len(want) {
			t.Errorf("%q: %v", said, got)
			continue
		}
		for i := range want {
			if got[0].First[i] != want[i] {
				t.Errorf("%q: turn %v, want %v", said, got[0].First[i], want[i])
			}
		}
	}
	if got := Recognise("squeaks"); len(got) != 0 {
		t.Errorf("squeaking is %v", got)
	}
}

func TestEverySymptomIsWhole(t *testing.T) {
	names := map[string]bool{}
	for _, s := range Symptoms() {
		if s.Name == "" || names[s.Name] || s.Source == "" || s.Else == "" || len(s.Said) == 0 || len(s.First)+len(s.Then) == 0 {
			t.Errorf("%+v", s)
		}
		names[s.Name] = true
		if got := Recognise(s.Name); len(got) == 0 || got[0].Name != s.Name {
			t.Errorf("%q is recognised as %v", s.Name, got)
		}
	}
	if len(names) < 12 {
		t.Errorf("only %d symptoms", len(names))
	}
}

// An eighth until the valve is learned, a quarter of resistance after; never past the
// screw's resistance.
func TestSizesOfNudges(t *testing.T) {
	fast := Recognise("closes too fast")[0]
	now := State{Power: 3, Sweep: 0.75, Latch: 0.1}
	seated, err := LearnValve([]Point{{Turns: 0.4, Resistance: 30, U: 0.02}, {Turns: 0.1, Resistance: 200, U: 0.02}}, unknown, nil)
	if err != nil {
		t.Fatal(err)
	}
	moves := fast.Moves(now, nil, &seated)
	if len(moves) != 1 || moves[0].Part != SweepValve || moves[0].Turns != eighth || moves[0].More || moves[0].Learned {
		t.Errorf("%v: the latch is all but shut and has to stay", moves)
	}
	if got, want := moves[0].String(), "sweep valve in 1/8 of a turn, to 5/8 of a turn open"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	learned, err := LearnValve([]Point{{Turns: 0.4, Resistance: 30, U: 0.02}, {Turns: 0.6, Resistance: 19, U: 0.02}}, unknown, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, more := range []bool{true, false} {
		s := Symptom{First: []Nudge{{LatchValve, more}}}
		m := s.Moves(State{Latch: 0.4, Sweep: 1}, nil, &learned)[0]
		if !m.Learned || !(m.Turns < eighth) || m.More != more || (m.To > m.From) != more {
			t.Errorf("%+v", m)
		}
	}
	hard := Recognise("too hard to push")[0].Moves(now, nil, nil)
	if len(hard) != 1 || hard[0].String() != "spring down a little" {
		t.Errorf("%v", hard)
	}
	bang := Recognise("bangs the stop")[0].Moves(now, nil, nil)
	if len(bang) != 1 || bang[0].String() != "backcheck valve in 1/8 of a turn" {
		t.Errorf("%v", bang)
	}
	for _, m := range []Move{{Part: SpringPart, More: true, PowerFrom: 2, PowerTo: 2.5}, {Part: OperatorSpeed}} {
		if !strings.Contains(m.String(), m.Part.String()) {
			t.Error(m)
		}
	}
	if got := (State{Power: 2.5, Sweep: 1.5, Latch: 2}).String(); got != "spring at 2.50, sweep 1-1/2 turns and latch 2 turns open" {
		t.Error(got)
	}
}

// Turns are told as one counts them at a valve: fractions of a turn of whole eighths, else
// eighths.
func TestTurnsAreToldInEighths(t *testing.T) {
	for turns, want := range map[quantity.Turns]string{
		1.0 / 8: "1/8 of a turn", 0.5: "1/2 of a turn", 1: "1 turn", 1.375: "1-3/8 turns", 2: "2 turns", 0: "0 turns",
		1 + 23.0/32: "13-3/4 eighths of a turn", 1.0 / 16: "1/2 of an eighth of a turn", 3.0 / 32: "3/4 of an eighth of a turn",
	} {
		if got := turnsText(turns); got != want {
			t.Errorf("%g turns: %q, want %q", float64(turns), got, want)
		}
	}
}
