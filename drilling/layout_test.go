package drilling

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "swingwright/internal/steady"
	"swingwright/judge"
	"swingwright/opening"
	q "swingwright/quantity"
)

func in(x float64) q.Measured[q.Length] { return q.Exactly(q.Length(x) * q.Inch) }

// hole is a through-bolt's hole in the leaf, from the hinge edge and the top.
func hole(mark string, along, across, diameter float64) opening.Hole {
	return opening.Hole{Mark: mark, On: opening.LeafFace, Along: in(along), Across: in(across), Diameter: in(diameter), Fastener: opening.ThroughBolt, Foot: in(0.25), FarSeat: in(0.0625)}
}

// with is an opening of 36 in by 84 in by 1-3/4 in with a plate to be fixed to its leaf.
func with(side opening.Side, holes ...opening.Hole) (*opening.Opening, *opening.Sheets) {
	o := &opening.Opening{
		ID:       "1",
		Leaf:     opening.Leaf{Width: in(36), Height: in(84), Thickness: in(1.75), Concealed: "no"},
		Frame:    opening.Frame{Hand: "RH", PinAlong: in(0.125), Width: in(36.25), Face: in(2), StopDeep: in(2)},
		Drilling: opening.Drilling{Fixtures: []string{"plate"}},
	}
	return o, &opening.Sheets{Fixtures: []opening.FixtureSheet{{Name: "plate", Side: side, Holes: holes}}}
}

// find is the hole of a mark on a face.
func (l *Layout) find(f Face, mark string) *Hole {
	for i := range l.Sides {
		for k := range l.Sides[i].Holes {
			if h := &l.Sides[i].Holes[k]; l.Sides[i].Face == f && h.Mark == mark {
				return h
			}
		}
	}
	return nil
}

var (
	pullFace = Face{opening.LeafFace, opening.PullSide}
	pushFace = Face{opening.LeafFace, opening.PushSide}
)

// Hands as the trade defines them: seen from the outside, left or right by the hinges;
// the leaf swings away, or toward one where it is reverse. So a left-hand leaf has its
// hinges at the left of who stands on its push side, a left-hand reverse one at the
// left of who stands on its pull side.
func TestHingesLeft(t *testing.T) {
	for _, c := range []struct {
		hand opening.Hand
		side opening.Side
		want bool
	}{
		{"LH", opening.PushSide, true}, {"LH", opening.PullSide, false},
		{"RH", opening.PushSide, false}, {"RH", opening.PullSide, true},
		{"LHR", opening.PullSide, true}, {"LHR", opening.PushSide, false},
		{"RHR", opening.PullSide, false}, {"RHR", opening.PushSide, true},
		{"", opening.PullSide, false}, {"", opening.PushSide, false},
	} {
		if got := HingesLeft(c.hand, c.side); got != c.want {
			t.Errorf("%s from the %s side: hinges left %v", c.hand, c.side, got)
		}
	}
}

// One hole, 4 in from the hinge edge and 2 in below the top, on paper for every hand
// and face, worked by hand.
func TestOnPaper(t *testing.T) {
	p := Place{4 * q.Inch, 2 * q.Inch}
	for _, c := range []struct {
		face Face
		left bool
		x, y float64
	}{
		{pullFace, true, 101.6, -50.8}, {pullFace, false, -101.6, -50.8},
		{Face{opening.HeadFace, opening.PullSide}, true, 101.6, 50.8},
		{Face{opening.Soffit, opening.PushSide}, false, -101.6, 50.8},
		{Face{opening.HingeJamb, opening.PushSide}, true, -101.6, -50.8}, // out from the opening is to the left
		{Face{opening.LatchJamb, opening.PushSide}, true, 101.6, -50.8},
	} {
		if x, y := c.face.OnPaper(p, c.left); math.Abs(x-c.x) > 1e-9 || math.Abs(y-c.y) > 1e-9 {
			t.Errorf("%v, hinges left %v: (%v, %v), want (%v, %v)", c.face, c.left, x, y, c.x, c.y)
		}
	}
}

// Every upright face as somebody sees it who stands before it, found from where things
// are: x along the opening, y toward who stands on the push side, z up, with the pull side
// south of the leaf. To the right of who looks along f is f × up.
func TestFacesAsOneSeesThem(t *testing.T) {
	type vector [2]float64 // x, y
	const south, north = -1., 1.
	for _, hand := range []opening.Hand{"LH", "RH", "LHR", "RHR"} {
		latch := -1. // which way the latch is, from the hinges
		if HingesLeft(hand, opening.PullSide) {
			latch = 1 // who stands south and looks north has the west, and the hinges, at the left
		}
		for _, c := range []struct {
			face     Face
			out      vector // away from the face, toward who looks at it
			distance vector // the way in which X grows
		}{
			{pullFace, vector{0, south}, vector{latch, 0}},
			{pushFace, vector{0, north}, vector{latch, 0}},
			{Face{opening.HeadFace, opening.PullSide}, vector{0, south}, vector{latch, 0}},
			{Face{opening.HeadFace, opening.PushSide}, vector{0, north}, vector{latch, 0}},
			{Face{opening.HingeJamb, opening.PullSide}, vector{0, south}, vector{-latch, 0}},
			{Face{opening.HingeJamb, opening.PushSide}, vector{0, north}, vector{-latch, 0}},
			{Face{opening.LatchJamb, opening.PullSide}, vector{0, south}, vector{latch, 0}},
			{Face{opening.LatchJamb, opening.PushSide}, vector{0, north}, vector{latch, 0}},
			{Face{opening.LatchRabbet, opening.PullSide}, vector{-latch, 0}, vector{0, south}}, // from the stop out
			{Face{opening.LatchStop, opening.PushSide}, vector{-latch, 0}, vector{0, north}},   // from the leaf on
		} {
			look := vector{-c.out[0], -c.out[1]}
			right := vector{look[1], -look[0]}
			want := right[0]*c.distance[0] + right[1]*c.distance[1]
			x, y := c.face.OnPaper(Place{X: 1, Y: 1}, HingesLeft(hand, c.face.Side))
			if x != want*1000 {
				t.Errorf("%s, %v: X grows to %+v of the drawing, want %+v", hand, c.face, x, want)
			}
			if down := c.face.On != opening.HeadFace; down != (y < 0) {
				t.Errorf("%v: Y grows to %v", c.face, y)
			}
		}
	}
}

// A strike, let into the rabbet of the latch jamb: its cut-out of 3-3/8 in by 1-1/8 in and
// its two screws lie on a face 2 in wide, which is the leaf's 1-3/4 in and the 1/4 in that
// the jamb stands proud. Worked by hand.
func TestStrikeInTheRabbet(t *testing.T) {
	box := opening.Hole{Mark: "B", On: opening.LatchRabbet, Along: in(0.9375), Across: in(43), Diameter: in(3.375), Width: in(1.125), Shape: opening.CutOut, Fastener: opening.Passage, Depth: in(1.5)}
	screw := func(mark string, across float64) opening.Hole {
		return opening.Hole{Mark: mark, On: opening.LatchRabbet, Along: in(0.9375), Across: in(across), Diameter: in(0.1875), Fastener: opening.MachineScrew}
	}
	o, _ := with(opening.PushSide)
	o.Frame.Proud, o.Lock.Strike = in(0.25), "Q"
	o.Drilling = opening.Drilling{For: []opening.Fixing{opening.StrikeHoles}}
	sheets := &opening.Sheets{Strikes: []opening.StrikeSheet{{Name: "Q", Holes: []opening.Hole{box, screw("S1", 41), screw("S2", 45)}}}}
	l := Lay(o, sheets, judge.Policy{})
	face := Face{opening.LatchRabbet, opening.PullSide}
	if len(l.Problems) > 0 || len(l.Unplaced) > 0 || len(l.Sides) != 1 || l.Sides[0].Face != face || l.Planned() != 3 || l.Sides[0].Width.Value != 2*q.Inch {
		t.Fatalf("%+v", l)
	}
	if at := l.find(face, "S2").At; apart(at, Place{0.9375 * q.Inch, 45 * q.Inch}) > 1e-9 {
		t.Errorf("the lower screw is at %v", at)
	}
	// to the stop 0.9375 − 0.5625 = 0.375 in are left, to the screws 2 − 1.6875 − 0.09375 = 0.21875 in
	for _, want := range []struct {
		what string
		room q.Length
	}{{"metal or wood left to the stop", 0.375 * q.Inch}, {"apart from S1 of strike (Q)", 0.21875 * q.Inch}} {
		found := false
		for _, c := range l.find(face, "B").Checks {
			found = found || c.What == want.what && math.Abs(float64(c.Room-want.room)) < 1e-9
		}
		if !found {
			t.Errorf("no check %q of %v m: %+v", want.what, want.room, l.find(face, "B").Checks)
		}
	}
	for name, c := range map[string]struct {
		change func()
		want   string
	}{
		"too wide":          {func() { sheets.Strikes[0].Holes[0].Width = in(2.125) }, "a hole of 2-1/8 in (54 mm) in a face whose width is 2 in"},
		"over the edge":     {func() { sheets.Strikes[0].Holes[0].Along = in(1.5) }, "it runs over the edge of the rabbet of the latch jamb by 1/16 in"},
		"over its screw":    {func() { sheets.Strikes[0].Holes[1].Across = in(42) }, "it overlaps S1 of strike (Q)"},
		"in a thinner leaf": {func() { o.Leaf.Thickness = in(1) }, "it runs over the edge"},
	} {
		sheets.Strikes[0].Holes, o.Leaf.Thickness = []opening.Hole{box, screw("S1", 41), screw("S2", 45)}, in(1.75)
		c.change()
		if got := fmt.Sprint(Lay(o, sheets, judge.Policy{}).Problems); !strings.Contains(got, c.want) {
			t.Errorf("%s: problems %s", name, got)
		}
	}
	o.Frame.Proud = q.Measured[q.Length]{}
	if got := fmt.Sprint(Lay(o, sheets, judge.Policy{}).Missing); !strings.Contains(got, "frame.proud") {
		t.Errorf("missing %s", got)
	}
}

// Places from every named edge, worked by hand on a leaf of 36 in by 84 in.
func TestPlaces(t *testing.T) {
	fromLatch, fromPin, fromBottom := hole("L", 3, 2, 0.375), hole("P", 4, 2, 0.375), hole("B", 5, 10, 0.375)
	fromLatch.AlongFrom, fromPin.AlongFrom, fromBottom.AcrossFrom = opening.FromLatchEdge, opening.FromPin, "bottom"
	head := opening.Hole{Mark: "H", On: opening.HeadFace, Along: in(12), AlongFrom: opening.FromPin, Across: in(1), Diameter: in(0.2), Fastener: opening.MachineScrew}
	o, sheets := with(opening.PullSide, hole("E", 5, 2, 0.375), fromLatch, fromPin, fromBottom, head)
	l := Lay(o, sheets, judge.Policy{})
	if len(l.Problems) > 0 || len(l.Unplaced) > 0 {
		t.Fatalf("%v, %v", l.Problems, l.Unplaced)
	}
	for mark, want := range map[string]Place{
		"E": {5 * q.Inch, 2 * q.Inch}, "L": {33 * q.Inch, 2 * q.Inch},
		"P": {3.875 * q.Inch, 2 * q.Inch}, // the pin is 1/8 in out from the edge
		"B": {5 * q.Inch, 74 * q.Inch},
	} {
		for _, face := range []Face{pullFace, pushFace} { // through-bolts come out at the same place
			h := l.find(face, mark)
			if h == nil || apart(h.At, want) > 1e-9 || h.Transferred != (face == pushFace) {
				t.Errorf("%s on the %v: %+v, want %v", mark, face, h, want)
			}
		}
	}
	// on the head the pin is 1/8 in less the gap, assumed 1/8 in, from the rabbet
	if h := l.find(Face{opening.HeadFace, opening.PullSide}, "H"); h == nil || apart(h.At, Place{12 * q.Inch, q.Inch}) > 1e-9 {
		t.Errorf("on the head: %+v", h)
	}
	if len(l.Notes) != 1 || !strings.Contains(l.Notes[0], "gap") {
		t.Errorf("notes %q: the gap was assumed", l.Notes)
	}
	if l.Planned() != 5 {
		t.Errorf("%d holes are planned", l.Planned())
	}
}

func TestUnknownsLeaveHolesUnplaced(t *testing.T) {
	fromLatch, fromPin, fromBottom := hole("L", 3, 2, 0.375), hole("P", 4, 2, 0.375), hole("B", 5, 10, 0.375)
	fromLatch.AlongFrom, fromPin.AlongFrom, fromBottom.AcrossFrom = opening.FromLatchEdge, opening.FromPin, "bottom"
	o, sheets := with(opening.PullSide, fromLatch, fromPin, fromBottom, hole("E", 5, 2, 0.375))
	o.Leaf.Width, o.Leaf.Height, o.Leaf.Thickness, o.Frame.PinAlong, o.Frame.Hand = q.Measured[q.Length]{}, q.Measured[q.Length]{}, q.Measured[q.Length]{}, q.Measured[q.Length]{}, ""
	l := Lay(o, sheets, judge.Policy{})
	if len(l.Unplaced) != 3 || l.find(pullFace, "E") == nil || l.HandKnown || l.Exit.Known {
		t.Errorf("unplaced %v; hand known %v", l.Unplaced, l.HandKnown)
	}
	for _, want := range []string{"frame.hand", "leaf.width", "leaf.height", "leaf.thickness", "frame.pin_to_edge"} {
		if !strings.Contains(fmt.Sprint(l.Missing), want) {
			t.Errorf("%s is not among what is missing", want)
		}
	}
}

// Distances worked by hand: a hole of 1/2 in at 6 in and 4 in, on both faces.
func TestChecks(t *testing.T) {
	exact := func(x float64) q.Measured[q.Length] { return q.Give(q.Length(x)*q.Inch, 1e-6) }
	base := func() (*opening.Opening, *opening.Sheets) { return with(opening.PullSide, hole("A", 6, 4, 0.5)) }
	inside := func(kind opening.InnerKind, x1, x2, y1, y2 float64) opening.Inner {
		return opening.Inner{Kind: kind, Along: exact(x1), AlongTo: exact(x2), Across: exact(y1), AcrossTo: exact(y2)}
	}
	for name, c := range map[string]struct {
		set  func(o *opening.Opening, s *opening.Sheets)
		what string
		room float64 // in
		want judge.Verdict
	}{
		"edge":          {func(*opening.Opening, *opening.Sheets) {}, "2 diameters from the top edge", 3, judge.Meets},
		"near the edge": {func(_ *opening.Opening, s *opening.Sheets) { s.Fixtures[0].Holes[0].Across = in(0.5) }, "2 diameters from the top edge", -0.5, judge.FallsShort},
		"rod beside": {func(o *opening.Opening, _ *opening.Sheets) {
			o.Leaf.Inside = []opening.Inner{inside(opening.InRod, 7, 8, 0, 84)}
		}, "clear of the rod", 0.75, judge.Meets},
		"rod met": {func(o *opening.Opening, _ *opening.Sheets) {
			o.Leaf.Inside = []opening.Inner{inside(opening.InRod, 6.1, 8, 0, 84)}
		}, "clear of the rod", -0.15, judge.FallsShort},
		"in a raceway": {func(o *opening.Opening, _ *opening.Sheets) {
			o.Leaf.Inside = []opening.Inner{inside(opening.InRaceway, 5, 8, 0, 10)}
		}, "clear of the raceway", -1.25, judge.FallsShort},
		"wire at corner": {func(o *opening.Opening, _ *opening.Sheets) {
			o.Leaf.Inside = []opening.Inner{inside(opening.InWire, 9, 10, 8, 10)}
		}, "clear of the wire", 5 - 0.25, judge.Meets},
		"rod, but where?": {func(o *opening.Opening, _ *opening.Sheets) {
			o.Leaf.Inside = []opening.Inner{{Kind: opening.InRod, Along: q.Give(6.3*q.Inch, 0.2*q.Inch), AlongTo: in(8)}}
		}, "clear of the rod", 0.05, judge.TooClose},
		"lite": {func(o *opening.Opening, _ *opening.Sheets) {
			o.Leaf.Lites = []opening.Lite{{Width: exact(6), Height: exact(20), FromHinge: exact(10), FromTop: exact(3)}}
		}, "clear of the lite", 0.75, judge.Meets},
		"reinforced": {func(o *opening.Opening, s *opening.Sheets) {
			s.Fixtures[0].Holes[0].Fastener, s.Fixtures[0].Holes[0].Grip = opening.MachineScrew, in(0.5)
			o.Leaf.Inside = []opening.Inner{inside(opening.InReinforcement, 2, 12, 1, 5)}
		}, "within the reinforcement", 0.75, judge.Meets},
		"off the rail": {func(o *opening.Opening, s *opening.Sheets) {
			s.Fixtures[0].Holes[0].Fastener, s.Fixtures[0].Holes[0].Grip = opening.SelfDrilling, in(0.5)
			o.Leaf.Inside = []opening.Inner{inside(opening.InRail, 0, 36, 0, 3)}
		}, "within the rail", -1.25, judge.FallsShort},
		"old hole cut": {func(o *opening.Opening, _ *opening.Sheets) {
			o.Leaf.Holes = []opening.OldHole{{Along: exact(6.375), Across: exact(4), Diameter: exact(0.375)}}
		}, "apart from the old hole", -0.0625, judge.FallsShort},
		"old hole drilled out": {func(o *opening.Opening, _ *opening.Sheets) {
			o.Leaf.Holes = []opening.OldHole{{Along: exact(6.0625), Across: exact(4), Diameter: exact(0.25)}}
		}, "drills out the old hole", 0, judge.Meets},
	} {
		o, sheets := base()
		c.set(o, sheets)
		l := Lay(o, sheets, judge.Policy{})
		h := l.find(pullFace, "A")
		if h == nil {
			t.Fatalf("%s: no hole; %v", name, l.Problems)
		}
		found := false
		for _, got := range h.Checks {
			if strings.HasPrefix(got.What, c.what) {
				found = true
				if math.Abs(float64(got.Room/q.Inch)-c.room) > 1e-6 || got.Verdict != c.want {
					t.Errorf("%s: %s %.4f in, %v; want %v in, %v", name, got.What, float64(got.Room/q.Inch), got.Verdict, c.room, c.want)
				}
			}
		}
		if !found {
			t.Errorf("%s: no check %q among %+v", name, c.what, h.Checks)
		}
	}
}

// What hangs there keeps its holes: a new hole is held against them, and shares those
// that coincide.
func TestHolesOfWhatHangsThere(t *testing.T) {
	o, sheets := with(opening.PullSide, hole("A", 6, 4, 0.375), hole("B", 10, 4, 0.375))
	at := hole("C1", 6, 4.02, 0.375)
	near := hole("C2", 10.3, 4, 0.375)
	sheets.Closers = []opening.CloserSheet{{Name: "closer", Holes: []opening.Hole{at, near}}}
	sheets.Arms = []opening.ArmSheet{{Name: "arm", Kind: opening.RegularArm}}
	o.Closer.Sheet, o.Closer.Arm = "closer", "arm"
	l := Lay(o, sheets, judge.Policy{})
	if len(l.Problems) > 0 || l.Planned() != 2 {
		t.Fatalf("%v, %d planned", l.Problems, l.Planned())
	}
	if h := l.find(pullFace, "A"); !strings.Contains(fmt.Sprint(h.Checks), "shares the hole C1 of closer (closer)") {
		t.Errorf("A: %+v", h.Checks)
	}
	v, c := l.find(pullFace, "B").Worst()
	if v != judge.FallsShort || c == nil || !strings.Contains(c.What, "C2") || math.Abs(float64(c.Room/q.Inch)+0.075) > 1e-6 {
		t.Errorf("B: %v %+v", v, c)
	}
}

// Everything that cannot be is told at once, and every hole is still there.
func TestImpossiblePatterns(t *testing.T) {
	nan := hole("N", 6, 4, 0.375)
	nan.Along.Value = q.Length(math.NaN())
	minus := hole("M", -2, 4, 0.375)
	pilot := hole("P", 20, 4, 0.375)
	pilot.Pilot = in(0.5)
	deep := hole("D", 22, 4, 0.375)
	deep.Fastener, deep.Depth = opening.WoodScrew, in(2)
	head := opening.Hole{Mark: "H", On: opening.HeadFace, Along: in(12), Across: in(1), Diameter: in(2.5), Fastener: opening.MachineScrew}
	bolt := opening.Hole{Mark: "T", On: opening.HeadFace, Along: in(20), Across: in(1), Diameter: in(0.2), Fastener: opening.ThroughBolt}
	o, sheets := with(opening.PullSide, nan, minus, hole("O", 40, 4, 0.375), hole("E", 10, 0.1, 0.375), hole("A", 12, 4, 0.5), hole("B", 12.25, 4, 0.5), pilot, deep, head, bolt)
	l := Lay(o, sheets, judge.Policy{})
	told := fmt.Sprint(l.Problems)
	for _, want := range []string{
		"N of plate: along is NaN", "M of plate: along is -0.0508", "O of plate: it runs over the edge of the leaf, pull face by 4-3/16 in",
		"E of plate: it runs over the edge of the leaf, pull face by 0.0875 in", "A of plate: it overlaps B of plate by 1/4 in",
		"P of plate: pilot drill of 1/2 in", "D of plate: 2 in (50.8 mm) deep in a leaf 1-3/4 in", "H of plate: a hole of 2-1/2 in", "T of plate: a through-bolt in the frame",
	} {
		if !strings.Contains(told, want) {
			t.Errorf("%q is not told in %v", want, told)
		}
	}
	if l.Planned() != 10 {
		t.Errorf("%d of 10 holes are left", l.Planned())
	}
}

func TestCautions(t *testing.T) {
	topics := func(set func(o *opening.Opening, h *opening.Hole)) string {
		h := hole("A", 6, 4, 0.375)
		o, sheets := with(opening.PullSide, h)
		set(o, &sheets.Fixtures[0].Holes[0])
		text := ""
		for _, c := range Lay(o, sheets, judge.Policy{}).Cautions {
			if c.Source == "" || c.Say == "" {
				t.Errorf("%+v lacks words or a source", c)
			}
			text += c.Topic
			if c.Stop {
				text += "!"
			}
			text += " "
		}
		return text
	}
	for name, c := range map[string]struct {
		set  func(o *opening.Opening, h *opening.Hole)
		want string
	}{
		"plain":         {func(*opening.Opening, *opening.Hole) {}, "square first person "},
		"asbestos":      {func(o *opening.Opening, _ *opening.Hole) { o.Leaf.Asbestos = "yes" }, "asbestos! square first person "},
		"hidden":        {func(o *opening.Opening, _ *opening.Hole) { o.Leaf.Concealed = "yes" }, "hidden! square first person "},
		"nobody looked": {func(o *opening.Opening, _ *opening.Hole) { o.Leaf.Concealed = "" }, "hidden! square first person "},
		"mineral core":  {func(o *opening.Opening, _ *opening.Hole) { o.Leaf.Layers = []opening.Layer{{Material: "mineral core"}} }, "silica square first person "},
		"screws in wood": {func(o *opening.Opening, h *opening.Hole) {
			o.Leaf.Layers = []opening.Layer{{Material: "particleboard"}}
			h.Fastener = opening.WoodScrew
		}, "fixings first person "},
		"fire":          {func(o *opening.Opening, _ *opening.Hole) { o.Use.FireRated, o.Leaf.Asbestos = "yes", "no" }, "label silica square first person "},
		"fire, unasked": {func(o *opening.Opening, _ *opening.Hole) { o.Use.FireRated = "yes" }, "asbestos! label silica square first person "},
		"fire, large": {func(o *opening.Opening, h *opening.Hole) {
			o.Use.FireRated, o.Leaf.Asbestos = "yes", "no"
			h.Diameter = in(1.125)
		}, "label laboratory! silica square first person "},
		"fire, 1 in": {func(o *opening.Opening, h *opening.Hole) {
			o.Use.FireRated, o.Leaf.Asbestos = "yes", "no"
			h.Diameter = in(1)
		}, "label silica square first person "},
		"fire, large, far": {func(o *opening.Opening, h *opening.Hole) {
			o.Use.FireRated, o.Leaf.Asbestos = "yes", "no"
			h.Far = in(1.125)
		}, "label laboratory! silica square first person "},
		"fire, listed": {func(o *opening.Opening, h *opening.Hole) {
			o.Use.FireRated, o.Leaf.Asbestos = "yes", "no"
			h.Diameter, h.Listed = in(1.125), "yes"
		}, "label silica square first person "},
		"fire, slot": {func(o *opening.Opening, h *opening.Hole) {
			o.Use.FireRated, o.Leaf.Asbestos = "yes", "no"
			h.Shape = "slot"
		}, "label laboratory! silica square first person "},
	} {
		if got := topics(c.set); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// Whatever the pattern and the hand: a hole comes out at the same distances on the other
// face, distances between holes are kept on paper, and mirroring twice changes nothing.
func TestTransferAndMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 5).Draw(t, "holes")
		holes := make([]opening.Hole, n)
		for i := range holes {
			holes[i] = hole(fmt.Sprint(i), rapid.Float64Range(2, 34).Draw(t, "along"), rapid.Float64Range(2, 82).Draw(t, "across"), 0.01)
		}
		o, sheets := with(opening.PullSide, holes...)
		o.Frame.Hand = rapid.SampledFrom([]opening.Hand{"LH", "RH", "LHR", "RHR"}).Draw(t, "hand")
		l := Lay(o, sheets, judge.Policy{})
		if len(l.Sides) != 2 || l.Sides[0].HingesLeft == l.Sides[1].HingesLeft {
			t.Fatalf("%d faces, or both seen alike", len(l.Sides))
		}
		for i := range n {
			a, b := l.find(pullFace, fmt.Sprint(i)), l.find(pushFace, fmt.Sprint(i))
			if a.At != b.At {
				t.Fatalf("%v comes out at %v", a.At, b.At)
			}
			x, y := pullFace.OnPaper(a.At, l.Sides[0].HingesLeft)
			x2, y2 := pushFace.OnPaper(b.At, l.Sides[1].HingesLeft)
			if x != -x2 || y != y2 {
				t.Fatalf("(%v, %v) on one face, (%v, %v) on the other", x, y, x2, y2)
			}
			c := l.find(pullFace, fmt.Sprint((i+1)%n))
			cx, cy := pullFace.OnPaper(c.At, l.Sides[0].HingesLeft)
			if d := 1000 * float64(apart(a.At, c.At)); math.Abs(math.Hypot(x-cx, y-cy)-d) > 1e-9 {
				t.Fatalf("%v mm apart on paper, want %v", math.Hypot(x-cx, y-cy), d)
			}
		}
	})
}

// No numbers, however wild, make it fail.
func TestLayNeverFails(t *testing.T) {
	wild := rapid.OneOf(rapid.Float64(), rapid.SampledFrom([]float64{0, -1, math.NaN(), math.Inf(1), math.Inf(-1), 1e300}))
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string) q.Measured[q.Length] {
			m := q.Give(q.Length(wild.Draw(t, name)), q.Length(wild.Draw(t, name+" u")))
			m.Known = rapid.Bool().Draw(t, name+" known")
			return m
		}
		h := opening.Hole{
			Mark: "A", On: rapid.SampledFrom([]opening.Surface{opening.LeafFace, opening.HeadFace, opening.Soffit, opening.HingeJamb, opening.LatchJamb}).Draw(t, "on"),
			Along: length("along"), Across: length("across"), Diameter: length("diameter"), Pilot: length("pilot"), Far: length("far"), Depth: length("depth"), Foot: length("foot"), Grip: length("grip"),
			AlongFrom: rapid.SampledFrom([]opening.HoleEdge{"", "latch", "pin"}).Draw(t, "from"), AcrossFrom: rapid.SampledFrom([]opening.HoleHeight{"", "bottom"}).Draw(t, "across from"),
			Fastener: rapid.SampledFrom([]opening.Fastener{opening.ThroughBolt, opening.WoodScrew, opening.Passage}).Draw(t, "fastener"),
		}
		o, sheets := with(opening.PushSide, h, h)
		o.Leaf.Width, o.Leaf.Height, o.Leaf.Thickness = length("width"), length("height"), length("thickness")
		o.Leaf.Inside = []opening.Inner{{Kind: opening.InRod, Along: length("rod"), AlongTo: length("rod to")}}
		o.Leaf.Holes = []opening.OldHole{{Along: length("old"), Across: length("old down"), Diameter: length("old size")}}
		if l := Lay(o, sheets, judge.Policy{}); l.Planned() != 2 {
			t.Fatalf("%d holes of 2 are left", l.Planned())
		}
	})
}
