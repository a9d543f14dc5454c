package tune

import (
	"errors"
	"fmt"
	"math"

	"swingwright/judge"
	"swingwright/quantity"
	"swingwright/window"
)

// A Visit is all that advice is made of.
type Visit struct {
	Known  Known
	Record Record // of all states so far
	// States are those that the closer has been set to, in order: the first is how it was
	// found, to which it can be put back; the last is how it is now.
	States []State
	// Sweep and Latch are where the valves' flow stops by what is known without a reading;
	// see LearnValve.
	Sweep, Latch quantity.Measured[quantity.Turns]
	Demands      []window.Demand
	Policy       judge.Policy
}

// A Do is what is advised.
type Do uint8

// The advices.
const (
	Turn      Do = iota // make the moves, measure again
	Keep                // leave it: everything is kept
	Measure             // leave it: nothing better is found, and what is left open has to be measured better
	NoSetting           // no setting of this closer keeps everything demanded
)

var doNames = [...]string{"turn", "keep", "measure better", "no setting"}

// String is the advice in a word or two.
func (d Do) String() string { return doNames[d] }

// Advice is what to do next.
type Advice struct {
	Do      Do
	Moves   []Move // in the order of work: spring, sweep, latch
	To      State  // where the moves lead; the state now, where there are none
	Restore State  // how the closer was found
	// Now and After are what the closer is like as it is and what it is reckoned to be
	// like at To; After is nil where nothing is to be turned.
	Now, After *Outlook
	// Guard is by how many of their spreads all demands can be kept at the best setting,
	// up to two; below zero no setting is likely to keep them all. Zero where nothing was
	// looked for, since all is kept.
	Guard float64
	// Conflicts are, where no setting will do, the demands that exclude each other,
	// reckoned with best estimates.
	Conflicts []window.Conflict
	// Asks are, where a demand is left open, the readings that would tell most of it.
	Asks         []Ask
	Sweep, Latch Valve // as learned so far
	Fit          *Fit
	Notes        []string
}

// Check collects all that makes a visit one that cannot be advised.
func (v *Visit) Check() error {
	var all []error
	if len(v.States) == 0 {
		all = append(all, errors.New("the closer's setting is not told: count the turns of its valves from seated, and note them"))
	}
	for i, s := range v.States {
		if !(s.Sweep > 0 && s.Latch > 0) || math.IsInf(float64(s.Sweep+s.Latch), 0) || math.IsNaN(float64(s.Power)) {
			all = append(all, fmt.Errorf("setting %d, %v: valves are counted in turns open, above zero", i+1, s))
		}
	}
	if len(v.Demands) == 0 {
		all = append(all, errors.New("nothing is demanded: give at least one limit"))
	}
	return errors.Join(append(all, v.Policy.Check())...)
}

// When one state is worth leaving for another, and when none will do; in spreads of the
// tightest demand.
const (
	better = 0.15
	// hopeless: two demands that exclude each other, both eased by so many of their
	// spreads, would have to be off by 1.4 times that together, one chance in twenty.
	hopeless = -1.2
)

// Advise says what to turn next. It fails where Visit.Check, Identify, or the question to
// package window does.
func Advise(v *Visit) (*Advice, error) {
	s, err := newScout(v)
	if err != nil {
		return nil, err
	}
	a := &Advice{Fit: s.fit, Restore: v.States[0], To: s.now, Sweep: s.valves[0], Latch: s.valves[1]}
	if a.Now, err = s.look(s.now); err != nil {
		return nil, err
	}
	if a.Now.meets() {
		a.Do = Keep
		return a, nil
	}
	return a, s.decide(a)
}

// newScout learns what a visit's record tells, and makes ready to look at other states.
func newScout(v *Visit) (*scout, error) {
	if err := v.Check(); err != nil {
		return nil, err
	}
	fit, err := Identify(&v.Known, &v.Record)
	if err != nil {
		return nil, err
	}
	s := &scout{known: &v.Known, fit: fit, demands: v.Demands, policy: v.Policy, now: v.States[len(v.States)-1]}
	if err := s.learn(v); err != nil {
		return nil, err
	}
	s.prepare()
	return s, nil
}

// learn learns both valves from the resistances found.
func (s *scout) learn(v *Visit) error {
	for which, shut := range [2]quantity.Measured[quantity.Turns]{v.Sweep, v.Latch} {
		var err error
		if s.valves[which], err = s.fit.Valve(which, shut); err != nil {
			return err
		}
	}
	return nil
}

// Valve learns the sweep valve (0) or the latch valve (1) from the resistances that a fit
// found at several positions; see LearnValve.
func (f *Fit) Valve(which int, shut quantity.Measured[quantity.Turns]) (Valve, error) {
	all := f.Sweep
	if which == 1 {
		all = f.Latch
	}
	first, n := f.first(which), f.ofRuns
	var points []Point
	var of []int
	for i, r := range all {
		// a position at which the leaf was not seen to close tells nothing
		if r.U < 0.5 || len(all) == 1 {
			points = append(points, Point{Turns: r.Turns, Resistance: float64(r.Viscous)})
			of = append(of, first+i)
		}
	}
	if len(points) == 0 {
		points, of = []Point{{Turns: all[0].Turns, Resistance: float64(all[0].Viscous)}}, []int{first}
	}
	cov := make([]float64, len(of)*len(of))
	for i := range of {
		for j := range of {
			cov[i*len(of)+j] = f.Covariance[of[i]*n+of[j]]
		}
	}
	return LearnValve(points, shut, cov)
}

// meets tells that every demand is kept beyond doubt.
func (o *Outlook) meets() bool {
	for i := range o.Demands {
		if o.Demands[i].Verdict != judge.Meets {
			return false
		}
	}
	return true
}

// noSetting says that none will do, and what excludes what.
func (s *scout) noSetting(a *Advice) error {
	a.Do, a.Asks = NoSetting, nil
	ask := s.question(s.fit.at, s.now.Power, s.fit.at[s.column[0]], s.fit.at[s.column[1]])
	ask.Brief = false
	answer, err := s.finder.Find(&ask)
	a.Conflicts = answer.Conflicts
	return err
}

// promising tells that readings would narrow something left open enough to take them.
func promising(asks []Ask) bool {
	for i := range asks {
		if asks[i].After < enough*asks[i].U {
			return true
		}
	}
	return false
}

// enough is what a reading brings a spread down to that is worth taking where most speaks
// against any setting.
const enough = 0.8

// decide looks for a better state and settles what to do.
func (s *scout) decide(a *Advice) error {
	goal, found, err := s.goal(a.Now)
	if err != nil {
		return err
	}
	if !found {
		return s.noSetting(a)
	}
	a.Guard = goal.guard
	after, err := s.step(goal, a.Now)
	if err != nil {
		return err
	}
	if goal.guard < 0 {
		a.Notes = append(a.Notes, "no setting is likely to keep everything that is demanded: what is tried here comes nearest")
	}
	// a step cut short of its goal need not be better yet: it is made to learn by
	worth := s.short(goal, after.State) || after.worst() > a.Now.worst()+better || after.pain() < 0.9*a.Now.pain()
	if after.State == s.now || !worth {
		a.Do = Measure
		a.Asks = s.asks(a.Now, a.Now)
		if goal.guard < 0 && !promising(a.Asks) {
			return s.noSetting(a)
		}
		a.Notes = append(a.Notes, hints(a.Now)...)
		return nil
	}
	a.Do, a.To, a.After = Turn, after.State, after
	a.Moves = s.moves(s.now, after.State)
	return nil
}
