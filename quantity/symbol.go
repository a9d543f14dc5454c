package quantity

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
)

// index finds the units that a spelling can stand for, in the order of the
// table; shown holds the unit that each system prints for each dimension.
var (
	index = indexTable()
	shown = firstOfEachSystem()
)

// indexTable files every unit under all its spellings, symbols before the
// rest, and under each with its separators left out: N·m is also Nm. Only
// products are closed up so, hence "m m" is never taken for mm.
func indexTable() map[string][]*unit {
	filed := make(map[string][]*unit)
	file := func(spelling string, u *unit) {
		key := spellingKey(spelling)
		for _, key := range []string{key, closedUp(key)} {
			if !slices.ContainsFunc(filed[key], func(o *unit) bool { return o.dim == u.dim }) {
				filed[key] = append(filed[key], u)
			}
		}
	}
	for i := range table {
		file(table[i].symbol, &table[i])
	}
	for i := range table {
		for _, spelling := range table[i].also {
			file(spelling, &table[i])
		}
	}
	return filed
}

func firstOfEachSystem() (first [dimensions][systems]*unit) {
	for i := range table {
		u := &table[i]
		for s := range systems {
			if u.used&(1<<s) != 0 && first[u.dim][s] == nil {
				first[u.dim][s] = u
			}
		}
	}
	return first
}

// spellingKey brings a unit as written to the form that the index is filed
// by: lower case, one dot for any run of separators, none beside a slash, and
// raised powers.
func spellingKey(written string) string {
	var key strings.Builder
	var last rune
	gap := false
	for _, r := range strings.ToLower(written) {
		switch {
		case isSeparator(r):
			gap = true
			continue
		case (r == '2' || r == '3') && unicode.IsLetter(last):
			r += '²' - '2' // ³ follows ² as 3 follows 2
		}
		if gap && last != 0 && last != '/' && last != '°' && r != '/' {
			key.WriteRune('·')
		}
		key.WriteRune(r)
		last, gap = r, false
	}
	return strings.ReplaceAll(key.String(), "·per·", "/")
}

// isSeparator tells whether r can stand between the factors of a unit. The
// full stop is among them: in. lbf, w.g.
func isSeparator(r rune) bool {
	return r == ' ' || r == '·' || r == '-' || r == '.'
}

func closedUp(key string) string { return strings.ReplaceAll(key, "·", "") }

// candidates lists the units that a spelling in plain marks can stand for, at
// most one of each dimension, the usual one first.
func candidates(written string) []*unit {
	key := spellingKey(written)
	if found := index[key]; found != nil {
		return found
	}
	var products []*unit
	for _, u := range index[closedUp(key)] {
		if strings.Contains(u.symbol, "·") || strings.Contains(u.symbol, ".") {
			products = append(products, u)
		}
	}
	return products
}

// unitOf finds the unit of a dimension by its spelling, nil when there is none.
func unitOf(d Dimension, written string) *unit {
	for _, u := range candidates(written) {
		if u.dim == d {
			return u
		}
	}
	return nil
}

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
