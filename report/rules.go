package report

import (
	"fmt"
	"strings"

	"swingwright/fact"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/rulebook"
)

// Books lists rulebooks, a line each. With a day it tells which hold on it.
func (t *Text) Books(books []*rulebook.Book, day rulebook.Date) error {
	tab := t.table(12, 18, 12, 11, 5)
	head := []string{"rulebook", "work and edition", "place", "holds", "rules"}
	if day != "" {
		tab.least, head = append(tab.least, 8), append(head, "on "+string(day))
	}
	tab.add(head...)
	for _, b := range books {
		cells := []string{b.ID, work(b), b.Place, holds(b), fmt.Sprint(len(b.Rules))}
		if day != "" {
			cells = append(cells, inForce(b, day))
		}
		tab.add(cells...)
	}
	t.put(tab)
	return t.flush()
}

// holds is the span in which a book holds.
func holds(b *rulebook.Book) string {
	switch {
	case b.From == "" && b.Until == "":
		return "-"
	case b.Until == "":
		return "from " + string(b.From)
	}
	return strings.TrimSpace(string(b.From) + " until " + string(b.Until))
}

func inForce(b *rulebook.Book, day rulebook.Date) string {
	if b.InForce(day) {
		return "holds"
	}
	return "does not hold"
}

// Rules lists the rules of a book.
func (t *Text) Rules(b *rulebook.Book) error {
	t.blank()
	t.title(b.ID+": "+work(b), '-')
	tab := t.table(14, 24, 12, 16)
	tab.add("rule", "demand", "where", "confidence")
	for i := range b.Rules {
		r := &b.Rules[i]
		tab.add(r.ID, r.Title+advice(r), place(&r.Source), r.Source.Confidence.String())
	}
	t.put(tab)
	return t.flush()
}

func advice(r *rulebook.Rule) string {
	if r.Advice {
		return " (advice)"
	}
	return ""
}

// Book shows a rulebook with its tables and its rules.
func (t *Text) Book(b *rulebook.Book) error {
	t.title(b.ID, '=')
	tab := t.table(8, 30)
	tab.add("Title", b.Title)
	tab.add("Work", work(b))
	tab.add("Place", b.Place)
	tab.add("Holds", holds(b))
	if b.Note != "" {
		tab.add("Note", b.Note)
	}
	t.put(tab)
	for _, one := range b.Tables {
		t.printed(one)
	}
	return t.Rules(b)
}

// printed shows a table of a rulebook in the units it was printed in.
func (t *Text) printed(of *rulebook.Table) {
	t.blank()
	t.title(of.ID+": "+of.Title, '-')
	least := []int{12}
	columns := max(len(of.Columns.At), 1)
	head := []string{of.Rows.Name}
	for i := range columns {
		least = append(least, 6)
		if i < len(of.Columns.At) {
			head = append(head, printedValue(of.Columns.Dim, of.Columns.At[i], of.Columns.Unit))
		} else {
			head = append(head, "")
		}
	}
	tab := t.table(least...)
	if len(of.Columns.At) > 0 {
		tab.rows = append(tab.rows, row{cells: []string{of.Columns.Name}, note: true})
	}
	tab.add(head...)
	for i, key := range of.Rows.At {
		cells := []string{printedValue(of.Rows.Dim, key, of.Rows.Unit)}
		for j := range columns {
			cells = append(cells, cell(of, i*columns+j))
		}
		tab.add(cells...)
	}
	t.put(tab)
	t.paragraphAt(2, strings.TrimSpace("Between printed keys the "+of.Rows.Pick.String()+" one serves. A cell with ? was not read in published text. "+of.Note))
	t.paragraphAt(2, place(&of.Source)+"; "+confirmed(&of.Source))
}

// cell is a cell as printed, with a question mark where it is not confirmed.
func cell(of *rulebook.Table, i int) string {
	text := printedValue(of.Dim, of.Cells[i], of.Unit)
	if i < len(of.Unconfirmed) && of.Unconfirmed[i] {
		text += noBreak + "?"
	}
	return text
}

// printedValue is a value in the unit of the printed work.
func printedValue(d quantity.Dimension, si float64, unit string) string {
	n, err := quantity.InUnit(d, si, unit)
	if err != nil || si != si {
		return "-"
	}
	return strings.TrimSpace(fmt.Sprintf("%.6g", n) + noBreak + unit)
}

// Rule shows one rule: what it demands, its formula, and its source.
func (t *Text) Rule(b *rulebook.Book, r *rulebook.Rule) error {
	t.title(b.ID+": "+r.ID, '=')
	tab := t.table(10, 30)
	tab.add("Demand", r.Title+advice(r))
	tab.add("Judges", r.Of.String()+": "+r.Of.Fact().Meaning)
	tab.add("Limit", r.Side.String()+" "+r.Limit.String())
	if r.At != nil {
		tab.add("At", "as a force at "+r.At.String())
	}
	if r.When != nil {
		tab.add("When", r.When.String())
	}
	if r.Sure != nil {
		tab.add("Surely", r.Side.String()+" "+r.Sure.String()+", a stricter limit that is confirmed")
	}
	tab.add("Stands in", work(b)+", "+place(&r.Source))
	if r.Source.Says != "" {
		tab.add("Says", r.Source.Says)
	}
	tab.add("Confidence", confirmed(&r.Source))
	if !r.Confirmed {
		tab.add("", "Not confirmed: it may caution, and nothing passes by it.")
	}
	if r.Note != "" {
		tab.add("Note", r.Note)
	}
	t.put(tab)
	return t.flush()
}

// Working shows a rule at work on an opening: every part of its formulas with
// its value there, then the finding.
func (t *Text) Working(p *plan.Plan, f *plan.Finding) error {
	t.blank()
	t.heading(p)
	env, r := p.Known(), f.Rule
	for _, part := range []struct {
		name string
		expr *rulebook.Expr
	}{{"When it applies", r.When}, {"Limit", r.Limit}, {"Radius", r.At}, {"Stricter confirmed limit", r.Sure}} {
		if part.expr != nil {
			t.head(part.name)
			t.steps(rulebook.Explain(part.expr, env))
		}
	}
	t.head("Finding")
	tab := t.section(16, 14, 14)
	tab.rows = append(tab.rows, row{cells: []string{verdict(f), found(p, f, t.style.Units), limit(f, t.style.Units)}, tint: tints[f.Verdict]})
	if f.Why != "" {
		tab.note("because " + f.Why)
	}
	if len(f.Missing) > 0 {
		tab.note("not known: " + names(f.Missing))
	}
	if d := drivers(f.Drivers); d != "" {
		tab.note("moved most by: " + d)
	}
	t.put(tab)
	return t.flush()
}

// steps writes the parts of a formula, each deeper one further in.
func (t *Text) steps(steps []rulebook.Step) {
	tab := t.section(30, 14)
	for _, s := range steps {
		tab.add(strings.Repeat(noBreak, 2*s.Depth)+s.Text, t.step(s))
	}
	t.put(tab)
}

// step is the value of a part of a formula.
func (t *Text) step(s rulebook.Step) string {
	text := ""
	switch {
	case s.Info.State != rulebook.Known:
		text = s.Info.State.String()
		if !s.Info.Missing.Empty() {
			var ids []fact.ID
			for id := range s.Info.Missing.All() {
				ids = append(ids, id)
			}
			text += ": " + names(ids)
		}
		return text
	case s.Kind == fact.YesNo:
		text = map[bool]string{true: "yes", false: "no"}[s.Value >= 0.5]
	case s.Kind == fact.Choice:
		text = value(s.Fact, plan.Fact{Known: true, Value: s.Value}, t.style.Units)
	default:
		text = t.amount(s.Dim, s.Value)
	}
	if s.Info.Unconfirmed {
		text += " (unconfirmed)"
	}
	return text
}
