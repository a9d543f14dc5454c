package logic

import (
	"math"

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

// MostStates are followed for one wiring: some 60 bytes and about a microsecond each.
const MostStates = 1_500_000

// ticks are the steps of time that are tried, the finest first, with a share of
// the states that doubles from one to the next.
var ticks = []q.Time{0.1, 0.25, 0.5}

// Prove follows every order of events of a wiring and tells of each rule whether
// it holds. It takes the finest step of time at which the states are not too many;
// where they are at the coarsest, the proof is incomplete, and rules that no state
// seen breaks are left undone.
func Prove(w *opening.Wiring, doors []Door, by Effort) (*Proof, error) {
	limit := by.States
	if limit <= 0 {
		limit = MostStates
	}
	coarsest := ticks[len(ticks)-1]
	if by.Tick > 0 {
		coarsest = by.Tick
	}
	stopped := false
	follow := func(tick q.Time, limit int) (*explored, error) {
		m, err := Compile(w, doors, tick)
		if err != nil {
			return nil, err
		}
		f, err := m.factor()
		if err != nil {
			return nil, err
		}
		return f.explore(limit, func(n int) bool {
			stopped = stopped || by.Progress != nil && !by.Progress(n)
			return !stopped
		}), nil
	}
	x, err := follow(coarsest, limit)
	if err != nil {
		return nil, err
	}
	for i, tick := range ticks {
		share := limit >> (len(ticks) - 1 - i)
		if by.Tick > 0 || !x.complete || tick == coarsest || x.expected(tick)*mayBe > float64(share) {
			continue
		}
		finer, err := follow(tick, share)
		if stopped {
			x.complete = false
		}
		if err == nil && finer.complete || stopped { // counters that no key holds are too many states
			if !stopped {
				x = finer
			}
			break
		}
	}
	return x.proof(), nil
}

// mayBe is how many times as many states as are expected there may be: that many have
// to fit before a step of time is tried.
const mayBe = 3

// expected is about how many states there are with a finer step of time. The
// states of a configuration fill a space of so many dimensions as its counters
// run apart from each other, and grow along each of them.
func (x *explored) expected(tick q.Time) (states float64) {
	count := make([]int, len(x.configs))
	for i := range x.keys {
		count[x.keys[i].config()]++
	}
	for i, n := range count {
		longest := 2
		for k := range x.counters {
			if c := &x.counters[k]; x.configs[i].state[c.slot] > 0 {
				longest = max(longest, c.most)
			}
		}
		dimensions := math.Log(float64(n)) / math.Log(float64(longest))
		states += float64(n) * math.Pow(float64(x.Tick/tick), dimensions)
	}
	return states
}

func (x *explored) proof() *Proof {
	p := &Proof{Machine: x.Machine, States: x.len(), Steps: x.steps, Complete: x.complete}
	for _, r := range Rules() {
		v := Verdict{Rule: r}
		v.Applies, v.Why = x.applies(r)
		if v.Applies {
			v.Why = ""
			b := x.breachOf(r)
			v.Broken = b.found
			v.Undone = !v.Broken && !x.complete
			if v.Broken {
				v.Story = x.story(b)
				v.Symptom = x.symptom(r, v.Story)
			}
			if v.Broken && r == LowBattery && !x.orderKnown() {
				v.Broken, v.Undone = false, true
				v.Why = "some order in which things may give up breaks one, and nobody knows whether it is theirs: write down volts_min of each, or try it on site"
			}
		}
		p.Verdicts = append(p.Verdicts, v)
	}
	return p
}

// breachOf is the first breach of a rule. That of LowBattery is the first, as the
// battery runs low, of a rule that holds otherwise.
func (x *explored) breachOf(r Rule) (first breach) {
	if r != LowBattery {
		return x.broken[r]
	}
	least := 0
	for other := range LowBattery {
		b := x.broken[sagShift+int(other)]
		if does, _ := x.applies(other); !does || !b.found || x.broken[other].found {
			continue
		}
		if n := x.depth(b.from); !first.found || n < least {
			first, least = b, n
		}
	}
	return first
}

// depth is how many events lead to a state.
func (x *explored) depth(i int32) (n int) {
	for ; i > 0; i = x.parent[i] {
		n++
	}
	return n
}
