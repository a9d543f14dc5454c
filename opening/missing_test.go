package opening_test

import (
	"fmt"
	"slices"
	"testing"

	"swingwright/opening"
	q "swingwright/quantity"
)

// whole is an opening that lacks nothing, with its sheets.
func whole() (opening.Opening, opening.Sheets) {
	at := func(along, off q.Length) opening.Point {
		return opening.Point{Along: q.Exactly(along), Off: q.Exactly(off)}
	}
	sheets := opening.Sheets{
		Closers: []opening.CloserSheet{{Name: "C", Powers: []opening.Power{{Size: q.Exactly(q.Ratio(2))}, {Size: q.Exactly(q.Ratio(4))}},
			Sweep: opening.Valve{At: q.Exactly(q.Turns(1)), Viscous: q.Exactly(q.Damping(36))},
			Latch: opening.Valve{At: q.Exactly(q.Turns(1)), Orifice: q.Exactly(q.SquareDamping(6))}}},
		Arms: []opening.ArmSheet{
			{Name: "A", Kind: opening.RegularArm, Main: q.Exactly(0.28 * q.Metre), Fore: q.Exactly(0.27 * q.Metre),
				Pinion: at(0.165, 0.057), Shoe: at(0.32, 0.025), Elbow: opening.PullSide},
			{Name: "T", Kind: opening.SlideTrack, Main: q.Exactly(0.3 * q.Metre), Pinion: at(0.178, 0.057), Shoe: at(0.48, 0.076)},
		},
		Latches: []opening.LatchSheet{{Name: "L", Force: q.Exactly(q.Force(5))}},
		Seals:   []opening.SealSheet{{Name: "S", Force: q.Exactly(q.Force(4))}},
	}
	return opening.Opening{
		Use:  opening.Use{Place: "interior", FireRated: "no", Egress: "yes", Operation: "low-energy", Cycles: q.Exactly(q.Ratio(40))},
		Leaf: opening.Leaf{Concealed: "no", Width: q.Exactly(35.75 * q.Inch), Height: q.Exactly(83.75 * q.Inch), Weight: q.Exactly(118 * q.Pound)},
		Frame: opening.Frame{Hand: "RH", PinAlong: q.Exactly(3 * q.Millimetre), PinOff: q.Exactly(10 * q.Millimetre),
			Friction: q.Exactly(q.Force(3)), Sound: "yes", Binds: "no", Drift: q.Exactly(q.Angle(0)),
			Width: q.Exactly(36 * q.Inch), Stop: q.Exactly(0.625 * q.Inch)},
		Room: opening.Room{WallBeside: q.Exactly(5 * q.Inch)},
		Closer: opening.Closer{Sheet: "C", Arm: "A", Size: q.Exactly(q.Ratio(3)), Gauged: []opening.Gauged{{}},
			SweepTime: q.Exactly(q.Time(6)), LatchTime: q.Exactly(q.Time(2))},
		Latch: opening.Latch{Sheet: "L"}, Seal: opening.Seal{Sheet: "S"},
		Air:   opening.Air{Usual: q.Exactly(q.Pressure(0))},
		Lock:  opening.Lock{Kind: "passage", Release: "not-needed"},
		Power: opening.Feed{Reachable: "yes", Electrician: "yes"},
	}, sheets
}

// TestMissing takes things away from an opening that lacks nothing. What has to
// be missed follows from what each step of the computation takes in.
func TestMissing(t *testing.T) {
	for _, c := range []struct {
		name string
		take func(o *opening.Opening, s *opening.Sheets)
		want []string // fields; with ! where something cannot be computed
	}{
		{"nothing", func(o *opening.Opening, s *opening.Sheets) {}, nil},
		{"everything", func(o *opening.Opening, s *opening.Sheets) { *o = opening.Opening{} }, []string{
			"!use.place", "!use.fire_rated", "!use.egress", "!use.operation", "!leaf.width", "!leaf.height", "leaf.weight",
			"frame.hand", "frame.pin_to_edge", "frame.friction", "!closer", "!latch.force", "!seal.force", "air.pressure_most"}},
		{"operator without sheet", func(o *opening.Opening, s *opening.Sheets) { o.Operator.Dwell = q.Exactly(q.Time(6)) }, []string{"!operator.sheet"}},
		{"operator named only", func(o *opening.Opening, s *opening.Sheets) {
			o.Operator.Sheet, s.Operators = "D", []opening.OperatorSheet{{Name: "D", Kind: opening.AddOn}}
		}, []string{"!operator.speed", "operator.open_angle", "operator.dwell"}},
		{"unit with an arm that is nowhere", func(o *opening.Opening, s *opening.Sheets) {
			o.Operator = opening.Operator{Sheet: "D", Arm: "B", OpenAngle: q.Exactly(q.Angle(1.5)), Dwell: q.Exactly(q.Time(6)), Setting: q.Exactly(q.Ratio(2))}
			s.Operators = []opening.OperatorSheet{{Name: "D", Kind: opening.OwnArm, Speeds: []opening.SpeedSetting{{Setting: q.Exactly(q.Ratio(1))}, {Setting: q.Exactly(q.Ratio(3))}}}}
			s.Arms = append(s.Arms, opening.ArmSheet{Name: "B"})
		}, []string{"!operator.pinion", "!operator.shoe", "!sheets.arms[B].forearm", "!sheets.arms[B].elbow"}},
		{"setting that the sheet does not have", func(o *opening.Opening, s *opening.Sheets) {
			o.Operator = opening.Operator{Sheet: "D", OpenAngle: q.Exactly(q.Angle(1.5)), Dwell: q.Exactly(q.Time(6)), Setting: q.Exactly(q.Ratio(4))}
			s.Operators = []opening.OperatorSheet{{Name: "D", Kind: opening.AddOn, Speeds: []opening.SpeedSetting{{Setting: q.Exactly(q.Ratio(1))}, {Setting: q.Exactly(q.Ratio(3))}}}}
		}, []string{"!operator.speed"}},
		{"sizes, nominal known", func(o *opening.Opening, s *opening.Sheets) {
			o.Leaf = opening.Leaf{Concealed: "no", Nominal: opening.Nominal{Text: "3070", Width: 3 * q.Foot, Height: 7 * q.Foot}, Weight: o.Leaf.Weight}
		}, []string{"leaf.width"}},
		{"weight", func(o *opening.Opening, s *opening.Sheets) { o.Leaf.Weight.Known = false }, []string{"leaf.weight"}},
		{"weight, but a layer that weighs", func(o *opening.Opening, s *opening.Sheets) {
			o.Leaf.Weight.Known = false
			o.Leaf.Layers = []opening.Layer{{Areal: q.Exactly(q.ArealDensity(24))}, {Material: "steel", Gauge: 18}}
		}, nil},
		{"weight, and a layer's thickness", func(o *opening.Opening, s *opening.Sheets) {
			o.Leaf.Weight.Known = false
			o.Leaf.Layers = []opening.Layer{{Material: "oak"}, {Areal: q.Exactly(q.ArealDensity(24))}}
		}, []string{"leaf.layers[0]", "leaf.weight"}},
		{"time of a swing test", func(o *opening.Opening, s *opening.Sheets) {
			o.Leaf.SwingTest.Force = q.Exactly(q.Force(9))
		}, []string{"leaf.swing_test"}},
		{"closer's size and gauge readings", func(o *opening.Opening, s *opening.Sheets) {
			o.Closer.Size.Known, o.Closer.Gauged = false, nil
		}, []string{"!closer.size", "closer.gauged"}},
		{"closer's size, but gauge readings", func(o *opening.Opening, s *opening.Sheets) { o.Closer.Size.Known = false }, nil},
		{"a power of the sheet", func(o *opening.Opening, s *opening.Sheets) {
			o.Closer.Size.Value, o.Closer.Gauged = 5, nil
		}, []string{"!closer.size", "closer.gauged"}},
		{"arm", func(o *opening.Opening, s *opening.Sheets) { o.Closer.Arm = "" }, []string{"!closer.arm"}},
		{"arm's places in the sheet", func(o *opening.Opening, s *opening.Sheets) {
			s.Arms[0].Pinion, s.Arms[0].Shoe, o.Closer.Shoe = opening.Point{}, opening.Point{}, s.Arms[0].Shoe
		}, []string{"!closer.pinion"}},
		{"forearm and elbow", func(o *opening.Opening, s *opening.Sheets) {
			s.Arms[0].Fore.Known, s.Arms[0].Elbow = false, ""
		}, []string{"!sheets.arms[A].forearm", "!sheets.arms[A].elbow"}},
		{"track's sides", func(o *opening.Opening, s *opening.Sheets) { o.Closer.Arm = "T" },
			[]string{"!sheets.arms[T].body", "!sheets.arms[T].side", "!sheets.arms[T].roller"}},
		{"times", func(o *opening.Opening, s *opening.Sheets) {
			o.Closer.SweepTime.Known, o.Closer.LatchTime.Known = false, false
		}, []string{"!closer.sweep_time", "!closer.latch_time"}},
		{"times, but turns with a sheet", func(o *opening.Opening, s *opening.Sheets) {
			o.Closer.SweepTime.Known, o.Closer.LatchTime.Known = false, false
			o.Closer.SweepTurns, o.Closer.LatchTurns = q.Exactly(q.Turns(1)), q.Exactly(q.Turns(1))
		}, nil},
		{"closer, which is not there", func(o *opening.Opening, s *opening.Sheets) { o.Closer = opening.Closer{None: "yes"} }, nil},
		{"latch and seal, which are not there", func(o *opening.Opening, s *opening.Sheets) {
			o.Latch, o.Seal = opening.Latch{None: "yes"}, opening.Seal{None: "yes"}
		}, nil},
		{"temperature of the survey", func(o *opening.Opening, s *opening.Sheets) {
			o.Air.Temperature = q.Exactly(q.Celsius0)
		}, []string{"air.temperature_surveyed"}},
		{"way of a lean", func(o *opening.Opening, s *opening.Sheets) { o.Frame.Lean = q.Exactly(q.Millimetre) }, []string{"frame.lean_over"}},
	} {
		o, s := whole()
		c.take(&o, &s)
		missing(t, c.name, &o, &s, c.want)
	}
}

// missing tells where what an opening lacks is not what it should be, fields with ! where
// they stop something, or where a gap does not say why and how.
func missing(t *testing.T, name string, o *opening.Opening, s *opening.Sheets, want []string) {
	t.Helper()
	var got []string
	for _, g := range opening.Missing(o, s) {
		mark := ""
		if g.Stops != "" {
			mark = "!"
		}
		got = append(got, mark+g.Field)
		if g.Why == "" || g.How == "" {
			t.Errorf("%s: %s does not say why and how: %+v", name, g.Field, g)
		}
	}
	if !slices.Equal(got, want) {
		t.Errorf("without %s\ngot  %v\nwant %v", name, got, want)
	}
}

func ExampleMissing() {
	o, sheets := whole()
	o.Closer.LatchTime = q.Measured[q.Time]{}
	for _, gap := range opening.Missing(&o, &sheets) {
		fmt.Println(gap.Field, "stops", gap.Stops)
		fmt.Println(gap.How)
	}
	// Output:
	// closer.latch_time stops closing times, speed and energy
	// Time it from 12 degrees to closed, three times.
}
