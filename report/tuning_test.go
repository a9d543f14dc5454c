package report

import (
	"bytes"
	"strings"
	"testing"

	"swingwright/opening"
	"swingwright/plan"
	q "swingwright/quantity"
	"swingwright/tune"
)

// What was left out of a recording, and a reading that does not go with the rest, are
// told to people and to programs.
func TestWhatAFitLeavesOutIsTold(t *testing.T) {
	w := &plan.Tuning{Advice: &tune.Advice{Fit: &tune.Fit{
		Left:  []tune.Stretch{{Curve: 1, T0: 2, T1: 3, From: 60 * q.Degree, To: 45 * q.Degree, Slower: true}},
		Notes: []string{"said-note"},
	}}}
	var text, doc bytes.Buffer
	people := NewText(&text, Style{Width: 100})
	people.learnt(w)
	if err := people.flush(); err != nil {
		t.Fatal(err)
	}
	if err := TuningJSON(&doc, &plan.Plan{Opening: &opening.Opening{ID: "x"}}, w); err != nil {
		t.Fatal(err)
	}
	for _, said := range []string{"recording 2: from 60 to 45 degrees", "said-note"} {
		if !strings.Contains(strings.Join(strings.Fields(text.String()), " "), said) {
			t.Errorf("people are not told %q:\n%s", said, text.String())
		}
		if !strings.Contains(doc.String(), said) {
			t.Errorf("programs are not told %q", said)
		}
	}
}
