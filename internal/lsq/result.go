package lsq

import "math"

// A Result is what a search found.
type Result struct {
	End    End
	Params []Param
	At     []float64 // the parameters, in their own units
	Cost   float64   // half the sum of squares, or of what the loss makes of them
	// Residuals are those at the result, and Weights, 0 to 1, how the loss let them count.
	Residuals, Weights []float64
	// Bound tells which parameters came to lie on a bound. Their spreads are those that
	// they would have without it.
	Bound       []bool
	Steps       int
	Evaluations int // of the residuals

	observed int
	m        int
	whole    []float64 // triangle of all weighted derivatives
	seen     []float64 // triangle of those of the observations alone
}

// result gathers what was found.
func (s *search) result(end End, steps int) *Result {
	r := &Result{
		End: end, Params: s.p.Params, At: make([]float64, s.m), Cost: s.cost, Residuals: s.r,
		Weights: make([]float64, s.n), Bound: make([]bool, s.m), Steps: steps, Evaluations: s.evals,
		observed: s.p.Observed, m: s.m,
	}
	for k := range s.m {
		low, high := s.p.Params[k].box()
		r.At[k] = s.p.Params[k].outer(s.x[k])
		r.Bound[k] = s.x[k] <= low || s.x[k] >= high
	}
	for i := range r.Weights {
		r.Weights[i] = s.weight(i, s.r[i])
	}
	r.whole = s.triangleOf(r.Weights, s.n)
	r.seen = s.triangleOf(r.Weights, s.p.Observed)
	return r
}

// triangleOf is the triangle of the weighted derivatives of the first rows.
func (s *search) triangleOf(weights []float64, rows int) []float64 {
	n := max(rows, s.m)
	a := make([]float64, n*s.m)
	for i := range rows {
		w := math.Sqrt(weights[i])
		for k := range s.m {
			a[i*s.m+k] = w * s.j[i*s.m+k]
		}
	}
	triangle(a, n, s.m, nil)
	return a[:s.m*s.m]
}

// Freedom is the number of degrees of freedom: residuals, priors among them, counted by
// their weight, less parameters.
func (r *Result) Freedom() float64 {
	sum := -float64(r.m)
	for _, w := range r.Weights {
		sum += w
	}
	return sum
}

// Variance is s², the weighted sum of squares over Freedom: about 1 where the residuals'
// standard uncertainties were right. NaN without freedom.
func (r *Result) Variance() float64 {
	if r.Freedom() <= 0 {
		return math.NaN()
	}
	sum := 0.0
	for i, v := range r.Residuals {
		sum += r.Weights[i] * v * v
	}
	return sum / r.Freedom()
}

// Covariance is (JᵀJ)⁻¹, by rows: the covariances of the parameters where the residuals'
// standard uncertainties are right, and where they are right but for a common factor,
// Variance times them (Seber, Wild, Nonlinear Regression, 1989, 2.1.2). Those of a Log
// parameter are its logarithm's. All are infinite where the residuals do not determine
// every parameter; Weak tells which.
func (r *Result) Covariance() []float64 {
	m := r.m
	inverse := make([]float64, m*m) // of the triangle, by columns
	c := make([]float64, m*m)
	unit := make([]float64, m)
	for k := range m {
		if math.Abs(r.whole[k*m+k]) <= singular*r.columnLength(k) {
			for i := range c {
				c[i] = math.Inf(1)
			}
			return c
		}
	}
	for k := range m {
		clear(unit)
		unit[k] = 1
		back(r.whole, m, unit, inverse[k*m:(k+1)*m])
	}
	for i := range m {
		for j := range m {
			sum := 0.0
			for k := max(i, j); k < m; k++ {
				sum += inverse[k*m+i] * inverse[k*m+j]
			}
			c[i*m+j] = sum
		}
	}
	return c
}

// singular is the share of a column's length below which what the other columns leave of
// it is rounding.
const singular = 1e-13

func (r *Result) columnLength(k int) float64 {
	norm := 0.0
	for i := range r.m {
		norm = math.Hypot(norm, r.whole[i*r.m+k])
	}
	return norm
}
