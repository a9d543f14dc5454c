package main

import (
	"runtime"
	"testing"

	"swingwright/decision"
	"swingwright/plan"
	"swingwright/rulebook/author"
)

// One opening with all that check and window say of it, under every rulebook that
// comes with the program, 256 draws: simulation, room, findings, decision, and the
// window of settings.
func BenchmarkWholeCheck(b *testing.B) {
	w, err := load(demoJob)
	if err != nil {
		b.Fatal(err)
	}
	books, err := author.Builtin()
	if err != nil {
		b.Fatal(err)
	}
	collisions, err := author.Collisions()
	if err != nil {
		b.Fatal(err)
	}
	for _, id := range []string{"101", "102", "103", "106", "108"} {
		picked, err := w.openings([]string{id})
		if err != nil {
			b.Fatal(err)
		}
		b.Run(id, func(b *testing.B) {
			var mk plan.Maker
			opt := plan.Options{Draws: 256, Workers: runtime.GOMAXPROCS(0), Collisions: collisions, Climate: w.Climate}
			for b.Loop() {
				p := mk.Make(picked[0], &w.Sheets, books, opt)
				decision.Make(p, &w.Sheets, decision.Options{Brief: true})
				if _, err := p.HasWindow(&w.Sheets); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
