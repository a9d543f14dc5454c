package rulebook

import (
	"swingwright/fact"
	"swingwright/quantity"
)

// A Step is one line of a formula's working.
type Step struct {
	Depth int    // 0 for the whole formula, 1 for its arguments, and so on
	Text  string // the part of the formula
	Kind  fact.Kind
	Dim   quantity.Dimension // for Number
	Fact  fact.ID            // for Choice: whose choice it is
	Value float64            // in SI; NaN unless Info says known
	Info  Info
}

// Explain shows how Eval comes to its result: the whole formula first, then its
// parts, each with its value. Plain constants are left out; so is what logic did not need to look at.
func Explain(e *Expr, env Env) []Step {
	if e == nil {
		return nil
	}
	return explain(nil, e, env, 0)
}

func explain(steps []Step, e *Expr, env Env, depth int) []Step {
	v, in := Eval(e, env)
	step := Step{Depth: depth, Text: e.String(), Kind: e.Kind, Dim: e.Dim, Value: v, Info: in}
	if e.Kind == fact.Choice {
		step.Fact = e.Fact
	}
	steps = append(steps, step)
	for i := range e.Args {
		if a := &e.Args[i]; !plain(a) && e.needs(i, env) {
			steps = explain(steps, a, env, depth+1)
		}
	}
	return steps
}

// plain tells constants, also ones with a unit.
func plain(e *Expr) bool {
	switch e.Op {
	case Const, Word:
		return true
	case Of:
		return e.Args[0].Op == Const
	}
	return false
}

// needs tells whether argument i had a part in the result.
func (e *Expr) needs(i int, env Env) bool {
	if i == 0 || e.Op != If && e.Op != And && e.Op != Or {
		return true
	}
	v, in := Eval(&e.Args[0], env)
	switch {
	case in.State != Known:
		return e.Op != If
	case e.Op == And:
		return v != 0
	case e.Op == Or:
		return v == 0
	}
	return (v != 0) == (i == 1)
}
