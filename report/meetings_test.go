package report

import (
	"math"
	"strings"
	"testing"

	"swingwright/fact"
	"swingwright/plan"
	"swingwright/rulebook"
)

// differing is a plan on which two works limit one force: 5 and 15 lbf, as the
// ADA Standards (309.4) and the International Building Code (1010.1.3) do.
func differing(strictest bool) *plan.Plan {
	party := func(id string, limit float64, strict bool) rulebook.Party {
		return rulebook.Party{
			Book: &rulebook.Book{ID: id, Work: "work of " + id, Edition: "1"}, Certain: true, Strictest: strict,
			Rule:  &rulebook.Rule{ID: "force", Of: fact.HandReleaseForce, Side: rulebook.AtMost, Source: rulebook.Source{Clause: "clause of " + id}},
			Limit: limit, At: math.NaN(),
		}
	}
	return &plan.Plan{Meetings: []rulebook.Meeting{{
		Collision:  &rulebook.Collision{ID: "hardware", Title: "Force that works it", Differs: "Five or fifteen.", Treatment: "Keep five."},
		Comparable: strictest,
		Parties:    []rulebook.Party{party("one", 22.2, strictest), party("two", 66.7, false)},
	}}}
}

// The limits stand side by side, the stricter is marked, and what to do follows.
func TestMeetingIsTold(t *testing.T) {
	p := differing(true)
	got := written(t, func(text *Text) { text.meetings(p) })
	for _, want := range []string{
		"Where the rules differ", "Force that works it", "-> stricter work of one, 1, clause of one at most", "work of two, 1, clause of two at most", "Five or fifteen. Keep five.",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is missing in %q", want, got)
		}
	}
	if n := strings.Count(got, "-> stricter"); n != 1 {
		t.Errorf("%d are marked the stricter", n)
	}
	all := meetingsOf(p)
	if len(all) != 1 || len(all[0].Parties) != 2 || !all[0].Parties[0].Strictest || all[0].Parties[1].Strictest {
		t.Errorf("programs are told %+v", all)
	}
}

// A matter on which none is the stricter is shown on demand only, to people.
func TestMeetingWithoutStricter(t *testing.T) {
	p := differing(false)
	if got := written(t, func(text *Text) { text.meetings(p) }); got != "" {
		t.Errorf("told unasked: %q", got)
	}
	if got := written(t, func(text *Text) { text.style.All = true; text.meetings(p) }); !strings.Contains(got, "Force that works it") {
		t.Errorf("not told though asked for: %q", got)
	}
	if len(meetingsOf(p)) != 1 {
		t.Error("programs are not told")
	}
}
