package lsq

import (
	"math"
	"testing"
)

// A certified is a problem of the NIST Statistical Reference Datasets, Nonlinear
// Regression (itl.nist.gov/div898/strd), typed in from memory: that a fit of these data
// comes to these values to seven digits shows that both are as published.
type certified struct {
	name    string
	model   func(b []float64, x float64) float64
	x, y    []float64
	starts  [2][]float64
	b, sd   []float64
	squares float64
	log     bool // reckon with logarithms of the parameters too
	// far tells that the first start leads astray without logarithms (1), or at all (2):
	// down to a plateau from which no slope leads back.
	far int
}

func steps(from, by float64, n int) (x []float64) {
	for i := range n {
		x = append(x, from+by*float64(i))
	}
	return x
}

var nist = []certified{
	{
		name:    "Misra1a",
		model:   func(b []float64, x float64) float64 { return b[0] * (1 - math.Exp(-b[1]*x)) },
		x:       []float64{77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0},
		y:       []float64{10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78},
		starts:  [2][]float64{{500, 0.0001}, {250, 0.0005}},
		b:       []float64{2.3894212918e+02, 5.5015643181e-04},
		sd:      []float64{2.7070075241e+00, 7.2668688436e-06},
		squares: 1.2455138894e-01, log: true,
	},
	{
		name:    "Rat42",
		model:   func(b []float64, x float64) float64 { return b[0] / (1 + math.Exp(b[1]-b[2]*x)) },
		x:       []float64{9, 14, 21, 28, 42, 57, 63, 70, 79},
		y:       []float64{8.930, 10.800, 18.590, 22.330, 39.350, 56.110, 61.730, 64.620, 67.080},
		starts:  [2][]float64{{100, 1, 0.1}, {75, 2.5, 0.07}},
		b:       []float64{7.2462237576e+01, 2.6180768402e+00, 6.7359200066e-02},
		sd:      []float64{1.7340283401e+00, 8.8295217536e-02, 3.4465663377e-03},
		squares: 8.0565229338e+00, log: true,
	},
	{
		name: "MGH09",
		model: func(b []float64, x float64) float64 {
			return b[0] * (x*x + x*b[1]) / (x*x + x*b[2] + b[3])
		},
		x:       []float64{4, 2, 1, 0.5, 0.25, 0.167, 0.125, 0.1, 0.0833, 0.0714, 0.0625},
		y:       []float64{0.1957, 0.1947, 0.1735, 0.16, 0.0844, 0.0627, 0.0456, 0.0342, 0.0323, 0.0235, 0.0246},
		starts:  [2][]float64{{25, 39, 41.5, 39}, {0.25, 0.39, 0.415, 0.39}},
		b:       []float64{1.9280693458e-01, 1.9128232873e-01, 1.2305650693e-01, 1.3606233068e-01},
		sd:      []float64{1.1435312227e-02, 1.9633220911e-01, 8.0842031232e-02, 9.0025542308e-02},
		squares: 3.0750560385e-04,
	},
	{
		name:    "BoxBOD",
		model:   func(b []float64, x float64) float64 { return b[0] * (1 - math.Exp(-b[1]*x)) },
		x:       []float64{1, 2, 3, 5, 7, 10},
		y:       []float64{109, 149, 149, 191, 213, 224},
		starts:  [2][]float64{{1, 1}, {100, 0.75}},
		b:       []float64{2.1380940889e+02, 5.4723748542e-01},
		sd:      []float64{1.2354515176e+01, 1.0455993237e-01},
		squares: 1.1680088766e+03, log: true, far: 2,
	},
	{
		name:    "MGH10",
		model:   func(b []float64, x float64) float64 { return b[0] * math.Exp(b[1]/(x+b[2])) },
		x:       steps(50, 5, 16),
		y:       []float64{34780, 28610, 23650, 19630, 16370, 13720, 11540, 9744, 8261, 7030, 6005, 5147, 4427, 3820, 3307, 2872},
		starts:  [2][]float64{{2, 400000, 25000}, {0.02, 4000, 250}},
		b:       []float64{5.6096364710e-03, 6.1813463463e+03, 3.4522363462e+02},
		sd:      []float64{1.5687892471e-04, 2.3309021107e+01, 7.8486103508e-01},
		squares: 8.7945855171e+01, log: true, far: 1,
	},
}

func (c *certified) problem(start []float64, log bool) *Problem {
	p := &Problem{Observed: len(c.x), Most: 2000, Residuals: func(b, r []float64) bool {
		for i, x := range c.x {
			r[i] = c.model(b, x) - c.y[i]
		}
		return true
	}}
	for _, b := range start {
		p.Params = append(p.Params, Param{Name: "b", Start: b, Log: log})
	}
	return p
}

// The certified values come out from both published starts, to eight digits the parameters
// and the sum of squares, to five their standard deviations, which hang on derivatives by
// differences; with derivatives that serve for several steps to five.
func TestCertifiedValues(t *testing.T) {
	for i := range nist {
		c := &nist[i]
		for k, start := range c.starts {
			for _, log := range []bool{false, true} {
				if log && !c.log || k == 0 && (c.far == 2 || c.far == 1 && !log) {
					continue
				}
				for _, costly := range []bool{false, true} {
					p := c.problem(start, log)
					p.Costly = costly
					r, err := Solve(p)
					if err != nil {
						t.Fatalf("%s: %v", c.name, err)
					}
					t.Logf("%s from start %d, logarithms %v, costly %v: %v after %d evaluations", c.name, k+1, log, costly, r.End, r.Evaluations)
					tolerance := 1e-7
					if costly { // the last steps are not worth their price
						tolerance = 1e-5
					}
					c.check(t, r, log, tolerance)
				}
			}
		}
	}
}

func (c *certified) check(t *testing.T, r *Result, log bool, tolerance float64) {
	t.Helper()
	off := func(got, want float64) float64 { return math.Abs(got/want - 1) }
	if d := off(2*r.Cost, c.squares); !(d < tolerance) {
		t.Errorf("%s: sum of squares %.11g, certified %.11g", c.name, 2*r.Cost, c.squares)
	}
	cov, s2 := r.Covariance(), r.Variance()
	for k, want := range c.b {
		if d := off(r.At[k], want); !(d < tolerance) {
			t.Errorf("%s: b%d = %.11g, certified %.11g", c.name, k+1, r.At[k], want)
		}
		sd := math.Sqrt(s2 * cov[k*len(c.b)+k])
		if log {
			sd *= r.At[k]
		}
		if d := off(sd, c.sd[k]); !(d < max(tolerance, 1e-5)) {
			t.Errorf("%s: b%d varies by %.11g, certified %.11g", c.name, k+1, sd, c.sd[k])
		}
	}
}
