package report

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/swing"
)

// withOperator is the opening of the demo whose operator is described.
func withOperator(t *testing.T) *plan.Plan {
	t.Helper()
	_, plans := demo(t)
	for _, p := range plans {
		if p.Swing.Power.Fitted {
			return p
		}
	}
	t.Fatal("no opening of the demo is driven")
	return nil
}

func written(t *testing.T, write func(*Text)) string {
	t.Helper()
	var out bytes.Buffer
	text := NewText(&out, Style{})
	write(text)
	if err := text.flush(); err != nil {
		t.Fatal(err)
	}
	return strings.Join(strings.Fields(out.String()), " ")
}

// The opening that a look follows is the plan's own.
func TestLookIsDrivenAsThePlan(t *testing.T) {
	p := withOperator(t)
	l := NewLook(p, 90*quantity.Degree)
	want := &p.Swing.Power.Usual
	// the looks' further marks do not steer the motion, the steps between them do a little
	if l.Driven.End != want.End || !(math.Abs(float64(l.Driven.Time-want.Time)) < 1e-6) {
		t.Errorf("ends %v after %v s, in the plan %v after %v s", l.Driven.End, l.Driven.Time, want.End, want.Time)
	}
	for i, m := range l.Opening {
		if i > 0 && !(m.Time > l.Opening[i-1].Time) {
			t.Errorf("at %s after %v s, no later than the mark before", degrees(m.Angle), m.Time)
		}
	}
	if last := l.Opening[len(l.Opening)-1]; last.Time != l.Driven.Time {
		t.Errorf("the last mark is passed after %v s, the motion ends after %v s", last.Time, l.Driven.Time)
	}
}

// A force that stops the leaf is its moment over the leaf's reach less 25 mm
// (ANSI/BHMA A156.19-2007, 4.4), and there is one for every 5 degrees.
func TestStallForces(t *testing.T) {
	p := withOperator(t)
	reach := float64(stallRadius(p))
	power := powerOf(p)
	for i, s := range power.Stall {
		if want := float64(5*i) * math.Pi / 180; math.Abs(float64(s.Angle)-want) > 1e-12 {
			t.Errorf("stall %d is at %v rad, want %v", i, s.Angle, want)
		}
		if math.Abs(float64(s.Force)*reach-float64(s.Moment)) > 1e-9 {
			t.Errorf("%v N at %v m is not %v N·m", s.Force, reach, s.Moment)
		}
	}
	if want := 19; len(power.Stall) != want { // 0, 5, ... 90 of 93 degrees
		t.Errorf("%d stalls, want %d", len(power.Stall), want)
	}
}

// Where the drive stalls, the report says where and against what.
func TestStallIsTold(t *testing.T) {
	p := withOperator(t)
	s := &p.Swing.Power
	s.Usual.End, s.Usual.Angle = swing.Stalled, 40*quantity.Degree
	s.Against = []swing.Resistance{{Against: swing.AirPressure, Moment: 30}, {Against: swing.Spring, Moment: 20}, {Against: swing.HingeDrag, Moment: 1}}
	s.Pressure = -5
	got := written(t, func(text *Text) { text.howItIsDriven(p) })
	for _, want := range []string{"stalls at 40 deg against air pressure, 30", "and closer spring, 20", "not even without pressure"} {
		if !strings.Contains(strings.ReplaceAll(got, " computed", ""), want) {
			t.Errorf("%q is missing in %q", want, got)
		}
	}
	if strings.Contains(got, "hinges") {
		t.Error("more than the two largest are named")
	}
}

// An operator that cannot be reckoned with is not passed over.
func TestOperatorNotReckonedIsTold(t *testing.T) {
	p := withOperator(t)
	p.Swing.Power = plan.Power{}
	if got := written(t, func(text *Text) { text.howItIsDriven(p) }); !strings.Contains(got, "not reckoned; see the notes") {
		t.Errorf("got %q", got)
	}
	if powerOf(p) != nil {
		t.Error("programs are given an opening that was not reckoned")
	}
	p.Resolved.Operator = nil
	if got := written(t, func(text *Text) { text.howItIsDriven(p); text.whatItIs(p) }); strings.Contains(got, "Operator") || strings.Contains(got, "under power") {
		t.Errorf("without an operator, one is told of: %q", got)
	}
}
