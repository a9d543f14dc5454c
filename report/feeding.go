package report

import (
	"fmt"
	"math"
	"strings"

	"swingwright/judge"
	"swingwright/plan"
	"swingwright/power"
	"swingwright/quantity"
)

// Feeding writes how the devices of an opening, or of a group, are fed.
func (t *Text) Feeding(f *plan.Feeding) error {
	t.title("Power of "+f.Name, '-')
	for _, what := range f.Missing {
		t.paragraph("missing:", what)
	}
	t.wiringFaults(f.Faults)
	for i := range f.Circuits {
		t.fed(&f.Circuits[i])
	}
	for i := range f.Branches {
		t.branch(&f.Branches[i])
	}
	t.pipes(f)
	t.cords(f)
	t.aside("A licensed electrician's", f.Electrician)
	t.aside("Others were named for", f.Others)
	t.head("Take care")
	for _, c := range f.Cautions {
		t.paragraph(c.Matter+":", c.Text)
	}
	return t.flush()
}

// wiringFaults writes everything that is wrong with the wiring.
func (t *Text) wiringFaults(all []power.Fault) {
	if len(all) == 0 {
		return
	}
	t.head("What is wrong with the wiring, or missing from it")
	tab := t.section(4, 16, 30)
	for _, f := range all {
		sign := marks[judge.NotMeasured]
		if f.Hazard {
			sign = marks[judge.FallsShort]
		}
		tab.add(sign, f.Where, f.What)
		if f.Source != "" {
			tab.note("by " + f.Source)
		}
		tab.note("hint: " + f.Hint)
	}
	t.put(tab)
}

// fed writes one supply and what it feeds.
func (t *Text) fed(d *plan.Fed) {
	text := fmt.Sprintf("Supply %s, %s", d.Supply.Name, t.amount(quantity.DimVoltage, float64(d.Tree.Volts)))
	if d.Rated > 0 {
		text += fmt.Sprintf(", %s, for some seconds %s", t.amount(quantity.DimCurrent, float64(d.Rated)), t.amount(quantity.DimCurrent, float64(d.Peak)))
	}
	t.head(text)
	if d.Course == nil {
		t.paragraph("..", "not reckoned, until what is missing above is there")
		return
	}
	tab := t.section(14, 12, 8, 16, 16)
	tab.add("device", "in its worst moment", "takes", "has", "needs")
	for i := range d.Devices {
		t.fedDevice(tab, d, &d.Devices[i])
	}
	t.put(tab)
	t.blank()
	tab = t.section(10, 8, 8, 10, 10, 10)
	tab.add("run", "gauge", "length", "carries at most", "takes then", "smallest that does")
	for k := range d.Tree.Runs {
		r, use := &d.Tree.Runs[k], &d.Course.Runs[k]
		smallest := "no gauges do"
		if d.Smallest != nil {
			smallest = d.Smallest[k].String()
		}
		tab.add(r.Name, hold(r.Gauges()), byFoot(d.Cables[k].Length.Value, t.style.Units), t.amount(quantity.DimCurrent, round(float64(use.Amps), 1000)),
			t.amount(quantity.DimVoltage, round(float64(use.Drop), 100)), hold(smallest))
	}
	t.put(tab)
	t.blank()
	t.statements(d)
	t.bestStagger(d)
	t.standby(d)
	for _, note := range d.Notes {
		t.paragraph("*", note)
	}
	t.takenFrom(d)
}

// parts are those of a unit to which a statement is rounded.
func parts(d quantity.Dimension) float64 {
	if d == quantity.DimLength {
		return 1e5
	}
	return 1000
}

// round keeps so many parts of a unit.
func round(x, parts float64) float64 { return math.Round(x*parts) / parts }

// byFoot is the length of a run: to the foot, or to the decimetre.
func byFoot(l quantity.Length, units quantity.System) string {
	if units == quantity.US {
		return hold(fmt.Sprintf("%.3g ft", float64(l/quantity.Foot)))
	}
	return hold(fmt.Sprintf("%.3g m", float64(l)))
}

// fedDevice writes a load in its worst moment.
func (t *Text) fedDevice(tab *table, d *plan.Fed, one *plan.FedDevice) {
	if !one.Works {
		tab.add(one.Device.Name, "asked for nothing", "", "", verdictWords(one.Verdict))
		return
	}
	has := t.spread(quantity.DimVoltage, float64(one.Volts), float64(one.U))
	switch {
	case one.NearCollapse():
		has = t.amount(quantity.DimVoltage, round(float64(one.Volts), 10)) + ", near collapse"
	case one.Ending != power.Fed:
		has = "the wires cannot carry what is asked of them: it " + one.Ending.String()
	}
	moment := one.Phase.String()
	if others := together(one, d.Openings); others != "" {
		moment += ", while " + others
	}
	load := d.LoadOf(one)
	tab.add(one.Device.Name, moment, t.amount(quantity.DimCurrent, round(float64(load.Draws[one.Phase]), 1000)), has,
		"at least "+t.amount(quantity.DimVoltage, round(float64(one.LeastItWorksAt), 100))+", "+verdictWords(one.Verdict))
	if t.style.Why {
		tab.note("least voltage: " + one.Source)
	}
}

// together names what other openings do meanwhile, those at rest left out.
func together(one *plan.FedDevice, openings []string) string {
	var parts []string
	for i, p := range one.Others {
		if p != power.Resting && openings[i] != one.Device.Opening {
			parts = append(parts, openings[i]+": "+p.String())
		}
	}
	return strings.Join(parts, ", ")
}

// statements writes what is judged of the supply and its battery.
func (t *Text) statements(d *plan.Fed) {
	t.limits("supply", d.Statements)
	size := fmt.Sprintf("%s at %s", t.amount(quantity.DimCurrent, float64(d.Demand.Size)), t.amount(quantity.DimVoltage, float64(d.Tree.Volts)))
	if d.Demand.Size == 0 {
		size = "none of those commonly made"
	}
	t.paragraph("*", fmt.Sprintf("smallest supply that does: %s; the devices take %s at rest and %s at work", size,
		t.amount(quantity.DimCurrent, round(float64(d.Demand.Idle), 1000)), t.amount(quantity.DimCurrent, round(float64(d.Demand.Sustained), 1000))))
}

// limits writes values held against limits.
func (t *Text) limits(of string, all []plan.Statement) {
	tab := t.section(26, 14, 12, 16)
	tab.add(of, "is", "limit", "")
	for i := range all {
		s := &all[i]
		is := "-"
		if !math.IsNaN(s.Value) {
			is = t.spread(s.Dim, round(s.Value, parts(s.Dim)), s.U)
		}
		tab.add(s.What, is, s.Side.String()+" "+t.amount(s.Dim, round(s.Limit, parts(s.Dim))), hold(markOf(s.Verdict, !s.Published))+noBreak+s.Verdict.String()+adviceOn(s))
		tab.note("by " + s.Source)
		if s.Say != "" && s.Verdict != judge.Meets {
			tab.note("hint: " + s.Say)
		} else if s.Dim == quantity.DimCharge {
			tab.note(s.Say)
		}
	}
	t.put(tab)
}

func adviceOn(s *plan.Statement) string {
	if s.Published {
		return ""
	}
	return " (advice)"
}

// bestStagger writes the delay between two openings that keeps the peak.
func (t *Text) bestStagger(d *plan.Fed) {
	s, n := d.Stagger, len(d.Tree.Sequences)
	if s == nil {
		if n > 1 && d.Tree.AnyTime {
			t.paragraph("*", "either opening may be asked at any moment, so the largest currents of both are taken to meet: no delay between them can be counted on")
		}
		return
	}
	first, last := d.Openings[0], d.Openings[n-1]
	peak := t.amount(quantity.DimCurrent, round(float64(s.Peak), 1000))
	apart := d.Tree.Sequences[n-1].Start - d.Tree.Sequences[0].Start
	now := fmt.Sprintf("as they start now, %s %.2f s after %s,", last, float64(apart), first)
	if apart == 0 {
		now = fmt.Sprintf("with %s and %s starting at once,", first, last)
	}
	then := fmt.Sprintf("%s starts %.2f s after %s", last, float64(apart+s.Delay), first)
	switch {
	case s.Keeps && s.Delay == 0:
		t.paragraph("*", fmt.Sprintf("%s the largest current is %s, within what the supply gives", now, peak))
	case s.Keeps:
		t.paragraph("*", fmt.Sprintf("set stagger so that %s: the largest current is then %s, within what the supply gives", then, peak))
	default:
		t.paragraph("*", fmt.Sprintf("no stagger keeps the largest current within what the supply gives; the best is that %s, with %s", then, peak))
	}
}

// standby writes what the battery has to hold.
func (t *Text) standby(d *plan.Fed) {
	s := d.Standby
	if s == nil {
		return
	}
	next := "none of those commonly made"
	if c := power.NextCapacity(d.Needs); c > 0 {
		next = t.amount(quantity.DimCharge, float64(c))
	}
	t.paragraph("*", fmt.Sprintf("%.3g h without mains, with %.3g openings, take %s; a battery of %s lasts, with %.0f %% left by age, %.0f %% by cold, and the rate of discharge counted (exponent %.2f): take %s",
		float64(s.Time)/3600, s.Openings, t.amount(quantity.DimCharge, round(float64(s.Taken()), 1)), t.amount(quantity.DimCharge, round(float64(d.Needs), 1)),
		100*float64(s.Aged), 100*float64(s.Cold), float64(s.Peukert), next))
}

// takenFrom writes what was reckoned with; without --why only how much of it nobody
// found out.
func (t *Text) takenFrom(d *plan.Fed) { t.givens(d.Givens) }

func (t *Text) givens(all []power.Given) {
	assumed := 0
	for i := range all {
		if all[i].Assumed {
			assumed++
		}
	}
	if !t.style.Why {
		if assumed > 0 {
			t.paragraph("*", fmt.Sprintf("%s nobody wrote down and are assumed; --why lists them", quantity.Counted(assumed, "value", "values")))
		}
		return
	}
	t.head("Reckoned with")
	tab := t.section(14, 20, 10, 20)
	for _, g := range all {
		tab.add(g.Device, g.What, t.amount(g.Dim, g.Value), g.Source)
	}
	t.put(tab)
}

// branch writes a branch circuit of the mains and what hangs on it.
func (t *Text) branch(b *plan.FedBranch) {
	t.head(fmt.Sprintf("Branch circuit %s, %s, %s", b.Breaker.Name, t.amount(quantity.DimVoltage, float64(b.Tree.Volts)), t.amount(quantity.DimCurrent, float64(b.Rated))))
	if len(b.Devices) == 0 {
		t.paragraph("*", "nothing that the wiring knows hangs on it")
		return
	}
	t.limits("circuit", b.Statements)
	if b.Course != nil && len(b.Tree.Runs) > 0 {
		t.blank()
		tab := t.section(10, 8, 8, 10, 10)
		tab.add("cable", "gauge", "length", "carries at most", "takes then")
		for k := range b.Tree.Runs {
			r, use := &b.Tree.Runs[k], &b.Course.Runs[k]
			tab.add(r.Name, hold(r.Wire.Gauge.String()), byFoot(b.Cables[k].Length.Value, t.style.Units), t.amount(quantity.DimCurrent, round(float64(use.Amps), 100)), t.amount(quantity.DimVoltage, round(float64(use.Drop), 100)))
		}
		t.put(tab)
	}
	for _, what := range b.Missing {
		t.paragraph("..", "its cables are not reckoned: "+what)
	}
	t.givens(b.Givens)
}

// pipes writes how full the conduits are.
func (t *Text) pipes(f *plan.Feeding) {
	if len(f.Conduits) == 0 {
		return
	}
	t.head("Conduits")
	tab := t.section(12, 10, 10, 12, 16)
	tab.add("conduit", "cables", "filled", "limit", "")
	for i := range f.Conduits {
		p := &f.Conduits[i]
		filled := fmt.Sprintf("%.0f %%", 100*float64(p.Fill.Share))
		if p.Verdict == judge.NotMeasured {
			filled = "-"
		}
		name := strings.TrimSpace(p.Conduit.Name + ", " + p.Conduit.Trade + " " + string(p.Conduit.Kind))
		tab.add(strings.TrimSuffix(name, ","), fmt.Sprint(p.Fill.Cables), hold(filled), hold(fmt.Sprintf("at most %.0f %%", 100*float64(p.Fill.Limit))), verdictWords(p.Verdict)+" (advice)")
		tab.note("by " + p.Source)
		if p.Why != "" {
			tab.note("because " + p.Why)
		}
		if p.Fill.Smallest != "" && p.Verdict != judge.Meets {
			tab.note("hint: EMT of trade size " + p.Fill.Smallest + " is the smallest that does")
		}
	}
	t.put(tab)
}

// cords writes how long the flexible cord across the hinges has to be.
func (t *Text) cords(f *plan.Feeding) {
	if len(f.Cords) == 0 {
		return
	}
	t.head("Door loop")
	for _, c := range f.Cords {
		tab := t.section(14, 24, 8)
		t.cord(tab, c.Cord)
		t.put(tab)
		if len(c.Statements) > 0 {
			t.limits("cord", c.Statements)
		} else {
			t.paragraph("*", "the length that the cord has is not written down: length under door_loop")
		}
	}
}
