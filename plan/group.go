package plan

import (
	"math"

	"swingwright/fact"
	"swingwright/judge"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/rulebook"
)

// A Group is two openings that work together, with what holds of them as one.
type Group struct {
	Group   *opening.Group
	Members [2]*Member
	// Statements are what is judged of the group, in the order in which people
	// look at it.
	Statements []Statement
	Delays     []Delay         // of a vestibule, one for either way through
	Gaps       []opening.Gap   // what is missing of the group
	Doubts     []opening.Doubt // what was entered and is hard to believe
	Notes      []string
	Followed   *Followed // people followed through a vestibule as it is wired, nil where none were
	policy     judge.Policy
}

// A Statement is one thing judged of a group: a value against a limit, or a yes
// or no, which counts 1 against 1.
type Statement struct {
	What         string
	Dim          q.Dimension
	Value, Limit float64 // in SI; NaN where not known
	YesNo        bool
	Side         judge.Side
	Margin, U    float64 // U the standard uncertainty of the margin
	Verdict      judge.Verdict
	// Published tells that the limit is a confirmed one of a rulebook of the job;
	// others are advice, and fail nothing.
	Published bool
	Source    string
	Say       string // what follows from it, for people
	onPaper   bool   // reckoned from a delay on paper, which people who were followed outrank
}

// Stand sums up what is published of a group; advice does not count.
func (g *Group) Stand() Standing {
	s := Good
	for i := range g.Statements {
		one := &g.Statements[i]
		switch {
		case !one.Published || one.Verdict == judge.Meets || one.Verdict == judge.DoesNotApply:
		case one.Verdict == judge.FallsShort:
			return Bad
		default:
			s = Undecided
		}
	}
	return s
}

// Common practice and its kin, as sources of statements.
const (
	fromTrade  = "common practice"
	fromMemory = "common practice, from memory"
)

// A grouper makes one group.
type grouper struct {
	*Group
	books  []*rulebook.Book
	policy judge.Policy
}

// Together judges two openings that belong together: a pair, a double egress or a
// vestibule. The members stand in the order of the group, active leaf or outer
// door first.
func Together(g *opening.Group, first, second *Member, books []*rulebook.Book, policy judge.Policy) *Group {
	out := &Group{Group: g, Members: [2]*Member{first, second}, Gaps: opening.MissingOfGroup(g), Doubts: opening.ImplausibleGroup(g), policy: policy}
	k := grouper{out, books, policy}
	switch g.Kind {
	case opening.Pair:
		k.pair()
	case opening.DoubleEgress:
		k.doubleEgress()
	case opening.Vestibule:
		k.vestibule()
	}
	return out
}

// put adds a value held against a limit. A value that is not known is not measured.
func (k grouper) put(s Statement, value, u float64) {
	s.Value, s.U = value, u
	s.Margin = judge.Margin(s.Side, value, s.Limit)
	s.Verdict = judge.Decide(s.Margin, u, k.policy)
	k.Statements = append(k.Statements, s)
}

// answer adds a yes or no: good where it is as it should be.
func (k grouper) answer(what, source, say string, known, good bool) {
	s := Statement{What: what, YesNo: true, Value: truth(good), Limit: 1, Margin: truth(good) - 1, Source: source, Say: say, Verdict: judge.FallsShort}
	switch {
	case !known:
		s.Verdict, s.Value, s.Margin, s.U = judge.NotMeasured, math.NaN(), math.NaN(), math.NaN()
	case good:
		s.Verdict = judge.Meets
	}
	k.Statements = append(k.Statements, s)
}

// skip adds what does not apply, with the reason.
func (k grouper) skip(what, source, say string) {
	nan := math.NaN()
	k.Statements = append(k.Statements, Statement{What: what, Value: nan, Limit: nan, Margin: nan, U: nan, Verdict: judge.DoesNotApply, Source: source, Say: say})
}

// ruled judges a value by every rule of the job's books on a fact, with the facts
// of the first member, some of them exchanged for those of the group. It tells
// whether a rule applied.
func (k grouper) ruled(of fact.ID, what string, value Fact, exchanged map[fact.ID]float64, say string) (any bool) {
	env := append(rulebook.Env(nil), k.Members[0].known...)
	for id, v := range exchanged {
		env[id] = v
	}
	env[of] = math.NaN()
	if value.Known {
		env[of] = value.Value
	}
	for _, b := range k.books {
		for i := range b.Rules {
			r := &b.Rules[i]
			if r.Of != of || r.Side == rulebook.MustHold {
				continue
			}
			out := r.Check(env)
			if out.End == rulebook.NotApplying {
				continue
			}
			any = true
			s := Statement{
				What: what, Dim: r.Dim(), Limit: out.Limit, Side: side(r), Published: !r.Advice && r.Confirmed && !out.Unconfirmed,
				Source: cited(&Finding{Book: b, Rule: r}), Say: say,
			}
			if out.End == rulebook.Judged {
				k.put(s, value.Value, value.U)
			} else {
				k.put(s, math.NaN(), math.NaN())
			}
		}
	}
	return any
}

// side is the side of a rule's limit on which the value must lie.
func side(r *rulebook.Rule) judge.Side {
	if r.Side == rulebook.AtMost {
		return judge.AtMost
	}
	return judge.AtLeast
}
