package trace

import (
	"fmt"
	"math"
	"slices"

	"swingwright/quantity"
)

// order is the rows of a recording put in order of time, and where its clock
// breaks.
type order struct {
	row    []int32   // of the recording
	t      []float64 // mended stamps, s
	step   float64   // the usual one, s
	coarse float64   // width of the spans over which equal stamps were spread, s; 0 where they are rare
	breaks []int     // places in row at which a new clock begins
	faults []Fault
}

// longest is the longest gap inside of one stretch of recording, s: beyond it
// the clock may have been set.
const longest = 10

// inOrder mends the stamps: rows written twice are dropped, neighbours that were
// exchanged are put right, and rows with one stamp are spread up to the next.
func (r *Recording) inOrder() order {
	o := order{row: make([]int32, 0, len(r.t)), t: make([]float64, 0, len(r.t))}
	twice := 0
	for i := range r.t {
		if i > 0 && r.t[i] == r.t[i-1] && r.same(i, i-1) {
			twice++
			continue
		}
		o.row, o.t = append(o.row, int32(i)), append(o.t, r.t[i])
	}
	o.step = usualStep(o.t)
	if twice > 0 {
		o.tell(r, 0, fmt.Sprintf("%d rows stand there twice", twice), "they were dropped; see whether the recorder can write each sample once")
	}
	o.exchange(r)
	o.spread(r)
	o.breakUp(r)
	return o
}

// mostFaults is how many faults of a recording's clock are told.
const mostFaults = 20

func (o *order) tell(r *Recording, i int, found, better string) {
	if len(o.faults) >= mostFaults {
		return
	}
	o.faults = append(o.faults, Fault{At: quantity.Time(o.t[i]), Line: int(r.line[o.row[i]]), Found: found, Better: better})
}

// same tells that two rows hold the same values.
func (r *Recording) same(i, k int) bool {
	for axis := range r.axes {
		if r.rate[axis][i] != r.rate[axis][k] {
			return false
		}
	}
	for _, a := range r.accel {
		if a != nil && a[i] != a[k] {
			return false
		}
	}
	return r.angle == nil || r.angle[i] == r.angle[k]
}

// usualStep is the median of the steps forward, s.
func usualStep(t []float64) float64 {
	every := max(1, len(t)/4000)
	steps := make([]float64, 0, 4001)
	for i := 1; i < len(t); i += every {
		if d := t[i] - t[i-1]; d >= 0 && d < longest {
			steps = append(steps, d)
		}
	}
	if len(steps) == 0 {
		return 0
	}
	slices.Sort(steps)
	if m := steps[len(steps)/2]; m > 0 {
		return m
	}
	sum := 0.0
	for _, d := range steps {
		sum += d
	}
	return sum / float64(len(steps)) // most stamps are equal
}

// exchange puts rows in order that come late by less than three steps.
func (o *order) exchange(r *Recording) {
	swaps, first := 0, 0
	for i := 1; i < len(o.t); i++ {
		for k := i; k > 0 && o.t[k] < o.t[k-1] && o.t[k-1]-o.t[k] < 3*o.step && i-k < 4; k-- {
			o.t[k], o.t[k-1] = o.t[k-1], o.t[k]
			o.row[k], o.row[k-1] = o.row[k-1], o.row[k]
			if swaps++; swaps == 1 {
				first = k
			}
		}
	}
	if swaps > 0 {
		o.tell(r, first, fmt.Sprintf("%d stamps are out of order", swaps), "they were sorted; use the stamps of the sensor, not those of the writing")
	}
}

// spread gives rows of one stamp even times up to the next stamp.
func (o *order) spread(r *Recording) {
	equal, first, span := 0, -1, 0.0
	var spans []float64
	for i := 0; i < len(o.t); {
		k := i + 1
		for k < len(o.t) && o.t[k] == o.t[i] {
			k++
		}
		if n := k - i; n > 1 {
			span = float64(n) * o.step
			if k < len(o.t) && o.t[k] > o.t[i] && o.t[k]-o.t[i] < 3*span+1 {
				span = o.t[k] - o.t[i]
			}
			for j := 1; j < n; j++ {
				o.t[i+j] = o.t[i] + span*float64(j)/float64(n)
			}
			if equal += n - 1; first < 0 {
				first = i
			}
			spans = append(spans, span)
		}
		i = k
	}
	if equal == 0 {
		return
	}
	if equal > len(o.t)/10 {
		slices.Sort(spans)
		o.coarse = spans[len(spans)/2]
		o.step = usualStep(o.t)
	}
	o.tell(r, first, fmt.Sprintf("%d rows have the stamp of the row before", equal), "they were spread evenly; record stamps in milliseconds or finer")
}

// breakUp finds where the clock runs back, or leaps so far ahead that it may
// have been set.
func (o *order) breakUp(r *Recording) {
	for i := 1; i < len(o.t); i++ {
		switch d := o.t[i] - o.t[i-1]; {
		case d < 0:
			o.breaks = append(o.breaks, i)
			o.tell(r, i, fmt.Sprintf("the clock ran back by %.3g s", -d), "use stamps that count from the start; the recording is taken as two")
		case d > longest:
			o.breaks = append(o.breaks, i)
			o.tell(r, i, fmt.Sprintf("the clock leapt ahead by %.3g s", d), "record without a pause, with stamps that count from the start; the recording is taken as two")
		}
	}
}

// gap is the shortest step that counts as a gap, s.
func (o *order) gap() float64 { return math.Max(4*o.step, 0.08) }
