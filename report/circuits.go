package report

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"swingwright/plan"
	"swingwright/quantity"
)

// Circuits writes the branch circuits of the mains with what all openings put on them, and
// the wirings that do not say on which they hang.
func (t *Text) Circuits(all []plan.SharedCircuit, unnamed []string) error {
	t.title("Branch circuits of the mains", '-')
	if len(all) == 0 {
		t.paragraph("*", "no wiring names one: write circuit at the branch circuits of the wirings, as the panel numbers them")
	}
	for i := range all {
		c := &all[i]
		t.head(fmt.Sprintf("Circuit %s, %s, %s", c.Circuit, t.amount(quantity.DimVoltage, float64(c.Volts)), t.amount(quantity.DimCurrent, float64(c.Rated))))
		t.paragraph("*", "wired to it: "+strings.Join(c.Of, ", "))
		if c.Others > 0 {
			t.paragraph("*", fmt.Sprintf("%s of other openings on it are taken to draw as much as these do", quantity.Counted(int(c.Others), "operator", "operators")))
		}
		t.limits("circuit", c.Statements)
		for _, note := range c.Notes {
			t.paragraph("..", note)
		}
	}
	if len(unnamed) > 0 {
		t.head("Not added up")
		t.paragraph("..", "these have a branch circuit and do not say which: "+strings.Join(unnamed, ", ")+"; write circuit, as the panel numbers it")
	}
	t.head("Take care")
	for _, c := range plan.CircuitCautions {
		t.paragraph(c.Matter+":", c.Text)
	}
	return t.flush()
}

// circuitsFormat names the layout; docs/json.md describes it.
const circuitsFormat = "swingwright circuits 1"

type circuitsJSON struct {
	Format   string              `json:"format"`
	Circuits []sharedCircuitJSON `json:"circuits"`
	Unnamed  []string            `json:"unnamed"`
	Cautions []cautionJSON       `json:"cautions"`
}

type sharedCircuitJSON struct {
	Circuit    string          `json:"circuit"`
	Standing   string          `json:"standing"`
	Volts      number          `json:"volts"`
	Rated      number          `json:"rated"`
	Of         []string        `json:"of"`
	Wired      number          `json:"operators_wired"`
	Others     number          `json:"operators_else"`
	Statements []statementJSON `json:"statements"`
	Notes      []string        `json:"notes"`
}

// CircuitsJSON writes what Text.Circuits does for programs, in SI.
func CircuitsJSON(to io.Writer, all []plan.SharedCircuit, unnamed []string) error {
	out := circuitsJSON{Format: circuitsFormat, Circuits: []sharedCircuitJSON{}, Unnamed: texts(unnamed), Cautions: []cautionJSON{}}
	for i := range all {
		c := &all[i]
		out.Circuits = append(out.Circuits, sharedCircuitJSON{c.Circuit, standWords[c.Stand()].word, number(c.Volts), number(c.Rated), c.Of, number(c.Wired), number(c.Others), statementsOf(c.Statements), texts(c.Notes)})
	}
	for _, c := range plan.CircuitCautions {
		out.Cautions = append(out.Cautions, cautionJSON(c))
	}
	encoder := json.NewEncoder(to)
	encoder.SetIndent("", " ")
	return encoder.Encode(out)
}
