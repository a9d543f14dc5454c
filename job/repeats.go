package job

import (
	"strings"

	"swingwright/fact"
	"swingwright/instrument"
	"swingwright/opening"
	"swingwright/quantity"
)

// repeated reads laps of a stopwatch, or forces off a gauge.
func repeated(id fact.ID, r opening.Reading) (Reading, *Problem) {
	dim := id.Fact().Dim
	wrong := func(field, found, needed, hint string) (Reading, *Problem) {
		return Reading{}, &Problem{Field: field, Found: found, Needed: needed, Hint: hint}
	}
	switch {
	case r.Value != "":
		return wrong("values", "value and values", "one of them", "keep values: the mean is reckoned from them")
	case id.Fact().Kind != fact.Number || dim != quantity.DimTime && dim != quantity.DimTorque && dim != quantity.DimForce:
		return wrong("values", id.String(), "a time or a force, which are read several times", "give value, with its spread")
	}
	var got instrument.Read
	var err error
	var p *Problem
	if dim == quantity.DimTime {
		laps := instrument.Laps{Own: r.Own.Value}
		if laps.Times, p = each[quantity.Time](r.Values); p != nil {
			return Reading{}, p
		}
		if r.Start == "with-press" {
			laps.Start = instrument.WithPress
		}
		got, err = laps.Read()
	} else {
		got, p, err = pulled(id, r)
		if p != nil {
			return Reading{}, p
		}
	}
	if err != nil {
		return wrong("values", strings.Join(r.Values, ", "), "readings that make sense", err.Error())
	}
	return Reading{Fact: id, Value: got.Value, U: got.U, Stated: true, Repeats: &got}, nil
}

// pulled reads forces; those that stand for a moment need a distance.
func pulled(id fact.ID, r opening.Reading) (instrument.Read, *Problem, error) {
	forces, p := each[quantity.Force](r.Values)
	if p != nil {
		return instrument.Read{}, p, nil
	}
	at := r.At
	if id.Fact().Dim == quantity.DimForce {
		at = quantity.Exactly(quantity.Length(1)) // a force as it stands
		at.U = 1e-9
	} else if !at.Known {
		return instrument.Read{}, &Problem{Field: "values", Found: strings.Join(r.Values, ", "), Needed: "a distance with forces that stand for a moment",
			Hint: "add at: with the distance from the hinge pin at which they were read"}, nil
	}
	got, err := instrument.Pulls{Forces: forces, At: at, Range: r.Range.Value, Askew: r.Askew.Value}.Read()
	return got, nil, err
}

// each reads every one of some values.
func each[Q quantity.Quantity](texts []string) ([]Q, *Problem) {
	var all []Q
	for _, text := range texts {
		m, err := quantity.Parse[Q](text)
		if err != nil {
			e := examples[Q(0).Dimension()]
			return nil, &Problem{Field: "values", Found: quantity.Quote(text), Needed: quantityNoun(Q(0).Dimension()) + " such as " + e[0] + " or " + e[1], Hint: quantity.Reason(err)}
		}
		all = append(all, m.Value)
	}
	return all, nil
}
