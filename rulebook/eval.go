package rulebook

import (
	"math"

	"swingwright/fact"
)

// An Env is what is known of an opening: for every fact, at the place of its
// ID, the value in SI, or NaN where it is unknown. Yes is 1 and no is 0; a share
// of true draws counts as yes from a half on. A choice is its index.
type Env []float64

// NewEnv is an Env in which nothing is known.
func NewEnv() Env {
	e := make(Env, fact.Count)
	for i := range e {
		e[i] = math.NaN()
	}
	return e
}

// State is what became of a formula.
type State uint8

// The states.
const (
	Known   State = iota // Value holds
	Unknown              // facts are missing; Missing names them
	Fault                // every fact is known and the formula has no finite value: the rule is wrong
)

var stateNames = [...]string{"known", "unknown", "fault"}

// String is the state in a word.
func (s State) String() string { return nameOf(stateNames[:], int(s)) }

// Info tells what a value rests on.
type Info struct {
	State State
	// Unconfirmed tells that a table cell or a part of the formula was used
	// that nobody read in published text.
	Unconfirmed bool
	// Missing holds the facts that, if known, would make an Unknown known.
	Missing Facts
}

// Eval works out the formula in SI. A nil formula is true: a rule without a condition applies. The value
// is NaN unless the state is Known. Logic is three-valued (Kleene, 1952): a known
// argument that settles && or || settles it whatever the other is. Eval does not allocate.
func Eval(e *Expr, env Env) (float64, Info) {
	if e == nil {
		return 1, Info{}
	}
	switch e.Op {
	case Const, Word:
		return e.Value, Info{}
	case Read:
		return env.read(e.Fact)
	case And:
		return junction(e, env, 0)
	case Or:
		return junction(e, env, 1)
	case If:
		return choose(e, env)
	}
	return strict(e, env)
}

// read is the value of a fact.
func (env Env) read(id fact.ID) (float64, Info) {
	if int(id) >= len(env) || math.IsNaN(env[id]) {
		in := Info{State: Unknown}
		in.Missing.Add(id)
		return math.NaN(), in
	}
	if math.IsInf(env[id], 0) {
		return math.NaN(), Info{State: Fault}
	}
	if id.Fact().Kind == fact.YesNo {
		return truth(env[id] >= 0.5), Info{}
	}
	return env[id], Info{}
}

// junction is && where settles is 0, || where it is 1.
func junction(e *Expr, env Env, settles float64) (float64, Info) {
	a, ia := Eval(&e.Args[0], env)
	if ia.State == Known && a == settles {
		return a, ia
	}
	b, ib := Eval(&e.Args[1], env)
	if ib.State == Known && b == settles {
		return b, ib
	}
	in := ia.with(ib)
	if in.State != Known {
		return math.NaN(), in
	}
	return 1 - settles, in
}

// choose is a ? b : c.
func choose(e *Expr, env Env) (float64, Info) {
	a, ia := Eval(&e.Args[0], env)
	if ia.State != Known {
		return math.NaN(), ia
	}
	branch := &e.Args[1]
	if a == 0 {
		branch = &e.Args[2]
	}
	v, in := Eval(branch, env)
	return v, ia.with(in)
}

// with joins what two arguments rest on. Missing facts come before a fault: they may mend it.
func (i Info) with(j Info) Info {
	i.Unconfirmed = i.Unconfirmed || j.Unconfirmed
	switch {
	case i.State == Unknown && j.State == Unknown:
		i.Missing = i.Missing.Union(j.Missing)
	case j.State == Unknown:
		i.State, i.Missing = Unknown, j.Missing
	case i.State == Known:
		i.State = j.State
	}
	return i
}

// strict works out the operations that need every argument.
func strict(e *Expr, env Env) (float64, Info) {
	var x [manyArgs]float64
	var in Info
	for i := range e.Args {
		v, info := Eval(&e.Args[i], env)
		x[i] = v
		in = in.with(info)
	}
	if in.State != Known {
		return math.NaN(), in
	}
	v, sure := apply(e, x[:len(e.Args)])
	in.Unconfirmed = in.Unconfirmed || !sure
	if math.IsNaN(v) || math.IsInf(v, 0) {
		in.State = Fault
		return math.NaN(), in
	}
	return v, in
}

// apply does the operation on known arguments; sure is false where an unconfirmed cell was used.
func apply(e *Expr, x []float64) (v float64, sure bool) {
	switch e.Op {
	case In:
		return x[0] / e.Value, true
	case Of:
		return x[0] * e.Value, true
	case Cell, SureCell, HasCell:
		return lookup(e, x)
	case Doubt:
		return x[0], false
	case Min:
		return least(x), true
	case Max:
		return largest(x), true
	case Neg:
		return -x[0], true
	case Sqrt:
		return math.Sqrt(x[0]), true
	case Not:
		return 1 - x[0], true
	}
	return binary(e.Op, x[0], x[1]), true
}

func binary(op Op, a, b float64) float64 {
	switch op {
	case Add:
		return a + b
	case Sub:
		return a - b
	case Mul:
		return a * b
	case Div:
		return a / b
	case CeilTo:
		return CeilToStep(a, b)
	case Less:
		return truth(a < b)
	case LessEq:
		return truth(a <= b)
	case More:
		return truth(a > b)
	case MoreEq:
		return truth(a >= b)
	case Same:
		return truth(a == b)
	case Differ:
		return truth(a != b)
	}
	return math.NaN()
}

func lookup(e *Expr, x []float64) (v float64, sure bool) {
	column := math.NaN()
	if len(x) > 1 {
		column = x[1]
	}
	switch e.Op {
	case SureCell:
		v, _ = e.Table.LookupSure(x[0], column)
		return v, true
	case HasCell:
		_, _, ok := e.Table.Lookup(x[0], column)
		return truth(ok), true
	}
	v, sure, ok := e.Table.Lookup(x[0], column)
	return v, sure || !ok
}

// CeilToStep is the least multiple of step that is not below x, forgiving the
// rounding of unit conversion; NaN unless step is positive.
func CeilToStep(step, x float64) float64 {
	if !(step > 0) {
		return math.NaN()
	}
	return math.Ceil(x/step-slack) * step
}

func truth(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

func least(x []float64) float64 {
	m := x[0]
	for _, v := range x[1:] {
		m = min(m, v)
	}
	return m
}

func largest(x []float64) float64 {
	m := x[0]
	for _, v := range x[1:] {
		m = max(m, v)
	}
	return m
}
