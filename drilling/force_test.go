package drilling

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"swingwright/linkage"
	q "swingwright/quantity"
)

// Exit errors of the trade over 1-3/4 in, printed to 1/32 in: 1, 2 and 3 degrees off
// square come out 1/32, 1/16 and 3/32 in from the mark (common practice, restated; the
// formula is t·tan(tilt)).
func TestExitErrorExamples(t *testing.T) {
	for degrees, want := range map[float64]float64{1: 1. / 32, 2: 2. / 32, 3: 3. / 32} {
		got := float64(ExitError(1.75*q.Inch, q.Angle(degrees)*q.Degree) / q.Inch)
		if math.Abs(got-want) > 1./64 {
			t.Errorf("%v degrees: %.4f in, want %.4f to 1/32", degrees, got, want)
		}
	}
}

// Arm forces of the trade, printed to 1 lbf: 15 lbf held at 35 in with the arm's line 6 in
// from the axis make 88 lbf (87.5); a gust of 10.5 lbf at the edge of a 36 in leaf 63 lbf.
func TestArmForceExamples(t *testing.T) {
	for _, c := range []struct{ force, at, b, want float64 }{{15, 35, 6, 87.5}, {10.5, 36, 6, 63}} {
		moment := q.Torque(c.force * float64(q.PoundForce) * c.at * float64(q.Inch))
		if got := float64(ArmForce(moment, q.Length(c.b)*q.Inch) / q.PoundForce); math.Abs(got-c.want) > 0.01 {
			t.Errorf("%v lbf at %v in: %.2f lbf, want %v", c.force, c.at, got, c.want)
		}
	}
}

// armOf draws an arm that can be assembled.
func armOf(t *rapid.T) linkage.Arm {
	length := func(low, high float64, name string) q.Length {
		return q.Length(rapid.Float64Range(low, high).Draw(t, name))
	}
	for {
		a, err := linkage.New(linkage.Spec{
			Track: rapid.Bool().Draw(t, "track"), OnLeaf: rapid.Bool().Draw(t, "on leaf"),
			Pinion: linkage.Point{X: length(0.1, 0.3, "pinion x"), Y: length(-0.15, 0.15, "pinion y")},
			Shoe:   linkage.Point{X: length(0.1, 0.5, "shoe x"), Y: length(-0.15, 0.15, "shoe y")},
			Main:   length(0.2, 0.4, "main"), Fore: length(0.2, 0.4, "fore"),
			Line: q.Angle(rapid.Float64Range(-0.2, 0.2).Draw(t, "line")), Bend: rapid.SampledFrom([]int{-1, 1}).Draw(t, "bend"),
		})
		if err == nil {
			return a
		}
	}
}

// By virtual work a torque T at the pinion and its moment n·T at the hinge are one force
// along the arm's line: the ratio of the two levers is the turning ratio, which package
// linkage has from the motion alone.
func TestLeversHaveTheTurningRatio(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := armOf(t)
		theta := q.Angle(rapid.Float64Range(0, 1.6).Draw(t, "theta"))
		n, ok := a.Ratio(float64(theta))
		hinge, pinion, reached := Lever(&a, theta)
		if !ok || !reached || pinion < q.Millimetre {
			return
		}
		if got := float64(hinge / pinion); math.Abs(got-math.Abs(n)) > 1e-6*(1+got) {
			t.Fatalf("levers %v and %v m: ratio %v, the arm turns %v", hinge, pinion, got, n)
		}
	})
}

func TestArmStrain(t *testing.T) {
	a, err := linkage.New(linkage.Spec{OnLeaf: true, Pinion: linkage.Point{X: 0.165, Y: 0.057}, Shoe: linkage.Point{X: 0.3175, Y: 0.0254}, Main: 0.2794, Fore: 0.266, Bend: 1})
	if err != nil {
		t.Fatal(err)
	}
	s, ok := ArmStrain(&a, 40, 90*q.Degree)
	if !ok {
		t.Fatal("the arm reaches nowhere")
	}
	most := 0.
	for d := range 91 {
		if _, pinion, ok := Lever(&a, q.Angle(d)*q.Degree); ok {
			most = max(most, 40/float64(pinion))
		}
	}
	if math.Abs(float64(s.Force)-most) > 1e-3*most || math.Abs(float64(s.Moment)-float64(s.Force)*float64(s.Lever)) > 1e-9 {
		t.Errorf("%+v, want a force of %v N", s, most)
	}
	if got := ArmForce(s.Moment, s.Lever); math.Abs(float64(got-s.Force)) > 1e-9 {
		t.Errorf("moment over lever is %v, want %v", got, s.Force)
	}
}

// A through-bolt is as long as the leaf is thick and what head and nut clamp (common
// practice, restated): 1-3/4 in, a foot of 1/4 in and a washer of 1/16 in take 2-1/16 in,
// and the next one sold is 2-1/4 in.
func TestStock(t *testing.T) {
	for _, c := range []struct {
		needed q.Length
		metric bool
		want   q.Length
	}{
		{(1.75 + 0.25 + 0.0625) * q.Inch, false, 2.25 * q.Inch},
		{2 * q.Inch, false, 2 * q.Inch},
		{3 * q.Inch, false, 3 * q.Inch},
		{3.1 * q.Inch, false, 3.5 * q.Inch},
		{7 * q.Inch, false, 0},
		{0, false, 0},
		{q.Length(math.NaN()), false, 0},
		{44 * q.Millimetre, true, 45 * q.Millimetre},
		{45 * q.Millimetre, true, 45 * q.Millimetre},
		{200 * q.Millimetre, true, 0},
	} {
		if got := Stock(c.needed, c.metric); math.Abs(float64(got-c.want)) > 1e-9 {
			t.Errorf("%v m, metric %v: %v, want %v", c.needed, c.metric, got, c.want)
		}
	}
}
