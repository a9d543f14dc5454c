package propagate

import (
	"math"
	"slices"
)

// Summary tells how an output is distributed over the draws that have it.
type Summary struct {
	// Mean and SD are the average and the standard deviation (divisor one less
	// than the number of values; JCGM 101:2008, 7.6). NaN when there are too few.
	Mean, SD float64
	// Missing counts draws in which the output was not a finite number. They
	// are in no other figure.
	Missing int
	sorted  []float64
}

// Summarise reckons the summary of the values.
func Summarise(values []float64) Summary {
	return summarise(values, make([]float64, 0, len(values)))
}

// Summary summarises output j. It holds until the next call on d.
func (d *Draws) Summary(j int) Summary { return summarise(d.Output(j), d.sorted[:0]) }

// summarise sorts the finite values into the given memory.
func summarise(values, sorted []float64) Summary {
	sum := 0.
	for _, v := range values {
		if finite(v) {
			sorted = append(sorted, v)
			sum += v
		}
	}
	n := float64(len(sorted))
	mean, squares := sum/n, 0.
	for _, v := range sorted {
		squares += (v - mean) * (v - mean)
	}
	slices.Sort(sorted)
	return Summary{Mean: mean, SD: math.Sqrt(squares / max(n-1, 0)), Missing: len(values) - len(sorted), sorted: sorted}
}

// Len is the number of values that the summary is made of.
func (s Summary) Len() int { return len(s.sorted) }

// Quantile is the value below which the share p (0 to 1) of the values lies:
// definition 8, the median-unbiased one, of Hyndman, Fan, "Sample quantiles in
// statistical packages", Am. Stat. 50 (1996) 361-365. NaN without values.
func (s Summary) Quantile(p float64) float64 {
	n := len(s.sorted)
	if n == 0 || math.IsNaN(p) {
		return math.NaN()
	}
	place := p*(float64(n)+1./3) + 1./3 // counted from 1
	below := math.Floor(min(max(place, 1), float64(n)))
	i := int(below) - 1
	if i == n-1 || place <= 1 {
		return s.sorted[i]
	}
	return s.sorted[i] + (place-below)*(s.sorted[i+1]-s.sorted[i])
}
