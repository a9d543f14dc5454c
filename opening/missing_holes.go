package opening

import "fmt"

// What missing knowledge stops of holes.
const (
	stopsPlaces    = "where the holes come to"
	stopsTemplates = "the templates"
	stopsClashes   = "whether a hole meets what is hidden"
	stopsBolts     = "how long the bolts are"
)

// MissingForHoles lists what has to be surveyed before the holes of an opening are
// drilled, and why; nothing where none are planned. How each is got is common practice.
func MissingForHoles(o *Opening, sheets *Sheets) []Gap {
	var g gaps
	var n needs
	for _, f := range FixedWith(o, sheets) {
		if f.Planned {
			n.count(&f)
		}
	}
	if n.holes == 0 {
		return nil
	}
	l, f := &o.Leaf, &o.Frame
	g.addIf(f.Hand == "", "frame.hand", stopsTemplates, "A template for the wrong hand ruins the leaf.", "Stand on the outside or key side: hinges left or right, and reverse if the leaf comes toward you.")
	g.addIf((n.leaf || n.latch) && !l.Width.Known, "leaf.width", stopsPlaces, "Holes are laid out from the edges of the leaf.", "Tape, edge to edge, at the height of the holes.")
	g.addIf(n.leaf && !l.Height.Known, "leaf.height", stopsPlaces, "Holes must keep their distance from the leaf's top and bottom.", "Tape, at the latch edge.")
	g.addIf(n.pin && !f.PinAlong.Known, "frame.pin_to_edge", stopsPlaces, "The template gives places from the hinge pin.", "Measure from the middle of the knuckle to the hinge edge, along the closed leaf.")
	g.addIf(n.through && !l.Thickness.Known, "leaf.thickness", stopsBolts, "A through-bolt is as long as the leaf is thick and what it clamps; too long it does not draw up.", "Callipers or a rule at the edge.")
	g.addIf(n.head && !f.Face.Known, "frame.face_width", stopsPlaces, "Holes must land on the face of the head.", "Rule, over the face of the head, above the holes.")
	g.addIf(n.soffit && !f.StopDeep.Known, "frame.stop_depth", stopsPlaces, "Holes must land on the stop.", "Rule, from the closed leaf over the stop, on the push side.")
	g.addIf(n.rabbet && !l.Thickness.Known, "leaf.thickness", stopsPlaces, "The rabbet is as deep as the leaf is thick and the jamb stands proud.", "Callipers or a rule at the edge.")
	g.addIf(n.rabbet && !f.Proud.Known, "frame.proud", stopsPlaces, "Holes must land in the rabbet of the latch jamb.", "Rule, from the pull face of the closed leaf to the face of the jamb.")
	g.addIf(n.frame && !o.Doorway.Gaps.Hinge.Known, "doorway.gaps.hinge", "", "The pin lies beside the rabbet by the gap less its own distance; 1/8 in is assumed.", "Taper gauge between leaf and hinge jamb.")
	g.lookedInto(o, &n)
	g.addIf(o.Use.FireRated == "", "use.fire_rated", stopsVerdict, "A labelled leaf may be drilled on site only within narrow limits.", "Look for the label on the hinge edge and in the rabbet; ask the owner where it is painted over.")
	g.addIf(!o.Hinges.Span.Known, "hinges.span", "", "It tells how hard the leaf pulls at its top hinge, with the unit and without.", "Tape, middle to middle of the highest and the lowest hinge.")
	return g
}

// lookedInto lists what is missing of the inside of the leaf.
func (g *gaps) lookedInto(o *Opening, n *needs) {
	l := &o.Leaf
	if !n.leaf {
		return
	}
	g.addIf(l.Concealed == "", "leaf.concealed", stopsClashes, "A drill that meets a rod or a wire hidden in the leaf ruins lock and leaf.", "Look at its edges for rods, wires and raceways, and ask.")
	hidden, holds := false, false
	for i := range l.Inside {
		hidden = hidden || !l.Inside[i].Kind.Holds()
		holds = holds || l.Inside[i].Kind.Holds()
	}
	for i := range l.Layers {
		switch l.Layers[i].Material {
		case "particleboard", "oak", "maple", "poplar", "pine":
			holds = true // wood holds by itself
		}
	}
	g.addIf(l.Concealed == "yes" && !hidden, "leaf.inside", stopsClashes, "Something runs hidden in the leaf, and nobody wrote where.", "Find rod, wire or raceway with a magnet or a detector from both edges; write it from the hinge edge and the top.")
	for i := range l.Lites {
		g.addIf(!l.Lites[i].FromTop.Known, fmt.Sprintf("leaf.lites[%d].from_top", i), stopsClashes, "A hole too near a lite cracks glass or bead.", "Tape, from the top of the leaf to the cut-out's upper edge.")
	}
	g.addIf(n.screws && !holds, "leaf.inside", "", "Screws that do not go through hold only in a reinforcement, a rail or sound wood.", "Magnet and tap for a plate; look for through-bolts; on aluminium measure rails and stiles.")
	g.addIf(o.Use.FireRated == "yes" && l.Asbestos == "", "leaf.asbestos_doubt", "whether the leaf may be drilled at all", "The core of an old fire door may hold asbestos, and a hole sets it free.", "Ask the owner for the asbestos register before any hole; without papers it is in doubt.")
}

// needs tells what the places of the planned holes turn on.
type needs struct {
	holes                                                          int
	leaf, head, soffit, rabbet, frame, latch, pin, through, screws bool
}

func (n *needs) count(f *Fixed) {
	for i := range f.Holes {
		h := &f.Holes[i]
		n.holes++
		n.leaf = n.leaf || h.On == LeafFace
		n.head = n.head || h.On == HeadFace
		n.soffit = n.soffit || h.On == Soffit || h.On == LatchStop
		n.rabbet = n.rabbet || h.On == LatchRabbet
		n.frame = n.frame || h.On == HeadFace || h.On == Soffit
		n.latch = n.latch || h.AlongFrom == FromLatchEdge
		n.pin = n.pin || h.AlongFrom == FromPin
		n.through = n.through || h.Fastener == ThroughBolt
		n.screws = n.screws || h.On == LeafFace && h.Fastener != ThroughBolt && h.Fastener != Passage
	}
}
