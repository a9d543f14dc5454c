package plan

import (
	"math"
	"strings"
	"testing"

	"swingwright/fact"
	"swingwright/judge"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/rulebook"
)

func inches(x float64) q.Measured[q.Length] { return q.Exactly(q.Length(x) * q.Inch) }

func spotOf(along, off float64) opening.Spot {
	return opening.Spot{Along: inches(along), Off: inches(off)}
}

// roomy is the doorway of the trade's tables (common practice; derived there): a
// 36 in opening, 35-3/4 in leaf, 1-3/4 in thick, pin on the corner of the pull face,
// 1/8 in gaps and 5/8 in stops; its wall 4-1/4 in beside the pin.
func roomy() opening.Opening {
	return opening.Opening{
		ID:   "1",
		Use:  opening.Use{Operation: "low-energy", Activation: "switch"},
		Leaf: opening.Leaf{Width: inches(35.75), Height: inches(83), Thickness: inches(1.75)},
		Frame: opening.Frame{
			PinAlong: inches(0), PinOff: inches(0), Width: inches(36), Stop: inches(0.625),
		},
		Doorway: opening.Doorway{Gaps: opening.Gaps{Hinge: inches(0.125)}},
		Room:    opening.Room{WallBeside: inches(4.25)},
	}
}

func roomPlan(o opening.Opening) *Plan {
	return Make(&o, &opening.Sheets{}, nil, Options{Draws: 16})
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %v, want %v within %v", what, got, want, within)
	}
}

// The trade's table of clear widths of a 36 in opening, in inches to a tenth, where the leaf is planned to open
// so far; and at 90 degrees the fact, when nobody taped it.
func TestClearWidthAtThePlannedAngle(t *testing.T) {
	for _, c := range []struct{ angle, width float64 }{{70, 21.4}, {75, 24.3}, {80, 27.3}, {85, 30.4}, {87, 31.6}, {88, 32.3}, {90, 33.5}} {
		o := roomy()
		o.Operator.OpenAngle = q.Exactly(q.Angle(c.angle) * q.Degree)
		p := roomPlan(o)
		near(t, "clear width", float64(p.Room.Widths[1].Bare/q.Inch), c.width, 0.0501)
		near(t, "at 90", p.Facts[fact.ClearWidth].Value/float64(q.Inch), 33.5, 1e-9)
		if p.Facts[fact.ClearWidth].Origin != Computed || p.Facts[fact.PoweredClearWidth].Known {
			t.Errorf("clear width %+v, powered without an operator %+v", p.Facts[fact.ClearWidth], p.Facts[fact.PoweredClearWidth])
		}
	}
}

// At 90 degrees the width is opening − gap − stop − thickness − pin offset, so that
// its spread is the root of the sum of theirs; that of the leaf's width takes no part.
func TestSpreadOfTheClearWidth(t *testing.T) {
	o := roomy()
	o.Leaf.Width.U, o.Frame.Width.U, o.Frame.Stop.U = 0.05, 0.003, 0.001
	o.Leaf.Thickness.U, o.Frame.PinOff.U, o.Doorway.Gaps.Hinge.U = 0.0004, 0.0005, 0.0006
	want := math.Sqrt(9e-6 + 1e-6 + 16e-8 + 25e-8 + 36e-8)
	f := roomPlan(o).Facts[fact.ClearWidth]
	near(t, "u", f.U, want, 1e-12)
}

// What was taped, or read, outranks what was computed.
func TestTapedOutranksGeometry(t *testing.T) {
	o := roomy()
	o.Doorway.ClearWidth = q.Give(32.25*q.Inch, q.Inch/16)
	o.Readings = []opening.Reading{{Fact: "doorway.behind_leaf", Value: "3 in"}}
	p := roomPlan(o)
	near(t, "clear width", p.Facts[fact.ClearWidth].Value/float64(q.Inch), 32.25, 1e-9)
	near(t, "behind the leaf", p.Facts[fact.BehindLeaf].Value/float64(q.Inch), 3, 1e-9)
	if p.Facts[fact.ClearWidth].Origin != Read || p.Facts[fact.BehindLeaf].Origin != Read {
		t.Errorf("origins %v and %v", p.Facts[fact.ClearWidth].Origin, p.Facts[fact.BehindLeaf].Origin)
	}
}

// A computed width is judged like a taped one, and its spread counts: 33.5 in
// against a limit of 32 in passes with 1/4 in, and not with 1 in.
func TestRulesJudgeTheGeometry(t *testing.T) {
	for u, want := range map[q.Length]judge.Verdict{q.Inch / 4: judge.Meets, q.Inch: judge.TooClose} {
		o := roomy()
		o.Frame.Width.U = u
		book := &rulebook.Book{ID: "b", Rules: []rulebook.Rule{{
			ID: "width", Of: fact.ClearWidth, Side: rulebook.AtLeast, Confirmed: true, Limit: &rulebook.Expr{Op: rulebook.Const, Dim: q.DimLength, Value: float64(32 * q.Inch)},
		}}}
		p := Make(&o, &opening.Sheets{}, []*rulebook.Book{book}, Options{Draws: 256})
		f := p.Findings[0]
		if f.Verdict != want || f.Origin != Computed {
			t.Errorf("with %v m: %v, %v; want %v", u, f.Verdict, f.Origin, want)
		}
		if want == judge.TooClose && (len(f.Drivers) == 0 || !strings.Contains(f.Drivers[0].Input, "width of the opening")) {
			t.Errorf("drivers %+v", f.Drivers)
		}
	}
}

// The opening worked end to end in the trade's reference: 4-1/4 in to the wall
// and a pull of 2-1/2 in at 33 in keep 1/2 in up to 92.2 degrees.
func TestWallKeepsItsGap(t *testing.T) {
	pull := opening.Projection{What: "pull", Side: opening.PullSide, FromHinge: inches(33), Out: inches(2.5)}
	for angle, want := range map[q.Angle]judge.Verdict{90: judge.Meets, 92.2: judge.TooClose, 95: judge.FallsShort} {
		o := roomy()
		o.Leaf.Projections = []opening.Projection{pull}
		o.Operator.OpenAngle = q.Give(angle*q.Degree, q.Degree/4)
		w := roomPlan(o).Room.Wall
		near(t, "stops at", float64(w.StopAt.Value/q.Degree), 92.2, 0.0501)
		if w.Keeps != want || w.First != "pull (pull side)" {
			t.Errorf("open to %v degrees: %v by %q, want %v", float64(angle), w.Keeps, w.First, want)
		}
	}
}

// The spread of the angle at which the bare leaf touches the wall: θ = 90° +
// arcsin(s/r), so du/ds = 1/(r cos(θ − 90°)).
func TestSpreadOfTheContact(t *testing.T) {
	o := roomy()
	o.Room.WallBeside.U = 0.005
	r := roomPlan(o).Room
	reach := 35.75 * q.Inch
	theta := math.Asin(float64(o.Room.WallBeside.Value / reach))
	near(t, "contact", float64(r.Opens.Angle), math.Pi/2+theta, 1e-5)
	near(t, "its spread", float64(r.Opens.U), 0.005/(float64(reach)*math.Cos(theta)), 2e-5)
	if r.Opens.By != "leaf touches wall beside the hinges" || r.Opens.Free != judge.Meets {
		t.Errorf("%+v", r.Opens)
	}
}

// What ends the swing is the first of contact, arm and what was seen to stop it;
// things at other heights are passed over.
func TestWhatEndsTheSwing(t *testing.T) {
	thing := func(bottom, top float64) opening.Thing {
		return opening.Thing{What: "shelf", From: spotOf(10, 30), To: spotOf(30, 40), Bottom: inches(bottom), Top: inches(top)}
	}
	for _, c := range []struct {
		name string
		take func(o *opening.Opening)
		by   string
		free judge.Verdict
	}{
		{"nothing measured", func(o *opening.Opening) { *o = opening.Opening{Leaf: o.Leaf} }, "", judge.NotMeasured},
		{"a shelf in the way", func(o *opening.Opening) { o.Room.Things = []opening.Thing{thing(30, 40)} }, "leaf touches shelf", judge.FallsShort},
		{"a sprinkler above it", func(o *opening.Opening) { o.Room.Things = []opening.Thing{thing(90, 95)} }, "leaf touches wall beside the hinges", judge.Meets},
		{"a stop before the wall", func(o *opening.Opening) { o.Room.StopsAt, o.Room.StopsOn = q.Exactly(92*q.Degree), "floor stop" }, "floor stop", judge.Meets},
		{"a stop beyond the wall", func(o *opening.Opening) { o.Room.StopsAt = q.Exactly(120 * q.Degree) }, "leaf touches wall beside the hinges", judge.TooClose},
		{"driven beyond the stop", func(o *opening.Opening) {
			o.Room.StopsAt, o.Operator.OpenAngle = q.Exactly(80*q.Degree), q.Exactly(90*q.Degree)
		}, "something stops it there", judge.FallsShort},
	} {
		o := roomy()
		c.take(&o)
		r := roomPlan(o).Room
		if r.Opens.By != c.by || r.Opens.Free != c.free {
			t.Errorf("%s: %+v, want %q and %v", c.name, r.Opens, c.by, c.free)
		}
		if (r.Doubt != "") != (c.name == "a stop beyond the wall") {
			t.Errorf("%s: doubt %q", c.name, r.Doubt)
		}
	}
}

// A switch on the corridor wall, by right angles: 60 in along and on the face of
// the closed leaf, so 60 − 35-3/4 in from its edge; its distances are facts where none was taped.
func TestPlacedControls(t *testing.T) {
	o := roomy()
	o.Controls = []opening.Control{
		{What: "plate", Reach: "side", Place: spotOf(60, -0.875)},
		{What: "post", Reach: "forward", Side: opening.PullSide, Place: spotOf(18, 96)},
	}
	p := roomPlan(o)
	in := float64(q.Inch)
	near(t, "beside", p.Facts[fact.ControlBeside].Value/in, 24.25, 1e-9)
	near(t, "ahead", p.Facts[fact.ControlAheadPull].Value/in, 96, 1e-9)
	near(t, "past the open edge, the nearest", p.Facts[fact.ControlFromOpenEdge].Value/in, 0, 1e-9) // the plate does not come so far
	near(t, "farthest", p.Facts[fact.ControlFarthest].Value/in, math.Hypot(18-17.875, 96.875), 1e-9)
	near(t, "nearest to the swing", p.Facts[fact.ControlFromSwing].Value/in, math.Hypot(60, 0.875)-math.Hypot(35.75, 1.75), 1e-9)
	if f := p.Facts[fact.ControlBeside]; f.Origin != Computed {
		t.Errorf("%+v", f)
	}
	near(t, "hold", float64(p.Room.Controls[1].Hold), 5+4, 1e-12) // 8.07 ft: 5 s and 4 s for the feet begun beyond 5
	o.Controls[0].FromMiddle, o.Controls[1].FromMiddle = inches(40), inches(100)
	if f := roomPlan(o).Facts[fact.ControlFarthest]; f.Origin != Read || math.Abs(f.Value/in-100) > 1e-9 {
		t.Errorf("taped, and yet %+v", f)
	}
	o.Controls[0].Side = opening.PushSide
	near(t, "past the open edge", roomPlan(o).Facts[fact.ControlFromOpenEdge].Value/in, 96-35.75, 1e-9)
	o.Controls[1].Place = opening.Spot{}
	if f := roomPlan(o).Facts[fact.ControlFromSwing]; f.Known {
		t.Errorf("one of two is not placed, and yet the nearest is %+v", f)
	}
}

// The operator's paper asks for 8 in over the head on the side of its body.
func TestOverTheHead(t *testing.T) {
	sheet := opening.OperatorSheet{Name: "D", Kind: opening.AddOn, Limits: opening.UseLimits{CeilingRoom: inches(8)}}
	arm := opening.ArmSheet{Name: "A", Kind: opening.RegularArm, Main: inches(11), Fore: inches(10.5), Pinion: opening.Point{Along: inches(6.5), Off: inches(2.25)}, Shoe: opening.Point{Along: inches(12.5), Off: inches(1)}}
	o := roomy()
	o.Operator.Sheet, o.Closer.Arm = "D", "A"
	o.Room.AbovePull, o.Room.AbovePush = inches(6), inches(20)
	p := Make(&o, &opening.Sheets{Operators: []opening.OperatorSheet{sheet}, Arms: []opening.ArmSheet{arm}}, nil, Options{Draws: 16})
	if over := p.Room.Over; over == nil || over.Side != opening.PullSide || over.Keeps != judge.FallsShort {
		t.Fatalf("over the head %+v", over)
	}
	found := false
	for _, c := range p.Cautions {
		found = found || strings.Contains(c.Text, "height over the head 6 in")
	}
	if !found {
		t.Errorf("no caution: %+v", p.Cautions)
	}
	if !p.Facts[fact.PoweredClearWidth].Known {
		t.Error("an operator is named, and yet the powered clear width is not computed")
	}
}

// Marks are chords 2 r sin(θ/2) at the latch edge, and the leaf's own zones have theirs.
func TestFloorMarks(t *testing.T) {
	o := roomy()
	o.Operator.OpenAngle = q.Exactly(93 * q.Degree)
	marks := roomPlan(o).Room.Marks
	seen := map[string]bool{}
	for _, m := range marks {
		near(t, "chord", float64(m.Chord/q.Inch), 2*35.75*math.Sin(float64(m.Angle)/2), 1e-9)
		seen[m.For] = true
	}
	for _, want := range []string{"fully open", "75 mm from closed", "closing and opening times"} {
		if !seen[want] {
			t.Errorf("no mark for %q: %v", want, seen)
		}
	}
	for i := 1; i < len(marks); i++ {
		if marks[i].Angle-marks[i-1].Angle < sameMark {
			t.Errorf("%v and %v are one mark", marks[i-1].Angle, marks[i].Angle)
		}
	}
}

// A cord from 1 in behind the pin to 2 in along the leaf: 3 in when closed, √(4 + 1) at 90°.
func TestCord(t *testing.T) {
	o := roomy()
	o.DoorLoop = opening.DoorLoop{Frame: spotOf(-1, 0), Leaf: spotOf(2, 0)}
	c := roomPlan(o).Room.Cord
	near(t, "longest", float64(c.Longest/q.Inch), 3, 1e-9)
	near(t, "shortest", float64(c.Shortest/q.Inch), math.Sqrt(5), 1e-9)
	near(t, "cord", float64(c.Length/q.Inch), 3*1.15, 1e-9)
	if c.LongestAt != 0 {
		t.Errorf("longest at %v", c.LongestAt)
	}
}

// An exit bar stands 3 in into the way at 38 in; that below nothing does has to be seen.
func TestProjectionsIntoTheWay(t *testing.T) {
	o := roomy()
	o.Leaf.Projections = []opening.Projection{{What: "bar", Side: opening.PushSide, FromHinge: inches(18), Along: inches(30), Out: inches(3), Bottom: inches(37), Top: inches(40)}}
	p := roomPlan(o)
	near(t, "high", p.Facts[fact.HighProjection].Value/float64(q.Inch), 3, 1e-9)
	if p.Facts[fact.LowProjection].Known {
		t.Errorf("low %+v", p.Facts[fact.LowProjection])
	}
}

// Things of one name are told apart, and a survey that makes no body is told of.
func TestNamesAndProblems(t *testing.T) {
	n := names{"leaf": 1}
	for _, want := range []string{"post", "post 2", "post 3", "leaf 2"} {
		if got := n.only(strings.Fields(want)[0]); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	o := roomy()
	o.Room.Things = []opening.Thing{{What: "shelf", From: spotOf(1, 30), To: spotOf(9, 40), Bottom: inches(40), Top: inches(30)}}
	if r := roomPlan(o).Room; r.Problem == nil || r.Opens.Free != judge.NotMeasured || len(r.Widths) != 2 {
		t.Errorf("a shelf upside down: %v, %v", r.Problem, r.Opens)
	}
}

// An arm that meets the wall ends the swing: regular arms swing out over the hinges.
func TestArmMeetsTheWall(t *testing.T) {
	o := roomy()
	o.Room.WallBeside = inches(2.5)
	o.Closer.Arm, o.Closer.Size = "A", q.Exactly(q.Ratio(3))
	arm := opening.ArmSheet{Name: "A", Kind: opening.RegularArm, Elbow: opening.PullSide, Main: inches(11), Fore: inches(10.5), Pinion: opening.Point{Along: inches(6.5), Off: inches(2.25)}, Shoe: opening.Point{Along: inches(12.5), Off: inches(1)}}
	p := Make(&o, &opening.Sheets{Arms: []opening.ArmSheet{arm}}, nil, Options{Draws: 16})
	first := p.Room.Contacts[0]
	// the pinion, with half the arm's width, turns about the pin: it is at x = −2 in where the arm's end touches
	r, at := math.Hypot(6.5, 2.25), math.Atan2(2.25, 6.5)
	want := math.Acos(-(2.5-0.5)/r) - at
	if first.Moving != "main arm of the closer" || math.Abs(float64(first.Angle)-want) > 0.01*float64(q.Degree) {
		t.Errorf("%v at %v degrees, want the main arm at %v", first.String(), float64(first.Angle/q.Degree), want*180/math.Pi)
	}
}

func BenchmarkRoom(b *testing.B) {
	o := roomy()
	o.Leaf.Projections = []opening.Projection{{What: "pull", Side: opening.PullSide, FromHinge: inches(33), Out: inches(2.5)}, {What: "bar", Side: opening.PushSide, FromHinge: inches(18), Along: inches(30), Out: inches(3)}}
	o.Room.Things = []opening.Thing{{What: "radiator", From: spotOf(-4, 44), To: spotOf(3, 70)}, {What: "stop", From: spotOf(-3, 28), Round: inches(2)}}
	o.Controls = []opening.Control{{Place: spotOf(60, 0)}, {Place: spotOf(48, -6)}}
	o.Closer.Arm = "A"
	arm := opening.ArmSheet{Name: "A", Kind: opening.RegularArm, Elbow: opening.PullSide, Main: inches(11), Fore: inches(10.5), Pinion: opening.Point{Along: inches(6.5), Off: inches(2.25)}, Shoe: opening.Point{Along: inches(12.5), Off: inches(1)}}
	r := Resolve(&o, &opening.Sheets{Arms: []opening.ArmSheet{arm}})
	var best [fact.Count]float64
	b.ReportAllocs()
	for b.Loop() {
		roomOf(&o, r, best[:], nil, judge.Policy{})
	}
}
