package rulebook

import "math"

// An Outcome is a rule applied to one set of facts. Value, Limit and Margin are
// in SI of the rule's Dim, NaN where they are not known.
type Outcome struct {
	End    End
	Value  float64 // what is judged; a moment is already turned into a force
	Limit  float64 // what it is held against; for MustHold 1
	Margin float64 // how far on the good side, below zero on the bad one; for MustHold +1/2 or -1/2
	// Sure is the margin against the rule's stricter confirmed limit; NaN where
	// the rule has none, or where Limit is confirmed and needs none.
	Sure float64
	// Unconfirmed tells that the limit rests on an unconfirmed cell or part.
	Unconfirmed bool
	// Missing holds the facts that keep the rule from being judged.
	Missing Facts
}

// End is how far a rule could be applied.
type End uint8

// The ends.
const (
	Judged      End = iota // Margin holds
	NotApplying            // the rule's condition is not met
	MayApply               // whether the condition is met is unknown
	Unmeasured             // it applies; the value or its limit is unknown
	Faulty                 // the rule has no finite value though every fact is known
)

var endNames = [...]string{"judged", "does not apply", "may apply", "not measured", "faulty"}

// String is the end in words.
func (e End) String() string { return nameOf(endNames[:], int(e)) }

// Check applies the rule to the facts. It does not allocate.
func (r *Rule) Check(env Env) Outcome {
	nan := math.NaN()
	out := Outcome{Value: nan, Limit: nan, Margin: nan, Sure: nan}
	applies, in := Eval(r.When, env)
	switch {
	case in.State == Unknown:
		out.End, out.Missing = MayApply, in.Missing
		return out
	case in.State == Fault:
		out.End = Faulty
		return out
	case applies == 0:
		out.End = NotApplying
		return out
	}
	if r.Side == MustHold {
		r.hold(env, &out)
	} else {
		r.compare(env, &out)
	}
	return out
}

// hold judges a statement.
func (r *Rule) hold(env Env, out *Outcome) {
	v, in := Eval(r.Limit, env)
	out.Value, _ = env.read(r.Of, r.Of.Fact().Kind)
	out.Limit = 1
	out.settle(in, v-0.5)
}

// compare judges a number against its limit.
func (r *Rule) compare(env Env, out *Outcome) {
	var all Info
	out.Value, all = env.read(r.Of, r.Of.Fact().Kind)
	if r.At != nil {
		at, in := Eval(r.At, env)
		all = all.with(in)
		out.Value /= at
		if all.State == Known && math.IsInf(out.Value, 0) {
			all.State = Fault
		}
	}
	limit, in := Eval(r.Limit, env)
	out.Limit = limit
	out.settle(all.with(in), r.margin(out.Value, limit))
	if r.Sure == nil || out.End != Judged || r.Confirmed && !out.Unconfirmed {
		return
	}
	if sure, in := Eval(r.Sure, env); in.State == Known {
		out.Sure = r.margin(out.Value, sure)
	}
}

func (r *Rule) margin(value, limit float64) float64 {
	if r.Side == AtLeast {
		return value - limit
	}
	return limit - value
}

// settle writes the end and the margin.
func (out *Outcome) settle(in Info, margin float64) {
	out.Unconfirmed, out.Missing = in.Unconfirmed, in.Missing
	switch in.State {
	case Known:
		out.Margin = margin
	case Unknown:
		out.End = Unmeasured
	case Fault:
		out.End = Faulty
	}
}
