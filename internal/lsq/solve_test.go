package lsq

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
	_ "swingwright/internal/steady"
)

// line is the problem of a straight line p0 + p1·x through points with spread u.
func line(x, y []float64, u float64) *Problem {
	return &Problem{
		Params:   []Param{{Name: "rise at zero"}, {Name: "slope"}},
		Observed: len(x),
		Residuals: func(p, r []float64) bool {
			for i := range x {
				r[i] = (p[0] + p[1]*x[i] - y[i]) / u
			}
			return true
		},
	}
}

// A straight line comes out as the closed form has it: slope S_xy/S_xx with variance
// u²/S_xx, and at the mean of x the mean of y with u²/n.
func TestStraightLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 30).Draw(t, "n")
		u := rapid.Float64Range(0.01, 10).Draw(t, "u")
		x, y := make([]float64, n), make([]float64, n)
		var sx, sy, sxx, sxy float64
		for i := range n {
			x[i] = float64(i) + rapid.Float64Range(-0.4, 0.4).Draw(t, "x")
			y[i] = rapid.Float64Range(-5, 5).Draw(t, "y")
			sx, sy = sx+x[i]/float64(n), sy+y[i]/float64(n)
		}
		for i := range n {
			sxx += (x[i] - sx) * (x[i] - sx)
			sxy += (x[i] - sx) * (y[i] - sy)
		}
		r, err := Solve(line(x, y, u))
		if err != nil || r.End != Settled {
			t.Fatal(r, err)
		}
		c := r.Covariance()
		for _, v := range []struct {
			what      string
			got, want float64
		}{
			{"slope", r.At[1], sxy / sxx}, {"rise", r.At[0], sy - sx*sxy/sxx},
			{"variance of the slope", c[3], u * u / sxx},
			{"variance of the rise", c[0], u * u * (1/float64(n) + sx*sx/sxx)},
			{"covariance", c[1], -u * u * sx / sxx},
		} {
			if !(math.Abs(v.got-v.want) < 1e-6*max(1, math.Abs(v.want))) {
				t.Fatalf("%s %.12g, want %.12g", v.what, v.got, v.want)
			}
		}
	})
}

// Whatever the units of the parameters, the same fit comes out, and the same twice to the
// bit.
func TestUnitsDoNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		factor := math.Exp(rapid.Float64Range(-10, 10).Draw(t, "factor"))
		c := &nist[1]
		a, err := Solve(c.problem(c.starts[1], false))
		if err != nil {
			t.Fatal(err)
		}
		p := c.problem([]float64{c.starts[1][0] * factor, c.starts[1][1], c.starts[1][2]}, false)
		plain := p.Residuals
		p.Residuals = func(b, r []float64) bool { return plain([]float64{b[0] / factor, b[1], b[2]}, r) }
		b, err := Solve(p)
		if err != nil {
			t.Fatal(err)
		}
		again, _ := Solve(p)
		if !(math.Abs(b.At[0]/a.At[0]/factor-1) < 1e-8) || math.Float64bits(again.At[0]) != math.Float64bits(b.At[0]) {
			t.Fatalf("%g, in units %g times as small %g and then %g", a.At[0], factor, b.At[0], again.At[0])
		}
	})
}

// A bound holds, and the rest is what it would be with the parameter fixed there.
func TestBounds(t *testing.T) {
	x, y := []float64{0, 1, 2, 3}, []float64{1, 3, 5, 7}
	p := line(x, y, 1)
	p.Params[1].High, p.Params[1].Low = 1.5, -10
	r, err := Solve(p)
	if err != nil || r.End != Settled {
		t.Fatal(r, err)
	}
	if r.At[1] != 1.5 || !r.Bound[1] || r.Bound[0] || math.Abs(r.At[0]-1.75) > 1e-8 {
		t.Errorf("%v at bounds %v, want 1.75 and 1.5 with the second at its bound", r.At, r.Bound)
	}
}

// Wild points pull Tukey's line nowhere and Huber's a little; priors are never let go.
func TestOutliers(t *testing.T) {
	var x, y []float64
	for i := range 20 {
		x, y = append(x, float64(i)), append(y, 2+0.5*float64(i)+0.1*math.Sin(7*float64(i)))
	}
	y[3], y[11] = 60, -40
	off := map[Kind]float64{}
	for _, kind := range []Kind{Square, Huber, Tukey} {
		p := line(x, y, 0.1)
		p.Loss.Kind = kind
		p.Params[0].Start, p.Params[1].Start = 2.2, 0.48
		r, err := Solve(p)
		if err != nil {
			t.Fatal(err)
		}
		off[kind] = math.Abs(r.At[1] - 0.5)
		if w := r.Weights[3]; kind == Tukey && w != 0 || kind == Huber && !(w < 0.01) || kind == Square && w != 1 {
			t.Errorf("loss %d lets the wild point count by %g", kind, w)
		}
	}
	if !(off[Tukey] < 0.005 && off[Huber] < 0.02 && off[Square] > 0.1) {
		t.Errorf("slopes are off by %v", off)
	}
	p := &Problem{
		Params: []Param{{Name: "a", Start: 0}}, Observed: 1, Priors: 1, Loss: Loss{Kind: Tukey},
		Residuals: func(p, r []float64) bool { r[0], r[1] = p[0]-100, p[0]-50; return true },
	}
	if r, err := Solve(p); err != nil || math.Abs(r.At[0]-50) > 1e-6 || r.Weights[1] != 1 {
		t.Errorf("a prior at 50 and a wild point at 100: %v, %v", r, err)
	}
}

// The losses and their weights: Of'(r) = r·Weight(r), by differences.
func TestLossesFitTheirWeights(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Loss{Kind: rapid.SampledFrom([]Kind{Square, Huber, Tukey}).Draw(t, "kind"), K: rapid.Float64Range(0.1, 6).Draw(t, "k")}
		r := rapid.Float64Range(-10, 10).Draw(t, "r")
		const h = 1e-5
		slope := (l.Of(r+h) - l.Of(r-h)) / (2 * h)
		if !(math.Abs(slope-r*l.Weight(r)) < 1e-4*max(1, math.Abs(r))) {
			t.Fatalf("%v at %g: slope %g, weight %g", l, r, slope, l.Weight(r))
		}
	})
}

// Two parameters that act by their product alone are found out, in words, and a prior on
// one of them makes the other known as well.
func TestWeakDirections(t *testing.T) {
	times := []float64{1, 2, 3, 4}
	p := &Problem{
		Params:   []Param{{Name: "spring", Start: 4, Log: true}, {Name: "resistance", Start: 2, Log: true}, {Name: "offset", Start: 0.1}},
		Observed: len(times),
		Residuals: func(p, r []float64) bool {
			for i, x := range times {
				r[i] = (p[0]/p[1]*x + p[2] - (2.5*x + 0.3)) / 0.01
			}
			return true
		},
	}
	r, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	if c := r.Covariance(); !math.IsInf(c[0], 1) {
		t.Errorf("covariances without end wanted, got %v", c)
	}
	weak := r.Weak([]float64{0.1, 0.1, 0.1}, 1)
	if len(weak) != 1 || weak[0].Seen > 1e-3 {
		t.Fatalf("weak: %v", weak)
	}
	if got, want := weak[0].String(), "spring up with resistance up (1.0 as far)"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	plain := p.Residuals
	p.Priors = 1
	p.Residuals = func(q, r []float64) bool {
		plain(q, r)
		r[len(times)] = math.Log(q[0]/5) / 0.05
		return true
	}
	r, err = Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	c := r.Covariance()
	if math.Abs(r.At[0]/5-1) > 1e-6 || math.Abs(r.At[1]/2-1) > 1e-6 || math.Abs(math.Sqrt(c[0])-0.05) > 1e-6 {
		t.Errorf("%v with %v", r.At, c)
	}
	if len(r.Weak([]float64{0.1, 0.1, 0.1}, 1)) != 1 || !(r.Condition([]float64{0.1, 0.1, 0.1}) > 10) {
		t.Error("the prior is no observation")
	}
}

// A search that is led to where there are no residuals turns back.
func TestWhereThereAreNoResiduals(t *testing.T) {
	p := &Problem{
		Params: []Param{{Name: "a", Start: 0.9}}, Observed: 1,
		Residuals: func(p, r []float64) bool { r[0] = math.Sqrt(p[0]) - 0.01; return p[0] > 0 },
	}
	r, err := Solve(p)
	if err != nil || r.End != Settled || math.Abs(r.At[0]-1e-4) > 1e-10 {
		t.Errorf("%+v, %v", r, err)
	}
	p.Params[0].Start = -1
	if _, err := Solve(p); err != errNoStart {
		t.Errorf("begun where there are none: %v", err)
	}
}

func TestProblemsAreAllTold(t *testing.T) {
	p := &Problem{
		Params: []Param{
			{Name: "a", Start: math.NaN()}, {Name: "b", Start: -1, Log: true}, {Name: "c", Start: 5, Low: 0, High: 1},
			{Name: "d", Start: 1, Low: -1, High: 2, Log: true}, {Name: "e", Step: -1},
		},
		Observed: -1,
	}
	err := p.Check()
	for _, part := range []string{`"a" starts`, `"b" acts`, `"c" starts`, `"d" acts`, `"e" has step`, "for 5 parameters", "counts", "no function"} {
		if err == nil || !strings.Contains(err.Error(), part) {
			t.Errorf("%q is not told: %v", part, err)
		}
	}
	if _, err := Solve(&Problem{}); err == nil {
		t.Error("an empty problem was solved")
	}
	if Settled.String() != "settled" || Stuck.String() != "stuck" || TooMany.String() != "too many steps" {
		t.Error("endings are misnamed")
	}
}

// A search whose derivatives, brought up to date, hold all at a bound takes them anew and
// goes on: the residual falls to 1 at the bound but turns up on the way there.
func TestHeldByStaleDerivatives(t *testing.T) {
	const h, from, to, falls, rises = 0.5, 2, 1, -3, 3
	tries := 0
	r, err := Solve(&Problem{
		Params: []Param{{Name: "x", Start: 0.5, Low: 0, High: 1}}, Observed: 1, Costly: true,
		Residuals: func(p, r []float64) bool { // Hermite's cubic between 0.5 and 1
			if tries++; tries > 10_000 {
				t.Fatal("the search does not end")
			}
			s := (p[0] - 0.5) / h
			r[0] = (2*s*s*s-3*s*s+1)*from + (s*s*s-2*s*s+s)*h*falls + (3*s*s-2*s*s*s)*to + (s*s*s-s*s)*h*rises
			return true
		},
	})
	if err != nil || r.End != Settled {
		t.Fatal(r, err)
	}
	// the least of the cubic, which stays above zero, is where its slope is zero
	s := (r.At[0] - 0.5) / h
	slope := (6*s*s-6*s)*from + (3*s*s-4*s+1)*h*falls + (6*s-6*s*s)*to + (3*s*s-2*s)*h*rises
	if math.Abs(slope) > 1e-4 {
		t.Errorf("it settled at %.6f with slope %g", r.At[0], slope)
	}
}
