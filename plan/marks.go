package plan

import (
	"math"

	"swingwright/fact"
	q "swingwright/quantity"
	"swingwright/swing"
)

// timing is the marks of one closing, in falling order: those of every opening,
// and two that depend on the leaf.
type timing struct {
	room  [len(marks) + 2]swing.Mark
	marks []swing.Mark
	near  q.Angle // 75 mm from closed at the latch edge
	check q.Angle // where the latch zone begins, or 10 degrees
}

// set puts in the marks for a leaf whose latch zone, where it is known, begins
// at zone; NaN where it is not.
func (t *timing) set(edge q.Length, zone float64) {
	t.marks, t.near, t.check = t.room[:0], closed75(edge), 10*q.Degree
	for _, angle := range marks {
		t.marks = append(t.marks, swing.Mark{Angle: angle})
	}
	t.marks = swing.WithMark(t.marks, t.near)
	if begins := q.Angle(zone); begins > t.check && begins < 90*q.Degree {
		t.check = begins
		t.marks = swing.WithMark(t.marks, begins)
	}
}

// at is when the leaf passed a mark, s; NaN where it did not.
func (t *timing) at(angle q.Angle) float64 { return float64(swing.PassedAt(t.marks, angle)) }

// toCheck is the time from 90 degrees to latch check or 10 degrees, whichever
// the leaf comes to first (ANSI/BHMA A156.19, section 4).
func (t *timing) toCheck() float64 { return t.at(t.check) - t.at(90*q.Degree) }

// zoneFrom is where the latch zone is known to begin, else NaN.
func (k *reckoner) zoneFrom(out []float64) float64 {
	if !k.r.LatchZone {
		return math.NaN()
	}
	return out[fact.LatchZoneFrom]
}

// toCheck adds, where no latch zone is known, that a time read to 10 degrees is
// the time to latch check too.
func (r readings) toCheck(zoneKnown bool) readings {
	to10, both := -1, false
	for i, one := range r {
		switch one.id {
		case fact.CloseTime90To10:
			to10 = i
		case fact.CloseTime90ToCheck:
			both = true
		}
	}
	if to10 < 0 || both || zoneKnown {
		return r
	}
	check := r[to10]
	check.id = fact.CloseTime90ToCheck
	return append(r, check)
}
