package plan

import (
	"os"
	"slices"
	"strings"
	"testing"

	"swingwright/job"
	"swingwright/logic"
	"swingwright/opening"
	q "swingwright/quantity"
)

// People are followed with the times of the plans: a hold that is longer by what was
// said to be short mends it for one person, and without the times nothing is said to be proved.
func TestPeopleAreFollowedThroughTheStreetVestibule(t *testing.T) {
	j, err := job.Decode(os.DirFS("../demo/harbour-street-clinic"), "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	g := &j.Groups[slices.IndexFunc(j.Groups, func(g opening.Group) bool { return g.ID == "street vestibule" })]
	var of []*opening.Opening
	var members []*Member
	for _, id := range g.Of {
		o := demoOpening(t, j, id)
		of = append(of, o)
		members = append(members, Make(o, &j.Sheets, nil, Options{Draws: 64}).Member(&j.Sheets))
	}
	few := logic.Effort{States: 1000, Tick: 0.5} // the proof is not the matter here
	w := WireGroup(g, of, &j.Sheets, few, members...)
	if w.Problem != nil || w.Walked == nil {
		t.Fatal(w.Problem, w.Proof.Verdicts[len(w.Proof.Verdicts)-1].Why)
	}
	short := 0.
	for i := range w.Walked.Ways {
		way := &w.Walked.Ways[i]
		t.Log(way.From, way.To, WayWords(way))
		for _, s := range way.Spare {
			short = max(short, -float64(s))
		}
	}
	if !(short > 0) || !verdictOn(w, logic.ClearOfLeaf).Broken {
		t.Errorf("short by %v s: the demonstration has a hold that is too short for its delay", short)
	}
	for _, m := range members {
		m.Cycle.Hold += q.Time(short + 0.1)
	}
	w = WireGroup(g, of, &j.Sheets, few, members...)
	for i := range w.Walked.Ways {
		for _, s := range w.Walked.Ways[i].Spare {
			if !(s >= 0) {
				t.Errorf("held longer by what was short, still: %v", WayWords(&w.Walked.Ways[i]))
			}
		}
	}
	bare := *g
	bare.Between = q.Measured[q.Length]{}
	w = WireGroup(&bare, of, &j.Sheets, few, members...)
	if v := verdictOn(w, logic.NotTrapped); !v.Undone || !strings.Contains(v.Why, "between") || w.Standing() == Good {
		t.Errorf("without the distance: %+v", v)
	}
}

func verdictOn(w *Wired, r logic.Rule) logic.Verdict {
	return w.Proof.Verdicts[slices.IndexFunc(w.Proof.Verdicts, func(v logic.Verdict) bool { return v.Rule == r })]
}
