package rulebook

import (
	"math"
	"testing"

	"swingwright/fact"
	"swingwright/quantity"
)

func number(v float64) Expr { return Expr{Op: Const, Value: v} }
func read(id fact.ID) Expr {
	return Expr{Op: Read, Fact: id, Kind: id.Fact().Kind, Dim: id.Fact().Dim}
}
func call(op Op, args ...Expr) *Expr { return &Expr{Op: op, Args: args} }

// Truth tables of strong three-valued logic: S. C. Kleene, Introduction to
// Metamathematics, 1952, section 64. Rows and columns run no, unknown, yes.
func TestThreeValuedLogic(t *testing.T) {
	u := math.NaN()
	values := []float64{0, u, 1}
	and := [3][3]float64{{0, 0, 0}, {0, u, u}, {0, u, 1}}
	or := [3][3]float64{{0, u, 1}, {u, u, 1}, {1, 1, 1}}
	for i, a := range values {
		for j, b := range values {
			env := NewEnv()
			env[fact.Interior], env[fact.Exterior] = a, b
			for op, want := range map[Op]float64{And: and[i][j], Or: or[i][j]} {
				got, in := Eval(call(op, read(fact.Interior), read(fact.Exterior)), env)
				if !alike(got, want) || (in.State == Known) == math.IsNaN(want) {
					t.Errorf("%v %v %v = %v (%v), want %v", a, op, b, got, in.State, want)
				}
			}
		}
	}
}

func alike(a, b float64) bool { return a == b || math.IsNaN(a) && math.IsNaN(b) }

func TestMissingNamesOnlyWhatWouldHelp(t *testing.T) {
	env := NewEnv()
	env[fact.Exterior] = 0
	e := call(Or, read(fact.FireRated), *call(And, read(fact.Exterior), read(fact.Egress)))
	_, in := Eval(e, env)
	var got []fact.ID
	for id := range in.Missing.All() {
		got = append(got, id)
	}
	if len(got) != 1 || got[0] != fact.FireRated {
		t.Errorf("missing %v, want only %v: egress cannot matter once the opening is not exterior", got, fact.FireRated)
	}
}

func TestNoFiniteValueIsAFault(t *testing.T) {
	env := NewEnv()
	env[fact.CloserSize] = -1
	size := read(fact.CloserSize)
	for _, e := range []*Expr{
		call(Sqrt, size),
		call(Div, number(1), *call(Add, size, number(1))),
		call(CeilTo, size, number(2)),
		call(Mul, number(math.MaxFloat64), number(10)),
	} {
		if v, in := Eval(e, env); in.State != Fault || !math.IsNaN(v) {
			t.Errorf("%v = %v (%v), want a fault", e, v, in.State)
		}
	}
	env[fact.CloserSize] = math.Inf(1)
	if _, in := Eval(&size, env); in.State != Fault {
		t.Errorf("an infinite fact gave %v, want a fault", in.State)
	}
	// A missing fact may mend a fault, so it is named first.
	e := call(Add, *call(Div, number(1), number(0)), read(fact.LeafWidth))
	if _, in := Eval(e, env); in.State != Unknown || !in.Missing.Has(fact.LeafWidth) {
		t.Errorf("fault beside a missing fact gave %v", in.State)
	}
}

func TestCeilToStep(t *testing.T) {
	for _, c := range []struct{ step, x, want float64 }{
		{0.5, 3.03, 3.5}, {0.5, 3.5, 3.5}, {0.5, 3.5 + 1e-12, 3.5}, {0.1, 3.0000001, 3.1}, {0.5, -0.2, 0},
	} {
		if got := CeilToStep(c.step, c.x); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("ceil_to(%v, %v) = %v, want %v", c.step, c.x, got, c.want)
		}
	}
}

func TestEvalDoesNotAllocate(t *testing.T) {
	env := NewEnv()
	env[fact.LeafWidth], env[fact.LeafMass], env[fact.CloseTime90To10] = 0.9, 60, 4
	r := tableRule()
	if n := testing.AllocsPerRun(100, func() { r.Check(env) }); n != 0 {
		t.Errorf("Check allocates %v times", n)
	}
}

// tableRule is a two-key lookup against a time.
func tableRule() *Rule {
	table := &Table{
		ID: "made_up", Dim: quantity.DimTime,
		Rows:    Axis{Dim: quantity.DimLength, At: []float64{0.8, 1.0}},
		Columns: Axis{Dim: quantity.DimMass, At: []float64{50, 70, 90}},
		Cells:   []float64{3, 4, 5, 4, 5, 6},
	}
	limit := Expr{Op: Cell, Table: table, Dim: quantity.DimTime, Args: []Expr{read(fact.LeafWidth), read(fact.LeafMass)}}
	return &Rule{ID: "made-up", Of: fact.CloseTime90To10, Limit: &limit}
}

func BenchmarkCheckTable(b *testing.B) {
	env := NewEnv()
	env[fact.LeafWidth], env[fact.LeafMass], env[fact.CloseTime90To10] = 0.9, 60, 4
	r := tableRule()
	for b.Loop() {
		if r.Check(env).End != Judged {
			b.Fatal("not judged")
		}
	}
}
