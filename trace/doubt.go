package trace

import "math"

// doubt is one source of error of the angle: its name, and what one standard
// uncertainty of it makes of the angle at a passage, rad, with its sign.
type doubt struct {
	name  string
	at    func(p passage) float64
	stops bool // it is the doubt of when the leaf stops, see kick
}

// Names of the lines of budgets.
const (
	byNoise    = "gyro noise"
	byBias     = "bias"
	byRounding = "rounding of the rates"
	byClosure  = "closure: leftover spread evenly"
	byGap      = "gap"
	bySampling = "sampling"
	byStart    = "start detection"
	byEnd      = "end detection"
	byDrift    = "drift of the bias (assumed)"
)

// total is the time moved in the whole swing, s.
func (s *Swing) total() float64 { return s.tau[len(s.tau)-1] }

// tied is what is left at a passage of an error of the summed angle when the
// angle is made zero where it is known: at both ends, the leftover spread over
// the time moved, or at one.
func (s *Swing) tied(e func(p passage) float64) func(p passage) float64 {
	end := s.atShare(s.lo+len(s.angle)-2, 1)
	switch {
	case s.closes && s.before >= 0:
		whole, total := e(end), s.total()
		return func(p passage) float64 { return e(p) - whole*p.tau/total }
	case s.closes:
		whole := e(end)
		return func(p passage) float64 { return e(p) - whole }
	}
	return e
}

// doubts are the sources of error of the angle but for noise and scale.
func (s *Swing) doubts() (list []doubt) {
	if s.strip.tape {
		return nil
	}
	add := func(name string, e func(p passage) float64) { list = append(list, doubt{name: name, at: s.tied(e)}) }
	add(byRounding, func(p passage) float64 { return s.strip.ahead * p.tau })
	t0 := s.strip.t[s.lo]
	var first, last *rest
	if s.before >= 0 {
		first = &s.rests[s.before]
	}
	if s.after >= 0 {
		last = &s.rests[s.after]
	}
	switch {
	case first != nil && last != nil:
		span := last.at - first.at
		add(byBias, func(p passage) float64 { return first.spread * (p.tau*(last.at-t0) - p.mom) / span })
		add(byBias, func(p passage) float64 { return last.spread * (p.mom - p.tau*(first.at-t0)) / span })
	default:
		one := first
		if one == nil {
			one = last
		}
		if one == nil { // a rest in the middle, which is neither
			one = &s.rests[0]
		}
		add(byBias, func(p passage) float64 { return one.spread * p.tau })
		add(byDrift, func(p passage) float64 { return drift * (p.mom - p.tau*(one.at-t0)) })
	}
	for _, k := range s.kicks {
		name := byGap
		if !s.shut.none() && k.at > s.shut.to-s.strip.count(smoothHalf)-3 {
			name = byClosure
		}
		add(name, func(p passage) float64 {
			if p.i >= k.at {
				return k.u
			}
			return 0
		})
		list[len(list)-1].stops = k.stops
	}
	return list
}

// drift is the standard uncertainty of how fast a bias wanders, rad/s² (assumed).
const drift = 0.001 * degree

// noise is the covariance of the errors by noise of the rates at two passages,
// rad²: that of a random walk over the time moved, tied to zero where the angle
// is known (a Brownian bridge).
func (s *Swing) noise(p, q passage) float64 {
	if s.strip.tape {
		if p.i == q.i {
			return s.strip.angle * s.strip.angle
		}
		return 0
	}
	density := s.strip.sigma * s.strip.sigma * s.strip.step // rad²/s
	low, high, total := math.Min(p.tau, q.tau), math.Max(p.tau, q.tau), s.total()
	switch {
	case s.closes && s.before >= 0:
		return density * low * (1 - high/total)
	case s.closes:
		return density * (total - high)
	}
	return density * low
}

// angleSpread is the standard uncertainty of the angle at a passage, rad, but for
// the scale.
func (s *Swing) angleSpread(p passage) float64 {
	u := s.noise(p, p)
	for _, d := range s.doubts() {
		u += d.at(p) * d.at(p)
	}
	return math.Sqrt(math.Max(0, u))
}
