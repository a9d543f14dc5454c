package trace

import (
	"fmt"
	"math"
	"strings"

	"swingwright/quantity"
)

// A Term is one line of a budget.
type Term[Q quantity.Quantity] struct {
	Name string
	U    Q // standard uncertainty that it brings to the reading
}

// A Reading is a measured value with its budget, or the reason why there is none.
type Reading[Q quantity.Quantity] struct {
	quantity.Measured[Q]
	Terms []Term[Q]
	// Why says why there is no value; empty where there is one.
	Why string
}

// String is the value with its expanded uncertainty, or why there is none.
func (r Reading[Q]) String() string {
	if !r.Known {
		return "not measured: " + r.Why
	}
	return quantity.Format(r.Measured, quantity.SI)
}

// Budget prints the terms that have any weight, one a line, and what they come
// to, in the reader's units.
func (r Reading[Q]) Budget(units quantity.System) string {
	if !r.Known {
		return "not measured: " + r.Why + "\n"
	}
	var b strings.Builder
	line := func(name string, u Q) {
		fmt.Fprintf(&b, "%-40s %s\n", name, quantity.FormatValue(u, units, 4))
	}
	for _, t := range r.Terms {
		if t.U > r.U/500 {
			line(t.Name, t.U)
		}
	}
	line("standard uncertainty", r.U)
	fmt.Fprintf(&b, "%-40s %s\n", "value ± expanded uncertainty (k = 2)", quantity.Format(r.Measured, units))
	return b.String()
}

// no is a reading that there is not.
func no[Q quantity.Quantity](why string, args ...any) Reading[Q] {
	return Reading[Q]{Why: fmt.Sprintf(why, args...)}
}

// got is a reading of a value with its terms, of which those of no weight are
// left out.
func got[Q quantity.Quantity](value float64, terms ...Term[Q]) Reading[Q] {
	var r Reading[Q]
	u := 0.0
	for _, t := range terms {
		if x := math.Abs(float64(t.U)); x > 0 {
			r.Terms = append(r.Terms, Term[Q]{t.Name, Q(x)})
			u = math.Hypot(u, x)
		}
	}
	if !(math.Abs(value) < math.MaxFloat64 && u < math.MaxFloat64) {
		return no[Q]("it could not be worked out")
	}
	r.Measured = quantity.Give(Q(value), Q(u))
	r.Stated = true
	return r
}
