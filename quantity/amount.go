package quantity

import (
	"math"
	"strings"
)

// An amount is one side of the ±: a number of one unit. 3 ft 6 in is 42 in.
type amount struct {
	sign    float64
	n       number
	unit    *unit // nil when none was written
	percent bool  // the unit is a share of something else
}

// toSI gives the amount in SI, sign and zero point of its unit included.
func (a amount) toSI() float64 { return a.unit.toSI(a.sign*a.n.num, a.n.den) }

// spreadOf gives the amount as the half width in SI of a value in SI.
func (a amount) spreadOf(value float64) float64 {
	if a.percent {
		return math.Abs(value) * a.n.value() / 100
	}
	return a.unit.spreadToSI(a.n.num, a.n.den)
}

// A term is a number and the unit behind it.
type term struct {
	n    number
	text string // the number as written
	unit *unit  // nil when the dimension has no such unit
	name string // the unit as written, empty when none was
}

// readAmount reads a sign and one or more terms, of which each after the first
// is a part of the one before.
func readAmount(d Dimension, text string) (amount, *ParseError) {
	s := scanner{text: text}
	a := amount{sign: s.sign()}
	for first := true; ; first = false {
		t, ok, bad := s.term(d)
		if bad != nil {
			return a, bad
		}
		if !ok {
			return a, s.end(d, first)
		}
		if bad := a.add(d, t, first); bad != nil {
			return a, bad
		}
		s.hyphen()
	}
}

// sign reads an optional sign and gives ±1.
func (s *scanner) sign() float64 {
	s.skip(" ")
	if s.accept('-') {
		return -1
	}
	s.accept('+')
	return 1
}

// hyphen steps over the hyphen of 3'-0" when a number follows it.
func (s *scanner) hyphen() {
	start := s.pos
	s.skip(" ")
	s.accept('-')
	s.skip(" ")
	if !isDigit(s.peek()) {
		s.pos = start
	}
}

// end checks that nothing but terms was in the text.
func (s *scanner) end(d Dimension, empty bool) *ParseError {
	rest := strings.TrimSpace(s.text[s.pos:])
	switch {
	case strings.Contains(rest, "±"):
		return fault("it has ± more than once", "write one value and one spread")
	case empty:
		return fault("there is no number where one belongs", "write a number with "+unitChoice(d))
	case rest != "":
		return fault(Quote(rest)+" is left over", "write a number and a unit only")
	}
	return nil
}

// term reads a number and its unit; false when no number follows.
func (s *scanner) term(d Dimension) (term, bool, *ParseError) {
	s.skip(" ")
	start := s.pos
	n, ok, bad := s.number()
	if !ok || bad != nil {
		return term{}, false, bad
	}
	t := term{n: n, text: s.text[start:s.pos]}
	if n.value() > largestNumber {
		return t, false, fault(t.text+" is beyond sense", "check the number and its unit")
	}
	t.unit, t.name = s.unitOf(d)
	return t, true, nil
}

// unitOf reads a unit and its name. A 2 or 3 behind a letter is taken as its
// power, unless that is no unit at all and the shorter reading is one of
// dimension d: 10 m2 is no length, 5ft2in is one.
func (s *scanner) unitOf(d Dimension) (*unit, string) {
	start := s.pos
	name := s.unit(true)
	if name == "" {
		return nil, "" // not even the bare number's empty unit
	}
	if u := unitOf(d, name); u != nil {
		return u, name
	}
	end := s.pos
	s.pos = start
	short := s.unit(false)
	if u := unitOf(d, short); u != nil && len(candidates(name)) == 0 {
		return u, short
	}
	s.pos = end
	return nil, name
}

// add takes one more term into the amount, which then counts in the unit of
// that term: feet and inches, pounds and ounces, minutes and seconds.
func (a *amount) add(d Dimension, t term, first bool) *ParseError {
	switch {
	case t.unit == nil && t.name == "%":
		a.percent = true
	case t.unit == nil && t.name != "":
		return notOfDimension(d, t.name)
	}
	if first {
		a.n, a.unit = t.n, t.unit
		return nil
	}
	if bad := a.follows(d, t); bad != nil {
		return bad
	}
	a.n.num = a.n.value()*float64(a.unit.parts)*t.n.den + t.n.num
	a.n.den, a.unit = t.n.den, t.unit
	return nil
}

// follows checks that t can stand behind the amount read so far.
func (a *amount) follows(d Dimension, t term) *ParseError {
	switch {
	case a.unit == nil:
		return fault("a number in it has no unit", "write one number and its unit, thousands together")
	case t.unit == nil:
		return noUnit(d, t.text)
	case a.unit.smaller != t.unit.symbol:
		return fault(t.unit.symbol+" cannot follow "+a.unit.symbol, "write one number and its unit"+sequences(d))
	case !a.n.isWhole():
		return fault("only the last of its numbers may have a fraction", "write whole "+a.unit.symbol+" before "+t.unit.symbol)
	case t.n.value() >= float64(a.unit.parts):
		return fault("its "+t.unit.symbol+" make another "+a.unit.symbol, "write the value in "+t.unit.symbol+" alone")
	}
	return nil
}

// sequences names the units of a dimension that may follow each other, as the
// end of a sentence.
func sequences(d Dimension) string {
	var pairs strings.Builder
	for i := range table {
		if u := &table[i]; u.dim == d && u.parts > 0 {
			pairs.WriteString(", or " + u.symbol + " and " + u.smaller)
		}
	}
	return pairs.String()
}
