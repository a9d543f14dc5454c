package report

import (
	"encoding/json"
	"io"
)

// compareFormat names the layout of a comparison's JSON; docs/json.md describes it.
const compareFormat = "swingwright comparison 1"

type compareJSON struct {
	Format  string       `json:"format"`
	Opening string       `json:"opening"`
	Choices []choiceJSON `json:"choices"`
}

type choiceJSON struct {
	Name   string    `json:"name"`
	Window *spanJSON `json:"window"`
	Plan   planJSON  `json:"plan"`
}

// CompareJSON writes choices for programs, the opening as it is first.
func CompareJSON(w io.Writer, choices []Choice) error {
	out := compareJSON{Format: compareFormat, Opening: choices[0].Plan.Opening.ID, Choices: make([]choiceJSON, len(choices))}
	for i := range choices {
		c := &choices[i]
		one := choiceJSON{Name: c.Name, Plan: planOf(c.Plan)}
		decided := decisionOf(c.Decision)
		one.Plan.Decision = &decided
		if c.Window != nil && len(c.Window.Missing) == 0 && c.Window.Open() {
			one.Window = spanOf(c.Window.Answer.Window)
		}
		out.Choices[i] = one
	}
	return json.NewEncoder(w).Encode(out)
}
