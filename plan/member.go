package plan

import (
	"swingwright/fact"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/rulebook"
	"swingwright/swing"
)

// A Member is as much of a plan as a group needs: plans are streamed, and a group
// is judged when the last of its openings has passed.
type Member struct {
	ID, Name string
	Powered  bool // opened by an operator, as it is or is meant to be
	Cycle    Cycle
	Clears   Clearing // of an opening under power
	Speed    q.Speed  // of the people who have to get through
	Width    q.Length // of the leaf
	// ByHand and UnderPower are the clear widths, Closes the time from 90 degrees
	// to closed, Latch what is left of the latch budget at the pressure Most.
	ByHand, UnderPower, Closes, Latch Fact
	Most, Least                       Row
	PerPascal                         q.Torque // moment of a pascal on the closed leaf
	SwingsOut, Swings                 bool     // toward the outdoors; Swings tells that this is known
	Pull, Push                        []string // the switches on either side
	known                             rulebook.Env
}

// Member is what a group needs of a plan.
func (p *Plan) Member(sheets *opening.Sheets) *Member {
	o := p.Opening
	m := &Member{
		ID: o.ID, Name: o.Name, Powered: o.Use.Powered(), Speed: slowest(o), Width: q.Length(p.Resolved.Rows[swing.LeafWidth].Value),
		ByHand: p.Facts[fact.ClearWidth], UnderPower: p.Facts[fact.PoweredClearWidth],
		Closes: p.Facts[fact.CloseTime90ToClosed], Latch: p.Facts[fact.LatchMargin],
		Most: p.Resolved.Most, Least: p.Resolved.Least, known: p.Known(),
	}
	m.SwingsOut, m.Swings = o.SwingsOut()
	if m.Powered {
		m.Cycle, m.Clears = p.Cycle(sheets), p.Clearing()
	}
	if model, err := p.Model(); err == nil && p.Resolved.Sized {
		m.PerPascal = model.PressureMoment(q.Pascal)
	}
	for i := range o.Controls {
		switch c := &o.Controls[i]; c.Side {
		case opening.PullSide:
			m.Pull = append(m.Pull, switchName(c, i))
		case opening.PushSide:
			m.Push = append(m.Push, switchName(c, i))
		}
	}
	return m
}

// inward is the pressures on the leaf, least first, outdoors less indoors.
func (m *Member) inward() (low, high Row) {
	if !m.SwingsOut {
		return m.Least, m.Most
	}
	low, high = m.Most, m.Least
	low.Value, high.Value = -low.Value, -high.Value
	return low, high
}
