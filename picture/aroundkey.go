package picture

import (
	"fmt"
	"strings"

	"swingwright/clearance"
	"swingwright/plan"
	"swingwright/quantity"
)

// aroundKey says over the whole width what the drawing shows around the leaf.
func (a *above) aroundKey() (lines []string) {
	r := a.around()
	if o := &r.Opens; r.Surveyed && o.By != "" {
		lines = append(lines, fmt.Sprintf("Opens at most to %s: %s. Planned: %s.", degrees(o.Angle, 1), o.By, degrees(a.open(), 0)))
	}
	if w := r.Wall; w != nil {
		lines = append(lines, fmt.Sprintf("Wall, hatched, %s from the pin: %s left to the %s at %s; %s is to be left (common practice): %v.",
			a.length(w.Distance.Value), a.length(max(w.Left.Value, 0)), w.Near, degrees(a.open(), 0), a.length(clearance.WallGap), w.Keeps))
	}
	if text := a.lettered(); text != "" {
		lines = append(lines, text)
	}
	if len(r.Movers) > 1 {
		lines = append(lines, "On the leaf: "+strings.Join(names(r), ", ")+".")
	}
	if a.drive != nil {
		lines = append(lines, "Arm of the operator, dash and dots: closed, and at "+degrees(a.open(), 0)+".")
	}
	for i := range r.Controls {
		c := &r.Controls[i]
		lines = append(lines, a.control(c))
	}
	if c := r.Cord; c != nil {
		lines = append(lines, fmt.Sprintf("Cord across the hinges, dotted: anchors %s to %s apart, at least %s long with slack.", a.length(c.Shortest), a.length(c.Longest), a.length(c.Length)))
	}
	if len(r.Marks) > 0 {
		lines = append(lines, a.marked(r))
	}
	return lines
}

func names(r *plan.Room) (all []string) {
	for _, b := range r.Movers[1:] {
		all = append(all, b.Name())
	}
	return all
}

// lettered names the things by their letters.
func (a *above) lettered() string {
	var all []string
	for i, b := range a.things() {
		text := letterOf(i) + " " + b.Name()
		switch {
		case a.outline(b) == nil:
			text += ", beyond the drawing"
		case !a.meets(b):
			text += ", dashed: above the leaf"
		}
		all = append(all, text)
	}
	if len(all) == 0 {
		return ""
	}
	return strings.Join(all, "; ") + "."
}

func (a *above) control(c *plan.Place) string {
	text := fmt.Sprintf("%d %s: %s from the swing, %s from the open leaf", c.Number, c.What, a.length(c.SwitchToSweep), a.length(c.SwitchToLeaf))
	if c.Hidden {
		text += ", hidden by it"
	}
	if !a.inView(spotAt(c.At)) {
		text += "; beyond the drawing"
	}
	return text + "."
}

// marked lists the floor marks.
func (a *above) marked(r *plan.Room) string {
	list := make([]string, len(r.Marks))
	for i, m := range r.Marks {
		list[i] = together(fmt.Sprintf("%.3g° ", float64(m.Angle/quantity.Degree)) + a.length(m.Chord))
	}
	return "Floor marks, ticks on the path: straight from the closed latch edge " + strings.Join(list, ", ") + "."
}

// length is a length as one reads it off a tape, that no line break parts.
func (a *above) length(l quantity.Length) string { return together(quantity.ByTape(l, a.sys)) }
