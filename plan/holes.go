package plan

import (
	"swingwright/drilling"
	"swingwright/fact"
	"swingwright/judge"
	"swingwright/leaf"
	"swingwright/linkage"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/swing"
)

// Holes are the holes of an opening, and what their fixings will bear.
type Holes struct {
	*drilling.Layout
	// Hang is how the leaf pulls at its top hinge; nil where weight, width or the
	// hinges' distance are not known.
	Hang *drilling.Hang
	// Strains are the largest forces on the far ends of the arms.
	Strains []ArmStrain
	// Findings are those of the plan's that concern holes.
	Findings []*Finding
}

// ArmStrain is the largest force that one cause puts on an arm's far end.
type ArmStrain struct {
	Cause string
	Arm   string // name of its sheet
	drilling.Strain
}

// Holes lays out the holes of the opening. sheets are those that the plan was made with.
func (p *Plan) Holes(sheets *opening.Sheets, policy judge.Policy) *Holes {
	h := &Holes{Layout: drilling.Lay(p.Opening, sheets, policy)}
	fixed := opening.FixedWith(p.Opening, sheets)
	h.Hang = p.hang(fixed)
	h.Strains = p.strains(fixed)
	for i := range p.Findings {
		f := &p.Findings[i]
		switch f.Rule.Of {
		case fact.HoleDiameter, fact.Modified, fact.OpenHoles, fact.LabelLegible:
			h.Findings = append(h.Findings, f)
		}
	}
	return h
}

// hang reckons the pull at the top hinge, and with what is still to be fixed to the
// leaf, each at the middle of its holes.
func (p *Plan) hang(fixed []opening.Fixed) *drilling.Hang {
	span, r := p.Opening.Hinges.Span, &p.Resolved.Rows
	mass, attached := r[swing.SlabMass], r[swing.AttachedMass]
	if !span.Known || !mass.Known || !p.Resolved.Sized {
		return nil
	}
	slab := leaf.Slab{Width: q.Length(r[swing.LeafWidth].Value), PinToEdge: q.Length(r[swing.PinToEdge].Value)}
	var on []opening.Hardware
	if attached.Value > 0 {
		at := r[swing.AttachedMoment].Value / (attached.Value * q.StandardGravity)
		on = append(on, opening.Hardware{Weight: q.Exactly(q.Mass(attached.Value)), FromHinge: q.Exactly(q.Length(at))})
	}
	h := &drilling.Hang{Span: span.Value, Mass: q.Mass(mass.Value + attached.Value)}
	h.Before = leaf.HingePull(q.Mass(mass.Value), slab, on, span.Value)
	h.U = leaf.HingePull(q.Mass(mass.U), slab, nil, span.Value)
	for _, f := range fixed {
		if !f.Planned || !f.OnLeaf || !f.Weight.Known {
			continue
		}
		h.Added += f.Weight.Value
		on = append(on, opening.Hardware{Weight: f.Weight, FromHinge: q.Exactly(middle(f.Holes) + slab.PinToEdge)})
	}
	h.After = leaf.HingePull(q.Mass(mass.Value), slab, on, span.Value)
	return h
}

// middle is how far the middle of the holes in the leaf lies from its hinge edge, as
// far as they are measured from it.
func middle(holes []opening.Hole) q.Length {
	sum, n := q.Length(0), q.Length(0)
	for i := range holes {
		if h := &holes[i]; h.On == opening.LeafFace && h.AlongFrom != opening.FromLatchEdge {
			sum, n = sum+h.Along.Value, n+1
		}
	}
	if n == 0 {
		return 0
	}
	return sum / n
}

// strains reckons what the arms' far ends bear: the drive against a leaf that is held
// still, and the closer's spring where it is strongest, each as if it acted so all
// along the way, which is the cautious reading.
func (p *Plan) strains(fixed []opening.Fixed) (all []ArmStrain) {
	m, err := p.Model()
	if err != nil {
		return nil
	}
	v := p.Values()
	to := q.Angle(v[swing.OpenAngle])
	if !(to > 0) {
		to = openFully
	}
	add := func(cause string, a *linkage.Arm, sheet string, torque float64, of opening.Fixing) {
		if a == nil || !a.Ready() || !(torque > 0) {
			return
		}
		s, ok := drilling.ArmStrain(a, q.Torque(torque), to)
		if !ok {
			return
		}
		for _, f := range fixed {
			if f.Fixing == of {
				s.Fixings = fasteners(f.Holes)
			}
		}
		if s.Fixings > 0 {
			s.Each = s.Force / q.Force(s.Fixings)
		}
		all = append(all, ArmStrain{cause, sheet, s})
	}
	if p.Resolved.Drive.Fitted {
		arm, of := p.Opening.Closer.Arm, opening.ArmHoles
		if p.Resolved.Drive.Own {
			arm, of = p.Opening.Operator.Arm, opening.UnitArmHoles
		}
		add("the operator, against a leaf that is held still", m.DriveArm(), arm, v[swing.DriveStall]*v[swing.DriveEfficiency], of)
	}
	if p.Resolved.Link.Closer {
		turned := q.Angle(0)
		if a, _, ok := m.Arm().At(to); ok {
			turned = a
		}
		spring := (v[swing.SpringClosed] + v[swing.SpringRise]*float64(turned)) * (1 + v[swing.CloserLoss])
		add("the closer's spring, opened by hand", m.Arm(), p.Opening.Closer.Arm, spring, opening.ArmHoles)
	}
	return all
}

// fasteners counts the holes of an arm that hold it, off the closer's or unit's body.
func fasteners(holes []opening.Hole) (n int) {
	for i := range holes {
		if holes[i].Fastener != opening.Passage {
			n++
		}
	}
	return n
}

// plannedHoles lets the holes still to be drilled into a labelled opening count with
// those that were found there: the largest, and whether one is not round.
func plannedHoles(o *opening.Opening, sheets *opening.Sheets, t *readings) (notRound bool) {
	if o.Use.FireRated != "yes" {
		return false
	}
	largest, notRound := opening.PlannedHole(o, sheets)
	if largest.Known && largest.Value > o.Fire.HoleDiameter.Value {
		*t = append(*t, reading{id: fact.HoleDiameter, value: float64(largest.Value), origin: Computed})
	}
	return notRound
}
