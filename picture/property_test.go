package picture

import (
	"testing"

	"pgregory.net/rapid"

	"swingwright/internal/draw"
	"swingwright/opening"
	"swingwright/plan"
	q "swingwright/quantity"
)

// Whatever the opening, its pictures can be drawn: every number finite, all on the
// page, no word on another.
func TestAnyOpeningIsLegible(t *testing.T) {
	j, books := demo(t)
	rapid.Check(t, func(t *rapid.T) {
		o := anyOpening(t, j.Openings)
		few := books[:rapid.IntRange(0, 3).Draw(t, "books")]
		if rapid.Bool().Draw(t, "all books") {
			few = books
		}
		p := plan.Make(&o, &j.Sheets, few, plan.Options{Draws: 8})
		sys := rapid.SampledFrom(systems).Draw(t, "units")
		to := In{Units: sys, Narrow: rapid.Bool().Draw(t, "narrow")}
		picture := rapid.SampledFrom([]func(*plan.Plan) *draw.Scene{to.Closing, to.HandForce, to.Plan}).Draw(t, "picture")
		for _, fault := range faults(picture(p)) {
			t.Error(fault)
		}
	})
}

// anyOpening is one of the given openings with much of it changed.
func anyOpening(t *rapid.T, from []opening.Opening) opening.Opening {
	o := from[rapid.IntRange(0, len(from)-1).Draw(t, "opening")]
	length := func(name string, low, high float64) q.Measured[q.Length] {
		return q.Give(q.Length(rapid.Float64Range(low, high).Draw(t, name)), q.Inch/16)
	}
	may := func(name string) bool { return rapid.Bool().Draw(t, name+" changed") }
	if may("width") {
		o.Leaf.Width = length("width", 0.45, 1.6)
	}
	if may("thickness") {
		o.Leaf.Thickness = length("thickness", 0.03, 0.09)
	}
	if may("handle") {
		o.Leaf.Handle = length("handle", 0.02, 0.2)
	}
	if may("hand") {
		o.Frame.Hand = opening.Hand(rapid.SampledFrom(append(opening.Hand("").Choices(), "")).Draw(t, "hand"))
	}
	if may("pin") {
		o.Frame.PinAlong, o.Frame.PinOff = length("pin along", 0, 0.05), length("pin off", 0, 0.05)
	}
	if may("arm") {
		o.Closer.Arm = rapid.SampledFrom([]string{"regular arm R", "parallel arm P", "top jamb arm T", "slide track K", ""}).Draw(t, "arm")
	}
	if may("pinion") {
		o.Closer.Pinion = opening.Point{Along: length("pinion along", 0.03, 0.35), Off: length("pinion off", 0.02, 0.15)}
	}
	if may("shoe") {
		o.Closer.Shoe = opening.Point{Along: length("shoe along", 0.1, 0.6), Off: length("shoe off", 0.01, 0.25)}
	}
	if may("spring") {
		o.Closer.Gauged = nil
		o.Closer.Size = q.Give(q.Ratio(rapid.Float64Range(1, 6).Draw(t, "size")), 0)
	}
	if may("times") {
		o.Closer.SweepTime = q.Give(q.Time(rapid.Float64Range(0.8, 40).Draw(t, "sweep")), 0.2)
		o.Closer.LatchTime = q.Give(q.Time(rapid.Float64Range(0.1, 12).Draw(t, "latch")), 0.05)
	}
	if may("air") {
		o.Air.Usual = q.Give(q.Pressure(rapid.Float64Range(-40, 40).Draw(t, "usual")), 2)
		o.Air.Most = q.Give(q.Pressure(rapid.Float64Range(-40, 90).Draw(t, "most")), 2)
		o.Air.Least = q.Give(q.Pressure(rapid.Float64Range(-90, 40).Draw(t, "least")), 2)
	}
	if may("frame") {
		o.Frame.Width, o.Frame.Stop = length("opening", 0.9, 1), length("stop", 0, 0.04)
		o.Frame.Proud, o.Frame.Face = length("proud", -0.1, 0.05), length("face", 0.02, 0.15)
	}
	if may("open angle") {
		o.Operator.OpenAngle = q.Give(q.Angle(rapid.Float64Range(0.3, 3.1).Draw(t, "open")), 0.02)
	}
	if may("room") {
		anyRoom(t, &o, length)
	}
	return o
}

// anyRoom puts walls, things, controls and a cord about the leaf.
func anyRoom(t *rapid.T, o *opening.Opening, length func(string, float64, float64) q.Measured[q.Length]) {
	spot := func(name string, far float64) opening.Spot {
		return opening.Spot{Along: length(name+" along", -far, far), Off: length(name+" off", -far, far)}
	}
	o.Room.WallBeside = length("wall", 0, 3)
	for i := range rapid.IntRange(0, 3).Draw(t, "things") {
		thing := opening.Thing{What: []string{"bench", "post", "bench"}[i], From: spot("from", 2.5), To: spot("to", 2.5)}
		if rapid.Bool().Draw(t, "round") {
			thing.Round = length("diameter", 0.02, 0.5)
		}
		thing.Bottom = length("bottom", 0, 3)
		o.Room.Things = append(o.Room.Things, thing)
	}
	for range rapid.IntRange(0, 2).Draw(t, "projections") {
		side := rapid.SampledFrom([]opening.Side{opening.PullSide, opening.PushSide}).Draw(t, "face")
		o.Leaf.Projections = append(o.Leaf.Projections, opening.Projection{What: "bar", Side: side, FromHinge: length("bar at", 0.1, 1), Along: length("bar along", 0, 0.6), Out: length("bar out", 0, 0.2)})
	}
	o.Controls = nil
	for range rapid.IntRange(0, 4).Draw(t, "controls") {
		o.Controls = append(o.Controls, opening.Control{What: "plate", Place: spot("control", 4)})
	}
	o.DoorLoop = opening.DoorLoop{Frame: spot("cord on the frame", 0.2), Leaf: spot("cord on the leaf", 0.2)}
}
