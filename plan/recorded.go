package plan

import (
	"math"
	"slices"

	"swingwright/fact"
	"swingwright/instrument"
	q "swingwright/quantity"
	"swingwright/swing"
	"swingwright/trace"
)

// Recorded is what the swings of a recording come to for one fact.
type Recorded struct {
	ID       fact.ID
	Value, U float64 // in SI; U the standard uncertainty
	N        int     // swings that show it
	S        float64 // standard deviation over them; NaN for one
	DF       float64 // degrees of freedom of U
	// Why says why there is no value; empty where there is one.
	Why string
	// Terms are the budget of the first swing that shows it.
	Terms []trace.Term[q.Time]
}

// Known tells that there is a value.
func (r *Recorded) Known() bool { return r.Why == "" }

// Record takes what a recording shows of an opening, for every fact that is timed or
// looked at in a swing: of the closing, and where the leaf was driven open, of the
// opening too. The plan gives the leaf's inertia, its zones and its width. Only whole
// swings count.
func (p *Plan) Record(t *trace.Trace, driven bool) []Recorded {
	k := recorder{inertia: p.inertia()}
	for _, s := range t.Swings {
		if s.Kind == trace.Full && s.Spoilt() == "" {
			k.swings = append(k.swings, s)
		}
	}
	k.closing(p)
	if driven {
		k.opening(p)
	}
	return k.all
}

// inertia is the leaf's, with its spread.
func (p *Plan) inertia() q.Measured[q.Inertia] {
	f := p.Facts[fact.LeafInertia]
	if !f.Known {
		return q.Measured[q.Inertia]{}
	}
	return q.Give(q.Inertia(f.Value), q.Inertia(f.U))
}

// recorder gathers readings of swings.
type recorder struct {
	swings  []*trace.Swing
	inertia q.Measured[q.Inertia]
	all     []Recorded
}

func (k *recorder) closing(p *Plan) {
	between := func(id fact.ID, from, to q.Angle) {
		gather(k, id, func(s *trace.Swing) trace.Reading[q.Time] { return s.Between(from, to, true) })
	}
	from := 90 * q.Degree
	between(fact.CloseTime90To12, from, 12*q.Degree)
	between(fact.CloseTime90To10, from, 10*q.Degree)
	check := 10 * q.Degree
	if zone := p.Facts[fact.LatchZoneFrom]; zone.Known {
		check = max(check, q.Angle(zone.Value))
	}
	between(fact.CloseTime90ToCheck, from, check)
	between(fact.CloseTime10ToClosed, 10*q.Degree, 0)
	between(fact.CloseTime90ToClosed, from, 0)
	between(fact.CloseTime70ToClosed, 70*q.Degree, 0)
	if edge := p.Facts[fact.LatchEdge]; edge.Known {
		between(fact.CloseTime70To75mm, 70*q.Degree, closed75(q.Length(edge.Value)))
	}
	gather(k, fact.CloseImpactRate, func(s *trace.Swing) trace.Reading[q.AngularSpeed] { return s.ImpactRate() })
	if k.inertia.Known {
		gather(k, fact.ClosePeakEnergy, func(s *trace.Swing) trace.Reading[q.Energy] { return s.PeakEnergy(k.inertia, true) })
		gather(k, fact.CloseImpactEnergy, func(s *trace.Swing) trace.Reading[q.Energy] { return s.ImpactEnergy(k.inertia) })
	}
}

func (k *recorder) opening(p *Plan) {
	to := func(id fact.ID, angle q.Angle) {
		gather(k, id, func(s *trace.Swing) trace.Reading[q.Time] { return s.TimeTo(angle) })
	}
	check := 80 * q.Degree
	if slows := p.Facts[fact.PoweredBackcheckFrom]; slows.Known {
		check = min(check, q.Angle(slows.Value))
	}
	to(fact.PoweredTimeToCheck, check)
	to(fact.PoweredTimeTo80, 80*q.Degree)
	to(fact.PoweredTimeTo90, 90*q.Degree)
	gather(k, fact.PoweredTimeToOpen, func(s *trace.Swing) trace.Reading[q.Time] {
		open := s.OpenAngle()
		if !open.Known {
			return trace.Reading[q.Time]{Why: open.Why}
		}
		return s.TimeTo(open.Value - q.Degree) // it comes to rest too gently for an instant
	})
	gather(k, fact.PoweredDwell, func(s *trace.Swing) trace.Reading[q.Time] { return s.HoldTime() })
	gather(k, fact.PoweredOpenAngle, func(s *trace.Swing) trace.Reading[q.Angle] { return s.OpenAngle() })
	gather(k, fact.PoweredBackcheckFrom, func(s *trace.Swing) trace.Reading[q.Angle] { return s.BackcheckAngle() })
	if k.inertia.Known {
		gather(k, fact.PoweredPeakEnergy, func(s *trace.Swing) trace.Reading[q.Energy] { return s.PeakEnergy(k.inertia, false) })
	}
}

// gather takes one fact from all swings.
func gather[Q q.Quantity](k *recorder, id fact.ID, of func(*trace.Swing) trace.Reading[Q]) {
	out := Recorded{ID: id, Why: "no whole swing is on the recording", S: math.NaN()}
	var readings []trace.Reading[Q]
	for _, s := range k.swings {
		r := of(s)
		readings = append(readings, r)
		switch {
		case r.Known && out.Terms == nil:
			for _, term := range r.Terms {
				out.Terms = append(out.Terms, trace.Term[q.Time]{Name: term.Name, U: q.Time(term.U)})
			}
		case !r.Known:
			out.Why = r.Why
		}
	}
	if sum := trace.Repeat(readings...); sum.N > 0 {
		out.N, out.Value, out.U, out.S, out.DF, out.Why = sum.N, float64(sum.Mean), float64(sum.U), float64(sum.S), sum.DF, ""
	}
	k.all = append(k.all, out)
}

// recorded takes up what a recording shows: it outranks what is computed, and what was
// read before.
func (r readings) recorded(all []Recorded) readings {
	for i := range all {
		if one := &all[i]; one.Known() {
			r = slices.DeleteFunc(r, func(before reading) bool { return before.id == one.ID })
			r = append(r, reading{id: one.ID, value: one.Value, u: one.U, origin: Read, repeats: one.repeats()})
		}
	}
	return r
}

// repeats is what several swings come to, as repeated readings do: their scatter falls
// with their number, what they share does not. Nil for a single swing.
func (r *Recorded) repeats() *instrument.Read {
	if r.N < 2 {
		return nil
	}
	scatter := r.S / math.Sqrt(float64(r.N))
	shared := math.Sqrt(math.Max(0, r.U*r.U-scatter*scatter))
	return &instrument.Read{Value: r.Value, U: r.U, DF: r.DF, N: r.N, Budget: []instrument.Term{
		{What: "scatter of the swings", U: scatter, DF: float64(r.N - 1), Falls: true},
		{What: "what all swings share", U: shared, DF: math.Inf(1)},
	}}
}

// Course is the closing that the plan reckons, from 90 degrees, for
// whoever lays it beside a recording: times from when it is let go and leaf angles.
func (p *Plan) Course() (at []q.Time, angle []q.Angle) {
	m, err := p.Model()
	if err != nil || !p.Resolved.Times || !p.Swing.Reachable {
		return nil, nil
	}
	from := 90 * q.Degree
	var marks []swing.Mark
	for a := from; a > 0; a -= q.Degree {
		marks = append(marks, swing.Mark{Angle: a})
	}
	marks = append(marks, swing.Mark{Angle: 0})
	var mover swing.Mover
	mover.Close(&m, from, marks)
	for _, mark := range marks {
		if mark.Time == mark.Time {
			at, angle = append(at, mark.Time), append(angle, mark.Angle)
		}
	}
	return at, angle
}

// LatchRadius is the distance of the latch edge from the hinge axis, with its spread.
func (p *Plan) LatchRadius() q.Measured[q.Length] {
	r := p.Resolved
	return q.Give(q.Length(resolver{r}.edge()), q.Length(math.Hypot(r.Rows[swing.LeafWidth].U, r.Rows[swing.PinToEdge].U)))
}
