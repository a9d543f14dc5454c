package report

import (
	"swingwright/judge"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/rulebook"
)

// findingJSON is a rule applied to the opening.
type findingJSON struct {
	Book       string        `json:"book"`
	Rule       string        `json:"rule"`
	Title      string        `json:"title"`
	Of         string        `json:"of"`
	Side       string        `json:"side"`
	Verdict    judge.Verdict `json:"verdict"`
	Caution    bool          `json:"caution"`
	Advice     bool          `json:"advice"`
	Value      number        `json:"value"`
	Limit      number        `json:"limit"`
	Margin     number        `json:"margin"`
	U          number        `json:"u"` // standard uncertainty of the margin
	Unit       string        `json:"unit"`
	At         number        `json:"at"` // radius at which a moment was turned into a force, m
	Origin     plan.Origin   `json:"origin"`
	Work       string        `json:"work"`
	Edition    string        `json:"edition"`
	Clause     string        `json:"clause"`
	Table      string        `json:"table,omitempty"`
	Page       string        `json:"page,omitempty"`
	Confidence string        `json:"confidence"`
	Missing    []string      `json:"missing"`
	Why        string        `json:"why,omitempty"`
	Drivers    []driverJSON  `json:"drivers"`
}

type driverJSON struct {
	Input   string `json:"input"`
	Share   number `json:"share"` // of the margin's variance
	Assumed bool   `json:"assumed"`
}

func findingOf(p *plan.Plan, f *plan.Finding) findingJSON {
	r := f.Rule
	out := findingJSON{
		Book: f.Book.ID, Rule: r.ID, Title: r.Title, Of: r.Of.String(), Side: r.Side.String(),
		Verdict: f.Verdict, Caution: f.Caution, Advice: r.Advice,
		Value: number(f.Value), Limit: number(f.Limit), Margin: number(f.Margin), U: number(f.U),
		Origin: f.Origin, Work: f.Book.Work, Edition: f.Book.Edition,
		Clause: r.Source.Clause, Table: r.Source.Table, Page: r.Source.Page, Confidence: r.Source.Confidence.String(),
		Missing: make([]string, len(f.Missing)), Why: f.Why, At: number(f.At),
	}
	if r.Side != rulebook.MustHold {
		out.Unit = quantity.SIUnit(r.Dim())
	}
	for i, id := range f.Missing {
		out.Missing[i] = id.String()
	}
	out.Drivers = driversOf(f.Drivers)
	return out
}

func driversOf(all []plan.Driver) []driverJSON {
	list := []driverJSON{}
	for _, d := range all {
		list = append(list, driverJSON{sentence(d.Input), number(d.Share), d.Assumed})
	}
	return list
}
