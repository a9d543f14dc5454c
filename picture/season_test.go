package picture

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"swingwright/internal/draw"
	"swingwright/plan"
	q "swingwright/quantity"
	"swingwright/window"
)

var monthNames = strings.Fields("January February March April May June July August September October November December")

// anyYear is months of any outcome at one setting or two.
func anyYear(t *rapid.T) *plan.Seasons {
	s := &plan.Seasons{}
	scale := rapid.SampledFrom([]float64{1e-3, 1, 100}).Draw(t, "scale")
	number := func(name string) float64 { return scale * rapid.Float64Range(-1, 1).Draw(t, name) }
	n := rapid.IntRange(1, 12).Draw(t, "months")
	season := func(m *plan.Month) plan.Season {
		one := plan.Season{Forecast: window.Forecast{Month: m.Name, Budget: q.Torque(number("budget"))}}
		one.Outcome = window.Outcome(rapid.IntRange(0, 3).Draw(t, "outcome"))
		one.Passed[1].Time = q.Time(math.Abs(number("time")))
		if rapid.Bool().Draw(t, "never closes") {
			one.Passed[1].Time = q.Time(math.NaN())
		}
		one.TooClose, one.Stalls = rapid.Bool().Draw(t, "close"), rapid.Bool().Draw(t, "stalls")
		return one
	}
	two := rapid.Bool().Draw(t, "two settings")
	if two {
		s.Set = &plan.YearSetting{Power: 3}
	}
	for i := range n {
		m := plan.Month{Name: rapid.SampledFrom([]string{monthNames[i], "a very hot spell in the dog days", "x", ""}).Draw(t, "name"), Pressure: q.Exactly(q.Pressure(number("pressure")))}
		s.Months, s.Today = append(s.Months, m), append(s.Today, season(&m))
		if two {
			s.Best = append(s.Best, season(&m))
		}
	}
	return s
}

// Whatever the months do, the year can be drawn: every number finite, all on the
// page, no word on another.
func TestAnyYearIsLegible(t *testing.T) {
	o, _, _ := demoOpening(t, "103")
	p := &plan.Plan{Opening: &o}
	rapid.Check(t, func(t *rapid.T) {
		for _, fault := range faults(Seasons(p, anyYear(t), rapid.SampledFrom(systems).Draw(t, "units"))) {
			t.Error(fault)
		}
	})
}

// year is one month of every outcome, as no leaf would have them.
func year() *plan.Seasons {
	s := &plan.Seasons{}
	for i, o := range []window.Outcome{window.Latches, window.Slams, window.TooHard, window.StaysOpen, window.Latches, window.Latches} {
		m := plan.Month{Name: monthNames[i], Pressure: q.Exactly(q.Pressure(3 * i))}
		one := plan.Season{Forecast: window.Forecast{Month: m.Name, Outcome: o}, TooClose: i == 4, Stalls: i == 5}
		s.Months, s.Today = append(s.Months, m), append(s.Today, one)
	}
	return s
}

// Every state is told by a word and by a shape of its own: without colour, and
// without the words, no two look alike.
func TestStatesDifferByWordAndShape(t *testing.T) {
	o, _, _ := demoOpening(t, "103")
	p := &plan.Plan{Opening: &o}
	scene := Seasons(p, year(), q.SI)
	for _, fault := range faults(scene) {
		t.Error(fault)
	}
	text := words(scene)
	for _, word := range []string{"latches", "slams", "too hard", "stays open", "too close", "operator stalls", "Jan", "June"} {
		if !strings.Contains(text, word) {
			t.Errorf("the picture lacks the word %q", word)
		}
	}
	shapes := map[string]string{}
	for _, one := range year().Today {
		looks := ""
		for _, item := range shape(&one, draw.Point{}) {
			switch i := item.(type) {
			case draw.Circle:
				looks += fmt.Sprintf("circle of %.1f, filled %v;", i.Radius, i.Style.Fill == draw.Ink)
			case draw.Path:
				looks += fmt.Sprintf("%d corners;", len(i.Points))
			}
		}
		if other, again := shapes[looks]; again {
			t.Errorf("%s looks like %s: %s", one.Words(), other, looks)
		}
		shapes[looks] = one.Words()
	}
}

func TestYearThatCannotBeToldSaysWhy(t *testing.T) {
	o, _, _ := demoOpening(t, "103")
	scene := Seasons(&plan.Plan{Opening: &o}, &plan.Seasons{Missing: []string{"the weather of the place"}}, q.SI)
	if !strings.Contains(words(scene), "the weather of the place") {
		t.Error("what is missing is not told")
	}
}
