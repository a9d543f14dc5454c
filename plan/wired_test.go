package plan

import (
	"os"
	"slices"
	"testing"

	"swingwright/job"
	"swingwright/logic"
	"swingwright/opening"
)

// streetVestibule is the group of the demonstration whose doors share a wiring,
// with its openings.
func streetVestibule(t testing.TB) (*job.Job, *opening.Group, []*opening.Opening) {
	t.Helper()
	j, err := job.Decode(os.DirFS("../demo/harbour-street-clinic"), "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	g := &j.Groups[slices.IndexFunc(j.Groups, func(g opening.Group) bool { return g.ID == "street vestibule" })]
	var of []*opening.Opening
	for _, id := range g.Of {
		of = append(of, demoOpening(t, j, id))
	}
	return j, g, of
}

// BenchmarkProveVestibule proves the wiring of the demonstration's vestibule as
// the command check does.
func BenchmarkProveVestibule(b *testing.B) {
	j, g, of := streetVestibule(b)
	b.ReportAllocs()
	for b.Loop() {
		w := WireGroup(g, of, &j.Sheets, logic.Effort{})
		if !w.Proof.Complete {
			b.Fatal("not every order of events was followed")
		}
		b.ReportMetric(float64(w.Proof.States), "states")
	}
}
