package trace

import (
	"math"

	"swingwright/quantity"
)

// A Recording is what a file holds, understood and in SI, not yet judged.
type Recording struct {
	// File is the name that the caller gave it.
	File string
	// Columns are all columns of the file and what they were taken for.
	Columns []Column
	// Left counts rows that were left out because a cell that is needed was empty
	// or no number, and Cut tells that the last row was cut short.
	Left int
	Cut  bool

	t     []float64    // stamps from the first, s
	line  []int32      // of the file, from 1
	rate  [3][]float64 // about the device's axes, rad/s; the first alone is about the hinge
	accel [3][]float64 // m/s², NaN where the row has none; nil without acceleration
	angle []float64    // of the leaf, rad
	axes  int          // of rates: 3, 1, or 0 where angles are recorded
	lone  string       // the name of the rate about one axis of the device that is taken for that about the hinge; empty without
	greek bool         // the axes of rates are called alpha, beta and gamma
	unit  bool         // the unit of acceleration is known
}

// Rows is the number of rows that can be used.
func (r *Recording) Rows() int { return len(r.t) }

// Row is row i: its stamp from the first, its line in the file, and the rates
// about the device's axes. Of a recording with one rate about the hinge the
// others are zero; of angles all are NaN.
func (r *Recording) Row(i int) (at quantity.Time, line int, rates [3]quantity.AngularSpeed) {
	for k := range rates {
		switch {
		case r.axes == 0:
			rates[k] = quantity.AngularSpeed(math.NaN())
		case k < r.axes:
			rates[k] = quantity.AngularSpeed(r.rate[k][i])
		}
	}
	return quantity.Time(r.t[i]), int(r.line[i]), rates
}
