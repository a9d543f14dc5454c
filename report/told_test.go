package report

import (
	"bytes"
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"swingwright/fact"
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/plan"
)

// Whatever a plan can say is told, to people and to programs.
func TestAllIsTold(t *testing.T) {
	h, plans := demo(t)
	p := plans[0]
	h.Cautions = []string{"said-of-the-job"}
	p.Problem = errors.New("said-of-the-problem")
	p.Resolved.Notes = []string{"said-in-a-note"}
	p.Doubts = []opening.Doubt{{Field: "said-field", Found: "said-found", Usual: "said-usual", Say: "said-doubt"}}
	p.Gaps = []opening.Gap{{Field: "said-gap", Stops: "said-stops", Why: "said-why", How: "said-how"}}
	p.Cautions = []plan.Caution{{Matter: "said-matter", Text: "said-caution"}}
	f := &p.Findings[2]
	f.Verdict, f.Why = judge.TooClose, "said-because"
	f.Drivers = []plan.Driver{{Input: "said-driver.", Share: 0.42, Assumed: true}}
	p.Findings[3].Verdict, p.Findings[3].Missing = judge.NotMeasured, []fact.ID{fact.PoweredDwell}

	var text, doc bytes.Buffer
	d := decided(h, p)
	people, programs := NewText(&text, Style{Width: 132, All: true}), NewJSON(&doc)
	err := errors.Join(people.Start(h), people.Plan(p, d), people.End(), programs.Start(h), programs.Plan(p, d), programs.End())
	if err != nil {
		t.Fatal(err)
	}
	for _, said := range []string{
		"said-of-the-job", "said-of-the-problem", "said-in-a-note", "said-field", "said-found", "said-usual", "said-doubt",
		"said-gap", "said-stops", "said-why", "said-how", "said-matter", "said-caution", "said-because", "said-driver", "powered.dwell",
	} {
		if !strings.Contains(text.String(), said) {
			t.Errorf("people are not told %q", said)
		}
		if !strings.Contains(doc.String(), said) {
			t.Errorf("programs are not told %q", said)
		}
	}
	if !strings.Contains(text.String(), "said-driver (42 %, assumed)") {
		t.Error("people are not told how much a driver moves, or that it is assumed")
	}
	if !json.Valid(doc.Bytes()) {
		t.Error("the JSON is not valid")
	}
}

// A yes that not every draw agrees with says so; so does an ending.
func TestSharesAreTold(t *testing.T) {
	f := plan.Fact{Known: true, Value: 1, Share: 0.93}
	if got := yesNo(f); got != "yes (yes in 93 % of the draws)" {
		t.Errorf("got %q", got)
	}
	if got := share("closes and latches", f); got != "closes and latches; shuts in 93 % of the draws" {
		t.Errorf("got %q", got)
	}
	f.Share = 1
	if got := yesNo(f) + share("", f); got != "yes" {
		t.Errorf("got %q", got)
	}
}
