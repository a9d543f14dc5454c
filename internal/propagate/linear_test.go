package propagate

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func linear(t testing.TB, inputs []Input, outs int, f Function) *Budget {
	t.Helper()
	b, err := Linear(inputs, outs, f)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestLinearIsExactOnAPlane(t *testing.T) {
	b := linear(t, []Input{{Mean: 1, U: 0.3}, {Mean: 2, U: 0.4}, {Mean: 9}}, 1, func(x, out []float64) { out[0] = 2*x[0] - 3*x[1] + x[2] })
	// By hand: 2·0.3 = 0.6, -3·0.4 = -1.2, root of the sum of squares.
	if !near(b.Value(0), 5, 1e-15) || !near(b.Part(0, 0), 0.6, 1e-14) || !near(b.Part(1, 0), -1.2, 1e-14) || b.Part(2, 0) != 0 || !near(b.U(0), math.Sqrt(1.8), 1e-14) {
		t.Errorf("budget %+v", b)
	}
	if got := b.Ranked(0); !slices.Equal(got, []int{1, 0, 2}) {
		t.Errorf("ranked %v", got)
	}
}

// TestQuotient takes the voltage and the current of JCGM 100:2008, table H.2,
// as if they were not correlated; for a quotient the relative uncertainties then
// add in squares (5.1.6).
func TestQuotient(t *testing.T) {
	v, i := Input{Mean: 4.9990, U: 0.0032}, Input{Mean: 19.661e-3, U: 0.0095e-3}
	b := linear(t, []Input{v, i}, 1, func(x, out []float64) { out[0] = x[0] / x[1] })
	want := math.Hypot(v.U/v.Mean, i.U/i.Mean) * v.Mean / i.Mean
	if !near(b.Value(0), 254.26, 1e-4) || !near(b.U(0), want, 1e-6) {
		t.Errorf("Z = %v, u = %v, want 254.26, %v", b.Value(0), b.U(0), want)
	}
}

func TestBothLawsAgreeOnSmoothFunctions(t *testing.T) {
	// Nearly linear over the spread of the inputs, so that the linear law is good to some 1 %.
	smooth := func(x, out []float64) {
		out[0] = math.Sqrt(x[0]) * math.Sin(x[1])
		out[1] = x[2] / (x[0] + x[1])
	}
	inputs := []Input{{Mean: 9, U: 0.2}, {Mean: 0.7, U: 0.02}, {Mean: 100, U: 3}}
	b, d := linear(t, inputs, 2, smooth), monteCarlo(t, 3, 8192, inputs, 2, smooth)
	for j := range 2 {
		if s := d.Summary(j); !near(s.SD, b.U(j), 0.02) || math.Abs(s.Mean-b.Value(j)) > 0.02*b.U(j) {
			t.Errorf("output %d: draws %v ± %v, linear law %v ± %v", j, s.Mean, s.SD, b.Value(j), b.U(j))
		}
	}
}

func TestPartsAddUpInSquares(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		slopes := rapid.SliceOfN(rapid.Float64Range(-5, 5), 1, 8).Draw(t, "slopes")
		inputs := make([]Input, len(slopes))
		want := 0.
		for i, c := range slopes {
			inputs[i] = Input{Mean: rapid.Float64Range(-2, 2).Draw(t, "mean"), U: rapid.Float64Range(0.01, 2).Draw(t, "u")}
			want += c * c * inputs[i].U * inputs[i].U
		}
		b, err := Linear(inputs, 1, func(x, out []float64) {
			out[0] = 0
			for i, c := range slopes {
				out[0] += c * x[i]
			}
		})
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(b.U(0)-math.Sqrt(want)) > 1e-12 {
			t.Fatalf("u %v, want %v (JCGM 100:2008, eq. 10)", b.U(0), math.Sqrt(want))
		}
		order := b.Ranked(0)
		for k := 1; k < len(order); k++ {
			if math.Abs(b.Part(order[k-1], 0)) < math.Abs(b.Part(order[k], 0)) {
				t.Fatalf("ranked %v by parts %v", order, b.parts)
			}
		}
	})
}

func TestBoundNearTheMean(t *testing.T) {
	f := func(x, out []float64) { out[0] = 4 * x[0] }
	// The function is never asked outside the bounds; the slope is right all the same.
	in := Input{Mean: 0.1, U: 1, Low: 0, High: math.Inf(1)}
	b := linear(t, []Input{in}, 1, func(x, out []float64) {
		if x[0] < 0 {
			t.Errorf("asked at %v", x[0])
		}
		f(x, out)
	})
	if !near(b.U(0), 4, 1e-14) {
		t.Errorf("u %v, want 4", b.U(0))
	}
}

func TestSpreadBelowRoundingAddsNothing(t *testing.T) {
	b := linear(t, []Input{{Mean: 1e12, U: 1e-9}, {Mean: 1, U: 2}}, 1, func(x, out []float64) { out[0] = x[0]*1e-12 + x[1] })
	if b.Part(0, 0) != 0 || !near(b.U(0), 2, 1e-12) {
		t.Errorf("part %v, u %v", b.Part(0, 0), b.U(0))
	}
}

func TestCliffIsNotHidden(t *testing.T) {
	// The second output exists only below 1.05, within the spread of the input.
	f := func(x, out []float64) {
		out[0] = x[0]
		if x[0] < 1.05 {
			out[1] = 1
		}
	}
	b := linear(t, []Input{{Mean: 5, U: 9}, {Mean: 1, U: 0.1}}, 2, func(x, out []float64) { f(x[1:], out) })
	if !math.IsNaN(b.U(1)) || b.Ranked(1)[0] != 1 || !near(b.U(0), 0.1, 1e-12) {
		t.Errorf("u %v, ranked %v", b.U(1), b.Ranked(1))
	}
	d := monteCarlo(t, 1, 1000, []Input{{Mean: 1, U: 0.1}}, 2, f)
	// Half a standard deviation up: 30.85 % lie beyond (Abramowitz, Stegun, table 26.1).
	if s := d.Summary(1); s.Missing != 308 && s.Missing != 309 {
		t.Errorf("%d of 1000 missing", s.Missing)
	}
}
