package judge

import (
	"math"
	"testing"
)

func TestMargin(t *testing.T) {
	for _, c := range []struct {
		side               Side
		value, limit, want float64
	}{
		{AtLeast, 3.25, 3, 0.25}, {AtLeast, 2.5, 3, -0.5}, {AtLeast, 3, 3, 0},
		{AtMost, 61, 67, 6}, {AtMost, 68, 67, -1}, {AtMost, 67, 67, 0},
		{AtLeast, -2, -3, 1}, {AtMost, -2, -3, -1},
		{AtLeast, math.Inf(1), 3, math.Inf(1)}, {AtMost, math.Inf(1), 3, math.Inf(-1)},
		{AtLeast, 0.3, 0.1 + 0.2, 0}, // 0.30000000000000004 in float64
		{AtMost, 0.1 + 0.2, 0.3, 0},
		{AtLeast, 1 - 1.0/(1<<30), 1, -1.0 / (1 << 30)}, // a real difference stays
	} {
		if got := Margin(c.side, c.value, c.limit); got != c.want || (got == 0 && math.Signbit(got)) {
			t.Errorf("margin of %v, %v %v = %v, want %v", c.value, c.side, c.limit, got, c.want)
		}
	}
	for _, got := range []float64{Margin(AtLeast, math.NaN(), 3), Margin(AtMost, 3, math.NaN()), Margin(9, 3, 3)} {
		if !math.IsNaN(got) {
			t.Errorf("the margin of what is no number, or on no side, = %v", got)
		}
	}
}

func TestSideWords(t *testing.T) {
	for s, want := range map[Side]string{AtLeast: "at least", AtMost: "at most", 9: "side 9"} {
		if got := s.String(); got != want {
			t.Errorf("side %d is %q, want %q", s, got, want)
		}
	}
}
