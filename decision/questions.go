package decision

import (
	"cmp"
	"slices"
	"strings"

	"swingwright/fact"
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/plan"
)

// A Question is something that is not known of an opening.
type Question struct {
	Field string // the field of the survey, or the fact, that would tell it
	Stops string // what cannot be computed without it; empty where an assumed value stands in
	Why   string // why it matters; empty where nobody says
	How   string // how to get it; empty likewise
	Rungs int    // how many tests of the ladder wait for it
	// Rules is how many findings it is expected to settle: those that wait for it,
	// and those that its assumed value leaves open, by its share of their spread.
	Rules float64
}

// Settles is how much of the answer hangs on a question: tests and findings together.
func (q *Question) Settles() float64 { return float64(q.Rungs) + q.Rules }

// questions are the plan's gaps, what rungs wait for, and the facts that rules wait
// for, those first that settle most.
func questions(p *plan.Plan, rungs []Rung) []Question {
	var all []Question
	at := map[string]int{}
	ask := func(q Question) *Question {
		i, known := at[q.Field]
		if !known {
			i, at[q.Field] = len(all), len(all)
			all = append(all, q)
		}
		return &all[i]
	}
	for _, g := range p.Gaps {
		ask(Question{Field: g.Field, Stops: g.Stops, Why: g.Why, How: g.How}).Rules = p.Settles(g.Field)
	}
	for i := range rungs {
		for _, field := range rungs[i].Missing {
			ask(Question{Field: field}).Rungs++
		}
	}
	var wait [fact.Count]int
	for i := range p.Findings {
		if f := &p.Findings[i]; f.Verdict == judge.NotMeasured && !f.Rule.Advice && f.Why == "" {
			for _, id := range f.Missing {
				wait[id]++
			}
		}
	}
	for id, n := range wait {
		asked := func(q Question) bool { return plan.Answers(q.Field, fact.ID(id)) }
		if n > 0 && !slices.ContainsFunc(all, asked) {
			row := fact.ID(id).Fact()
			ask(Question{Field: row.Name, Why: "Rules ask for it. " + row.Meaning, How: "To be " + strings.ReplaceAll(row.Got, ", or measured", "") + "."}).Rules += float64(n)
		}
	}
	slices.SortStableFunc(all, func(a, b Question) int {
		return cmp.Or(-cmp.Compare(stops(&a), stops(&b)), -cmp.Compare(a.Settles(), b.Settles()))
	})
	return all
}

// stops ranks what nothing can be computed without before all else.
func stops(q *Question) int {
	return truth(q.Stops == opening.StopsAll || q.Stops == opening.StopsCloser)
}
