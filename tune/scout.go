package tune

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"swingwright/judge"
	"swingwright/quantity"
	"swingwright/swing"
	"swingwright/window"
)

// A scout reckons with a fit.
type scout struct {
	known   *Known
	fit     *Fit
	demands []window.Demand
	policy  judge.Policy
	valves  [2]Valve
	now     State
	anchor  [2]Resistance // of each valve, where it is known best
	column  [2]int        // of the anchors among the quantities
	axes    [][]float64   // steps of one spread each that act independently, of all the fit's parameters
	finder  window.Finder
	mover   swing.Mover
}

// prepare finds the anchors and the axes.
func (s *scout) prepare() {
	f := s.fit
	for which, all := range [2][]Resistance{f.Sweep, f.Latch} {
		at := [2]quantity.Turns{s.now.Sweep, s.now.Latch}[which]
		best := 0
		for i, r := range all {
			// a position nobody closed the leaf at is known from before only
			far, farBest := r.Turns != at, all[best].Turns != at
			if worse := all[best].U > 0.5; r.U <= 0.5 && (worse || farBest && (!far || r.U < all[best].U)) {
				best = i
			}
		}
		s.anchor[which], s.column[which] = all[best], f.first(which)+best
	}
	s.axes = f.axes(s.column)
}

// axes splits the covariance of the shared quantities and two resistances into steps that
// act independently (its Cholesky factor, by columns).
func (f *Fit) axes(column [2]int) [][]float64 {
	var of []int
	for i := range f.layout.firstSweep {
		of = append(of, i)
	}
	of = append(of, column[0], column[1])
	n, all := len(of), f.ofRuns
	c := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			c.SetSym(i, j, f.Covariance[of[i]*all+of[j]])
		}
		c.SetSym(i, i, c.At(i, i)*(1+1e-9))
	}
	var chol mat.Cholesky
	if !chol.Factorize(c) {
		return nil
	}
	var l mat.TriDense
	chol.LTo(&l)
	axes := make([][]float64, n)
	for k := range n {
		axes[k] = make([]float64, len(f.at))
		for i := k; i < n; i++ {
			axes[k][of[i]] = l.At(i, k)
		}
	}
	return axes
}

// moved is the fit's parameters a step away, and how much of the step that is: where it
// would lead beyond a bound the whole of it is cut short there, since its parts go
// together.
func (f *Fit) moved(step []float64, by float64) (p []float64, part float64) {
	part = 1
	for i, at := range f.at {
		q, d := &f.layout.params[i], by*step[i]
		if d == 0 || !(q.Low < q.High) {
			continue
		}
		room := q.High - at
		if d < 0 {
			room = at - q.Low
		}
		if q.Log {
			room = math.Log(q.High / at)
			if d < 0 {
				room = math.Log(at / q.Low)
			}
		}
		if math.Abs(d) > slightStep {
			part = min(part, max(room, 0)/math.Abs(d))
		}
	}
	p = make([]float64, len(f.at))
	for i := range p {
		q := &f.layout.params[i]
		if q.Log {
			p[i] = f.at[i] * math.Exp(part*by*step[i])
		} else {
			p[i] = f.at[i] + part*by*step[i]
		}
		if q.Low < q.High {
			p[i] = clamp(p[i], q.Low, q.High)
		}
	}
	return p, part
}

// slightStep is a part of a step that no bound cuts short.
const slightStep = 1e-3

// effectOf fills in what values change by along an axis, per spread: half the difference
// of a spread either way, or what of it the bounds leave.
func (s *scout) effectOf(axis []float64, values func(p []float64) ([]float64, error), tell func(i int, by float64)) {
	up, more := s.fit.moved(axis, 1)
	down, less := s.fit.moved(axis, -1)
	if !(more+less > 1e-3) {
		return
	}
	above, err1 := values(up)
	below, err2 := values(down)
	if err1 != nil || err2 != nil {
		return
	}
	for i := range above {
		if by := (above[i] - below[i]) / (more + less); !math.IsNaN(by) {
			tell(i, by)
		}
	}
}

// ratios are the factors from the anchors to a state, and their spreads.
func (s *scout) ratios(to State) (ratio, spread [2]float64) {
	for i, u := range [2]quantity.Turns{to.Sweep, to.Latch} {
		r, share := s.valves[i].Ratio(s.anchor[i].Turns, u)
		ratio[i], spread[i] = float64(r), float64(share)
	}
	return ratio, spread
}
