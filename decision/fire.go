package decision

import (
	"swingwright/fact"
	"swingwright/judge"
	q "swingwright/quantity"
)

// Largest hole that may be drilled on site in a labelled leaf without its listing
// laboratory (NFPA 80-2010, 4.1.3, as restated; see the rulebooks).
const largestHole = 1 * q.Inch

// fire: may a labelled leaf be drilled, and does the operator let go of it?
func (l *ladder) fire() {
	f := &l.o.Fire
	if l.o.Leaf.Asbestos == "yes" {
		l.call("the owner's hygienist", "a core that may hold asbestos")
	}
	if l.powered {
		if l.o.Leaf.Asbestos != "" || l.o.Use.FireRated == "yes" { // an old fire door's core is suspect until somebody knows
			l.put(answered("The core is free of asbestos beyond doubt", practice, l.o.Leaf.Asbestos, "no", "leaf.asbestos_doubt"), Refer)
		}
		hidden := answered("No rods or wires run hidden where the leaf would be drilled", practice, l.o.Leaf.Concealed, "no", "leaf.concealed")
		if hidden.Verdict == judge.FallsShort {
			hidden.Why = "there are some: do not drill blind"
			hidden.Cures = []Cure{{What: "an operator that is fixed to the frame", Effort: Replacing, Answer: Change, Works: true}}
		}
		l.put(hidden, Change)
	}
	if l.o.Use.FireRated != "yes" {
		return
	}
	inspector := func(r Rung, why string) Rung {
		if r.Verdict == judge.FallsShort {
			l.call("fire-door inspector, or the labelling agency through the leaf's maker", why)
		}
		return r
	}
	const nfpa = "NFPA 80, 4.1.3 and 5.2 (by edition: see the rulebooks)"
	l.put(inspector(answered("The labels of leaf and frame are there and can be read", nfpa, f.LabelLegible, "yes", "fire.label_legible"), "a label that is missing or cannot be read"), Refer)
	if f.Modified == "yes" && f.Approved != "yes" {
		l.put(inspector(Rung{Test: "Nothing was done to it beyond what may be prepared on site", Source: nfpa, Verdict: judge.FallsShort, Why: "more was done, and nobody approved it"}, "work on it that was not approved"), Refer)
	}
	if hole := l.p.Facts[fact.HoleDiameter]; hole.Known && f.HolesListed != "yes" {
		r := l.number("Holes drilled on site, or meant to be, are no larger than may be prepared there", nfpa,
			Number{Dim: q.DimLength, Side: judge.AtMost, Value: hole.Value, Limit: float64(largestHole)}, true)
		l.put(inspector(r, "holes larger than may be drilled on site"), Refer)
	}
	if !l.powered {
		return
	}
	l.call("fire-alarm contractor", "the alarm takes the operator off the leaf: connect and test together")
	listed := f.OperatorListed
	if l.operator != nil {
		listed = firstAnswer(listed, l.operator.Limits.ForFire)
	}
	r := answered("The operator is listed for fire doors", nfpa, listed, "yes", "fire.operator_listed")
	if r.Verdict == judge.FallsShort {
		r.Cures = []Cure{{What: "an operator that is listed for fire doors", Effort: Replacing, Answer: Change, Works: true}}
	}
	l.put(r, Change)
	r = answered("An alarm takes the operator off the leaf, which then closes and latches", nfpa, f.AlarmReleases, "yes", "fire.alarm_releases")
	if r.Verdict == judge.FallsShort {
		r.Cures = []Cure{{What: "a relay of the alarm that cuts the operator's power to drive", Effort: Building, Answer: Refer, Works: true}}
	}
	l.put(r, Refer)
}
