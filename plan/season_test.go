package plan

import (
	"math"
	"strings"
	"testing"

	"swingwright/fact"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/swing"
	"swingwright/weather"
	"swingwright/window"
)

func seasonsOf(t *testing.T, p *Plan, sheets *opening.Sheets, c opening.Climate) *Seasons {
	t.Helper()
	s, err := p.Seasons(sheets, Options{Climate: c})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// What a month does to the leaf today is what a plan with that largest pressure
// and that temperature finds: the same ending, time and latch budget.
func TestMonthsAreWhatPlansFind(t *testing.T) {
	o, sheets := street(t, 2)
	c := town()
	s := seasonsOf(t, Make(&o, sheets, nil, Options{Draws: 64, Climate: c}), sheets, c)
	if len(s.Missing) > 0 || len(s.Today) != len(c.Months) {
		t.Fatalf("missing %q, %d months", s.Missing, len(s.Today))
	}
	for i, m := range s.Months {
		alone := o
		alone.Air = opening.Air{Most: q.Exactly(m.Pressure.Value), Temperature: q.Exactly(m.Oil), Surveyed: o.Air.Surveyed}
		p := Make(&alone, sheets, nil, Options{Draws: 64})
		got, want := &s.Today[i], &p.Swing.Worst90
		if got.Closing.End != want.End || math.Abs(float64(got.Closing.Time-want.Time)) > 2e-3 {
			t.Errorf("%s: %v after %.3f s; a plan finds %v after %.3f s", m.Name, got.Closing.End, float64(got.Closing.Time), want.End, float64(want.Time))
		}
		if d := float64(got.Budget) - p.Facts[fact.LatchMargin].Value; math.Abs(d) > 1e-9 {
			t.Errorf("%s: latch budget off by %g N·m", m.Name, d)
		}
		if latches := p.Facts[fact.LatchesFrom5].Value == 1 && p.Facts[fact.LatchesFrom30].Value == 1 && p.Facts[fact.LatchesFrom90].Value == 1; latches == (got.Outcome == window.StaysOpen) {
			t.Errorf("%s: %v, and a plan says that it latches: %v", m.Name, got.Outcome, latches)
		}
	}
}

// Every month's pressure is what package weather makes of it, and its oil that of
// the air in which the closer hangs.
func TestMonthsTakeTheirAirFromTheWeather(t *testing.T) {
	o, sheets := street(t, 5)
	c := town()
	c.Months[0].Wind = q.Exactly(20 * q.MilePerHour)
	o.Air.Wind = q.Exactly(10 * q.MilePerHour) // it stands in a lee
	for _, swings := range []opening.YesNo{"yes", "no"} {
		o.Air.SwingsOut = swings
		s := seasonsOf(t, Make(&o, sheets, nil, Options{Draws: 64}), sheets, c)
		for i, m := range s.Months {
			want := weather.Stack(m.Outdoors, m.Indoors, 5)
			if i == 0 {
				want += weather.Wind(weather.Windward, 10*q.MilePerHour)
			}
			hangs := m.Outdoors // a top jamb arm's closer is on the push side
			if swings == "yes" {
				want, hangs = -want, m.Indoors
			}
			if math.Abs(float64(m.Pressure.Value-want)) > 1e-9 || m.Oil != hangs {
				t.Errorf("swings out %s, %s: %.3f Pa and %.1f K, want %.3f and %.1f", swings, m.Name, float64(m.Pressure.Value), float64(m.Oil), float64(want), float64(hangs))
			}
		}
		a, _ := swing.OilViscosity(sheets.Closers[0].Oil.At40.Value, sheets.Closers[0].Oil.At100.Value, s.Months[0].Oil)
		b, _ := swing.OilViscosity(sheets.Closers[0].Oil.At40.Value, sheets.Closers[0].Oil.At100.Value, o.Air.Surveyed.Value)
		if got := float64(s.Months[0].Factor); math.Abs(got-float64(a/b)) > 1e-12 {
			t.Errorf("oil %g times as thick, want %g", got, float64(a/b))
		}
	}
}

// "Works in summer, not in winter": the trade's complaint, at a door that swings in
// well below the neutral plane.
func TestWorksInSummerNotInWinter(t *testing.T) {
	o, sheets := street(t, 15)
	c := town()
	s := seasonsOf(t, Make(&o, sheets, nil, Options{Draws: 64, Climate: c}), sheets, c)
	if s.Today[0].Outcome != window.StaysOpen || s.Today[4].Outcome == window.StaysOpen {
		t.Errorf("January %s, July %s", s.Today[0].Words(), s.Today[4].Words())
	}
	for i := 1; i < len(s.Today); i++ {
		if s.Today[i].Budget <= s.Today[i-1].Budget {
			t.Errorf("%s leaves less to latch with than the colder month before", s.Months[i].Name)
		}
	}
	better(t, s)
}

// better holds a year to its word: another setting is named only where it is better
// than today's, and where none is, that is said.
func better(t *testing.T, s *Seasons) {
	t.Helper()
	switch said := strings.Contains(strings.Join(s.Notes, " "), "than today's: leave it"); {
	case s.Set == nil && !said:
		t.Error("no setting for the year, and nobody says so")
	case s.Set != nil && (said || len(s.Best) != len(s.Months) || !serves(s.Best, s.Today)):
		t.Errorf("%d months in order at the setting for the year, no better than today's", s.Set.Good)
	}
}

// A pressure that pushes the leaf shut is too hard for the hand, then for the
// operator.
func TestTooHardInWinter(t *testing.T) {
	j, books := clinic(t)
	o := *demoOpening(t, j, "103")
	o.Operator = demoOpening(t, j, "102").Operator
	o.Air = opening.Air{Below: q.Exactly(q.Length(40)), SwingsOut: "yes", Surveyed: celsius(18)}
	c := town()
	s := seasonsOf(t, Make(&o, &j.Sheets, books, Options{Draws: 64, Climate: c}), &j.Sheets, c)
	january, july := &s.Today[0], &s.Today[4]
	if january.Outcome != window.TooHard || !january.Stalls || !(january.Spare < 0) {
		t.Errorf("January: %s, %g N to spare", january.Words(), float64(january.Spare))
	}
	if july.Stalls || july.Hard {
		t.Errorf("July: %s", july.Words())
	}
	better(t, s)
}

func TestSeasonsSayWhatIsMissing(t *testing.T) {
	o, sheets := street(t, 5)
	p := Make(&o, sheets, nil, Options{Draws: 64})
	if s := seasonsOf(t, p, sheets, opening.Climate{}); len(s.Missing) != 1 || !strings.Contains(s.Missing[0], "climate.months") {
		t.Errorf("without a climate: %q", s.Missing)
	}
	o.Use.Place, o.Closer = "interior", opening.Closer{}
	p = Make(&o, sheets, nil, Options{Draws: 64})
	if s := seasonsOf(t, p, sheets, town()); len(s.Missing) != 2 {
		t.Errorf("between two rooms, no closer: %q", s.Missing)
	}
}
