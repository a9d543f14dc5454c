package plan

import (
	"cmp"
	"math"
	"slices"

	"swingwright/clearance"
	"swingwright/fact"
	q "swingwright/quantity"
	"swingwright/swing"
)

// FloorMark is a mark of the latch edge on the floor, and what it is for.
type FloorMark struct {
	clearance.Mark
	For string
}

// usualMarks are the angles at which every leaf has its mark, with what times or looks at it.
var usualMarks = [...]struct {
	angle q.Angle
	why   string
}{
	{5 * q.Degree, "latch budget"}, {10 * q.Degree, "closing times"}, {12 * q.Degree, "closing times"}, {45 * q.Degree, ""}, {60 * q.Degree, ""},
	{70 * q.Degree, "closing times"}, {80 * q.Degree, "opening times"}, {90 * q.Degree, "closing and opening times"},
}

// sameMark is how near two angles are marked as one.
const sameMark = q.Degree / 4

// marks lays the marks, with those of this leaf's own zones.
func (r *Room) marks(m *Resolved, l *layout, best []float64) {
	var all []FloorMark
	add := func(angle q.Angle, why string) {
		if !(angle > 0 && angle < math.Pi) {
			return
		}
		for i := range all {
			if d := all[i].Angle - angle; d < sameMark && d > -sameMark {
				all[i].For = joinWords(all[i].For, why)
				return
			}
		}
		all = append(all, FloorMark{clearance.Mark{Angle: angle}, why})
	}
	for _, u := range usualMarks {
		add(u.angle, u.why)
	}
	add(closed75(l.leaf.Radius()), "75 mm from closed")
	if m.LatchZone {
		add(q.Angle(best[fact.LatchZoneFrom]), "latch zone")
	}
	add(q.Angle(best[fact.PoweredBackcheckFrom]), "opening slows")
	if !r.Open.Assumed {
		add(l.open, "fully open")
	}
	r.Marks = laid(all, m, l)
}

// laid gives marks their distances, in rising order.
func laid(all []FloorMark, m *Resolved, l *layout) []FloorMark {
	slices.SortFunc(all, func(a, b FloorMark) int { return cmp.Compare(a.Angle, b.Angle) })
	angles := make([]q.Angle, len(all))
	for i := range all {
		angles[i] = all[i].Angle
	}
	u := math.Hypot(m.Rows[swing.LeafWidth].U, m.Rows[swing.PinToEdge].U)
	marks, err := clearance.Marks(q.Give(l.leaf.Radius(), q.Length(u)), tape, angles...)
	if err != nil {
		return nil
	}
	for i := range all {
		all[i].Mark = marks[i]
	}
	return all
}

func joinWords(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + ", " + b
}
