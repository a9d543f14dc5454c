package tune

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"swingwright/internal/lsq"
	"swingwright/quantity"
)

// Identify fits the swing model to a record. What was known before counts like an
// observation. Stretches that the model cannot follow, as where a hand touched the leaf,
// are left out and told. It fails where Known.Check or Record.Check does, where nothing
// was measured that shows a valve or a force, and where no model closes as was seen.
func Identify(k *Known, r *Record) (*Fit, error) { return identify(k, r, nil) }

// identify is Identify; see, if given, is shown what is worked with.
func identify(k *Known, r *Record, see func(*work)) (*Fit, error) {
	if err := errors.Join(k.Check(), r.Check()); err != nil {
		return nil, err
	}
	if len(r.Curves)+len(r.Laps)+len(r.Gauges) == 0 {
		return nil, errors.New("nothing was measured: record a closing, time one or gauge a force")
	}
	w := newWork(k, r)
	p := w.layout.starts()
	if err := w.begin(p); err != nil {
		return nil, err
	}
	left, notes := w.clean(p)
	p = w.starts(p)
	result, err := w.solve(p)
	if err != nil {
		return nil, err
	}
	for range mostWeighings {
		if !w.reweigh(result) {
			break
		}
		if result, err = w.solve(result.At); err != nil {
			return nil, err
		}
	}
	if result.End == lsq.TooMany {
		notes = append(notes, "the search was still on its way when it was ended: take the values with care")
	}
	if see != nil {
		see(w)
	}
	f := w.fit(result, left, notes)
	return f, w.widen(f, result)
}

// widen adds to what was found the uncertainty of the curves' scale: by how much the fit
// moves where all of them are larger by one of its spreads. That comes to one parameter
// more that nothing is seen of, to first order.
func (w *work) widen(f *Fit, found *lsq.Result) error {
	type let struct {
		run int
		by  float64
	}
	runs := make(map[let]int) // of leaves let go from farther open
	for _, c := range w.curves {
		by := 1 + float64(c.curve.Scale)
		if by == 1 {
			continue
		}
		for i := range c.theta {
			c.theta[i] *= by
		}
		from := let{c.run, by}
		if _, ok := runs[from]; !ok {
			r := *w.runs[c.run]
			r.from, r.marks, r.memo = r.from*by, nil, [2]memo{}
			runs[from] = len(w.runs)
			w.runs = append(w.runs, &r)
		}
		c.run = runs[from]
		c.from = w.runs[c.run].from
	}
	if len(runs) == 0 {
		return nil
	}
	moved, err := w.solve(found.At)
	if err != nil {
		return fmt.Errorf("with the recordings larger by the uncertainty of their scale: %w", err)
	}
	n := w.layout.resistances()
	off := make([]float64, n)
	for i := range off {
		if off[i] = moved.At[i] - found.At[i]; f.Quantities[i].Log {
			off[i] = math.Log(moved.At[i] / found.At[i])
		}
	}
	for i := range n {
		for j := range n {
			f.Covariance[i*n+j] += off[i] * off[j]
		}
		f.Quantities[i].U = math.Sqrt(f.Covariance[i*n+i])
	}
	f.Sweep, f.Latch = f.valve(0), f.valve(1)
	return nil
}

// clean finds what of the curves has to be left out.
func (w *work) clean(p []float64) (left []Stretch, notes []string) {
	defer func() {
		for k, c := range w.curves {
			if len(c.pieces) == 0 {
				notes = append(notes, fmt.Sprintf("curve %d is of no use: nothing of it is a closing that the model could follow", k+1))
			}
		}
	}()
	bins := w.bins()
	if len(bins) == 0 {
		return nil, nil
	}
	off, ok := w.pace(bins, p)
	if !ok {
		return nil, []string{"the model does not close as far as the leaf did: look at spring, friction and arm"}
	}
	left, ok = w.touches(bins, off)
	if !ok {
		notes = append(notes, "the model follows no greater part of these curves well: look at the arm, the latch zone and a delay")
	}
	return left, notes
}

// starts adds the begins of pieces to the parameters: the model's passing of where the
// piece begins to fall, against the curve's.
func (w *work) starts(p []float64) []float64 {
	l := w.layout
	for k, c := range w.curves {
		m := w.follow(w.runs[c.run], p)
		for i, piece := range c.pieces {
			middle := (c.theta[piece.first] + c.theta[piece.end-1]) / 2
			at := piece.first
			for at < piece.end-1 && c.theta[at] > middle {
				at++
			}
			begin := c.t[at] - m.passed(c.theta[at])
			if math.IsNaN(begin) {
				begin = c.t[piece.first]
			}
			p = append(p, begin)
			l.params = append(l.params, param{
				Param: lsq.Param{Name: fmt.Sprintf("%s of curve %d", whatNames[begins], k+1), Start: begin, Step: 2e-3},
				what:  begins, index: i, u: math.Inf(1),
			})
		}
	}
	return p
}

// Misfits of one curve that lie together count less than as many that do not.
const (
	together      = 0.05 // correlation below which they count as apart
	rescale       = 1.1  // a factor not worth fitting again for
	mostWeighings = 3
)

// reweigh raises the spread of every curve's samples to what its misfits show: their size,
// and how long they keep together, since n samples of which each goes with the next τ ones
// tell as much as n/τ that do not (Priestley, Spectral Analysis and Time Series, 1981,
// 5.3.2). It reports whether any changed.
func (w *work) reweigh(r *lsq.Result) bool {
	n, changed := 0, false
	for _, c := range w.curves {
		first := n
		for _, p := range c.pieces {
			n += p.end - p.first
		}
		e := r.Residuals[first:n]
		if c.shuts() {
			n++
		}
		if len(e) < shortest {
			continue
		}
		size := make([]float64, len(e))
		for i := range e {
			size[i] = math.Abs(e[i])
		}
		tau := persistence(e)
		// what keeps together is fitted away the more, the fewer independent parts there
		// are
		parts, fitted := float64(len(e))/tau, float64(w.layout.resistances())/float64(len(w.curves))
		free := max(parts-fitted, parts/2)
		scale := max(1, 1.4826*median(size)*c.scale) * math.Sqrt(tau*parts/free)
		scale = max(scale, c.wanders(e))
		if scale > c.scale*rescale || scale < c.scale/rescale {
			c.scale = scale
			changed = true
		}
	}
	return changed
}

// wanderShare is the share of what wanders over a closing, as a variance, that counts for
// every average of samples: what is fitted takes up most of it. Of a wander 1/3 is there in
// all, 1/12 once a mean and about 1/60 once a line is taken off; chosen on simulated
// recordings with half a dozen quantities fitted.
const wanderShare = 1.0 / 120

// wanders is by what the spread of the samples has to be raised for an angle that wanders
// off as a sum of noise does, since what is fitted follows a slow wander and leaves little
// of it to see. Its pace shows in how differences of misfits grow with the time between
// them, as 2σ² + w²·t, over times that are short beside the closing.
func (c *closing) wanders(e []float64) float64 {
	var t, off []float64
	n := 0
	for _, p := range c.pieces {
		for i := p.first; i < p.end; i++ {
			t, off = append(t, c.t[i]), append(off, e[n]*c.scale) // in spreads of an average
			n++
		}
	}
	if n < 10*shortest {
		return 1
	}
	var sx, sy, sxx, sxy, m float64
	for lag := 1; lag <= n/10; lag++ {
		var d []float64
		for i := lag; i < n; i++ {
			d = append(d, math.Abs(off[i]-off[i-lag]))
		}
		x := (t[n-1] - t[0]) * float64(lag) / float64(n)
		y := math.Pow(1.4826*median(d), 2)
		sx, sy, sxx, sxy, m = sx+x, sy+y, sxx+x*x, sxy+x*y, m+1
	}
	pace := (m*sxy - sx*sy) / (m*sxx - sx*sx) // w² in spreads squared a second
	if !(pace > 0) {
		return 1
	}
	return math.Sqrt(1 + float64(n)*pace*(t[n-1]-t[0])*wanderShare)
}

// persistence is τ = 1 + 2Σρ, with ρ the correlations of misfits with later ones up to the
// first that is small; at least 1, at most a tenth of their number.
func persistence(e []float64) float64 {
	const bound = 4 // outliers count as being here
	x := slices.Clone(e)
	total := 0.0
	for i := range x {
		x[i] = clamp(x[i], -bound, bound)
		total += x[i] * x[i]
	}
	if total == 0 {
		return 1
	}
	tau := 1.0
	for lag := 1; lag < len(x)/10; lag++ {
		sum := 0.0
		for i := lag; i < len(x); i++ {
			sum += x[i] * x[i-lag]
		}
		if sum < together*total {
			break
		}
		tau += 2 * sum / total
	}
	return clamp(tau, 1, float64(len(x))/10)
}

// turnsOf are the valve's positions.
func (l *layout) turnsOf(valve int) []quantity.Turns {
	if valve == 0 {
		return l.sweeps
	}
	return l.latches
}
