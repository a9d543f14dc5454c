package quantity

import (
	"math"
	"strconv"
	"strings"
)

// unknown is what a value that is not known is printed as.
const unknown = "unknown"

// Format prints m in the reader's units, so that Parse reads it back to within
// the printed digits. A spread is printed behind ± as the expanded uncertainty
// 2·U with two significant digits, and the value to the same place (JCGM
// 100:2008, 7.2.6). Without a spread the value gets the digits that its unit
// deserves. Inches within 0.002 in of a sixteenth, and turns within 0.002 of an
// eighth, are printed as fractions while the spread is no wider than that
// part. An unknown value gives "unknown".
func Format[Q Quantity](m Measured[Q], s System) string {
	return Display(m.Value.Dimension(), float64(m.Value), float64(m.U), m.Known, s)
}

// Display prints as Format does, for a caller that knows the dimension only
// when running: value and standard uncertainty u are in SI.
func Display(d Dimension, value, u float64, known bool, s System) string {
	if !known || d >= dimensions || s >= systems {
		return unknown
	}
	unit := shown[d][s]
	number := unit.fromSI(value)
	half := coverage * unit.spreadFromSI(u)
	if !(half > 0) || math.IsInf(half, 0) || math.IsInf(number, 0) || math.IsNaN(number) {
		return withUnit(unit.alone(number), unit.symbol)
	}
	best, spread := unit.pair(number, half)
	return withUnit(best+" ± "+spread, unit.symbol)
}

// FormatValue prints v with the given number of decimals in the reader's unit,
// for columns that must line up; a negative number of decimals leaves the
// choice to the unit, as Format does without a spread.
func FormatValue[Q Quantity](v Q, s System, decimals int) string {
	if s >= systems {
		return unknown
	}
	unit := shown[v.Dimension()][s]
	number := unit.fromSI(float64(v))
	if decimals < 0 {
		return withUnit(unit.alone(number), unit.symbol)
	}
	return withUnit(fixed(number, decimals), unit.symbol)
}

// ByTape prints a length as one reads it off a tape: to the nearest 1/16 in or mm.
func ByTape(l Length, s System) string {
	step := Millimetre
	if s == US {
		step = Inch / 16
	}
	return FormatValue(Length(math.Round(float64(l/step)))*step, s, -1)
}

// ByRule prints a length as one reads it off a steel rule or a drill: to the
// nearest 1/64 in or 0.1 mm.
func ByRule(l Length, s System) string {
	if s != US {
		const step = Millimetre / 10
		return FormatValue(Length(math.Round(float64(l/step)))*step, s, -1)
	}
	const parts = 64
	text := mixed(int64(math.Round(math.Abs(float64(l/Inch))*parts)), parts)
	if l < 0 && text != "0" {
		text = "-" + text
	}
	return withUnit(text, Unit(DimLength, US))
}

// alone prints a number of the unit whose spread is not known.
func (u *unit) alone(number float64) string {
	// Judged by its printed decimals, so that reading them back and printing
	// again gives the same text.
	grid := math.Pow10(u.places)
	if text, ok := u.asFraction(math.Round(number*grid)/grid, fractionSlack); ok {
		return text
	}
	places := max(u.places, significant-1-exponentOf(number, significant))
	return trimZeros(fixed(number, places))
}

// pair prints a number of the unit and its expanded uncertainty.
func (u *unit) pair(number, half float64) (best, spread string) {
	places := spreadDigits - 1 - exponentOf(half, spreadDigits)
	spread = fixed(half, places)
	// Rounding a spread to two digits moves it, and the value beside it, by a
	// twentieth of it at most; a fraction may do no worse.
	slack := min(fractionSlack, half/20)
	if text, ok := u.asFraction(number, slack); ok && half <= u.part()*(1+1e-9) {
		if whole, ok := u.asFraction(half, slack); ok {
			spread = whole
		}
		return text, spread
	}
	return fixed(number, places), spread
}

const (
	// significant is the least number of digits that a value without spread gets.
	significant = 3
	// spreadDigits is the number of digits of an expanded uncertainty: JCGM 100:2008, 7.2.6.
	spreadDigits = 2
	// mostPlaces bounds decimals on either side of the mark; beyond it a number
	// is written with a power of ten.
	mostPlaces = 15
)

// exponentOf gives the power of ten of x's first digit after rounding to the
// given number of digits; zero for zero and for what is no number.
func exponentOf(x float64, digits int) int {
	_, power, _ := strings.Cut(strconv.FormatFloat(x, 'e', digits-1, 64), "e")
	n, _ := strconv.Atoi(power) // empty for NaN and infinities
	return n
}

// fixed prints x to the given decimal place, which may lie before the mark
// (−2: to hundreds), and never as −0.
func fixed(x float64, places int) string {
	large := math.Abs(x) >= 1e15 || places < -mostPlaces
	if large || places > mostPlaces {
		digits := exponentOf(x, 1) + places
		return unsignedZero(strconv.FormatFloat(x, 'e', min(max(digits, 0), 17), 64))
	}
	if places < 0 {
		step := math.Pow10(-places)
		x, places = math.RoundToEven(x/step)*step, 0
	}
	return unsignedZero(strconv.FormatFloat(x, 'f', places, 64))
}

func unsignedZero(text string) string {
	if strings.HasPrefix(text, "-") && !strings.ContainsAny(text, "123456789I") {
		return text[1:]
	}
	return text
}

func trimZeros(text string) string {
	if !strings.Contains(text, ".") || strings.Contains(text, "e") {
		return text
	}
	return strings.TrimRight(strings.TrimRight(text, "0"), ".")
}

// withUnit joins a number and a unit's symbol.
func withUnit(number, symbol string) string {
	switch {
	case symbol == "":
		return number
	case symbol == "turn" && number != "1" && !strings.HasPrefix(number, "1/"):
		symbol = "turns"
	}
	return number + " " + symbol
}
