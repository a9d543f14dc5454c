package trace

import (
	"fmt"
	"math"
	"slices"
)

// strip is a stretch of recording under one clock: the rate about the hinge,
// its sense not yet known, over time.
type strip struct {
	t, v  []float64 // s, rad/s
	row   []int32   // of the recording
	step  float64   // usual step, s
	gap   float64   // shortest step that counts as a gap, s
	sigma float64   // noise of a sample of v, rad/s
	ahead float64   // spread of the bias by rounding of the rates, rad/s
	tape  bool      // v is the slope of recorded angles, which have no bias
	angle float64   // noise of a mark's angle where angles were recorded, rad

	// fixedAt and takenAt tell that it begins and ends with the recorder being
	// fixed to the leaf and taken off.
	fixedAt, takenAt bool
	open             bool    // it begins with the leaf open
	stamp, coarse    float64 // spread of a stamp by rounding, and width over which stamps were spread, s

	sum, sum2 []float64 // running sums of v and v²
	flat      []bool    // v does not change around here
	wide      int       // samples to either side of the window in which that is looked for
}

// half widths of windows, s.
const (
	flatHalf   = 0.2  // in which a rate is looked at for standing still
	smoothHalf = 0.06 // over which a rate is smoothed to see which way it goes
)

// strips cuts a recording into stretches under one clock in which the recorder was
// not carried about, projected on the vertical.
func (r *Recording) strips(o *order, up vertical) (strips []*strip) {
	var carried [][2]int
	if r.axes == 3 && up.from == byGravity && !up.steady {
		carried = r.tilts(o, up)
	}
	ahead, grain := r.rounding(up)
	from := 0
	begun := false // a stretch begins where the recorder was fixed to the leaf
	add := func(to int, ends bool) {
		if to-from >= leastRows && (len(carried) == 0 || o.fixed(from, to, up.on)) {
			s := r.strip(o, from, to, up, ahead, grain)
			s.fixedAt, s.takenAt = begun, ends
			strips = append(strips, s)
		}
	}
	breaks := o.breaks
	for _, c := range append(carried, [2]int{len(o.t), len(o.t)}) {
		for len(breaks) > 0 && breaks[0] <= c[0] {
			add(breaks[0], false)
			from, breaks, begun = max(from, breaks[0]), breaks[1:], false
		}
		add(c[0], c[0] < len(o.t))
		from, begun = max(from, c[1]), true
		for len(breaks) > 0 && breaks[0] <= from {
			breaks = breaks[1:]
		}
	}
	if len(carried) > 0 {
		for _, c := range carried {
			o.tell(r, c[0], "the recorder is carried about until "+secondsText(o.t[c[1]-1]), "that is left out; nothing need be done unless the leaf swung then")
		}
	}
	return strips
}

// fixed tells that the recorder was fixed to the leaf in most rows from one to
// before another, which last for a second at least.
func (o *order) fixed(from, to int, on []bool) bool {
	n := 0
	for _, row := range o.row[from:to] {
		if on[row] {
			n++
		}
	}
	return 2*n > to-from && o.t[to-1]-o.t[from] > 1
}

func (r *Recording) strip(o *order, from, to int, up vertical, ahead, grain float64) *strip {
	s := &strip{t: o.t[from:to], row: o.row[from:to], step: o.step, gap: o.gap(), v: make([]float64, to-from)}
	s.stamp, s.coarse = stampStep(s.t)/math.Sqrt(12), o.coarse
	switch r.axes {
	case 3:
		a, b, c := r.rate[up.pick[0]], r.rate[up.pick[1]], r.rate[up.pick[2]]
		for i, row := range s.row {
			s.v[i] = up.axis[0]*a[row] + up.axis[1]*b[row] + up.axis[2]*c[row]
		}
		s.ahead, s.sigma = ahead, grain
	case 1:
		for i, row := range s.row {
			s.v[i] = r.rate[0][row]
		}
		s.ahead, s.sigma = ahead, grain
	default:
		s.fromAngles(r.angle)
	}
	if !s.tape {
		s.sigma = math.Max(s.sigma, noise(s.v))
	}
	s.prepare()
	return s
}

// noise is the spread of a sample of v from its neighbours, by the median of its
// second differences, so that movement does not count: for white noise their
// spread is √6 that of a sample, and the median of |x| is 0.6745 spreads.
func noise(v []float64) float64 {
	stride := max(1, len(v)/1000)
	d := make([]float64, 0, 1001)
	for i := 1; i+1 < len(v); i += stride {
		d = append(d, math.Abs(v[i+1]-2*v[i]+v[i-1]))
	}
	if len(d) == 0 {
		return 0
	}
	slices.Sort(d)
	return d[len(d)/2] / (0.6745 * math.Sqrt(6))
}

// prepare fills in the running sums and the flat samples.
func (s *strip) prepare() {
	n := len(s.v)
	s.sum, s.sum2 = make([]float64, n+1), make([]float64, n+1)
	for i, v := range s.v {
		s.sum[i+1] = s.sum[i] + v
		s.sum2[i+1] = s.sum2[i] + v*v
	}
	s.wide = max(2, s.count(flatHalf))
	s.flat = make([]bool, n)
	limit := 2.5*s.sigma + 0.06*degree
	for i := range s.flat {
		lo, hi := s.window(i, s.wide)
		m := float64(hi - lo)
		mean := (s.sum[hi] - s.sum[lo]) / m
		s.flat[i] = (s.sum2[hi]-s.sum2[lo])/m-mean*mean < limit*limit
	}
}

// window is the samples around i, as many to both sides, inside the strip.
func (s *strip) window(i, wide int) (lo, hi int) {
	return max(0, i-wide), min(len(s.v), i+wide+1)
}

// mean is the mean of v over samples lo to before hi.
func (s *strip) mean(lo, hi int) float64 { return (s.sum[hi] - s.sum[lo]) / float64(hi-lo) }

// count is how many samples a time covers, at least one; no more than cover it
// at 1000 samples a second are looked at.
func (s *strip) count(seconds float64) int {
	return int(math.Max(1, math.Round(seconds/math.Max(s.step, 1e-3))))
}

// fromAngles makes v the slope of recorded angles, by lines through the samples
// of 0.1 s to either side.
func (s *strip) fromAngles(angle []float64) {
	n := len(s.t)
	a := make([]float64, n)
	for i, row := range s.row {
		a[i] = angle[row]
		if i > 0 { // a heading leaps at its full turn
			a[i] -= 2 * math.Pi * math.Round((a[i]-a[i-1])/(2*math.Pi))
		}
	}
	s.tape = true
	wide := s.count(0.1)
	for i := range a {
		lo, hi := max(0, i-wide), min(n, i+wide+1)
		s.v[i] = slope(s.t[lo:hi], a[lo:hi])
	}
	k := float64(2*wide + 1)
	lever := k * (k*k - 1) / 12 * s.step * s.step
	one := math.Max(noise(a), quantum(a)/math.Sqrt(12))
	s.sigma = one / math.Sqrt(lever)
	s.angle = one / math.Sqrt(k)
}

// slope is that of the line through points, by least squares.
func slope(t, y []float64) float64 {
	var mt, my, tt, ty float64
	for i := range t {
		mt += t[i]
		my += y[i]
	}
	n := float64(len(t))
	mt, my = mt/n, my/n
	for i := range t {
		d := t[i] - mt
		tt += d * d
		ty += d * (y[i] - my)
	}
	if tt == 0 {
		return 0
	}
	return ty / tt
}

func secondsText(s float64) string { return fmt.Sprintf("%.1f s", s) }
