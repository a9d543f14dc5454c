package plan

import (
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
	j := demoJob(t)
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
	var members []*Member
	for _, o := range of {
		members = append(members, Make(o, &j.Sheets, nil, Options{Draws: 64}).Member(&j.Sheets))
	}
	b.ReportAllocs()
	for b.Loop() {
		w := ProveGroup(g, of, &j.Sheets, logic.Effort{}, members...)
		if !w.Proof.Complete {
			b.Fatal("not every order of events was followed")
		}
		b.ReportMetric(float64(w.Proof.States), "states")
	}
}
