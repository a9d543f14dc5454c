package rulebook

import (
	"fmt"
	"strings"
	"testing"

	"swingwright/fact"
)

// The formula of the low energy standard for 36 in and 125 lb gives 3.03 s
// (worked out apart from this program).
func TestExplainShowsTheWorking(t *testing.T) {
	env := NewEnv()
	env[fact.LeafWidth], env[fact.LeafMass] = 36*0.0254, 125*0.45359237
	inches := Expr{Op: In, Unit: "inches", Value: 0.0254, Args: []Expr{read(fact.LeafWidth)}}
	pounds := Expr{Op: In, Unit: "pounds", Value: 0.45359237, Args: []Expr{read(fact.LeafMass)}}
	e := call(Div, *call(Mul, inches, *call(Sqrt, pounds)), number(133))
	var got strings.Builder
	for _, s := range Explain(e, env) {
		fmt.Fprintf(&got, "%s%s = %.4g\n", strings.Repeat(" ", s.Depth), s.Text, s.Value)
	}
	want := `in_inches(leaf.width) * sqrt(in_pounds(leaf.mass)) / 133 = 3.026
 in_inches(leaf.width) * sqrt(in_pounds(leaf.mass)) = 402.5
  in_inches(leaf.width) = 36
   leaf.width = 0.9144
  sqrt(in_pounds(leaf.mass)) = 11.18
   in_pounds(leaf.mass) = 125
    leaf.mass = 56.7
`
	if got.String() != want {
		t.Errorf("got\n%s", got.String())
	}
}

func TestExplainLeavesOutWhatWasNotNeeded(t *testing.T) {
	env := NewEnv()
	env[fact.Interior] = 0
	e := call(And, read(fact.Interior), read(fact.Egress))
	steps := Explain(e, env)
	if len(steps) != 2 || steps[1].Text != "opening.interior" {
		t.Errorf("%+v", steps)
	}
	e = call(If, read(fact.Interior), *call(Add, read(fact.LeafWidth), number(1)), read(fact.LeafHeight))
	steps = Explain(e, env)
	if last := steps[len(steps)-1]; len(steps) != 3 || last.Text != "leaf.height" || last.Info.State != Unknown {
		t.Errorf("%+v", steps)
	}
}

func TestPrinting(t *testing.T) {
	a, b, c := number(1), number(2), number(3)
	for want, e := range map[string]*Expr{
		"1 + 2 * 3":   call(Add, a, *call(Mul, b, c)),
		"(1 + 2) * 3": call(Mul, *call(Add, a, b), c),
		"1 - (2 - 3)": call(Sub, a, *call(Sub, b, c)),
		"1 - 2 - 3":   call(Sub, *call(Sub, a, b), c),
		"-(-1)":       call(Neg, number(-1)),
		"1 < 2 ? 3 : 2 < 1 ? 1 : 2": call(If, *call(Less, a, b), c,
			*call(If, *call(Less, b, a), a, b)),
		"!(opening.interior && opening.egress)": call(Not, *call(And, read(fact.Interior), read(fact.Egress))),
		`opening.operation == "low-energy"`:     call(Same, read(fact.Operation), Expr{Op: Word, Fact: fact.Operation, Value: 1}),
	} {
		if got := e.String(); got != want {
			t.Errorf("got %s, want %s", got, want)
		}
	}
}

func TestEveryOperationIsDescribed(t *testing.T) {
	seen := map[string]bool{}
	for o := Op(0); o < ops; o++ {
		if name := o.String(); name == "" || seen[name] {
			t.Errorf("operation %d is called %q", o, name)
		} else {
			seen[name] = true
		}
		if d := opTable[o]; d.least > d.most || d.most > manyArgs {
			t.Errorf("%v takes %d to %d arguments", o, d.least, d.most)
		}
	}
	if Op(ops).String() != "?" || Side(9).String() != "?" {
		t.Error("numbers outside the lists have no name")
	}
}
