package decision

import (
	"fmt"
	"math"
	"slices"

	"swingwright/fact"
	"swingwright/judge"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/swing"
	"swingwright/window"
)

// spareForce is what the latch budget should leave at the latch edge (common
// practice, figure from memory).
const spareForce = 2 * q.PoundForce

// latching: does it close and latch by itself?
func (l *ladder) latching() {
	if l.o.Closer.None == "yes" {
		if l.o.Use.FireRated == "yes" {
			l.fails("A fire door closes by itself", practice, "there is no closer", Change, Cure{What: "fit a closer", Effort: Replacing, Answer: Change, Works: true})
		}
		return
	}
	margin, edge := l.p.Facts[fact.LatchMargin], l.p.Facts[fact.LatchEdge].Value
	n := Number{Dim: q.DimForce, Side: judge.AtLeast, Value: margin.Value / edge, U: margin.U / edge, Limit: float64(spareForce)}
	spare := l.number("The latch budget leaves force over at the latch edge", ours, n, margin.Known && edge > 0, "closer.size", "closer.arm")
	shuts := l.shuts()
	if worse := max(severity(spare.Verdict), severity(shuts.Verdict)); worse >= severity(judge.TooClose) {
		cures := l.latchCures(&n)
		if severity(spare.Verdict) >= severity(judge.TooClose) {
			spare.Cures = cures
		}
		if severity(shuts.Verdict) >= severity(judge.TooClose) {
			shuts.Cures = cures
		}
		if spare.Verdict == judge.FallsShort && spare.Cure() == nil {
			l.call("air balancer or engineer", "the pressure on the leaf is more than the closer can have")
		}
	}
	l.put(spare, Refer)
	l.put(shuts, Refer)
	l.powerSuits()
}

// shuts: from wherever it is let go, at the worst pressure stated?
func (l *ladder) shuts() Rung {
	r := Rung{Test: "Let go at 90, 30 or 5 degrees, it closes and latches at the worst pressure", Source: practice, Verdict: judge.NotMeasured}
	worst, known := 1.0, false
	for _, id := range [...]fact.ID{fact.LatchesFrom90, fact.LatchesFrom30, fact.LatchesFrom5} {
		if f := l.p.Facts[id]; f.Known {
			worst, known = math.Min(worst, f.Share), true
		}
	}
	if !known {
		r.Missing = []string{"closer.size", "closer.arm"}
		return r
	}
	r.Verdict = judge.DecideProbability(worst, max(l.p.Draws, 2), l.opt.Policy)
	if worst < 1 {
		r.Why = fmt.Sprintf("it does in %.0f %% of the draws", 100*worst)
	}
	return r
}

// latchCures tries, one after the other and some together, what gives a leaf more
// force to latch with. n is the budget as it is.
func (l *ladder) latchCures(n *Number) []Cure {
	if !l.p.Resolved.Link.Closer {
		return nil
	}
	var cures []Cure
	found := false
	try := func(c Cure, change func(v *swing.Values)) {
		if found && l.opt.Brief {
			return // one that works is enough
		}
		v := l.p.Values()
		change(&v)
		c = l.withLatch(c, &v, l.p.Resolved.Link)
		cures, found = append(cures, c), found || c.Works
	}
	bolt := func(v *swing.Values) { v[swing.BoltForce] *= 1 - eased }
	seal := func(v *swing.Values) { v[swing.SealStiffness] *= 1 - eased }
	values := l.p.Values()
	hasBolt, hasSeal := values[swing.BoltForce] > 0, values[swing.SealStiffness] > 0
	for _, power := range l.stronger() {
		try(Cure{What: fmt.Sprintf("turn the spring up to power %.3g", float64(power.Setting)), Effort: Adjusting, Answer: Repair}, power.Put)
	}
	if hasBolt {
		try(Cure{What: "dress latch and strike until the bolt goes over a third lighter", Effort: Repairing, Answer: Repair}, bolt)
	}
	if hasSeal {
		try(Cure{What: "set or change the seals to press a third lighter", Effort: Repairing, Answer: Repair}, seal)
	}
	eases := func(v *swing.Values) { bolt(v); seal(v) }
	for _, power := range l.stronger() {
		if hasBolt && hasSeal {
			try(Cure{What: fmt.Sprintf("latch and seals a third lighter, and the spring up to power %.3g", float64(power.Setting)), Effort: Repairing, Answer: Repair},
				func(v *swing.Values) { power.Put(v); eases(v) })
		}
	}
	if found && l.opt.Brief {
		return sorted(cures)
	}
	for _, a := range l.p.OtherArms(l.sheets) {
		if l.fits(a.Name) {
			cures = append(cures, l.withArm(&a)...)
		}
	}
	if c, ok := l.lessPressure(n); ok {
		cures = append(cures, c)
	}
	return sorted(cures)
}

// withArm tries another arm, at the power set and at the strongest that is allowed.
func (l *ladder) withArm(a *window.Arm) []Cure {
	own := l.p.Values()
	v := a.Values
	v[swing.SpringClosed], v[swing.SpringRise] = own[swing.SpringClosed], own[swing.SpringRise]
	c := Cure{What: "put on " + a.Name + " in place of the arm", Effort: Replacing, Answer: Change}
	cures := []Cure{l.withLatch(c, &v, a.Link)}
	if up := l.stronger(); !cures[0].Works && len(up) > 0 {
		most := up[len(up)-1]
		most.Put(&v)
		c.What += fmt.Sprintf(", with the spring at power %.3g", float64(most.Setting))
		cures = append(cures, l.withLatch(c, &v, a.Link))
	}
	return cures
}

// eased is the share by which a latch or a seal can be made lighter on site
// (common practice, from memory).
const eased = 1.0 / 3

// fits tells whether operator and closer take the kind of an arm.
func (l *ladder) fits(name string) bool {
	s := l.sheets.Arm(name)
	if s == nil {
		return false
	}
	takes := func(kinds []opening.ArmKind) bool {
		return len(kinds) == 0 || slices.Contains(kinds, s.Kind)
	}
	return (l.closer == nil || takes(l.closer.Limits.Arms)) && (!l.addOn() || takes(l.operator.Limits.Arms)) && s.Limits.HoldsOpen != "yes"
}

// stronger are the marked powers above the one set that operator and leaf allow.
func (l *ladder) stronger() (out window.Spring) {
	size := l.p.Facts[fact.CloserSize]
	for _, power := range l.p.Powers(l.sheets) {
		if size.Known && float64(power.Setting) > size.Value && l.allowed(power.Setting) {
			out = append(out, power)
		}
	}
	return out
}

// allowed tells whether an add-on operator may be used with a power.
func (l *ladder) allowed(power q.Ratio) bool {
	if !l.addOn() {
		return true
	}
	u := &l.operator.Limits
	return (!u.PowerMin.Known || power >= u.PowerMin.Value) && (!u.PowerMax.Known || power <= u.PowerMax.Value)
}

// withLatch reckons the latch budget again with other values, and tells what it does
// to the push by hand.
func (l *ladder) withLatch(c Cure, v *swing.Values, link swing.Linkage) Cure {
	m, err := l.p.ModelOf(v, link)
	if err != nil {
		c.But = err.Error()
		return c
	}
	oil := v[swing.OilFactor]
	m.SetAir(l.p.Resolved.Most.Value, oil)
	edge := float64(m.LatchEdge())
	f := l.p.Facts[fact.LatchMargin]
	c.Number = &Number{Dim: q.DimForce, Side: judge.AtLeast, Value: float64(m.BudgetAt(5*q.Degree).Margin()) / edge, U: f.U / edge, Limit: float64(spareForce)}
	var mover swing.Mover
	var shut [2]bool
	failed := mover.ShutsFrom(&m, []q.Angle{5 * q.Degree, 30 * q.Degree}, shut[:])
	c.Works = !failed && shut[0] && shut[1] && judge.Decide(c.Number.Margin(), c.Number.U, l.opt.Policy) == judge.Meets
	m.SetAir(l.p.Resolved.Least.Value, oil)
	push := swing.HandForce(m.LargestHandMoment(q.Degree, 90*q.Degree), q.Length(l.p.Resolved.Handle.Value))
	c.But = "the largest push by hand is then " + both(push) + ", power off"
	if over := l.tooHeavy(&m); over != "" {
		c.Works = false
		c.But += ", too much for: " + over
	}
	return c
}

// tooHeavy names a rule that limits a push by hand and that a model, at the smallest
// pressure, breaks by its best estimate though the opening as it is does not; empty
// where there is none.
func (l *ladder) tooHeavy(m *swing.Model) string {
	spans := map[fact.ID][2]q.Angle{
		fact.HandToStart: {0, 0}, fact.HandToOpen: {q.Degree, 90 * q.Degree}, fact.Hand0To30: {0, 30 * q.Degree}, fact.Hand30To60: {30 * q.Degree, 60 * q.Degree},
	}
	for i := range l.p.Findings {
		f := &l.p.Findings[i]
		span, known := spans[f.Rule.Of]
		if !known || f.Rule.Advice || f.Verdict == judge.DoesNotApply || !(f.Margin >= 0) {
			continue
		}
		at := 1.0
		if f.Rule.At != nil {
			at = float64(f.At)
		}
		moment := m.HandMoment(0)
		if span[1] > 0 {
			moment = m.LargestHandMoment(span[0], span[1])
		}
		if float64(moment)/at > f.Limit {
			return f.Rule.Title
		}
	}
	return ""
}

// lessPressure is the largest pressure at which the budget leaves enough over, its
// spread included; false where less pressure alone is not enough.
func (l *ladder) lessPressure(n *Number) (Cure, bool) {
	most := l.p.Resolved.Most.Value
	v := l.p.Values()
	m, err := l.p.ModelOf(&v, l.p.Resolved.Link)
	if err != nil || !(most > 0) {
		return Cure{}, false
	}
	m.SetAir(0, v[swing.OilFactor])
	calm := float64(m.BudgetAt(5*q.Degree).Margin()) / float64(m.LatchEdge())
	wanted := n.Limit + l.opt.Policy.Coverage()*n.U
	if !(calm > wanted) {
		return Cure{}, false
	}
	// The budget falls in proportion to the pressure.
	share := (calm - wanted) / (calm - n.Value)
	c := Cure{
		What: "bring the largest pressure on the leaf down to " + both(q.Pressure(share*most)), Effort: Building, Answer: Refer, Works: true,
		Number: &Number{Dim: n.Dim, Side: n.Side, Value: wanted, U: n.U, Limit: n.Limit}, But: "for the air balancer, or a vestibule",
	}
	return c, true
}

// powerSuits: is the spring set to a power that the operator's paper allows? Its cure
// reckons the latch budget again, so it comes after that.
func (l *ladder) powerSuits() {
	if !l.addOn() {
		return
	}
	s, size := l.operator, l.p.Facts[fact.CloserSize]
	r, stated := span(l, "The spring's power is within the operator's limits", paper("operator", s.Name, s.Page), s.Limits.PowerMin, s.Limits.PowerMax, size, "closer.size")
	if !stated {
		return
	}
	if size.Known && r.Verdict != judge.Meets {
		r.Cures = []Cure{l.nearestPower(q.Ratio(size.Value))}
	}
	l.put(r, Change)
}

// nearestPower is the marked power nearest to the one set that the operator allows.
func (l *ladder) nearestPower(now q.Ratio) Cure {
	var best window.Power
	nearest := math.Inf(1)
	for _, power := range l.p.Powers(l.sheets) {
		if away := math.Abs(float64(power.Setting - now)); l.allowed(power.Setting) && away < nearest {
			best, nearest = power, away
		}
	}
	if math.IsInf(nearest, 1) {
		return Cure{What: "a closer with a power that the operator takes", Effort: Replacing, Answer: Change}
	}
	v := l.p.Values()
	best.Put(&v)
	return l.withLatch(Cure{What: fmt.Sprintf("set the spring to power %.3g", float64(best.Setting)), Effort: Adjusting, Answer: Repair}, &v, l.p.Resolved.Link)
}

// weaker are the marked powers below the one set that the operator allows, the
// nearest first.
func (l *ladder) weaker() (out window.Spring) {
	size := l.p.Facts[fact.CloserSize]
	powers := l.p.Powers(l.sheets)
	for i := len(powers) - 1; i >= 0; i-- {
		if size.Known && float64(powers[i].Setting) < size.Value && l.allowed(powers[i].Setting) {
			out = append(out, powers[i])
		}
	}
	return out
}
