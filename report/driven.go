package report

import (
	"fmt"

	"swingwright/fact"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/swing"
)

// driving lists the facts shown of an opening under power, each under a short name.
var driving = []struct {
	id   fact.ID
	name string
}{
	{fact.PoweredTimeToCheck, "to backcheck or 80 deg"},
	{fact.PoweredTimeTo90, "to 90 deg"},
	{fact.PoweredTimeToOpen, "to fully open"},
	{fact.PoweredDwell, "held open"},
	{fact.PoweredPeakEnergy, "largest energy, opening"},
}

// operator says what is to drive the leaf; nothing where no operator is named.
func (t *Text) operator(p *plan.Plan) string {
	sheet, r := p.Resolved.Operator, p.Resolved
	if sheet == nil {
		return ""
	}
	text := sheet.Name + ", " + operatorWords[sheet.Kind]
	if p.Opening.Operator.Fitted != "yes" {
		text += ", meant"
	}
	if r.Drive.Fitted {
		rate, stop := r.Rows[swing.OpenRate], r.Rows[swing.OpenAngle]
		text += fmt.Sprintf("; set to %s and to stop at %s", quantityOf(quantity.DimAngularSpeed, rate, t.style.Units), quantityOf(quantity.DimAngle, stop, t.style.Units))
	}
	return text
}

var operatorWords = map[opening.OperatorKind]string{
	opening.AddOn:  "turning the closer's pinion",
	opening.OwnArm: "with an arm of its own",
}

// howItIsDriven says how the operator opens the leaf, where one is named.
func (t *Text) howItIsDriven(p *plan.Plan) {
	if p.Resolved.Operator == nil {
		return
	}
	t.head("How it opens under power")
	tab := t.section(16, 20, 8)
	if s := &p.Swing.Power; s.Fitted {
		t.drivenTo(tab, p)
		t.drivenBy(tab, p)
		t.stops(tab, p)
	} else {
		tab.add("opening", "not reckoned; see the notes", "")
	}
	t.hand(tab, p)
	t.put(tab)
}

// drivenTo tells where the drive brings the leaf.
func (t *Text) drivenTo(tab *table, p *plan.Plan) {
	s := &p.Swing.Power
	if s.From > 0 {
		tab.add("push that starts it", hold(quantity.FormatValue(s.Push, t.style.Units, -1))+" at the handle, to "+degrees(s.From), plan.Computed.String())
	}
	against := s.Against
	tab.add("driven", t.driveEnds(&s.Usual, against), plan.Computed.String())
	if s.Usual.End == swing.Stalled {
		against = nil
	}
	if p.Resolved.Least != p.Resolved.Rows[swing.Pressure] {
		tab.add("", t.driveEnds(&s.Worst, against)+", at the smallest pressure", plan.Computed.String())
	}
}

// drivenBy tells times and energy.
func (t *Text) drivenBy(tab *table, p *plan.Plan) {
	for _, d := range driving {
		if f := p.Facts[d.id]; f.Known {
			tab.add(d.name, value(d.id, f, t.style.Units), f.Origin.String())
		}
	}
}

// stops tells what stops the leaf, and whether its open angle is a usual one.
func (t *Text) stops(tab *table, p *plan.Plan) {
	s := &p.Swing.Power
	if f := p.Facts[fact.PoweredStallMoment]; f.Known {
		tab.add("force that stops it, 25 mm from the edge", t.forceAt(f, stallRadius(p)), f.Origin.String())
	}
	most := "not even without pressure"
	if s.Pressure > 0 {
		most = hold(quantity.FormatValue(s.Pressure, t.style.Units, -1))
	}
	tab.add("opens against at most", most, plan.Computed.String())
	stop, word := quantity.Angle(p.Resolved.Rows[swing.OpenAngle].Value), "within"
	if stop < plan.LeastOpenAngle || stop > plan.LargestOpenAngle {
		word = "outside"
	}
	tab.add("open angle", fmt.Sprintf("%s, %s the usual %.0f to %.0f deg (common practice)",
		degrees(stop), word, plan.LeastOpenAngle/quantity.Degree, plan.LargestOpenAngle/quantity.Degree), "")
}

// stallRadius is where the force that stops the leaf is given.
func stallRadius(p *plan.Plan) quantity.Length {
	return quantity.Length(p.Facts[fact.LatchEdge].Value) - swing.StallInset
}

// driveEnds tells where a motion under power ended, and against what.
func (t *Text) driveEnds(m *swing.Powered, against []swing.Resistance) string {
	angle := hold(quantity.FormatValue(m.Angle, t.style.Units, 0))
	switch m.End {
	case swing.Opened:
		return "opens to " + angle
	case swing.Stalled:
		return "stalls at " + angle + t.resistances(against)
	case swing.Unfinished:
		if m.Err != nil {
			return "could not be followed: " + m.Err.Error()
		}
		return "not reckoned"
	}
	return fmt.Sprintf("%v at %s", m.End, angle)
}

// resistances names the two largest.
func (t *Text) resistances(all []swing.Resistance) (text string) {
	lead := " against "
	for _, one := range all[:min(2, len(all))] {
		text += lead + fmt.Sprint(one.Against) + ", " + hold(quantity.FormatValue(one.Moment, t.style.Units, -1))
		lead = " and "
	}
	return text
}
