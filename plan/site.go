package plan

import (
	"swingwright/fact"
	"swingwright/opening"
	"swingwright/quantity"
)

// seen fills in the facts that somebody saw at the opening: answers, choices and counts.
func seen(o *opening.Opening, facts *[fact.Count]float64) {
	for id, answer := range map[fact.ID]opening.YesNo{
		fact.Existing: o.Building.Existing, fact.Entrance: o.Building.Entrance, fact.InSeries: o.Building.InSeries,
		fact.SwingsIntoPath: o.Building.SwingsIntoPath, fact.FrailUsers: o.Building.FrailUsers,
		fact.AccessibleEgress: o.Building.AccessibleEgress, fact.StandbyPower: o.Building.StandbyPower, fact.StaysOpen: o.Building.StaysOpen,
		fact.CloserHoldOpen: o.Closer.HoldOpen, fact.CloserForFire: o.Closer.ForFire,
		fact.VisionLight: o.Doorway.VisionLight, fact.HardwareOneHand: o.Doorway.HandleOneHand,
		fact.SignGeneral: o.Signs.General, fact.SignSwitch: o.Signs.Switch, fact.SignPushPull: o.Signs.PushPull, fact.SignAssist: o.Signs.Assist,
		fact.SmokeControl: o.Fire.SmokeControl, fact.OperatorListed: o.Fire.OperatorListed, fact.AlarmReleases: o.Fire.AlarmReleases,
		fact.LatchElectric: o.Fire.LatchElectric, fact.LatchSignal: o.Fire.LatchSignal, fact.LabelLegible: o.Fire.LabelLegible,
		fact.OpenHoles: o.Fire.OpenHoles, fact.GlazingSound: o.Fire.GlazingSound, fact.HardwareSound: o.Fire.HardwareSound,
		fact.PartsMissing: o.Fire.PartsMissing, fact.Interference: o.Fire.Interference, fact.SealsIntact: o.Fire.SealsIntact,
		fact.HolesListed: o.Fire.HolesListed, fact.Modified: o.Fire.Modified, fact.ModificationApproved: o.Fire.Approved,
		fact.SafetySensors: o.Safety.Sensors, fact.SafetyStop: o.Safety.StopSwitch, fact.SafetyUnpowered: o.Safety.Unpowered, fact.SafetyGuardRail: o.Safety.GuardRail,
		fact.Inspected: o.Service.Inspected, fact.CheckedDaily: o.Service.CheckedDaily, fact.Logbook: o.Service.Logbook, fact.Marked: o.Service.Marked,
	} {
		yesNo(facts, id, answer)
	}
	for id, word := range map[fact.ID]string{
		fact.Occupancy: string(o.Building.Occupancy), fact.LeafClass: string(o.Fire.Class), fact.HingeBearing: string(o.Hinges.Bearing),
		fact.ApproachPull: string(o.Approach.Pull.From), fact.ApproachPush: string(o.Approach.Push.From),
	} {
		choice(facts, id, word)
	}
	for id, n := range map[fact.ID]quantity.Measured[quantity.Ratio]{
		fact.OccupantLoad: o.Building.OccupantLoad, fact.CloserGrade: o.Closer.Grade,
		fact.HingeCount: o.Hinges.Count, fact.HingeSprings: o.Hinges.Springs,
	} {
		if n.Known {
			facts[id] = float64(n.Value)
		}
	}
	if t := o.Fire.LabelTime; t.Known {
		facts[fact.LabelTime] = float64(t.Value)
	}
	if b, n := o.Hinges.Bearing, o.Hinges.Springs; b != "" || n.Known {
		facts[fact.SpringHinges] = truth(b == "spring" || n.Value > 0)
	}
	seenControls(o.Controls, facts)
}

// seenControls fills in what holds of every control, and how they are reached.
func seenControls(controls []opening.Control, facts *[fact.Count]float64) {
	for id, of := range map[fact.ID]func(*opening.Control) opening.YesNo{
		fact.ControlSymbol:       func(c *opening.Control) opening.YesNo { return c.Symbol },
		fact.ControlClearOfSwing: func(c *opening.Control) opening.YesNo { return c.ClearOfSwing },
		fact.ControlOneHand:      func(c *opening.Control) opening.YesNo { return c.OneHand },
		fact.ControlInSight:      func(c *opening.Control) opening.YesNo { return c.InSight },
		fact.ControlReachable:    func(c *opening.Control) opening.YesNo { return c.Reachable },
	} {
		yesNo(facts, id, every(controls, of))
	}
	sideways := every(controls, func(c *opening.Control) opening.YesNo {
		switch c.Reach {
		case "side":
			return "yes"
		case "forward":
			return "no"
		}
		return ""
	})
	switch sideways {
	case "yes":
		choice(facts, fact.ControlReach, "side")
	case "no":
		choice(facts, fact.ControlReach, "forward")
	}
}

// every is yes where all controls say so, no where one says no, else unknown.
func every(controls []opening.Control, of func(*opening.Control) opening.YesNo) opening.YesNo {
	all := opening.YesNo("yes")
	for i := range controls {
		switch of(&controls[i]) {
		case "no":
			return "no"
		case "":
			all = ""
		}
	}
	if len(controls) == 0 {
		return ""
	}
	return all
}
