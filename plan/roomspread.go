package plan

import (
	"math"
	"slices"

	"swingwright/clearance"
	"swingwright/internal/propagate"
	"swingwright/opening"
	q "swingwright/quantity"
)

// What the spreads of the measures are carried through to.
const (
	sWidth90 = iota
	sWidthOpen
	sWallStop
	sWallLeft
	sNear
	sContact
	sCord
	sCount
)

// The distances of one control.
const (
	cSweep = iota
	cLeaf
	cCentre
	cClosedEdge
	cPastOpen
	cAhead
	cCount
)

// spreads carries the spreads of a layout through its geometry by the linear law.
type spreads struct {
	l        *layout
	budget   *propagate.Budget
	controls []*propagate.Budget // of the controls in the survey's order; nil where not placed
	// near is what is nearest at the planned angle, by the places of both.
	near struct {
		gap           clearance.Gap
		mover, fellow int
		ok            bool
	}
	// contact is the first contact: the gap just short of it is what has a
	// spread, and how fast it closes turns that into one of the angle.
	contact struct {
		mover, fellow int
		short         q.Angle
		rate          float64 // m per radian
		ok            bool
	}
	cordTo q.Angle
}

// spreads reckons them all at once.
func (r *Room) spreads(o *opening.Opening, l *layout) *spreads {
	s := &spreads{l: l, cordTo: l.swings(o)}
	n := &s.near
	n.gap, n.mover, n.fellow, n.ok = clearance.Nearest(r.Movers, r.Fixed[:l.surroundings()], l.open)
	s.firstContact(r)
	s.budget = carried(l.inputs, sCount, s.reckon)
	s.controls = make([]*propagate.Budget, len(l.controls))
	for i, own := range l.own {
		if len(own) > 0 {
			s.controls[i] = carried(slices.Concat(l.inputs[:baseInputs], own), cCount, func(out []float64) { s.control(l.controls[i], out) })
		}
	}
	return s
}

// carried is the budget of a geometry by some of its measures, which are left as they were; nil where there is none.
func carried(by []taken, outs int, reckon func(out []float64)) *propagate.Budget {
	in := make([]propagate.Input, len(by))
	for i, t := range by {
		in[i] = propagate.Input{Mean: *t.at, U: t.u}
	}
	budget, err := propagate.Linear(in, outs, func(x, out []float64) {
		for i, t := range by {
			*t.at = x[i]
		}
		reckon(out)
	})
	for i, t := range by {
		*t.at = in[i].Mean
	}
	if err != nil {
		return nil
	}
	return budget
}

// firstContact looks where the first contact is about to happen.
func (s *spreads) firstContact(r *Room) {
	if len(r.Contacts) == 0 {
		return
	}
	first, c := &r.Contacts[0], &s.contact
	c.mover, c.fellow = place(r.Movers, first.Moving), place(r.Fixed, first.Fixed)
	if c.mover < 0 || c.fellow < 0 || !(first.Angle > 0) {
		return
	}
	step := min(q.Degree, first.Angle) / 2
	c.short = first.Angle - step
	farther, _ := clearance.Apart(r.Movers[c.mover], r.Fixed[c.fellow], c.short-step)
	nearer, _ := clearance.Apart(r.Movers[c.mover], r.Fixed[c.fellow], c.short)
	c.rate = float64(farther.Distance-nearer.Distance) / float64(step)
	c.ok = c.rate > 0
}

// place is where a body of that name is in a list; −1 where it is not.
func place(all []clearance.Body, name string) int {
	for i := range all {
		if all[i].Name() == name {
			return i
		}
	}
	return -1
}

// reckon is the geometry, all but the controls.
func (s *spreads) reckon(out []float64) {
	l := s.l
	if l.framed {
		out[sWidth90] = float64(clearance.ClearWidth(l.leaf, l.frame, openFully).Bare)
		out[sWidthOpen] = float64(clearance.ClearWidth(l.leaf, l.frame, l.open).Bare)
	}
	if l.walled {
		if theta, _, ok := clearance.WallStop(l.leaf, l.wall, clearance.WallGap, l.on...); ok {
			out[sWallStop] = float64(theta)
		}
		left, _ := clearance.WallLeft(l.leaf, l.wall, l.open, l.on...)
		out[sWallLeft] = float64(left)
	}
	if n := &s.near; n.ok {
		g, _ := clearance.Apart(l.mover(n.mover), l.stander(n.fellow), l.open)
		out[sNear] = float64(g.Distance)
	}
	if c := &s.contact; c.ok {
		g, _ := clearance.Apart(l.mover(c.mover), l.stander(c.fellow), c.short)
		out[sContact] = float64(g.Distance)
	}
	if l.corded {
		out[sCord] = float64(clearance.DoorLoop(l.cord.frame, l.cord.leaf, s.cordTo, 0).Longest)
	}
}

// control is where one control is.
func (s *spreads) control(at clearance.Point, out []float64) {
	stand := clearance.SwitchAt(s.l.leaf, s.l.open, at)
	out[cSweep], out[cLeaf], out[cCentre] = float64(stand.SwitchToSweep), float64(stand.SwitchToLeaf), float64(stand.SwitchToCentre)
	out[cClosedEdge], out[cPastOpen], out[cAhead] = float64(stand.SwitchToClosedEdge), float64(stand.SwitchPastOpenEdge), float64(stand.SwitchAhead)
}

// u is the standard uncertainty of an output; NaN where there is none.
func (s *spreads) u(j int) float64 {
	if s.budget == nil {
		return math.NaN()
	}
	return s.budget.U(j)
}

// of is that of a distance of a control.
func (s *spreads) of(control, distance int) q.Length {
	if s.controls[control] == nil {
		return q.Length(math.NaN())
	}
	return q.Length(s.controls[control].U(distance))
}

// contactSpread is that of the angle of the first contact.
func (s *spreads) contactSpread() q.Angle {
	if !s.contact.ok {
		return q.Angle(math.NaN())
	}
	return q.Angle(s.u(sContact) / s.contact.rate)
}

// most is the measure that an output depends on most.
func (s *spreads) most(j int) taken {
	if s.budget == nil || len(s.l.inputs) == 0 {
		return taken{}
	}
	return s.l.inputs[s.budget.Ranked(j)[0]]
}
