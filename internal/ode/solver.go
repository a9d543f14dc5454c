package ode

import (
	"errors"
	"fmt"
)

// State is where the body is and how fast it turns.
type State struct {
	// Angle in radians.
	Angle float64
	// Rate in radians per second.
	Rate float64
}

// System is a body whose acceleration is known. Within one phase the
// acceleration must be smooth; steps shrink at a break.
type System interface {
	// Acceleration in rad/s² at time t (s), angle (rad) and rate (rad/s).
	Acceleration(t, angle, rate float64) float64
}

// Func is a System made of a function.
type Func func(t, angle, rate float64) float64

// Acceleration calls the function.
func (f Func) Acceleration(t, angle, rate float64) float64 { return f(t, angle, rate) }

// Solver follows one phase after another. The zero Solver is ready for Start;
// one Solver may follow any number of motions and allocates nothing in doing
// so. It is not safe for use by several goroutines at once.
type Solver struct {
	sys    System
	opt    Options
	seg    Segment // the last accepted step; before the first, a point
	end    float64
	h      float64 // next step to try, s
	memory float64 // ln of the squared error of the last accepted step
	work   Work
	// Which method is at hand; see stiff.go.
	stiff    bool
	settling float64 // of the last step of the explicit pair
	row      int     // how many of these in a row told of stiffness
	slope    slopes  // at the end of the last accepted step, where stiff
}

// Work counts what a phase cost.
type Work struct {
	// Accepted and Refused count steps.
	Accepted, Refused int
	// Calls counts evaluations of the acceleration.
	Calls int
}

// Start begins a phase at time t in state y, to be followed up to time end (s).
// It reports unusable arguments and an acceleration that is not finite at t.
func (s *Solver) Start(sys System, t float64, y State, end float64, opt Options) error {
	opt, err := opt.withDefaults()
	if !finite(t) || !finite(end) || !(end > t) {
		err = errors.Join(err, fmt.Errorf("ode: start %v s, end %v s: give finite times, the end after the start", t, end))
	}
	if !finite(y.Angle) || !finite(y.Rate) {
		err = errors.Join(err, fmt.Errorf("ode: start state %+v is not finite; look at the inputs it was made from", y))
	}
	if err != nil {
		return err
	}
	*s = Solver{sys: sys, opt: opt, end: end, memory: leastMemory}
	s.seg = Segment{T0: t, T1: t, From: y, To: y}
	a := s.acceleration(t, y)
	s.seg.FromAcceleration, s.seg.ToAcceleration = a, a
	if !finite(a) {
		return s.failure(ErrNotFinite, 0)
	}
	if s.h = opt.FirstStep; s.h == 0 {
		s.h = s.guess()
	}
	return nil
}

// Time is the time reached, s.
func (s *Solver) Time() float64 { return s.seg.T1 }

// State is the state at that time.
func (s *Solver) State() State { return s.seg.To }

// Done tells that the end has been reached.
func (s *Solver) Done() bool { return s.seg.T1 >= s.end }

// Work tells what the phase has cost since Start.
func (s *Solver) Work() Work { return s.work }

func (s *Solver) acceleration(t float64, y State) float64 {
	s.work.Calls++
	return s.sys.Acceleration(t, y.Angle, y.Rate)
}

func (s *Solver) failure(why error, step float64) error {
	return &Failure{Why: why, Time: s.seg.T1, State: s.seg.To, Step: step}
}

func finite(x float64) bool { return x-x == 0 }
