package quantity

import (
	"fmt"
	"strings"
)

// Unit gives the symbol that values of the dimension are printed with; empty
// for a ratio.
func Unit(d Dimension, s System) string {
	if d >= dimensions || s >= systems {
		return ""
	}
	return shown[d][s].symbol
}

// UnitsOf lists the symbols of the dimension's units, those that are printed
// first. Each has further spellings that are read as well. The bare number, a
// unit of ratios only, is not in the list.
func UnitsOf(d Dimension) []string {
	var symbols []string
	for i := range table {
		if table[i].dim == d && table[i].symbol != "" {
			symbols = append(symbols, table[i].symbol)
		}
	}
	return symbols
}

// UnitFactor tells what a unit's symbol, in any of its spellings, stands for:
// SI = number·factor + offset. The offset is zero for all but temperatures.
// Torque and energy share symbols: here ft·lbf is an energy and lbf·ft a torque
// as NIST SP 811 (2008), B.8 has them, in·lbf and N·m are torques. InUnit and
// FromUnit know the dimension and read each for both. False when the symbol is
// not known.
func UnitFactor(symbol string) (d Dimension, factor, offset float64, ok bool) {
	found := candidates(plain.Replace(symbol))
	if len(found) == 0 {
		return 0, 0, 0, false
	}
	u := found[0]
	return u.dim, u.factor(), u.offset, true
}

// InUnit converts a value of dimension d from SI into the unit. The error
// names the units that the dimension has.
func InUnit(d Dimension, si float64, symbol string) (number float64, err error) {
	u := unitOf(d, plain.Replace(symbol))
	if u == nil {
		return 0, wrongUnit(d, symbol)
	}
	return u.fromSI(si), nil
}

// FromUnit converts a number of units into the SI value of dimension d. The
// error names the units that the dimension has.
func FromUnit(d Dimension, number float64, symbol string) (si float64, err error) {
	u := unitOf(d, plain.Replace(symbol))
	if u == nil {
		return 0, wrongUnit(d, symbol)
	}
	return u.toSI(number, 1), nil
}

func wrongUnit(d Dimension, symbol string) error {
	if found := candidates(plain.Replace(symbol)); len(found) > 0 {
		return fmt.Errorf("%q is a unit of %s, not of %s: use %s", symbol, found[0].dim, d, unitChoice(d))
	}
	return fmt.Errorf("%q is not a unit known here: for %s use %s", symbol, d.noun(), unitChoice(d))
}

// unitChoice lists the dimension's units for a sentence: "in, ft or mm".
func unitChoice(d Dimension) string {
	symbols := UnitsOf(d)
	if d == DimRatio {
		symbols = append([]string{"a bare number"}, symbols...)
	}
	return orList(symbols)
}

func orList(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}
