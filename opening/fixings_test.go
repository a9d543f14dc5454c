package opening

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	q "swingwright/quantity"
)

// fixed is an opening with a closer on a regular arm, an add-on, a door loop and a plate.
func fixed() (*Opening, *Sheets) {
	hole := func(mark string, with ArmKind) Hole {
		return Hole{Mark: mark, With: with, On: LeafFace, Along: q.Exactly(5 * q.Inch), Across: q.Exactly(2 * q.Inch), Diameter: q.Exactly(q.Inch / 4), Fastener: ThroughBolt}
	}
	o := &Opening{ID: "1"}
	o.Closer.Sheet, o.Closer.Arm = "C", "R"
	o.Operator.Sheet, o.DoorLoop.Sheet = "A", "L"
	o.Lock.Strike = "S"
	return o, &Sheets{
		Closers:   []CloserSheet{{Name: "C", Holes: []Hole{hole("C1", RegularArm), hole("C2", ParallelArm), hole("C3", "")}}},
		Arms:      []ArmSheet{{Name: "R", Kind: RegularArm, Holes: []Hole{hole("R1", "")}}, {Name: "U", Kind: TopJamb}},
		Operators: []OperatorSheet{{Name: "A", Kind: AddOn, Holes: []Hole{hole("A1", "")}}},
		Strikes:   []StrikeSheet{{Name: "S", Holes: []Hole{hole("S1", "")}}},
		Fixtures:  []FixtureSheet{{Name: "L", Holes: []Hole{hole("L1", "")}}, {Name: "P", Side: PullSide, Holes: []Hole{hole("P1", "")}}},
	}
}

// told lists what is fixed: sort, side, whether planned and on the leaf, holes.
func told(all []Fixed) string {
	var words []string
	for _, f := range all {
		marks := ""
		for _, h := range f.Holes {
			marks += " " + h.Mark
		}
		words = append(words, fmt.Sprintf("%s %s %v %v%s", f.What(), f.Side, f.Planned, f.OnLeaf, marks))
	}
	return strings.Join(words, "; ")
}

func TestFixedWith(t *testing.T) {
	for name, c := range map[string]struct {
		set  func(o *Opening)
		want string
	}{
		"meant": {func(o *Opening) {},
			"closer (C) pull false true C1 C3; arm (R) pull false false R1; operator (A) pull true true A1; door-loop (L)  true false L1"},
		"fitted": {func(o *Opening) { o.Operator.Fitted = "yes" },
			"closer (C) pull false true C1 C3; arm (R) pull false false R1; operator (A) pull false true A1; door-loop (L)  false false L1"},
		"asked for the closer": {func(o *Opening) { o.Drilling.For = []Fixing{CloserHoles, StrikeHoles} },
			"closer (C) pull true true C1 C3; arm (R) pull false false R1; strike (S)  true false S1"},
		"a plate more": {func(o *Opening) { o.Operator.Sheet, o.DoorLoop.Sheet = "", ""; o.Drilling.Fixtures = []string{"P"} },
			"closer (C) pull false true C1 C3; arm (R) pull false false R1; P pull true true P1"},
		"on the frame": {func(o *Opening) { o.Closer.Arm = "U"; o.DoorLoop.Sheet = "" },
			"closer (C) push false false C3; arm (U) push false false; operator (A) push true false A1"},
	} {
		o, sheets := fixed()
		c.set(o)
		if got := told(FixedWith(o, sheets)); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", name, got, c.want)
		}
	}
	o, sheets := fixed()
	FixedWith(o, sheets)
	if len(sheets.Closers[0].Holes) != 3 {
		t.Error("the sheet lost holes")
	}
}

func TestPlannedHole(t *testing.T) {
	o, sheets := fixed()
	if d, notRound := PlannedHole(o, sheets); !d.Known || d.Value != q.Inch/4 || notRound {
		t.Errorf("%v, not round %v", d, notRound)
	}
	sheets.Operators[0].Holes[0].Far, sheets.Operators[0].Holes[0].Shape = q.Exactly(q.Inch), "slot"
	if d, notRound := PlannedHole(o, sheets); d.Value != q.Inch || !notRound {
		t.Errorf("%v, not round %v", d, notRound)
	}
	o.Operator.Fitted = "yes"
	if d, _ := PlannedHole(o, sheets); d.Known {
		t.Errorf("%v is planned, and everything is fitted", d)
	}
}

func TestFaceOfHoles(t *testing.T) {
	f := Fixed{Side: PullSide}
	for _, c := range []struct {
		hole Hole
		want Side
	}{{Hole{On: LeafFace}, PullSide}, {Hole{On: LeafFace, Side: PushSide}, PushSide}, {Hole{On: Soffit}, PushSide}} {
		if got := f.Face(&c.hole); got != c.want {
			t.Errorf("%+v: %s", c.hole, got)
		}
	}
	if got := (&Fixed{}).Face(&Hole{On: HingeJamb}); got != PushSide {
		t.Errorf("of nothing: %s", got)
	}
}

func TestMissingForHoles(t *testing.T) {
	o, sheets := fixed()
	o.Use.FireRated = "yes"
	o.Leaf.Lites = []Lite{{}}
	sheets.Operators[0].Holes = append(sheets.Operators[0].Holes,
		Hole{Mark: "H", On: HeadFace, AlongFrom: FromPin, Fastener: MachineScrew}, Hole{Mark: "F", On: Soffit, Fastener: MachineScrew}, Hole{Mark: "W", On: LeafFace, Fastener: WoodScrew})
	var fields []string
	for _, g := range MissingForHoles(o, sheets) {
		fields = append(fields, g.Field)
		if g.Why == "" || g.How == "" {
			t.Errorf("%+v does not say why and how", g)
		}
	}
	want := []string{"frame.hand", "leaf.width", "leaf.height", "frame.pin_to_edge", "leaf.thickness", "frame.face_width", "frame.stop_depth", "doorway.gaps.hinge",
		"leaf.concealed", "leaf.lites[0].from_top", "leaf.inside", "leaf.asbestos_doubt", "hinges.span"}
	if !slices.Equal(fields, want) {
		t.Errorf("missing %v, want %v", fields, want)
	}
	o.Leaf.Concealed = "yes"
	if !slices.ContainsFunc(MissingForHoles(o, sheets), func(g Gap) bool { return g.Field == "leaf.inside" && strings.Contains(g.Why, "nobody wrote where") }) {
		t.Error("where the hidden things run is not asked")
	}
	o.Operator.Fitted = "yes"
	if got := MissingForHoles(o, sheets); got != nil {
		t.Errorf("nothing is planned, and missing are %v", got)
	}
}
