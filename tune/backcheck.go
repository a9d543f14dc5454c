package tune

import (
	"errors"
	"math"

	"swingwright/quantity"
)

var errNoBackcheck = errors.New("no angle shows beyond which the leaf slows: push it open again, briskly and without letting up, to well past where backcheck begins")

// Of looking for the onset of backcheck, assumed.
const (
	pushFrom   = 15 * degree // before, the push is still under way
	pushBefore = 3 * degree  // of the largest angle: the leaf comes to its stop
	pushBin    = 2 * degree
	clearBreak = 12.0 // how many times a break has to explain what chance would (F)
	// A valve takes over within some degrees; the leaf is felt to slow where that begins,
	// and the onset counts in the middle.
	handOver, handOverU = 3 * degree, 1.5 * degree
)

// BackcheckOnset finds where backcheck begins, from a curve of the leaf pushed open by
// hand, of whatever strength: the rate as a straight line over the angle, broken where it
// begins to fall more steeply. The standard uncertainty comes from how the misfit grows
// about the best angle, and from the few degrees over which a valve takes over. It fails
// where no break shows.
func BackcheckOnset(c *Curve) (at, u quantity.Angle, err error) {
	if err := c.check(); err != nil {
		return 0, 0, err
	}
	theta, rate := c.rates()
	if len(theta) < 10 {
		return 0, 0, errNoBackcheck
	}
	best, plain := math.Inf(1), broken(theta, rate, math.Inf(1))
	from, to := theta[2], theta[len(theta)-3]
	var misfit []float64
	for b := from; b <= to; b += degree / 4 {
		s := broken(theta, rate, b)
		misfit = append(misfit, s)
		if s < best {
			best, at = s, quantity.Angle(b)
		}
	}
	free := float64(len(theta) - 4)
	if !(plain-best > clearBreak*best/free) || !slowsBeyond(theta, rate, float64(at)) {
		return 0, 0, errNoBackcheck
	}
	low, high := math.Inf(1), math.Inf(-1)
	for i, s := range misfit {
		if s <= best*(1+1/free) {
			b := from + float64(i)*degree/4
			low, high = min(low, b), max(high, b)
		}
	}
	own := max((high-low)/2, pushBin/math.Sqrt(12))
	return at + quantity.Angle(handOver), quantity.Angle(math.Hypot(own, handOverU)), nil
}

// rates are the leaf's rate over ways of two degrees, while it opens.
func (c *Curve) rates() (theta, rate []float64) {
	t, angle := c.good()
	top := 0
	for i := range angle {
		if angle[i] > angle[top] {
			top = i
		}
	}
	for from := pushFrom; from+pushBin < angle[top]-pushBefore; from += pushBin {
		t0, t1 := rises(t[:top+1], angle, from), rises(t[:top+1], angle, from+pushBin)
		if t1 > t0 {
			theta, rate = append(theta, from+pushBin/2), append(rate, pushBin/(t1-t0))
		}
	}
	return theta, rate
}

// rises is when an angle is first passed upward; NaN if never.
func rises(t, angle []float64, at float64) float64 {
	for i := 1; i < len(t); i++ {
		if angle[i] >= at && angle[i-1] < at {
			return t[i-1] + (t[i]-t[i-1])*(at-angle[i-1])/(angle[i]-angle[i-1])
		}
	}
	return math.NaN()
}

// broken is the sum of squares that a line broken at b leaves of rates.
func broken(theta, rate []float64, b float64) float64 {
	columns := 3
	if math.IsInf(b, 1) {
		columns = 2
	}
	var a [3][4]float64 // normal equations with their right side
	row := func(i int) [3]float64 { return [3]float64{1, theta[i] - theta[0], max(theta[i]-b, 0)} }
	for i := range theta {
		x := row(i)
		for j := range columns {
			for k := range columns {
				a[j][k] += x[j] * x[k]
			}
			a[j][3] += x[j] * rate[i]
		}
	}
	p := solved(a, columns)
	sum := 0.0
	for i := range theta {
		x := row(i)
		off := rate[i] - p[0]*x[0] - p[1]*x[1] - p[2]*x[2]
		sum += off * off
	}
	return sum
}

// solved solves small normal equations by elimination; what is not determined is zero.
func solved(a [3][4]float64, n int) (x [3]float64) {
	for k := range n {
		for i := k + 1; i < n; i++ {
			if a[k][k] == 0 {
				continue
			}
			f := a[i][k] / a[k][k]
			for j := k; j < 4; j++ {
				a[i][j] -= f * a[k][j]
			}
		}
	}
	for i := n - 1; i >= 0; i-- {
		if math.Abs(a[i][i]) < 1e-12 {
			continue
		}
		x[i] = a[i][3]
		for j := i + 1; j < n; j++ {
			x[i] -= a[i][j] * x[j]
		}
		x[i] /= a[i][i]
	}
	return x
}

// slowsBeyond tells that the leaf loses at least a tenth of its rate beyond an angle.
func slowsBeyond(theta, rate []float64, at float64) bool {
	before := 0.0
	for i := range theta {
		if theta[i] <= at {
			before = rate[i]
		}
	}
	return rate[len(rate)-1] < 0.9*before
}
