package lsq

import (
	"math"
	"math/rand/v2"
	"testing"

	"swingwright/internal/reference"
)

// A fitCase is one fit as testdata/fits.py reads it.
type fitCase struct {
	Model string     `json:"model"`
	X     []float64  `json:"x"`
	Y     []float64  `json:"y"`
	U     float64    `json:"u"`
	Start []float64  `json:"start"`
	Low   []*float64 `json:"low"`
	High  []*float64 `json:"high"`
	Huber float64    `json:"huber"`
}

// A refFit is what it writes.
type refFit struct {
	At   []float64   `json:"at"`
	Cost float64     `json:"cost"`
	Cov  [][]float64 `json:"cov"`
}

var families = []struct {
	name string
	f    func(p []float64, x float64) float64
	p    []float64
	log  []bool
	x    [2]float64
}{
	{"decay", func(p []float64, x float64) float64 { return p[0]*math.Exp(-p[1]*x) + p[2] }, []float64{5, 0.7, 1}, []bool{true, true, false}, [2]float64{0, 6}},
	{"logistic", func(p []float64, x float64) float64 { return p[0] / (1 + math.Exp(p[1]-p[2]*x)) }, []float64{8, 3, 1.1}, []bool{true, false, true}, [2]float64{0, 7}},
	{"wave", func(p []float64, x float64) float64 { return p[0] * math.Sin(p[1]*x+p[2]) }, []float64{2, 1.5, 0.4}, []bool{true, true, false}, [2]float64{0, 5}},
	{"valve", func(p []float64, x float64) float64 { return p[0] / (x - p[1]) }, []float64{30, 0.12}, []bool{true, false}, [2]float64{0.4, 2}},
}

func fitCases() (cases []fitCase, of []int) {
	random := rand.New(rand.NewPCG(4, 1))
	for k := range 48 {
		i := k % len(families)
		fam := &families[i]
		c := fitCase{Model: fam.name, U: 0.05, Low: make([]*float64, len(fam.p)), High: make([]*float64, len(fam.p))}
		for range 30 {
			x := fam.x[0] + random.Float64()*(fam.x[1]-fam.x[0])
			y := fam.f(fam.p, x) + 0.05*random.NormFloat64()
			if k%3 == 1 && random.Float64() < 0.15 {
				y += 2 * random.NormFloat64() // outliers
			}
			c.X, c.Y = append(c.X, x), append(c.Y, y)
		}
		for _, v := range fam.p {
			c.Start = append(c.Start, v*(1+0.1*random.NormFloat64()))
		}
		switch k % 3 {
		case 1:
			c.Huber = 1.345
		case 2: // a bound that holds the first parameter away from where it would go
			top := fam.p[0] * 0.98
			c.High[0] = &top
			c.Start[0] = min(c.Start[0], top*0.97)
		}
		cases, of = append(cases, c), append(of, i)
	}
	return cases, of
}

// Parameters, cost and covariance agree with SciPy's least_squares, with outliers under
// Huber's loss, and at a bound.
func TestFitsAgreeWithSciPy(t *testing.T) {
	if testing.Short() {
		t.Skip("asks SciPy")
	}
	cases, of := fitCases()
	var out struct {
		Fits []refFit `json:"fits"`
	}
	if err := reference.SciPy.Ask("testdata/fits.py", map[string]any{"cases": cases}, &out); err != nil || len(out.Fits) != len(cases) {
		t.Fatalf("%d fits of %d, %v", len(out.Fits), len(cases), err)
	}
	for k := range cases {
		compareFit(t, k, &cases[k], of[k], &out.Fits[k])
	}
}

// SciPy stops where its own slopes no longer tell better: 1e-6 of a parameter is far below
// a thousandth of its spread here. At a bound its interior steps end a little before it.
func compareFit(t *testing.T, k int, c *fitCase, family int, want *refFit) {
	t.Helper()
	fam := &families[family]
	p := Problem{Observed: len(c.X), Residuals: func(p, r []float64) bool {
		for i, x := range c.X {
			r[i] = (fam.f(p, x) - c.Y[i]) / c.U
		}
		return true
	}}
	if c.Huber > 0 {
		p.Loss = Loss{Kind: Huber, K: c.Huber}
	}
	for i, start := range c.Start {
		q := Param{Name: "p", Start: start, Log: fam.log[i]}
		if c.High[i] != nil {
			q.High = *c.High[i]
		}
		p.Params = append(p.Params, q)
	}
	r, err := Solve(&p)
	if err != nil || r.End != Settled {
		t.Fatalf("case %d: %v, %v", k, r.End, err)
	}
	cov := r.Covariance()
	for i, at := range want.At {
		spread := math.Sqrt(want.Cov[i][i])
		if off := math.Abs(r.At[i]-at) / spread; !(off < 2e-4) {
			t.Errorf("case %d, %s: parameter %d is %.9g, SciPy: %.9g, %.2g spreads apart", k, c.Model, i, r.At[i], at, off)
		}
		for j := range want.At {
			got := cov[i*len(want.At)+j]
			if fam.log[i] {
				got *= r.At[i]
			}
			if fam.log[j] {
				got *= r.At[j]
			}
			if off := math.Abs(got-want.Cov[i][j]) / math.Sqrt(want.Cov[i][i]*want.Cov[j][j]); !(off < 2e-4) {
				t.Errorf("case %d, %s: covariance of %d and %d is %.6g, SciPy: %.6g", k, c.Model, i, j, got, want.Cov[i][j])
			}
		}
	}
	// SciPy's cost is half the sum of rho(r²), which is ours
	if off := math.Abs(r.Cost/want.Cost - 1); !(off < 1e-6) {
		t.Errorf("case %d, %s: cost %.9g, SciPy: %.9g", k, c.Model, r.Cost, want.Cost)
	}
}
