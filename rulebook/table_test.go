package rulebook

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestPicks(t *testing.T) {
	axis := Axis{At: []float64{30, 36, 42}}
	cases := []struct {
		pick   Pick
		within float64
		key    float64
		want   int // -1 for none
	}{
		{NextHigher, 0, 10, 0}, {NextHigher, 0, 30, 0}, {NextHigher, 0, 30.01, 1}, {NextHigher, 0, 42, 2}, {NextHigher, 0, 42.01, -1},
		{NextLower, 0, 29.99, -1}, {NextLower, 0, 30, 0}, {NextLower, 0, 41.9, 1}, {NextLower, 0, 99, 2},
		{Exact, 0, 36, 1}, {Exact, 0, 36.01, -1},
		{NextHigher, 0.0625, 36.0625, 1}, {NextHigher, 0.0625, 36.07, 2}, {NextLower, 0.0625, 35.95, 1}, {Exact, 0.0625, 35.95, 1},
		{NextHigher, 0, math.NaN(), -1}, {NextLower, 0, math.NaN(), -1}, {Exact, 0, math.NaN(), -1},
	}
	for _, c := range cases {
		axis.Pick, axis.Within = c.pick, c.within
		got, ok := axis.find(c.key)
		if !ok {
			got = -1
		}
		if got != c.want {
			t.Errorf("%v of %v within %v: entry %d, want %d", c.pick, c.key, c.within, got, c.want)
		}
	}
}

// A key that went through a conversion of units and back still finds its entry.
func TestRoundingOfUnitsIsForgiven(t *testing.T) {
	axis := Axis{At: []float64{30 * 0.0254, 36 * 0.0254}}
	for _, key := range []float64{0.9144, 914.4 / 1000, 3 * 0.3048, 36 * 25.4 / 1000, math.Nextafter(0.9144, 1)} {
		if i, ok := axis.find(key); !ok || i != 1 {
			t.Errorf("%v finds entry %d", key, i)
		}
	}
}

func TestBlankAndUnconfirmedCells(t *testing.T) {
	table := &Table{
		Rows:        Axis{At: []float64{1, 2, 3}},
		Columns:     Axis{At: []float64{10, 20}},
		Cells:       []float64{3, math.NaN(), 4, 5, 6, 7},
		Unconfirmed: []bool{true, false, true, false, false, false},
	}
	if v, sure, ok := table.Lookup(1, 10); v != 3 || sure || !ok {
		t.Errorf("unconfirmed cell: %v, %v, %v", v, sure, ok)
	}
	if _, _, ok := table.Lookup(1, 20); ok {
		t.Error("a blank cell was found")
	}
	if v, ok := table.LookupSure(1, 10); v != 6 || !ok {
		t.Errorf("the next confirmed row holds 6, got %v", v)
	}
	if _, ok := table.LookupSure(4, 10); ok {
		t.Error("beyond the table there is no cell")
	}
	table.Rows.Pick = NextLower
	if _, ok := table.LookupSure(1, 10); ok {
		t.Error("below the first row there is no row")
	}
}

// Picking the next higher entry never serves a key with a smaller one, and no
// entry lies between.
func TestNextHigherIsTheLeastThatSuffices(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := []float64{}
		for v, n := 0.0, rapid.IntRange(1, 8).Draw(t, "entries"); len(at) < n; {
			v += rapid.Float64Range(0.01, 10).Draw(t, "step")
			at = append(at, v)
		}
		key := rapid.Float64Range(-1, 90).Draw(t, "key")
		axis := Axis{At: at}
		i, ok := axis.find(key)
		switch {
		case !ok && key <= at[len(at)-1]:
			t.Fatalf("%v finds none of %v", key, at)
		case ok && at[i]*(1+slack) < key:
			t.Fatalf("%v is served by %v", key, at[i])
		case ok && i > 0 && at[i-1] >= key:
			t.Fatalf("%v is served by %v though %v suffices", key, at[i], at[i-1])
		}
	})
}
