package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"swingwright/fact"
	"swingwright/judge"
	"swingwright/quantity"
	"swingwright/rulebook"
	"swingwright/swing"
)

// tolerated is the share of draws that may fail to give a value before its
// absence counts.
const tolerated = 0.025

// judge applies every rule and decides with the spread of its margin.
func (p *Plan) judge(mk *Maker, rules []applied, best []float64, opt Options) {
	p.Findings = make([]Finding, 0, len(rules))
	for i, r := range rules {
		out := r.out
		f := Finding{
			Book: r.book, Rule: r.rule, Value: out.Value, Limit: out.Limit, At: radius(r.rule, best), Margin: out.Margin, U: math.NaN(),
			Origin: p.Facts[r.rule.Of].Origin, Caution: r.rule.Advice || !r.rule.Confirmed || out.Unconfirmed,
		}
		switch out.End {
		case rulebook.NotApplying:
			f.Verdict, f.Caution = judge.DoesNotApply, false
		case rulebook.MayApply, rulebook.Unmeasured:
			f.Verdict, f.Missing = judge.NotMeasured, slices.Collect(out.Missing.All())
			f.Why = p.missing(f.Missing)
		case rulebook.Faulty:
			f.Verdict, f.Why = judge.TooClose, "the rule gives no finite limit here; mend the rulebook"
		default:
			p.decide(&f, mk, i, out, opt)
		}
		p.Findings = append(p.Findings, f)
	}
}

// radius is where a rule turns the judged moment into a force; NaN where it
// judges none, or the radius is not known.
func radius(r *rulebook.Rule, facts []float64) quantity.Length {
	if r.At == nil {
		return quantity.Length(math.NaN())
	}
	at, _ := rulebook.Eval(r.At, facts)
	return quantity.Length(at)
}

// decide judges a margin that is known.
func (p *Plan) decide(f *Finding, mk *Maker, i int, out rulebook.Outcome, opt Options) {
	column := mk.draws.Output(fact.Count + 2*i)
	if f.Rule.Side == rulebook.MustHold {
		yes, n := share(column)
		f.Verdict = judge.DecideProbability(yes, n, opt.Policy)
		f.Value = yes
		if f.Verdict == judge.TooClose {
			f.Why = fmt.Sprintf("holds in %.0f %% of %d draws", 100*yes, n)
		}
	} else {
		sum := mk.draws.Summary(fact.Count + 2*i)
		f.U = sum.SD
		if sum.Len() < 2 || f.U < 1e-12*math.Abs(out.Limit) {
			f.U = 0 // what is left is rounding
		}
		f.Verdict = p.decideNumber(f, opt)
		if lost := float64(sum.Missing) / float64(mk.draws.Len()); lost > tolerated {
			f.Verdict = judge.TooClose
			f.Why = fmt.Sprintf("does not exist in %.0f %% of the draws: %s", 100*lost, p.absent(f.Rule.Of))
		}
	}
	if f.Caution && !f.Rule.Advice && f.Verdict == judge.Meets {
		p.unconfirmed(f, mk, i, out, opt)
	}
	if isNear(f) {
		shares := mk.draws.Shares(column)
		p.pull.weigh(f, mk, shares)
		if f.Verdict == judge.TooClose {
			f.Drivers = p.drivers(mk, shares)
		}
	}
}

// unconfirmed settles a limit that is met but that nobody has confirmed: it
// passes only where a stricter, confirmed one is met too.
func (p *Plan) unconfirmed(f *Finding, mk *Maker, i int, out rulebook.Outcome, opt Options) {
	if !math.IsNaN(out.Sure) {
		sum := mk.draws.Summary(fact.Count + 2*i + 1)
		if judge.Decide(out.Sure, sum.SD, opt.Policy) == judge.Meets {
			f.Caution = false
			f.Why = "meets a stricter limit that is confirmed"
			return
		}
	}
	f.Verdict = judge.TooClose
	f.Why = "the limit itself is not confirmed: compare it with the standard's own text"
}

func share(column []float64) (yes float64, n int) {
	for _, v := range column {
		if !math.IsNaN(v) {
			n++
			if v > 0 {
				yes++
			}
		}
	}
	if n == 0 {
		return math.NaN(), 0
	}
	return yes / float64(n), n
}

// missing says what keeps a rule from being judged.
func (p *Plan) missing(ids []fact.ID) string {
	for _, id := range ids {
		if why := p.absent(id); why != "" {
			return why
		}
	}
	return ""
}

func closing(id fact.ID) bool { return id >= fact.CloseTime90To12 && id <= fact.CloseRestAngle }

func powered(id fact.ID) bool { return id >= fact.PoweredTimeToCheck && id <= fact.PoweredStallLast10 }

// absent says why a fact could not be computed, nothing where it never is.
func (p *Plan) absent(id fact.ID) string {
	switch {
	case closing(id):
		return p.noMotion()
	case powered(id):
		return p.noOpening(id)
	case id == fact.ClearWidth || id == fact.PoweredClearWidth:
		return p.Room.noWidth()
	case fedFact(id):
		return p.unfed()
	}
	return ""
}

// noOpening says why an opening under power was not timed.
func (p *Plan) noOpening(id fact.ID) string {
	s := &p.Swing.Power
	stop := float64(p.Resolved.Rows[swing.OpenAngle].Value) / float64(quantity.Degree)
	switch {
	case p.Resolved.Operator == nil:
		return ""
	case !s.Fitted:
		return "the operator could not be reckoned with; see the notes"
	case id == fact.PoweredDwell:
		return "the hold-open time is not known"
	case s.Usual.End == swing.Opened && (id == fact.PoweredTimeTo90 && stop < 90 || id == fact.PoweredTimeTo80 && stop < 80):
		return fmt.Sprintf("it is set to open to %.0f degrees only", stop)
	case s.Usual.End == swing.Opened:
		return "it does not open in every draw of the inputs"
	}
	return p.stalls(&s.Usual)
}

// stalls says where an opening under power ended, and against what.
func (p *Plan) stalls(m *swing.Powered) string {
	at := float64(m.Angle / quantity.Degree)
	switch {
	case m.End == swing.TimedOut:
		return fmt.Sprintf("driven, the leaf is still under way at %.0f degrees after two minutes", at)
	case m.End == swing.Unfinished:
		return m.Err.Error()
	case m.End != swing.Stalled:
		return fmt.Sprintf("driven, the leaf ends %v", m.End)
	}
	text := fmt.Sprintf("the operator stalls at %.1f degrees", at)
	for i, one := range p.Swing.Power.Against[:min(2, len(p.Swing.Power.Against))] {
		text += [...]string{" against ", " and "}[i] + fmt.Sprintf("%v, %.3g N·m", one.Against, float64(one.Moment))
	}
	return text
}

// noMotion says why the closing was not timed.
func (p *Plan) noMotion() string {
	s := &p.Swing
	switch {
	case p.Problem != nil:
		return p.Problem.Error()
	case !p.Resolved.Link.Closer:
		return "without closer and arm the closing cannot be reckoned"
	case !s.Reachable:
		return "the arm does not reach 90 degrees"
	case s.From90.End == swing.RestsOpen:
		return fmt.Sprintf("the leaf comes to rest at %.1f degrees", float64(s.From90.Angle/quantity.Degree))
	case s.From90.End == swing.TimedOut:
		return "the leaf is still under way after two minutes"
	case !p.Resolved.Times:
		return "neither sweep and latch times nor valve turns with their sheet are known"
	case s.Worst90.End == swing.RestsOpen:
		return fmt.Sprintf("at the worst pressure the leaf comes to rest at %.1f degrees", float64(s.Worst90.Angle/quantity.Degree))
	}
	return "it does not close from every draw of the inputs"
}

// drivers are the inputs that move a margin most: the squared correlation over
// the draws is each one's share of the variance, as far as it acts linearly.
func (p *Plan) drivers(mk *Maker, shares []float64) []Driver {
	var all []Driver
	for i, part := range shares {
		if part >= leastShare {
			name, assumed := p.inputName(mk.place[i])
			all = append(all, Driver{Input: name, Share: part, Assumed: assumed})
		}
	}
	return foremost(all)
}

// leastShare is the share of a margin's variance from which on an input is named.
const leastShare = 0.05

// foremost are the few drivers that move a margin most, the strongest first.
func foremost(all []Driver) []Driver {
	slices.SortStableFunc(all, func(a, b Driver) int { return cmp.Compare(b.Share, a.Share) })
	return all[:min(3, len(all))]
}
