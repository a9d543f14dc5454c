package trace

import (
	"math"

	"swingwright/quantity"
)

// Between is the time in which the leaf turns between two angles: opening the
// first time it passes them, closing the last time. Opening from 0 it counts from
// the moment at which the leaf begins to move, closing to 0 to that at which it
// reaches its frame, of a leaf that is thrown back the first time.
func (s *Swing) Between(from, to quantity.Angle, closing bool) Reading[quantity.Time] {
	if why := s.Spoilt(); why != "" {
		return no[quantity.Time]("%s", why)
	}
	if closing && from <= to || !closing && from >= to || from < 0 || to < 0 {
		return no[quantity.Time]("from %s to %s is no way to go", degreesText(float64(from)), degreesText(float64(to)))
	}
	a, why := s.mark(from, closing)
	if why != "" {
		return no[quantity.Time]("%s", why)
	}
	b, why := s.mark(to, closing)
	if why != "" {
		return no[quantity.Time]("%s", why)
	}
	return s.interval(a, b, func(k float64) (float64, bool) {
		p, why1 := s.scaled(from, closing, k)
		q, why2 := s.scaled(to, closing, k)
		return q.t - p.t, why1 == "" && why2 == ""
	})
}

// TimeTo is the time from when the leaf begins to move to when it first passes
// an angle.
func (s *Swing) TimeTo(to quantity.Angle) Reading[quantity.Time] { return s.Between(0, to, false) }

// mark is the passage of an angle, or why there is none.
func (s *Swing) mark(angle quantity.Angle, closing bool) (passage, string) {
	return s.scaled(angle, closing, s.scale.k)
}

// scaled is the passage of an angle were the scale k.
func (s *Swing) scaled(angle quantity.Angle, closing bool, k float64) (p passage, why string) {
	ok := false
	switch {
	case closing && angle == 0:
		if p, ok = s.stop(); !ok {
			return p, "it does not show the leaf reach its frame"
		}
		return p, ""
	case angle == 0:
		if p, ok = s.start(); !ok {
			return p, "it does not show the leaf begin to move"
		}
		return p, ""
	case closing:
		p, ok = s.cross(s.shut, float64(angle)/k, -1)
	default:
		p, ok = s.cross(s.open, float64(angle)/k, 1)
	}
	if !ok && closing {
		return p, "the closing that ends the swing does not pass " + degreesText(float64(angle))
	}
	if !ok {
		return p, "the opening does not pass " + degreesText(float64(angle))
	}
	if math.Abs(p.rate) < s.strip.threshold(s.strip.count(0.05))/2 {
		return p, "the leaf hardly moves at " + degreesText(float64(angle))
	}
	return p, ""
}

// interval is the time from one passage to another. An error E of the angle
// moves the time of a passage by −E/ω; one source moves both. The scale does so
// too far for that where the leaf has hardly begun to move, so that marks are
// looked for again one standard uncertainty to either side.
func (s *Swing) interval(a, b passage, again func(k float64) (float64, bool)) Reading[quantity.Time] {
	terms := []Term[quantity.Time]{
		{byNoise, quantity.Time(s.noiseTime(a, b))},
	}
	low, ok1 := again(s.scale.k * (1 - s.scale.u))
	high, ok2 := again(s.scale.k * (1 + s.scale.u))
	value := b.t - a.t
	switch {
	case ok1 && ok2:
		terms = append(terms, Term[quantity.Time]{s.scale.from, quantity.Time((high - low) / 2)})
	case ok1:
		terms = append(terms, Term[quantity.Time]{s.scale.from, quantity.Time(value - low)})
	case ok2:
		terms = append(terms, Term[quantity.Time]{s.scale.from, quantity.Time(value - high)})
	default:
		return no[quantity.Time]("the leaf hardly passes one of the marks, so that the scale alone decides")
	}
	for _, d := range s.doubts() {
		by := shift(b, d.at(b)) - shift(a, d.at(a))
		if d.stops && b.stops { // it makes the stop late, or the mark before early
			b.u = math.Max(0, math.Abs(b.u-math.Abs(by)))
			continue
		}
		terms = gather(terms, d.name, quantity.Time(by))
	}
	for i, p := range []passage{a, b} {
		if p.event {
			terms = gather(terms, [2]string{byStart, byEnd}[i], quantity.Time(p.u))
		}
		terms = gather(terms, bySampling, quantity.Time(s.sampled(p)))
	}
	return got(value, terms...)
}

// gather adds to the term of a name, as the root of the sum of squares.
func gather[Q quantity.Quantity](terms []Term[Q], name string, u Q) []Term[Q] {
	for i := range terms {
		if terms[i].Name == name {
			terms[i].U = Q(math.Hypot(float64(terms[i].U), float64(u)))
			return terms
		}
	}
	return append(terms, Term[Q]{name, u})
}

// shift is by how much an error of the angle moves the time of a passage, s.
func shift(p passage, e float64) float64 {
	if p.event {
		return 0
	}
	return -e / p.rate
}

// noiseTime is the spread of the time between two passages by noise, s.
func (s *Swing) noiseTime(a, b passage) float64 {
	v := 0.0
	if !a.event {
		v += s.noise(a, a) / (a.rate * a.rate)
	}
	if !b.event {
		v += s.noise(b, b) / (b.rate * b.rate)
	}
	if !a.event && !b.event {
		v -= 2 * s.noise(a, b) / (a.rate * b.rate)
	}
	return math.Sqrt(math.Max(0, v))
}

// sampled is the spread of a passage's time by what happens between two
// samples: the curve that a straight line cuts, and stamps that are rounded.
func (s *Swing) sampled(p passage) float64 {
	t := s.strip.t
	h := t[p.i+1] - t[p.i]
	u := math.Hypot(s.strip.stamp, s.strip.coarse/math.Sqrt(12))
	if p.event {
		return u
	}
	k := p.i - s.lo
	bend := math.Abs(s.rate[k+1]-s.rate[k]) * h / 8 // of the angle, at most
	return math.Hypot(u, bend/math.Abs(p.rate)/math.Sqrt(3))
}

// HoldTime is how long the leaf is held open: from when it comes to rest to when
// it first closes.
func (s *Swing) HoldTime() Reading[quantity.Time] {
	if why := s.Spoilt(); why != "" {
		return no[quantity.Time]("%s", why)
	}
	if s.hold.none() || s.shut.none() {
		return no[quantity.Time]("the leaf is not held open")
	}
	end, start := s.event(s.held.start), s.event(s.held.end)
	return got(start.t-end.t,
		Term[quantity.Time]{byEnd, quantity.Time(end.u)}, Term[quantity.Time]{byStart, quantity.Time(start.u)},
		Term[quantity.Time]{bySampling, quantity.Time(math.Hypot(s.sampled(end), s.sampled(start)))})
}
