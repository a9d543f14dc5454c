package plan

import (
	"swingwright/fact"
	"swingwright/opening"
	"swingwright/quantity"
)

// gauge is the standard uncertainty of a small gap or height taken with a taper
// gauge or a rule; assumed for ordinary care.
const gauge = quantity.Inch / 64

// taped are the lengths, slopes and forces that somebody took at the opening.
// They count as readings: each has its spread, save sizes as things are sold by,
// such as of drills, hinges and letters, and a plain nothing.
func taped(o *opening.Opening, sheets *opening.Sheets) (t readings) {
	t.doorway(&o.Doorway)
	t.floors(&o.Approach)
	t.controls(bySheet(o.Controls, sheets))
	put(&t, fact.SignDiameter, o.Signs.Diameter, 0)
	put(&t, fact.SignLowest, o.Signs.Lowest, tape)
	put(&t, fact.SignHighest, o.Signs.Highest, tape)
	put(&t, fact.SignLetters, o.Signs.Letters, 0)
	put(&t, fact.SignShare, o.Signs.Share, o.Signs.Share.Value/10)
	put(&t, fact.HingeHeight, o.Hinges.Height, 0)
	put(&t, fact.HingeThickness, o.Hinges.Thickness, 0)
	put(&t, fact.HoleDiameter, o.Fire.HoleDiameter, 0)
	put(&t, fact.Undercut, o.Fire.Undercut, tape)
	put(&t, fact.SafetyGuardHeight, o.Safety.GuardHeight, tape)
	put(&t, fact.SensorDepth, o.Safety.SensorDepth, tape)
	return t
}

// put takes a value that is known, with spread u where none was stated.
func put[Q quantity.Quantity](t *readings, id fact.ID, m quantity.Measured[Q], u Q) {
	if m.Known {
		if m.Value != 0 {
			m = m.WithSpread(u)
		}
		*t = append(*t, reading{id: id, value: float64(m.Value), u: float64(m.U), origin: Read})
	}
}

func (r *readings) doorway(d *opening.Doorway) {
	put(r, fact.ClearWidth, d.ClearWidth, tape)
	put(r, fact.PoweredClearWidth, d.PoweredWidth, tape)
	put(r, fact.ClearHeight, d.ClearHeight, tape)
	put(r, fact.Headroom, d.Headroom, tape)
	put(r, fact.DoorwayDepth, d.Depth, tape)
	put(r, fact.LowProjection, d.LowThings, gauge)
	put(r, fact.HighProjection, d.HighThings, gauge)
	put(r, fact.SeriesDistance, d.NextDoor, tape)
	put(r, fact.SeriesSwing, d.NextSwing, tape)
	put(r, fact.BehindLeaf, d.BehindLeaf, tape)
	put(r, fact.ThresholdHeight, d.Threshold.Height, gauge)
	put(r, fact.ThresholdVertical, d.Threshold.Vertical, gauge)
	put(r, fact.ThresholdBevel, d.Threshold.Bevel, d.Threshold.Bevel.Value/20)
	gaps := []quantity.Measured[quantity.Length]{d.Gaps.Head, d.Gaps.Latch, d.Gaps.Hinge}
	if d.Gaps.Meeting.Known {
		gaps = append(gaps, d.Gaps.Meeting)
	}
	put(r, fact.GapLargest, worst(gaps, largest), gauge)
	put(r, fact.GapSmallest, worst(gaps, least), gauge)
	put(r, fact.GapBottom, d.Gaps.Bottom, gauge)
	put(r, fact.GapHingeSide, d.Gaps.Fingers, gauge)
	put(r, fact.VisionBottom, d.VisionBottom, tape)
	put(r, fact.SmoothBottom, d.SmoothBottom, tape)
	put(r, fact.HardwareHeight, d.HandleHeight, tape)
	put(r, fact.HardwareFromCorner, d.HandleCorner, tape)
}

func (r *readings) floors(a *opening.Approach) {
	put(r, fact.PullDepth, a.Pull.Depth, tape)
	put(r, fact.PullBesideLatch, a.Pull.BesideLatch, tape)
	put(r, fact.PullRecess, a.Pull.Recess, tape)
	put(r, fact.PushDepth, a.Push.Depth, tape)
	put(r, fact.PushBesideLatch, a.Push.BesideLatch, tape)
	put(r, fact.PushBesideHinge, a.Push.BesideHinge, tape)
	put(r, fact.PushRecess, a.Push.Recess, tape)
	put(r, fact.FloorSlope, a.FloorSlope, 0.002) // a digital level's tenth of a degree
}

// length is a length that was taken, or was not.
type length = quantity.Measured[quantity.Length]

// controls takes of every length the worst among all controls that it belongs to.
func (r *readings) controls(all []opening.Control) {
	take := func(id fact.ID, end end, of func(*opening.Control) length) {
		put(r, id, worst(each(all, of), end), tape)
	}
	take(fact.ControlLowest, least, func(c *opening.Control) length { return c.Height })
	take(fact.ControlHighest, largest, func(c *opening.Control) length { return c.Height })
	take(fact.ControlSize, least, func(c *opening.Control) length { return c.Size })
	take(fact.ControlFarthest, largest, func(c *opening.Control) length { return c.FromMiddle })
	take(fact.ControlFromSwing, least, func(c *opening.Control) length { return c.FromSwing })
	take(fact.ControlFromSwingMost, largest, func(c *opening.Control) length { return c.FromSwing })
	take(fact.ControlFromCorner, least, func(c *opening.Control) length { return c.FromCorner })
	take(fact.ControlFloorWidth, least, func(c *opening.Control) length { return c.FloorWidth })
	take(fact.ControlFloorLength, least, func(c *opening.Control) length { return c.FloorLength })
	take(fact.ControlReachOver, largest, func(c *opening.Control) length { return c.ReachOver })
	take(fact.ControlObstacle, largest, func(c *opening.Control) length { return c.Obstacle })
	take(fact.ControlRange, largest, func(c *opening.Control) length { return c.Range })
	force := worst(each(all, func(c *opening.Control) quantity.Measured[quantity.Force] { return c.Force }), largest)
	put(r, fact.ControlForce, force, force.Value/20)

	some := func(id fact.ID, of func(*opening.Control) length, has func(*opening.Control) bool) {
		put(r, id, worst(each(those(all, has), of), least), tape)
	}
	latch := func(c *opening.Control) length { return c.FromLatch }
	some(fact.ControlBeside, latch, func(c *opening.Control) bool { return c.Reach == "side" })
	some(fact.ControlAheadPull, latch, func(c *opening.Control) bool { return c.Reach == "forward" && c.Side == opening.PullSide })
	some(fact.ControlAheadPush, latch, func(c *opening.Control) bool { return c.Reach == "forward" && c.Side == opening.PushSide })
	some(fact.ControlFromOpenEdge, func(c *opening.Control) length { return c.FromOpenEdge },
		func(c *opening.Control) bool { return c.Side == opening.PullSide })
	low := func(c *opening.Control) length { return c.LowPlate }
	some(fact.ControlLowPlate, low, func(c *opening.Control) bool { return c.LowPlate.Known })
}

// those are the controls that have something.
func those(all []opening.Control, has func(*opening.Control) bool) (some []opening.Control) {
	for i := range all {
		if has(&all[i]) {
			some = append(some, all[i])
		}
	}
	return some
}

func each[Q quantity.Quantity](all []opening.Control, of func(*opening.Control) quantity.Measured[Q]) []quantity.Measured[Q] {
	list := make([]quantity.Measured[Q], len(all))
	for i := range all {
		list[i] = of(&all[i])
	}
	return list
}

// end is one of the two ends of a row of values.
type end int

const (
	largest end = 1
	least   end = -1
)

// worst is the value at one end of a list; unknown where the list is empty or
// one of its values is unknown, for that one might be it.
func worst[Q quantity.Quantity](list []quantity.Measured[Q], at end) (w quantity.Measured[Q]) {
	for i, m := range list {
		switch {
		case !m.Known:
			return quantity.Measured[Q]{}
		case i == 0 || (m.Value > w.Value) == (at == largest) && m.Value != w.Value:
			w = m
		}
	}
	return w
}
