package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"swingwright/fact"
	"swingwright/judge"
	"swingwright/plan"
	"swingwright/quantity"
)

// Where more findings of a book than fewOpen are not measured, they are counted
// and not listed, with at most namedFacts of what they want.
const (
	fewOpen    = 3
	namedFacts = 8
)

// wanting counts findings that are not measured by what each of them wants.
type wanting struct {
	rules  int
	facts  [fact.Count]int // how many findings want each fact, where nothing else is said of it
	causes []cause         // why facts could not be computed, in the order met
}

type cause struct {
	why   string
	rules int
}

// unmeasured gathers the findings of one book that are not measured; nil where
// they are few enough to be listed.
func unmeasured(findings []plan.Finding) *wanting {
	var w wanting
	for i := range findings {
		if f := &findings[i]; f.Verdict == judge.NotMeasured {
			w.add(f)
		}
	}
	if w.rules <= fewOpen {
		return nil
	}
	return &w
}

func (w *wanting) add(f *plan.Finding) {
	w.rules++
	if f.Why == "" {
		for _, id := range f.Missing {
			w.facts[id]++
		}
		return
	}
	i := slices.IndexFunc(w.causes, func(c cause) bool { return c.why == f.Why })
	if i < 0 {
		i, w.causes = len(w.causes), append(w.causes, cause{why: f.Why})
	}
	w.causes[i].rules++
}

// String tells how many rules want what, the facts that most of them want first.
func (w *wanting) String() string {
	var wants []fact.ID
	for id, n := range w.facts {
		if n > 0 {
			wants = append(wants, fact.ID(id))
		}
	}
	slices.SortStableFunc(wants, func(a, b fact.ID) int { return cmp.Compare(w.facts[b], w.facts[a]) })
	var parts []string
	if len(wants) > 0 {
		text := "for want of " + names(wants[:min(len(wants), namedFacts)])
		if more := len(wants) - namedFacts; more > 0 {
			text += fmt.Sprintf(" and %d more", more)
		}
		parts = append(parts, text)
	}
	for _, c := range w.causes {
		parts = append(parts, fmt.Sprintf("%d because %s", c.rules, c.why))
	}
	return "not measured: " + quantity.Counted(w.rules, "rule", "rules") + ", " + strings.Join(parts, "; ") + "; --all lists them"
}
