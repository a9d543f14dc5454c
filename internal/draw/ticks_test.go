package draw

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestTicks(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		most      int
		want      string
	}{
		{0, 8, 9, "0 1 2 3 4 5 6 7 8"},
		{0, 8, 8, "0 2 4 6 8"},
		{-1.3, 1.3, 6, "−1.0 −0.5 0.0 0.5 1.0"},
		{0, 95, 12, "0 10 20 30 40 50 60 70 80 90"},
		{0.0012, 0.0021, 5, "0.0012 0.0014 0.0016 0.0018 0.0020"},
		{-300, 1200, 4, "0 500 1000"},
		{17, 18, 2, "17 18"},
		{3, 3, 5, ""},
		{5, 3, 5, ""},
		{math.NaN(), 3, 5, ""},
		{0, math.Inf(1), 5, ""},
		{0, 3, 0, ""},
	} {
		if got := strings.Join(Labels(Ticks(c.low, c.high, c.most)), " "); got != c.want {
			t.Errorf("%v to %v, at most %d: %q, want %q", c.low, c.high, c.most, got, c.want)
		}
	}
}

func TestTicksAreRoundAndManyEnough(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.Float64Range(-1e4, 1e4).Draw(t, "low")
		span := math.Pow(10, rapid.Float64Range(-3, 5).Draw(t, "decades"))
		most := rapid.IntRange(2, 20).Draw(t, "most")
		ticks := Ticks(low, low+span, most)
		// A step up from 2 to 5 loses the most.
		if len(ticks) > most || len(ticks) < most*2/5-1 {
			t.Fatalf("%d ticks, asked for %d", len(ticks), most)
		}
		for i, v := range ticks {
			if v < low-1e-6*span || v > low+span+1e-6*span {
				t.Fatalf("%v outside %v + %v", v, low, span)
			}
			if i > 0 {
				step := v - ticks[i-1]
				digit := step / math.Pow(10, math.Floor(math.Log10(step*1.000001)))
				if d := math.Round(digit); math.Abs(digit-d) > 1e-4 || !slices.Contains([]float64{1, 2, 5}, d) {
					t.Fatalf("step %v is not round", step)
				}
			}
		}
		for i, label := range Labels(ticks) {
			v, err := strconv.ParseFloat(strings.Replace(label, "\u2212", "-", 1), 64)
			if err != nil || math.Abs(v-ticks[i]) > 1e-6*span {
				t.Fatalf("%v is labelled %q", ticks[i], label)
			}
		}
	})
}
