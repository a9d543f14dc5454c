package plan

import (
	"math"

	"swingwright/fact"
	"swingwright/leaf"
	q "swingwright/quantity"
	"swingwright/swing"
)

// The inputs beyond the values of the model.
const (
	inSweepTime = swing.NumValues + iota
	inLatchTime
	inPressureMost
	inPressureLeast
	inHandle
	inDwell
	inPushStart
	numInputs
)

// reckoner computes the facts of one opening from its inputs: once for the
// best estimates, then for every draw.
type reckoner struct {
	r       *Resolved
	x       [numInputs]float64 // best estimates
	given   [fact.Count]float64
	mover   swing.Mover
	model   swing.Model
	profile swing.Profile
	fit     swing.Fit
	fitted  bool
	leads   []lead
	fine    bool   // follow draws as exactly as the best estimates
	timing  timing // of the last closing
	// reachable tells that the arm reaches 90 degrees by the best estimates.
	reachable bool
}

// marks are the angles whose passing is timed on every opening, in falling order.
var marks = [...]q.Angle{90 * q.Degree, 80 * q.Degree, 70 * q.Degree, 12 * q.Degree, 10 * q.Degree, 0}

// closed75 is the mark 75 mm from closed at the latch edge: the arc of that
// length, which the chord and the square distance equal within 0.1 %.
func closed75(edge q.Length) q.Angle { return q.Angle(0.075 / float64(edge)) }

// Swing is what was computed of an opening's motion.
type Swing struct {
	From90     swing.Motion // as it usually is
	Marks      [len(marks)]swing.Mark
	Worst90    swing.Motion // at the largest pressure stated
	Worst30    swing.Motion
	Worst5     swing.Motion
	Budget     swing.Budget // at 5 degrees, at the largest pressure stated
	Sweep      float64      // viscous resistances in force, N·m·s/rad
	Latch      float64
	Reachable  bool
	Power      Power // opening by the operator
	FitProblem error
}

// prepare takes the best estimates and fits the valves to the times found.
func (k *reckoner) prepare(r *Resolved) error {
	k.reset(r)
	v := r.values()
	copy(k.x[:], v[:])
	k.x[inSweepTime], k.x[inLatchTime] = r.Found.Sweep.Value, r.Found.Latch.Value
	k.x[inPressureMost], k.x[inPressureLeast] = r.Most.Value, r.Least.Value
	k.x[inHandle] = r.Handle.Value
	k.x[inDwell], k.x[inPushStart] = r.Dwell.Value, r.PushStart.Value
	if !r.Found.Sweep.Known {
		return nil
	}
	return k.fitBest(v)
}

// reset forgets the opening before, keeping its memory.
func (k *reckoner) reset(r *Resolved) {
	k.mover.Draft = false
	k.r, k.x, k.fit, k.fitted, k.leads, k.reachable = r, [numInputs]float64{}, swing.Fit{}, false, k.leads[:0], false
}

// facts fills in the computed facts for inputs x, NaN where one does not exist,
// and tells the motions behind them. first is set for the best estimates, whose
// valves are fitted already.
func (k *reckoner) facts(x []float64, out []float64, first bool) (s Swing) {
	copy(out, k.given[:])
	k.mover.Draft = !first && !k.fine
	if !k.r.Sized {
		return s
	}
	var v swing.Values
	copy(v[:], x[:swing.NumValues])
	m := &k.model
	if remade(m, &v, k.r) != nil {
		return s
	}
	k.leaf(m, out)
	out[fact.HandleRadius] = x[inHandle]
	usual, oil := v[swing.Pressure], v[swing.OilFactor]
	m.SetAir(x[inPressureLeast], oil)
	if k.r.Link.Closer || k.r.Free {
		k.hand(m, out)
	}
	m.SetAir(usual, oil)
	if k.r.Link.Closer {
		k.closer(m, out)
	}
	s.Power = k.power(m, x, out, first)
	if !k.r.Link.Closer {
		return s
	}
	m.SetAir(x[inPressureMost], oil)
	s.Budget = m.BudgetAt(5 * q.Degree)
	out[fact.LatchMargin] = float64(s.Budget.Margin())
	k.timing.set(m.LatchEdge(), k.zoneFrom(out))
	var fit swing.Refitted
	if k.fitted && !first {
		if fit = k.refit(m, x, k.timing.marks); !fit.Closed {
			return s
		}
	}
	s.Sweep, s.Latch = m.Values()[swing.SweepViscous], m.Values()[swing.LatchViscous]
	if first {
		_, k.reachable = m.Arm().Reach(90 * q.Degree)
	}
	s.Reachable = k.reachable
	m.SetAir(x[inPressureMost], oil)
	k.latches(m, &s, out, first)
	if !s.Reachable {
		return s
	}
	if s.From90 = fit.Last; !fit.Same || !k.asTimed(oil) {
		m.SetAir(usual, oil)
		s.From90 = k.mover.Close(m, 90*q.Degree, k.timing.marks)
	}
	k.close(&s, out)
	return s
}

// latches: does it shut from anywhere, at the worst of air?
func (k *reckoner) latches(m *swing.Model, s *Swing, out []float64, follow bool) {
	angles := [...]q.Angle{5 * q.Degree, 30 * q.Degree, 90 * q.Degree}
	ids := [...]fact.ID{fact.LatchesFrom5, fact.LatchesFrom30, fact.LatchesFrom90}
	n := len(angles)
	if !s.Reachable {
		n--
	}
	var shut [len(angles)]bool
	failed := k.mover.ShutsFrom(m, angles[:n], shut[:n])
	for i := range n {
		if !failed {
			out[ids[i]] = truth(shut[i])
		}
	}
	if follow {
		for i, motion := range []*swing.Motion{&s.Worst5, &s.Worst30, &s.Worst90}[:n] {
			*motion = k.mover.Close(m, angles[i], nil)
		}
	}
}

// leaf: what is this leaf really like?
func (k *reckoner) leaf(m *swing.Model, out []float64) {
	v := m.Values()
	out[fact.LeafWidth], out[fact.LeafHeight], out[fact.LeafThickness] = v[swing.LeafWidth], v[swing.LeafHeight], v[swing.LeafThickness]
	out[fact.LeafMass], out[fact.LeafInertia] = float64(m.Mass()), float64(m.Inertia())
	out[fact.LatchEdge] = float64(m.LatchEdge())
	out[fact.LeafEquivalentMass] = float64(leaf.EquivalentMass(m.Inertia(), m.LatchEdge()))
}

// hand: what does a hand feel, power off?
func (k *reckoner) hand(m *swing.Model, out []float64) {
	p := &k.profile
	m.Profile(p)
	out[fact.HandToStart] = float64(p.LargestHand(0, 0))
	out[fact.Hand0To30] = float64(p.LargestHand(0, 30))
	out[fact.Hand30To60] = float64(p.LargestHand(30, 60))
	out[fact.HandToOpen] = float64(p.LargestHand(1, 90))
}

// nearly90 is where the stop may be for fully open to stand for 90 degrees, so
// that an operator set to 90 degrees, more or less, has a time to there; a stop
// short of it is reached sooner, which is the cautious side.
const nearly90 = 85 * q.Degree

// powered fills in the facts of an opening under power.
func (k *reckoner) powered(m *swing.Model, p *Power, x, out []float64) {
	if k.r.Dwell.Known {
		out[fact.PoweredDwell] = x[inDwell]
	}
	out[fact.PoweredBackcheckFrom] = float64(p.Slows)
	for i, id := range [...]fact.ID{fact.PoweredTimeToCheck, fact.PoweredTimeTo80, fact.PoweredTimeTo90} {
		out[id] = float64(p.Marks[i].Time)
	}
	stop := q.Angle(m.Values()[swing.OpenAngle])
	out[fact.PoweredOpenAngle] = float64(stop)
	m.Profile(&k.profile)
	out[fact.PoweredStallMoment] = float64(k.profile.LargestStall(stop))
	out[fact.PoweredStallLast10] = float64(m.LargestStallMoment(stop-10*q.Degree, stop))
	out[fact.PoweredPeakEnergy] = float64(p.Usual.Energy)
	if p.Usual.End != swing.Opened {
		return
	}
	out[fact.PoweredTimeToOpen] = float64(p.Usual.Time)
	if k.r.Rows[swing.OpenAngle].Value >= float64(nearly90) && math.IsNaN(out[fact.PoweredTimeTo90]) {
		out[fact.PoweredTimeTo90] = out[fact.PoweredTimeToOpen]
	}
}

// closer: what does the closer alone give?
func (k *reckoner) closer(m *swing.Model, out []float64) {
	p := &k.profile // of hand: the closer's part does not know the air
	out[fact.CloserMoment0To4] = float64(p.LeastClosing(0, 4))
	out[fact.CloserMoment88To92] = float64(p.LeastClosing(88, 92))
	out[fact.CloserMomentElsewhere] = float64(p.LeastClosing(0, 90))
	out[fact.CloserOpeningMoment0To60] = float64(p.LargestOpening(0, 60))
	out[fact.CloserEfficiency] = float64(m.ClosingMoment(2*q.Degree) / m.OpeningMoment(2*q.Degree))
	if k.r.Backcheck {
		out[fact.BackcheckFrom] = leafAngle(m, swing.CheckZone)
	}
	if k.r.LatchZone {
		out[fact.LatchZoneFrom] = leafAngle(m, swing.LatchZone)
	}
}

// leafAngle is the leaf angle at which a zone of the valves begins, NaN where
// the arm does not get there.
func leafAngle(m *swing.Model, zone swing.Value) float64 {
	theta, ok := m.LeafAngle(q.Angle(m.Values()[zone]))
	if !ok {
		return math.NaN()
	}
	return float64(theta)
}

// close: how does it shut, left to itself?
func (k *reckoner) close(s *Swing, out []float64) {
	timed := &k.timing
	for j, angle := range marks {
		s.Marks[j] = swing.Mark{Angle: angle, Time: q.Time(timed.at(angle))}
	}
	if end := &s.From90; end.End == swing.RestsOpen {
		out[fact.CloseRestAngle] = float64(end.Angle)
	} else if end.End.Shut() {
		out[fact.CloseRestAngle] = 0
	}
	if !k.r.Times {
		return
	}
	at := timed.at
	closed := at(0)
	out[fact.CloseTime90To12] = at(12*q.Degree) - at(90*q.Degree)
	out[fact.CloseTime90To10] = at(10*q.Degree) - at(90*q.Degree)
	out[fact.CloseTime90ToCheck] = timed.toCheck()
	out[fact.CloseTime10ToClosed] = closed - at(10*q.Degree)
	out[fact.CloseTime90ToClosed] = closed - at(90*q.Degree)
	out[fact.CloseTime70ToClosed] = closed - at(70*q.Degree)
	out[fact.CloseTime70To75mm] = at(timed.near) - at(70*q.Degree)
	out[fact.ClosePeakEnergy] = float64(s.From90.Energy)
	if s.From90.End.Shut() {
		out[fact.CloseImpactEnergy] = float64(s.From90.Impact)
		out[fact.CloseImpactRate] = math.Abs(float64(s.From90.Rate))
	}
}
