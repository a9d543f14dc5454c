package swing

import (
	"fmt"
	"math"

	"swingwright/internal/ode"
	"swingwright/quantity"
)

// End is how a motion ended.
type End uint8

// The endings.
const (
	Unfinished End = iota // the motion could not be followed; see Motion.Err
	Latched               // reached its frame with the bolt in the strike
	Closed                // reached its frame; there is no latch
	RestsOpen             // came to rest before
	Struck                // opening, reached the angle asked for
	TimedOut              // still under way after Limit
	Opened                // driven, fully open
	Stalled               // driven, brought to a stand before
)

var endNames = [...]string{"unfinished", "latched", "closed", "rests open", "struck", "timed out", "opened", "stalled"}

// String is the ending in words.
func (e End) String() string { return endNames[e] }

// MarshalText writes the ending in words.
func (e End) MarshalText() ([]byte, error) { return []byte(e.String()), nil }

// Shut tells that the leaf reached its frame.
func (e End) Shut() bool { return e == Latched || e == Closed }

// Limit is how long a motion is followed.
const Limit = 120 * quantity.Second

// slow is the rate below which a leaf may come to rest, rad/s: the width of
// the smoothed hinge friction, within which creep is a product of the smoothing.
const slow = hingeSlip

// Motion is the account of one motion.
type Motion struct {
	End    End
	From   quantity.Angle        // where it began, at rest
	Angle  quantity.Angle        // where it ended
	Time   quantity.Time         // how long it took
	Rate   quantity.AngularSpeed // rate of turn at the end, negative on closing
	Peak   quantity.AngularSpeed // largest rate of turn, without sign
	PeakAt quantity.Angle        // leaf angle of the largest rate
	Energy quantity.Energy       // ½Iω² at the largest rate
	Impact quantity.Energy       // ½Iω² at the end, where it ended on a stop
	Err    error                 // why it is unfinished
}

// Mover follows motions, one at a time, without allocating. The zero Mover is
// ready. It is not safe for use by several goroutines at once.
type Mover struct {
	solver ode.Solver
	phase  phase
	seg    ode.Segment // the step at hand, cut where its phase ends
	// Exact asks for tolerances far tighter than those with which times are
	// good to 1 ms, and to do without charts: to measure the usual way by.
	Exact bool
	// Draft asks for tolerances ten times as wide as usual, for one of many
	// draws: what is wanted of them is their spread.
	Draft bool
	// Fine asks for tolerances ten times tighter, charts and all: what comes
	// out then changes as smoothly with the model's quantities as derivatives by
	// differences of a few thousandths need.
	Fine bool
	// Watch, if set, is shown every step of a motion.
	Watch func(*ode.Segment)
	// Steps counts the steps of the last motion.
	Steps int
}

// Close lets the leaf go at rest at the angle from and follows it until it is
// closed, rests or Limit has passed. marks are filled in; they must be in
// falling order of angle.
func (mv *Mover) Close(m *Model, from quantity.Angle, marks []Mark) Motion {
	mv.phase = phase{m: m, close: true, exact: mv.Exact}
	return mv.run(Motion{From: from}, math.Inf(1), marks)
}

// Open pushes the leaf from rest at from with a constant torque until it
// reaches to, rests or Limit has passed. marks must be in rising order.
func (mv *Mover) Open(m *Model, push quantity.Torque, from, to quantity.Angle, marks []Mark) Motion {
	mv.phase = phase{m: m, hand: float64(push), exact: mv.Exact}
	return mv.run(Motion{From: from}, float64(to), marks)
}

// options are those of a phase; timeless tells that nothing in it depends on the time.
func (mv *Mover) options(timeless bool) ode.Options {
	if mv.Exact {
		return ode.Options{Rel: 1e-9, AbsAngle: 1e-10, AbsRate: 1e-10, MaxTries: 500_000, Timeless: timeless}
	}
	if mv.Fine {
		return ode.Options{Rel: 1e-6, AbsAngle: 3e-7, AbsRate: 3e-7, MaxTries: 200_000, Timeless: timeless}
	}
	if mv.Draft {
		return ode.Options{Rel: 1e-4, AbsAngle: 5e-5, AbsRate: 5e-5, MaxTries: 100_000, Timeless: timeless}
	}
	return ode.Options{Rel: 1e-5, AbsAngle: 5e-6, AbsRate: 5e-6, MaxTries: 100_000, Timeless: timeless}
}

// run follows the motion phase by phase. A phase ends where the seals or the
// bolt begin or cease to act, where the leaf turns back, and at the stops.
func (mv *Mover) run(out Motion, stop float64, marks []Mark) Motion {
	p, seg := &mv.phase, &mv.seg
	y, t := ode.State{Angle: float64(out.From)}, 0.0
	clock := newClock(marks, y.Angle, !p.close)
	mv.Steps = 0
	switch {
	case p.close && y.Angle <= 0:
		return out.ended(p.m.shut(), t, y, p.m)
	case !p.close && y.Angle >= stop:
		return out.ended(Struck, t, y, p.m)
	case p.held(y.Angle):
		return out.ended(RestsOpen, t, y, p.m)
	}
	p.sets(y.Angle)
	p.m.chart.valves(p.m)
	opt := mv.options(true) // its MaxTries is for the whole motion: a leaf may bounce without end
	for t < float64(Limit) {
		edge := p.zone(y.Angle, stop)
		if err := mv.solver.Start(p, t, y, float64(Limit), opt); err != nil {
			return out.failed(err, t, y, p.m)
		}
		for over := false; !over && !mv.solver.Done(); {
			step, err := mv.solver.Step()
			if err != nil {
				return out.failed(err, t, y, p.m)
			}
			mv.Steps++
			*seg = *step
			if at, ok := p.ends(seg, edge); ok {
				*seg, over = seg.Until(at), true
			}
			at, rests := p.rests(seg)
			if rests {
				*seg = seg.Until(at)
			}
			clock.read(seg)
			out.peak(seg)
			if mv.Watch != nil {
				mv.Watch(seg)
			}
			t, y = seg.T1, seg.To
			switch {
			case rests:
				return out.ended(RestsOpen, t, y, p.m)
			case over && p.close && y.Angle <= 0:
				return out.ended(p.m.shut(), t, ode.State{Rate: y.Rate}, p.m)
			case over && !p.close && y.Angle >= stop:
				return out.ended(Struck, t, y, p.m)
			}
		}
		p.close = y.Rate < 0
		work := mv.solver.Work()
		if opt.MaxTries -= work.Accepted + work.Refused; opt.MaxTries <= 0 {
			return out.failed(ode.ErrTooManySteps, t, y, p.m)
		}
	}
	return out.ended(TimedOut, t, y, p.m)
}

// shut is how a leaf ends that reaches its frame.
func (m *Model) shut() End {
	if m.link.Latch {
		return Latched
	}
	return Closed
}

func (out Motion) ended(end End, t float64, y ode.State, m *Model) Motion {
	out.End, out.Angle, out.Time = end, quantity.Angle(y.Angle), quantity.Time(t)
	out.Rate = quantity.AngularSpeed(y.Rate)
	out.Energy = m.kinetic(float64(out.Peak))
	if end.Shut() || end == Struck {
		out.Impact = m.kinetic(y.Rate)
	}
	return out
}

func (out Motion) failed(err error, t float64, y ode.State, m *Model) Motion {
	out.Err = fmt.Errorf("the motion cannot be followed beyond %.1f degrees: %w", y.Angle/float64(quantity.Degree), err)
	return out.ended(Unfinished, t, y, m)
}

// kinetic is ½Iω², J.
func (m *Model) kinetic(omega float64) quantity.Energy {
	return quantity.Energy(0.5 * m.inertia * omega * omega)
}

// clock reads off when marks are passed.
type clock struct {
	marks  []Mark
	rising bool
}

func newClock(marks []Mark, from float64, rising bool) clock {
	for i := range marks {
		marks[i].Time = quantity.Time(math.NaN())
	}
	c := clock{marks, rising}
	for len(c.marks) > 0 && !c.ahead(from, float64(c.marks[0].Angle)) {
		if float64(c.marks[0].Angle) == from {
			c.marks[0].Time = 0
		}
		c.marks = c.marks[1:]
	}
	return c
}

// ahead tells that a mark lies strictly ahead of an angle.
func (c *clock) ahead(angle, mark float64) bool {
	if c.rising {
		return mark > angle
	}
	return mark < angle
}

func (c *clock) read(g *ode.Segment) {
	way := ode.Falling
	if c.rising {
		way = ode.Rising
	}
	for len(c.marks) > 0 && !c.ahead(g.To.Angle, float64(c.marks[0].Angle)) {
		at, ok := g.AngleCrosses(float64(c.marks[0].Angle), way)
		if !ok {
			return
		}
		c.marks[0].Time = quantity.Time(at)
		c.marks = c.marks[1:]
	}
}
