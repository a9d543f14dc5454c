package picture

import (
	"fmt"
	"math"
	"strings"

	"swingwright/internal/draw"
	"swingwright/opening"
	"swingwright/quantity"
	"swingwright/swing"
)

// panel writes paragraphs beside the drawing and gives them, said, as one text.
func (a *above) panel(left float64, paragraphs []string) string {
	said := make([]string, len(paragraphs))
	for i, text := range paragraphs {
		said[i] = a.page.phrases.Say(text)
		a.page.column(left, a.page.format.width-a.page.format.rim-left, draw.Text{Height: letter, Bold: i == 0}, said[i])
		a.page.y -= 1.8
	}
	return strings.Join(said, " ")
}

var handWords = map[opening.Hand]string{
	"LH": "Left hand (LH)", "RH": "Right hand (RH)",
	"LHR": "Left hand reverse (LHR)", "RHR": "Right hand reverse (RHR)",
}

// key says what is drawn, with its measures.
func (a *above) key() []string {
	long := func(v swing.Value) string { return value(quantity.DimLength, math.Abs(a.v[v]), 0, a.sys) }
	hand, ok := handWords[a.hand]
	if !ok {
		hand = "Hand not known: drawn as LH or RHR"
	}
	lines := []string{hand, fmt.Sprintf("Leaf %s wide, %s thick.", long(swing.LeafWidth), long(swing.LeafThickness))}
	if a.arm == nil {
		lines = append(lines, a.without)
	} else {
		lines = append(lines, a.armKey(long)...)
	}
	hinted := "Jambs, stops and closer body are only hinted at."
	if a.around().Framed {
		hinted = "The closer body is only hinted at."
	}
	lines = append(lines, "Solid: closed. Dashed: "+a.dashed()+". Dash and dot: path of the latch edge.", hinted)
	if a.page.format.narrow() { // for the screen, where a scale says nothing
		return lines
	}
	return append(lines, fmt.Sprintf("Scale 1:%.0f when printed "+together("%.0f mm")+" wide.", 1000/a.scale, a.page.Width))
}

// dashed lists the angles at which the leaf is dashed.
func (a *above) dashed() string {
	var all []string
	for _, s := range a.shown[1:] {
		all = append(all, degrees(s.angle, 0))
	}
	return strings.Join(all, ", ")
}

// armKey says where the arm's joints are.
func (a *above) armKey(long func(swing.Value) string) []string {
	link := a.p.Resolved.Link
	side := func(v swing.Value) string {
		if a.v[v] >= 0 {
			return "pull side"
		}
		return "push side"
	}
	body, far := "leaf", "frame"
	if !link.OnLeaf {
		body, far = far, body
	}
	lines := []string{fmt.Sprintf("Pinion, full dot, on the %s: %s along from the pin, %s off to the %s.", body, long(swing.PinionX), long(swing.PinionY), side(swing.PinionY))}
	if link.Track {
		lines = append(lines,
			fmt.Sprintf("Track, double line, on the %s: %s off to the %s.", far, long(swing.ShoeY), side(swing.ShoeY)),
			fmt.Sprintf("Arm %s to its roller, open dot.", long(swing.MainArm)))
	} else {
		lines = append(lines,
			fmt.Sprintf("Shoe, square, on the %s: %s along, %s off to the %s.", far, long(swing.ShoeX), long(swing.ShoeY), side(swing.ShoeY)),
			fmt.Sprintf("Main arm %s, forearm %s; elbow, open dot.", long(swing.MainArm), long(swing.Forearm)))
	}
	if fault, ok := a.arm.Reach(a.open()); !ok {
		lines = append(lines, fmt.Sprintf("The arm as entered works only to %s.", degrees(fault.Theta, 0)))
	}
	return lines
}
