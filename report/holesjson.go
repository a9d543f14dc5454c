package report

import (
	"encoding/json"
	"io"

	"swingwright/drilling"
	"swingwright/plan"
)

// holesFormat names the layout of the JSON of holes; docs/json.md describes it.
const holesFormat = "swingwright holes 1"

type holesJSON struct {
	Format   string            `json:"format"`
	Opening  string            `json:"opening"`
	Standing string            `json:"standing"`
	Faces    []holeFaceJSON    `json:"faces"`
	Unplaced []unplacedJSON    `json:"unplaced"`
	Problems []holeProblemJSON `json:"problems"`
	Tilt     number            `json:"tilt"`
	Exit     *number           `json:"exit_error"`
	Hang     *hangJSON         `json:"hinge_pull"`
	Strains  []armStrainJSON   `json:"arm_forces"`
	Findings []findingJSON     `json:"findings"`
	Missing  []gapJSON         `json:"missing"`
	Cautions []holeCautionJSON `json:"cautions"`
	Notes    []string          `json:"notes"`
	Files    []string          `json:"files"`
}

type holeFaceJSON struct {
	On         string     `json:"on"`
	Side       string     `json:"side"`
	HingesLeft *bool      `json:"hinges_left"`
	Holes      []holeJSON `json:"holes"`
}

type holeJSON struct {
	Mark        string          `json:"mark"`
	Of          string          `json:"of"`
	Planned     bool            `json:"planned"`
	Transferred bool            `json:"transferred"`
	X           number          `json:"x"`
	Y           number          `json:"y"`
	U           number          `json:"u"`
	Diameter    number          `json:"diameter"`
	Pilot       number          `json:"pilot"`
	Through     bool            `json:"through"`
	Depth       *number         `json:"depth"`
	Fastener    string          `json:"fastener"`
	Thread      string          `json:"thread,omitempty"`
	Needed      *number         `json:"length_needed"`
	Stock       *number         `json:"length_stock"`
	Unsure      bool            `json:"length_unsure"`
	Torque      *number         `json:"torque"`
	Checks      []holeCheckJSON `json:"checks"`
}

type holeCheckJSON struct {
	What    string `json:"what"`
	Room    number `json:"room"`
	U       number `json:"u"`
	Verdict string `json:"verdict"`
	Advice  bool   `json:"advice"`
}

type unplacedJSON struct {
	Mark string `json:"mark"`
	Of   string `json:"of"`
	Why  string `json:"why"`
}

type holeProblemJSON struct {
	Hole  string `json:"hole"`
	Found string `json:"found"`
	Hint  string `json:"hint"`
}

type hangJSON struct {
	Span   number `json:"span"`
	Mass   number `json:"mass"`
	Added  number `json:"added"`
	Before number `json:"before"`
	After  number `json:"after"`
	U      number `json:"u"`
}

type armStrainJSON struct {
	Cause   string `json:"cause"`
	Arm     string `json:"arm"`
	Torque  number `json:"torque"`
	Force   number `json:"force"`
	At      number `json:"angle"`
	Lever   number `json:"lever"`
	Moment  number `json:"moment"`
	Fixings int    `json:"fixings"`
	Each    number `json:"each"`
}

type holeCautionJSON struct {
	Topic  string `json:"topic"`
	Say    string `json:"text"`
	Source string `json:"source"`
	Stop   bool   `json:"stop"`
}

// HolesJSON writes what Holes does for programs, in SI; docs/json.md describes the layout.
func HolesJSON(to io.Writer, p *plan.Plan, h *plan.Holes, files []string) error {
	out := holesJSON{
		Format: holesFormat, Opening: p.Opening.ID, Standing: standWords[HolesStanding(h)].word, Tilt: number(h.Tilt),
		Faces: []holeFaceJSON{}, Unplaced: []unplacedJSON{}, Problems: []holeProblemJSON{}, Strains: []armStrainJSON{},
		Findings: []findingJSON{}, Missing: gapsOf(h.Missing), Cautions: []holeCautionJSON{}, Notes: texts(h.Notes), Files: texts(files),
	}
	out.Exit = known(h.Exit.Known, float64(h.Exit.Value))
	for i := range h.Sides {
		out.Faces = append(out.Faces, holeFaceOf(&h.Sides[i], h.HandKnown))
	}
	for i := range h.Unplaced {
		u := &h.Unplaced[i]
		out.Unplaced = append(out.Unplaced, unplacedJSON{u.Mark, u.Of, u.Why})
	}
	for _, one := range h.Problems {
		out.Problems = append(out.Problems, holeProblemJSON(one))
	}
	if g := h.Hang; g != nil {
		out.Hang = &hangJSON{number(g.Span), number(g.Mass), number(g.Added), number(g.Before), number(g.After), number(g.U)}
	}
	for _, s := range h.Strains {
		out.Strains = append(out.Strains, armStrainJSON{s.Cause, s.Arm, number(s.Torque), number(s.Force), number(s.At), number(s.Lever), number(s.Moment), s.Fixings, number(s.Each)})
	}
	for _, f := range h.Findings {
		out.Findings = append(out.Findings, findingOf(p, f))
	}
	for _, c := range h.Cautions {
		out.Cautions = append(out.Cautions, holeCautionJSON(c))
	}
	encoder := json.NewEncoder(to)
	encoder.SetIndent("", "  ")
	encoder.SetEscapeHTML(false)
	return encoder.Encode(out)
}

// known is a number, or nil where it is not known.
func known(is bool, x float64) *number {
	if !is {
		return nil
	}
	n := number(x)
	return &n
}

func holeFaceOf(s *drilling.Laid, hand bool) holeFaceJSON {
	out := holeFaceJSON{On: string(s.Face.On), Side: string(s.Face.Side), Holes: []holeJSON{}}
	if hand {
		left := s.HingesLeft
		out.HingesLeft = &left
	}
	for i := range s.Holes {
		h := &s.Holes[i]
		one := holeJSON{
			Mark: h.Mark, Of: h.Of, Planned: h.Planned, Transferred: h.Transferred, X: number(h.At.X), Y: number(h.At.Y), U: number(h.U),
			Diameter: number(h.Diameter), Pilot: number(h.Pilot), Through: h.Through, Depth: known(h.Spec.Depth.Known, float64(h.Spec.Depth.Value)),
			Fastener: string(h.Spec.Fastener), Thread: h.Spec.Thread, Needed: known(h.Bolt.Needed.Known, float64(h.Bolt.Needed.Value)),
			Stock: known(h.Bolt.Stock > 0, float64(h.Bolt.Stock)), Unsure: h.Bolt.Unsure, Torque: known(h.Spec.Torque.Known, float64(h.Spec.Torque.Value)), Checks: []holeCheckJSON{},
		}
		for _, c := range h.Checks {
			one.Checks = append(one.Checks, holeCheckJSON{c.What, number(c.Room), number(c.U), c.Verdict.String(), c.Advice})
		}
		out.Holes = append(out.Holes, one)
	}
	return out
}
