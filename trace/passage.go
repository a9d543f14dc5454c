package trace

import (
	"math"
	"sort"
)

// passage is the leaf at one time: as it passes an angle, or as it begins or
// ends to move.
type passage struct {
	i     int     // the sample before
	t     float64 // s
	angle float64 // rad, before the scale
	rate  float64 // rad/s with its sign, before the scale
	tau   float64 // time moved, s
	mom   float64 // s²
	event bool    // found from the rate, so that errors of the angle do not move it
	u     float64 // spread of an event's time, s
	stops bool    // the leaf reaches its frame
}

// cross finds where a way passes an angle (rad, before the scale): upward (sense
// 1) the first time, downward (-1) the last time.
func (s *Swing) cross(w way, angle, sense float64) (passage, bool) {
	if w.none() {
		return passage{}, false
	}
	if sense > 0 {
		for i := w.from; i < w.to; i++ {
			if s.theta(i) < angle && s.theta(i+1) >= angle {
				return s.between(i, angle), true
			}
		}
		return passage{}, false
	}
	for i := w.to - 1; i >= w.from; i-- {
		if s.theta(i) >= angle && s.theta(i+1) < angle {
			return s.between(i, angle), true
		}
	}
	return passage{}, false
}

// between is the passage of an angle between samples i and i+1.
func (s *Swing) between(i int, angle float64) passage {
	a, b := s.theta(i), s.theta(i+1)
	p := s.atShare(i, (angle-a)/(b-a))
	p.angle = angle
	return p
}

// atShare is the leaf at a share of the step after sample i.
func (s *Swing) atShare(i int, share float64) passage {
	k := i - s.lo
	mid := func(x []float64) float64 { return x[k] + share*(x[k+1]-x[k]) }
	t := s.strip.t
	p := passage{i: i, t: t[i] + share*(t[i+1]-t[i]), angle: mid(s.angle), tau: mid(s.tau), mom: mid(s.mom)}
	p.rate = s.rateAt(i, p.t)
	return p
}

// rateAt is the rate at time t near sample i by a line through the samples of
// 0.05 s to either side, inside the same move.
func (s *Swing) rateAt(i int, t float64) float64 {
	lo, hi := s.around(i, s.strip.count(0.05))
	n := hi - lo
	if n < 3 {
		return s.rate[i-s.lo]
	}
	var mt, mu, tt, tu float64
	for k := lo; k < hi; k++ {
		mt += s.strip.t[k]
		mu += s.rate[k-s.lo]
	}
	mt, mu = mt/float64(n), mu/float64(n)
	for k := lo; k < hi; k++ {
		d := s.strip.t[k] - mt
		tt += d * d
		tu += d * (s.rate[k-s.lo] - mu)
	}
	if tt == 0 {
		return mu
	}
	return mu + tu/tt*(t-mt)
}

// around is the samples about i that belong to the same span.
func (s *Swing) around(i, wide int) (lo, hi int) {
	lo, hi = max(s.lo, i-wide), min(s.lo+len(s.rate), i+wide+2)
	for _, p := range s.spans {
		if i >= p.from && i < p.to {
			return max(lo, p.from), min(hi, p.to+1)
		}
	}
	return lo, hi
}

// start is the moment at which the opening that is told of begins.
func (s *Swing) start() (passage, bool) {
	for _, p := range s.spans {
		if p.from != s.open.from || s.before < 0 && p.from == s.blocks[0].first {
			continue
		}
		if p.start != (moment{}) {
			return s.event(p.start), true
		}
		return s.event(s.turning(p.from)), true // out of a false start
	}
	return passage{}, false
}

// stop is the moment at which the leaf reaches its frame.
func (s *Swing) stop() (passage, bool) {
	if s.shut.none() || !s.closes {
		return passage{}, false
	}
	m := s.turning(s.shut.to) // thrown back
	for _, p := range s.spans {
		if p.to == s.shut.to && p.end != (moment{}) {
			m = p.end
		}
	}
	e := s.event(m)
	e.stops = true
	return e, true
}

// turning is the moment at which the rate changes its sign up to sample i: sharp
// where the leaf is thrown back, anywhere in its dwelling where it turns gently.
func (s *Swing) turning(i int) moment {
	t := s.strip.t
	limit := s.strip.threshold(1)
	lo, hi := max(i-1, s.lo), i
	for lo > s.lo && math.Abs(smoothed(s.rate, lo-s.lo, 1)) < limit {
		lo--
	}
	for hi < s.lo+len(s.rate)-1 && math.Abs(smoothed(s.rate, hi-s.lo, 1)) < limit {
		hi++
	}
	if hi-lo <= 2 {
		lo, hi = max(i-1, s.lo), i
	}
	width := math.Max(t[hi]-t[lo], s.strip.step)
	return moment{(t[lo] + t[hi]) / 2, width / math.Sqrt(12)}
}

// event is the leaf at a moment found from the rate.
func (s *Swing) event(m moment) passage {
	t := s.strip.t
	i := s.lo + sort.SearchFloat64s(t[s.lo:s.lo+len(s.angle)], m.t) - 1
	i = min(max(i, s.lo), s.lo+len(s.angle)-2)
	p := s.atShare(i, math.Max(0, math.Min(1, (m.t-t[i])/(t[i+1]-t[i]))))
	p.t, p.event, p.u = m.t, true, m.u
	return p
}
