package report

import (
	"fmt"
	"math"

	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/transit"
)

// passing writes whether people get through while the leaf is held open.
func (t *Text) passing(p *plan.Plan) {
	s := p.Passing
	if s == nil {
		return
	}
	t.head("Time to get through (advice: speeds and way are common practice, from memory)")
	if len(s.Missing) > 0 {
		for _, what := range s.Missing {
			t.paragraph("missing:", what)
		}
		return
	}
	far := farthest(s)
	t.paragraph("*", t.cycle(&s.Cycle)+".")
	t.paragraph("*", fmt.Sprintf("The way, from the farthest switch (%s): %s to the doorway, %s beyond it, and the person's own %s.",
		far.Control, t.away(far.From), t.away(s.Clear), t.away(s.Person)))
	tab := t.section(13, 12, 6, 8, 8, 10)
	tab.add("", "who", "needs", "to spare", "a hold that fits", "a switch that fits")
	for i := range s.Walks {
		if w := &s.Walks[i]; w.Control == far.Control && w.From == far.From {
			t.walk(tab, w)
		}
	}
	tab.rows = append(tab.rows, row{tint: tints[far.Verdict], cells: []string{advised(far.Verdict),
		"hold recommended for that distance (ANSI/BHMA A156.19-2013, A-5)", tenths(far.Least), seconds(s.Hold-far.Least, far.U), tenths(far.Least), ""}})
	t.put(tab)
	for _, note := range s.Notes {
		t.paragraph("-", note)
	}
}

// farthest is the switch that is farthest away, from which it takes longest.
func farthest(s *plan.Passing) *plan.Held {
	far := &s.Holds[0]
	for i := range s.Holds {
		if s.Holds[i].From > far.From {
			far = &s.Holds[i]
		}
	}
	return far
}

func (t *Text) walk(tab *table, w *plan.Walked) {
	who, far := w.Who, "nowhere"
	if w.Must {
		who += ", who must get through"
	}
	if w.Actuator >= 0 {
		far = "up to " + t.atMost(w.Actuator)
	}
	tab.rows = append(tab.rows, row{tint: tints[w.Verdict], cells: []string{
		advised(w.Verdict), who, tenths(w.Needed), seconds(w.Margin, w.U), fitting(w.Advice.Hold), far}})
}

// fitting is a hold that lets people through.
func fitting(hold quantity.Time) string {
	if hold > 0 {
		return tenths(hold)
	}
	return "any"
}

// away is a distance on the floor, as a tape shows it.
func (t *Text) away(l quantity.Length) string {
	return hold(quantity.FormatValue(l, t.style.Units, -1))
}

// atMost is a largest distance, rounded down to an inch or a centimetre.
func (t *Text) atMost(l quantity.Length) string {
	step := 10 * quantity.Millimetre
	if t.style.Units == quantity.US {
		step = quantity.Inch
	}
	return t.away(step * quantity.Length(math.Floor(float64(l/step)+1e-9)))
}

// cycle says for how long an opening is free.
func (t *Text) cycle(c *plan.Cycle) string {
	text := fmt.Sprintf("Free for %s from the press: opening %s, held %s", seconds(c.Available(), transit.Spread(c.Spread)),
		seconds(c.Opening, c.Spread.Opening), seconds(c.Hold, c.Spread.Hold))
	if c.Usable > 0 {
		text += fmt.Sprintf(", closing %s to %s, where a wheelchair's %s are no longer free", seconds(c.Usable, c.Spread.Usable), hold(degrees(c.FreeTo)), t.away(transit.ChairWidth))
	}
	return text
}

type passingJSON struct {
	cycleJSON
	Clear   number     `json:"clear"`
	Person  number     `json:"person"`
	Walks   []walkJSON `json:"walks"`
	Holds   []heldJSON `json:"holds"`
	Missing []string   `json:"missing"`
	Notes   []string   `json:"notes"`
}

// cycleJSON is one opening under power.
type cycleJSON struct {
	Opening  number `json:"opening"`
	OpeningU number `json:"opening_u"`
	Hold     number `json:"hold"`
	HoldU    number `json:"hold_u"`
	Usable   number `json:"usable"`
	UsableU  number `json:"usable_u"`
	FreeTo   number `json:"free_to"`
}

type walkJSON struct {
	Control  string `json:"control"`
	From     number `json:"distance"`
	Who      string `json:"who"`
	Speed    number `json:"speed"`
	Must     bool   `json:"must"`
	Needed   number `json:"needed"`
	Free     number `json:"available"`
	Margin   number `json:"margin"`
	U        number `json:"u"`
	Verdict  string `json:"verdict"`
	Hold     number `json:"hold_that_fits"`
	Actuator number `json:"distance_that_fits"`
}

type heldJSON struct {
	Control string `json:"control"`
	From    number `json:"distance"`
	Least   number `json:"least"`
	Verdict string `json:"verdict"`
}

func cycleOf(c *plan.Cycle) cycleJSON {
	return cycleJSON{number(c.Opening), number(c.Spread.Opening), number(c.Hold), number(c.Spread.Hold), number(c.Usable), number(c.Spread.Usable), number(c.FreeTo)}
}

func passingOf(p *plan.Plan) *passingJSON {
	s := p.Passing
	if s == nil {
		return nil
	}
	out := &passingJSON{
		cycleJSON: cycleOf(&s.Cycle), Clear: number(s.Clear), Person: number(s.Person),
		Walks: []walkJSON{}, Holds: []heldJSON{}, Missing: texts(s.Missing), Notes: texts(s.Notes),
	}
	for i := range s.Walks {
		w := &s.Walks[i]
		out.Walks = append(out.Walks, walkJSON{w.Control, number(w.From), w.Who, number(w.Speed), w.Must, number(w.Needed), number(w.Available),
			number(w.Margin), number(w.U), w.Verdict.String(), number(w.Hold), number(w.Actuator)})
	}
	for _, h := range s.Holds {
		out.Holds = append(out.Holds, heldJSON{h.Control, number(h.From), number(h.Least), h.Verdict.String()})
	}
	return out
}
