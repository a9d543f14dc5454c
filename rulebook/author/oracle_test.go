package author

import (
	"math"
	"testing"

	"cel.dev/cel-go/cel"
	"cel.dev/cel-go/common/decls"
	"cel.dev/cel-go/common/types"
	"cel.dev/cel-go/common/types/ref"

	"swingwright/fact"
	"swingwright/quantity"
	"swingwright/rulebook"
)

// An oracle works out formulas with the language's own runtime, which shares
// nothing with package rulebook but the tables' cells.
type oracle struct{ env *cel.Env }

func newOracle(t testing.TB, tables []*rulebook.Table) oracle {
	t.Helper()
	list := languageSignatures()
	for _, table := range tables {
		list = append(list[:len(list):len(list)], ofTable(table)...)
	}
	overloads := map[string][]cel.FunctionOpt{}
	for _, s := range list {
		id := overload(s.function, len(overloads[s.function]))
		bound := cel.FunctionBinding(func(args ...ref.Val) ref.Val { return finite(reference(s, args)) })
		switch len(s.args) {
		case 1:
			bound = cel.UnaryBinding(func(a ref.Val) ref.Val { return finite(reference(s, []ref.Val{a})) })
		case 2:
			bound = cel.BinaryBinding(func(a, b ref.Val) ref.Val { return finite(reference(s, []ref.Val{a, b})) })
		}
		overloads[s.function] = append(overloads[s.function], cel.Overload(id, s.args, s.result, bound))
	}
	var options []cel.EnvOption
	for name, o := range overloads {
		options = append(options, cel.Function(name, append(o, decls.DisableTypeGuards(true))...))
	}
	for i := range fact.Table {
		options = append(options, cel.Variable(fact.Table[i].Name, typeOf(&fact.Table[i])))
	}
	env, err := cel.NewCustomEnv(options...)
	if err != nil {
		t.Fatal(err)
	}
	return oracle{env}
}

// finite turns a number that is none into an error, as a formula must.
func finite(v ref.Val) ref.Val {
	if d, ok := v.(types.Double); ok && (math.IsNaN(float64(d)) || math.IsInf(float64(d), 0)) {
		return types.NewErr("no finite value")
	}
	return v
}

// reference is what a signature means, written down a second time.
func reference(s signature, args []ref.Val) ref.Val {
	x := make([]float64, len(args))
	for i, a := range args {
		switch v := a.(type) {
		case types.Double:
			x[i] = float64(v)
		case types.Bool:
			return !v // the only function of a statement that is not part of the runtime
		}
	}
	if s.table != nil {
		return referenceTable(s, x)
	}
	switch s.function {
	case "_+_":
		return types.Double(x[0] + x[1])
	case "_-_":
		return types.Double(x[0] - x[1])
	case "-_":
		return types.Double(-x[0])
	case "_*_":
		return types.Double(x[0] * x[1])
	case "_/_":
		return types.Double(x[0] / x[1])
	case "_<_":
		return types.Bool(x[0] < x[1])
	case "_<=_":
		return types.Bool(x[0] <= x[1])
	case "_>_":
		return types.Bool(x[0] > x[1])
	case "_>=_":
		return types.Bool(x[0] >= x[1])
	case "sqrt":
		return types.Double(math.Sqrt(x[0]))
	case "unconfirmed":
		return args[0]
	case "ceil_to":
		if !(x[0] > 0) {
			return types.Double(math.NaN())
		}
		return types.Double(math.Ceil(x[1]/x[0]-1e-9) * x[0])
	case "min", "max":
		best := x[0]
		for _, v := range x {
			if (v < best) == (s.function == "min") {
				best = v
			}
		}
		return types.Double(best)
	}
	return referenceUnit(s, x[0])
}

// referenceUnit converts with package quantity's own table of units.
func referenceUnit(s signature, x float64) ref.Val {
	for _, u := range unitNames {
		v, err := quantity.FromUnit(u.dim, 1, u.symbol)
		switch s.function {
		case "in_" + u.name:
			v = x / v
		case u.name:
			v, err = quantity.FromUnit(u.dim, x, u.symbol)
		default:
			continue
		}
		if err == nil {
			return types.Double(v)
		}
	}
	return types.NewErr("no function %s", s.function)
}

func referenceTable(s signature, x []float64) ref.Val {
	x = append(x, math.NaN())
	cell, _, ok := s.table.Lookup(x[0], x[1])
	switch s.op {
	case rulebook.HasCell:
		return types.Bool(ok)
	case rulebook.SureCell:
		cell, _ = s.table.LookupSure(x[0], x[1])
	}
	return types.Double(cell)
}

// program plans a checked formula.
func (o oracle) program(t testing.TB, text string) cel.Program {
	t.Helper()
	parsed, issues := o.env.Parse(text)
	if issues.Err() != nil {
		t.Fatalf("%s: %v", text, issues.Err())
	}
	wholeNumbersAreNumbers(parsed.NativeRep().Expr())
	checked, issues := o.env.Check(parsed)
	if issues.Err() != nil {
		t.Fatalf("%s: %v", text, issues.Err())
	}
	p, err := o.env.Program(checked, cel.EvalOptions(cel.OptPartialEval))
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return p
}

// run evaluates a program on what is known of the facts that it uses.
func run(t testing.TB, p cel.Program, uses rulebook.Facts, env rulebook.Env) (float64, rulebook.State) {
	t.Helper()
	vars := map[string]any{}
	var unknown []*cel.AttributePatternType
	for id := range uses.All() {
		f, v := id.Fact(), env[id]
		switch {
		case math.IsNaN(v):
			unknown = append(unknown, cel.AttributePattern(f.Name))
		case f.Kind == fact.YesNo:
			vars[f.Name] = v >= 0.5
		case f.Kind == fact.Choice:
			vars[f.Name] = f.Choices[int(v)]
		default:
			vars[f.Name] = v
		}
	}
	partial, err := cel.PartialVars(vars, unknown...)
	if err != nil {
		t.Fatal(err)
	}
	out, _, err := p.Eval(partial)
	switch v := out.(type) {
	case types.Double:
		return float64(v), rulebook.Known
	case types.Bool:
		return truth(bool(v)), rulebook.Known
	case *types.Unknown:
		return math.NaN(), rulebook.Unknown
	}
	if err == nil {
		t.Fatalf("the oracle gave %v", out)
	}
	return math.NaN(), rulebook.Fault
}
