package report

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"swingwright/plan"
	q "swingwright/quantity"
	"swingwright/swing"
	"swingwright/window"
)

// winter is two months of which one stays open.
func winter() *plan.Seasons {
	s := &plan.Seasons{Limits: []string{"said-limit"}, Notes: []string{"said-note"}, Set: &plan.YearSetting{Power: 3.25, SweepTurns: 1.5, LatchTurns: q.Turns(math.NaN()), Latch: 34}}
	for i, name := range []string{"said-january", "said-july"} {
		s.Months = append(s.Months, plan.Month{Name: name, Outdoors: q.Celsius0 - 10 + q.Temperature(40*i), Pressure: q.Give(q.Pressure(19-24*i), q.Pressure(2)), Factor: 1.25})
		one := plan.Season{Forecast: window.Forecast{Month: name, Outcome: window.Latches, Passed: [2]swing.Mark{{Time: 6}, {Time: 7.5}}}}
		if i == 0 {
			one.Outcome, one.From, one.Rests, one.TooClose = window.StaysOpen, 5*q.Degree, 3.2*q.Degree, true
			one.Passed[1].Time = q.Time(math.NaN())
		}
		s.Today, s.Best = append(s.Today, one), append(s.Best, one)
	}
	return s
}

// The months say all that they know, to people and to programs; what never comes
// is "never" to the ones and null to the others.
func TestMonthsAreTold(t *testing.T) {
	p, w := excluded(t)
	var text, doc bytes.Buffer
	if err := Window(NewText(&text, Style{Width: 100, Units: q.SI}), p, w, winter()); err != nil {
		t.Fatal(err)
	}
	if err := WindowJSON(&doc, p, w, winter()); err != nil {
		t.Fatal(err)
	}
	for _, said := range []string{"said-january", "said-july", "said-limit", "said-note", "stays open at 3.2 deg", "never", "7.5 s", "19 Pa", "Power 3.25", "1.50 turns open", "at 34 N·m·s/rad", "1 of 2 months"} {
		if !strings.Contains(text.String(), said) {
			t.Errorf("people are not told %q", said)
		}
	}
	fits(t, text.String(), 100)
	var whole struct {
		Seasons struct {
			Months []struct{ Pressure, Oil float64 }
			Today  []struct {
				Outcome string
				Closed  *float64 `json:"time_to_closed"`
				Rests   *float64
			}
		}
	}
	if err := json.Unmarshal(doc.Bytes(), &whole); err != nil {
		t.Fatal(err)
	}
	s := &whole.Seasons
	if len(s.Months) != 2 || s.Months[0].Pressure != 19 || s.Today[0].Outcome != "stays open" || s.Today[0].Closed != nil || s.Today[0].Rests == nil || s.Today[1].Rests != nil {
		t.Errorf("programs are told %+v", s)
	}
}

func TestMonthsThatCannotBeToldSayWhy(t *testing.T) {
	p, w := excluded(t)
	var text bytes.Buffer
	if err := Window(NewText(&text, Style{}), p, w, &plan.Seasons{Missing: []string{"said-missing"}}); err != nil || !strings.Contains(text.String(), "said-missing") {
		t.Errorf("%v: what is missing is not told", err)
	}
}
