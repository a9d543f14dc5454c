package picture

import (
	"testing"

	"swingwright/plan"
	"swingwright/quantity"
)

// All pictures of one opening of the demonstration.
func BenchmarkAll(b *testing.B) {
	j, books := demo(b)
	p := plan.Make(&j.Openings[0], &j.Sheets, books[:1], quick)
	b.ReportAllocs()
	for b.Loop() {
		All(p, quantity.US)
	}
}
