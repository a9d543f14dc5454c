package trace

import (
	"math"
	"slices"
)

// quantum is the step to which values are rounded, in their own unit; 0 where
// they are not, or more finely than there are values. It is the least difference
// between values that are told apart, as long as all differences are whole
// multiples of it.
func quantum(values []float64) float64 {
	stride := max(1, len(values)/600)
	some := make([]float64, 0, 1201)
	for i := 0; i+1 < len(values); i += stride {
		some = append(some, values[i], values[i+1])
	}
	slices.Sort(some)
	least, top := math.Inf(1), 0.0
	for i := 1; i < len(some); i++ {
		top = math.Max(top, math.Abs(some[i]))
		if d := some[i] - some[i-1]; d > 1e-9*(1+top) {
			least = math.Min(least, d)
		}
	}
	if math.IsInf(least, 1) {
		return 0
	}
	for i := 1; i < len(some); i++ {
		if m := (some[i] - some[i-1]) / least; math.Abs(m-math.Round(m)) > 0.05 && m < 2000 {
			return 0
		}
	}
	return least
}

// stampStep is the power of ten of a second to which stamps are rounded, at least
// a tenth of a millisecond; 0 where they are finer, or where all steps are equal
// so that rounding does not show.
func stampStep(t []float64) float64 {
	stride := max(1, len(t)/300)
	least, most := math.Inf(1), 0.0
	for i := 1; i < len(t); i += stride {
		if d := t[i] - t[i-1]; d > 0 {
			least, most = math.Min(least, d), math.Max(most, d)
		}
	}
	for _, q := range []float64{1, 0.1, 0.01, 1e-3, 1e-4} {
		if most-least < q/2 {
			continue
		}
		whole := true
		for i := 0; i < len(t) && whole; i += stride {
			m := (t[i] - t[0]) / q
			whole = math.Abs(m-math.Round(m)) < 0.01
		}
		if whole {
			return q
		}
	}
	return 0
}

// rounding is the spread that the rounding of the rates leaves in the bias about
// the vertical, rad/s. A rate at rest that is rounded to q, with noise of spread σ
// before, keeps an error of its mean of amplitude q/π·exp(−2π²σ²/q²), whatever
// the number of samples: the first term of the Fourier series of the sawtooth
// that rounding makes, averaged over the noise. Without noise it is evenly
// distributed over ±q/2.
//
// grain is the spread of one sample by rounding while the leaf moves.
func (r *Recording) rounding(up vertical) (bias, grain float64) {
	for k := range r.axes {
		values := r.rate[up.pick[k]]
		q := quantum(values)
		if q == 0 {
			continue
		}
		n := restless(values)
		before := math.Max(0, n*n-q*q/12)
		u := math.Min(q/math.Sqrt(12), q/(math.Pi*math.Sqrt2)*math.Exp(-2*math.Pi*math.Pi*before/(q*q)))
		bias = math.Hypot(bias, up.axis[k]*u)
		grain = math.Hypot(grain, up.axis[k]*q/math.Sqrt(12))
	}
	return bias, grain
}

// restless is the spread of values where they change least: among pieces of 50
// samples, that which a fifth stay below. Chance makes it some 5 % too small,
// which is put right.
func restless(values []float64) float64 {
	const piece = 50
	var spreads []float64
	for i := 0; i+piece <= len(values); i += max(piece, len(values)/200) {
		var sum, squares float64
		for _, v := range values[i : i+piece] {
			sum += v - values[i]
			squares += (v - values[i]) * (v - values[i])
		}
		spreads = append(spreads, math.Sqrt(math.Max(0, squares-sum*sum/piece)/(piece-1)))
	}
	if len(spreads) == 0 {
		return 0
	}
	slices.Sort(spreads)
	return 1.05 * spreads[len(spreads)/5]
}
