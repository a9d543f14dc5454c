package report

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"swingwright/fact"
	"swingwright/judge"
	"swingwright/plan"
	"swingwright/rulebook"
)

// openPlan has findings that are not measured, of one book.
func openPlan(n int, change func(i int, f *plan.Finding)) *plan.Plan {
	p := &plan.Plan{}
	book := &rulebook.Book{Work: "Work", Edition: "1"}
	for i := range n {
		f := plan.Finding{
			Book: book, Rule: &rulebook.Rule{ID: fmt.Sprint(i), Title: fmt.Sprintf("rule-%d", i)}, Verdict: judge.NotMeasured,
			Missing: []fact.ID{fact.PoweredDwell},
		}
		change(i, &f)
		p.Findings = append(p.Findings, f)
	}
	return p
}

func findingsText(t *testing.T, p *plan.Plan, style Style) string {
	t.Helper()
	var out bytes.Buffer
	text := NewText(&out, style)
	text.findings(p)
	if err := text.flush(); err != nil {
		t.Fatal(err)
	}
	return strings.Join(strings.Fields(out.String()), " ")
}

// A long list of what is not measured becomes one sentence; the fact that most
// rules want comes first, and what cannot be computed says why.
func TestUnmeasuredAreCounted(t *testing.T) {
	p := openPlan(6, func(i int, f *plan.Finding) {
		switch {
		case i > 3:
			f.Why = "the arm is short"
		case i > 0:
			f.Missing = []fact.ID{fact.LeafMass}
		}
	})
	want := "not measured: 6 rules, for want of leaf.mass, powered.dwell; 2 because the arm is short; --all lists them"
	if got := findingsText(t, p, Style{Width: 200}); !strings.Contains(got, want) || strings.Contains(got, "rule-0") {
		t.Errorf("got %q", got)
	}
	got := findingsText(t, p, Style{Width: 200, All: true})
	for i := range 6 {
		if title := fmt.Sprintf("rule-%d", i); !strings.Contains(got, title) {
			t.Errorf("with all to be listed, %s is not", title)
		}
	}
	if strings.Contains(got, "for want of") {
		t.Error("what is listed is counted, too")
	}
}

// A few are listed as ever, with what they want.
func TestFewUnmeasuredAreListed(t *testing.T) {
	got := findingsText(t, openPlan(fewOpen, func(int, *plan.Finding) {}), Style{})
	if !strings.Contains(got, "rule-2") || !strings.Contains(got, "not known: powered.dwell") {
		t.Errorf("got %q", got)
	}
}

// Of many facts only the first few are named, and the rest counted.
func TestManyWantsAreCutShort(t *testing.T) {
	p := openPlan(namedFacts+2, func(i int, f *plan.Finding) { f.Missing = []fact.ID{fact.ID(i)} })
	if got := findingsText(t, p, Style{Width: 400}); !strings.Contains(got, fact.ID(namedFacts-1).String()+" and 2 more; --all") {
		t.Errorf("got %q", got)
	}
}
