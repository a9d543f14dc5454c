package plan

import (
	"os"
	"testing"

	"swingwright/fact"
	"swingwright/job"
	"swingwright/judge"
)

func BenchmarkRoom(b *testing.B) {
	j, err := job.Decode(os.DirFS("/tmp/try/harbour-street-clinic"), "job.yaml")
	if err != nil {
		b.Fatal(err)
	}
	for _, i := range []int{0, 1, 2} {
		o := &j.Openings[i]
		r := Resolve(o, &j.Sheets)
		var best [fact.Count]float64
		b.Run(o.ID, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				roomOf(o, r, best[:], nil, judge.Policy{})
			}
		})
	}
}
