package report

import (
	"fmt"
	"math"

	"swingwright/plan"
	"swingwright/quantity"
)

// weathered says from what weather a pressure was reckoned, if it was.
func weathered(r plan.Row) string {
	if !r.Weathered() {
		return ""
	}
	return " (" + r.Source + ")"
}

// assumedWeather adds what was assumed of the weather, where a pressure was
// reckoned from it.
func (t *Text) assumedWeather(tab *table, p *plan.Plan) {
	if r := p.Resolved; !r.Most.Weathered() && !r.Least.Weathered() {
		return
	}
	for _, a := range plan.WeatherAssumed() {
		tab.add(a.What, t.spread(a.Dim, a.Value, a.U), a.Why)
	}
}

// seasons writes what the months of the place do to the leaf.
func (t *Text) seasons(s *plan.Seasons) {
	if s == nil {
		return
	}
	if len(s.Missing) > 0 {
		t.aside("The months cannot be told; missing", s.Missing)
		return
	}
	t.head("Month by month, at today's setting")
	t.months(s, s.Today)
	if s.Set != nil {
		t.head("Month by month, at the setting that serves the year better")
		t.paragraph("*", fmt.Sprintf("Power %.2f, sweep valve %s, latch valve %s.",
			float64(s.Set.Power), opened(s.Set.SweepTurns, s.Set.Sweep), opened(s.Set.LatchTurns, s.Set.Latch)))
		t.months(s, s.Best)
	}
	t.aside("The months are held against", s.Limits)
	t.aside("Of the months, taken for granted", s.Notes)
}

// opened is where a valve is left.
func opened(turns quantity.Turns, resistance quantity.Damping) string {
	if math.IsNaN(float64(turns)) {
		return fmt.Sprintf("at %.3g N·m·s/rad", float64(resistance))
	}
	return fmt.Sprintf("%.2f turns open", float64(turns))
}

// months writes a row for every month at one setting.
func (t *Text) months(s *plan.Seasons, year []plan.Season) {
	tab := t.section(5, 5, 8, 6, 5, 8, 6, 12)
	tab.add("month", "out", "pressure", "closer", "oil", "left to latch", "closes", "the leaf")
	for i := range year {
		one, m := &year[i], &s.Months[i]
		tab.add(m.Name, t.amount(quantity.DimTemperature, float64(m.Outdoors)),
			t.amount(quantity.DimPressure, float64(m.Pressure.Value)), t.amount(quantity.DimTemperature, float64(m.Oil)),
			fmt.Sprintf("x%.2f", float64(m.Factor)),
			t.spread(quantity.DimTorque, float64(one.Budget), float64(one.U)),
			passed(one.Passed[1].Time), one.Words())
	}
	t.put(tab)
	worst, good := plan.Worst(year)
	near := ""
	for i := range year {
		if year[i].TooClose {
			near = ", not counting how close some of them are"
		}
	}
	t.paragraph("", fmt.Sprintf("%d of %s in order%s; at worst: %s.", good, quantity.Counted(len(year), "month", "months"), near, worst))
}

// passed is when a mark was passed.
func passed(at quantity.Time) string {
	if math.IsNaN(float64(at)) {
		return "never"
	}
	return hold(fmt.Sprintf("%.1f s", float64(at)))
}

type seasonsJSON struct {
	Missing []string         `json:"missing"`
	Months  []monthJSON      `json:"months"`
	Today   []seasonJSON     `json:"today"`
	Set     *yearSettingJSON `json:"setting"`
	Best    []seasonJSON     `json:"best"`
	Limits  []string         `json:"limits"`
	Notes   []string         `json:"notes"`
}

type monthJSON struct {
	Name      string `json:"name"`
	Outdoors  number `json:"outdoors"`
	Indoors   number `json:"indoors"`
	Closer    number `json:"closer"`
	Pressure  number `json:"pressure"`
	PressureU number `json:"pressure_u"`
	Oil       number `json:"oil"`
}

type yearSettingJSON struct {
	Power      number `json:"power"`
	Sweep      number `json:"sweep"`
	Latch      number `json:"latch"`
	SweepTurns number `json:"sweep_turns"`
	LatchTurns number `json:"latch_turns"`
	All        bool   `json:"all"`
	Good       int    `json:"good"`
}

type seasonJSON struct {
	Month    string  `json:"month"`
	Outcome  string  `json:"outcome"`
	From     *number `json:"from"`
	Rests    *number `json:"rests"`
	Fast     bool    `json:"too_fast"`
	Hard     bool    `json:"too_hard"`
	Stalls   bool    `json:"operator_stalls"`
	TooClose bool    `json:"too_close"`
	Budget   number  `json:"latch_margin"`
	U        number  `json:"latch_margin_u"`
	To10     number  `json:"time_to_10"`
	Closed   number  `json:"time_to_closed"`
	Energy   number  `json:"peak_energy"`
	Hand     number  `json:"hand"`
	Spare    number  `json:"hand_spare"`
}

func seasonsOf(s *plan.Seasons) *seasonsJSON {
	if s == nil {
		return nil
	}
	out := &seasonsJSON{
		Missing: texts(s.Missing), Months: []monthJSON{}, Today: yearOf(s.Today), Best: yearOf(s.Best),
		Limits: texts(s.Limits), Notes: texts(s.Notes),
	}
	for _, m := range s.Months {
		out.Months = append(out.Months, monthJSON{m.Name, number(m.Outdoors), number(m.Indoors), number(m.Oil), number(m.Pressure.Value), number(m.Pressure.U), number(m.Factor)})
	}
	if c := s.Set; c != nil {
		out.Set = &yearSettingJSON{number(c.Power), number(c.Sweep), number(c.Latch), number(c.SweepTurns), number(c.LatchTurns), c.All, c.Good}
	}
	return out
}

func yearOf(year []plan.Season) []seasonJSON {
	out := []seasonJSON{}
	for i := range year {
		s := &year[i]
		one := seasonJSON{
			Month: s.Month, Outcome: s.Outcome.String(), Fast: s.Fast, Hard: s.Hard, Stalls: s.Stalls, TooClose: s.TooClose,
			Budget: number(s.Budget), U: number(s.U), To10: number(s.Passed[0].Time), Closed: number(s.Passed[1].Time),
			Energy: number(s.Closing.Energy), Hand: number(s.Hand), Spare: number(s.Spare),
		}
		if from, rests := number(s.From), number(s.Rests); from > 0 {
			one.From, one.Rests = &from, &rests
		}
		out = append(out, one)
	}
	return out
}
