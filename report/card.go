package report

import (
	"math"
	"slices"

	"swingwright/decision"
	"swingwright/fact"
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/rulebook"
)

// A Card is one opening as a small screen shows it: every value in words and in
// the reader's units, every verdict by name, nothing left to reckon. It is made to
// be written as JSON; a list is never null.
type Card struct {
	ID       string            `json:"id"`
	Name     string            `json:"name"`
	Standing string            `json:"standing"` // in-order, undecided, falls-short
	Accepted string            `json:"accepted"` // the same, of what was measured and is still to be
	Answer   string            `json:"answer"`   // what to do with the opening
	Counts   map[string]int    `json:"counts"`   // findings by verdict, without advice
	Facts    []CardFact        `json:"facts"`    // how it moves
	Findings []CardFinding     `json:"findings"`
	Rungs    []CardRung        `json:"rungs"` // tests of the ladder that do not pass
	Calls    []decision.Call   `json:"calls"`
	Gaps     []opening.Gap     `json:"gaps"`
	Doubts   []opening.Doubt   `json:"doubts"`
	Cautions []plan.Caution    `json:"cautions"`
	Measure  []CardMeasurement `json:"measure"` // what still wants a measurement
	Problem  string            `json:"problem"` // why nothing could be reckoned; empty where it could
}

// CardFact is a fact of how the leaf moves.
type CardFact struct {
	Fact   string  `json:"fact"`
	Name   string  `json:"name"`
	Value  string  `json:"value"`
	SI     float64 `json:"si"` // best estimate
	U      float64 `json:"u"`  // standard uncertainty
	Origin string  `json:"origin"`
}

// CardFinding is a finding in words.
type CardFinding struct {
	Rule     string   `json:"rule"` // book and rule, which name it everywhere
	Title    string   `json:"title"`
	Of       string   `json:"of"`
	Verdict  string   `json:"verdict"`
	Mark     string   `json:"mark"`
	Caution  bool     `json:"caution"`
	Advice   bool     `json:"advice"`
	Found    string   `json:"found"`
	Limit    string   `json:"limit"`
	Origin   string   `json:"origin"`
	Source   string   `json:"source"`
	Standing string   `json:"standing"` // how far the limit was confirmed
	Why      string   `json:"why"`
	Missing  []string `json:"missing"`
	Drivers  string   `json:"drivers"` // what moves it most
	Margin   *float64 `json:"margin"`  // SI, on the good side above zero
	U        *float64 `json:"u"`       // standard uncertainty of the margin
}

// CardRung is a test of the ladder in words.
type CardRung struct {
	Test    string   `json:"test"`
	Verdict string   `json:"verdict"`
	Answer  string   `json:"answer"`
	Found   string   `json:"found"`
	Limit   string   `json:"limit"`
	Source  string   `json:"source"`
	Why     string   `json:"why"`
	Missing []string `json:"missing"`
	Cures   []string `json:"cures"`
}

// CardMeasurement is something that a rule wants measured at the finished opening.
type CardMeasurement struct {
	Fact    string `json:"fact"`
	Meaning string `json:"meaning"`
	Dim     string `json:"dim"` // empty for yes or no
	With    string `json:"with"`
	How     string `json:"how"`
	Times   string `json:"times"`
}

var standings = [...]string{plan.Good: "in-order", plan.Undecided: "undecided", plan.Bad: "falls-short"}

// StandingWord names a standing for programs: in-order, undecided or falls-short.
func StandingWord(s plan.Standing) string { return standings[s] }

// NewCard makes the card of a plan; the decision may be nil.
func NewCard(p *plan.Plan, d *decision.Decision, units quantity.System) *Card {
	c := &Card{
		ID: p.Opening.ID, Name: p.Opening.Name,
		Standing: StandingWord(plan.Stand(p.Findings)), Accepted: StandingWord(AcceptanceStanding(p)),
		Counts: map[string]int{}, Facts: []CardFact{}, Findings: []CardFinding{}, Rungs: []CardRung{}, Measure: []CardMeasurement{},
		Gaps: list(p.Gaps), Doubts: list(p.Doubts), Cautions: list(p.Cautions), Calls: []decision.Call{},
	}
	if p.Problem != nil {
		c.Problem = p.Problem.Error()
	}
	for i := range p.Findings {
		f := &p.Findings[i]
		if !f.Rule.Advice {
			c.Counts[f.Verdict.String()]++
		}
		c.Findings = append(c.Findings, cardFinding(p, f, units))
	}
	c.moves(p, units)
	c.measure(p)
	if d != nil {
		c.decided(d, units)
	}
	return c
}

// list is a list that is never null.
func list[T any](all []T) []T {
	if all == nil {
		return []T{}
	}
	return all
}

func cardFinding(p *plan.Plan, f *plan.Finding, units quantity.System) CardFinding {
	out := CardFinding{
		Rule: f.Book.ID + " " + f.Rule.ID, Title: f.Rule.Title, Of: f.Rule.Of.String(), Verdict: f.Verdict.String(), Mark: mark(f),
		Caution: f.Caution, Advice: f.Rule.Advice, Found: found(p, f, units), Limit: limit(f, units), Origin: f.Origin.String(),
		Source: work(f.Book) + ", " + place(&f.Rule.Source), Standing: confirmed(&f.Rule.Source), Why: f.Why,
		Missing: make([]string, len(f.Missing)), Drivers: drivers(f.Drivers),
	}
	for i, id := range f.Missing {
		out.Missing[i] = id.String()
	}
	if !math.IsNaN(f.Margin) && !math.IsInf(f.Margin, 0) && f.Rule.Side != rulebook.MustHold {
		margin, u := f.Margin, f.U
		out.Margin, out.U = &margin, &u
	}
	return out
}

// moves lists what is shown of the motion, by hand and under power.
func (c *Card) moves(p *plan.Plan, units quantity.System) {
	ids := make([]fact.ID, 0, len(movement))
	for _, m := range movement {
		ids = append(ids, m.id)
	}
	ids = append(ids, fact.LatchesFrom90, fact.LatchesFrom5, fact.HandToOpen, fact.PoweredTimeTo80, fact.PoweredTimeToOpen, fact.PoweredOpenAngle, fact.PoweredDwell, fact.PoweredPeakEnergy, fact.LeafMass)
	for _, id := range ids {
		f := p.Facts[id]
		if !f.Known || math.IsNaN(f.Value) {
			continue
		}
		c.Facts = append(c.Facts, CardFact{Fact: id.String(), Name: sentence(id.Fact().Meaning), Value: value(id, f, units), SI: f.Value, U: f.U, Origin: f.Origin.String()})
	}
}

// measure lists what is still to be measured, each thing once.
func (c *Card) measure(p *plan.Plan) {
	_, open := accepting(p)
	var seen []fact.ID
	for _, f := range open {
		id := f.Rule.Of
		if slices.Contains(seen, id) {
			continue
		}
		seen = append(seen, id)
		h, row := howMeasured[id], id.Fact()
		one := CardMeasurement{Fact: id.String(), Meaning: sentence(row.Meaning), With: h.with, How: h.how, Times: h.times}
		if row.Kind == fact.Number {
			one.Dim = row.Dim.String()
		}
		c.Measure = append(c.Measure, one)
	}
}

// decided adds what is to be done, and the tests that do not pass.
func (c *Card) decided(d *decision.Decision, units quantity.System) {
	c.Answer, c.Calls = d.Answer.String(), list(d.Calls)
	style := Text{style: Style{Units: units}}
	for i := range d.Rungs {
		r := &d.Rungs[i]
		if r.Verdict == judge.Meets || r.Verdict == judge.DoesNotApply {
			continue
		}
		out := CardRung{Test: r.Test, Verdict: r.Verdict.String(), Answer: r.Answer.String(), Found: "-", Limit: "-", Source: r.Source, Why: r.Why, Missing: texts(r.Missing), Cures: []string{}}
		if n := r.Number; n != nil {
			out.Found, out.Limit = style.spread(n.Dim, n.Value, n.U), n.Side.String()+" "+style.amount(n.Dim, n.Limit)
		}
		if cure := r.Cure(); cure != nil {
			out.Cures = append(out.Cures, style.cure(cure))
		}
		c.Rungs = append(c.Rungs, out)
	}
}
