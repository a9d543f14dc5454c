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
		picture := rapid.SampledFrom([]func(*plan.Plan, q.System) *draw.Scene{Closing, HandForce, Plan}).Draw(t, "picture")
		for _, fault := range faults(picture(p, sys)) {
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
	return o
}
