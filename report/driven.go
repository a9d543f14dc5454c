package report

import (
	"fmt"

	"swingwright/fact"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/swing"
)

// driving lists the facts shown of an opening under power, each under a short name.
var driving = []struct {
	id   fact.ID
	name string
}{
	{fact.PoweredTimeToCheck, "driven to backcheck or 80 deg"},
	{fact.PoweredTimeTo90, "driven to 90 deg"},
	{fact.PoweredTimeToOpen, "driven fully open"},
	{fact.PoweredPeakEnergy, "largest energy, opening"},
}

// driven says how the operator opens the leaf, where one is described.
func (t *Text) driven(tab *table, p *plan.Plan) {
	s := &p.Swing.Power
	if !s.Fitted {
		return
	}
	tab.add("under power", t.driveEnds(s), plan.Computed.String())
	for _, d := range driving {
		if f := p.Facts[d.id]; f.Known && f.Origin == plan.Computed {
			tab.add(d.name, value(d.id, f, t.style.Units), f.Origin.String())
		}
	}
	if f := p.Facts[fact.PoweredStallMoment]; f.Known && f.Origin == plan.Computed {
		at := quantity.Length(p.Facts[fact.LatchEdge].Value) - swing.StallInset
		force := quantity.Give(swing.HandForce(quantity.Torque(f.Value), at), swing.HandForce(quantity.Torque(f.U), at))
		tab.add("force that stops it, 25 mm from the edge", hold(quantity.Format(force, t.style.Units)), f.Origin.String())
	}
	if s.Pressure > 0 {
		tab.add("opens against at most", hold(quantity.FormatValue(s.Pressure, t.style.Units, -1)), plan.Computed.String())
	}
}

// driveEnds tells where the drive brings the leaf.
func (t *Text) driveEnds(s *plan.Power) string {
	m := &s.Usual
	angle := hold(quantity.FormatValue(m.Angle, t.style.Units, 0))
	switch m.End {
	case swing.Opened:
		return "opens to " + angle
	case swing.Stalled:
		text := "stalls at " + angle
		for i, one := range s.Against[:min(2, len(s.Against))] {
			text += [...]string{" against ", " and "}[i] + fmt.Sprint(one.Against)
		}
		return text
	}
	return fmt.Sprintf("%v at %s", m.End, angle)
}
