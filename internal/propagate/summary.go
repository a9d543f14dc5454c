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
	values  []float64 // finite; in order once a quantile was asked for
}

// Summarise reckons the summary of the values.
func Summarise(values []float64) Summary {
	return summarise(values, make([]float64, 0, len(values)))
}

// Summary summarises output j. It holds until the next call on d.
func (d *Draws) Summary(j int) Summary { return summarise(d.Output(j), d.finite[:0]) }

// summarise gathers the finite values in the given memory.
func summarise(values, memory []float64) Summary {
	sum := 0.
	for _, v := range values {
		if finite(v) {
			memory = append(memory, v)
			sum += v
		}
	}
	n := float64(len(memory))
	mean, squares := sum/n, 0.
	for _, v := range memory {
		squares += (v - mean) * (v - mean)
	}
	return Summary{Mean: mean, SD: math.Sqrt(squares / max(n-1, 0)), Missing: len(values) - len(memory), values: memory}
}

// Len is the number of values that the summary is made of.
func (s Summary) Len() int { return len(s.values) }

// Quantile is the value below which the share p (0 to 1) of the values lies:
// definition 8, the median-unbiased one, of Hyndman, Fan, "Sample quantiles in
// statistical packages", Am. Stat. 50 (1996) 361-365. NaN without values.
func (s Summary) Quantile(p float64) float64 {
	n := len(s.values)
	if n == 0 || math.IsNaN(p) {
		return math.NaN()
	}
	if !slices.IsSorted(s.values) {
		slices.Sort(s.values) // few ask, and sorting is most of the work
	}
	place := p*(float64(n)+1./3) + 1./3 // counted from 1
	below := math.Floor(min(max(place, 1), float64(n)))
	i := int(below) - 1
	if i == n-1 || place <= 1 {
		return s.values[i]
	}
	return s.values[i] + (place-below)*(s.values[i+1]-s.values[i])
}
