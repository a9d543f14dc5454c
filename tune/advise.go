package tune

import (
	"cmp"
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
	// States are those that the closer has been set to, in order: the first is
	// how it was found, to which it can be put back; the last is how it is now.
	States []State
	// Sweep and Latch are where the valves' flow stops by what is known without a
	// reading; see LearnValve.
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
	// Now and After are what the closer is like as it is and what it is reckoned to
	// be like at To; After is nil where nothing is to be turned.
	Now, After *Outlook
	// Conflicts are, where no setting will do, the demands that exclude each other, reckoned with best estimates.
	Conflicts    []window.Conflict
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

// When one state is worth leaving for another, and when none will do; in spreads
// of the tightest demand.
const (
	better = 0.15
	// hopeless: two demands that exclude each other, both eased by so many of their
	// spreads, would have to be off by 1.4 times that together, one chance in twenty.
	hopeless = -1.2
)

// Advise says what to turn next. It fails where Visit.Check, Identify, or the
// question to package window does.
func Advise(v *Visit) (*Advice, error) {
	if err := v.Check(); err != nil {
		return nil, err
	}
	fit, err := Identify(&v.Known, &v.Record)
	if err != nil {
		return nil, err
	}
	s := &scout{known: &v.Known, fit: fit, demands: v.Demands, policy: v.Policy, now: v.States[len(v.States)-1]}
	a := &Advice{Fit: fit, Restore: v.States[0], To: s.now}
	if err := s.learn(v); err != nil {
		return nil, err
	}
	a.Sweep, a.Latch = s.valves[0], s.valves[1]
	s.prepare()
	if a.Now, err = s.look(s.now); err != nil {
		return nil, err
	}
	if a.Now.meets() {
		a.Do = Keep
		return a, nil
	}
	return a, s.decide(a)
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

// Valve learns the sweep valve (0) or the latch valve (1) from the resistances
// that a fit found at several positions; see LearnValve.
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

// decide looks for a better state and settles what to do.
func (s *scout) decide(a *Advice) error {
	goal, found, err := s.goal(a.Now)
	if err != nil {
		return err
	}
	if !found {
		a.Do = NoSetting
		ask := s.question(s.fit.at, s.now.Power, s.fit.at[s.column[0]], s.fit.at[s.column[1]])
		ask.Brief = false
		answer, err := s.finder.Find(&ask)
		a.Conflicts = answer.Conflicts
		return err
	}
	after, err := s.step(goal, a.Now)
	if err != nil {
		return err
	}
	// a step cut short of its goal need not be better yet: it is made to learn by
	worth := s.short(goal, after.State) || after.worst() > a.Now.worst()+better || after.pain() < 0.9*a.Now.pain()
	if after.State == s.now || !worth {
		a.Do = Measure
		a.Notes = append(a.Notes, hints(a.Now)...)
		return nil
	}
	a.Do, a.To, a.After = Turn, after.State, after
	a.Moves = s.moves(s.now, after.State)
	return nil
}

// guards are how many spreads every demand is kept away from its limit, tried from
// the most; below zero they are eased by as many.
var guards = [...]float64{2, 1.645, 1.2, 0.8, 0.4, 0, -0.4, -0.8, hopeless}

// A goal is where the closer should be, however far that is.
type goal struct {
	power quantity.Ratio
	ratio [2]float64 // of the resistances to those of the anchors
	guard float64    // how many spreads all demands are kept by there
}

// goal finds the setting that keeps all demands by most of their spreads, as those are now. It
// reports false where none keeps them even when all are eased by twice their spreads.
func (s *scout) goal(now *Outlook) (goal, bool, error) {
	low, high := 0, len(guards)-1
	var best *goal
	for low <= high {
		middle := (low + high) / 2
		g, err := s.guarded(now, guards[middle], false)
		if err != nil {
			return goal{}, false, err
		}
		if g != nil {
			best, high = g, middle-1
		} else {
			low = middle + 1
		}
	}
	if best == nil {
		return goal{}, false, nil
	}
	// where the spring as it is does as well, it is left alone
	if g, err := s.guarded(now, best.guard, true); err != nil || g != nil {
		return *cmp.Or(g, best), true, err
	}
	return *best, true, nil
}

// guarded looks for a setting that keeps all demands by so many spreads, with the
// spring as it is or anywhere.
func (s *scout) guarded(now *Outlook, guard float64, asIs bool) (*goal, error) {
	p := s.fit.at
	g := &goal{power: s.now.Power, ratio: [2]float64{1, 1}, guard: guard}
	for range 2 { // orifices go with the resistances, which window leaves as they are
		a := [2]float64{p[s.column[0]] * g.ratio[0], p[s.column[1]] * g.ratio[1]}
		ask := s.question(p, g.power, a[0], a[1])
		s.settable(&ask)
		if asIs {
			ask.Spring = window.Spring{ask.Spring.At(s.now.Power)}
		}
		ask.Demands = nil
		for i, d := range s.demands {
			d.Allowance += guard * limited(&d, now.sure[i])
			ask.Demands = append(ask.Demands, d)
		}
		answer, err := s.finder.Find(&ask)
		if err != nil {
			return nil, err
		}
		if answer.Best == nil {
			return nil, nil
		}
		b := answer.Best
		g.power = b.Power.Setting
		before := g.ratio
		for i, set := range [2]quantity.Damping{b.SweepSet, b.LatchSet} {
			g.ratio[i] *= s.slower(i, float64(b.Power.Closed), a[i], float64(set))
		}
		if math.Abs(math.Log(g.ratio[0]/before[0])) < 0.02 && math.Abs(math.Log(g.ratio[1]/before[1])) < 0.02 || s.fit.layout.share(p, 0)+s.fit.layout.share(p, 1) < 0.03 {
			break
		}
	}
	return g, nil
}

// limited keeps a spread within what a demand makes sense with.
func limited(d *window.Demand, spread float64) float64 {
	switch d.Kind {
	case window.LeastTime, window.MostTime, window.PeakEnergy, window.ImpactEnergy, window.HandForce:
		return min(spread, 0.3*d.Limit)
	}
	return spread
}

// slower is by what factor a valve has to be closed for it to be as slow as with
// another viscous resistance and the orifice it has now, at the torque that drives the leaf.
func (s *scout) slower(which int, torque, now, wanted float64) float64 {
	l := s.fit.layout
	share := l.share(s.fit.at, which)
	b := share * now * now / l.reference
	drive := torque * (1 - l.get(s.fit.at, loss, s.known.Values[loss0]))
	rate := func(a float64) float64 { // a·ω + b·ω² = T
		if b*drive < 1e-9*a*a {
			return drive / a
		}
		return (math.Sqrt(a*a+4*b*drive) - a) / (2 * b)
	}
	return rate(now) / rate(wanted)
}

// short tells that a state lies short of a goal because a valve that is turned is not learned.
func (s *scout) short(g goal, to State) bool {
	now := [2]quantity.Turns{s.now.Sweep, s.now.Latch}
	for i, u := range [2]quantity.Turns{to.Sweep, to.Latch} {
		if u == now[i] {
			continue
		}
		v := &s.valves[i]
		want := v.Where(s.anchor[i].Turns, quantity.Ratio(g.ratio[i]))
		if !v.Known && math.Abs(float64(want-u)) > float64(grain) {
			return true
		}
	}
	return false
}

// settable narrows a question's valves to what can be set.
func (s *scout) settable(ask *window.Question) {
	for i, span := range [2]*[2]quantity.Damping{&ask.Valves.Sweep, &ask.Valves.Latch} {
		v := &s.valves[i]
		if !v.Known {
			continue
		}
		at := [2]quantity.Turns{s.now.Sweep, s.now.Latch}[i]
		low, high := v.Reach(at)
		least, _ := v.Ratio(s.anchor[i].Turns, high)
		most, _ := v.Ratio(s.anchor[i].Turns, low)
		a := s.anchor[i].Viscous
		span[0], span[1] = a*quantity.Damping(least), max(a*quantity.Damping(most), a*quantity.Damping(least))
	}
}
