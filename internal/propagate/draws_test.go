package propagate

import (
	"math"
	"slices"
	"sync"
	"testing"
)

var pair = []Input{{Mean: 3, U: 0.3}, {Mean: -2, U: 0.4}}

func product(x, out []float64) { out[0] = x[0] * x[1] }

func monteCarlo(t testing.TB, seed uint64, n int, inputs []Input, outs int, f Function) *Draws {
	t.Helper()
	d, err := MonteCarlo(seed, n, inputs, outs, f)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestProductOfNormals(t *testing.T) {
	// Exact for independent factors (Goodman, J. Am. Stat. Assoc. 55 (1960) 708-713):
	// mean m1·m2, variance m1²u2² + m2²u1² + u1²u2².
	want := math.Sqrt(9*0.16 + 4*0.09 + 0.09*0.16)
	s := monteCarlo(t, 1, 20000, pair, 1, product).Summary(0)
	// Standard error of the standard deviation of plain draws would be 0.5 %.
	if math.Abs(s.Mean+6) > 0.005 || !near(s.SD, want, 0.01) || s.Missing != 0 || s.Len() != 20000 {
		t.Errorf("mean %v, sd %v (want -6, %v), %d missing", s.Mean, s.SD, want, s.Missing)
	}
}

func TestLinearCombination(t *testing.T) {
	// 2x + y has mean 4 and variance 4·0.09 + 0.16 exactly, and is normal.
	s := monteCarlo(t, 1, 4096, pair, 1, func(x, out []float64) { out[0] = 2*x[0] + x[1] }).Summary(0)
	sd := math.Sqrt(0.52)
	if math.Abs(s.Mean-4) > 1e-3 || !near(s.SD, sd, 0.02) {
		t.Errorf("mean %v, sd %v, want 4, %v", s.Mean, s.SD, sd)
	}
	for p, z := range map[float64]float64{0.025: -1.959964, 0.5: 0, 0.975: 1.959964} {
		if got := s.Quantile(p); math.Abs(got-(4+z*sd)) > 0.06*sd {
			t.Errorf("quantile %v: %v, want %v", p, got, 4+z*sd)
		}
	}
}

// TestStrata holds the property that makes a Latin hypercube one: exactly one
// draw of each input in each part of equal probability.
func TestStrata(t *testing.T) {
	const n = 64
	d := monteCarlo(t, 5, n, pair, 0, func(x, out []float64) {})
	for i, in := range pair {
		var values []float64
		for k := range n {
			values = append(values, d.Input(k)[i])
		}
		if slices.IsSorted(values) {
			t.Errorf("input %d is not shuffled", i)
		}
		slices.Sort(values)
		for k, v := range values {
			if p := n * standardShare((v-in.Mean)/in.U); p < float64(k)-1e-9 || p > float64(k+1)+1e-9 {
				t.Errorf("input %d: value %d lies at %v of %d parts", i, k, p, n)
			}
		}
	}
}

// TestMeanScattersLess compares with plain draws, whose mean would scatter by
// the standard deviation over the root of n.
func TestMeanScattersLess(t *testing.T) {
	const n, seeds = 256, 200
	var means, spreads []float64
	for seed := range uint64(seeds) {
		s := monteCarlo(t, seed, n, pair, 1, product).Summary(0)
		means, spreads = append(means, s.Mean), append(spreads, s.SD)
	}
	exact := math.Sqrt(9*0.16 + 4*0.09 + 0.09*0.16)
	if scatter := Summarise(means).SD; scatter > 0.25*exact/math.Sqrt(n) {
		t.Errorf("mean scatters by %v, plain draws by %v", scatter, exact/math.Sqrt(n))
	}
	s := Summarise(spreads)
	// Never too small, at most by the factor 1 + 1/(2n) too large, on average.
	if bias := s.Mean/exact - 1; bias < -3e-3 || bias > 1./(2*n)+3e-3 {
		t.Errorf("standard deviation off by the share %v on average", bias)
	}
	if s.SD > exact/math.Sqrt(2*n) {
		t.Errorf("standard deviation scatters by %v, that of plain draws by %v", s.SD, exact/math.Sqrt(2*n))
	}
}

func TestSameSeedSameDraws(t *testing.T) {
	a, b := monteCarlo(t, 42, 100, pair, 1, product), monteCarlo(t, 42, 100, pair, 1, product)
	if !slices.Equal(a.Output(0), b.Output(0)) {
		t.Error("same seed, other draws")
	}
	if c := monteCarlo(t, 43, 100, pair, 1, product); slices.Equal(a.Output(0), c.Output(0)) {
		t.Error("other seed, same draws")
	}
	more := monteCarlo(t, 42, 100, append(slices.Clone(pair), Input{Mean: 1, U: 1}), 1, product)
	if !slices.Equal(a.Output(0), more.Output(0)) {
		t.Error("a further input moves the draws of the others")
	}
}

func TestDivisionAmongGoroutinesDoesNotMatter(t *testing.T) {
	const n = 1000
	alone := monteCarlo(t, 9, n, pair, 1, product)
	var shared Draws
	if err := shared.Prepare(9, n, pair, 1); err != nil {
		t.Fatal(err)
	}
	var wait sync.WaitGroup
	for from := 0; from < n; from += 137 {
		wait.Go(func() { shared.Evaluate(from, min(from+137, n), product) })
	}
	wait.Wait()
	if !slices.Equal(alone.Output(0), shared.Output(0)) {
		t.Error("the division changes the outcome")
	}
}

func TestReuseLeavesNoTraceAndNoGarbage(t *testing.T) {
	var d Draws
	if err := d.Prepare(1, 500, append(slices.Clone(pair), pair...), 3); err != nil {
		t.Fatal(err)
	}
	d.Evaluate(0, 500, func(x, out []float64) { out[0], out[1], out[2] = 7, 7, 7 })
	run := func() {
		if err := d.Prepare(9, 256, pair, 2); err != nil {
			t.Fatal(err)
		}
		d.Evaluate(0, 256, product)
		d.Summary(0)
	}
	if n := testing.AllocsPerRun(10, run); n != 0 {
		t.Errorf("%v allocations with memory to reuse", n)
	}
	if fresh := monteCarlo(t, 9, 256, pair, 2, product); !slices.Equal(fresh.Output(0), d.Output(0)) {
		t.Error("used memory changes the draws")
	}
	// Output 1 is never set, so it must be missing everywhere, not a leftover.
	if s := d.Summary(1); s.Missing != 256 || d.Len() != 256 {
		t.Errorf("%d of %d missing in an output that was never set", s.Missing, d.Len())
	}
}

func BenchmarkPrepare(b *testing.B) {
	inputs := make([]Input, 20)
	for i := range inputs {
		inputs[i] = Input{Mean: 1, U: 0.1, Low: 0, High: math.Inf(1)}
	}
	var d Draws
	b.ReportAllocs()
	for b.Loop() {
		if err := d.Prepare(1, 256, inputs, 10); err != nil {
			b.Fatal(err)
		}
	}
}
