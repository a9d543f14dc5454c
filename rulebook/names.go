package rulebook

import (
	"fmt"
	"slices"
	"strings"
)

// The words of this package's lists stand in JSON too, so that a stored book
// does not depend on the order of the lists.

// MarshalText is the side in words.
func (s Side) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// UnmarshalText reads a side; the error lists the sides.
func (s *Side) UnmarshalText(text []byte) error { return placeOf(s, sideNames[:], text) }

// MarshalText is the confidence as books write it.
func (c Confidence) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// UnmarshalText reads a confidence; the error lists the kinds.
func (c *Confidence) UnmarshalText(text []byte) error {
	return placeOf(c, confidenceNames[:], text)
}

// MarshalText is the pick as books write it.
func (p Pick) MarshalText() ([]byte, error) { return []byte(p.String()), nil }

// UnmarshalText reads a pick; the error lists the picks.
func (p *Pick) UnmarshalText(text []byte) error { return placeOf(p, pickNames[:], text) }

// placeOf sets v to the place of the text in its list of names.
func placeOf[T ~uint8](v *T, names []string, text []byte) error {
	i := slices.Index(names, string(text))
	if i < 0 {
		return fmt.Errorf("found %q, needed one of %s", text, strings.Join(names, ", "))
	}
	*v = T(i)
	return nil
}

// nameOf is names[i], or a mark for a number outside the list.
func nameOf(names []string, i int) string {
	if i < 0 || i >= len(names) {
		return "?"
	}
	return names[i]
}
