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
		return env.read(e.Fact, e.Kind)
	case And:
		return junction(e, env, 0)
	case Or:
		return junction(e, env, 1)
	case If:
		return choose(e, env)
	}
	return strict(e, env)
}

// read is the value of a fact of the kind.
func (env Env) read(id fact.ID, kind fact.Kind) (float64, Info) {
	if int(id) >= len(env) || math.IsNaN(env[id]) {
		in := Info{State: Unknown}
		in.Missing.Add(id)
		return math.NaN(), in
	}
	if kind == fact.YesNo {
		return truth(env[id] >= 0.5), Info{}
	}
	return Info{}.finite(env[id])
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
	if j == (Info{}) {
		return i
	}
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
	if e.Op == Min || e.Op == Max {
		return extreme(e, env)
	}
	a, in := Eval(&e.Args[0], env)
	b := math.NaN()
	if len(e.Args) > 1 {
		var ib Info
		b, ib = Eval(&e.Args[1], env)
		in = in.with(ib)
	}
	if in.State != Known {
		return math.NaN(), in
	}
	v, sure := apply(e, a, b)
	in.Unconfirmed = in.Unconfirmed || !sure
	return in.finite(v)
}

// finite is v, or a fault where v is no number.
func (i Info) finite(v float64) (float64, Info) {
	if v-v != 0 { // only of NaN and the infinities
		i.State = Fault
		return math.NaN(), i
	}
	return v, i
}

// extreme is the least or largest of the arguments.
func extreme(e *Expr, env Env) (float64, Info) {
	best, in := Eval(&e.Args[0], env)
	for i := 1; i < len(e.Args); i++ {
		v, iv := Eval(&e.Args[i], env)
		in = in.with(iv)
		if e.Op == Min {
			best = min(best, v)
		} else {
			best = max(best, v)
		}
	}
	if in.State != Known {
		return math.NaN(), in
	}
	return best, in
}

// apply does the operation on known arguments, b being NaN where there is one only;
// sure is false where an unconfirmed cell or part was used.
func apply(e *Expr, a, b float64) (v float64, sure bool) {
	switch e.Op {
	case Cell, SureCell, HasCell:
		return lookup(e, a, b)
	case Doubt:
		return a, false
	case In:
		return a / e.Value, true
	case Of:
		return a * e.Value, true
	case Neg:
		return -a, true
	case Sqrt:
		return math.Sqrt(a), true
	case Not:
		return 1 - a, true
	case CeilTo:
		return CeilToStep(a, b), true
	}
	return binary(e.Op, a, b), true
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

// lookup finds a table's cell.
func lookup(e *Expr, row, column float64) (v float64, sure bool) {
	switch e.Op {
	case SureCell:
		v, _ = e.Table.LookupSure(row, column)
		return v, true
	case HasCell:
		_, ok := e.Table.place(row, column)
		return truth(ok), true
	}
	v, sure, ok := e.Table.Lookup(row, column)
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
