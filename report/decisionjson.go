package report

import (
	"swingwright/decision"
	"swingwright/judge"
	"swingwright/quantity"
)

// decisionJSON is what is to be done with an opening, and why.
type decisionJSON struct {
	Answer    decision.Answer `json:"answer"`
	Tests     []rungJSON      `json:"tests"`
	Calls     []callJSON      `json:"calls"`
	Questions []questionJSON  `json:"questions"`
}

type rungJSON struct {
	Test    string          `json:"test"`
	Verdict judge.Verdict   `json:"verdict"`
	Answer  decision.Answer `json:"answer"`
	Number  *numberJSON     `json:"number"`
	Source  string          `json:"source"`
	Why     string          `json:"why,omitempty"`
	Missing []string        `json:"missing"`
	Cures   []cureJSON      `json:"cures"`
}

type numberJSON struct {
	Value number `json:"value"`
	U     number `json:"u"` // standard uncertainty
	Side  string `json:"side"`
	Limit number `json:"limit"`
	Unit  string `json:"unit"`
}

type cureJSON struct {
	What   string          `json:"what"`
	Works  bool            `json:"works"`
	Answer decision.Answer `json:"answer"`
	Number *numberJSON     `json:"number"`
	But    string          `json:"but,omitempty"`
}

type callJSON struct {
	Whom string `json:"whom"`
	Why  string `json:"why"`
}

type questionJSON struct {
	Field string `json:"field"`
	Tests int    `json:"tests"`
	Rules number `json:"rules"`
	Why   string `json:"why,omitempty"`
	How   string `json:"how,omitempty"`
}

func decisionOf(d *decision.Decision) decisionJSON {
	out := decisionJSON{
		Answer: d.Answer, Tests: make([]rungJSON, len(d.Rungs)), Calls: make([]callJSON, len(d.Calls)), Questions: make([]questionJSON, len(d.Questions)),
	}
	for i := range d.Rungs {
		r := &d.Rungs[i]
		out.Tests[i] = rungJSON{r.Test, r.Verdict, r.Answer, numberOf(r.Number), r.Source, r.Why, texts(r.Missing), curesOf(r.Cures)}
	}
	for i, c := range d.Calls {
		out.Calls[i] = callJSON(c)
	}
	for i := range d.Questions {
		q := &d.Questions[i]
		out.Questions[i] = questionJSON{q.Field, q.Rungs, number(q.Rules), q.Why, q.How}
	}
	return out
}

func curesOf(cures []decision.Cure) []cureJSON {
	out := make([]cureJSON, len(cures))
	for i := range cures {
		c := &cures[i]
		out[i] = cureJSON{c.What, c.Works, c.Answer, numberOf(c.Number), c.But}
	}
	return out
}

func numberOf(n *decision.Number) *numberJSON {
	if n == nil {
		return nil
	}
	return &numberJSON{number(n.Value), number(n.U), n.Side.String(), number(n.Limit), quantity.SIUnit(n.Dim)}
}
