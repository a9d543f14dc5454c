package tune

import (
	"math"
	"slices"

	"swingwright/internal/lsq"
)

// A bin is a short way of the leaf and the time that it took. A hand that holds the leaf
// for a while makes one bin slow and leaves the others as they are, where it makes
// everything late that comes after it on the curve.
type bin struct {
	curve    int
	from, to float64 // rad
	t0, t1   float64 // s, when they were passed
	u        float64 // spread of the logarithm of the time
}

// Bins, assumed: wide enough that noise leaves their times good, and short enough that a
// touch fills one.
const (
	sweepBin = 4 * degree
	latchBin = 2 * degree
	narrow   = 16 * degree // below, bins are those of the latch
	paceU    = 0.04        // spread of a bin's time for what the model does not follow
	startWay = 6 * degree  // from where the leaf was let go to the first bin
)

func (w *work) bins() (all []bin) {
	for k, c := range w.curves {
		end := max(c.rests()+degree, degree)
		from := c.from - startWay
		t0 := c.passes(from)
		for from > end {
			width := sweepBin
			if from <= narrow {
				width = latchBin
			}
			to := max(from-width, end)
			t1 := c.passes(to)
			if t1 > t0 && from-to > degree/2 {
				// crossings are read off averages of a stretch
				u := math.Hypot(paceU, math.Sqrt2*c.u[0]/(from-to))
				all = append(all, bin{k, from, to, t0, t1, u})
			}
			from, t0 = to, t1
		}
	}
	return all
}

// paces are the logarithms of the times that bins took over those of the model.
func (w *work) paces(bins []bin, p, out []float64) bool {
	for i := range bins {
		b := &bins[i]
		m := w.follow(w.runs[w.curves[b.curve].run], p)
		took := m.passed(b.to) - m.passed(b.from)
		if !m.made || !(took > 0) {
			return false
		}
		out[i] = math.Log((b.t1 - b.t0) / took)
	}
	return true
}

// pace fits resistances and latch zone to the times of the bins, with a loss that lets a
// touched bin go, and returns how far every bin is off.
func (w *work) pace(bins []bin, p []float64) ([]float64, bool) {
	l := w.layout
	var active []int
	if i := l.of[zone]; i >= 0 {
		active = append(active, i)
	}
	for i := l.firstSweep; i < l.resistances(); i++ {
		active = append(active, i)
	}
	full := slices.Clone(p)
	problem := lsq.Problem{
		Observed: len(bins), Priors: len(active), Loss: lsq.Loss{Kind: lsq.Huber}, Tolerance: 1e-4, Most: 10,
		Residuals: func(q, r []float64) bool {
			for k, i := range active {
				full[i] = q[k]
				r[len(bins)+k] = l.params[i].prior(q[k])
			}
			if !w.paces(bins, full, r) {
				return false
			}
			for i := range bins {
				r[i] /= bins[i].u
			}
			return true
		},
	}
	for _, i := range active {
		q := l.params[i].Param
		q.Start = p[i]
		problem.Params = append(problem.Params, q)
	}
	result, err := lsq.Solve(&problem)
	if err != nil {
		return nil, false
	}
	for k, i := range active {
		p[i] = result.At[k]
	}
	off := make([]float64, len(bins))
	return off, w.paces(bins, p, off)
}
