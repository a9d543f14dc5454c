package tune

import (
	"math"
	"slices"

	"swingwright/internal/ode"
	"swingwright/quantity"
	"swingwright/swing"
)

// A run is one closing of the model that several observations ask for: one state, oil and
// angle of release.
type run struct {
	power        quantity.Ratio
	sweep, latch int // which of the layout's valve positions
	oil          float64
	from         float64 // rad
	still        bool    // only forces are asked for
	marks        []swing.Mark
	memo         [2]memo // of the last two sets of quantities: a derivative changes one at a time
	next         int
}

// memo is what came of one set of quantities.
type memo struct {
	key      []float64
	made     bool // the arm goes together
	model    swing.Model
	segments []ode.Segment
	end      swing.Motion
	marks    []swing.Mark
}

// alike is how near two angles of release are for one run to serve both: a curve's
// begin takes up what is left.
const alike = 0.2 * degree

// same tells that two runs are one.
func (r *run) same(s *run) bool {
	return r.power == s.power && r.sweep == s.sweep && r.latch == s.latch && r.oil == s.oil && r.still == s.still &&
		(r.still || math.Abs(r.from-s.from) < alike)
}

// follow gives the run for parameters, remembered if it was just followed.
func (w *work) follow(r *run, p []float64) *memo {
	w.key = w.layout.keyed(w.key[:0], p, r)
	for i := range r.memo {
		if r.memo[i].key != nil && slices.Equal(r.memo[i].key, w.key) {
			r.next = 1 - i
			return &r.memo[i]
		}
	}
	m := &r.memo[r.next]
	r.next = 1 - r.next
	m.key = append(m.key[:0], w.key...)
	var v swing.Values
	w.layout.values(p, r.power, r.sweep, r.latch, r.oil, &v)
	var err error
	m.model, err = swing.New(&v, w.known.Link)
	m.made = err == nil
	if !m.made || r.still {
		return m
	}
	m.segments = m.segments[:0]
	m.marks = append(m.marks[:0], r.marks...)
	w.mover.Watch = func(s *ode.Segment) { m.segments = append(m.segments, *s) }
	m.end = w.mover.Close(&m.model, quantity.Angle(r.from), m.marks)
	w.mover.Watch = nil
	return m
}

// A reader reads the leaf's angle off a run at rising times.
type reader struct {
	memo *memo
	from float64
	at   int
}

// angle is the leaf's angle, rad, t seconds after it was let go.
func (r *reader) angle(t float64) float64 {
	s := r.memo.segments
	if t <= 0 || len(s) == 0 {
		return r.from
	}
	for r.at < len(s) && s[r.at].T1 < t {
		r.at++
	}
	if r.at == len(s) {
		return float64(r.memo.end.Angle)
	}
	return s[r.at].At(t).Angle
}

// passed is when the run's leaf passes an angle, s from its release; NaN if it never does.
func (m *memo) passed(theta float64) float64 {
	for i := range m.segments {
		s := &m.segments[i]
		if s.To.Angle <= theta && s.From.Angle > theta {
			if at, ok := s.AngleCrosses(theta, ode.Falling); ok {
				return at
			}
			return s.T1
		}
	}
	return math.NaN()
}
