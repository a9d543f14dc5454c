package author

import (
	"math"
	"math/rand/v2"
	"testing"

	"swingwright/fact"
	"swingwright/rulebook"
)

// draw makes up what is known of an opening: some facts unknown, many exactly
// at figures that rules and tables use, some absurd.
func draw(r *rand.Rand, special []float64) rulebook.Env {
	env := rulebook.NewEnv()
	for i := range env {
		f := &fact.Table[i]
		switch {
		case r.IntN(6) == 0:
		case f.Kind == fact.YesNo:
			env[i] = float64(r.IntN(2))
		case f.Kind == fact.Choice:
			env[i] = float64(r.IntN(len(f.Choices)))
		default:
			env[i] = value(r, special)
		}
	}
	return env
}

func value(r *rand.Rand, special []float64) float64 {
	switch r.IntN(10) {
	case 0, 1, 2, 3:
		return special[r.IntN(len(special))]
	case 4:
		return special[r.IntN(len(special))] * (1 + r.NormFloat64()*0.001)
	case 5:
		return []float64{0, -1, 1e160, -1e160, 1e-160}[r.IntN(5)]
	}
	return r.ExpFloat64() * math.Pow(10, float64(r.IntN(4)-1))
}

// specials are the keys and cells of the tables.
func specials(b *rulebook.Book) []float64 {
	list := []float64{1, 2, 3}
	for _, t := range b.Tables {
		list = append(append(append(list, t.Rows.At...), t.Columns.At...), t.Cells...)
	}
	return list
}

// The rulebook's evaluator and the language's own runtime agree on every
// formula of every book, unknown facts and faults included.
func TestEvaluatorAgreesWithTheLanguage(t *testing.T) {
	draws := 3000
	if testing.Short() {
		draws = 500
	}
	for _, b := range books(t) {
		o, special, done := newOracle(t, b.Tables), specials(b), map[string]bool{}
		r := rand.New(rand.NewPCG(1996, 1154))
		for i := range b.Rules {
			rule := &b.Rules[i]
			for _, e := range []*rulebook.Expr{rule.Limit, rule.At, rule.When, rule.Sure} {
				if e == nil || e.Op == rulebook.Const || done[e.String()] {
					continue
				}
				done[e.String()] = true
				p, uses := o.program(t, e.String()), e.Uses()
				for range draws {
					env := draw(r, special)
					want, state := run(t, p, uses, env)
					got, info := rulebook.Eval(e, env)
					if !agree(got, want) || !alike(info, state, env) {
						t.Fatalf("%s %s: %s\n = %v (%v), the language says %v (%v)\n%v", b.ID, rule.ID, e, got, info.State, want, state, env)
					}
				}
			}
		}
	}
}

// alike compares what became of a formula. Where one part lacks a fact and
// another has no finite value, the language tells whichever stands first; we tell the missing fact.
func alike(info rulebook.Info, state rulebook.State, env rulebook.Env) bool {
	for id := range info.Missing.All() {
		if !math.IsNaN(env[id]) {
			return false
		}
	}
	if info.Missing.Empty() == (info.State == rulebook.Unknown) {
		return false
	}
	return info.State == state || info.State == rulebook.Unknown && state == rulebook.Fault
}

// agree tells the same value, to the bit, or none on either side.
func agree(a, b float64) bool { return a == b || math.IsNaN(a) && math.IsNaN(b) }
