package report

import (
	"encoding/json"
	"io"

	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/trace"
)

// recordingFormat names the layout of a recording's JSON; docs/json.md describes it.
const recordingFormat = "swingwright recording 1"

type recordingJSON struct {
	Format   string         `json:"format"`
	Opening  string         `json:"opening"`
	File     string         `json:"file"`
	Sampled  number         `json:"sampled"` // samples a second
	Faults   []faultJSON    `json:"faults"`
	Swings   []swungJSON    `json:"swings"`
	Measured []recordedJSON `json:"measured"`
	Findings []findingJSON  `json:"findings"` // about what was measured
	Kept     string         `json:"kept,omitempty"`
}

type faultJSON struct {
	Found  string `json:"found"`
	Better string `json:"better"`
	Line   int    `json:"line"`
	Spoils bool   `json:"spoils"`
}

type swungJSON struct {
	Kind   trace.Kind  `json:"kind"`
	Phases []phaseJSON `json:"phases"`
	Opened trace.By    `json:"opened"`
	Sure   number      `json:"sure"` // of that
	Faults []faultJSON `json:"faults"`
}

type phaseJSON struct {
	Kind  trace.PhaseKind `json:"kind"`
	From  number          `json:"from"`
	To    number          `json:"to"`
	Start number          `json:"start"`
	End   number          `json:"end"`
}

type recordedJSON struct {
	Fact   string `json:"fact"`
	Value  number `json:"value"`
	U      number `json:"u"`
	Unit   string `json:"unit"`
	Swings int    `json:"swings"`
	Why    string `json:"why,omitempty"`
}

// RecordingJSON writes a recording for programs, all values in SI.
func RecordingJSON(w io.Writer, r *Recording) error {
	out := recordingJSON{
		Format: recordingFormat, Opening: r.Plan.Opening.ID, File: r.File, Sampled: number(r.Trace.Sampled),
		Faults: faultsOf(r.Trace.Faults), Swings: make([]swungJSON, len(r.Trace.Swings)), Measured: make([]recordedJSON, len(r.Recorded)), Findings: []findingJSON{},
	}
	if r.Kept != nil {
		out.Kept = r.Kept.String()
	}
	for i, s := range r.Trace.Swings {
		opened := s.OpenedBy()
		one := swungJSON{Kind: s.Kind, Opened: opened.By, Sure: number(opened.Sure), Faults: faultsOf(s.Faults), Phases: make([]phaseJSON, len(s.Phases))}
		for k, ph := range s.Phases {
			one.Phases[k] = phaseJSON{ph.Kind, number(ph.From), number(ph.To), number(ph.Start), number(ph.End)}
		}
		out.Swings[i] = one
	}
	for i := range r.Recorded {
		m := &r.Recorded[i]
		out.Measured[i] = recordedJSON{m.ID.String(), number(m.Value), number(m.U), quantity.SIUnit(m.ID.Fact().Dim), m.N, m.Why}
	}
	for i := range r.Plan.Findings {
		if f := &r.Plan.Findings[i]; f.Origin == plan.Read {
			out.Findings = append(out.Findings, findingOf(r.Plan, f))
		}
	}
	return json.NewEncoder(w).Encode(out)
}

func faultsOf(all []trace.Fault) []faultJSON {
	out := make([]faultJSON, len(all))
	for i, f := range all {
		out[i] = faultJSON{f.Found, f.Better, f.Line, f.Spoils}
	}
	return out
}
