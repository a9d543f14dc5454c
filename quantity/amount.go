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

func (a amount) toSI() float64 { return a.unit.toSI(a.sign*a.n.num, a.n.den) }

// spreadOf gives the half width in SI of a value in SI.
func (a amount) spreadOf(value float64) float64 {
	if a.percent {
		return math.Abs(value) * a.n.value() / 100
	}
	return a.unit.spreadToSI(a.n.num, a.n.den)
}

// A term is a number and the unit written behind it. wide is the same unit
// read so that a 2 or 3 behind it counts as its power.
type term struct {
	n          number
	unit, wide string
}

// readAmount reads a sign and one or more terms, of which each after the first
// is a part of the one before.
func readAmount(d Dimension, text string) (amount, *ParseError) {
	s := scanner{text: text}
	a := amount{sign: s.sign()}
	var terms []term
	for {
		t, ok, bad := s.term(d)
		if bad != nil {
			return a, bad
		}
		if !ok {
			break
		}
		terms = append(terms, t)
		s.skip(" -") // 3'-0"
	}
	if rest := strings.TrimSpace(s.text[s.pos:]); rest != "" || len(terms) == 0 {
		return a, unexpected(d, rest, len(terms))
	}
	return a, a.join(d, terms)
}

func unexpected(d Dimension, rest string, terms int) *ParseError {
	switch {
	case strings.Contains(rest, "±"):
		return fault("it has ± more than once", "write one value and one spread")
	case terms == 0:
		return fault("there is no number where one belongs", "write a number with "+unitChoice(d))
	}
	return fault(quoted(rest)+" is left over", "write a number and a unit only")
}

func (s *scanner) sign() float64 {
	s.skip(" ")
	if s.accept('-') {
		return -1
	}
	s.accept('+')
	return 1
}

// term reads a number and its unit.
func (s *scanner) term(d Dimension) (term, bool, *ParseError) {
	n, ok, bad := s.number()
	if !ok || bad != nil {
		return term{}, false, bad
	}
	if n.value() > largestNumber {
		return term{}, false, fault("its number is beyond sense", "check the number and its unit")
	}
	start := s.pos
	wide := s.unit(true)
	end := s.pos
	s.pos = start
	narrow := s.unit(false)
	if unitOf(d, wide) != nil || unitOf(d, narrow) == nil {
		narrow, s.pos = wide, end
	}
	return term{n: n, unit: narrow, wide: wide}, true, nil
}

// join sums the terms into the last unit, which must be the part of the one
// before it: feet and inches, pounds and ounces, minutes and seconds.
func (a *amount) join(d Dimension, terms []term) *ParseError {
	for i, t := range terms {
		u, bad := t.resolve(d, terms[:i])
		if bad != nil {
			return bad
		}
		if i > 0 {
			if bad := fits(a, t.n, u); bad != nil {
				return bad
			}
			t.n.num += a.n.num / a.n.den * float64(a.unit.parts) * t.n.den
		}
		a.n, a.unit, a.percent = t.n, u, t.unit == "%" && d != DimRatio
	}
	return nil
}

// resolve finds the unit of a term. It is nil for a lone number without a
// unit and for a share in %, which shareUnits looks at.
func (t term) resolve(d Dimension, before []term) (*unit, *ParseError) {
	if u := unitOf(d, t.unit); t.unit != "" && u != nil {
		return u, nil
	}
	switch {
	case t.unit == "" && len(before) > 0:
		if last := before[len(before)-1]; last.wide != last.unit && len(candidates(last.wide)) > 0 {
			return nil, notOfDimension(d, last.wide)
		}
		return nil, noUnit(d, "a number in it")
	case t.unit == "" || t.unit == "%":
		return nil, nil
	}
	return nil, notOfDimension(d, t.unit)
}

// fits checks that a number n of unit u can follow the amount read so far.
func fits(a *amount, n number, u *unit) *ParseError {
	switch {
	case a.unit == nil:
		return noUnit(u.dim, "a number in it")
	case u == nil || a.unit.smaller != u.symbol:
		return fault("its units do not follow each other", "write one unit, or "+orList(sequences(a.unit.dim)))
	case !a.n.isWhole():
		return fault("only the last of its numbers may have a fraction", "write whole "+a.unit.symbol+" before "+u.symbol)
	case n.value() >= float64(a.unit.parts):
		return fault("its "+u.symbol+" make another "+a.unit.symbol, "write the value in "+u.symbol+" alone")
	}
	return nil
}

// sequences lists the units of a dimension that may follow each other.
func sequences(d Dimension) []string {
	var pairs []string
	for i := range table {
		if u := &table[i]; u.dim == d && u.parts > 0 {
			pairs = append(pairs, u.symbol+" and "+u.smaller)
		}
	}
	if pairs == nil {
		return []string{"a single number"}
	}
	return pairs
}

// shareUnits lets each side of the ± borrow the unit that only the other has,
// and checks that the value ends up with one.
func shareUnits(d Dimension, best, half *amount, stated bool) *ParseError {
	switch {
	case best.percent:
		return notOfDimension(d, "%")
	case stated && half.sign < 0:
		return fault("its spread is negative", "write ± and a number without sign")
	case half.percent && d == DimTemperature:
		return fault("its spread is a share of the value, which depends on the scale's zero", "write the spread in °F, °C or K")
	}
	if d == DimRatio {
		return shareBareNumber(best, half, stated)
	}
	if best.unit == nil {
		best.unit = half.unit
	}
	if best.unit == nil {
		return noUnit(d, "it")
	}
	if half.unit == nil && !half.percent {
		half.unit = best.unit
	}
	return nil
}

// shareBareNumber settles the units of a ratio, where none is a unit too. A
// bare value with a spread in % is refused: 35 ± 5 % can mean 35 % or 35.
func shareBareNumber(best, half *amount, stated bool) *ParseError {
	if best.unit == nil && stated && half.unit != nil {
		return fault("its value is bare and its spread in %", "write both in %, or both as bare numbers")
	}
	if best.unit == nil {
		best.unit = shown[DimRatio][SI]
	}
	if half.unit == nil {
		half.unit = best.unit
	}
	return nil
}
