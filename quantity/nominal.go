package quantity

import (
	"regexp"
	"strings"
)

// The forms of a nominal size, after plain has rewritten its marks.
var (
	nominalDigits = regexp.MustCompile(`^([1-9])([0-9])([1-9])([0-9])$`)
	nominalSide   = regexp.MustCompile(`^([1-9][0-9]?) ?(?:'|ft\.?|-) ?-? ?([0-9]|1[01]) ?(?:"|in\.?)?$`)
	nominalBy     = regexp.MustCompile(`[·xX]| by `)
)

// ParseNominal reads the nominal size of an opening as the trade writes it:
// 3070 is 3 ft 0 in wide and 7 ft 0 in high, and so is 3-0 x 7-0 or
// 3'-0" × 7'-0"; 914 mm x 2134 mm is read too. The four digits hold inches up
// to nine only. The frame opening is nominal: the leaf is smaller. The error is
// a *ParseError.
//
// Source: common practice of the United States, from memory.
func ParseNominal(text string) (width, height Length, err error) {
	width, height, bad := nominal(text)
	if bad != nil {
		bad.Text, bad.Want, bad.noun = text, DimLength, "a nominal size"
		return 0, 0, bad
	}
	return width, height, nil
}

func nominal(text string) (width, height Length, bad *ParseError) {
	clean, bad := readable(DimLength, text)
	if bad != nil {
		return 0, 0, bad
	}
	if f := nominalDigits.FindStringSubmatch(clean); f != nil {
		return feetInches(f[1], f[2]), feetInches(f[3], f[4]), nil
	}
	sides := nominalBy.Split(clean, -1)
	if len(sides) != 2 {
		return 0, 0, fault("it does not give a width and a height", "write 3070 or 3-0 x 7-0")
	}
	width, badWidth := side(sides[0])
	height, badHeight := side(sides[1])
	if bad = both(badWidth, badHeight); bad != nil {
		return 0, 0, bad
	}
	return width, height, nil
}

// side reads 3-0, 3'-0", 3' 0" or any length without a spread.
func side(text string) (Length, *ParseError) {
	text = strings.TrimSpace(text)
	if f := nominalSide.FindStringSubmatch(text); f != nil {
		return feetInches(f[1], f[2]), nil
	}
	value, _, stated, bad := parse(DimLength, text)
	switch {
	case bad != nil:
		return 0, fault(Quote(text)+" is not a length: "+bad.Reason, "write 3070 or 3-0 x 7-0")
	case stated:
		return 0, fault("a nominal size has no spread", "leave out the ±")
	case value <= 0:
		return 0, fault(Quote(text)+" is not above zero", "write 3070 or 3-0 x 7-0")
	}
	return Length(value), nil
}

// feetInches is the length of whole feet and inches, given as digits.
func feetInches(feet, inches string) Length {
	total := count(feet)*12 + count(inches)
	return Length(unitOf(DimLength, "in").toSI(total, 1))
}
