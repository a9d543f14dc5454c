package rulebook

import (
	"math"

	"swingwright/fact"
	"swingwright/quantity"
)

// A Collision is a place where published rules meet on one matter and differ, so
// that who keeps one of them may miss another.
type Collision struct {
	ID        string
	Title     string    // the matter, in one short phrase
	Rules     []RuleRef // two or more
	Differs   string    // in what the rules differ
	Treatment string    // what to do about it
	Source    Source    // where it was observed, and how far that is confirmed
}

// A RuleRef names a rule of a book.
type RuleRef struct{ Book, Rule string }

// A Meeting is a collision that concerns an opening: at least two of its rules
// apply there, or may.
type Meeting struct {
	Collision *Collision
	Parties   []Party
	// Comparable tells that every party limits the same fact on the same side and
	// its limit is known, so that one can be told to be the stricter.
	Comparable bool
}

// A Party is one rule of a Meeting with what it asks of the opening.
type Party struct {
	Book  *Book
	Rule  *Rule
	Limit float64 // in SI of the rule's Dim; NaN where it is not known, or where the rule is a statement
	At    float64 // radius of the limit in m, for a force; NaN for anything else
	// Moment is the limit as a moment about the hinge axis, N·m, where the limit
	// is a force: forces at different radii are compared by it. Else it is NaN.
	Moment float64
	// Certain tells that the rule applies; else it may.
	Certain bool
	// Strictest tells that no other party asks more and one asks less.
	Strictest bool
}

// Meetings lists the collisions of the given books that concern an opening of
// which env is known, in the order of the collisions.
func Meetings(collisions []Collision, books []*Book, env Env) []Meeting {
	var met []Meeting
	for i := range collisions {
		m := Meeting{Collision: &collisions[i]}
		for _, ref := range collisions[i].Rules {
			if p, ok := party(ref, books, env); ok {
				m.Parties = append(m.Parties, p)
			}
		}
		if len(m.Parties) >= 2 {
			m.compare()
			met = append(met, m)
		}
	}
	return met
}

// party is the rule of a reference, if one of the books has it and it may apply.
func party(ref RuleRef, books []*Book, env Env) (Party, bool) {
	for _, b := range books {
		if b.ID != ref.Book {
			continue
		}
		if r, ok := b.Rule(ref.Rule); ok {
			applies, in := Eval(r.When, env)
			p := Party{Book: b, Rule: r, Limit: math.NaN(), At: math.NaN(), Moment: math.NaN(), Certain: in.State == Known}
			p.limit(env)
			return p, in.State != Known || applies != 0
		}
	}
	return Party{}, false
}

// limit works out what the party asks, whether or not the value is known.
func (p *Party) limit(env Env) {
	if p.Rule.Side == MustHold {
		return
	}
	p.Limit, _ = Eval(p.Rule.Limit, env)
	if p.Rule.At != nil {
		p.At, _ = Eval(p.Rule.At, env)
		p.Moment = p.Limit * p.At
	}
}

// strictness is the limit in what can be compared with other parties'.
func (p *Party) strictness() float64 {
	if p.Rule.Of.Fact().Dim == quantity.DimTorque && p.Rule.At != nil {
		return p.Moment
	}
	return p.Limit
}

// compare marks the strictest parties.
func (m *Meeting) compare() {
	var of fact.ID
	var side Side
	best, worst, known := math.NaN(), math.NaN(), 0
	for i := range m.Parties {
		p := &m.Parties[i]
		s := p.strictness()
		switch {
		case p.Rule.Side == MustHold:
			return
		case known == 0:
			of, side = p.Rule.Of, p.Rule.Side
		case p.Rule.Of != of || p.Rule.Side != side:
			return
		}
		known++
		if math.IsNaN(s) {
			return
		}
		if known == 1 || side.stricter(s, best) {
			best = s
		}
		if known == 1 || side.stricter(worst, s) {
			worst = s
		}
	}
	m.Comparable = true
	for i := range m.Parties {
		s := m.Parties[i].strictness()
		m.Parties[i].Strictest = side.stricter(best, worst) && !side.stricter(best, s)
	}
}

// stricter tells that the limit a asks more than b. Limits that differ by the
// rounding of their units ask the same.
func (s Side) stricter(a, b float64) bool {
	give := slack * math.Max(math.Abs(a), math.Abs(b))
	if s == AtLeast {
		return a > b+give
	}
	return a < b-give
}
