package quantity

import (
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
