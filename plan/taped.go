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
func taped(o *opening.Opening) (t readings) {
	t.doorway(&o.Doorway)
	t.floors(&o.Approach)
	t.controls(o.Controls)
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
		*t = append(*t, reading{id, float64(m.Value), float64(m.U)})
	}
}

func (t *readings) doorway(d *opening.Doorway) {
	put(t, fact.ClearWidth, d.ClearWidth, tape)
	put(t, fact.PoweredClearWidth, d.PoweredWidth, tape)
	put(t, fact.ClearHeight, d.ClearHeight, tape)
	put(t, fact.Headroom, d.Headroom, tape)
	put(t, fact.DoorwayDepth, d.Depth, tape)
	put(t, fact.LowProjection, d.LowThings, gauge)
	put(t, fact.HighProjection, d.HighThings, gauge)
	put(t, fact.SeriesDistance, d.NextDoor, tape)
	put(t, fact.SeriesSwing, d.NextSwing, tape)
	put(t, fact.BehindLeaf, d.BehindLeaf, tape)
	put(t, fact.ThresholdHeight, d.Threshold.Height, gauge)
	put(t, fact.ThresholdVertical, d.Threshold.Vertical, gauge)
	put(t, fact.ThresholdBevel, d.Threshold.Bevel, d.Threshold.Bevel.Value/20)
	gaps := []quantity.Measured[quantity.Length]{d.Gaps.Head, d.Gaps.Latch, d.Gaps.Hinge}
	if d.Gaps.Meeting.Known {
		gaps = append(gaps, d.Gaps.Meeting)
	}
	put(t, fact.GapLargest, worst(gaps, largest), gauge)
	put(t, fact.GapSmallest, worst(gaps, least), gauge)
	put(t, fact.GapBottom, d.Gaps.Bottom, gauge)
	put(t, fact.GapHingeSide, d.Gaps.Fingers, gauge)
	put(t, fact.VisionBottom, d.VisionBottom, tape)
	put(t, fact.SmoothBottom, d.SmoothBottom, tape)
	put(t, fact.HardwareHeight, d.HandleHeight, tape)
	put(t, fact.HardwareFromCorner, d.HandleCorner, tape)
}

func (t *readings) floors(a *opening.Approach) {
	put(t, fact.PullDepth, a.Pull.Depth, tape)
	put(t, fact.PullBesideLatch, a.Pull.BesideLatch, tape)
	put(t, fact.PullRecess, a.Pull.Recess, tape)
	put(t, fact.PushDepth, a.Push.Depth, tape)
	put(t, fact.PushBesideLatch, a.Push.BesideLatch, tape)
	put(t, fact.PushBesideHinge, a.Push.BesideHinge, tape)
	put(t, fact.PushRecess, a.Push.Recess, tape)
	put(t, fact.FloorSlope, a.FloorSlope, 0.002) // a digital level's tenth of a degree
}

// length is a length that was taken, or was not.
type length = quantity.Measured[quantity.Length]

// controls takes of every length the worst among all controls that it belongs to.
func (t *readings) controls(all []opening.Control) {
	take := func(id fact.ID, end end, of func(*opening.Control) length) {
		put(t, id, worst(each(all, of), end), tape)
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
	put(t, fact.ControlForce, force, force.Value/20)

	some := func(id fact.ID, of func(*opening.Control) length, has func(*opening.Control) bool) {
		put(t, id, worst(each(those(all, has), of), least), tape)
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
