package trace

import (
	"math"

	"swingwright/quantity"
)

// PeakRate is the largest rate of the opening, or of the closing, without sign.
// It is taken from parabolas through the samples of about 0.08 s to either side,
// so that noise does not make it.
func (s *Swing) PeakRate(closing bool) Reading[quantity.AngularSpeed] {
	if why := s.Spoilt(); why != "" {
		return no[quantity.AngularSpeed]("%s", why)
	}
	w, kind, sense := s.open, Opening, 1.0
	if closing {
		w, kind, sense = s.shut, Sweep, -1
	}
	if w.none() {
		return no[quantity.AngularSpeed]("there is no %s", map[bool]string{false: "opening", true: "closing"}[closing])
	}
	pk := s.peak(w, kind, sense, true)
	if pk.rate <= 0 {
		pk = s.peak(w, kind, sense, false)
	}
	if pk.rate <= 0 {
		return no[quantity.AngularSpeed]("the leaf hardly moves")
	}
	return s.speed(pk.rate, pk.spread, pk.bend)
}

// peak is the largest rate of some spans, rad/s: its spread by noise, and what
// another choice of window would make of it.
type peak struct{ rate, spread, bend float64 }

// peak looks for the largest rate in spans of a kind. A parabola that does not fit
// its samples, as across a sudden start, overshoots: with strict a narrower one is
// taken, or none.
func (s *Swing) peak(w way, kind PhaseKind, sense float64, strict bool) (best peak) {
	widest := max(2, s.strip.count(0.12))
	limit := 2.5*s.strip.sigma + 0.05*degree
	for _, p := range s.spans {
		if p.kind != kind || p.from < w.from || p.to > w.to {
			continue
		}
		for i := p.from; i < p.to; i += max(1, widest/6) { // parabolas so near differ little
			if sense*s.rate[i-s.lo] < 0.9*best.rate {
				continue
			}
			for wide := widest; wide >= 2; wide /= 2 {
				v, u, misfit := s.parabola(i, wide, p)
				if strict && misfit > limit {
					continue
				}
				if sense*v > best.rate {
					narrow, _, _ := s.parabola(i, max(2, wide/2), p)
					best = peak{sense * v, u, math.Max(0, math.Abs(narrow-v)-2*u)}
				}
				break
			}
		}
	}
	return best
}

// speed is a reading of a rate, rad/s before the scale.
func (s *Swing) speed(rate, noise, bend float64) Reading[quantity.AngularSpeed] {
	k := s.scale.k
	level := s.levelSpread()
	return got(k*rate,
		Term[quantity.AngularSpeed]{byNoise, quantity.AngularSpeed(k * noise)},
		Term[quantity.AngularSpeed]{byBias, quantity.AngularSpeed(k * level)},
		Term[quantity.AngularSpeed]{byRounding, quantity.AngularSpeed(k * s.strip.ahead)},
		Term[quantity.AngularSpeed]{s.scale.from, quantity.AngularSpeed(k * rate * s.scale.u)},
		Term[quantity.AngularSpeed]{bySampling, quantity.AngularSpeed(k * bend)},
	)
}

// levelSpread is the spread of the bias by noise at the rests, rad/s.
func (s *Swing) levelSpread() float64 {
	u := 0.0
	for _, r := range []int{s.before, s.after} {
		if r >= 0 {
			u = math.Max(u, s.rests[r].spread)
		}
	}
	return u
}

// parabola is the rate at sample i by least squares through the samples to
// either side, as far as the span goes, its spread by noise, and how far the
// samples lie off it. Of a span that is too short for one it is the sample.
func (s *Swing) parabola(i, wide int, in span) (value, spread, misfit float64) {
	lo, hi := max(in.from, i-wide), min(in.to, i+wide)
	n := hi - lo + 1
	sigma := s.strip.sigma
	if n < 4 {
		return s.rate[i-s.lo], sigma, 0
	}
	var m [5]float64
	var b [3]float64
	var yy float64
	for k := lo; k <= hi; k++ {
		x := float64(k - i)
		y := s.rate[k-s.lo]
		x2 := x * x
		m[0]++
		m[1] += x
		m[2] += x2
		m[3] += x2 * x
		m[4] += x2 * x2
		b[0] += y
		b[1] += x * y
		b[2] += x2 * y
		yy += y * y
	}
	// first row of the inverse of the normal equations
	c0 := m[2]*m[4] - m[3]*m[3]
	c1 := m[2]*m[3] - m[1]*m[4]
	c2 := m[1]*m[3] - m[2]*m[2]
	det := m[0]*c0 + m[1]*c1 + m[2]*c2
	if det == 0 {
		return s.rate[i-s.lo], sigma, 0
	}
	c11, c12, c22 := m[0]*m[4]-m[2]*m[2], m[1]*m[2]-m[0]*m[3], m[0]*m[2]-m[1]*m[1]
	x0 := (c0*b[0] + c1*b[1] + c2*b[2]) / det
	x1 := (c1*b[0] + c11*b[1] + c12*b[2]) / det
	x2 := (c2*b[0] + c12*b[1] + c22*b[2]) / det
	left := math.Max(0, yy-x0*b[0]-x1*b[1]-x2*b[2])
	return x0, sigma * math.Sqrt(c0/det), math.Sqrt(left / float64(n-3))
}

// ImpactRate is the rate with which the leaf reaches its frame at the end of the
// closing, without sign.
func (s *Swing) ImpactRate() Reading[quantity.AngularSpeed] {
	if why := s.Spoilt(); why != "" {
		return no[quantity.AngularSpeed]("%s", why)
	}
	if _, ok := s.stop(); !ok {
		return no[quantity.AngularSpeed]("it does not show the leaf reach its frame")
	}
	// The last sample that moves: those behind it stand in the frame.
	last := s.shut.to
	limit := math.Max(4*s.strip.sigma, 0.3*degree) + s.strip.ahead
	if lead := min(last+s.strip.count(smoothHalf)+1, s.lo+len(s.rate)-1); s.shut.to == s.blocks[len(s.blocks)-1].last {
		last = lead
	}
	for last > s.shut.from+1 && -s.rate[last-s.lo] < limit {
		last--
	}
	n := max(3, s.strip.count(0.05))
	lo := max(s.shut.from, last-n)
	value, slope, spread := tail(s.strip.t[lo:last+1], s.rate[lo-s.lo:last+1-s.lo], s.strip.sigma)
	h := s.strip.step
	rate := math.Max(0, -(value + slope*h/2))
	mean := 0.0
	for k := lo; k <= last; k++ {
		mean -= s.rate[k-s.lo]
	}
	mean /= float64(last + 1 - lo)
	return s.speed(rate, spread, math.Hypot(slope*h/math.Sqrt(12), (rate-mean)/3))
}

// OpenAngle is the angle at which the leaf is held, or at which it turns where
// it is not held.
func (s *Swing) OpenAngle() Reading[quantity.Angle] {
	if why := s.Spoilt(); why != "" {
		return no[quantity.Angle]("%s", why)
	}
	k, top, at := s.scale.k, s.heldAt(), s.leafAtTop()
	terms := []Term[quantity.Angle]{
		{byNoise, quantity.Angle(k * math.Sqrt(math.Max(0, s.noise(at, at))))},
		{s.scale.from, quantity.Angle(k * top * s.scale.u)},
	}
	for _, d := range s.doubts() {
		terms = gather(terms, d.name, quantity.Angle(k*d.at(at)))
	}
	return got(k*top, terms...)
}
