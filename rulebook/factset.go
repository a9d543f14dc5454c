package rulebook

import (
	"iter"
	"math/bits"

	"swingwright/fact"
)

// Facts is a set of facts, a bit for each. It is handed on at every step of
// Eval, so it is of fixed size and holds no pointer.
type Facts [words]uint64

const (
	wordBits = 64
	words    = (fact.Count + wordBits - 1) / wordBits
)

// Add puts a fact into the set.
func (s *Facts) Add(id fact.ID) { s[id/wordBits] |= 1 << (id % wordBits) }

// Has tells whether the fact is in the set.
func (s Facts) Has(id fact.ID) bool { return s[id/wordBits]&(1<<(id%wordBits)) != 0 }

// Empty tells whether the set holds nothing.
func (s Facts) Empty() bool { return s == Facts{} }

// Union is what either set holds.
func (s Facts) Union(t Facts) Facts {
	for i := range s {
		s[i] |= t[i]
	}
	return s
}

// Within tells whether all of the set is in t.
func (s Facts) Within(t Facts) bool { return s.Union(t) == t }

// All runs over the facts in the order of the table.
func (s Facts) All() iter.Seq[fact.ID] {
	return func(yield func(fact.ID) bool) {
		for i, w := range s {
			for ; w != 0; w &= w - 1 {
				if !yield(fact.ID(i*wordBits + bits.TrailingZeros64(w))) {
					return
				}
			}
		}
	}
}
