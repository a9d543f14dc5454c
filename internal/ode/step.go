package ode

import "math"

// Step-size control (HNW II.4 and code DOPRI5): the new step is the old one
// times safety · err^-(1/5 - 3/4·beta) · (error of the step before)^beta, kept
// within bounds. Errors are kept as the logarithm of their square.
const (
	safety = 0.9
	beta   = 0.04
	gain   = (1./5 - 3./4*beta) / 2
	shrink = 0.2
	grow   = 10.0
	// Steps shorter than this share of the time, or this many seconds, are no
	// longer taken: they drown in rounding.
	shortest = 1e-15
	// Smallest error that the memory believes in, ln of (1e-4)².
	leastMemory = -18.420680743952367
)

// Step takes the next step that meets the tolerances. The segment belongs to
// the solver and holds until the next call; copy it to keep it. The last step
// lands on the end exactly. The error is a *[Failure].
func (s *Solver) Step() (*Segment, error) {
	if s.Done() {
		return nil, s.failure(ErrPastEnd, 0)
	}
	limit := grow
	for {
		h, t1 := s.next()
		if s.work.Accepted+s.work.Refused >= s.opt.MaxTries {
			return nil, s.failure(ErrTooManySteps, h)
		}
		seg, err2 := s.attempt(h, t1)
		if err2 <= 1 {
			err := math.Log(max(err2, 1e-20))
			s.h = h * min(limit, max(shrink, safety*math.Exp(beta/2*s.memory-s.gain()*err)))
			s.memory = max(err, leastMemory)
			s.work.Accepted++
			s.seg = seg
			s.choose(h)
			return &s.seg, nil
		}
		s.work.Refused++
		limit = 1 // no growth right after a refusal
		s.h = h * shrink
		if finite(err2) {
			s.h = h * max(shrink, safety*math.Exp(-s.gain()*math.Log(err2)))
		}
		if s.h < shortest*max(1, math.Abs(seg.T0)) {
			if !finite(err2) {
				return nil, s.failure(ErrNotFinite, h)
			}
			return nil, s.failure(ErrStepTooSmall, h)
		}
	}
}

// attempt tries a step by the method at hand.
func (s *Solver) attempt(h, t1 float64) (Segment, float64) {
	if s.stiff {
		return s.tryStiff(h, t1)
	}
	return s.try(h, t1)
}

func (s *Solver) gain() float64 {
	if s.stiff {
		return gainStiff
	}
	return gain
}

// choose settles by which method to go on after an accepted step of length h.
func (s *Solver) choose(h float64) {
	if s.stiff {
		if s.stiff = h*math.Abs(s.slope.rate) > stiffTo; s.stiff {
			s.slope = s.slopes()
		}
		return
	}
	if s.settling < stiffFrom {
		s.row = 0
		return
	}
	if s.row++; s.row >= inARow {
		s.stiff, s.row, s.slope = true, 0, s.slopes()
	}
}

// next is the step to try and the time it leads to. A step that would come
// near the end goes to it.
func (s *Solver) next() (h, t1 float64) {
	t := s.seg.T1
	h = min(s.h, s.opt.MaxStep)
	if left := s.end - t; 1.01*h >= left {
		return left, s.end
	}
	return h, t + h
}

// try takes a step of length h to time t1 from the last accepted one and
// returns the square of its error in units of the tolerance (HNW eq. II.4.11).
func (s *Solver) try(h, t1 float64) (Segment, float64) {
	t, x, f := s.seg.T1, s.seg.To.Angle, s.sys
	v1, k1 := s.seg.To.Rate, s.seg.ToAcceleration
	v2 := v1 + h*(a21*k1)
	k2 := f.Acceleration(t+c2*h, x+h*(a21*v1), v2)
	v3 := v1 + h*(a31*k1+a32*k2)
	k3 := f.Acceleration(t+c3*h, x+h*(a31*v1+a32*v2), v3)
	v4 := v1 + h*(a41*k1+a42*k2+a43*k3)
	k4 := f.Acceleration(t+c4*h, x+h*(a41*v1+a42*v2+a43*v3), v4)
	v5 := v1 + h*(a51*k1+a52*k2+a53*k3+a54*k4)
	k5 := f.Acceleration(t+c5*h, x+h*(a51*v1+a52*v2+a53*v3+a54*v4), v5)
	v6 := v1 + h*(a61*k1+a62*k2+a63*k3+a64*k4+a65*k5)
	k6 := f.Acceleration(t1, x+h*(a61*v1+a62*v2+a63*v3+a64*v4+a65*v5), v6)
	v7 := v1 + h*(a71*k1+a73*k3+a74*k4+a75*k5+a76*k6)
	x7 := x + h*(a71*v1+a73*v3+a74*v4+a75*v5+a76*v6)
	k7 := f.Acceleration(t1, x7, v7)
	s.work.Calls += 6
	s.settling = settling(h, v6, v7, k6, k7)

	ex := h * (e1*v1 + e3*v3 + e4*v4 + e5*v5 + e6*v6 + e7*v7) / s.allowed(s.opt.AbsAngle, x, x7)
	ev := h * (e1*k1 + e3*k3 + e4*k4 + e5*k5 + e6*k6 + e7*k7) / s.allowed(s.opt.AbsRate, v1, v7)
	return Segment{T0: t, T1: t1, From: s.seg.To, To: State{x7, v7}, FromAcceleration: k1, ToAcceleration: k7}, (ex*ex + ev*ev) / 2
}

// allowed is the error a component may make in one step (HNW eq. II.4.10).
func (s *Solver) allowed(abs, before, after float64) float64 {
	return abs + s.opt.Rel*max(math.Abs(before), math.Abs(after))
}

// guess is a first step from the sizes of the state, its derivative and its
// second derivative (HNW II.4, "starting step size").
func (s *Solver) guess() float64 {
	y, a := s.seg.To, s.seg.ToAcceleration
	su := s.allowed(s.opt.AbsAngle, y.Angle, y.Angle)
	sv := s.allowed(s.opt.AbsRate, y.Rate, y.Rate)
	d0 := math.Hypot(y.Angle/su, y.Rate/sv) / math.Sqrt2
	d1 := math.Hypot(y.Rate/su, a/sv) / math.Sqrt2
	h0 := 1e-6
	if d0 >= 1e-5 && d1 >= 1e-5 {
		h0 = 0.01 * d0 / d1
	}
	h0 = min(h0, s.opt.MaxStep, s.end-s.seg.T1)
	ahead := s.acceleration(s.seg.T1+h0, State{y.Angle + h0*y.Rate, y.Rate + h0*a})
	d2 := math.Hypot(a/su, (ahead-a)/h0/sv) / math.Sqrt2
	h1 := max(1e-6, h0*1e-3)
	if d := max(d1, d2); d > 1e-15 {
		h1 = math.Pow(0.01/d, 0.2)
	}
	if h := min(100*h0, h1); h > 0 {
		return h
	}
	return h0 // the look ahead was not finite
}
