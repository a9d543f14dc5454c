package lsq

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"gonum.org/v1/gonum/mat"
)

// A Direction is a way in which parameters can be moved together.
type Direction struct {
	// Seen is by how much the observations' residuals move, as a length, when the
	// parameters go one length of the scale that way.
	Seen float64
	// Part is by how much each parameter goes along, in lengths of its scale; the squares
	// add up to 1. The largest is above zero.
	Part  []float64
	names []string
}

// Weak lists the directions along which the observations alone move less than least,
// weakest first. scale is the length of each parameter that counts as one, in its unit, or
// as a share where it is Log: with what was known of it before, and least 1, these are the
// combinations of which the observations say less than was known.
func (r *Result) Weak(scale []float64, least float64) []Direction {
	m := r.m
	a := mat.NewDense(m, m, nil)
	for i := range m {
		for k := range m {
			a.Set(i, k, r.seen[i*m+k]*scale[k])
		}
	}
	var svd mat.SVD
	if !svd.Factorize(a, mat.SVDFull) {
		return nil
	}
	var v mat.Dense
	svd.VTo(&v)
	values := svd.Values(nil)
	var all []Direction
	for k := m - 1; k >= 0 && values[k] < least; k-- {
		d := Direction{Seen: values[k], Part: make([]float64, m), names: make([]string, m)}
		largest := 0
		for i := range m {
			d.Part[i], d.names[i] = v.At(i, k), r.Params[i].Name
			if math.Abs(d.Part[i]) > math.Abs(d.Part[largest])+1e-9 {
				largest = i
			}
		}
		if d.Part[largest] < 0 {
			for i := range d.Part {
				d.Part[i] = -d.Part[i]
			}
		}
		all = append(all, d)
	}
	return all
}

// Condition is the ratio of the longest to the shortest axis of what the residuals, priors
// among them, tell of the parameters in lengths of scale; large where a combination is
// hardly told.
func (r *Result) Condition(scale []float64) float64 {
	m := r.m
	a := mat.NewDense(m, m, nil)
	for i := range m {
		for k := range m {
			a.Set(i, k, r.whole[i*m+k]*scale[k])
		}
	}
	return mat.Cond(a, 2)
}

// slight is the part below which a parameter is not named.
const slight = 0.3

// String is the direction in words: the parameters that go along, the largest first, each
// with its way and its share of the largest.
func (d Direction) String() string {
	order := make([]int, len(d.Part))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return math.Abs(d.Part[order[a]]) > math.Abs(d.Part[order[b]])+1e-9 })
	var words []string
	top := math.Abs(d.Part[order[0]])
	for n, i := range order {
		share := math.Abs(d.Part[i]) / top
		way := "up"
		if d.Part[i] < 0 {
			way = "down"
		}
		switch {
		case n == 0:
			words = append(words, fmt.Sprintf("%s %s", d.names[i], way))
		case share >= slight:
			words = append(words, fmt.Sprintf("%s %s (%.1f as far)", d.names[i], way, share))
		}
	}
	return strings.Join(words, " with ")
}
