package quantity

import (
	"math"
	"strconv"
	"strings"
)

// A number is num/den. Both are whole and exact for up to 15 digits, so that
// one division by the reader rounds once.
type number struct{ num, den float64 }

func (n number) value() float64 { return n.num / n.den }
func (n number) isWhole() bool  { return n.value() == math.Trunc(n.value()) }

const (
	// exactDigits is how many decimal digits a float64 always holds exactly.
	exactDigits = 15
	// exactPower is the largest power of ten that a float64 holds exactly.
	exactPower = 22
	// largestExponent bounds powers of ten, and with them numbers: nothing on
	// a door needs more, and products of such values stay finite.
	largestExponent = 30
)

// number reads 36, 35.75, 35,75, .5, 1e-6, 3/4, 35-3/4 or 35 3/4, without
// sign. It reports false when no number stands at the position.
func (s *scanner) number() (number, bool, *ParseError) {
	s.skip(" ")
	whole := s.digits()
	if whole != "" {
		if n, ok, bad := s.fraction(whole); ok || bad != nil {
			return n, ok, bad
		}
	}
	decimals, bad := s.decimals(whole)
	if bad != nil {
		return number{}, false, bad
	}
	if whole == "" && decimals == "" {
		return number{}, false, nil
	}
	power, bad := s.exponent()
	return decimalNumber(whole, decimals, power), bad == nil, bad
}

// fraction reads what makes the digits before the position a fraction (3/4)
// or a mixed number (35-3/4, 35 3/4), and moves only when it finds that.
func (s *scanner) fraction(whole string) (number, bool, *ParseError) {
	start := s.pos
	first := count(whole)
	if over, ok := s.over(); ok {
		if over == 0 {
			return number{}, false, fault("its fraction divides by zero", "write a fraction such as 3/4")
		}
		return number{first, over}, true, nil
	}
	s.hyphen()
	num := s.digits()
	over, ok := s.over()
	if num == "" || !ok {
		s.pos = start
		return number{}, false, nil
	}
	part := count(num)
	if part >= over {
		return number{}, false, fault("the fraction of its mixed number is not below one", "write a mixed number such as 35-3/4")
	}
	return number{first*over + part, over}, true, nil
}

// over reads the slash and the denominator of a fraction.
func (s *scanner) over() (float64, bool) {
	start := s.pos
	s.skip(" ")
	if s.accept('/') {
		s.skip(" ")
		if under := s.digits(); under != "" {
			return count(under), true
		}
	}
	s.pos = start
	return 0, false
}

// decimals reads the decimal mark, a point or a comma, and the digits behind
// it. A comma that could part thousands is refused, since the two readings
// differ by a factor of 1000.
func (s *scanner) decimals(whole string) (string, *ParseError) {
	mark := s.peek()
	if mark != '.' && mark != ',' {
		return "", nil
	}
	if whole == "" && !isDigit(runeAt(s.text, s.pos+1)) {
		return "", nil
	}
	s.pos++
	digits := s.digits()
	next := s.peek()
	if (next == '.' || next == ',') && isDigit(runeAt(s.text, s.pos+1)) {
		return "", fault("it has more than one decimal mark", "leave thousands together, as in 1250.5")
	}
	grouped := mark == ',' && len(digits) == 3 && len(whole) <= 3 && whole != "" && whole[0] != '0'
	if grouped {
		return "", fault(whole+","+digits+" can be read in two ways",
			"write "+whole+digits+" or "+whole+"."+digits)
	}
	return digits, nil
}

// exponent reads a power of ten, as in 1e-6; zero when there is none.
func (s *scanner) exponent() (int, *ParseError) {
	start := s.pos
	if !s.accept('e') && !s.accept('E') {
		return 0, nil
	}
	sign := 1
	if s.accept('-') {
		sign = -1
	} else {
		s.accept('+')
	}
	digits := s.digits()
	if digits == "" {
		s.pos = start // a unit, then, that begins with e
		return 0, nil
	}
	power, err := strconv.Atoi(digits)
	if err != nil || power > largestExponent {
		return 0, fault("its power of ten is beyond sense", "keep it between e-30 and e30")
	}
	return sign * power, nil
}

// decimalNumber is the number with the given digits before and behind the
// decimal mark, times a power of ten.
func decimalNumber(whole, decimals string, power int) number {
	figures := strings.TrimLeft(whole+decimals, "0")
	shift := power - len(decimals)
	if len(figures) > exactDigits || shift > exactPower || shift < -exactPower {
		// The text is too short to overflow a float64.
		value, _ := strconv.ParseFloat("0"+whole+"."+decimals+"0e"+strconv.Itoa(power), 64)
		return number{value, 1}
	}
	num, _ := strconv.ParseInt("0"+figures, 10, 64) // digits only, and few
	if shift < 0 {
		return number{float64(num), math.Pow10(-shift)}
	}
	return number{float64(num) * math.Pow10(shift), 1}
}

// count is a whole number given as digits.
func count(digits string) float64 { return decimalNumber(digits, "", 0).num }
