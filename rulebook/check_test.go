package rulebook

import (
	"math"
	"testing"

	"swingwright/fact"
	"swingwright/quantity"
)

func TestSides(t *testing.T) {
	env := NewEnv()
	env[fact.CloseTime90To10] = 4
	limit := Expr{Op: Const, Dim: quantity.DimTime, Value: 3}
	for side, want := range map[Side]float64{AtLeast: 1, AtMost: -1} {
		r := Rule{Of: fact.CloseTime90To10, Side: side, Limit: &limit}
		out := r.Check(env)
		if out.End != Judged || out.Margin != want || out.Value != 4 || out.Limit != 3 {
			t.Errorf("%v: %+v", side, out)
		}
		if !math.IsNaN(out.Sure) {
			t.Errorf("%v: a margin to a limit that is not there: %v", side, out.Sure)
		}
	}
}

// A moment is judged as a force at the rule's radius: 15 lbf at 30 in is
// 15*30/35 = 12.86 lbf at 35 in.
func TestMomentsAreJudgedAtTheRulesRadius(t *testing.T) {
	env := NewEnv()
	lbf, in := float64(quantity.PoundForce), float64(quantity.Inch)
	env[fact.HandToOpen] = 15 * lbf * 30 * in
	env[fact.LatchEdge] = 36 * in
	r := Rule{
		Of: fact.HandToOpen, Side: AtMost,
		At:    call(Sub, read(fact.LatchEdge), number(in)),
		Limit: &Expr{Op: Const, Dim: quantity.DimForce, Value: 13 * lbf},
	}
	out := r.Check(env)
	if out.End != Judged || math.Abs(out.Value/lbf-12.857) > 0.001 || math.Abs(out.Margin/lbf-0.143) > 0.001 {
		t.Errorf("%v lbf, margin %v lbf, end %v", out.Value/lbf, out.Margin/lbf, out.End)
	}
	if r.Dim() != quantity.DimForce {
		t.Errorf("compared as %v", r.Dim())
	}
	env[fact.LatchEdge] = in
	if out := r.Check(env); out.End != Faulty {
		t.Errorf("a radius of nothing: %+v", out)
	}
}

func TestEnds(t *testing.T) {
	interior := read(fact.Interior)
	limit := read(fact.CloseTime70ToClosed)
	r := Rule{Of: fact.CloseTime90To10, When: &interior, Limit: &limit}
	env := NewEnv()
	step := func(want End, missing ...fact.ID) {
		t.Helper()
		out := r.Check(env)
		var need Facts
		for _, id := range missing {
			need.Add(id)
		}
		if out.End != want || out.Missing != need {
			t.Errorf("%v, missing %v; want %v, missing %v", out.End, out.Missing, want, need)
		}
		if (out.End == Judged) == math.IsNaN(out.Margin) {
			t.Errorf("%v with margin %v", out.End, out.Margin)
		}
	}
	step(MayApply, fact.Interior)
	env[fact.Interior] = 0
	step(NotApplying)
	env[fact.Interior] = 1
	step(Unmeasured, fact.CloseTime90To10, fact.CloseTime70ToClosed)
	env[fact.CloseTime90To10] = 3
	step(Unmeasured, fact.CloseTime70ToClosed)
	env[fact.CloseTime70ToClosed] = 3
	step(Judged)
	env[fact.CloseTime70ToClosed] = math.Inf(1)
	step(Faulty)
}

func TestMustHold(t *testing.T) {
	limit := read(fact.LatchesFrom90)
	r := Rule{Of: fact.LatchesFrom90, Side: MustHold, Limit: &limit}
	env := NewEnv()
	if out := r.Check(env); out.End != Unmeasured {
		t.Errorf("unknown: %+v", out)
	}
	// 0.93 is the share of draws in which it latched.
	for v, want := range map[float64]float64{1: 0.5, 0: -0.5, 0.93: 0.5, 0.2: -0.5} {
		env[fact.LatchesFrom90] = v
		if out := r.Check(env); out.Margin != want || out.End != Judged {
			t.Errorf("%v: %+v, want margin %v", v, out, want)
		}
	}
}

// A limit that rests on an unconfirmed part says so; a stricter confirmed one is judged beside it.
func TestUnconfirmedAndSure(t *testing.T) {
	env := NewEnv()
	env[fact.PoweredDwell] = 4
	limit := call(Doubt, number(3))
	sure := number(5)
	r := Rule{Of: fact.PoweredDwell, Limit: limit, Sure: &sure}
	if out := r.Check(env); !out.Unconfirmed || out.Margin != 1 || out.Sure != -1 {
		t.Errorf("%+v", out)
	}
	// What logic did not need to look at casts no doubt.
	r.Limit = call(If, Expr{Op: Const, Kind: fact.YesNo, Value: 1}, number(3), *limit)
	if out := r.Check(env); out.Unconfirmed {
		t.Errorf("%+v", out)
	}
}
