package report

import (
	"encoding/json"
	"io"

	"swingwright/quantity"
	"swingwright/swing"
)

// lookFormat names the layout of a Look's JSON; docs/json.md describes it.
const lookFormat = "swingwright swing 1"

// lookJSON is a Look: the opening as in the JSON of plans, with the closing.
type lookJSON struct {
	Format  string         `json:"format"`
	Opening planJSON       `json:"opening"`
	Closing *closingJSON   `json:"closing"`
	Hand    []handMarkJSON `json:"hand"`
	Driven  *drivenJSON    `json:"driven"`
}

type drivenJSON struct {
	poweredJSON
	Marks []drivenMarkJSON `json:"marks"`
}

type drivenMarkJSON struct {
	Angle  number `json:"angle"`
	Time   number `json:"time"`
	Moment number `json:"stall_moment"`
	Force  number `json:"stall_force"`
}

type closingJSON struct {
	motionJSON
	Marks []markJSON `json:"marks"`
}

// handMarkJSON is what a hand and the closer do at a leaf angle (rad): moments in
// N·m, forces in N at radii in m.
type handMarkJSON struct {
	Angle   number      `json:"angle"`
	Hand    number      `json:"hand_moment"`
	Closing number      `json:"closing_moment"`
	Forces  []forceJSON `json:"hand_forces"`
}

type forceJSON struct {
	At    number `json:"at"`
	Force number `json:"force"`
}

// JSON writes the look for programs.
func (l *Look) JSON(w io.Writer) error {
	out := lookJSON{Format: lookFormat, Opening: planOf(l.Plan), Hand: []handMarkJSON{}, Driven: l.drivenOf()}
	if l.Reached {
		out.Closing = &closingJSON{motionJSON: *motionOf(&l.Motion), Marks: []markJSON{}}
	}
	for _, m := range l.Marks {
		if l.Reached {
			out.Closing.Marks = append(out.Closing.Marks, markJSON{number(m.Angle), number(m.Time)})
		}
		out.Hand = append(out.Hand, handMarkJSON{number(m.Angle), number(m.Hand), number(m.Closing), l.forcesOf(m.Hand)})
	}
	encoder := json.NewEncoder(w)
	encoder.SetIndent("", " ")
	return encoder.Encode(out)
}

func (l *Look) forcesOf(m quantity.Torque) []forceJSON {
	forces := make([]forceJSON, len(l.Radii))
	for i, r := range l.Radii {
		forces[i] = forceJSON{number(r), number(swing.HandForce(m, r))}
	}
	return forces
}

func (l *Look) drivenOf() *drivenJSON {
	if len(l.Opening) == 0 {
		return nil
	}
	out := &drivenJSON{poweredJSON: poweredOf(&l.Driven)}
	for _, m := range l.Opening {
		force := swing.HandForce(m.Stall, stallRadius(l.Plan))
		out.Marks = append(out.Marks, drivenMarkJSON{number(m.Angle), number(m.Time), number(m.Stall), number(force)})
	}
	return out
}
