package swing

import (
	"math"
	"testing"

	q "swingwright/quantity"
)

// The trade's table of closer sizes, worked out from the closing moments of EN 1154
// (from memory): the force at the edge of a 36 in leaf while it closes, and the
// force that opens it at 33.5 in with the least efficiency of the size; all
// printed to two digits. Size 3 at its lower end is 8.7 lbf, printed 8.6, and size 5 at its upper
// end 15.0 to 21.9, printed 15 to 22.
func TestSizesInPounds(t *testing.T) {
	for _, c := range []struct {
		size              q.Ratio
		efficiency        float64
		shutLow, shutHigh float64 // lbf at 36 in
		openLow, openHigh float64 // lbf at 33.5 in
		within            float64 // of the opening forces
	}{
		{1, 0.50, 2.2, 3.2, 4.8, 6.9, 0.051},
		{2, 0.50, 3.2, 4.4, 6.9, 9.5, 0.051},
		{3, 0.55, 4.4, 6.4, 8.6, 12.4, 0.1},
		{4, 0.60, 6.4, 9.1, 11.4, 16.3, 0.051},
		{5, 0.65, 9.1, 13.3, 15, 22, 0.51},
		{6, 0.65, 13, 21, 22, 35, 0.51},
	} {
		low, high, err := SizeBand(c.size)
		if err != nil {
			t.Fatal(err)
		}
		pounds := func(m q.Torque, at q.Length) float64 { return float64(HandForce(m, at) / lbf) }
		for _, v := range []struct{ got, want, within float64 }{
			{pounds(low, 0.914), c.shutLow, 0.51 * unit(c.shutLow)}, {pounds(high, 0.914), c.shutHigh, 0.51 * unit(c.shutHigh)},
			{pounds(low/q.Torque(c.efficiency), 33.5*inch), c.openLow, c.within}, {pounds(high/q.Torque(c.efficiency), 33.5*inch), c.openHigh, c.within},
		} {
			if math.Abs(v.got-v.want) > v.within {
				t.Errorf("size %g: %.2f lbf, the table has %g", float64(c.size), v.got, v.want)
			}
		}
	}
}

// unit is the last place of a printed force: tenths, or whole pounds where the
// table has no tenths.
func unit(printed float64) float64 {
	if printed == math.Trunc(printed) {
		return 1
	}
	return 0.1
}

// The leaf's edge on a 3-0 × 7-0 takes 0.22 lbf for each pascal, 0.24 at 33.5 in, and
// the wind of 20 mph, 48 Pa, 10.5 lbf, as the trade works it out.
func TestAirInPounds(t *testing.T) {
	moment := against(36*inch, 84*inch, 1)
	for _, c := range []struct {
		at           q.Length
		pascals      float64
		want, within float64
	}{
		{36 * inch, 1, 0.22, 0.0051}, {33.5 * inch, 1, 0.24, 0.0051}, {36 * inch, 12.5, 2.7, 0.051}, {36 * inch, 48, 10.5, 0.051},
	} {
		if got := c.pascals * float64(HandForce(moment, c.at)/lbf); math.Abs(got-c.want) > c.within {
			t.Errorf("%g Pa: %.3f lbf, want %g", c.pascals, got, c.want)
		}
	}
}
