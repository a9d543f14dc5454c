package report

import (
	"swingwright/plan"
	"swingwright/quantity"
)

// Marks writes where to lay floor marks for a leaf, in both systems of units.
func Marks(t *Text, p *plan.Plan) error {
	t.heading(p)
	if len(p.Room.Marks) == 0 {
		t.paragraph("..", "the marks cannot be told without the leaf's width")
		return t.flush()
	}
	tab := t.table(8, 12, 10, 12, 20)
	tab.add("angle", "straight", "or", "± of the angle", "for")
	for _, m := range p.Room.Marks {
		tab.add(degrees(m.Angle), byTape(m.Chord, quantity.US), byTape(m.Chord, quantity.SI),
			hold(quantity.FormatValue(2*m.U, quantity.SI, 2)), orDash(m.For))
	}
	t.put(tab)
	t.paragraphAt(2, "Straight from the latch edge with the leaf closed to the latch edge at the angle, at the same height; lay the tape on the floor. A mark that is laid 1/2 in wrong moves a time by about a hundredth.")
	return t.flush()
}
