package plan

import (
	"slices"

	"swingwright/clearance"
	"swingwright/fact"
	"swingwright/opening"
	q "swingwright/quantity"
)

// The heights that the accessibility standards tell apart within the clear width
// (2010 ADA Standards, 404.2.3).
var (
	lowBand  = clearance.Band{From: 0, To: 34 * q.Inch}
	highBand = clearance.Band{From: 34 * q.Inch, To: 80 * q.Inch}
)

// facts are what the plan geometry tells where nobody taped it. They are put
// among the readings, since they depend on lengths that nothing else turns on:
// each has its own spread, drawn apart from all others.
func (r *Room) facts(o *opening.Opening, m *Resolved, s *spreads, read readings) {
	add := func(id fact.ID, d, u q.Length, output int) {
		if read.has(id) {
			return
		}
		most := s.most(output)
		r.known = append(r.known, reading{id: id, value: float64(d), u: float64(u), origin: Computed, most: most.what, assumed: most.assumed})
	}
	if len(r.Widths) > 0 {
		add(fact.ClearWidth, r.Widths[0].Bare, r.Widths[0].U, sWidth90)
		if m.Operator != nil {
			add(fact.PoweredClearWidth, r.Widths[1].Bare, r.Widths[1].U, sWidthOpen)
		}
		r.projections(add)
	}
	if r.Nearest != nil {
		add(fact.BehindLeaf, r.Nearest.Distance, r.Nearest.U, sNear)
	}
	if len(r.Controls) == 0 {
		return
	}
	var all readings
	all.controls(r.filled(o))
	for _, one := range all {
		if slices.Contains(byPlace, one.id) && !read.has(one.id) {
			one.origin, one.most = Computed, "place of a control"
			r.known = append(r.known, one)
		}
	}
}

// byPlace are the facts that the places of the controls tell.
var byPlace = []fact.ID{
	fact.ControlFarthest, fact.ControlFromSwing, fact.ControlFromSwingMost, fact.ControlFromOpenEdge,
	fact.ControlBeside, fact.ControlAheadPull, fact.ControlAheadPush,
}

// projections tell how far what is on the leaf stands into the clear width, as
// far as anything does: that nothing does has to be looked at.
func (r *Room) projections(add func(id fact.ID, d, u q.Length, output int)) {
	for _, b := range [...]struct {
		id   fact.ID
		band clearance.Band
	}{{fact.LowProjection, lowBand}, {fact.HighProjection, highBand}} {
		var most q.Length
		for _, cut := range r.Widths[0].Cuts {
			if cut.Heights.Meets(b.band) {
				most = max(most, cut.Into)
			}
		}
		if most > 0 {
			add(b.id, most, tape, sWidth90)
		}
	}
}

// has tells that a fact is among the readings.
func (r readings) has(id fact.ID) bool {
	return slices.ContainsFunc(r, func(one reading) bool { return one.id == id })
}

// noWidth says why the clear width is not known.
func (r *Room) noWidth() string {
	switch {
	case !r.Known:
		return "it was not taped, and the width of the leaf is not known"
	case !r.Framed:
		return "it was not taped, and cannot be computed without the width of the opening and its stop"
	}
	return ""
}
