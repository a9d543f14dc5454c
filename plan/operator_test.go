package plan

import (
	"math"
	"strings"
	"testing"

	"swingwright/fact"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/swing"
)

// driven is the demo's opening whose operator is described, with its sheets, both
// for a test to change.
func driven(t *testing.T) (opening.Opening, *opening.Sheets, *opening.OperatorSheet) {
	t.Helper()
	j, _ := clinic(t)
	o := *demoOpening(t, j, "102")
	return o, &j.Sheets, j.Sheets.Operator(o.Operator.Sheet)
}

func planned(o *opening.Opening, sheets *opening.Sheets) *Plan {
	return Make(o, sheets, nil, Options{Draws: 64})
}

// What an operator does is computed with a spread, what it is set to is surveyed,
// and a reading outranks both.
func TestPoweredFactsAreComputed(t *testing.T) {
	o, sheets, _ := driven(t)
	p := planned(&o, sheets)
	for _, id := range []fact.ID{fact.PoweredTimeToCheck, fact.PoweredTimeTo80, fact.PoweredTimeTo90, fact.PoweredTimeToOpen,
		fact.PoweredStallMoment, fact.PoweredStallLast10, fact.PoweredPeakEnergy} {
		if f := p.Facts[id]; f.Origin != Computed || !(f.U > 0) {
			t.Errorf("%s is %+v", id, f)
		}
	}
	for id, want := range map[fact.ID]float64{fact.PoweredDwell: 6, fact.PoweredOpenAngle: float64(93 * q.Degree)} {
		if f := p.Facts[id]; f.Origin != Surveyed || math.Abs(f.Value-want) > 1e-12 || !(f.U > 0) {
			t.Errorf("%s is %+v, want %g", id, f, want)
		}
	}
	o.Readings = append(o.Readings, opening.Reading{Fact: "powered.time_to_90", Value: "7.5 s ± 0.2 s"})
	if f := planned(&o, sheets).Facts[fact.PoweredTimeTo90]; f.Origin != Read || f.Value != 7.5 {
		t.Errorf("read as 7.5 s, taken as %+v", f)
	}
}

// Half way between two marked settings the rate is half way between theirs, and
// beyond the last there is none.
func TestSpeedSetting(t *testing.T) {
	o, sheets, _ := driven(t)
	o.Operator.Setting = q.Exactly(q.Ratio(2.5))
	r := Resolve(&o, sheets)
	if got := r.Rows[swing.OpenRate]; math.Abs(got.Value-float64(22.5*q.Degree)) > 1e-12 || got.Assumed {
		t.Errorf("setting 2.5 between 20 and 25 deg/s is %+v", got)
	}
	o.Operator.Setting = q.Exactly(q.Ratio(4))
	if r := Resolve(&o, sheets); r.Drive.Fitted || len(r.Notes) == 0 {
		t.Errorf("setting 4 of 3 was taken; notes %v", r.Notes)
	}
	if got := planned(&o, sheets); got.Facts[fact.PoweredTimeTo90].Known || !strings.Contains(got.absent(fact.PoweredTimeTo90), "see the notes") {
		t.Errorf("a rate that nobody knows gives %+v", got.Facts[fact.PoweredTimeTo90])
	}
}

// An operator set to 90 degrees, more or less, has a time to there in every draw.
func TestSetTo90Degrees(t *testing.T) {
	o, sheets, _ := driven(t)
	o.Operator.OpenAngle = q.Give(90*q.Degree, 2*q.Degree)
	var mk Maker
	p := mk.Make(&o, sheets, nil, Options{Draws: 64})
	if lost := mk.draws.Summary(int(fact.PoweredTimeTo90)).Missing; lost > mk.draws.Summary(int(fact.PoweredTimeToOpen)).Missing {
		t.Errorf("%d draws of 64 have no time to 90 degrees", lost)
	}
	if f := p.Facts[fact.PoweredTimeTo90]; !f.Known {
		t.Errorf("time to 90 degrees: %+v", f)
	}
	o.Operator.OpenAngle = q.Give(80*q.Degree, q.Degree)
	p = planned(&o, sheets)
	if f := p.Facts[fact.PoweredTimeTo90]; f.Known || !strings.Contains(p.absent(fact.PoweredTimeTo90), "80 degrees only") {
		t.Errorf("set to 80 degrees, %+v because %q", f, p.absent(fact.PoweredTimeTo90))
	}
}

// Without power the hand turns the drive along: n·T_b more, unless it lets go.
func TestHandTurnsTheDriveAlong(t *testing.T) {
	o, sheets, sheet := driven(t)
	free := planned(&o, sheets).Facts[fact.HandToStart].Value
	sheet.LetsGo, sheet.BackDrive = "no", q.Exactly(2*q.NewtonMetre)
	p := planned(&o, sheets)
	m, err := p.Model()
	if err != nil {
		t.Fatal(err)
	}
	n, _ := m.Arm().Ratio(0)
	if got := p.Facts[fact.HandToStart].Value - free; math.Abs(got-2*n) > 1e-9 {
		t.Errorf("2 N·m at the shaft are %.4f N·m at the leaf, want %.4f", got, 2*n)
	}
}

// Times taken with the operator on are kept with it on; times taken without it
// are longer once it is turned along.
func TestTimesFoundWithAndWithoutTheOperator(t *testing.T) {
	o, sheets, sheet := driven(t)
	sheet.LetsGo, sheet.BackDrive = "no", q.Exactly(1*q.NewtonMetre)
	o.Air.Temperature = o.Air.Surveyed // the oil as it was
	took := func(fitted opening.YesNo) float64 {
		o.Operator.Fitted = fitted
		p := planned(&o, sheets)
		if p.Problem != nil {
			t.Fatal(p.Problem)
		}
		return p.Facts[fact.CloseTime90To12].Value
	}
	found := float64(o.Closer.SweepTime.Value)
	if got := took("yes"); math.Abs(got-found) > 2e-3 {
		t.Errorf("timed with the operator: %.4f s, found %.4f s", got, found)
	}
	if got := took("no"); !(got > found+0.02) {
		t.Errorf("turning an operator that was not there when it was timed takes %.4f s, no longer than the %.4f s found", got, found)
	}
}

// A unit is placed by its own arm's sheet; on the closer's own arm it drives the
// leaf as an add-on does.
func TestUnitWithItsOwnArm(t *testing.T) {
	o, sheets, sheet := driven(t)
	addOn := planned(&o, sheets)
	sheet.Kind, o.Operator.Arm = opening.OwnArm, o.Closer.Arm
	sheet.Limits = opening.UseLimits{}
	unit := planned(&o, sheets)
	if len(unit.Resolved.Notes) > len(addOn.Resolved.Notes) {
		t.Errorf("notes %v", unit.Resolved.Notes)
	}
	for _, id := range []fact.ID{fact.PoweredTimeToCheck, fact.PoweredTimeToOpen, fact.PoweredStallMoment, fact.PoweredPeakEnergy} {
		if got, want := unit.Facts[id].Value, addOn.Facts[id].Value; !(math.Abs(got/want-1) < 1e-4) {
			t.Errorf("%s: %.6g by its own arm, %.6g through the closer's", id, got, want)
		}
	}
	for _, c := range []struct {
		what, note string
		spoil      func()
	}{
		{"without an arm", "names no arm sheet", func() { o.Operator.Arm = "" }},
		{"far from its shoe", "left out", func() {
			o.Operator.Arm, o.Operator.Pinion = o.Closer.Arm, opening.Point{Along: q.Exactly(3 * q.Metre), Off: q.Exactly(q.Length(0.1))}
		}},
	} {
		c.spoil()
		r := Resolve(&o, sheets)
		if r.Drive.Fitted || !strings.Contains(strings.Join(r.Notes, "; "), c.note) {
			t.Errorf("%s: fitted %v, notes %v", c.what, r.Drive.Fitted, r.Notes)
		}
	}
}

// An add-on without a closer is left out, with a note, and so is one whose arm
// does not reach where it is to stop.
func TestOperatorThatCannotDrive(t *testing.T) {
	o, sheets, _ := driven(t)
	o.Operator.OpenAngle, o.Closer.Arm = q.Exactly(178*q.Degree), "regular arm R"
	o.Closer.Shoe = opening.Point{Along: q.Exactly(20 * q.Inch), Off: q.Exactly(q.Inch)} // 26 in apart, the arms span 21-1/2
	if r := Resolve(&o, sheets); r.Drive.Fitted || !strings.Contains(strings.Join(r.Notes, "; "), "short of the 178") {
		t.Errorf("to 178 degrees: fitted %v, notes %v", r.Drive.Fitted, r.Notes)
	}
	o.Closer = opening.Closer{None: "yes"}
	if r := Resolve(&o, sheets); r.Drive.Fitted || !strings.Contains(strings.Join(r.Notes, "; "), "closer's pinion") {
		t.Errorf("without a closer: fitted %v, notes %v", r.Drive.Fitted, r.Notes)
	}
}

// Too much pressure stalls the drive, and the plan says against what.
func TestStallIsExplained(t *testing.T) {
	o, sheets, _ := driven(t)
	limit := planned(&o, sheets).Swing.Power.Pressure
	if !(limit > 0) {
		t.Fatalf("opens against %v Pa", limit)
	}
	o.Air.Usual = q.Exactly(-2 * limit)
	p := planned(&o, sheets)
	if s := &p.Swing.Power; s.Usual.End != swing.Stalled || s.Against[0].Against != swing.AirPressure {
		t.Errorf("ended %v against %v", s.Usual.End, s.Against)
	}
	if why := p.absent(fact.PoweredTimeToOpen); !strings.Contains(why, "stalls at 0.0 degrees against air pressure") {
		t.Errorf("because %q", why)
	}
}

// A push start counts where a push or pull starts the operator, and what it
// takes by hand is told.
func TestPushStart(t *testing.T) {
	o, sheets, _ := driven(t)
	o.Operator.PushStart = q.Exactly(6 * q.Degree)
	if p := planned(&o, sheets); p.Swing.Power.From != 0 {
		t.Errorf("a switch starts it at %v", p.Swing.Power.From)
	}
	byPush := func(radius float64) float64 {
		p := planned(&o, sheets)
		return float64(p.Swing.Power.Push) * radius
	}
	o.Use.Activation = "push-pull"
	p := planned(&o, sheets)
	s := &p.Swing.Power
	if s.From != 6*q.Degree || s.Usual.From != s.From {
		t.Errorf("a push starts it at %v, driven from %v", s.From, s.Usual.From)
	}
	m, err := p.Model()
	if err != nil {
		t.Fatal(err)
	}
	if got, want := byPush(p.Facts[fact.HandleRadius].Value), float64(m.LargestHandMoment(0, 6*q.Degree)); math.Abs(got-want) > 1e-9 {
		t.Errorf("%.4f N·m by hand, want %.4f", got, want)
	}
}

// A reveal deeper and a space narrower than the paper allows are named.
func TestDoorwayOutsideTheLimitsOfUse(t *testing.T) {
	o, sheets, sheet := driven(t)
	sheet.Limits.RevealMax = q.Exactly(6 * q.Inch)
	o.Doorway.Depth, o.Doorway.BehindLeaf, o.Room.WallBeside = q.Exactly(8*q.Inch), q.Exactly(2*q.Inch), q.Measured[q.Length]{}
	said := ""
	for _, c := range planned(&o, sheets).Cautions {
		if c.Matter == "limits of use" {
			said = c.Text
		}
	}
	for _, want := range []string{"depth of the reveal 8", "at most 6", "space beside the open leaf 2", "at least 3"} {
		if !strings.Contains(said, want) {
			t.Errorf("%q does not tell of %q", said, want)
		}
	}
}
