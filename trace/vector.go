package trace

import (
	"math"
	"slices"
)

// vector is a direction or a rate in the device's axes.
type vector [3]float64

func (a vector) dot(b vector) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

func (a vector) norm() float64 { return math.Sqrt(a.dot(a)) }

func (a vector) unit() vector {
	n := a.norm()
	return vector{a[0] / n, a[1] / n, a[2] / n}
}

// between is the angle between two directions, rad, either way along them.
func between(a, b vector) float64 {
	return math.Acos(math.Min(1, math.Abs(a.unit().dot(b.unit()))))
}

// middle is the median of what is a number among values taken at a stride.
func middle(values []float64, stride int, memory []float64) (float64, bool) {
	memory = memory[:0]
	for i := 0; i < len(values); i += stride {
		if x := values[i]; x == x {
			memory = append(memory, x)
		}
	}
	if len(memory) == 0 {
		return 0, false
	}
	slices.Sort(memory)
	return memory[len(memory)/2], true
}

// spindle is the direction about which rates turn most, and how much more than
// about any other direction: the ratio of the two largest mean squares. Of tiles,
// those in which the recorder was fixed to the leaf are looked at; nil is all.
func spindle(rate *[3][]float64, pick [3]int, tiles []tile) (axis vector, lead float64) {
	n := len(rate[0])
	stride := max(1, n/4000)
	var rest vector
	for k := range rest {
		rest[k], _ = middle(rate[pick[k]], max(1, n/800), nil)
	}
	var c [3]vector
	look := func(from, to int) {
		for i := from; i < to; i += stride {
			var w vector
			for k := range w {
				w[k] = rate[pick[k]][i] - rest[k]
			}
			for k := range c {
				for j := range w {
					c[k][j] += w[k] * w[j]
				}
			}
		}
	}
	if tiles == nil {
		look(0, n)
	}
	for _, t := range tiles {
		if t.member {
			look(t.from, t.to)
		}
	}
	return principal(c)
}

// principal is the direction of the largest mean square, by power iteration.
func principal(c [3]vector) (axis vector, lead float64) {
	times := func(v vector) vector { return vector{c[0].dot(v), c[1].dot(v), c[2].dot(v)} }
	axis = vector{1, 0.9, 1.1}
	for range 60 {
		next := times(axis)
		if !(next.norm() > 0) {
			return vector{}, 0
		}
		axis = next.unit()
	}
	top := axis.dot(times(axis))
	others := (c[0][0] + c[1][1] + c[2][2] - top) / 2
	return axis, top / math.Max(others, 1e-30)
}
