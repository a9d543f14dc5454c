package quantity

import "testing"

// Widths are given in inches: value, expanded uncertainty (negative: none).
func TestInchesAsFractions(t *testing.T) {
	for _, c := range []struct {
		value, half float64
		want        string
	}{
		{35.75, -1, "35-3/4 in"},
		{35.0625, -1, "35-1/16 in"},
		{35.5, -1, "35-1/2 in"},
		{36, -1, "36 in"},
		{0.125, -1, "1/8 in"},
		{-0.125, -1, "-1/8 in"},
		{-35.75, -1, "-35-3/4 in"},
		{0, -1, "0 in"},
		{-0.0001, -1, "0 in"},
		{35.7524, -1, "35-3/4 in"}, // within 0.002 in to the third decimal
		{35.7526, -1, "35.753 in"}, // beyond
		{35.9999, -1, "36 in"},
		{35.75, 1. / 16, "35-3/4 ± 1/16 in"},
		{35.75, 0.03, "35-3/4 ± 0.030 in"},
		{35.75, 0.07, "35.750 ± 0.070 in"},     // wider than a sixteenth
		{35.75, 1. / 8, "35.75 ± 0.12 in"},     // wider than a sixteenth; the tie goes to the even digit
		{35.7515, 0.01, "35.752 ± 0.010 in"},   // the fraction would lose more than the digits do
		{35.7504, 0.01, "35-3/4 ± 0.010 in"},   // a twentieth of the spread at most
		{35.75, 0.0001, "35-3/4 ± 0.00010 in"}, // on the mark
	} {
		u := max(c.half, 0) / 2 * float64(Inch)
		if got := Display(DimLength, c.value*float64(Inch), u, true, US); got != c.want {
			t.Errorf("%v in with %v = %q, want %q", c.value, c.half, got, c.want)
		}
	}
}

// Only the inch and the turn are divided by halves.
func TestOtherUnitsHaveNoFractions(t *testing.T) {
	for d, want := range map[Dimension]string{DimForce: "0.5 N", DimMass: "0.5 kg", DimTime: "0.5 s"} {
		if got := Display(d, 0.5, 0, true, SI); got != want {
			t.Errorf("half a unit of %s = %q, want %q", d, got, want)
		}
	}
}
