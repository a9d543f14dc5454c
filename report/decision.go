package report

import (
	"fmt"
	"slices"
	"strings"

	"swingwright/decision"
	"swingwright/judge"
	"swingwright/quantity"
)

// decision says what to do, and which tests of the ladder say so.
func (t *Text) decision(d *decision.Decision) {
	t.head("What to do: " + d.Answer.String())
	tab := t.section(9, 20, 10, 10, 10)
	passed, waiting, fields := 0, 0, []string(nil)
	var before []decision.Cure
	for i := range d.Rungs {
		r := &d.Rungs[i]
		switch {
		case t.style.All:
		case r.Verdict == judge.Meets:
			passed++
			continue
		case r.Verdict == judge.NotMeasured:
			waiting++
			fields = append(fields, r.Missing...)
			if len(r.Missing) == 0 {
				fields = append(fields, lowered(r.Test))
			}
			continue
		}
		if len(tab.rows) == 0 {
			tab.add("verdict", "what should hold", "found", "limit", "source")
		}
		t.rung(tab, r)
		if len(r.Cures) > 0 && len(before) > 0 && &r.Cures[0] == &before[0] {
			tab.note("cures: the same as above")
		} else {
			t.cures(tab, r)
		}
		before = r.Cures
	}
	t.put(tab)
	if waiting > 0 {
		t.paragraph("..", quantity.Counted(waiting, "test waits", "tests wait")+" for what is not known"+listed(fields))
	}
	if passed > 0 {
		t.paragraph("ok", quantity.Counted(passed, "test passes", "tests pass")+"; --all lists them")
	}
	if len(d.Calls) > 0 {
		t.head("Whom to call")
		tab := t.section(20, 30)
		for _, c := range d.Calls {
			tab.add(c.Whom, c.Why)
		}
		t.put(tab)
	}
}

// listed are the fields that tests wait for, each once.
func listed(fields []string) string {
	slices.Sort(fields)
	fields = slices.Compact(fields)
	if len(fields) == 0 {
		return ""
	}
	return ": " + strings.Join(fields, ", ")
}

// rung writes one test.
func (t *Text) rung(tab *table, r *decision.Rung) {
	got, bound := "-", "-"
	if n := r.Number; n != nil {
		got = t.spread(n.Dim, n.Value, n.U)
		bound = n.Side.String() + " " + t.amount(n.Dim, n.Limit)
	}
	tab.rows = append(tab.rows, row{cells: []string{verdictWords(r.Verdict), r.Test, got, bound, r.Source}, tint: tints[r.Verdict]})
	if r.Why != "" {
		tab.note("because " + r.Why)
	}
	if len(r.Missing) > 0 {
		tab.note("not known: " + strings.Join(r.Missing, ", "))
	}
}

// cures writes what would mend a test: the cheapest that works, and with --all the others.
func (t *Text) cures(tab *table, r *decision.Rung) {
	cure := r.Cure()
	if cure == nil && r.Verdict == judge.FallsShort && len(r.Cures) > 0 {
		tab.note("none of " + quantity.Counted(len(r.Cures), "cure that was tried", "cures that were tried") + " is enough")
	}
	for i := range r.Cures {
		c := &r.Cures[i]
		if c != cure && !t.style.All && (cure != nil || i >= fewOpen) {
			continue
		}
		tab.note(t.cure(c))
	}
}

func (t *Text) cure(c *decision.Cure) string {
	text := "cure: " + c.What
	if !c.Works {
		text = "not enough: " + c.What
	}
	if n := c.Number; n != nil {
		text += "; reckoned again, " + t.spread(n.Dim, n.Value, n.U)
	}
	if c.But != "" {
		text += "; " + c.But
	}
	return text
}

// Where more is missing than fewQuestions, the rest is counted and not listed.
const fewQuestions = 8

// questions writes what is still to be found out, what settles most first.
func (t *Text) questions(d *decision.Decision) {
	if len(d.Questions) == 0 {
		return
	}
	t.head("Still to find out, what settles most first")
	list := d.Questions
	if !t.style.All && len(list) > fewQuestions {
		list = list[:fewQuestions]
	}
	tab := t.section(12, 10, 24, 20)
	tab.add("what", "settles", "why", "how")
	for i := range list {
		q := &list[i]
		why := q.Why
		if q.Stops != "" {
			why += " Without it nothing is known of: " + q.Stops + "."
		}
		tab.add(q.Field, settles(q), orDash(why), orDash(q.How))
	}
	t.put(tab)
	if more := len(d.Questions) - len(list); more > 0 {
		t.w.WriteString("    " + t.said("and "+quantity.Counted(more, "thing more", "things more")+"; --all lists them") + "\n")
	}
}

func orDash(s string) string {
	if s == "" {
		return "-"
	}
	return s
}

// settles tells how many tests and rules wait for an answer, or are left open by
// what is assumed in its place.
func settles(q *decision.Question) string {
	var parts []string
	if q.Rungs > 0 {
		parts = append(parts, quantity.Counted(q.Rungs, "test", "tests"))
	}
	switch {
	case q.Rules >= 0.95:
		parts = append(parts, hold(fmt.Sprintf("about %.0f rules", q.Rules)))
	case q.Rules >= 0.005:
		parts = append(parts, hold(fmt.Sprintf("%.2g of a rule", q.Rules)))
	}
	return orDash(strings.Join(parts, ", "))
}
