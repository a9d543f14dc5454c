package decision

import (
	"cmp"
	"math"
	"slices"

	"swingwright/judge"
	"swingwright/opening"
	"swingwright/plan"
	q "swingwright/quantity"
)

// Options says how to decide.
type Options struct {
	Policy judge.Policy // the risk of a wrong call that is taken
	// Brief leaves out the search for what would open a window of settings where
	// there is none, which takes some tenths of a second, and looks for no further cure of
	// the latch budget once one works.
	Brief bool
}

// Make decides what to do with the opening of a plan, which has to be made with the
// same sheets.
func Make(p *plan.Plan, sheets *opening.Sheets, opt Options) *Decision {
	l := &ladder{p: p, o: p.Opening, sheets: sheets, opt: opt}
	l.powered = l.o.Use.Powered()
	l.operator, l.closer, l.arm = p.Resolved.Operator, sheets.Closer(l.o.Closer.Sheet), sheets.Arm(l.o.Closer.Arm)
	l.climb()
	d := &Decision{Rungs: l.rungs, Calls: l.calls, Questions: questions(p, l.rungs)}
	for i := range d.Rungs {
		d.Answer = max(d.Answer, d.Rungs[i].Answer)
	}
	return d
}

// ladder is a decision under way.
type ladder struct {
	p        *plan.Plan
	o        *opening.Opening
	sheets   *opening.Sheets
	operator *opening.OperatorSheet // nil without one
	closer   *opening.CloserSheet   // nil without one
	arm      *opening.ArmSheet      // nil without one
	opt      Options
	powered  bool
	rungs    []Rung
	calls    []Call
}

// addOn tells that an add-on, which turns the closer's pinion, opens the leaf.
func (l *ladder) addOn() bool {
	return l.powered && l.operator != nil && l.operator.Kind == opening.AddOn
}

// climb puts the tests, in the order in which the trade asks them.
func (l *ladder) climb() {
	l.meant()
	l.hardware()
	l.hanging()
	l.limitsOfUse()
	l.room()
	l.latching()
	l.lock()
	l.fire()
	l.power()
	l.opens()
	l.settings()
	l.published()
}

const (
	practice = "common practice"
	ours     = "common practice, figure from memory"
)

// put adds a rung and what it comes to: failed is its answer where it falls short
// and no cure works.
func (l *ladder) put(r Rung, failed Answer) {
	switch r.Verdict {
	case judge.Meets:
		r.Answer = Go
	case judge.FallsShort:
		r.Answer = failed
		if c := r.Cure(); c != nil {
			r.Answer = c.Answer
		}
	case judge.DoesNotApply:
		return
	default:
		r.Answer = FindOut
	}
	l.rungs = append(l.rungs, r)
}

// fails adds a rung that falls short without a number.
func (l *ladder) fails(test, source, why string, failed Answer, cures ...Cure) {
	l.put(Rung{Test: test, Source: source, Verdict: judge.FallsShort, Why: why, Cures: cures}, failed)
}

// number is a rung about a number against its limit; fields are those of the survey
// that tell it, where it is not known.
func (l *ladder) number(test, source string, n Number, known bool, fields ...string) Rung {
	r := Rung{Test: test, Source: source}
	if !known || math.IsNaN(n.Value) {
		r.Verdict, r.Missing = judge.NotMeasured, fields
		return r
	}
	r.Number, r.Verdict = &n, judge.Decide(n.Margin(), n.U, l.opt.Policy)
	return r
}

// answered is a rung about an answer of the survey.
func answered(test, source string, answer, wanted opening.YesNo, field string) Rung {
	r := Rung{Test: test, Source: source, Verdict: judge.Meets}
	switch answer {
	case wanted:
	case "":
		r.Verdict, r.Missing = judge.NotMeasured, []string{field}
	default:
		r.Verdict = judge.FallsShort
	}
	return r
}

// call adds somebody to call, once.
func (l *ladder) call(whom, why string) {
	if i := slices.IndexFunc(l.calls, func(c Call) bool { return c.Whom == whom }); i >= 0 {
		if l.calls[i].Why != why {
			l.calls[i].Why += "; " + why
		}
		return
	}
	l.calls = append(l.calls, Call{whom, why})
}

// sorted are cures by effort, those that work first.
func sorted(cures []Cure) []Cure {
	slices.SortStableFunc(cures, func(a, b Cure) int {
		return cmp.Or(-cmp.Compare(truth(a.Works), truth(b.Works)), cmp.Compare(a.Effort, b.Effort))
	})
	return cures
}

func truth(b bool) int {
	if b {
		return 1
	}
	return 0
}

// paper is where a sheet's values were copied from.
func paper(kind, name, page string) string {
	text := kind + " sheet " + name
	if page != "" {
		text += ", " + page
	}
	return text
}

// both writes a quantity in both systems of units, once where they agree.
func both[Q q.Quantity](v Q) string { return amount(v.Dimension(), float64(v)) }
