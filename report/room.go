package report

import (
	"fmt"
	"math"
	"strings"

	"swingwright/clearance"
	"swingwright/judge"
	"swingwright/plan"
	"swingwright/quantity"
)

// roomForTheSwing says what the leaf meets and how wide the way is, where
// anything around the leaf was measured.
func (t *Text) roomForTheSwing(p *plan.Plan) {
	r := p.Room
	if r == nil || !r.Known || !r.Surveyed && len(r.Controls) == 0 {
		return
	}
	t.head("Room for the swing")
	tab := t.section(14, 24, 8)
	t.opensTo(tab, r)
	t.besideWall(tab, r.Wall)
	if n := r.Nearest; n != nil {
		text := measure(n.Distance, n.U, t.style.Units) + " from " + n.Moving + " to " + n.Fixed
		if n.Distance == 0 {
			text = n.Moving + " would stand in " + n.Fixed
		}
		tab.add("nearest, open", text, "")
	}
	t.widths(tab, p)
	t.overHead(tab, r.Over)
	t.cord(tab, r.Cord)
	t.floorMarks(tab, r)
	t.put(tab)
	t.controls(r)
	for _, text := range []string{r.Doubt, problemText(r.Problem)} {
		if text != "" {
			t.paragraph("*", text)
		}
	}
}

func problemText(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

// measure is a length with its spread, as a tape shows it where there is none.
func measure(l, u quantity.Length, units quantity.System) string {
	if u > 0 {
		return hold(quantity.Format(quantity.Give(l, u), units))
	}
	return hold(distance(l, units))
}

// byTape is a length as one reads it off a tape, that no line break parts.
func byTape(l quantity.Length, units quantity.System) string { return hold(quantity.ByTape(l, units)) }

// angle is a leaf angle with its spread where that is known.
func angle(a, u quantity.Angle) string {
	if u > 0 {
		return fmt.Sprintf("%.1f%s±%s%.1f%sdeg", float64(a/quantity.Degree), noBreak, noBreak, 2*float64(u/quantity.Degree), noBreak)
	}
	return hold(degrees(a))
}

// roomVerdict is the mark and the word of a judged distance.
func roomVerdict(v judge.Verdict) string {
	if v == judge.NotMeasured {
		return ""
	}
	return verdictWords(v)
}

// opensTo tells how far the leaf is to open and how far it can.
func (t *Text) opensTo(tab *table, r *plan.Room) {
	open := r.Open
	tab.add("planned to open", t.spread(quantity.DimAngle, open.Value, open.U)+", "+open.Source, roomVerdict(r.Opens.Free))
	if o := &r.Opens; o.By != "" {
		tab.add("opens at most", angle(o.Angle, o.U)+": "+o.By, "")
	} else {
		tab.add("opens at most", "nothing that was measured ends its swing", "")
	}
	others := others(r)
	if len(others) > 0 {
		tab.add("would touch", strings.Join(others, "; "), "")
	}
}

// others are the contacts that something else comes before, as far as they are
// anywhere near the planned angle.
func others(r *plan.Room) (all []string) {
	const near = 45 * quantity.Degree
	for _, c := range r.Contacts {
		if text := c.String(); text != r.Opens.By && c.Angle < quantity.Angle(r.Open.Value)+near {
			all = append(all, text+" at "+hold(degrees(quantity.Angle(math.Round(float64(c.Angle/quantity.Degree)*10))*quantity.Degree/10)))
		}
	}
	return all
}

// besideWall tells what is left to the wall beside the hinges.
func (t *Text) besideWall(tab *table, w *plan.Wall) {
	if w == nil {
		return
	}
	gap := hold(distance(clearance.WallGap, t.style.Units))
	text := fmt.Sprintf("%s from the pin; %s left to %s when open, %s asked for (common practice)",
		measure(w.Distance.Value, w.Distance.U, t.style.Units), measure(w.Left.Value, w.Left.U, t.style.Units), w.Near, gap)
	if w.Turns {
		text += "; never nearer than that"
	} else {
		text += fmt.Sprintf("; %s comes so near at %s", w.First, angle(w.StopAt.Value, w.StopAt.U))
	}
	tab.add("wall by the hinges", text, roomVerdict(w.Keeps))
}

// widths are the clear widths, and what stands into them.
func (t *Text) widths(tab *table, p *plan.Plan) {
	for i, w := range p.Room.Widths {
		if i > 0 && w.Angle == p.Room.Widths[0].Angle {
			break
		}
		text := measure(w.Bare, w.U, t.style.Units)
		for _, cut := range w.Cuts {
			text += fmt.Sprintf("; %s stands %s into it", cut.Name, byTape(cut.Into, t.style.Units))
		}
		tab.add("clear width at "+hold(degrees(w.Angle)), text, plan.Computed.String())
	}
}

func (t *Text) overHead(tab *table, o *plan.HeadRoom) {
	if o != nil {
		tab.add("over the head", fmt.Sprintf("%s free on the %s side; the operator needs %s", measure(o.Free.Value, o.Free.U, t.style.Units), o.Side, hold(distance(o.Needs, t.style.Units))), roomVerdict(o.Keeps))
	}
}

func (t *Text) cord(tab *table, c *plan.Cord) {
	if c == nil {
		return
	}
	tab.add("door loop", fmt.Sprintf("anchors %s apart at %s, %s at %s; cord at least %s, %.0f %% slack included (common practice)",
		byTape(c.Shortest, t.style.Units), hold(degrees(c.ShortestAt)), measure(c.Longest, c.U, t.style.Units), hold(degrees(c.LongestAt)),
		byTape(c.Length, t.style.Units), 100*float64(clearance.LoopSlack)), plan.Computed.String())
}

// floorMarks are the chords at the latch edge.
func (t *Text) floorMarks(tab *table, r *plan.Room) {
	if len(r.Marks) == 0 {
		return
	}
	list := make([]string, len(r.Marks))
	for i, m := range r.Marks {
		list[i] = hold(fmt.Sprintf("%.3g deg ", float64(m.Angle/quantity.Degree)) + byTape(m.Chord, t.style.Units))
	}
	tab.add("floor marks", strings.Join(list, "; ")+"; straight from where the latch edge is when closed", plan.Computed.String())
}

// controls tells where the controls are that are placed.
func (t *Text) controls(r *plan.Room) {
	if len(r.Controls) == 0 {
		return
	}
	t.blank()
	tab := t.section(4, 12, 8, 8, 8, 8, 8)
	tab.add("", "control", "from the swing", "from the open leaf", "from the middle", "from the closed edge", "hold at least")
	for i := range r.Controls {
		p := &r.Controls[i]
		what := strings.TrimSpace(p.What + ", " + sideWords[p.Side] + " side")
		if p.Hidden {
			what += "; hidden by the open leaf"
		}
		tab.add(fmt.Sprint(p.Number), what, measure(p.SwitchToSweep, p.ToSweepU, t.style.Units), measure(p.SwitchToLeaf, p.ToLeafU, t.style.Units),
			measure(p.SwitchToCentre, p.ToCentreU, t.style.Units), measure(p.SwitchToClosedEdge, p.ToClosedEdgeU, t.style.Units),
			hold(quantity.FormatValue(p.Hold, t.style.Units, 0)))
	}
	t.put(tab)
}
