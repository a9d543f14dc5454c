package tune

import (
	"math"
	"testing"
)

// Two misses, of one and of minus two spreads: by hand.
func TestScore(t *testing.T) {
	log := []Adjustment{{
		Foreseen: []Time{{From: 90, To: 12, Time: 5, U: 0.3}, {From: 10, To: 0, Time: 2, U: 0.06}, {From: 1, To: 0, Time: 9, U: 1}},
		Found:    []Time{{From: 90, To: 12, Time: 5.5, U: 0.4}, {From: 10, To: 0, Time: 1.8, U: 0.08}, {From: 2, To: 0, Time: 9, U: 1}},
	}}
	got := Score(log)
	want := Track{N: 2, Bias: -0.5, Spread: math.Sqrt(2.5), Within1: 0.5, Within2: 1}
	if got.N != want.N || math.Abs(got.Bias-want.Bias) > 1e-9 || math.Abs(got.Spread-want.Spread) > 1e-9 || got.Within1 != want.Within1 || got.Within2 < 0.5 {
		t.Errorf("%+v, want %+v", got, want)
	}
	if miss := math.Sqrt((math.Pow(0.5/5.5, 2) + math.Pow(0.2/1.8, 2)) / 2); math.Abs(float64(got.Miss)-miss) > 1e-9 {
		t.Errorf("miss %g, want %g", float64(got.Miss), miss)
	}
	if empty := Score(nil); empty.N != 0 || !math.IsNaN(empty.Bias) {
		t.Errorf("%+v of nothing", empty)
	}
}
