package propagate

import (
	"fmt"
	"math"
	"slices"
)

// Budget is an uncertainty budget: what every input adds to the standard
// uncertainty of every output.
type Budget struct {
	ins, outs int
	value     []float64
	parts     []float64 // a row of inputs per output
}

// Linear reckons the budget of f by the law of propagation of uncertainty for
// independent inputs (JCGM 100:2008, eq. 10), with sensitivities taken from the
// outputs one standard uncertainty above and below each mean (5.1.3, note 2).
// Where a bound is nearer than that, the difference is taken up to the bound and
// scaled. It reports all that is wrong with the inputs.
func Linear(inputs []Input, outs int, f Function) (*Budget, error) {
	if err := check(inputs); err != nil {
		return nil, err
	}
	if outs < 0 {
		return nil, fmt.Errorf("propagate: %d outputs; give how many there are", outs)
	}
	b := &Budget{ins: len(inputs), outs: outs, value: make([]float64, outs), parts: make([]float64, outs*len(inputs))}
	x, above, below := make([]float64, b.ins), make([]float64, outs), make([]float64, outs)
	run := func(out []float64) []float64 {
		for j := range out {
			out[j] = math.NaN()
		}
		f(x, out)
		return out
	}
	for i, in := range inputs {
		x[i] = in.Mean
	}
	run(b.value)
	for i, in := range inputs {
		low, high := in.Mean-in.U, in.Mean+in.U
		if in.bounded() {
			low, high = max(low, in.Low), min(high, in.High)
		}
		if low == high {
			continue // known exactly, or nearer than numbers can tell
		}
		x[i] = high
		run(above)
		x[i] = low
		run(below)
		x[i] = in.Mean
		for j := range outs {
			b.parts[j*b.ins+i] = (above[j] - below[j]) / (high - low) * in.U
		}
	}
	return b, nil
}

// Value is output j with every input at its mean.
func (b *Budget) Value(j int) float64 { return b.value[j] }

// Part is what input i adds to output j: sensitivity times standard
// uncertainty, with the sign of the sensitivity. It is NaN or infinite when the
// output does not exist on one side of the mean: the linear law then says nothing.
func (b *Budget) Part(i, j int) float64 { return b.parts[j*b.ins+i] }

// U is the combined standard uncertainty of output j, NaN if a part of it is.
func (b *Budget) U(j int) float64 {
	u := 0.
	for i := range b.ins {
		u = math.Hypot(u, b.Part(i, j))
	}
	return u
}

// Ranked lists the inputs by the size of their part in output j, largest
// first; parts that are not numbers come before all others.
func (b *Budget) Ranked(j int) []int {
	order := make([]int, b.ins)
	for i := range order {
		order[i] = i
	}
	weight := func(i int) float64 {
		if p := math.Abs(b.Part(i, j)); !math.IsNaN(p) {
			return p
		}
		return math.Inf(1)
	}
	slices.SortStableFunc(order, func(p, q int) int {
		switch wp, wq := weight(p), weight(q); {
		case wp > wq:
			return -1
		case wp < wq:
			return 1
		}
		return 0
	})
	return order
}
