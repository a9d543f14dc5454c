package opening_test

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
	_ "swingwright/internal/steady"

	"swingwright/opening"
	q "swingwright/quantity"
)

func TestPlausibleOpeningRaisesNoDoubt(t *testing.T) {
	o, _ := whole()
	o.Closer.Gauged = nil
	if d := opening.Implausible(&o); len(d) > 0 {
		t.Errorf("doubts %v", d)
	}
}

// TestImplausible makes the slips that surveys show: wrong unit, wrong edge,
// two values exchanged, nominal size in place of a measured one.
func TestImplausible(t *testing.T) {
	for _, c := range []struct {
		name string
		slip func(o *opening.Opening)
		want string // how a doubt begins
	}{
		{"centimetres for inches", func(o *opening.Opening) { o.Leaf.Width = q.Exactly(91 * q.Inch) },
			"leaf.width: 2311.4 mm is outside"},
		{"width and height exchanged", func(o *opening.Opening) {
			o.Leaf.Width, o.Leaf.Height = q.Exactly(59*q.Inch), q.Exactly(58*q.Inch)
		}, "leaf.width: 1498.6 mm: the leaf is wider than high"},
		{"pounds for kilograms", func(o *opening.Opening) { o.Leaf.Weight = q.Exactly(260 * q.Kilogram) }, "leaf.weight: 260 kg is outside the usual 40 lb to 400 lb"},
		{"handle from the hinge", func(o *opening.Opening) { o.Leaf.Handle = q.Exactly(33 * q.Inch) }, "leaf.handle: "},
		{"nominal width", func(o *opening.Opening) {
			o.Leaf.Nominal, o.Leaf.Width = opening.Nominal{Width: 3 * q.Foot, Height: 7 * q.Foot}, q.Exactly(36*q.Inch)
		}, "leaf.width: 914.4 mm: this is the nominal size"},
		{"other nominal size", func(o *opening.Opening) {
			o.Leaf.Nominal = opening.Nominal{Width: 3*q.Foot + 4*q.Inch, Height: 7 * q.Foot}
		},
			"leaf.width: 908 mm: this does not go with"},
		{"friction above the push", func(o *opening.Opening) {
			o.Leaf.SwingTest = opening.SwingTest{Force: q.Exactly(q.Force(2)), Friction: q.Exactly(q.Force(2))}
		}, "leaf.swing_test.friction: "},
		{"friction with the arm on", func(o *opening.Opening) { o.Frame.Friction = q.Exactly(7 * q.PoundForce) }, "frame.friction: "},
		{"gauge readings exchanged", func(o *opening.Opening) {
			o.Closer.Gauged[0] = opening.Gauged{Opening: q.Exactly(q.Force(20)), Closing: q.Exactly(q.Force(30))}
		}, "closer.gauged[0].closing: 30"},
		{"gauge beyond the leaf", func(o *opening.Opening) { o.Closer.Gauged[0].At = q.Exactly(38 * q.Inch) }, "closer.gauged[0].at: "},
		{"minutes for seconds", func(o *opening.Opening) { o.Closer.SweepTime = q.Exactly(q.Time(360)) }, "closer.sweep_time: 360"},
		{"size of another kind", func(o *opening.Opening) { o.Closer.Size = q.Exactly(q.Ratio(30)) }, "closer.size: 30 is outside the usual 1 to 7: "},
		{"open angle in radians", func(o *opening.Opening) { o.Operator.OpenAngle = q.Exactly(1.5 * q.Degree) }, "operator.open_angle: "},
		{"motor's rate for the leaf's", func(o *opening.Opening) { o.Operator.Speed = q.Exactly(q.AngularSpeed(40)) }, "operator.speed: "},
		{"slows beyond its stop", func(o *opening.Opening) {
			o.Operator.OpenAngle, o.Operator.SlowFrom = q.Exactly(85*q.Degree), q.Exactly(90*q.Degree)
		}, "operator.slow_from: "},
		{"creeps faster than it runs", func(o *opening.Opening) {
			o.Operator.Speed, o.Operator.Creep = q.Exactly(q.AngularSpeed(0.3)), q.Exactly(q.AngularSpeed(0.4))
		}, "operator.creep: "},
		{"closer that is not there", func(o *opening.Opening) { o.Closer.None = "yes" }, "closer.none: "},
		{"latch that is not there", func(o *opening.Opening) { o.Latch.None = "yes" }, "latch.none: yes: a latch is described"},
		{"fire-rated without latch", func(o *opening.Opening) {
			o.Latch, o.Use.FireRated = opening.Latch{None: "yes"}, "yes"
		}, "latch.none: yes: a fire-rated leaf"},
		{"seal that is not there", func(o *opening.Opening) { o.Seal.None = "yes" }, "seal.none: "},
		{"most pressure below the usual", func(o *opening.Opening) { o.Air.Most = q.Exactly(q.Pressure(-1)) }, "air.pressure_most: -1"},
		{"least pressure above the usual", func(o *opening.Opening) { o.Air.Least = q.Exactly(q.Pressure(1)) }, "air.pressure_least: 1"},
		{"an inch of water", func(o *opening.Opening) { o.Air.Usual = q.Exactly(1 * q.InchOfWater) }, "air.pressure: 249"},
		{"clear width in feet", func(o *opening.Opening) { o.Doorway.ClearWidth = q.Exactly(3 * q.Inch) }, "doorway.clear_width: "},
		{"gap in inches for eighths", func(o *opening.Opening) { o.Doorway.Gaps.Latch = q.Exactly(1 * q.Inch) }, "doorway.gaps.latch: "},
		{"height of a switch in feet", func(o *opening.Opening) {
			o.Controls = []opening.Control{{Height: q.Exactly(40 * q.Inch)}, {Height: q.Exactly(40 * q.Foot)}}
		}, "controls[1].height: "},
		{"more spring hinges than hinges", func(o *opening.Opening) {
			o.Hinges = opening.Hinges{Count: q.Exactly(q.Ratio(2)), Springs: q.Exactly(q.Ratio(3))}
		}, "hinges.spring_count: "},
		{"kelvins for degrees", func(o *opening.Opening) { o.Air.Temperature = q.Exactly(q.Temperature(20)) }, "air.temperature: "},
	} {
		o, _ := whole()
		c.slip(&o)
		got := opening.Implausible(&o)
		if !slices.ContainsFunc(got, func(d opening.Doubt) bool { return strings.HasPrefix(d.String(), c.want) }) {
			t.Errorf("%s: doubts %v, want one that begins with %q", c.name, got, c.want)
		}
	}
}

// A value that was typed is shown as it was typed.
func TestDoubtShowsWhatWasWritten(t *testing.T) {
	o, _ := whole()
	o.Leaf.Width.Text, o.Leaf.Width.Value = `6'-0"`, 72*q.Inch
	o.Frame.Width = q.Measured[q.Length]{}
	got := opening.Implausible(&o)
	const want = `leaf.width: 6'-0" is outside the usual 18 in to 60 in (457.2 mm to 1524 mm): check the number and its unit`
	if len(got) != 1 || got[0].String() != want {
		t.Errorf("got %v, want %s", got, want)
	}
}

// A width is doubted exactly when it is outside 18 to 60 in.
func TestWidthIsDoubtedOutsideItsSpan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inches := rapid.Float64Range(0.1, 83).Draw(t, "inches")
		o, _ := whole()
		o.Leaf.Width = q.Exactly(q.Length(inches) * q.Inch)
		o.Frame.Width = q.Measured[q.Length]{}
		o.Closer.Gauged = nil
		if got, want := len(opening.Implausible(&o)) > 0, inches < 18 || inches > 60; got != want {
			t.Errorf("width of %v in doubted: %v, want %v", inches, got, want)
		}
	})
}
