package quantity

import (
	"math"
	"strconv"
)

// fractionSlack is how far a number may lie from a fraction and still be
// printed as one: 0.002 in, which a tape does not show, and a little for the
// rounding of floating-point numbers.
const fractionSlack = 0.002 + 1e-9

// denominator tells into how many parts the trade divides the unit: sixteenths
// of an inch on a tape, eighths of a turn of a valve; zero for other units.
func (u *unit) denominator() float64 {
	switch {
	case u.dim == DimLength && u.symbol == "in":
		return 16
	case u.dim == DimTurns:
		return 8
	}
	return 0
}

// part is the smallest fraction of the unit that is printed; zero when none is.
func (u *unit) part() float64 {
	if d := u.denominator(); d > 0 {
		return 1 / d
	}
	return 0
}

// asFraction prints a number as a mixed number, 35-3/4, when it lies within
// slack of one; false when it does not, or the unit has no fractions.
func (u *unit) asFraction(number, slack float64) (string, bool) {
	den := u.denominator()
	parts := math.Round(math.Abs(number) * den)
	if den == 0 || parts > 1e9 || !(math.Abs(math.Abs(number)-parts/den) <= slack) {
		return "", false
	}
	sign := ""
	if number < 0 && parts > 0 {
		sign = "-"
	}
	return sign + mixed(int64(parts), int64(den)), true
}

// mixed writes count/den in lowest terms.
func mixed(count, den int64) string {
	whole, rest := count/den, count%den
	for rest != 0 && rest%2 == 0 && den%2 == 0 {
		rest, den = rest/2, den/2
	}
	over := strconv.FormatInt(rest, 10) + "/" + strconv.FormatInt(den, 10)
	switch {
	case rest == 0:
		return strconv.FormatInt(whole, 10)
	case whole == 0:
		return over
	}
	return strconv.FormatInt(whole, 10) + "-" + over
}
