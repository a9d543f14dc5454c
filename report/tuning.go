package report

import (
	"fmt"

	"swingwright/judge"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/tune"
)

// Tuning writes what to turn next, what that is reckoned to come to, and how good such
// reckoning was so far.
func (t *Text) Tuning(p *plan.Plan, w *plan.Tuning) error {
	t.heading(p)
	if len(w.Missing) > 0 {
		t.head("What to turn cannot be told")
		for _, what := range w.Missing {
			t.paragraph("missing:", what)
		}
		t.remarks(p)
		return t.flush()
	}
	t.head("What to do: " + w.Do.String())
	for _, m := range w.Moves {
		t.paragraph("->", m.String())
	}
	for _, note := range w.Notes {
		t.paragraph("*", note)
	}
	for i := range w.Asks {
		t.paragraph("->", w.Asks[i].String())
	}
	t.paragraph("restore:", "it was found at "+w.Restore.String())
	t.outlooks(w.Advice)
	t.exclude(w.Advice)
	t.learnt(w)
	t.aside("Could not be put", w.Left)
	t.remarks(p)
	return t.flush()
}

// outlooks writes every demand as it is now and as it is reckoned to be after.
func (t *Text) outlooks(a *tune.Advice) {
	t.head("What is asked")
	tab := t.section(24, 12, 16, 16)
	tab.add("demand", "limit", "now", "after the turn")
	for i := range a.Now.Demands {
		d := &a.Now.Demands[i]
		after := "-"
		if a.After != nil {
			after = t.foreseen(&a.After.Demands[i])
		}
		dim := d.Demand.Kind.Dim()
		tab.add(d.Demand.What, d.Demand.Kind.Side().String()+" "+t.amount(dim, d.Demand.Limit), t.foreseen(d), after)
	}
	t.put(tab)
	if a.After == nil {
		return
	}
	tab = t.section(24, 16, 16)
	tab.add("times", "now", "after the turn")
	after := a.After.Times()
	for _, now := range a.Now.Times() {
		for _, then := range after {
			if then.From == now.From && then.To == now.To {
				tab.add(degrees(now.From)+" to "+degrees(now.To), spreadTime(now), spreadTime(then))
			}
		}
	}
	t.put(tab)
}

func spreadTime(one tune.Time) string {
	return hold(quantity.Format(quantity.Give(one.Time, one.U), quantity.SI))
}

func (t *Text) foreseen(f *tune.Foreseen) string {
	mark := verdictWords(f.Verdict)
	if f.Verdict == judge.NotMeasured {
		return mark
	}
	return mark + ", " + t.spread(f.Demand.Kind.Dim(), f.Value, f.U)
}

// exclude writes, where no setting will do, which demands exclude each other.
func (t *Text) exclude(a *tune.Advice) {
	for i := range a.Conflicts {
		t.paragraph("Exclude each other:", "")
		for _, g := range a.Conflicts[i].Of {
			t.paragraph("-", g.Demand.What+" ("+g.Demand.Source+")")
		}
	}
}

// learnt says what is known of the valves by now, what cannot be told, and how good
// foretold times were.
func (t *Text) learnt(w *plan.Tuning) {
	t.head("What is known of this closer")
	for _, v := range []struct {
		name  string
		valve *tune.Valve
	}{{"sweep valve", &w.Sweep}, {"latch valve", &w.Latch}} {
		if v.valve.Known {
			t.paragraph("*", fmt.Sprintf("%s: learned from %d positions; its flow stops %.2f ± %.2f turns from seated", v.name, v.valve.Points, float64(v.valve.Shut), 2*float64(v.valve.ShutU)))
		} else {
			t.paragraph("*", v.name+": not learned yet; an eighth of a turn at a time, and time it again")
		}
	}
	for i := range w.Checks {
		mark, text := t.checked(&w.Checks[i])
		t.paragraph(mark, text)
	}
	if w.Fit != nil {
		for _, text := range w.Fit.CannotTell {
			t.paragraph("..", text)
		}
		for _, text := range w.Fit.Remarks() {
			t.paragraph("*", text)
		}
	}
	for i := range w.Log {
		t.foretold(&w.Log[i])
	}
	if n := w.Track.N; n > 0 {
		t.paragraph("*", fmt.Sprintf("of %s foretold so far the misses were %.0f %% of the time found, and %.0f %% lay within twice the uncertainty that was told with them",
			quantity.Counted(n, "time", "times"), 100*float64(w.Track.Miss), 100*float64(w.Track.Within2)))
	}
}

// checked tells backcheck as a recording shows it, or why it does not.
func (t *Text) checked(c *plan.Checked) (mark, text string) {
	if c.Why != "" {
		return "..", "backcheck, by " + c.Name + ": not told: " + c.Why
	}
	return "*", fmt.Sprintf("backcheck, by %s: sets in at %s and resists with %s at the pinion (correlation %.1f), pushed with %s", c.Name,
		t.spread(quantity.DimAngle, float64(c.Onset), float64(c.OnsetU)), t.spread(quantity.DimDamping, float64(c.Viscous), float64(c.U)),
		float64(c.Correlation), t.amount(quantity.DimTorque, float64(c.Hand)))
}

// foretold writes one adjustment: what was foretold before it and what was found.
func (t *Text) foretold(a *tune.Adjustment) {
	for _, found := range a.Found {
		for _, f := range a.Foreseen {
			if f.From == found.From && f.To == found.To {
				t.paragraph("*", fmt.Sprintf("to %v: %s to %s foretold %s, found %s", a.To, degrees(f.From), degrees(f.To), spreadTime(f), spreadTime(found)))
			}
		}
	}
}

// Symptom writes what the trade turns for a symptom.
func (t *Text) Symptom(s *tune.Symptom) error {
	t.head(s.Name)
	for _, n := range s.First {
		t.paragraph("first:", nudge(n))
	}
	for _, n := range s.Then {
		t.paragraph("then:", nudge(n))
	}
	if s.Else != "" {
		t.paragraph("else:", s.Else)
	}
	t.paragraph("source:", s.Source)
	return t.flush()
}

func nudge(n tune.Nudge) string {
	way := "less"
	switch n.Part {
	case tune.SpringPart:
		way = map[bool]string{true: "stronger", false: "weaker"}[n.More]
	case tune.OperatorSpeed:
		way = map[bool]string{true: "faster", false: "slower"}[n.More]
	default:
		way = map[bool]string{true: "farther open, an eighth of a turn at a time", false: "farther closed, an eighth of a turn at a time, never past its resistance"}[n.More]
	}
	return n.Part.String() + " " + way
}
