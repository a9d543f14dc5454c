package report

import (
	"bytes"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"swingwright/job"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/rulebook"
	"swingwright/rulebook/author"
)

// excluded is opening 101 of the demo job by hand, in a draught: the 5 lbf of the
// accessibility standard (ADA Standards 2010, 404.2.9) ask for a weaker spring than
// latching against the draught leaves.
func excluded(t *testing.T) (*plan.Plan, *plan.Window) {
	t.Helper()
	j, err := job.Decode(os.DirFS("../demo/harbour-street-clinic"), "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	book, err := author.BuiltinBook("ada-2010")
	if err != nil {
		t.Fatal(err)
	}
	for i := range j.Openings {
		if j.Openings[i].ID != "101" {
			continue
		}
		o := j.Openings[i]
		o.Operator = opening.Operator{}
		o.Use.Operation, o.Air.Most = "manual", quantity.Exactly(15*quantity.Pascal)
		p := plan.Make(&o, &j.Sheets, []*rulebook.Book{book}, plan.Options{})
		w, err := p.Window(&j.Sheets)
		if err != nil {
			t.Fatal(err)
		}
		return p, w
	}
	t.Fatal("the demo has no opening 101")
	return nil, nil
}

// A conflict names both sides, how far each would have to give, and what would
// help, in words and to programs.
func TestWindowTellsWhatExcludesWhat(t *testing.T) {
	p, w := excluded(t)
	if w.Open() {
		t.Fatal("there is a window")
	}
	var text bytes.Buffer
	if err := Window(NewText(&text, Style{Width: 200, Units: quantity.US}), p, w, nil); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"No power from 1 to 4 keeps everything", "Exclude each other:", "Interior doors open with 5 lbf (at most 5 lbf): would have to give by",
		"latches from", "other arm", "ADA Standards for Accessible Design", "higher hand forces allowed", "beyond its limit then: Interior doors open with 5 lbf",
	} {
		if !strings.Contains(text.String(), want) {
			t.Errorf("the text lacks %q:\n%s", want, text.String())
		}
	}
	var out bytes.Buffer
	if err := WindowJSON(&out, p, w, nil); err != nil {
		t.Fatal(err)
	}
	var got windowJSON
	if err := json.Unmarshal(out.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	if got.Found == nil || *got.Found || got.Setting != nil || len(got.Demands) != len(w.Held) || len(got.Conflicts) == 0 {
		t.Errorf("%s", out.String())
	}
	names := map[string]bool{}
	for _, d := range got.Demands {
		names[d.Name] = true
	}
	for _, c := range got.Conflicts {
		for _, g := range c.Of {
			if !names[g.Demand] {
				t.Errorf("a conflict names %q, which is no demand", g.Demand)
			}
		}
	}
	if WindowStanding(w) != plan.Bad {
		t.Error("no window does not stand as bad")
	}
}
