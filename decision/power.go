package decision

import (
	"fmt"

	"swingwright/fact"
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/plan"
	q "swingwright/quantity"
	"swingwright/swing"
)

// Exposure and traffic beyond which a low-energy operator is not the one (common
// practice, figures from memory).
const (
	mostWind     = 15 * q.MilePerHour
	mostPressure = 10 * q.Pascal
	mostCycles   = 200 // openings a day
)

// power: can it be fed, started, and live where it is?
func (l *ladder) power() {
	if !l.powered {
		return
	}
	p := &l.o.Power
	r := answered("A circuit with room for it can be brought to the opening", practice, p.Reachable, "yes", "power.reachable")
	if r.Verdict == judge.FallsShort {
		r.Cures = []Cure{{What: "a new branch circuit", Effort: Building, Answer: Refer, Works: true}}
		l.call("licensed electrician", "a new branch circuit")
	}
	l.put(r, Refer)
	r = answered("A licensed electrician is engaged", practice, p.Electrician, "yes", "power.electrician")
	if r.Verdict == judge.FallsShort {
		r.Cures = []Cure{{What: "engage one", Effort: Adjusting, Answer: Refer, Works: true}}
	}
	l.put(r, Refer)
	l.supply()
	l.fed()
	l.started()
	l.exposed()
	l.traffic()
}

// supply: does the supply give what the operator takes?
func (l *ladder) supply() {
	s := l.sheets.Supply(l.o.Power.Sheet)
	if s == nil || l.operator == nil {
		return
	}
	source := paper("supply", s.Name, s.Page)
	if v := l.operator.Volts; v.Known && v.Value != s.Volts.Value {
		l.fails("The supply gives the voltage that the operator needs", source,
			fmt.Sprintf("%g V against %g V", float64(s.Volts.Value), float64(v.Value)), Change)
	}
	if a := l.operator.Moving; a.Known {
		r := l.number("The supply gives the current that the operator takes while moving", source,
			Number{Dim: q.DimCurrent, Side: judge.AtMost, Value: float64(a.Value), U: float64(a.U), Limit: float64(s.Amps.Value)}, true)
		if r.Verdict == judge.FallsShort {
			r.Cures = []Cure{{What: "a larger supply", Effort: Replacing, Answer: Change, Works: true}}
		}
		l.put(r, Change)
	}
}

// started: does somebody start it who knows that it will move?
func (l *ladder) started() {
	u := &l.o.Use
	r := Rung{Test: "A knowing act starts it", Source: "ANSI/BHMA A156.19 (by edition: see the rulebooks)", Verdict: judge.Meets}
	switch {
	case u.Activation == "":
		r.Verdict, r.Missing = judge.NotMeasured, []string{"use.activation"}
	case u.Activation == "sensor" && u.Operation == "low-energy":
		r.Verdict, r.Why = judge.FallsShort, "a sensor that sees people come starts it"
		r.Cures = []Cure{
			{What: "a plate, a touchless switch, or push-to-operate", Effort: Adjusting, Answer: Change, Works: true},
			{What: "full-power rules: safety sensors and guide rails", Effort: Replacing, Answer: Change, Works: true},
		}
	}
	l.put(r, Change)
}

// exposed: is there too much wind or pressure for it?
func (l *ladder) exposed() {
	if l.o.Use.Outdoors() {
		limit, source := float64(mostWind), ours
		if l.operator != nil && l.operator.Limits.WindMax.Known {
			limit, source = float64(l.operator.Limits.WindMax.Value), paper("operator", l.operator.Name, l.operator.Page)
		}
		wind := l.o.Air.Wind
		r := l.number("The wind is not too strong for a low-energy operator", source,
			Number{Dim: q.DimSpeed, Side: judge.AtMost, Value: float64(wind.Value), U: float64(wind.U), Limit: limit}, wind.Known, "air.wind")
		if r.Verdict == judge.FallsShort {
			r.Cures = shelter
		}
		l.put(r, Refuse)
	}
	most := l.p.Resolved.Most
	if least := l.p.Resolved.Least; -least.Value > most.Value {
		most = plan.Row{Value: -least.Value, U: least.U, Assumed: least.Assumed}
	}
	r := l.number("The pressure on the leaf is not too much for a low-energy operator", ours,
		Number{Dim: q.DimPressure, Side: judge.AtMost, Value: most.Value, U: most.U, Limit: float64(mostPressure)}, !most.Assumed, "air.pressure_most")
	if r.Verdict == judge.FallsShort {
		r.Cures = append([]Cure{{What: "balance the air", Effort: Building, Answer: Refer, Works: true}}, shelter...)
		l.call("air balancer or engineer", "more pressure on the leaf than a low-energy operator is for")
	}
	l.put(r, Refer)
}

var shelter = []Cure{{What: "a vestibule or a wind screen, or a full-power operator", Effort: Building, Answer: Change, Works: true}}

// traffic: is it used more than it is made for?
func (l *ladder) traffic() {
	cycles, limit, source := l.o.Use.Cycles, float64(mostCycles), ours
	if l.operator != nil && l.operator.Limits.CyclesMax.Known {
		limit, source = float64(l.operator.Limits.CyclesMax.Value), paper("operator", l.operator.Name, l.operator.Page)
	}
	r := l.number("It is opened no more often than it is made for, times a day", source,
		Number{Dim: q.DimRatio, Side: judge.AtMost, Value: float64(cycles.Value), U: float64(cycles.U), Limit: limit}, cycles.Known, "use.cycles_per_day")
	if r.Verdict == judge.FallsShort {
		r.Cures = []Cure{{What: "a full-power operator made for heavy traffic", Effort: Replacing, Answer: Change, Works: true}}
	}
	l.put(r, Change)
}

// opens: does the operator bring the leaf where it shall?
func (l *ladder) opens() {
	s := &l.p.Swing.Power
	if !l.powered || l.operator == nil {
		return
	}
	const test = "The operator opens the leaf fully, at the worst pressure too"
	r := Rung{Test: test, Source: "computed", Verdict: judge.Meets}
	switch {
	case !s.Fitted:
		r.Verdict, r.Missing = judge.NotMeasured, []string{"operator.speed", "operator.open_angle"}
	case s.Usual.End != swing.Opened:
		r.Verdict, r.Why = judge.FallsShort, fmt.Sprintf("it %v at %.0f degrees%s", s.Usual.End, s.Usual.Angle/q.Degree, against(s.Against))
		r.Cures = l.driveCures()
	case s.Worst.End != swing.Opened:
		r.Verdict, r.Why = judge.FallsShort, fmt.Sprintf("at the smallest pressure it %v at %.0f degrees%s", s.Worst.End, s.Worst.Angle/q.Degree, against(s.Against))
		r.Cures = l.driveCures()
	case s.Usual.Strain.Struggles():
		r.Verdict, r.Why = judge.FallsShort, fmt.Sprintf("it opens, but struggles beyond %.0f degrees", swing.StrainsFrom/q.Degree)
		r.Cures = l.driveCures()
	}
	l.put(r, Change)
}

func against(all []swing.Resistance) string {
	if len(all) == 0 {
		return ""
	}
	return fmt.Sprintf(", against %v", all[0].Against)
}

// driveCures tries what lets an operator open the leaf, and follows it again.
func (l *ladder) driveCures() []Cure {
	var cures []Cure
	link := l.p.Resolved.Link
	try := func(c Cure, change func(v *swing.Values)) {
		v := l.p.Values()
		change(&v)
		cures = append(cures, l.driven(c, &v, link))
	}
	for _, ease := range [...]struct {
		words string
		by    float64
	}{{"to half of its resistance", 2}, {"to a quarter of its resistance", 4}} {
		try(Cure{What: "ease the closer's backcheck " + ease.words, Effort: Adjusting, Answer: Repair}, func(v *swing.Values) {
			v[swing.CheckViscous] /= ease.by
			v[swing.CheckOrifice] /= ease.by * ease.by
		})
	}
	for _, power := range l.weaker() {
		try(Cure{What: fmt.Sprintf("turn the spring down to power %.3g", float64(power.Setting)), Effort: Adjusting, Answer: Repair}, power.Put)
	}
	try(Cure{What: "set the operator a fifth slower", Effort: Adjusting, Answer: Repair}, func(v *swing.Values) {
		v[swing.OpenRate] *= 0.8
		v[swing.CreepRate] *= 0.8
	})
	if l.operator.Kind == opening.AddOn {
		cures = append(cures, l.drivenThrough()...)
	}
	for i := range l.sheets.Operators {
		if s := &l.sheets.Operators[i]; s != l.operator && l.suits(s) && float64(s.Stall.Value) > float64(l.operator.Stall.Value) {
			cures = append(cures, l.withOperator(s))
		}
	}
	return sorted(cures)
}

// drivenThrough tries the job's other arms, through which an add-on would drive the
// leaf, at the power set or the nearest one that the operator allows.
func (l *ladder) drivenThrough() (cures []Cure) {
	own, with := l.p.Values(), ""
	if size := l.p.Facts[fact.CloserSize]; size.Known && !l.allowed(q.Ratio(size.Value)) {
		nearest := l.weaker()
		if len(nearest) == 0 {
			nearest = l.stronger()
		}
		if len(nearest) > 0 {
			nearest[0].Put(&own)
			with = fmt.Sprintf(", with the spring at power %.3g", float64(nearest[0].Setting))
		}
	}
	for _, a := range l.p.OtherArms(l.sheets) {
		if !l.fits(a.Name) {
			continue
		}
		v := a.Values
		for value := swing.DrivePinionX; value <= swing.OpenAngle; value++ {
			v[value] = own[value]
		}
		v[swing.SpringClosed], v[swing.SpringRise] = own[swing.SpringClosed], own[swing.SpringRise]
		cures = append(cures, l.driven(Cure{What: "put on " + a.Name + " in place of the arm" + with, Effort: Replacing, Answer: Change}, &v, a.Link))
	}
	return cures
}

// driven follows the opening again with other values.
func (l *ladder) driven(c Cure, v *swing.Values, link swing.Linkage) Cure {
	m, err := l.p.ModelOf(v, link)
	if err != nil {
		c.But = err.Error()
		return c
	}
	var mover swing.Mover
	from, oil := l.p.Swing.Power.From, v[swing.OilFactor]
	usual := mover.Drive(&m, 0, from, nil)
	m.SetAir(l.p.Resolved.Least.Value, oil)
	worst := mover.Drive(&m, 0, from, nil)
	c.Works = usual.End == swing.Opened && worst.End == swing.Opened && !usual.Strain.Struggles()
	m.SetAir(l.p.Resolved.Most.Value, oil)
	left := float64(m.BudgetAt(5*q.Degree).Margin()) / float64(m.LatchEdge())
	if v[swing.SpringClosed] != l.p.Values()[swing.SpringClosed] || link != l.p.Resolved.Link {
		c.But = "the latch budget then leaves " + both(q.Force(left))
		c.Works = c.Works && left >= float64(spareForce)
	}
	return c
}

// withOperator follows the opening with another operator of the job.
func (l *ladder) withOperator(s *opening.OperatorSheet) Cure {
	o := *l.o
	o.Operator.Sheet = s.Name
	c := Cure{What: s.Name + " in place of it", Effort: Replacing, Answer: Change}
	r := plan.Resolve(&o, l.sheets)
	if !r.Drive.Fitted {
		c.But = "its opening cannot be reckoned from what is known"
		return c
	}
	p := *l.p
	p.Resolved, p.Opening = r, &o
	v := p.Values()
	other := *l
	other.p = &p
	return other.driven(c, &v, r.Link)
}
