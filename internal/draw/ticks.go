package draw

import (
	"math"
	"strconv"
	"strings"
)

// Ticks are round values, 1, 2 or 5 times a power of ten apart, within low to
// high: as many as there can be without being more than most. Low above high,
// or numbers that are not finite, give none.
func Ticks(low, high float64, most int) []float64 {
	span := high - low
	if !(span > 0) || math.IsInf(span, 0) || most < 1 {
		return nil
	}
	power := math.Pow(10, math.Floor(math.Log10(span/float64(most))))
	for _, round := range []float64{1, 2, 5, 10, 20} {
		step := round * power
		first, last := math.Ceil(low/step-1e-9), math.Floor(high/step+1e-9)
		if last-first+1 > float64(most) || step == 0 {
			continue
		}
		var ticks []float64
		for k := first; k <= last; k++ {
			ticks = append(ticks, k*step)
		}
		return ticks
	}
	return nil
}

// Labels writes the values with as many decimals as tell them apart, all alike.
func Labels(ticks []float64) []string {
	decimals := 0
	for _, v := range ticks {
		for decimals < 6 && math.Abs(v*math.Pow10(decimals)-math.Round(v*math.Pow10(decimals))) > 1e-6*math.Pow10(decimals)*step(ticks) {
			decimals++
		}
	}
	labels := make([]string, len(ticks))
	for i, v := range ticks {
		text := strconv.FormatFloat(v+0, 'f', decimals, 64)
		if strings.Trim(text, "-0.") == "" {
			text = strings.TrimPrefix(text, "-")
		}
		labels[i] = strings.Replace(text, "-", "\u2212", 1)
	}
	return labels
}

// step is the least distance between neighbours, 1 if there are none.
func step(ticks []float64) float64 {
	least := math.Inf(1)
	for i := 1; i < len(ticks); i++ {
		least = min(least, math.Abs(ticks[i]-ticks[i-1]))
	}
	if math.IsInf(least, 1) {
		return 1
	}
	return least
}
