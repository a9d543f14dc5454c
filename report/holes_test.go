package report

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"swingwright/drilling"
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/plan"
)

// checked is an opening with one hole that came out so.
func checked(v judge.Verdict, advice bool) *plan.Holes {
	spec := &opening.Hole{Mark: "A", On: opening.LeafFace, Fastener: opening.Passage}
	return &plan.Holes{Layout: &drilling.Layout{Sides: []drilling.Laid{{
		Face:  drilling.Face{On: opening.LeafFace, Side: opening.PullSide},
		Holes: []drilling.Hole{{Mark: "A", Of: "plate", Spec: spec, Planned: true, Checks: []drilling.Check{{What: "clear of the said-rod", Room: -0.01, U: 0.001, Verdict: v, Advice: advice}}}},
	}}}}
}

func TestHolesStanding(t *testing.T) {
	stop, impossible, missing, asked := checked(judge.Meets, false), checked(judge.Meets, false), checked(judge.Meets, false), checked(judge.Meets, false)
	stop.Cautions = []drilling.Caution{{Topic: "asbestos", Say: "said-stop", Stop: true}}
	impossible.Problems = []drilling.Problem{{Hole: "A", Found: "said-found", Hint: "said-hint"}}
	missing.Missing = []opening.Gap{{Field: "leaf.thickness", Stops: "how long the bolts are"}}
	asked.Missing = []opening.Gap{{Field: "hinges.span"}}
	for name, c := range map[string]struct {
		holes *plan.Holes
		want  plan.Standing
	}{
		"kept": {checked(judge.Meets, false), plan.Good}, "met": {checked(judge.FallsShort, false), plan.Bad},
		"close": {checked(judge.TooClose, false), plan.Undecided}, "advice": {checked(judge.FallsShort, true), plan.Good},
		"stopped": {stop, plan.Undecided}, "impossible": {impossible, plan.Bad}, "missing": {missing, plan.Undecided}, "asked": {asked, plan.Good},
	} {
		if got := HolesStanding(c.holes); got != c.want {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

// Nothing that was laid out is left unsaid, in words or in JSON.
func TestHolesAreTold(t *testing.T) {
	h := checked(judge.FallsShort, false)
	h.Problems = []drilling.Problem{{Hole: "B", Found: "said-found", Hint: "said-hint"}}
	h.Unplaced = []drilling.Hole{{Mark: "C", Of: "said-of", Why: "said-why", Planned: true}}
	h.Missing = []opening.Gap{{Field: "said-field", Stops: "said-stops", Why: "said-reason", How: "said-how"}}
	h.Cautions = []drilling.Caution{{Topic: "t", Say: "said-stop", Source: "said-source", Stop: true}, {Topic: "u", Say: "said-caution", Source: "said-other"}}
	h.Notes = []string{"said-note"}
	p := &plan.Plan{Opening: &opening.Opening{ID: "1"}, Resolved: &plan.Resolved{}}
	var text, data bytes.Buffer
	if err := Holes(NewText(&text, Style{}), p, h, []string{"said-file"}); err != nil {
		t.Fatal(err)
	}
	if err := HolesJSON(&data, p, h, []string{"said-file"}); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"said-rod", "said-found", "said-hint", "said-of", "said-why", "said-field", "said-stops", "said-reason", "said-how", "said-stop", "said-source", "said-caution", "said-other", "said-note", "said-file"} {
		if !strings.Contains(text.String(), want) {
			t.Errorf("the text lacks %s:\n%s", want, text.String())
		}
		if !strings.Contains(data.String(), want) {
			t.Errorf("the JSON lacks %s", want)
		}
	}
	if !json.Valid(data.Bytes()) {
		t.Error("no JSON")
	}
}
