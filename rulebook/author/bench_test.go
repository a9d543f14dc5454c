package author

import (
	"testing"

	"swingwright/fact"
	"swingwright/quantity"
	"swingwright/rulebook"
)

// usualOpening is a low energy opening of which everything is known.
func usualOpening() rulebook.Env {
	env := rulebook.NewEnv()
	for i := range env {
		env[i] = 1
	}
	env[fact.LeafWidth] = float64(36 * quantity.Inch)
	env[fact.LeafMass] = float64(125 * quantity.Pound)
	env[fact.CloserSize] = 3
	return env
}

// BenchmarkCheck applies each rule of each book to a fully known opening.
func BenchmarkCheck(b *testing.B) {
	env := usualOpening()
	for _, book := range books(b) {
		for i := range book.Rules {
			r := &book.Rules[i]
			b.Run(book.ID+"/"+r.ID, func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					r.Check(env)
				}
			})
		}
	}
}

// BenchmarkLoadAll reads every book that comes with the program, as a command does when it starts.
func BenchmarkLoadAll(b *testing.B) {
	for b.Loop() {
		if _, err := LoadAll(rulebook.Builtin()); err != nil {
			b.Fatal(err)
		}
	}
}
