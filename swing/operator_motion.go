package swing

import (
	"errors"

	"swingwright/internal/ode"
	"swingwright/quantity"
)

// Powered is the account of one opening under power.
type Powered struct {
	Motion
	// Starts is when the drive first moves the leaf.
	Starts quantity.Time
	// Strain is how the drive fares beyond 70 degrees.
	Strain Strain
}

// StrainsFrom is the leaf angle beyond which a leaf that struggles asks for less
// backcheck (common practice).
const StrainsFrom = 70 * quantity.Degree

// Strain is how a drive fares beyond StrainsFrom, the ramp over.
type Strain struct {
	Saturated bool           // it gave all that it had
	Lag       quantity.Ratio // largest share of the commanded rate that the leaf lacked
	At        quantity.Angle // where that was
}

// Struggles tells a drive that gives all it has beyond 70 degrees, or whose leaf
// lacks half of the commanded rate there (the half is assumed).
func (s Strain) Struggles() bool { return s.Saturated || s.Lag > 0.5 }

// Drive opens the leaf under power from rest at the angle from, where the frame
// or the hand that started it keeps it from going back, until it is fully open,
// is brought to a stand, is pushed shut or Limit has passed. push is the torque of
// a hand on the driven leaf, toward opening. Time counts from the signal. marks
// must be in rising order. While the commanded rate rises no stand is looked for.
func (mv *Mover) Drive(m *Model, push quantity.Torque, from quantity.Angle, marks []Mark) Powered {
	out := Powered{Motion: Motion{From: from}}
	mv.phase = phase{m: m, hand: float64(push), exact: mv.Exact, mode: proportional, ramp: m.motor.ramp > 0}
	y := ode.State{Angle: float64(from)}
	clock := newClock(marks, y.Angle, true)
	mv.Steps = 0
	if err := m.drivable(y.Angle); err != nil {
		out.Motion = out.failed(err, 0, y, m)
		return out
	}
	if y.Angle >= m.motor.open {
		out.Motion = out.ended(Opened, 0, y, m)
		return out
	}
	t, ok := mv.phase.breaksAway(y.Angle)
	if !ok {
		out.Motion = out.ended(Stalled, m.motor.ramp, y, m)
		return out
	}
	out.Starts = quantity.Time(t)
	m.chart.valves(m) // for a leaf that is pushed shut
	mv.follow(&out, t, y, clock)
	return out
}

// Why a leaf cannot be driven at all.
var (
	errNoDrive  = errors.New("no operator is described")
	errNoReach  = errors.New("the operator's arm does not reach here: see where its pinion and its shoe are, and its lengths")
	errBackward = errors.New("the operator's arm would draw the leaf shut here: see where its pinion and its shoe are, and on which side its elbow lies")
)

// drivable tells why a leaf cannot be driven from theta, nil where it can.
func (m *Model) drivable(theta float64) error {
	if !m.motor.on {
		return errNoDrive
	}
	n, ok := m.DriveArm().Ratio(theta)
	if !ok {
		return errNoReach
	}
	if !(n > 0) {
		return errBackward
	}
	return nil
}

// breaksAway is when the rising torque of the drive first moves a leaf at rest on, s;
// false where it never does.
func (p *phase) breaksAway(theta float64) (float64, bool) {
	m := p.m
	_, opening, friction := p.net(theta)
	if !(opening > friction) {
		return 0, false
	}
	need := friction - (opening - m.thrust(theta)) // of the drive, N·m at the leaf
	if need <= 0 {
		return 0, true
	}
	return m.motor.ramp * need / (m.ratio(theta) * m.motor.eta * m.asked(theta)), true
}

// follow runs through the phases of a driven motion: beside those of run, they
// end where the ramp is over, where the commanded rate begins to fall, and where
// the drive saturates, coasts, or has torque to spare again.
func (mv *Mover) follow(out *Powered, t float64, y ode.State, clock clock) {
	p, seg, m := &mv.phase, &mv.seg, mv.phase.m
	stop := m.motor.open
	opt := mv.options(false)
	for t < float64(Limit) {
		if p.ramp && t >= m.motor.ramp {
			p.ramp = false
		}
		opt.Timeless = !p.ramp
		edge := p.zone(y.Angle, stop)
		end := float64(Limit)
		if p.ramp {
			end = m.motor.ramp
		}
		if err := mv.solver.Start(p, t, y, end, opt); err != nil {
			out.Motion = out.failed(err, t, y, m)
			return
		}
		for over := false; !over && !mv.solver.Done(); {
			step, err := mv.solver.Step()
			if err != nil {
				out.Motion = out.failed(err, t, y, m)
				return
			}
			mv.Steps++
			*seg = *step
			if at, ended := p.ends(seg, edge); ended {
				*seg, over = seg.Until(at), true
			}
			at, next, changes := p.changes(seg)
			if changes {
				*seg, over = seg.Until(at), true
			}
			rests := false
			if !p.ramp {
				if at, rests = p.rests(seg); rests {
					*seg = seg.Until(at)
				}
			}
			clock.read(seg)
			out.peak(seg)
			out.strain(p, seg)
			if mv.Watch != nil {
				mv.Watch(seg)
			}
			t, y = seg.T1, seg.To
			switch {
			case rests:
				out.Motion = out.ended(Stalled, t, y, m)
				return
			case over && !p.close && y.Angle >= stop:
				out.Motion = out.ended(Opened, t, y, m)
				return
			case over && p.close && y.Angle <= 0:
				out.Motion = out.ended(m.shut(), t, ode.State{Rate: y.Rate}, m)
				return
			}
			if changes {
				p.mode = next
			}
		}
		p.close = y.Rate < 0
		work := mv.solver.Work()
		if opt.MaxTries -= work.Accepted + work.Refused; opt.MaxTries <= 0 {
			out.Motion = out.failed(ode.ErrTooManySteps, t, y, m)
			return
		}
	}
	out.Motion = out.ended(TimedOut, t, y, m)
}

// changes finds the first moment of a step at which the operator leaves its
// mode, and the mode that follows. It looks at the end, and at the middle too
// where the rate has a turning point within.
func (p *phase) changes(g *ode.Segment) (at float64, next mode, ok bool) {
	left := func(t float64) bool {
		y := g.At(t)
		spare, _ := p.spare(t, y.Angle, y.Rate)
		return spare < 0
	}
	lo, hi := g.T0, g.T1
	if turns := g.FromAcceleration*g.ToAcceleration < 0; turns && left(lo+(hi-lo)/2) {
		hi = lo + (hi-lo)/2
	} else if !left(hi) {
		return 0, p.mode, false
	}
	hi = first(lo, hi, left)
	y := g.At(hi)
	_, next = p.spare(hi, y.Angle, y.Rate)
	return hi, next, true
}

// strain keeps how the drive fares beyond StrainsFrom.
func (out *Powered) strain(p *phase, g *ode.Segment) {
	y := g.To
	if p.ramp || y.Angle < float64(StrainsFrom) {
		return
	}
	s := &out.Strain
	s.Saturated = s.Saturated || p.mode == saturated
	if lag := quantity.Ratio(1 - y.Rate/p.command(g.T1, y.Angle)); lag > s.Lag {
		s.Lag, s.At = lag, quantity.Angle(y.Angle)
	}
}
