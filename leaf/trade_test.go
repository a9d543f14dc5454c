package leaf

import (
	"math"
	"testing"

	"swingwright/opening"
	"swingwright/quantity"
)

// Leaves of 1-3/4 in built up from their sheets, against the trade's table of
// weights per area (from memory, rounded to 0.2 lb/ft²). The table counts what
// layers do not: the channels and edges of a metal leaf, the reinforcement at
// hinges and lock, the rails of a wood one. So what is built up may lie below it by
// some tenths and never above.
func TestLeavesOfTheTradeTable(t *testing.T) {
	inches := func(n float64) quantity.Measured[quantity.Length] {
		return quantity.Exactly(quantity.Length(n) * quantity.Inch)
	}
	skin := opening.Layer{Material: "oak", Thickness: inches(1. / 8), Count: 2}
	faces := func(gauge int) opening.Layer { return opening.Layer{Material: "steel", Gauge: gauge, Count: 2} }
	for _, c := range []struct {
		what      string
		layers    []opening.Layer
		low, high float64 // lb/ft², the table
		lacks     float64 // what the table may count besides, lb/ft²
	}{
		{"solid core, particleboard", []opening.Layer{{Material: "particleboard", Thickness: inches(1.5)}, skin}, 4.6, 5.2, 0.05},
		{"steel, 18 gauge, stiffened", []opening.Layer{faces(18), {Material: "steel-stiffened core"}}, 4.6, 5.4, 0},
		{"steel, 16 gauge, stiffened", []opening.Layer{faces(16), {Material: "steel-stiffened core"}}, 5.2, 6.2, 0},
		{"steel, 14 gauge, stiffened", []opening.Layer{faces(14), {Material: "steel-stiffened core"}}, 6.8, 7.8, 0},
		{"steel, 18 gauge, honeycomb", []opening.Layer{faces(18), {Material: "honeycomb core"}}, 4.6, 5.4, 0.75},
		{"steel, 16 gauge, honeycomb", []opening.Layer{faces(16), {Material: "honeycomb core"}}, 5.2, 6.2, 0.75},
		{"steel, 14 gauge, honeycomb", []opening.Layer{faces(14), {Material: "honeycomb core"}}, 6.8, 7.8, 0.75},
		// The estimate of a mineral core is that of the bare core; the table's leaf
		// has stiles, rails and crossbands besides, so it is far heavier: weigh it.
		{"mineral core, 60 to 90 min", []opening.Layer{{Material: "mineral core"}, skin}, 5.0, 6.0, 1.7},
		{"all glass, 1/2 in", []opening.Layer{{Material: "glass", Thickness: inches(0.5)}}, 6.5, 6.5, 0.01},
		{"insulating glass, 2 × 1/4 in", []opening.Layer{{Material: "glass", Thickness: inches(0.25), Count: 2}}, 6.5, 6.5, 0.01},
		// 11 340 kg/m³ make 0.92 lb/ft² of 1/64 in; the table rounds up to 1.0.
		{"lead, 1/64 in", []opening.Layer{{Density: quantity.Exactly(quantity.Density(11340)), Thickness: inches(1. / 64)}}, 1.0, 1.0, 0.09},
	} {
		b := BuildUp(&opening.Leaf{Layers: c.layers}, Slab{Width: quantity.Foot, Height: quantity.Foot})
		got := float64(b.Slab.Value / quantity.Pound)
		if len(b.Doubts) > 0 || got < c.low-c.lacks || got > c.high+0.05 {
			t.Errorf("%s: %.2f lb/ft², the table has %.1f to %.1f (doubts %v)", c.what, got, c.low, c.high, b.Doubts)
		}
	}
}

// A stopwatch that is off by 0.1 s in the example of the free push is off by ±10 %
// in the weight, as the trade says.
func TestStopwatchInAFreePush(t *testing.T) {
	weigh := func(t quantity.Time) float64 {
		return float64(EquivalentMass(InPlace(2*quantity.PoundForce, 33*quantity.Inch, 60*quantity.Degree, t), 36*quantity.Inch))
	}
	for _, off := range []quantity.Time{-0.1, 0.1} {
		if got := weigh(2.06+off)/weigh(2.06) - 1; math.Abs(math.Abs(got)-0.10) > 0.006 { // it prints whole percents
			t.Errorf("%+.1f s: %+.1f %% of the weight, want 10", float64(off), 100*got)
		}
	}
}
