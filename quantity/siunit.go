package quantity

// SIUnit gives the symbol of a dimension's coherent SI unit, in which values are
// held: m for a length, though lengths are printed in mm. Empty for a ratio, and
// for a dimension that does not exist.
func SIUnit(d Dimension) string {
	for i := range table {
		if u := &table[i]; u.dim == d && u.factor() == 1 && u.offset == 0 {
			return u.symbol
		}
	}
	return ""
}
