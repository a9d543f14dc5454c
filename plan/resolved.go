package plan

import (
	"swingwright/leaf"
	"swingwright/opening"
	"swingwright/quantity"
	"swingwright/swing"
)

// Resolved is an opening made into a model: every quantity of the equations
// with its spread and where it comes from. It is plain data, and all that is
// computed of an opening is computed from it.
type Resolved struct {
	Rows [swing.NumValues]Row
	Link swing.Linkage
	// Sized tells that width and height of the leaf are known, measured or
	// nominal; without them nothing can be computed.
	Sized bool
	// Free tells that there is no closer, which is not the same as one that
	// nobody described.
	Free bool
	// Drive is the operator, fitted only where it can be reckoned with.
	Drive swing.Drive
	// Operator is its sheet, nil without one.
	Operator *opening.OperatorSheet
	// Dwell is for how long it is set to hold the leaf open, PushStart the leaf
	// angle from which it takes over from a hand that starts it.
	Dwell, PushStart Row
	// TimedWith tells that the operator turned along when the closing times were taken.
	TimedWith bool
	// Found are the closing times a stopwatch found; where known, they set the
	// resistances of sweep and latch.
	Found struct{ Sweep, Latch Row }
	// Most and Least are the pressures to be reckoned with on latching and on
	// opening by hand; the usual one where no other was stated.
	Most, Least Row
	// Handle is the distance from the hinge axis to where the hand works the leaf.
	Handle Row
	// Times tells that the closing side of the valves is known, so that closing
	// can be timed at all.
	Times bool
	// Backcheck and LatchZone tell that those zones are known, not assumed.
	Backcheck, LatchZone bool
	// Release is how the hand releases the latch, empty where unknown.
	Release opening.ReleaseMotion
	// Size is the power size the closer is set to.
	Size Row
	// Weight lists what the leaf's mass was built up from.
	Weight []leaf.Part
	// Notes say what could not be used, and what was made of it instead.
	Notes []string
}

// Row is one quantity of a resolved model.
type Row struct {
	Value, U float64 // in SI; U the standard uncertainty
	Source   string  // where it comes from
	Assumed  bool    // whether nobody found it out: a measurement would do better
	Known    bool
}

func row[Q quantity.Quantity](m quantity.Measured[Q], source string) Row {
	return Row{Value: float64(m.Value), U: float64(m.U), Source: source, Known: m.Known}
}

// values are the best estimates.
func (r *Resolved) values() (v swing.Values) {
	for i := range r.Rows {
		v[i] = r.Rows[i].Value
	}
	return v
}

// resolver makes one Resolved.
type resolver struct {
	*Resolved
}

// set takes a quantity that somebody found out.
func (r resolver) set(v swing.Value, value, u float64, source string) {
	r.Rows[v] = Row{Value: value, U: u, Source: source, Known: true}
}

// assume takes a quantity that nobody found out.
func (r resolver) assume(v swing.Value, value, u float64, why string) {
	r.Rows[v] = Row{Value: value, U: u, Source: "assumed: " + why, Assumed: true, Known: true}
}

// take uses what was measured, with spread u where none was stated, else assumes.
func take[Q quantity.Quantity](r resolver, v swing.Value, m quantity.Measured[Q], u Q, fallback, fallbackU Q, why string) {
	if m.Known {
		m = m.WithSpread(u)
		r.set(v, float64(m.Value), float64(m.U), surveyed)
		return
	}
	r.assume(v, float64(fallback), float64(fallbackU), why)
}

const (
	surveyed = "survey"
	tape     = quantity.Inch / 16 // standard uncertainty of a length taken with a tape; assumed
)
