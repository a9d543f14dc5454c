package report

import (
	"cmp"
	"fmt"
	"strings"

	"swingwright/fact"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/swing"
)

// whatItIs says what stands there.
func (t *Text) whatItIs(p *plan.Plan) {
	tab := t.table(8, 30)
	for _, line := range [][2]string{
		{"Use", use(&p.Opening.Use)},
		{"Leaf", t.leaf(p)},
		{"Closer", t.closer(p)},
		{"Operator", t.operator(p)},
		{"Latch", latchAndSeal(p.Opening)},
		{"Air", t.air(p)},
	} {
		if line[1] != "" {
			tab.add(line[0], line[1])
		}
	}
	t.put(tab)
}

func use(u *opening.Use) string {
	var parts []string
	say := func(answer opening.YesNo, yes, no string) {
		switch answer {
		case "yes":
			parts = append(parts, yes)
		case "no":
			parts = append(parts, no)
		}
	}
	if u.Place != "" {
		parts = append(parts, string(u.Place))
	}
	say(u.FireRated, "fire rated", "not fire rated")
	say(u.Egress, "on a way out", "not on a way out")
	if u.Operation != "" {
		how := string(u.Operation)
		if u.Activation != "" && u.Activation != "none" {
			how += " by " + string(u.Activation)
		}
		parts = append(parts, how)
	}
	return strings.Join(parts, "; ")
}

func (t *Text) leaf(p *plan.Plan) string {
	size := func(v swing.Value) string {
		r := p.Resolved.Rows[v]
		if !(r.Value > 0) {
			return "?"
		}
		return hold(quantity.FormatValue(quantity.Length(r.Value), t.style.Units, -1))
	}
	text := size(swing.LeafWidth) + " x " + size(swing.LeafHeight) + " x " + size(swing.LeafThickness)
	mass := p.Resolved.Rows[swing.SlabMass]
	text += "; " + value(fact.LeafMass, p.Facts[fact.LeafMass], t.style.Units) + ", " + mass.Source
	if hand := p.Opening.Frame.Hand; hand != "" {
		text += "; " + string(hand)
	}
	return text
}

func (t *Text) closer(p *plan.Plan) string {
	c, r := &p.Opening.Closer, p.Resolved
	var parts []string
	if c.Sheet != "" {
		parts = append(parts, c.Sheet)
	}
	if r.Size.Known {
		parts = append(parts, fmt.Sprintf("power %g", r.Size.Value))
	}
	if c.Arm != "" {
		parts = append(parts, c.Arm)
	}
	if spring := r.Rows[swing.SpringClosed]; spring.Known {
		parts = append(parts, "spring: "+spring.Source)
	}
	switch {
	case !r.Link.Closer:
	case p.Fitted():
		parts = append(parts, "valves: set so that it closes in the times found")
	default:
		parts = append(parts, "valves: "+r.Rows[swing.SweepViscous].Source)
	}
	return strings.Join(parts, "; ")
}

func latchAndSeal(o *opening.Opening) string {
	named := func(sheet string, none opening.YesNo, what string) string {
		if none == "yes" {
			return "no " + what
		}
		return cmp.Or(sheet, "an ordinary "+what+" assumed")
	}
	return named(o.Latch.Sheet, o.Latch.None, "latch") + "; " + named(o.Seal.Sheet, o.Seal.None, "seal")
}

func (t *Text) air(p *plan.Plan) string {
	r := p.Resolved
	show := func(row plan.Row) string {
		return hold(quantity.Display(quantity.DimPressure, row.Value, row.U, row.Known, t.style.Units))
	}
	usual := r.Rows[swing.Pressure]
	text := "usually " + show(usual)
	if usual.Assumed {
		text += " (assumed)"
	}
	if r.Most != usual {
		text += "; at most " + show(r.Most) + weathered(r.Most)
	}
	if r.Least != usual {
		text += "; at least " + show(r.Least) + weathered(r.Least)
	}
	return text + "; above zero pushes the leaf open"
}

// movement lists the facts shown of a swing, each under a short name.
var movement = []struct {
	id   fact.ID
	name string
}{
	{fact.CloseTime90To10, "90 to 10 deg"},
	{fact.CloseTime10ToClosed, "10 deg to closed"},
	{fact.CloseTime90ToClosed, "90 deg to closed"},
	{fact.CloseTime70To75mm, "70 deg to 75 mm from closed"},
	{fact.ClosePeakEnergy, "largest energy, closing"},
	{fact.CloseImpactEnergy, "energy left at the frame"},
	{fact.LatchMargin, "latch budget, left over"},
}

// howItMoves says how it shuts, left to itself, and what a hand feels.
func (t *Text) howItMoves(p *plan.Plan) {
	t.head("How it moves")
	tab := t.section(16, 20, 8)
	s := &p.Swing
	if p.Resolved.Link.Closer {
		t.endings(tab, p)
	} else {
		tab.add("closing", "not reckoned: closer or arm is not known", "")
	}
	for _, m := range movement {
		if f := p.Facts[m.id]; f.Known {
			tab.add(m.name, value(m.id, f, t.style.Units), f.Origin.String())
		}
	}
	if p.Resolved.Operator == nil {
		t.hand(tab, p)
	}
	t.put(tab)
	if s.FitProblem != nil {
		t.paragraph("problem", s.FitProblem.Error())
	}
}

func (t *Text) endings(tab *table, p *plan.Plan) {
	s, worst := &p.Swing, ""
	if p.Resolved.Most != p.Resolved.Rows[swing.Pressure] {
		worst = ", at the largest pressure"
	}
	at90 := share(ending(&s.Worst90)+worst, p.Facts[fact.LatchesFrom90])
	switch {
	case !s.Reachable:
		tab.add("let go at 90 deg", "the arm does not reach that far", "")
	case worst != "" && s.From90.End != s.Worst90.End:
		tab.add("let go at 90 deg", ending(&s.From90)+", usually", "")
		tab.add("", at90, "")
	default:
		tab.add("let go at 90 deg", at90, "")
	}
	tab.add("let go at 30 deg", share(ending(&s.Worst30)+worst, p.Facts[fact.LatchesFrom30]), "")
	tab.add("let go at 5 deg", share(ending(&s.Worst5)+worst, p.Facts[fact.LatchesFrom5]), "")
}

// share adds how many of the draws shut, where not all do alike.
func share(text string, f plan.Fact) string {
	if f.Known && f.Share > 0 && f.Share < 1 {
		return fmt.Sprintf("%s; shuts in %.0f %% of the draws", text, 100*f.Share)
	}
	return text
}

// hand shows moments by hand, power off, as forces where the hand works the leaf.
func (t *Text) hand(tab *table, p *plan.Plan) {
	for _, h := range []struct {
		id   fact.ID
		name string
	}{{fact.HandToStart, "push at the handle to start it"}, {fact.HandToOpen, "largest push to 90 deg"}} {
		if p.Resolved.Operator != nil {
			h.name += ", power off"
		}
		f := p.Facts[h.id]
		if at := quantity.Length(p.Resolved.Handle.Value); f.Known && at > 0 {
			tab.add(h.name, t.forceAt(f, at), f.Origin.String())
		}
	}
}
