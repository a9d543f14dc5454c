package tune

import (
	"math"
	"slices"

	"swingwright/internal/lsq"
	"swingwright/quantity"
	"swingwright/swing"
)

// work is an identification under way.
type work struct {
	known   *Known
	record  *Record
	layout  *layout
	runs    []*run
	curves  []*closing
	laps    []int // run of each lap
	gauges  []int
	latched []int
	mover   swing.Mover
	key     []float64
}

// Uncertainty of the moment that decides over latching, N·m; assumed: how bolt and seals
// share the last degree is a simplification.
const latchSpread = 0.7

func newWork(k *Known, r *Record) *work {
	w := &work{known: k, record: r, layout: newLayout(k, r), mover: swing.Mover{Fine: true}}
	// laps first: a run let go at a curve's own angle, a little lower, would not pass the
	// mark at which a lap begins
	for i := range r.Laps {
		l := &r.Laps[i]
		at := w.runOf(l.State, oilOf(l.Oil), float64(l.release()), false)
		w.runs[at].marks = swing.WithMark(swing.WithMark(w.runs[at].marks, l.From), l.To)
		w.laps = append(w.laps, at)
	}
	for i := range r.Curves {
		c := newClosing(&r.Curves[i])
		c.run = w.runOf(r.Curves[i].State, oilOf(r.Curves[i].Oil), c.from, false)
		c.from = w.runs[c.run].from
		w.curves = append(w.curves, c)
	}
	for i := range r.Gauges {
		w.gauges = append(w.gauges, w.runOf(r.Gauges[i].State, 1, 0, true))
	}
	for i := range r.Latchings {
		w.latched = append(w.latched, w.runOf(r.Latchings[i].State, 1, 0, true))
	}
	return w
}

// runOf finds the run of a state, or adds it. Forces do not hang on the valves.
func (w *work) runOf(s State, oil, from float64, still bool) int {
	r := &run{power: s.Power, oil: oil, from: from, still: still}
	if !still {
		r.sweep, _ = slices.BinarySearch(w.layout.sweeps, s.Sweep)
		r.latch, _ = slices.BinarySearch(w.layout.latches, s.Latch)
	}
	for i, other := range w.runs {
		if other.same(r) {
			return i
		}
	}
	w.runs = append(w.runs, r)
	return len(w.runs) - 1
}

// observed counts the residuals of observations.
func (w *work) observed() int {
	n := len(w.laps) + len(w.gauges) + len(w.latched)
	for _, c := range w.curves {
		for _, p := range c.pieces {
			n += p.end - p.first
		}
		if c.shuts() {
			n++
		}
	}
	return n
}

// residuals fills in the misfits: of curves, laps, forces, latchings, then of what was
// known before.
func (w *work) residuals(p, r []float64) bool {
	n, begin := 0, w.layout.resistances()
	for _, c := range w.curves {
		m := w.follow(w.runs[c.run], p)
		if !m.made || m.end.End == swing.Unfinished {
			return false
		}
		for _, piece := range c.pieces {
			read := reader{memo: m, from: c.from}
			for i := piece.first; i < piece.end; i++ {
				r[n] = (read.angle(c.t[i]-p[begin]) - c.theta[i]) / (c.u[i] * c.scale)
				n++
			}
			begin++
		}
		if c.shuts() {
			at := m.passed(shutAt)
			if math.IsNaN(at) {
				return false
			}
			r[n] = (at + p[begin-1] - c.shut) / c.shutU
			n++
		}
	}
	for i := range w.record.Laps {
		l := &w.record.Laps[i]
		m := w.follow(w.runs[w.laps[i]], p)
		took := float64(swing.PassedAt(m.marks, l.To) - swing.PassedAt(m.marks, l.From))
		if !m.made || math.IsNaN(took) {
			return false
		}
		r[n] = (took - float64(l.Time)) / float64(l.U)
		n++
	}
	for i := range w.record.Gauges {
		g := &w.record.Gauges[i]
		m := w.follow(w.runs[w.gauges[i]], p)
		if !m.made {
			return false
		}
		r[n] = (float64(swing.HandForce(gauged(&m.model, g), g.At)) - float64(g.Force)) / float64(g.U)
		n++
	}
	for i := range w.record.Latchings {
		m := w.follow(w.runs[w.latched[i]], p)
		if !m.made {
			return false
		}
		// only a moment on the wrong side is a misfit
		margin := float64(m.model.BudgetAt(0).Margin()) / latchSpread
		if w.record.Latchings[i].Latched {
			margin = min(margin, 0)
		} else {
			margin = max(margin, 0)
		}
		r[n] = margin
		n++
	}
	for i := range w.layout.resistances() {
		r[n] = w.layout.params[i].prior(p[i])
		n++
	}
	return true
}

// gauged is the moment of a gauge reading by the model.
func gauged(m *swing.Model, g *Gauge) quantity.Torque {
	open := m.HandMoment(g.Angle)
	if g.Way == Opening {
		return open
	}
	v := m.Values()
	// friction, which had to be overcome, helps to hold
	shut := open - 2*quantity.Torque(v[swing.HingeFriction]) - (m.OpeningMoment(g.Angle) - m.ClosingMoment(g.Angle))
	if a := float64(g.Angle); m.Linkage().Latch && a > v[swing.BoltClears] && a <= v[swing.BoltMeets] {
		shut -= quantity.Torque(v[swing.BoltForce] * v[swing.BoltRadius])
	}
	return shut
}

// Of the search for what a closer is like: its cost is good to what the integrator's steps
// leave of it.
const (
	settled  = 5e-3
	mostFits = 40
)

// solve fits all parameters from p.
func (w *work) solve(p []float64) (*lsq.Result, error) {
	problem := lsq.Problem{
		Observed: w.observed(), Priors: w.layout.resistances(), Residuals: w.residuals,
		Loss: lsq.Loss{Kind: lsq.Huber, K: huber}, Tolerance: settled, Most: mostFits, Costly: true,
	}
	for i := range w.layout.params {
		q := w.layout.params[i].Param
		q.Start = p[i]
		problem.Params = append(problem.Params, q)
	}
	return lsq.Solve(&problem)
}

// huber is the residual beyond which an observation pulls no harder: a little more than
// usual, so that good recordings keep nearly all of their worth.
const huber = 2.0
