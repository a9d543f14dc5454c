package author

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"cel.dev/cel-go/cel"
	"pgregory.net/rapid"
	_ "swingwright/internal/steady"

	"swingwright/fact"
	"swingwright/quantity"
	"swingwright/rulebook"
)

// A maker makes up formulas that are sound in kind and dimension.
type maker struct{ t *rapid.T }

func (m maker) pick(n int, what string) int { return rapid.IntRange(0, n-1).Draw(m.t, what) }

// statement is a formula that is true or false.
func (m maker) statement(depth int) rulebook.Expr {
	yes := func(op rulebook.Op, args ...rulebook.Expr) rulebook.Expr {
		return rulebook.Expr{Op: op, Kind: fact.YesNo, Args: args}
	}
	if depth <= 0 {
		return m.fact(func(f *fact.Fact) bool { return f.Kind == fact.YesNo })
	}
	switch m.pick(6, "statement") {
	case 0:
		return yes(rulebook.Not, m.statement(depth-1))
	case 1:
		return yes(rulebook.And, m.statement(depth-1), m.statement(depth-1))
	case 2:
		return yes(rulebook.Or, m.statement(depth-1), m.statement(depth-1))
	case 3:
		f := m.fact(func(f *fact.Fact) bool { return f.Kind == fact.Choice })
		w := rulebook.Expr{Op: rulebook.Word, Kind: fact.Choice, Fact: f.Fact, Value: float64(m.pick(len(f.Fact.Fact().Choices), "choice"))}
		return yes(rulebook.Same+rulebook.Op(m.pick(2, "differ")), f, w)
	case 4:
		return yes(rulebook.If, m.statement(depth-1), m.statement(depth-1), m.statement(depth-1))
	}
	d := m.dimension()
	return yes(rulebook.Less+rulebook.Op(m.pick(4, "comparison")), m.number(d, depth-1), m.number(d, depth-1))
}

// number is a formula that gives a quantity of the dimension.
func (m maker) number(d quantity.Dimension, depth int) rulebook.Expr {
	num := func(op rulebook.Op, args ...rulebook.Expr) rulebook.Expr {
		return rulebook.Expr{Op: op, Dim: d, Args: args}
	}
	if depth <= 0 {
		if m.pick(2, "leaf") == 0 {
			return m.constant(d)
		}
		return m.fact(func(f *fact.Fact) bool { return f.Kind == fact.Number && f.Dim == d })
	}
	less := func() rulebook.Expr { return m.number(d, depth-1) }
	switch m.pick(9, "number") {
	case 0:
		return num(rulebook.Add, less(), less())
	case 1:
		return num(rulebook.Sub, less(), less())
	case 2:
		return num(rulebook.Neg, m.fact(func(f *fact.Fact) bool { return f.Kind == fact.Number && f.Dim == d }))
	case 3:
		return num(rulebook.Mul, m.number(quantity.DimRatio, depth-1), less())
	case 4:
		return num(rulebook.Div, less(), m.number(quantity.DimRatio, depth-1))
	case 5:
		return num(rulebook.Min+rulebook.Op(m.pick(2, "max")), less(), less(), less())
	case 6:
		return num(rulebook.CeilTo, less(), less())
	case 7:
		return num(rulebook.If, m.statement(depth-1), less(), less())
	}
	if d == quantity.DimRatio {
		return m.ratio(depth)
	}
	return num(rulebook.Doubt, less())
}

// ratio is a plain number got from quantities.
func (m maker) ratio(depth int) rulebook.Expr {
	u := unitNames[m.pick(len(unitNames), "unit")]
	if m.pick(2, "sqrt") == 0 {
		return rulebook.Expr{Op: rulebook.Sqrt, Args: []rulebook.Expr{m.number(quantity.DimRatio, depth-1)}}
	}
	factor, _ := quantity.FromUnit(u.dim, 1, u.symbol)
	return rulebook.Expr{Op: rulebook.In, Unit: u.name, Value: factor, Args: []rulebook.Expr{m.number(u.dim, depth-1)}}
}

// usual are the dimensions that facts and units have in common.
var usual = []quantity.Dimension{
	quantity.DimRatio, quantity.DimLength, quantity.DimAngle, quantity.DimMass, quantity.DimTime,
	quantity.DimForce, quantity.DimTorque, quantity.DimEnergy, quantity.DimPressure,
}

func (m maker) dimension() quantity.Dimension { return usual[m.pick(len(usual), "dimension")] }

func (m maker) constant(d quantity.Dimension) rulebook.Expr {
	v := float64(m.pick(200, "constant")) / 4
	if d == quantity.DimRatio {
		return rulebook.Expr{Op: rulebook.Const, Value: v}
	}
	for _, u := range unitNames {
		if u.dim == d {
			si, _ := quantity.FromUnit(d, v, u.symbol)
			return rulebook.Expr{Op: rulebook.Const, Dim: d, Value: si, Unit: fmt.Sprintf("%s(%v)", u.name, v)}
		}
	}
	panic("every usual dimension has a unit")
}

func (m maker) fact(fits func(*fact.Fact) bool) rulebook.Expr {
	var ids []fact.ID
	for i := range fact.Table {
		if fits(&fact.Table[i]) {
			ids = append(ids, fact.ID(i))
		}
	}
	id := ids[m.pick(len(ids), "fact")]
	return rulebook.Expr{Op: rulebook.Read, Fact: id, Kind: id.Fact().Kind, Dim: id.Fact().Dim}
}

// Any sound formula, printed, is accepted and lowered to the very same formula, and the
// language's own runtime finds the same value for it.
func TestPrintedFormulasComeBack(t *testing.T) {
	c, err := plainChecker()
	if err != nil {
		t.Fatal(err)
	}
	o := newOracle(t, nil)
	rapid.Check(t, func(rt *rapid.T) {
		m := maker{rt}
		var e rulebook.Expr
		var want *cel.Type
		if m.pick(2, "kind") == 0 {
			e, want = m.statement(3), yesNo
		} else {
			d := m.dimension()
			e, want = m.number(d, 3), quantityOf(d)
		}
		text := e.String()
		if len(text) > mostRunes {
			return
		}
		got, complaints := c.compile(text, want)
		if len(complaints) > 0 {
			rt.Fatalf("%s: %v", text, complaints)
		}
		if got.String() != text {
			rt.Fatalf("%s\ncame back as\n%s", text, got)
		}
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(rt, "seed"), 0))
		p, uses := o.program(t, text), e.Uses()
		for range 20 {
			env := draw(r, []float64{0.5, 1, 2, 3})
			v, info := rulebook.Eval(got, env)
			w, state := run(t, p, uses, env)
			if !agree(v, w) || !alike(info, state, env) {
				rt.Fatalf("%s = %v (%v), the language says %v (%v)", text, v, info.State, w, state)
			}
		}
	})
}
