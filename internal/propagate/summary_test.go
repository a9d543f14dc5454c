package propagate

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestSummaryByHand(t *testing.T) {
	s := Summarise([]float64{4, math.NaN(), 2, math.Inf(1), 9})
	// Mean 5; squares 1 + 9 + 16 over 2.
	if s.Mean != 5 || !near(s.SD, math.Sqrt(13), 1e-15) || s.Missing != 2 || s.Len() != 3 {
		t.Errorf("%+v", s)
	}
}

func TestQuantilesOfOneToTen(t *testing.T) {
	values := []float64{7, 1, 9, 3, 5, 10, 2, 8, 4, 6}
	s := Summarise(values)
	// Hyndman, Fan (1996), definition 8: place p(n + 1/3) + 1/3 among the order
	// statistics, by hand.
	for p, want := range map[float64]float64{0: 1, 0.05: 1, 0.1: 1 + 11./30, 0.25: 2 + 11./12, 0.5: 5.5, 0.75: 8 + 1./12, 0.99: 10, 1: 10} {
		if got := s.Quantile(p); math.Abs(got-want) > 1e-12 {
			t.Errorf("quantile %v: %v, want %v", p, got, want)
		}
	}
	if values[0] != 7 {
		t.Error("the caller's values were sorted")
	}
}

func TestQuantileProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := rapid.SliceOfN(rapid.Float64Range(-1e6, 1e6), 1, 50).Draw(t, "values")
		p := rapid.Float64Range(0, 1).Draw(t, "p")
		s := Summarise(values)
		low, mid, high := s.Quantile(0), s.Quantile(p), s.Quantile(1)
		if mid < low || mid > high {
			t.Fatalf("%v outside %v to %v", mid, low, high)
		}
		for i := range values {
			values[i] = -values[i]
		}
		if got := -Summarise(values).Quantile(1 - p); math.Abs(got-mid) > 1e-6 {
			t.Fatalf("mirrored %v, straight %v", got, mid)
		}
	})
}

func TestSummaryOfNothing(t *testing.T) {
	s := Summarise([]float64{math.NaN()})
	if !math.IsNaN(s.Mean) || !math.IsNaN(s.SD) || !math.IsNaN(s.Quantile(0.5)) || s.Missing != 1 {
		t.Errorf("%+v", s)
	}
	one := Summarise([]float64{3})
	if one.Mean != 3 || !math.IsNaN(one.SD) || one.Quantile(0.5) != 3 || !math.IsNaN(one.Quantile(math.NaN())) {
		t.Errorf("%+v", one)
	}
}
