package report

import (
	"swingwright/quantity"
	"swingwright/trace"
)

// A RecordingCard is what a recording shows, as a small screen shows it.
type RecordingCard struct {
	Swings   []CardSwing   `json:"swings"`
	Faults   []trace.Fault `json:"faults"`
	Measured []CardReading `json:"measured"`
	Without  []CardWithout `json:"without"`
	Findings []CardFinding `json:"findings"` // about what was measured
	Standing string        `json:"standing"`
	Sampled  float64       `json:"sampled"` // samples a second
}

// CardSwing is one swing of a recording.
type CardSwing struct {
	Kind   string        `json:"kind"`
	From   float64       `json:"from"` // s, from the recording's first sample
	To     float64       `json:"to"`
	Most   float64       `json:"most"` // largest angle at the end of a phase, rad
	Faults []trace.Fault `json:"faults"`
}

// CardReading is a fact that was measured, ready to be kept as a reading.
type CardReading struct {
	Fact  string  `json:"fact"`
	Name  string  `json:"name"`
	Value string  `json:"value"` // in the reader's units
	Keep  string  `json:"keep"`  // in SI, as a reading is written
	SI    float64 `json:"si"`
	U     float64 `json:"u"`
	N     int     `json:"n"` // swings that show it
}

// CardWithout is a fact of which nothing was measured, and why.
type CardWithout struct {
	Fact string `json:"fact"`
	Why  string `json:"why"`
}

// NewRecordingCard makes the card of a recording.
func NewRecordingCard(r *Recording, units quantity.System) *RecordingCard {
	c := &RecordingCard{Swings: []CardSwing{}, Faults: list(r.Trace.Faults), Measured: []CardReading{}, Without: []CardWithout{}, Findings: []CardFinding{},
		Standing: StandingWord(RecordingStanding(r)), Sampled: r.Trace.Sampled}
	for _, s := range r.Trace.Swings {
		one := CardSwing{Kind: s.Kind.String(), Faults: list(s.Faults)}
		for i, ph := range s.Phases {
			if i == 0 {
				one.From = float64(ph.From)
			}
			one.To, one.Most = float64(ph.To), max(one.Most, float64(ph.End))
		}
		c.Swings = append(c.Swings, one)
	}
	for i := range r.Recorded {
		m := &r.Recorded[i]
		if !m.Known() {
			c.Without = append(c.Without, CardWithout{m.ID.String(), m.Why})
			continue
		}
		d := m.ID.Fact().Dim
		c.Measured = append(c.Measured, CardReading{Fact: m.ID.String(), Name: sentence(m.ID.Fact().Meaning), Value: hold(quantity.Display(d, m.Value, m.U, true, units)),
			Keep: quantity.Display(d, m.Value, m.U, true, quantity.SI), SI: m.Value, U: m.U, N: m.N})
	}
	for i := range r.Plan.Findings {
		f := &r.Plan.Findings[i]
		for k := range r.Recorded {
			if r.Recorded[k].ID == f.Rule.Of && r.Recorded[k].Known() {
				c.Findings = append(c.Findings, cardFinding(r.Plan, f, units))
				break
			}
		}
	}
	return c
}
