package plan

import (
	"fmt"
	"slices"
	"strings"

	"swingwright/fact"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/swing"
)

// outsideUse lists in what an opening lies outside the limits of use that the
// operator's paper states.
func (p *Plan) outsideUse(sheets *opening.Sheets) []Caution {
	sheet := p.Resolved.Operator
	if sheet == nil {
		return nil
	}
	l, c := &sheet.Limits, &p.Opening.Closer
	var out []string
	beyond(&out, "leaf width", p.Facts[fact.LeafWidth], l.WidthMin, l.WidthMax)
	beyond(&out, "leaf weight", p.Facts[fact.LeafMass], l.WeightMin, l.WeightMax)
	beyond(&out, "open angle", of(p.Resolved.Rows[swing.OpenAngle]), l.OpenMin, l.OpenMax)
	beside := p.Facts[fact.BehindLeaf]
	if wall := p.Room.Wall; wall != nil {
		beside = of(row(wall.Left, surveyed))
	}
	beyond(&out, "space beside the open leaf", beside, l.WallClearance, none[q.Length]())
	if over := p.Room.Over; over != nil {
		beyond(&out, "height over the head", of(row(over.Free, surveyed)), l.CeilingRoom, none[q.Length]())
	}
	beyond(&out, "depth of the reveal", of(row(p.Opening.Doorway.Depth, surveyed)), none[q.Length](), l.RevealMax)
	if sheet.Kind == opening.AddOn {
		beyond(&out, "closer's power", p.Facts[fact.CloserSize], l.PowerMin, l.PowerMax)
		arm := sheets.Arm(c.Arm)
		if arm != nil && len(l.Arms) > 0 && !slices.Contains(l.Arms, arm.Kind) {
			out = append(out, fmt.Sprintf("a %s arm is not among those it may be used with", arm.Kind))
		}
	}
	if len(out) == 0 {
		return nil
	}
	return []Caution{{"limits of use", "By its paper the operator " + sheet.Name + " is not for this opening: " + strings.Join(out, "; ") + "."}}
}

func of(r Row) Fact { return Fact{Known: r.Known, Value: r.Value, U: r.U} }

func none[Q q.Quantity]() (m q.Measured[Q]) { return m }

// both writes a value in both systems of units, once where they agree.
func both[Q q.Quantity](m q.Measured[Q]) string {
	us, si := q.Format(m, q.US), q.Format(m, q.SI)
	if us == si {
		return us
	}
	return us + " (" + si + ")"
}

// beyond adds what lies outside the limits stated, by its best estimate.
func beyond[Q q.Quantity](out *[]string, what string, f Fact, low, high q.Measured[Q]) {
	v := q.Give(Q(f.Value), Q(f.U))
	say := func(word string, limit q.Measured[Q]) {
		*out = append(*out, fmt.Sprintf("%s %s, %s %s", what, both(v), word, both(q.Exactly(limit.Value))))
	}
	switch {
	case !f.Known:
	case low.Known && v.Value < low.Value:
		say("at least", low)
	case high.Known && v.Value > high.Value:
		say("at most", high)
	}
}
