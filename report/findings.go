package report

import (
	"fmt"
	"slices"
	"strings"

	"swingwright/fact"
	"swingwright/judge"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/rulebook"
	"swingwright/swing"
)

// findings writes the findings book by book.
func (t *Text) findings(p *plan.Plan) {
	for rest := p.Findings; len(rest) > 0; {
		book := rest[0].Book
		n := slices.IndexFunc(rest, func(f plan.Finding) bool { return f.Book != book })
		if n < 0 {
			n = len(rest)
		}
		t.bookHead(book)
		t.ofBook(p, rest[:n])
		rest = rest[n:]
	}
}

// ofBook writes the table of one book's findings. What does not apply, and a long
// list of what is not measured, is counted only, but for --all.
func (t *Text) ofBook(p *plan.Plan, findings []plan.Finding) {
	var open *wanting
	if !t.style.All {
		open = unmeasured(findings)
	}
	tab := t.section(12, 16, 12, 12, 8)
	tab.add("verdict", "rule", "found", "limit", "where")
	hidden := 0
	for i := range findings {
		switch f := &findings[i]; {
		case f.Verdict == judge.DoesNotApply && !t.style.All:
			hidden++
		case f.Verdict == judge.NotMeasured && open != nil:
		default:
			t.finding(tab, p, f)
		}
	}
	if len(tab.rows) > 1 {
		t.put(tab)
	}
	if open != nil {
		t.paragraph("..", open.String())
	}
	if hidden > 0 {
		t.w.WriteString("    " + t.said(quantity.Counted(hidden, "rule does", "rules do")+" not apply") + "\n")
	}
}

// bookHead names the work whose limits follow.
func (t *Text) bookHead(b *rulebook.Book) {
	t.blank()
	for _, line := range wrap(t.said(work(b)+": "+b.Title), t.style.width()-2) {
		t.w.WriteString("  " + line + "\n")
	}
}

// finding writes one row and what stands behind it.
func (t *Text) finding(tab *table, p *plan.Plan, f *plan.Finding) {
	got := found(p, f, t.style.Units)
	if f.Origin != plan.Nowhere && got != "-" {
		got += " (" + f.Origin.String() + ")"
	}
	where := place(&f.Rule.Source)
	tab.rows = append(tab.rows, row{
		cells: []string{verdict(f), f.Rule.Title, got, limit(f, t.style.Units), where},
		tint:  tints[f.Verdict],
	})
	if f.Why != "" {
		tab.note("because " + f.Why)
	}
	if len(f.Missing) > 0 && f.Why == "" {
		tab.note("not known: " + names(f.Missing))
	}
	if d := drivers(f.Drivers); d != "" {
		tab.note("moved most by: " + d)
	}
	if t.style.Why {
		tab.note("rule " + f.Book.ID + " " + f.Rule.ID + ", " + confirmed(&f.Rule.Source))
	}
}

func names(ids []fact.ID) string {
	texts := make([]string, len(ids))
	for i, id := range ids {
		texts[i] = id.String()
	}
	return strings.Join(texts, ", ")
}

// confirmed tells how far a source was confirmed.
func confirmed(s *rulebook.Source) string {
	text := s.Confidence.String()
	if s.How != "" {
		text += " (" + s.How + ")"
	}
	if s.CheckedBy != "" {
		text += ", compared by " + s.CheckedBy
		if s.CheckedOn != "" {
			text += " on " + string(s.CheckedOn)
		}
	}
	return text
}

func drivers(all []plan.Driver) string {
	texts := make([]string, len(all))
	for i, d := range all {
		texts[i] = fmt.Sprintf("%s (%.0f %%%s)", sentence(d.Input), 100*d.Share, assumedWord(d.Assumed))
	}
	return strings.Join(texts, "; ")
}

func assumedWord(assumed bool) string {
	if assumed {
		return ", assumed"
	}
	return ""
}

// remarks writes what could not be used, and the cautions.
func (t *Text) remarks(p *plan.Plan) {
	if len(p.Resolved.Notes) > 0 || p.Problem != nil {
		t.head("Notes")
		for _, note := range p.Resolved.Notes {
			t.paragraph("*", note)
		}
		if p.Problem != nil && p.Problem != p.Swing.FitProblem {
			t.paragraph("*", p.Problem.Error())
		}
	}
	if len(p.Cautions) > 0 {
		t.head("Cautions")
		tab := t.section(8, 30)
		for _, c := range p.Cautions {
			tab.add(c.Matter, c.Text)
		}
		t.put(tab)
	}
}

// assumed lists what nobody found out.
func (t *Text) assumed(p *plan.Plan) {
	tab := t.section(16, 12, 20)
	for v, r := range p.Resolved.Rows {
		if r.Assumed {
			s := &swing.Symbols[v]
			tab.add(s.Key, quantityOf(s.Dim, r, t.style.Units), strings.TrimPrefix(r.Source, "assumed: "))
		}
	}
	if h := p.Resolved.Handle; h.Assumed {
		tab.add("leaf.handle", quantityOf(fact.HandleRadius.Fact().Dim, h, t.style.Units), strings.TrimPrefix(h.Source, "assumed: "))
	}
	t.assumedWeather(tab, p)
	if len(tab.rows) > 0 {
		t.head("Assumed, because nobody found it out")
		t.put(tab)
	}
}

func quantityOf(d quantity.Dimension, r plan.Row, units quantity.System) string {
	return hold(quantity.Display(d, r.Value, r.U, r.Known, units))
}
