package trace

import (
	"math"
	"slices"
)

// rest is a stretch in which the device stood still: samples from to before to.
type rest struct {
	from, to int
	level    float64 // mean of v, which is the bias, rad/s
	spread   float64 // of the level by noise, rad/s
	at       float64 // middle of the samples it was taken from, s
}

// Levels that tell rests from slow movement, rad/s and rad/s².
const (
	slowest   = 0.2 * degree   // a rate this far from the bias is a movement
	wander    = 0.003 * degree // assumed largest drift of a bias, per second
	mostBias  = 5 * degree     // from memory: offsets before calibration reach 3 deg/s
	leastRest = 0.4            // s
)

// rests finds where the device stood still: its rate does not change and is that
// of the bias. What that is, the ends of the strip tell; a leaf may turn as
// evenly as it rests.
func (s *strip) rests() []rest {
	base, ok := s.base()
	if !ok {
		return nil
	}
	var found []rest
	for i := 0; i < len(s.v); {
		if !s.still(i, base) {
			i++
			continue
		}
		k := i
		for k < len(s.v) && s.still(k, base) && (k == i || s.t[k]-s.t[k-1] < 1) {
			k++
		}
		if s.t[k-1]-s.t[i] >= leastRest {
			found = append(found, s.rest(i, k))
		}
		i = k
	}
	return found
}

// still tells that the device stands still around sample i.
func (s *strip) still(i int, base func(t float64) float64) bool {
	if !s.flat[i] {
		return false
	}
	lo, hi := s.window(i, s.wide)
	return math.Abs(s.mean(lo, hi)-base(s.t[i])) < slowest+2*s.sigma/math.Sqrt(float64(hi-lo))+s.ahead
}

// rest takes the level of a rest without its edges, where the leaf may begin to
// move, and without samples that a knock threw out.
func (s *strip) rest(from, to int) rest {
	r := rest{from: from, to: to}
	edge := min(s.count(0.15), (to-from)/4)
	lo, hi := from+edge, to-edge
	if from == 0 {
		lo = 0
	}
	if to == len(s.v) {
		hi = to
	}
	mean := s.mean(lo, hi)
	limit := 5*s.sigma + 0.05*degree
	n, sum := 0, 0.0
	for i := lo; i < hi; i++ {
		if math.Abs(s.v[i]-mean) < limit {
			n++
			sum += s.v[i]
		}
	}
	if n == 0 {
		n, sum = hi-lo, s.sum[hi]-s.sum[lo]
	}
	r.level, r.spread = sum/float64(n), s.sigma/math.Sqrt(float64(n))
	r.at = (s.t[lo] + s.t[hi-1]) / 2
	return r
}

// base is the bias over time as far as it can be told before the rests are
// known: from the flat stretches at the strip's ends, else the commonest level.
func (s *strip) base() (func(t float64) float64, bool) {
	if s.tape {
		return func(float64) float64 { return 0 }, true
	}
	first, last := s.flatEnd(true), s.flatEnd(false)
	usable := func(r *rest) bool { return r != nil && math.Abs(r.level) < mostBias }
	switch {
	case usable(first) && usable(last):
		apart := math.Abs(first.level - last.level)
		if span := last.at - first.at; apart < slowest+wander*span && span > 0 {
			a, b := *first, *last
			return func(t float64) float64 { return a.level + (b.level-a.level)*(t-a.at)/span }, true
		}
		if math.Abs(last.level) < math.Abs(first.level) { // one end is moving
			first = last
		}
	case usable(last):
		first = last
	case !usable(first):
		return s.commonest()
	}
	level := first.level
	return func(float64) float64 { return level }, true
}

// flatEnd is the flat stretch at one end of the strip, up to 3 s of it, nil where
// there is none.
func (s *strip) flatEnd(begin bool) *rest {
	n := len(s.v)
	at := func(k int) int {
		if begin {
			return k
		}
		return n - 1 - k
	}
	first := 0
	for first < n && math.Abs(s.t[at(first)]-s.t[at(0)]) < 0.3 && !s.flat[at(first)] {
		first++
	}
	last := first
	for last < n && s.flat[at(last)] && math.Abs(s.t[at(last)]-s.t[at(first)]) < 3 {
		last++
	}
	if last-first < 3 || math.Abs(s.t[at(last-1)]-s.t[at(first)]) < leastRest {
		return nil
	}
	r := s.rest(min(at(first), at(last-1)), max(at(first), at(last-1))+1)
	return &r
}

// commonest is the level that flat samples have most often, where they have one
// for at least a second.
func (s *strip) commonest() (func(t float64) float64, bool) {
	count := make(map[int]int)
	const width = 0.3 * degree
	for i := range s.v {
		if lo, hi := s.window(i, s.wide); s.flat[i] && math.Abs(s.mean(lo, hi)) < mostBias {
			count[int(math.Round(s.mean(lo, hi)/width))]++
		}
	}
	keys := make([]int, 0, len(count))
	for k := range count {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	best := 0
	for _, k := range keys {
		if count[k] > count[best] {
			best = k
		}
	}
	if float64(count[best])*s.step < 1 {
		return nil, false
	}
	return func(float64) float64 { return float64(best) * width }, true
}
