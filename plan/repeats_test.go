package plan

import (
	"strings"
	"testing"

	"swingwright/judge"
	"swingwright/opening"
)

// A time read three times close to its limit says how many more laps would settle it,
// and with so many it is settled.
func TestMoreLapsSettle(t *testing.T) {
	j, books := clinic(t)
	o := *demoOpening(t, j, "101")
	dwell := func(n int) *Finding {
		var laps []string
		for range n {
			laps = append(laps, "5.08 s")
		}
		o.Readings = []opening.Reading{{Fact: "powered.dwell", Values: laps}}
		p := Make(&o, &j.Sheets, books, Options{Draws: 256})
		for i := range p.Findings {
			if f := &p.Findings[i]; f.Book.ID == "a156.19-2007" && f.Rule.ID == "dwell" {
				return f
			}
		}
		t.Fatal("no rule about the dwell")
		return nil
	}
	f := dwell(3)
	if f.Verdict != judge.TooClose || !strings.Contains(f.Why, "3 readings; 9 in all would settle it") {
		t.Fatalf("three laps: %v, %s", f.Verdict, f.Why)
	}
	if f := dwell(9); f.Verdict != judge.Meets {
		t.Errorf("nine laps: %v, %s", f.Verdict, f.Why)
	}
	if f := dwell(8); f.Verdict != judge.TooClose {
		t.Errorf("eight laps: %v", f.Verdict)
	}
}

// A later reading takes the place of laps taken before, their number included.
func TestALaterReadingHolds(t *testing.T) {
	j, books := clinic(t)
	o := *demoOpening(t, j, "101")
	o.Readings = []opening.Reading{{Fact: "powered.dwell", Values: []string{"5.08 s", "5.08 s", "5.08 s"}}, {Fact: "powered.dwell", Value: "5.1 s ± 0.3 s"}}
	p := Make(&o, &j.Sheets, books, Options{Draws: 64})
	for i := range p.Findings {
		if f := &p.Findings[i]; f.Book.ID == "a156.19-2007" && f.Rule.ID == "dwell" {
			if f.Verdict != judge.TooClose || strings.Contains(f.Why, "readings") {
				t.Errorf("%v, %s", f.Verdict, f.Why)
			}
			return
		}
	}
	t.Fatal("no rule about the dwell")
}
