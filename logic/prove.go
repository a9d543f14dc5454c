package logic

import (
	"swingwright/opening"
	q "swingwright/quantity"
)

// A Verdict is what came of one rule.
type Verdict struct {
	Rule    Rule
	Applies bool
	Why     string // why it does not apply
	Broken  bool
	Undone  bool   // not every state was looked at, and none of those seen breaks it
	Symptom string // what the technician would see, where it is broken
	Story   *Story // a shortest order of events that breaks it
}

// A Proof is what came of following every order of events.
type Proof struct {
	Machine  *Machine
	States   int // states that some order of events leads to
	Steps    int // transitions between them
	Complete bool
	Verdicts []Verdict // one for each rule, in their order
}

// Broken lists the verdicts on the rules that are broken.
func (p *Proof) Broken() []Verdict {
	var vs []Verdict
	for _, v := range p.Verdicts {
		if v.Broken {
			vs = append(vs, v)
		}
	}
	return vs
}

// An Effort bounds a proof.
type Effort struct {
	States   int                   // at most as many; MostStates where zero
	Tick     q.Time                // least step of time; where zero, the finest that stays within the states
	Progress func(states int) bool // told now and then how many there are; false stops the search; may be nil
}

// MostStates are followed for one wiring: some 100 bytes and a few microseconds each.
const MostStates = 1_500_000

// ticks are the steps of time that are tried, the finest first, with a share of
// the states that doubles from one to the next.
var ticks = []q.Time{0.1, 0.25, 0.5}

// Prove follows every order of events of a wiring and tells of each rule whether
// it holds. Where the states are too many at one step of time, it takes a coarser
// one; where they are at the coarsest, the proof is incomplete, and rules that no
// state seen breaks are left undone.
func Prove(w *opening.Wiring, doors []Door, by Effort) (*Proof, error) {
	limit := by.States
	if limit <= 0 {
		limit = MostStates
	}
	steps := ticks
	if by.Tick > 0 {
		steps = []q.Time{by.Tick}
	}
	var x *explored
	for i, t := range steps {
		m, err := Compile(w, doors, t)
		if err != nil {
			return nil, err
		}
		stopped := false
		x = m.explore(limit>>(len(steps)-1-i), func(n int) bool {
			stopped = by.Progress != nil && !by.Progress(n)
			return !stopped
		})
		if x.complete || stopped {
			break
		}
	}
	return x.proof(), nil
}

func (x *explored) proof() *Proof {
	p := &Proof{Machine: x.m, States: x.len(), Steps: x.steps, Complete: x.complete}
	for _, r := range Rules() {
		v := Verdict{Rule: r}
		v.Applies, v.Why = x.m.applies(r)
		if v.Applies {
			v.Why = ""
			v.Broken = x.broken[r].found
			v.Undone = !v.Broken && !x.complete
		}
		if v.Broken {
			v.Story = x.story(r)
			v.Symptom = x.symptom(r, v.Story)
		}
		p.Verdicts = append(p.Verdicts, v)
	}
	return p
}
