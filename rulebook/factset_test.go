package rulebook

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"swingwright/fact"
)

// A set holds what was added, each once and in order: as a sorted list does.
func TestFactsAreASet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ids := rapid.SliceOf(rapid.IntRange(0, fact.Count-1)).Draw(t, "facts")
		var s, odd, even Facts
		for i, id := range ids {
			s.Add(fact.ID(id))
			if i%2 == 0 {
				even.Add(fact.ID(id))
			} else {
				odd.Add(fact.ID(id))
			}
		}
		want := slices.Compact(slices.Sorted(slices.Values(ids)))
		var got []int
		for id := range s.All() {
			got = append(got, int(id))
			if !s.Has(id) {
				t.Fatalf("%v lists %d and does not have it", s, id)
			}
		}
		if !slices.Equal(got, want) {
			t.Fatalf("got %v, want %v", got, want)
		}
		if odd.Union(even) != s || s.Empty() != (len(want) == 0) {
			t.Fatalf("union %v of %v, empty %v", odd.Union(even), s, s.Empty())
		}
	})
}
