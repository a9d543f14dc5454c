package job

import (
	"math"
	"slices"
	"strings"

	"swingwright/fact"
	"swingwright/instrument"
	"swingwright/opening"
	"swingwright/quantity"
)

// A Reading is what was measured of one fact.
type Reading struct {
	Fact fact.ID
	// Value is in the SI unit of the fact's dimension; of a yes or no it is 1 or
	// 0, of a choice the place of the word among the fact's choices.
	Value float64
	// U is the standard uncertainty in the same unit, zero where none was stated.
	U float64
	// Stated tells that the spread was written down with the value, or follows from
	// repeated readings.
	Stated bool
	// Repeats is what repeated readings came to, nil for a single one; of a force at a
	// distance as a moment.
	Repeats *instrument.Read
}

// ResolveReading returns what a reading says, or a Problem without a place. A
// force read at a distance stands for its moment about the hinge pin.
func ResolveReading(r opening.Reading) (Reading, error) {
	known, p := resolve(r)
	if p != nil {
		return Reading{}, *p
	}
	return known, nil
}

// resolve reads the value of r; the problem's field is the key that is wrong.
func resolve(r opening.Reading) (Reading, *Problem) {
	id, found := fact.Lookup(r.Fact)
	if !found {
		return Reading{}, &Problem{Field: "fact", Found: quantity.Quote(r.Fact), Needed: neededName("fact"),
			Hint: DidYouMean(r.Fact, fact.Names())}
	}
	f := id.Fact()
	if r.At.Known && f.Dim != quantity.DimTorque && f.Dim != quantity.DimForce {
		return Reading{}, &Problem{Field: "at", Found: quantity.Quote(r.At.Text), Needed: "no distance with " + f.Name,
			Hint: "a distance belongs to a force"}
	}
	if len(r.Values) > 0 {
		return repeated(id, r)
	}
	switch f.Kind {
	case fact.YesNo:
		return word(id, r.Value, []string{"no", "yes"})
	case fact.Choice:
		return word(id, r.Value, f.Choices)
	}
	if f.Dim == quantity.DimTorque && r.At.Known {
		return moment(id, r)
	}
	return number(id, f.Dim, r.Value)
}

// word reads one of a few words; its value is its place among them.
func word(id fact.ID, text string, words []string) (Reading, *Problem) {
	i := slices.Index(words, text)
	if i < 0 {
		return Reading{}, &Problem{Field: "value", Found: quantity.Quote(text), Needed: "one of " + strings.Join(words, ", "),
			Hint: DidYouMean(text, words)}
	}
	return Reading{Fact: id, Value: float64(i), Stated: true}, nil
}

// number reads a quantity.
func number(id fact.ID, dim quantity.Dimension, text string) (Reading, *Problem) {
	x, u, stated, err := quantity.ParseAs(dim, text)
	if err == nil {
		return Reading{Fact: id, Value: x, U: u, Stated: stated}, nil
	}
	e := examples[dim]
	p := &Problem{Field: "value", Found: quantity.Quote(text), Needed: quantityNoun(dim) + " such as " + e[0] + " or " + e[1], Hint: quantity.Reason(err)}
	if _, _, _, isForce := quantity.ParseAs(quantity.DimForce, text); dim == quantity.DimTorque && isForce == nil {
		p.Needed += ", or a force with at"
		p.Hint = "add at: with the distance from the hinge pin at which the force was read"
	}
	return Reading{}, p
}

// moment reads a force at a distance: M = F·r, and by the law of propagation
// u² = (r·u_F)² + (F·u_r)² (JCGM 100:2008, equation 10).
func moment(id fact.ID, r opening.Reading) (Reading, *Problem) {
	force, p := number(id, quantity.DimForce, r.Value)
	if p != nil {
		if _, _, _, err := quantity.ParseAs(quantity.DimTorque, r.Value); err == nil {
			p.Hint = "a moment needs no distance: leave at out, or write the force that was read"
		}
		return Reading{}, p
	}
	arm, uArm := float64(r.At.Value), float64(r.At.U)
	force.U = math.Hypot(arm*force.U, force.Value*uArm)
	force.Value *= arm
	return force, nil
}
