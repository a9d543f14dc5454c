package quantity

// shareUnits lets each side of the ± borrow the unit that only the other has,
// and checks that the value ends up with one.
func shareUnits(d Dimension, best, half *amount, stated bool) *ParseError {
	switch {
	case best.percent:
		return notOfDimension(d, "%")
	case stated && half.sign < 0:
		return fault("its spread is negative", "write ± and a number without sign")
	case half.percent && d == DimTemperature:
		return fault("its spread is a share of the value, which depends on the scale's zero",
			"write the spread in °F, °C or K")
	}
	if d == DimRatio {
		return shareBareNumber(best, half)
	}
	if best.unit == nil {
		best.unit = half.unit
	}
	if best.unit == nil {
		return noUnit(d, "it")
	}
	if half.unit == nil {
		half.unit = best.unit
	}
	return nil
}

// shareBareNumber settles the units of a ratio, where none is a unit too. A
// bare value with a spread in % is refused: 35 ± 5 % can mean 35 % or 35.
func shareBareNumber(best, half *amount) *ParseError {
	if best.unit == nil && half.unit != nil {
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
