package report

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"swingwright/judge"
	"swingwright/opening"
	"swingwright/plan"
	q "swingwright/quantity"
)

// told is a group with something in every place that it can speak from.
func told() *plan.Group {
	return &plan.Group{
		Group:   &opening.Group{ID: "said-id", Kind: opening.Vestibule},
		Members: [2]*plan.Member{{ID: "said-a"}, {ID: "said-b"}},
		Statements: []plan.Statement{
			{What: "said-what", Dim: q.DimTime, Value: 1.5, Limit: 2, Margin: -0.5, U: 0.1, Verdict: judge.FallsShort, Published: true, Source: "said-source", Say: "said-say"},
			{What: "said-advice", YesNo: true, Limit: 1, Margin: -1, Verdict: judge.FallsShort, Source: "said-practice"},
			{What: "said-unknown", Dim: q.DimTime, Value: math.NaN(), Margin: math.NaN(), U: math.NaN(), Verdict: judge.NotMeasured},
		},
		Delays: []plan.Delay{{From: "said-from", To: "said-to", Speed: 0.6096, Earliest: q.Give(q.Time(1.25), q.Time(0.05)), HalfWay: q.Give(q.Time(2.5), q.Time(0)), Latest: q.Give(q.Time(3.75), q.Time(0))}},
		Gaps:   []opening.Gap{{Field: "said-gap", Stops: "said-stops", Why: "said-why", How: "said-how"}},
		Doubts: []opening.Doubt{{Field: "said-doubt", Found: "said-found", Say: "said-slip"}},
		Notes:  []string{"said-note"},
	}
}

// fits tells of lines that are wider than the page.
func fits(t *testing.T, text string, width int) {
	t.Helper()
	for line := range strings.Lines(text) {
		if n := utf8.RuneCountInString(line) - 1; n > width {
			t.Errorf("a line of %d: %s", n, line)
		}
	}
}

// Whatever a group can say is told, to people and to programs, and it fits the page.
func TestAllOfAGroupIsTold(t *testing.T) {
	h, plans := demo(t)
	g := told()
	var text, doc bytes.Buffer
	people, programs := NewText(&text, Style{Width: 100, Units: q.US}), NewJSON(&doc)
	err := errors.Join(people.Group(g), programs.Start(h), programs.Plan(plans[0], decided(h, plans[0])), programs.Group(g), programs.Group(g), programs.End())
	if err != nil {
		t.Fatal(err)
	}
	for _, said := range []string{
		"said-id", "said-a", "said-b", "said-what", "said-source", "said-say", "said-advice", "said-practice", "said-from", "said-to",
		"said-gap", "said-stops", "said-why", "said-how", "said-doubt", "said-found", "said-slip", "said-note",
	} {
		if !strings.Contains(text.String(), said) {
			t.Errorf("people are not told %q", said)
		}
		if !strings.Contains(doc.String(), said) {
			t.Errorf("programs are not told %q", said)
		}
	}
	for _, said := range []string{"!! falls short", "!  falls short", "(advice)", "1.50 ± 0.20 s", "2 ft/s"} {
		if !strings.Contains(text.String(), said) {
			t.Errorf("people are not told %q", said)
		}
	}
	fits(t, text.String(), 100)
	var whole struct {
		Openings, Groups []json.RawMessage
		Summary          struct{ Complete bool }
	}
	if err := json.Unmarshal(doc.Bytes(), &whole); err != nil || len(whole.Openings) != 1 || len(whole.Groups) != 2 {
		t.Errorf("%v: %d openings, %d groups", err, len(whole.Openings), len(whole.Groups))
	}
}
