package report

import (
	"fmt"
	"math"
	"strings"

	"swingwright/drilling"
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/quantity"
)

// Holes writes the holes of an opening: what to settle first, where each comes to, what
// it comes near to, what the fixings bear, and which files were written.
func Holes(t *Text, p *plan.Plan, h *plan.Holes, files []string) error {
	t.heading(p)
	t.whatItIs(p)
	t.beforeDrilling(h)
	t.impossible(h)
	if h.Planned() == 0 && len(h.Problems) == 0 {
		t.head("No holes to drill")
		t.paragraph("-", "No hardware sheet of this opening that is still to be fitted has holes: copy them from the maker's template, or name what to drill for under drilling.")
	}
	for i := range h.Sides {
		t.face(&h.Sides[i])
	}
	t.unplaced(h)
	t.bears(h)
	t.holeFindings(p, h)
	t.toSurvey(h)
	t.holeCautions(h)
	t.aside("Taken for granted", h.Notes)
	if len(files) > 0 {
		t.head("Templates at full size")
		for _, f := range files {
			t.paragraph("-", f)
		}
	}
	return t.flush()
}

// HolesStanding sums up an opening's holes: Bad where a pattern is impossible, a hole
// meets what it must keep clear of or a confirmed limit, or something stops the work;
// Undecided where that is too close, or something has to be surveyed.
func HolesStanding(h *plan.Holes) plan.Standing {
	if len(h.Problems) > 0 {
		return plan.Bad
	}
	standing := plan.Good
	for _, f := range h.Findings {
		standing = max(standing, plan.Stand([]plan.Finding{*f}))
	}
	for i := range h.Sides {
		for k := range h.Sides[i].Holes {
			for _, c := range h.Sides[i].Holes[k].Checks {
				switch {
				case c.Advice || c.Verdict == judge.Meets:
				case c.Verdict == judge.FallsShort:
					return plan.Bad
				default:
					standing = max(standing, plan.Undecided)
				}
			}
		}
	}
	for _, g := range h.Missing {
		if g.Stops != "" {
			standing = max(standing, plan.Undecided)
		}
	}
	for _, c := range h.Cautions {
		if c.Stop {
			standing = max(standing, plan.Undecided)
		}
	}
	return standing
}

// beforeDrilling writes what has to be settled before the first hole.
func (t *Text) beforeDrilling(h *plan.Holes) {
	first := true
	for _, c := range h.Cautions {
		if !c.Stop {
			continue
		}
		if first {
			t.head("STOP: no hole before this is settled")
			first = false
		}
		t.paragraph("!!", c.Say+" ("+c.Source+")")
	}
}

func (t *Text) impossible(h *plan.Holes) {
	if len(h.Problems) == 0 {
		return
	}
	t.head("The pattern cannot be; no templates are drawn before it is mended")
	for _, p := range h.Problems {
		t.paragraph("!!", p.Error())
	}
}

// face writes the table of the holes of one face.
func (t *Text) face(s *drilling.Laid) {
	planned := false
	for i := range s.Holes {
		planned = planned || s.Holes[i].Planned
	}
	if !planned {
		return
	}
	t.head(upper(s.Face.String()))
	tab := t.section(4, 12, 10, 10, 8, 8, 10, 12)
	tab.add("hole", "for", "along", "across", "pilot", "drill", "depth", "fastener")
	for i := range s.Holes {
		h := &s.Holes[i]
		if !h.Planned {
			continue
		}
		tab.add(h.Mark, h.Of, t.long(h.At.X), t.long(h.At.Y), t.pilot(h), t.drill(h), t.deep(h), t.bolt(h))
		for _, c := range h.Checks {
			if text := t.holeCheck(&c); text != "" {
				tab.note(text)
			}
		}
	}
	t.put(tab)
	t.paragraph(" ", "along: "+alongOf(s.Face)+"; across: "+acrossOf(s.Face)+". Each middle ± "+quantity.FormatValue(2*drilling.Marking, t.style.Units, 2)+" by marking.")
}

// alongOf and acrossOf say where distances on a face begin.
func alongOf(f drilling.Face) string {
	switch f.On {
	case opening.LeafFace:
		return "from the hinge edge"
	case opening.HeadFace, opening.Soffit:
		return "from the rabbet of the hinge jamb"
	case opening.LatchRabbet:
		return "from the stop toward the pull side"
	case opening.LatchStop:
		return "from the closed leaf toward the push side"
	}
	return "from the jamb's edge at the opening, outward"
}

func acrossOf(f drilling.Face) string {
	switch f.On {
	case opening.LeafFace:
		return "from the top edge down"
	case opening.HeadFace:
		return "from the head's lower edge up"
	case opening.Soffit:
		return "from the closed leaf toward you"
	}
	return "from the head down"
}

func (t *Text) long(l quantity.Length) string { return hold(quantity.ByRule(l, t.style.Units)) }

func (t *Text) pilot(h *drilling.Hole) string {
	switch {
	case h.Transferred:
		return "comes out"
	case h.Pilot == 0:
		return "-"
	}
	return t.long(h.Pilot)
}

func (t *Text) drill(h *drilling.Hole) string { return h.Size(t.long) }

func (t *Text) deep(h *drilling.Hole) string {
	depth, words := h.Depth()
	if words == "" {
		words = t.long(depth)
	}
	return words
}

func (t *Text) bolt(h *drilling.Hole) string {
	s := h.Spec
	switch {
	case h.Transferred:
		return "-"
	case s.Fastener == opening.Passage:
		return "nothing"
	}
	text := strings.TrimSpace(s.Thread + " " + string(s.Fastener))
	switch b := h.Bolt; {
	case b.Stock > 0:
		text += " " + t.long(b.Stock)
		if b.Needed.Value < b.Stock-quantity.Millimetre/10 {
			text += ", at least " + t.amount(quantity.DimLength, float64(b.Needed.Value))
		}
		if b.Unsure {
			text += " (measure the thickness)"
		}
	case b.Needed.Known:
		text += ", " + t.amount(quantity.DimLength, float64(b.Needed.Value)) + " and none so long is sold"
	}
	if s.Torque.Known {
		text += ", " + t.amount(quantity.DimTorque, float64(s.Torque.Value))
	}
	return text
}

// holeCheck writes one distance; those that are kept for sure only with --all.
func (t *Text) holeCheck(c *drilling.Check) string {
	sure := c.Verdict == judge.Meets
	switch {
	case sure && c.U == 0:
		return hold(markOf(c.Verdict, false)) + noBreak + c.What
	case sure && !t.style.All:
		return ""
	}
	text := hold(markOf(c.Verdict, c.Advice)) + noBreak + c.What + ": "
	room := t.spread(quantity.DimLength, math.Abs(float64(c.Room)), float64(c.U))
	if c.Room < 0 {
		text += room + " too little"
	} else {
		text += room + " to spare"
	}
	if c.Advice {
		text += " (advice, from memory of the trade)"
	}
	return text
}

func (t *Text) unplaced(h *plan.Holes) {
	if len(h.Unplaced) == 0 {
		return
	}
	t.head("Holes that have no place yet")
	for i := range h.Unplaced {
		t.paragraph("..", h.Unplaced[i].Name()+": "+h.Unplaced[i].Why)
	}
}

// bears writes what hinges and fixings bear.
func (t *Text) bears(h *plan.Holes) {
	if h.Hang == nil && len(h.Strains) == 0 || h.Planned() == 0 {
		return
	}
	t.head("What hinges and fixings bear")
	if g := h.Hang; g != nil {
		text := "The leaf pulls at its top hinge with " + t.spread(quantity.DimForce, float64(g.Before), float64(g.U))
		if g.Added > 0 {
			text += fmt.Sprintf("; with %s more on it %s (%+.0f %%)", t.amount(quantity.DimMass, float64(g.Added)), t.amount(quantity.DimForce, float64(g.After)), 100*float64(g.After/g.Before-1))
		}
		t.paragraph("-", text+". Lift the latch edge first: hinges with more than 1/16 in of play are shimmed or replaced before (from memory).")
	}
	for _, s := range h.Strains {
		text := fmt.Sprintf("%s: %s pushes with up to %s along its line, %s from the hinge axis, at %.0f degrees", upper(s.Cause), s.Arm,
			t.amount(quantity.DimForce, float64(s.Force)), t.long(s.Lever), s.At/quantity.Degree)
		if s.Fixings > 0 {
			text += fmt.Sprintf("; %s of its %d fixings bears %s", "each", s.Fixings, t.amount(quantity.DimForce, float64(s.Each)))
		}
		t.paragraph("-", text+".")
	}
}

func (t *Text) holeFindings(p *plan.Plan, h *plan.Holes) {
	var shown []*plan.Finding
	for _, f := range h.Findings {
		if f.Verdict != judge.DoesNotApply || t.style.All {
			shown = append(shown, f)
		}
	}
	if len(shown) == 0 {
		return
	}
	t.head("Limits on holes in a fire door")
	tab := t.section(12, 16, 12, 12, 8)
	tab.add("verdict", "rule", "found", "limit", "where")
	for _, f := range shown {
		t.finding(tab, p, f)
	}
	t.put(tab)
}

func (t *Text) toSurvey(h *plan.Holes) {
	if len(h.Missing) == 0 {
		return
	}
	t.head("Survey before drilling")
	for _, g := range h.Missing {
		text := g.Field + ": " + g.Why
		if g.Stops != "" {
			text += " Without it: " + g.Stops + "."
		}
		t.paragraph("..", text+" "+g.How)
	}
}

func (t *Text) holeCautions(h *plan.Holes) {
	if len(h.Cautions) == 0 {
		return
	}
	t.head("Cautions")
	tab := t.section(8, 40)
	for _, c := range h.Cautions {
		if !c.Stop {
			tab.add(c.Topic, c.Say+" ("+c.Source+")")
		}
	}
	tab.add("standing", "This certifies nothing: the maker's own template, the listing of the leaf, locally adopted codes and the licensed person on site come first.")
	t.put(tab)
}
