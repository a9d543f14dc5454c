package plan

import (
	"slices"

	"swingwright/judge"
	"swingwright/opening"
	"swingwright/power"
	q "swingwright/quantity"
)

// A SharedCircuit is a branch circuit of the mains with what all openings of a job put on
// it, judged. All of it is advice: the electrician who answers for the circuit decides.
type SharedCircuit struct {
	power.Shared
	Statements []Statement
}

// Circuits adds up the branch circuits that the wirings of a job name, in the order in
// which they are first named. unnamed are the wirings that have one and do not say which:
// nothing is added up for them.
func Circuits(openings []opening.Opening, groups []opening.Group, sheets *opening.Sheets, policy judge.Policy) (all []SharedCircuit, unnamed []string) {
	type shared struct {
		branches []*power.Branch
		of       []string
	}
	var order []string
	found := map[string]*shared{}
	look := func(of string, w *opening.Wiring) {
		circuits, _ := power.Circuits(w, sheets, power.Options{})
		for _, b := range power.Branches(w, sheets, circuits, power.Options{}) {
			name := b.Breaker.Circuit
			if name == "" {
				unnamed = append(unnamed, of)
				continue
			}
			if found[name] == nil {
				order, found[name] = append(order, name), &shared{}
			}
			found[name].branches, found[name].of = append(found[name].branches, &b), append(found[name].of, of)
		}
	}
	for i := range openings {
		if o := &openings[i]; o.InPlaceOf == "" && !o.Wiring.None() {
			look(o.ID, &o.Wiring)
		}
	}
	for i := range groups {
		if g := &groups[i]; !g.Wiring.None() {
			look(g.ID, &g.Wiring)
		}
	}
	for _, name := range order {
		s := found[name]
		all = append(all, sharedCircuit(power.Share(name, s.branches, s.of), policy))
	}
	return all, slices.Compact(unnamed)
}

func sharedCircuit(s power.Shared, policy judge.Policy) SharedCircuit {
	c := SharedCircuit{Shared: s}
	state := func(one Statement) { c.Statements = append(c.Statements, decided(one, policy)) }
	const elsewhere = "put some of the openings on another circuit: the electrician decides which"
	state(Statement{What: "Current with everything at work", Dim: q.DimCurrent, Side: judge.AtMost, Value: float64(s.Working.Current), U: float64(s.Working.U), Limit: float64(s.Rated),
		Published: true, Source: "what its breaker carries", Say: elsewhere})
	hours := continuousOn(s.Continuous(), s.Rated)
	hours.Say = elsewhere
	state(hours)
	state(Statement{What: "Largest current, everything starting at once", Dim: q.DimCurrent, Side: judge.AtMost, Value: float64(s.Peak.Current), U: float64(s.Peak.U), Limit: float64(s.Rated),
		Source: "common practice: openings of one circuit seldom start at once", Say: elsewhere})
	if n := s.Operators(); n > 0 {
		c.Statements = append(c.Statements, onCircuit(n, s.Rated))
	}
	return c
}

// CircuitCautions stand wherever circuits of the mains are added up.
var CircuitCautions = []Caution{powerCautions[1],
	{"circuits", "Only what the job's wirings tell is added up: what else hangs on a circuit, and what its breaker and its wires carry, the electrician finds out at the panel."}}

// Stand sums up how a circuit stands, as [Feeding.Stand] does.
func (c *SharedCircuit) Stand() Standing {
	s := Good
	for i := range c.Statements {
		switch one := &c.Statements[i]; {
		case one.Verdict == judge.FallsShort && one.Published:
			s = Bad
		case one.Verdict != judge.Meets:
			s = max(s, Undecided)
		}
	}
	return s
}
