package report

import (
	"fmt"
	"math"
	"slices"

	"swingwright/decision"
	"swingwright/fact"
	"swingwright/judge"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/rulebook"
)

// A Choice is one of the things that an opening could be, made into a plan.
type Choice struct {
	Name     string // what would be changed
	Plan     *plan.Plan
	Decision *decision.Decision
	Window   *plan.Window // nil where it could not be looked for
}

// compared lists the facts shown side by side, each under a short name.
var compared = []struct {
	id   fact.ID
	name string
}{
	{fact.LeafMass, "leaf weight"},
	{fact.ClearWidth, "clear width at 90 deg"},
	{fact.PoweredClearWidth, "clear width, driven open"},
	{fact.LatchMargin, "latch budget, left over"},
	{fact.CloseTime90To12, "closing 90 to 12 deg"},
	{fact.CloseTime10ToClosed, "closing 10 deg to closed"},
	{fact.ClosePeakEnergy, "largest energy, closing"},
	{fact.PoweredTimeToCheck, "opening to backcheck or 80 deg"},
	{fact.PoweredTimeToOpen, "opening fully"},
	{fact.PoweredPeakEnergy, "largest energy, opening"},
}

// abreast is how many choices fit side by side: each takes some 20 characters.
func (t *Text) abreast() int { return max(2, (t.style.width()-22)/22) }

// Compare writes choices side by side, the opening as it is first: what to do, what
// differs in the numbers, and the rules whose verdicts differ. Those that do not fit on
// the page follow, beside the opening as it is once more.
func Compare(t *Text, choices []Choice) error {
	t.heading(choices[0].Plan)
	for i, c := range choices {
		t.paragraph(fmt.Sprintf("%d", i), c.Name)
	}
	for rest := choices[1:]; ; {
		n := min(len(rest), t.abreast()-1)
		t.sideBySide(append([]Choice{choices[0]}, rest[:n]...), len(choices)-len(rest)-1)
		if rest = rest[n:]; len(rest) == 0 {
			break
		}
	}
	t.paragraphAt(2, "Readings hold for the opening as it is, and no other; a change is computed from the survey. Valves stay where they are unless the change says otherwise.")
	return t.flush()
}

// sideBySide writes some choices side by side; the second is number first+1 of all.
func (t *Text) sideBySide(some []Choice, first int) {
	least := []int{18}
	heads := []string{"", "0"}
	for i := range some {
		least = append(least, 18)
		if i > 0 {
			heads = append(heads, fmt.Sprintf("%d", first+i))
		}
	}
	t.blank()
	tab := t.table(least...)
	tab.add(heads...)
	line := func(name string, of func(*Choice) string) {
		cells := []string{name}
		for i := range some {
			cells = append(cells, of(&some[i]))
		}
		tab.add(cells...)
	}
	line("what to do", func(c *Choice) string { return c.Decision.Answer.String() })
	line("rules", func(c *Choice) string {
		w := standWords[plan.Stand(c.Plan.Findings)]
		return w.mark + noBreak + hold(w.word)
	})
	line("latches, worst pressure", latches)
	for _, row := range compared {
		if slices.ContainsFunc(some, func(c Choice) bool { return c.Plan.Facts[row.id].Known }) {
			line(row.name, func(c *Choice) string { return value(row.id, c.Plan.Facts[row.id], t.style.Units) })
		}
	}
	line("largest push to 90 deg", t.push)
	if slices.ContainsFunc(some, func(c Choice) bool { return c.Plan.Swing.Power.Fitted }) {
		line("driven", func(c *Choice) string {
			if s := &c.Plan.Swing.Power; s.Fitted {
				return t.driveEnds(&s.Usual, nil)
			}
			return "-"
		})
	}
	line("window of powers", windowWords)
	t.put(tab)
	t.differences(some, least)
}

func latches(c *Choice) string {
	worst, known := 1.0, false
	for _, id := range [...]fact.ID{fact.LatchesFrom90, fact.LatchesFrom30, fact.LatchesFrom5} {
		if f := c.Plan.Facts[id]; f.Known {
			worst, known = min(worst, f.Share), true
		}
	}
	switch {
	case !known:
		return "-"
	case worst == 1:
		return "yes"
	case worst == 0:
		return "no"
	}
	return fmt.Sprintf("in %.0f %% of the draws", 100*worst)
}

// push is the largest force by hand, power off, at the handle.
func (t *Text) push(c *Choice) string {
	f, at := c.Plan.Facts[fact.HandToOpen], quantity.Length(c.Plan.Resolved.Handle.Value)
	if !f.Known || !(at > 0) {
		return "-"
	}
	return t.forceAt(f, at)
}

func windowWords(c *Choice) string {
	switch {
	case c.Window == nil || len(c.Window.Missing) > 0:
		return "-"
	case c.Window.Open():
		return hold(span(c.Window.Answer.Window))
	}
	return "none"
}

// differences lists the rules whose verdicts differ between the choices.
func (t *Text) differences(some []Choice, least []int) {
	tab := t.table(least...)
	for _, d := range unlike(some) {
		cells := []string{d.title}
		for i, k := range d.findings {
			cells = append(cells, t.judged(&some[i], k))
		}
		tab.add(cells...)
	}
	if len(tab.rows) > 0 {
		t.head("Rules that judge them differently")
		t.put(tab)
	}
}

// judged is a finding of a choice in a cell, by its index; none is not asked.
func (t *Text) judged(c *Choice, k int) string {
	if k < 0 {
		return "not asked"
	}
	f := &c.Plan.Findings[k]
	text := verdictWords(f.Verdict)
	if got := found(c.Plan, f, t.style.Units); got != "-" {
		text += ", " + got
	}
	if f.Rule.Side != rulebook.MustHold && !math.IsNaN(f.Limit) {
		text += ", " + f.Rule.Side.String() + " " + t.amount(f.Rule.Dim(), f.Limit)
	}
	return text
}

// difference is a rule and the index of its finding in every choice, −1 for none.
type difference struct {
	title    string
	findings []int
}

// unlike are the rules whose verdicts are not all alike. A rule is the same one in
// every edition of its work; a choice that is not judged by the work has no say.
func unlike(some []Choice) (out []difference) {
	for _, d := range ruled(some) {
		seen := map[judge.Verdict]bool{}
		for i, k := range d.findings {
			if k >= 0 {
				seen[some[i].Plan.Findings[k].Verdict] = true
			}
		}
		if len(seen) > 1 {
			out = append(out, d)
		}
	}
	return out
}

// ruled are all rules of the choices, in the order in which they are met.
func ruled(some []Choice) (all []difference) {
	type key struct{ work, rule string }
	at := map[key]int{}
	for i := range some {
		for k := range some[i].Plan.Findings {
			f := &some[i].Plan.Findings[k]
			id := key{f.Book.Work, f.Rule.ID}
			j, known := at[id]
			if !known {
				j, at[id] = len(all), len(all)
				all = append(all, difference{f.Book.Work + ": " + f.Rule.Title, slices.Repeat([]int{-1}, len(some))})
			}
			all[j].findings[i] = k
		}
	}
	return all
}
