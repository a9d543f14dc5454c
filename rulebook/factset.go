package rulebook

import (
	"iter"
	"math/bits"

	"swingwright/fact"
)

// Facts is a set of facts. Two words travel in registers, where an array would
// not; Eval hands a set on at every step.
type Facts struct{ low, high uint64 }

// The table must fit into the two words: this does not compile when it does not.
const _ = uint(128 - fact.Count)

// bit is the word and the bit of a fact.
func bit(id fact.ID) Facts {
	if id < 64 {
		return Facts{low: 1 << id}
	}
	return Facts{high: 1 << (id - 64)}
}

// Add puts a fact into the set.
func (s *Facts) Add(id fact.ID) { *s = s.Union(bit(id)) }

// Has tells whether the fact is in the set.
func (s Facts) Has(id fact.ID) bool {
	b := bit(id)
	return s.low&b.low != 0 || s.high&b.high != 0
}

// Empty tells whether the set holds nothing.
func (s Facts) Empty() bool { return s == Facts{} }

// Union is what either set holds.
func (s Facts) Union(t Facts) Facts { return Facts{s.low | t.low, s.high | t.high} }

// All runs over the facts in the order of the table.
func (s Facts) All() iter.Seq[fact.ID] {
	return func(yield func(fact.ID) bool) {
		for w := s.low; w != 0; w &= w - 1 {
			if !yield(fact.ID(bits.TrailingZeros64(w))) {
				return
			}
		}
		for w := s.high; w != 0; w &= w - 1 {
			if !yield(fact.ID(64 + bits.TrailingZeros64(w))) {
				return
			}
		}
	}
}
