package opening

import (
	"fmt"

	q "swingwright/quantity"
)

// A Gap is something that the computation needs and the record lacks.
type Gap struct {
	Field string // path of the field that would close it, such as closer.sweep_time
	Stops string // what cannot be computed without it; empty where a wide assumed value stands in
	Why   string // why it matters, in one sentence
	How   string // how to get it on site
}

// What gaps stop; the exported ones stop most.
const (
	StopsAll     = "anything of the leaf's motion"
	StopsCloser  = "anything that the closer does"
	stopsTimes   = "closing times, speed and energy"
	stopsLatch   = "whether it latches"
	stopsDrive   = "how the operator opens it"
	stopsVerdict = "which limits apply"
)

// Missing lists what the computation needs and this opening lacks, in the order
// of the record. Sheets are those of the job. How each is got is common practice.
func Missing(o *Opening, sheets *Sheets) []Gap {
	var g gaps
	g.use(&o.Use)
	g.leaf(&o.Leaf)
	g.frame(&o.Frame)
	switch {
	case o.Closer.None == "yes":
	case o.Closer.isBlank():
		g.add("closer", StopsCloser, "Nothing is written down of the closer.", "Read its label, note how it is mounted and which arm it has, and copy the maker's sheet; or write none: yes.")
	default:
		closer, arm := find(sheets.Closers, o.Closer.Sheet), find(sheets.Arms, o.Closer.Arm)
		g.spring(&o.Closer, closer)
		g.arm(&o.Closer, arm)
		g.valves(&o.Closer, closer)
	}
	g.operator(&o.Operator, &o.Closer, find(sheets.Operators, o.Operator.Sheet), find(sheets.Arms, o.Operator.Arm))
	g.latch(&o.Latch, find(sheets.Latches, o.Latch.Sheet))
	g.seal(&o.Seal, find(sheets.Seals, o.Seal.Sheet))
	g.air(&o.Air)
	g.work(o, sheets)
	g.room(o, find(sheets.Operators, o.Operator.Sheet))
	return g
}

type gaps []Gap

func (g *gaps) add(field, stops, why, how string) {
	*g = append(*g, Gap{field, stops, why, how})
}

// addIf adds a gap where something is missing.
func (g *gaps) addIf(missing bool, field, stops, why, how string) {
	if missing {
		g.add(field, stops, why, how)
	}
}

func (g *gaps) use(u *Use) {
	g.addIf(u.Place == "", "use.place", stopsVerdict, "Indoor and outdoor openings have different limits.", "Look; note vestibules as outer or inner.")
	g.addIf(u.FireRated == "", "use.fire_rated", stopsVerdict, "A fire-rated leaf must latch by itself and is exempt from some force limits.", "Look for the label on the hinge edge and in the rabbet; ask the owner where it is painted over.")
	g.addIf(u.Egress == "", "use.egress", stopsVerdict, "A leaf on a way out must open by hand in every state.", "Ask, or see the plan.")
	g.addIf(u.Operation == "", "use.operation", stopsVerdict, "Hand-pushed and power-operated leaves have different limits.", "Write how it is to be opened after the work.")
}

func (g *gaps) leaf(l *Leaf) {
	nominal := l.Nominal.Width > 0
	g.addIf(!l.Width.Known && !nominal, "leaf.width", StopsAll, "Every force and energy turns on the width.", "Tape, edge to edge, at the height of the closer.")
	g.addIf(!l.Width.Known && nominal, "leaf.width", "", "The nominal size tells the width only roughly.", "Tape, edge to edge, at the height of the closer.")
	g.addIf(!l.Height.Known && !nominal, "leaf.height", StopsAll, "Weight and the force of the air grow with the height.", "Tape, at the latch edge.")
	g.swingTest(&l.SwingTest)
	built := len(l.Layers) > 0
	for i := range l.Layers {
		built = g.layer(fmt.Sprintf("leaf.layers[%d]", i), &l.Layers[i]) && built
	}
	g.addIf(!l.Weight.Known && !l.SwingTest.isWhole() && !built, "leaf.weight", "",
		"The weight sets the least closing time and the energy; by the size alone it is known to a fifth.",
		"Arm off, lift the latch corner on a scale until the top hinge goes slack: it shows half the weight; or give the leaf a swing test, or its layers.")
}

// layer tells whether a layer can be weighed.
func (g *gaps) layer(field string, l *Layer) bool {
	whole := l.Areal.Known || (l.Density.Known || l.Material != "") && (l.Thickness.Known || l.Gauge > 0)
	g.addIf(!whole, field, "", "A layer counts only with a material or density and a thickness or gauge, or with a mass per area.", "Look at the edge or in the lite cut-out; read the door schedule.")
	return whole
}

func (g *gaps) swingTest(s *SwingTest) {
	begun := s.Force.Known || s.Friction.Known || s.At.Known || s.Angle.Known || s.Time.Known
	g.addIf(begun && !s.isWhole(), "leaf.swing_test", "", "A swing test weighs the leaf only with force, friction, at, angle and time.",
		"Arm off, push with a constant force through a known angle, and time it; then push slowly for the friction.")
}

func (s *SwingTest) isWhole() bool {
	return s.Force.Known && s.Friction.Known && s.At.Known && s.Angle.Known && s.Time.Known
}

func (g *gaps) frame(f *Frame) {
	g.addIf(f.Hand == "", "frame.hand", "", "Pictures and templates come out mirrored for the wrong hand.", "Stand on the outside or key side: hinges left or right, and reverse if the leaf comes toward you.")
	g.addIf(!f.PinAlong.Known || !f.PinOff.Known, "frame.pin_to_edge", "", "The arm's geometry is measured from the hinge pin.", "Measure from the middle of the knuckle to the hinge edge, and square to the leaf's pull face.")
	g.addIf(!f.Friction.Known, "frame.friction", "", "Friction takes from the closing force all along the swing.", "Arm off, push slowly with the gauge 1 in from the latch edge, from 10 to 80 degrees.")
	g.addIf(f.Lean.Known && (!f.Span.Known || f.Toward == ""), "frame.lean_over", "", "A lean counts only with the height over which it was measured and the way it goes.", "Note the height between the hinges and toward what the top leans.")
}

func (g *gaps) latch(l *Latch, sheet *LatchSheet) {
	known := l.None == "yes" || l.Force.Known || sheet != nil && sheet.Force.Known
	g.addIf(!known, "latch.force", stopsLatch, "The last of the swing must push the bolt over the strike.", "Push the leaf closed from 1 in open with the gauge at the latch edge; name a sheet; or write none: yes.")
}

func (g *gaps) seal(s *Seal, sheet *SealSheet) {
	known := s.None == "yes" || s.Force.Known || sheet != nil && sheet.Force.Known
	g.addIf(!known, "seal.force", stopsLatch, "Seals push back while the leaf latches.", "Hold the latch back and gauge what keeps the leaf closed; name a sheet; or write none: yes.")
}

func (g *gaps) air(a *Air) {
	g.addIf(!a.Usual.Known && !a.Most.Known && !a.Below.Known && !a.Wind.Known, "air.pressure_most", "", "A leaf that latches in still air may not against the fans or the cold.", "Low-range manometer under the leaf, or the force that cracks it open with the fans on less that with them off.")
	g.addIf(a.Temperature.Known && !a.Surveyed.Known, "air.temperature_surveyed", "", "Times change with the oil's temperature from that at which they were taken.", "Read a thermometer at the closer.")
}

// find returns the sheet of a name, or nil.
func find[S interface{ sheetName() string }](sheets []S, name string) *S {
	for i := range sheets {
		if name != "" && sheets[i].sheetName() == name {
			return &sheets[i]
		}
	}
	return nil
}

func (s CloserSheet) sheetName() string { return s.Name }
func (a ArmSheet) sheetName() string    { return a.Name }
func (s LatchSheet) sheetName() string  { return s.Name }
func (s SealSheet) sheetName() string   { return s.Name }

// isKnown tells a point that is measured both ways.
func (p Point) isKnown() bool { return p.Along.Known && p.Off.Known }

// atLeast tells a known value that is not below low.
func atLeast[Q q.Quantity](m q.Measured[Q], low Q) bool { return m.Known && m.Value >= low }
