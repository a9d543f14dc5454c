package tune

import (
	"cmp"
	"math"

	"swingwright/quantity"
	"swingwright/swing"
	"swingwright/window"
)

// guards are how many spreads every demand is kept away from its limit, tried from the
// most; below zero they are eased by as many.
var guards = [...]float64{2, 1.645, 1.2, 0.8, 0.4, 0, -0.4, -0.8, hopeless}

// A goal is where the closer should be, however far that is.
type goal struct {
	power quantity.Ratio
	ratio [2]float64 // of the resistances to those of the anchors
	guard float64    // how many spreads all demands are kept by there
}

// goal finds the setting that keeps all demands by most of their spreads, as those are
// now. It reports false where none keeps them even when all are eased by 1.2 of their
// spreads.
func (s *scout) goal(now *Outlook) (goal, bool, error) {
	low, high := 0, len(guards)-1
	var best *goal
	for low <= high {
		middle := (low + high) / 2
		g, err := s.guarded(now, guards[middle], false, 1)
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
	if g, err := s.guarded(now, best.guard, true, rounds); err != nil || g != nil {
		return *cmp.Or(g, best), true, err
	}
	g, err := s.guarded(now, best.guard, false, rounds)
	return *cmp.Or(g, best), true, err
}

// rounds in which resistances and orifices are brought together.
const rounds = 2

// guarded looks for a setting that keeps all demands by so many spreads, with the spring
// as it is or anywhere.
func (s *scout) guarded(now *Outlook, guard float64, asIs bool, rounds int) (*goal, error) {
	p := s.fit.at
	g := &goal{power: s.now.Power, ratio: [2]float64{1, 1}, guard: guard}
	for range rounds { // orifices go with the resistances, which window leaves as they are
		a := [2]float64{p[s.column[0]] * g.ratio[0], p[s.column[1]] * g.ratio[1]}
		ask := s.question(p, g.power, a[0], a[1])
		s.settable(&ask)
		if asIs {
			ask.Spring = window.Spring{ask.Spring.At(s.now.Power)}
		}
		ask.Demands = nil
		for i, d := range s.demands {
			d.Allowance += guard * limited(&d, now.set(i))
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

// slower is by what factor a valve has to be closed for it to be as slow as with another
// viscous resistance and the orifice it has now, at the torque that drives the leaf.
func (s *scout) slower(which int, torque, now, wanted float64) float64 {
	l := s.fit.layout
	share := l.share(s.fit.at, which)
	b := share * now * now / l.reference
	drive := torque * (1 - l.get(s.fit.at, loss, s.known.Values[swing.CloserLoss]))
	rate := func(a float64) float64 { // a·ω + b·ω² = T
		if b*drive < 1e-9*a*a {
			return drive / a
		}
		return (math.Sqrt(a*a+4*b*drive) - a) / (2 * b)
	}
	return rate(now) / rate(wanted)
}

// short tells that a state lies short of a goal because a valve that is turned is not
// learned.
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
		span[0] = max(span[0], a*quantity.Damping(least))
		span[1] = max(min(span[1], a*quantity.Damping(most)), span[0])
	}
}
