package ode

import (
	"math"
	"testing"
)

// The tableau as matrices, so that the tests can walk it.
var (
	nodes = [7]float64{0, c2, c3, c4, c5, 1, 1}
	steps = [7][7]float64{
		{},
		{a21},
		{a31, a32},
		{a41, a42, a43},
		{a51, a52, a53, a54},
		{a61, a62, a63, a64, a65},
		{a71, 0, a73, a74, a75, a76},
	}
	fifth  = steps[6]
	fourth = [7]float64{a71 - e1, 0, a73 - e3, a74 - e4, a75 - e5, a76 - e6, -e7}
)

// A tree stands for one order condition: the sum of weights times the products
// of the subtrees equals one over the density (HNW theorem II.2.13).
type tree []tree

func (n tree) order() int {
	sum := 1
	for _, s := range n {
		sum += s.order()
	}
	return sum
}

func (n tree) density() float64 {
	product := float64(n.order())
	for _, s := range n {
		product *= s.density()
	}
	return product
}

// stage is the elementary weight of the tree at stage i.
func (n tree) stage(i int) float64 {
	product := 1.
	for _, s := range n {
		sum := 0.
		for j := range i {
			sum += steps[i][j] * s.stage(j)
		}
		product *= sum
	}
	return product
}

func (n tree) weight(b [7]float64) float64 {
	sum := 0.
	for i, w := range b {
		sum += w * n.stage(i)
	}
	return sum
}

// trees of exactly the given order: the 1, 1, 2, 4, 9 of HNW table II.2.2.
func trees(order int) []tree {
	dot := tree{}
	line := tree{dot}
	vee, tall := tree{dot, dot}, tree{line}
	switch order {
	case 1:
		return []tree{dot}
	case 2:
		return []tree{line}
	case 3:
		return []tree{vee, tall}
	case 4:
		return []tree{{dot, dot, dot}, {dot, line}, {vee}, {tall}}
	default:
		return []tree{{dot, dot, dot, dot}, {dot, dot, line}, {line, line}, {dot, vee}, {dot, tall},
			{tree{dot, dot, dot}}, {tree{dot, line}}, {tree{vee}}, {tree{tall}}}
	}
}

func TestRowsSumToNodes(t *testing.T) {
	for i, row := range steps {
		sum := 0.
		for _, a := range row {
			sum += a
		}
		if math.Abs(sum-nodes[i]) > 1e-14 { // a few roundings of terms up to 12
			t.Errorf("row %d sums to %v, want %v (HNW eq. II.1.9)", i+1, sum, nodes[i])
		}
	}
}

func TestOrderConditions(t *testing.T) {
	for order := 1; order <= 5; order++ {
		for k, n := range trees(order) {
			if n.order() != order {
				t.Fatalf("tree %d of order %d has order %d", k, order, n.order())
			}
			if got, want := n.weight(fifth), 1/n.density(); math.Abs(got-want) > 1e-14 {
				t.Errorf("fifth-order weights, order %d tree %d: %v, want %v", order, k, got, want)
			}
			if got, want := n.weight(fourth), 1/n.density(); order < 5 && math.Abs(got-want) > 1e-14 {
				t.Errorf("fourth-order weights, order %d tree %d: %v, want %v", order, k, got, want)
			}
		}
	}
}

func TestErrorEstimateIsOfOrderFive(t *testing.T) {
	// Were the lower solution of fifth order too, the estimate would vanish.
	worst := 0.
	for _, n := range trees(5) {
		worst = max(worst, math.Abs(n.weight(fourth)*n.density()-1))
	}
	if worst < 1e-3 {
		t.Errorf("the fourth-order weights satisfy the fifth-order conditions within %v", worst)
	}
}
