package packet

import (
	"swingwright/fact"
	"swingwright/internal/paper"
)

func noFire(s *sheet) string {
	if s.o.Use.FireRated == "no" {
		return "no fire label"
	}
	return ""
}

// plannedHoles are the holes that the template has drilled, for the list of changes.
func (s *sheet) plannedHoles(t *paper.Table) {
	if s.Holes == nil || len(s.Holes.Problems) > 0 {
		return
	}
	for i := range s.Holes.Sides {
		side := &s.Holes.Sides[i]
		for k := range side.Holes {
			if h := &side.Holes[k]; h.Planned && !h.Transferred {
				t.Cells(paper.Cell{Text: "planned: " + h.Mark + ", " + h.Of}, paper.Cell{Text: side.Face.String()}, paper.Cell{Text: exact(s, h.Diameter)}, paper.Cell{Line: true}, paper.Cell{Tick: true})
			}
		}
	}
}

// labelTime is the time on the label, in minutes as labels have it.
func (s *sheet) labelTime() string {
	if t := s.o.Fire.LabelTime; t.Known {
		return say("%.4g\u00a0min", float64(t.Value)/60)
	}
	return unknown
}

// fireSheet is what was changed at a fire door. What may be done on site is of NFPA
// 80, 4.1.3, and what is looked at of its yearly list, both read second-hand.
func fireSheet(s *sheet) {
	if s.o.Use.FireRated == "" {
		s.Framed("Look first", "Nobody wrote down whether this opening is fire rated: look for a label on leaf and frame before anything is drilled. Where there is none and none is needed, this sheet falls away.")
	}
	s.Say("The label, its listing and the authority having jurisdiction rule. This sheet tells what was found and what was done, so that the next inspector need not ask.")
	s.Heading("Label")
	t := paper.NewTable("what", "as surveyed", "before the work", "after it")
	t.Columns[0].Width, t.Columns[2].Width, t.Columns[3].Width = 62, 32, 32
	known := func(what, found string) {
		t.Cells(paper.Cell{Text: what}, paper.Cell{Text: found, Bold: found != unknown}, paper.Cell{Line: true}, paper.Cell{Line: true})
	}
	known("Leaf: time on the label", s.labelTime())
	known("Labels of leaf and frame there and legible", s.fact(fact.LabelLegible))
	known("Keeps smoke back", s.fact(fact.SmokeControl))
	known("Operator listed for fire doors", s.fact(fact.OperatorListed))
	known("Closer marked for fire doors", s.fact(fact.CloserForFire))
	s.Table(t)
	s.Heading("Gaps, on the pull face")
	t = paper.NewTable("gap", "as surveyed", "limit here, and where it stands", "before", "after")
	t.Columns[3].Width, t.Columns[4].Width = 22, 22
	for _, g := range []struct {
		name string
		ids  []fact.ID
	}{{"head and sides, widest", []fact.ID{fact.GapLargest}}, {"head and sides, narrowest", []fact.ID{fact.GapSmallest}}, {"bottom", []fact.ID{fact.GapBottom}}} {
		t.Cells(paper.Cell{Text: g.name}, paper.Cell{Text: s.fact(g.ids[0])}, paper.Cell{Text: orElse(s.limits(g.ids...), "none in the job's rulebooks")}, paper.Cell{Line: true}, paper.Cell{Line: true})
	}
	s.Table(t)
	s.Heading("Holes and changes")
	s.Note("On site may be prepared: round holes for surface-applied hardware, at most 1 in (25.4 mm), cylinders aside; function holes of mortise locks; viewers; undercuts of wood leaves up to 3/4 in (19 mm); protection plates. Raceways, holes that are not round, cuts in the frame and glass go to the listing laboratory before the work (NFPA 80, 4.1.3, read second-hand). " + orElse(s.limits(fact.HoleDiameter), ""))
	t = paper.NewTable("hole or change", "where", "diameter", "new, or filled with what", "photo")
	t.Columns[0].Grow, t.Columns[1].Grow, t.Columns[3].Grow = 1, 1, 1
	t.Columns[2].Width, t.Columns[4].Width = 20, 12
	s.plannedHoles(t)
	for range 6 {
		t.Cells(paper.Cell{Line: true}, paper.Cell{Line: true}, paper.Cell{Line: true}, paper.Cell{Line: true}, paper.Cell{Tick: true})
	}
	s.Table(t)
	s.Whole(s.afterwards)
}

// afterwards is what is looked at when the work is done.
func (s *sheet) afterwards() {
	s.Heading("After the work")
	for _, text := range []string{
		"Labels there and legible.",
		"No open holes or breaks in leaf or frame; old holes filled with what the listing allows.",
		"Glass, its frames and beads whole and fast.",
		"Leaf, frame, hinges, hardware and threshold fast, in line, working, undamaged; nothing missing.",
		"Gaps within their limits.",
		"Closes by itself from fully open, and latches, each of three times.",
		"The latch holds the closed leaf.",
		"Nothing that was added hinders it.",
		"Nothing was done that takes the label's worth away.",
		"Gaskets and edge seals there and whole.",
		"Signs on it cover no more than its paper allows.",
		"On alarm the operator lets go; the leaf closes and latches, with power and without.",
	} {
		s.Tick(text)
	}
	s.Note("After the yearly list of NFPA 80, in our own words, read second-hand. The record of an acceptance test is kept for the life of the assembly, that of an inspection for three years (same source).")
	s.Blanks(paper.Blank{Label: "done by, firm", Share: 2}, paper.Blank{Label: "date", Share: 1}, paper.Blank{Label: "signature", Share: 2})
	s.Blanks(paper.Blank{Label: "seen by the authority having jurisdiction", Share: 2}, paper.Blank{Label: "date", Share: 1}, paper.Blank{Label: "signature", Share: 2})
}
