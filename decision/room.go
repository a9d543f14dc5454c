package decision

import (
	"swingwright/fact"
	"swingwright/judge"
	"swingwright/plan"
	q "swingwright/quantity"
	"swingwright/rulebook"
)

// room: is there room for leaf and operator?
func (l *ladder) room() {
	if l.powered && l.operator != nil {
		u, source := &l.operator.Limits, paper("operator", l.operator.Name, l.operator.Page)
		within(l, "The open leaf leaves the space that the operator needs beside the wall", source, u.WallClearance, q.Measured[q.Length]{}, l.p.Facts[fact.BehindLeaf],
			Cure{What: "a smaller open angle, if the clear width allows it, or a thing moved away", Effort: Adjusting, Answer: Repair}, "doorway.behind_leaf")
	}
	l.clearWidth()
}

// clearWidth gathers what the rulebooks ask of the clear width.
func (l *ladder) clearWidth() {
	var worst *plan.Finding
	for i := range l.p.Findings {
		f := &l.p.Findings[i]
		if !aboutWidth(f.Rule.Of) || f.Verdict == judge.DoesNotApply || f.Rule.Advice {
			continue
		}
		if worst == nil || severity(f.Verdict) > severity(worst.Verdict) || severity(f.Verdict) == severity(worst.Verdict) && f.Margin < worst.Margin {
			worst = f
		}
	}
	if worst == nil {
		return
	}
	r := ofFinding(worst)
	r.Test = "The clear width is wide enough"
	if severity(r.Verdict) >= severity(judge.TooClose) {
		l.call("architect or accessibility consultant", "the clear width")
	}
	l.put(r, Refuse)
}

func aboutWidth(id fact.ID) bool { return id == fact.ClearWidth || id == fact.PoweredClearWidth }

// ofFinding makes a rung of a finding.
func ofFinding(f *plan.Finding) Rung {
	r := Rung{Test: f.Rule.Title, Source: f.Cited(), Verdict: f.Verdict, Why: f.Why}
	for _, id := range f.Missing {
		r.Missing = append(r.Missing, id.String())
	}
	if f.Verdict != judge.NotMeasured && f.U == f.U {
		r.Number = &Number{Dim: f.Rule.Dim(), Side: side(f.Rule.Side), Value: f.Value, U: f.U, Limit: f.Limit}
	}
	return r
}

func side(s rulebook.Side) judge.Side {
	if s == rulebook.AtMost {
		return judge.AtMost
	}
	return judge.AtLeast
}
