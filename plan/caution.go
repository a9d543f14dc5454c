package plan

import (
	"fmt"

	"swingwright/fact"
	"swingwright/quantity"
)

// Caution is a warning that belongs to this opening, shown wherever its plan is.
type Caution struct {
	Matter string // what it is about, in a word or two
	Text   string
}

// heavy is the mass from which lifting a leaf is a job for two and a hoist (common practice).
const heavy = 60 * quantity.Kilogram

// cautions are the usual ones that apply to an opening.
func cautions(p *Plan) []Caution {
	u := &p.Opening.Use
	out := []Caution{
		{"moving leaf", "Keep hands from the hinge edge and the arm; a closer's spring is loaded even when the leaf stands still."},
		{"valves", "Turn a valve by an eighth and try again; never unscrew one past its stop."},
	}
	if u.FireRated == "yes" {
		out = append(out, Caution{"fire door", "Holes, undercuts and hardware are limited by the label's listing and the fire-door standard; the label and the authority having jurisdiction rule. After the work it must close and latch by itself, and an operator must not drive it on alarm: connect and test together with the alarm's own contractor."})
	}
	if u.FireRated == "" {
		out = append(out, Caution{"fire door", "Nobody wrote down whether the opening is fire rated: look for a label on leaf and frame before drilling."})
	}
	if u.Egress != "no" {
		out = append(out, Caution{"way out", "The leaf must open by hand in every state, with power or without."})
	}
	if u.Powered() {
		out = append(out, Caution{"power", "Isolate before opening a cover; mains work is a licensed electrician's, under the local electrical code."})
	}
	if m := quantity.Mass(p.Facts[fact.LeafMass].Value); m > heavy {
		out = append(out, Caution{"lifting", fmt.Sprintf("The leaf weighs about %s: do not lift it alone.", quantity.FormatValue(m, quantity.SI, 0))})
	}
	return append(out, Caution{"standing", "This is a computation, not a certificate: codes adopted locally, the hardware maker's paper and the licensed person on site come first."})
}
