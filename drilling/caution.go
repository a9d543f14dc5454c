package drilling

import (
	"fmt"

	"swingwright/opening"
	q "swingwright/quantity"
)

// Caution is what whoever drills has to know.
type Caution struct {
	Topic  string
	Say    string
	Source string
	Stop   bool // nothing is drilled before it is settled
}

const (
	usual  = "common practice"
	nfpa80 = "NFPA 80, 4.1.3, as restated by several; compare your edition"
)

// cautions gathers what this opening's holes need said.
func (l *layer) cautions() {
	if l.Planned() == 0 {
		return
	}
	fire, core := l.o.Use.FireRated == "yes", l.core()
	inLeaf := l.drills(func(f Face, h *Hole) bool { return f.On == opening.LeafFace })
	l.asbestos(inLeaf, fire)
	if inLeaf && l.o.Leaf.Concealed != "no" {
		say := "Nobody looked yet whether rods, wires or raceways run in the leaf. Do not drill blind."
		if l.o.Leaf.Concealed == "yes" {
			say = "Rods, wires or raceways run hidden in the leaf. Do not drill blind: find them first, and isolate what is live."
		}
		l.caution(Caution{"hidden", say, usual, true})
	}
	if fire {
		l.label()
	}
	if inLeaf && (core == "mineral" || fire && core == "") {
		l.caution(Caution{"silica", "Drilling a mineral core makes silica dust: use suction with a fine filter at the drill and a respirator, wet or wipe up, never blow.", "OSHA 29 CFR 1926.1153, for the United States", false})
	}
	if inLeaf && (core == "mineral" || core == "wood") && l.drills(func(f Face, h *Hole) bool {
		return f.On == opening.LeafFace && h.Spec.Fastener != opening.ThroughBolt && h.Spec.Fastener != opening.Passage
	}) {
		l.caution(Caution{"fixings", "Wood and mineral cores and thin skins let screws go under a load that comes and goes with every swing: through-bolts hold where no reinforcement is.", usual, false})
	}
	if l.drills(func(f Face, _ *Hole) bool { return f.On == opening.LatchRabbet || f.On == opening.LatchStop }) {
		l.caution(Caution{"jamb", "Look behind the jamb before cutting: mortar, anchors, wires and, in an old frame, asbestos may fill it; a box of sheet metal behind the cut-out keeps chips and mortar out of the strike. The wire comes in before the strike is fixed, with its power isolated.", usual, false})
	}
	if l.Exit.Known && l.drills(func(_ Face, h *Hole) bool { return h.Through }) {
		l.caution(Caution{"square", fmt.Sprintf("Drill the pilot through with a drill block, then open each face to meet it. %g degree off square comes out %s (%s) from its mark.",
			float64(l.Tilt/q.Degree), q.FormatValue(l.Exit.Value, q.US, 2), fmt.Sprintf("%.1f mm", float64(l.Exit.Value/q.Millimetre))), "t·tan(tilt)", false})
	}
	l.caution(Caution{"first", "Measure the bars of the template with a steel rule before the first hole, and hold the paper to the edges that it names. Compare with the maker's own template: that one rules.", usual, false})
	l.caution(Caution{"person", "Safety glasses and hearing protection on; wedge the leaf open and both sides clear of people.", usual, false})
}

// asbestos stops the work where the core may hold it.
func (l *layer) asbestos(inLeaf, fire bool) {
	switch {
	case !inLeaf:
	case l.o.Leaf.Asbestos == "yes":
		l.caution(Caution{"asbestos", "The core may hold asbestos. No hole before the owner's hygienist has cleared the leaf in writing; white or fibrous dust means stop.", "common practice of safety regulators", true})
	case l.o.Leaf.Asbestos == "" && fire:
		l.caution(Caution{"asbestos", "Nobody asked yet whether the core of this fire door may hold asbestos: see the owner's register first.", "common practice of safety regulators", true})
	}
}

// largest that is drilled into a labelled leaf on site without more ado.
const largest = 1 * q.Inch

// label tells what the listing laboratory has to be asked before.
func (l *layer) label() {
	l.caution(Caution{"label", "A labelled leaf or frame: only round holes for surface hardware, each no larger than the standard lets be drilled on site; fill every hole that is left over with a steel fastener or the same material, filler alone is none. The listing and the authority having jurisdiction rule.", nfpa80, false})
	for i := range l.Sides {
		s := &l.Sides[i]
		for k := range s.Holes {
			h := &s.Holes[k]
			if !h.Planned || h.Transferred {
				continue
			}
			switch d := max(h.Diameter, h.Spec.Far.Value); {
			case h.Spec.Shape != "" && h.Spec.Shape != "round":
				l.caution(Caution{"laboratory", fmt.Sprintf("%s is no round hole: ask the laboratory that lists leaf and frame, through their maker, before the work.", h.Name()), nfpa80, true})
			case d > largest && h.Spec.Listed != "yes":
				l.caution(Caution{"laboratory", fmt.Sprintf("%s is %s, over 1 in: only where the listings of both leaf and hardware allow it (2016 and later); else ask the laboratory before the work.", h.Name(), both(d)), nfpa80, true})
			case h.Spec.Fastener == opening.Passage && s.Face.On == opening.LeafFace && h.Spec.Depth.Known:
				l.caution(Caution{"laboratory", fmt.Sprintf("%s is a way for wire inside the leaf: only where the laboratory that lists it permits it.", h.Name()), nfpa80, true})
			}
		}
	}
}

// core is the sort of core that the leaf's layers tell; empty where they do not.
func (l *layer) core() string {
	for i := range l.o.Leaf.Layers {
		switch l.o.Leaf.Layers[i].Material {
		case "mineral core":
			return "mineral"
		case "particleboard", "oak", "maple", "poplar", "pine":
			return "wood"
		case "honeycomb core", "polystyrene core", "polyurethane core", "steel-stiffened core":
			return "hollow metal"
		case "aluminium", "glass":
			return "aluminium"
		}
	}
	return ""
}

// drills tells whether a hole to be drilled is such.
func (l *layer) drills(such func(f Face, h *Hole) bool) bool {
	for i := range l.Sides {
		for k := range l.Sides[i].Holes {
			if h := &l.Sides[i].Holes[k]; h.Planned && !h.Transferred && such(l.Sides[i].Face, h) {
				return true
			}
		}
	}
	return false
}

func (l *layer) caution(c Caution) { l.Cautions = append(l.Cautions, c) }
