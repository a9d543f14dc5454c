// Package picture draws a plan: how the leaf closes over time, what a hand
// needs to open it, and leaf and arm as seen from above. A picture that cannot be
// drawn for want of knowledge says in words what is missing; nothing here fails.
//
// Every picture can be read in black and white and at arm's length: letters are
// 3 mm high, lines differ by dash and marker, and verdicts are words.
package picture

import (
	"swingwright/internal/draw"
	"swingwright/phrasebook"
	"swingwright/plan"
	"swingwright/quantity"
)

// In is how a reader wants pictures: in which units, in which language, and how wide. Its
// methods draw; the functions of the same names draw in English, for paper.
type In struct {
	Units   quantity.System
	Phrases *phrasebook.Book // nil for English
	Narrow  bool             // laid out for the screen of a phone, all words below what is drawn
}

// Named is a picture with a name for its file, in small letters and hyphens.
type Named struct {
	Name  string
	Scene *draw.Scene
}

// All draws every picture of a plan, in the units of the reader.
func All(p *plan.Plan, sys quantity.System) []Named {
	return []Named{
		{"closing", Closing(p, sys)},
		{"hand-force", HandForce(p, sys)},
		{"plan", Plan(p, sys)},
	}
}
