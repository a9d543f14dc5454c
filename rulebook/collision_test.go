package rulebook

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
	_ "swingwright/internal/steady"

	"swingwright/fact"
	"swingwright/quantity"
)

// twoOrMore makes a book for each limit, with one rule on a moment felt at a radius.
func twoOrMore(side Side, limits, radii []float64) ([]Collision, []*Book) {
	c := Collision{ID: "force"}
	var books []*Book
	for i := range limits {
		r := Rule{ID: "force", Of: fact.HandToOpen, Side: side,
			Limit: &Expr{Op: Const, Dim: quantity.DimForce, Value: limits[i]},
			At:    &Expr{Op: Const, Dim: quantity.DimLength, Value: radii[i]}}
		b := &Book{ID: fmt.Sprint("book-", i), Rules: []Rule{r}}
		books = append(books, b)
		c.Rules = append(c.Rules, RuleRef{b.ID, r.ID})
	}
	return []Collision{c}, books
}

// The strictest of forces at different radii is the one of the least moment, or
// the largest where the force must be reached; where all ask the same, none is.
func TestStrictestByMoment(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 5).Draw(t, "rules")
		limits := rapid.SliceOfN(rapid.SampledFrom([]float64{10, 20, 22, 30}), n, n).Draw(t, "limits")
		radii := rapid.SliceOfN(rapid.SampledFrom([]float64{0.5, 0.8, 1}), n, n).Draw(t, "radii")
		side := rapid.SampledFrom([]Side{AtLeast, AtMost}).Draw(t, "side")
		collisions, books := twoOrMore(side, limits, radii)
		met := Meetings(collisions, books, NewEnv())
		if len(met) != 1 || len(met[0].Parties) != n || !met[0].Comparable {
			t.Fatalf("got %+v", met)
		}
		for i := range limits {
			beaten := false
			for j := range limits {
				less := limits[i]*radii[i] - limits[j]*radii[j]
				if side == AtLeast {
					less = -less
				}
				beaten = beaten || less > 1e-6
			}
			p := met[0].Parties[i]
			if math.Abs(p.Moment-limits[i]*radii[i]) > 1e-9 || p.Strictest != (!beaten && !same(limits, radii)) {
				t.Fatalf("%v at %v: party %d is %+v", limits, radii, i, p)
			}
		}
	})
}

func same(limits, radii []float64) bool {
	for i := range limits {
		if math.Abs(limits[i]*radii[i]-limits[0]*radii[0]) > 1e-6 {
			return false
		}
	}
	return true
}

// What cannot be compared is not: statements, other facts, the other side, and
// limits that are not known. Rules that do not apply, and books that the job
// does not name, meet nobody.
func TestWhatDoesNotMeet(t *testing.T) {
	no := &Expr{Op: Read, Fact: fact.Egress, Kind: fact.YesNo}
	for name, change := range map[string]func(r *Rule){
		"statement":     func(r *Rule) { r.Side, r.Limit = MustHold, no },
		"other fact":    func(r *Rule) { r.Of = fact.HandToStart },
		"other side":    func(r *Rule) { r.Side = AtLeast },
		"unknown limit": func(r *Rule) { r.At = &Expr{Op: Read, Fact: fact.LatchEdge, Dim: quantity.DimLength} },
	} {
		collisions, books := twoOrMore(AtMost, []float64{10, 20}, []float64{1, 1})
		change(&books[1].Rules[0])
		met := Meetings(collisions, books, NewEnv())
		if len(met) != 1 || met[0].Comparable || met[0].Parties[0].Strictest || met[0].Parties[1].Strictest {
			t.Errorf("%s: %+v", name, met)
		}
	}
	collisions, books := twoOrMore(AtMost, []float64{10, 20}, []float64{1, 1})
	if met := Meetings(collisions, books[:1], NewEnv()); len(met) != 0 {
		t.Errorf("one book alone meets %+v", met)
	}
	books[1].Rules[0].When = no
	env := NewEnv()
	if met := Meetings(collisions, books, env); len(met) != 1 || met[0].Parties[1].Certain || !met[0].Parties[0].Certain {
		t.Errorf("a rule that may apply: %+v", met)
	}
	env[fact.Egress] = 0
	if met := Meetings(collisions, books, env); len(met) != 0 {
		t.Errorf("a rule that does not apply meets %+v", met)
	}
}
