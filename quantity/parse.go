package quantity

import (
	"strings"
	"unicode/utf8"
)

const (
	// longestText is the most bytes that are read; a quantity is far shorter.
	longestText = 200
	// largestNumber is the most that a number may be, in any unit.
	largestNumber = 1e30
	// coverage is the factor between the standard uncertainty and the half
	// width that people write behind ±. JCGM 100:2008, 7.2.2 and 7.2.4 keep ±
	// for intervals of high confidence, hence an expanded uncertainty, k = 2.
	coverage = 2
)

// Parse reads a quantity as people write it, in any unit of its dimension:
//
//	36 in   35-3/4"   3'-0 1/2"   914,4 mm   120 lb ± 5 kg   20 ± 2 °C   35 N ± 10 %
//
// What stands behind ± (or +/-) is an expanded uncertainty with k = 2; the
// standard uncertainty is half of it. It carries its own unit, or the value's,
// or % for a share of the value; of a ratio, % counts points. Only a ratio may
// lack a unit. The error is a *ParseError.
func Parse[Q Quantity](text string) (Measured[Q], error) {
	var q Q
	value, u, stated, err := ParseAs(q.Dimension(), text)
	if err != nil {
		return Measured[Q]{}, err
	}
	return Measured[Q]{Value: Q(value), U: Q(u), Known: true, Stated: stated, Text: text}, nil
}

// ParseAs reads a quantity as Parse does, for a caller that knows its
// dimension only when running. The value and its standard uncertainty u are in
// SI; stated tells whether the text gave the spread. The error is a *ParseError.
func ParseAs(d Dimension, text string) (value, u float64, stated bool, err error) {
	value, u, stated, bad := parse(d, text)
	if bad != nil {
		bad.Text, bad.Want = text, d
		return 0, 0, false, bad
	}
	return value, u, stated, nil
}

func parse(d Dimension, text string) (value, u float64, stated bool, bad *ParseError) {
	clean, bad := readable(d, text)
	if bad != nil {
		return 0, 0, false, bad
	}
	left, right, stated := strings.Cut(clean, "±")
	best, bad := readAmount(d, left)
	var half amount
	if stated {
		var badHalf *ParseError
		half, badHalf = readAmount(d, right)
		bad = both(bad, badHalf)
	}
	if bad != nil {
		return 0, 0, false, bad
	}
	if bad = shareUnits(d, &best, &half, stated); bad != nil {
		return 0, 0, false, bad
	}
	value = best.toSI()
	if d == DimTemperature && value < 0 {
		return 0, 0, false, fault("it is below absolute zero", "check the number and its unit")
	}
	if stated {
		u = half.spreadOf(value) / coverage
	}
	return value, u, stated, nil
}

// readable checks the text as a whole and rewrites it to plain marks.
func readable(d Dimension, text string) (string, *ParseError) {
	switch {
	case d >= dimensions:
		return "", fault("no such kind of quantity exists", "use one of the dimensions of package quantity")
	case len(text) > longestText:
		return "", fault("it is too long", "write one value in at most 200 bytes")
	case !utf8.ValidString(text):
		return "", fault("it is not valid UTF-8 text", "save it as UTF-8")
	}
	clean := strings.TrimSpace(plain.Replace(text))
	if clean == "" {
		return "", fault("it is blank", "write a number with "+unitChoice(d))
	}
	return unwrapped(clean), nil
}

// unwrapped takes the brackets off (120 ± 5) lb, the form of JCGM 100:2008, 7.2.2.
func unwrapped(text string) string {
	inner, unit, closed := strings.Cut(text, ")")
	if !closed || !strings.HasPrefix(inner, "(") {
		return text
	}
	return inner[1:] + " " + unit
}
