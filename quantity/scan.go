package quantity

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// A scanner reads numbers and units off a text that plain has rewritten.
type scanner struct {
	text string
	pos  int
}

// peek gives the rune at the position, zero at the end.
func (s *scanner) peek() rune { return runeAt(s.text, s.pos) }

func runeAt(text string, pos int) rune {
	if pos >= len(text) {
		return 0
	}
	r, _ := utf8.DecodeRuneInString(text[pos:])
	return r
}

func (s *scanner) skip(set string) {
	s.pos += len(s.text[s.pos:]) - len(strings.TrimLeft(s.text[s.pos:], set))
}

// accept steps over r and tells whether it was there.
func (s *scanner) accept(r rune) bool {
	if s.peek() != r {
		return false
	}
	s.pos += utf8.RuneLen(r)
	return true
}

// digits reads a run of decimal digits, possibly none.
func (s *scanner) digits() string {
	start := s.pos
	for isDigit(s.peek()) {
		s.pos++
	}
	return s.text[start:s.pos]
}

func isDigit(r rune) bool { return '0' <= r && r <= '9' }

// unit reads a unit as written, empty when none follows. With powers, a 2 or a
// 3 right behind a letter belongs to the unit, as in m2; without, it starts
// the next number, as in 5ft2in.
func (s *scanner) unit(powers bool) string {
	s.skip(" ")
	start := s.pos
	switch r := s.peek(); {
	case r == '\'' || r == '"' || r == '%':
		s.pos++
		return s.text[start:s.pos]
	case !startsUnit(r):
		return ""
	}
	for s.unitGoesOn(powers) {
		_, size := utf8.DecodeRuneInString(s.text[s.pos:])
		s.pos += size
	}
	return s.text[start:s.pos]
}

func startsUnit(r rune) bool { return unicode.IsLetter(r) || r == '°' }

// unitGoesOn tells whether the rune at the position belongs to the unit whose
// beginning lies before it.
func (s *scanner) unitGoesOn(powers bool) bool {
	r := s.peek()
	switch {
	case startsUnit(r), r == '²', r == '³', r == '.':
		return true
	case r == '2' || r == '3':
		before, _ := utf8.DecodeLastRuneInString(s.text[:s.pos])
		return powers && unicode.IsLetter(before) && !s.numberOrWordAfter()
	case isSeparator(r), r == '/':
		rest := strings.TrimLeft(s.text[s.pos:], " ·-./")
		return startsUnit(runeAt(rest, 0))
	}
	return false
}

// numberOrWordAfter tells whether the digit at the position begins something
// longer: 25, 2.5, 2in.
func (s *scanner) numberOrWordAfter() bool {
	next := runeAt(s.text, s.pos+1)
	if next == '.' || next == ',' {
		next = runeAt(s.text, s.pos+2)
	}
	return isDigit(next) || unicode.IsLetter(next)
}
