package opening

import q "swingwright/quantity"

// operator lists what is missing to know how an operator drives the leaf. sheet
// and arm are those that it names, nil where there are none of these names.
func (g *gaps) operator(o *Operator, closer *Closer, sheet *OperatorSheet, arm *ArmSheet) {
	if sheet == nil {
		g.addIf(*o != (Operator{}), "operator.sheet", stopsDrive, "Without its sheet an operator's torque and rate are not known.", "Copy the maker's paper into a sheet and name it.")
		return
	}
	commanded := o.Speed.Known || o.Setting.Known && sheet.has(o.Setting.Value)
	g.addIf(!commanded, "operator.speed", stopsDrive, "The rate that the control is set to decides opening time and energy.", "Read the setting, with the sheet's speeds; or time it from 20 to 60 degrees and divide.")
	g.addIf(!o.OpenAngle.Known, "operator.open_angle", "", "How far it opens decides time, clear width and whether it touches the wall.", "Read it with an angle finder, fully open under power.")
	g.addIf(!o.Dwell.Known, "operator.dwell", "", "The hold-open time has a limit of its own.", "Stopwatch, from fully open to the first movement back.")
	if sheet.Kind != OwnArm {
		g.addIf(closer.None == "yes", "closer.none", stopsDrive, "An add-on drives the pinion of a closer, and none is here.", "Fit a closer that the sheet permits, or choose a unit with its own arm.")
		return
	}
	if arm == nil {
		g.add("operator.arm", stopsDrive, "A unit's own arm decides its leverage at every angle.", "Name an arm sheet; copy the maker's template into one if there is none.")
		return
	}
	g.armSheet("operator", stopsDrive, arm, o.Pinion, o.Shoe)
}

// has tells that a speed setting lies within those of the sheet.
func (s *OperatorSheet) has(setting q.Ratio) bool {
	n := len(s.Speeds)
	return n > 0 && setting >= s.Speeds[0].Setting.Value && setting <= s.Speeds[n-1].Setting.Value
}

func (s OperatorSheet) sheetName() string { return s.Name }
