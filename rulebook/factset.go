package rulebook

import (
	"iter"
	"math/bits"

	"swingwright/fact"
)

const words = (fact.Count + 63) / 64

// Facts is a set of facts.
type Facts [words]uint64

// Add puts a fact into the set.
func (s *Facts) Add(id fact.ID) { s[id/64] |= 1 << (id % 64) }

// Has tells whether the fact is in the set.
func (s Facts) Has(id fact.ID) bool { return s[id/64]&(1<<(id%64)) != 0 }

// Empty tells whether the set holds nothing.
func (s Facts) Empty() bool { return s == Facts{} }

// Union is what either set holds.
func (s Facts) Union(t Facts) Facts {
	for i := range s {
		s[i] |= t[i]
	}
	return s
}

// All runs over the facts in the order of the table.
func (s Facts) All() iter.Seq[fact.ID] {
	return func(yield func(fact.ID) bool) {
		for i, w := range s {
			for ; w != 0; w &= w - 1 {
				if !yield(fact.ID(i*64 + bits.TrailingZeros64(w))) {
					return
				}
			}
		}
	}
}
