package propagate

import (
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"math/bits"
	"math/rand/v2"
)

// Function reckons the outputs from the inputs. It finds out filled with NaN
// and leaves NaN where an output does not exist for these inputs. It must give
// the same outputs for the same inputs, and keep neither slice.
type Function func(x, out []float64)

// Draws holds sampled inputs and what became of them. The zero Draws is ready
// for Prepare; prepared again it reuses its memory.
//
// The draws are a Latin hypercube (McKay, Beckman, Conover, Technometrics 21
// (1979) 239-245): the range of every input is cut into as many parts of equal
// probability as there are draws, and every part is used once, in an order
// shuffled for every input apart. The mean of an output then scatters much less
// than by its standard deviation over the root of the number of draws, the
// more so the nearer the function is to a sum of functions of one input each.
// The standard deviation stays an honest estimate, never too small on average
// by this: it comes out too large by a factor of at most 1 + 1/(2n), and its
// own scatter is smaller than that of independent draws, too.
type Draws struct {
	n, ins, outs int
	in           []float64 // a row per draw
	row          []float64 // a row of outputs per draw
	out          []float64 // a column per output
	order        []int32
	finite       []float64 // memory for the values of a summary
	random       *rand.ChaCha8
}

// MonteCarlo draws n times, evaluates f on every draw, and returns all.
func MonteCarlo(seed uint64, n int, inputs []Input, outs int, f Function) (*Draws, error) {
	var d Draws
	if err := d.Prepare(seed, n, inputs, outs); err != nil {
		return nil, err
	}
	d.Evaluate(0, n, f)
	return &d, nil
}

// Prepare samples the inputs n times (at least 2) for a function of outs
// outputs. Same arguments, same draws; every input has a random stream of its
// own, made from the seed and its place, so that inputs added at the end leave
// the others as they were. It reports all that is wrong with the inputs.
func (d *Draws) Prepare(seed uint64, n int, inputs []Input, outs int) error {
	err := check(inputs)
	if n < 2 || n > math.MaxInt32 || outs < 0 {
		err = errors.Join(err, fmt.Errorf("propagate: %d draws of %d outputs; give 2 to %d draws and no negative number of outputs", n, outs, math.MaxInt32))
	}
	if err != nil {
		return err
	}
	d.n, d.ins, d.outs = n, len(inputs), outs
	d.in = resized(d.in, n*d.ins)
	d.row = resized(d.row, n*outs)
	d.out = resized(d.out, n*outs)
	d.order = resized(d.order, n)
	d.finite = resized(d.finite, n)
	for i := range d.out {
		d.out[i] = math.NaN()
	}
	for i, in := range inputs {
		d.sample(seed, i, in)
	}
	return nil
}

// sample fills column i of the inputs.
func (d *Draws) sample(seed uint64, i int, in Input) {
	var key [32]byte
	binary.LittleEndian.PutUint64(key[0:], seed)
	binary.LittleEndian.PutUint64(key[8:], uint64(i))
	if d.random == nil {
		d.random = rand.NewChaCha8(key)
	} else {
		d.random.Seed(key)
	}
	for k := range d.order {
		d.order[k] = int32(k)
	}
	for k := d.n - 1; k > 0; k-- { // Fisher and Yates
		j, _ := bits.Mul64(d.random.Uint64(), uint64(k+1))
		d.order[k], d.order[j] = d.order[j], d.order[k]
	}
	low, high := in.shares()
	for k, stratum := range d.order {
		within := (float64(d.random.Uint64()>>11) + 0.5) / (1 << 53) // 0 to 1
		share := (float64(stratum) + within) / float64(d.n)
		d.in[k*d.ins+i] = in.quantile(low + share*(high-low))
	}
}

// Evaluate runs f on the draws from first up to before end. Ranges that do not
// overlap may be run at the same time, each with a function of its own; the
// outcome does not depend on the division.
func (d *Draws) Evaluate(first, end int, f Function) {
	for k := first; k < end; k++ {
		row := d.row[k*d.outs : (k+1)*d.outs : (k+1)*d.outs]
		for j := range row {
			row[j] = math.NaN()
		}
		f(d.in[k*d.ins:(k+1)*d.ins:(k+1)*d.ins], row)
		for j, y := range row {
			d.out[j*d.n+k] = y
		}
	}
}

// Len is the number of draws.
func (d *Draws) Len() int { return d.n }

// Input is draw k of the inputs. It belongs to d.
func (d *Draws) Input(k int) []float64 { return d.in[k*d.ins : (k+1)*d.ins : (k+1)*d.ins] }

// Output is output j over all draws, in the order of the draws, NaN where it
// does not exist or has not been evaluated. It belongs to d.
func (d *Draws) Output(j int) []float64 { return d.out[j*d.n : (j+1)*d.n : (j+1)*d.n] }

// resized is s with length n, in its old memory if that is large enough.
func resized[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	return s[:n]
}
