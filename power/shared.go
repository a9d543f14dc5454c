package power

import (
	"fmt"
	"math"
	"slices"

	q "swingwright/quantity"
)

// A Shared is a branch circuit of the mains on which several wirings hang, with what all
// of them put on it.
type Shared struct {
	Circuit string    // by which the building knows it: panel and number
	Rated   q.Current // of its breaker: the least that any wiring gives
	Volts   q.Voltage
	Of      []string // the wirings, by opening or group
	Wired   float64  // operators that the wirings tell of
	Others  float64  // further ones that they say are on it too
	Idle    Sum      // what flows while nothing happens, for hours
	Working Sum      // with everything at work
	Peak    Sum      // with everything starting at once
	Notes   []string // where the wirings contradict one another, or tell too little
}

// A Sum is a current with its standard uncertainty.
type Sum struct{ Current, U q.Current }

// Operators is how many operators are on the circuit.
func (s *Shared) Operators() float64 { return s.Wired + s.Others }

// Continuous is the current at work as a breaker has to be chosen for it: a quarter more
// of what flows for hours, the rest as it is (NEC 210.20(A): from memory).
func (s *Shared) Continuous() Sum { return continuous(s.Idle, s.Working) }

func continuous(idle, working Sum) Sum {
	return Sum{working.Current + (ContinuousShare-1)*idle.Current, q.Current(math.Hypot(float64(working.U), float64((ContinuousShare-1)*idle.U)))}
}

// ContinuousShare is what a continuous load counts on a branch circuit: 125 % of it, so
// that no more than 80 % of a breaker carries loads of three hours or more (NEC 210.20(A)
// and Article 100, continuous load: from memory).
const ContinuousShare q.Current = 1.25

// Continuous is that current of one wiring, as [Shared.Continuous] has it.
func (b *Branch) Continuous() Sum { return continuous(b.sum(Resting), b.sum(Moving)) }

// sum is what everything on the branch takes in a phase.
func (b *Branch) sum(p Phase) (s Sum) {
	for i := range b.Tree.Loads {
		l := &b.Tree.Loads[i]
		s.Current += l.Draws[p]
		s.U = q.Current(math.Hypot(float64(s.U), float64(l.Draws[p])*float64(l.U[p])))
	}
	return s
}

// own is the branch without what its wiring takes operators of other openings to draw.
func (b *Branch) own() Branch {
	o := Branch{Breaker: b.Breaker, Rated: b.Rated, Operators: b.Operators}
	o.Tree.Volts = b.Tree.Volts
	for i := range b.Tree.Loads {
		if b.Devices[i] != b.Breaker {
			o.Tree.Loads = append(o.Tree.Loads, b.Tree.Loads[i])
		} else {
			o.Operators -= float64(b.Breaker.Doors.Value)
		}
	}
	return o
}

// Share adds up the branches of wirings that hang on one circuit; of are the names of the
// wirings, branch by branch. Each wiring may say how many operators of other openings are
// on it: those that the other wirings tell of are among them, and what is left is taken to
// draw as much as the others do on average.
func Share(circuit string, branches []*Branch, of []string) Shared {
	s := Shared{Circuit: circuit, Of: of, Rated: branches[0].Rated, Volts: branches[0].Tree.Volts}
	said := 0.
	for i, b := range branches {
		own := b.own()
		if b.Rated != branches[0].Rated || b.Tree.Volts != s.Volts {
			s.Notes = append(s.Notes, fmt.Sprintf("%s says %g A at %g V, %s %g A at %g V: read the breaker; the least is reckoned with", of[0], float64(branches[0].Rated), float64(s.Volts), of[i], float64(b.Rated), float64(b.Tree.Volts)))
		}
		s.Rated = min(s.Rated, b.Rated)
		s.Wired += own.Operators
		said = max(said, own.Operators+float64(b.Breaker.Doors.Value))
		for _, one := range []struct {
			to *Sum
			p  Phase
		}{{&s.Idle, Resting}, {&s.Working, Moving}, {&s.Peak, Starting}} {
			more := own.sum(one.p)
			one.to.Current += more.Current
			one.to.U = q.Current(math.Hypot(float64(one.to.U), float64(more.U)))
		}
		if !b.Breaker.Working.Known {
			s.Notes = append(s.Notes, of[i]+" does not say what its breaker carries (current_working): 15 A assumed")
		}
	}
	s.Notes = slices.Compact(s.Notes)
	if s.Others = max(said-s.Wired, 0); s.Others > 0 && s.Wired > 0 {
		scale := q.Current(1 + s.Others/s.Wired)
		for _, one := range []*Sum{&s.Idle, &s.Working, &s.Peak} {
			one.Current, one.U = one.Current*scale, one.U*scale
		}
	}
	return s
}
