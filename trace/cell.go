package trace

import (
	"bytes"
	"math"
	"strconv"
	"time"
)

// content is what a cell holds.
type content uint8

const (
	number  content = iota
	missing         // nothing, or a word for nothing
	strange         // anything else
)

// powers of ten, which a float64 holds exactly.
var powers = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

// numberIn reads a cell as a number with a point, or else a comma, before its
// decimals. Digits that a float64 holds exactly are read here, since a
// recording has many; others by strconv.
func numberIn(cell []byte, comma bool) (float64, content) {
	mark := byte('.')
	if comma {
		mark = ','
	}
	i, negative := 0, false
	if len(cell) > 0 && (cell[0] == '-' || cell[0] == '+') {
		i, negative = 1, cell[0] == '-'
	}
	whole, digits, behind := uint64(0), 0, -1
	for ; i < len(cell); i++ {
		if d := cell[i] - '0'; d <= 9 {
			whole = whole*10 + uint64(d)
			digits++
		} else if cell[i] == mark && behind < 0 {
			behind = digits
		} else {
			return longNumber(cell, comma)
		}
	}
	if digits == 0 || digits > 15 {
		return longNumber(cell, comma)
	}
	x := float64(whole)
	if behind >= 0 {
		x /= powers[digits-behind]
	}
	if negative {
		x = -x
	}
	return x, number
}

// longNumber reads what numberIn does not: exponents, many digits, no number.
func longNumber(cell []byte, comma bool) (float64, content) {
	if void(cell) {
		return math.NaN(), missing
	}
	if len(cell) > 40 {
		return math.NaN(), strange
	}
	for _, b := range cell {
		if !(b >= '0' && b <= '9' || b == '.' && !comma || b == ',' && comma || b == '-' || b == '+' || b == 'e' || b == 'E') {
			return math.NaN(), strange
		}
	}
	text := cell
	if comma {
		text = bytes.Replace(cell, []byte(","), []byte("."), 1)
	}
	x, err := strconv.ParseFloat(string(text), 64)
	if err != nil {
		return math.NaN(), strange
	}
	return x, number
}

// void tells a cell that says there is no value.
func void(cell []byte) bool {
	if len(cell) > 9 {
		return false
	}
	switch string(bytes.ToLower(cell)) {
	case "", "-", "--", "nan", "-nan", "null", "none", "n/a", "na", "nil", "inf", "-inf", "+inf", "infinity", "undefined":
		return true
	}
	return false
}

// The ways in which a time of day or a date with it is written.
var (
	dateForms = []string{time.RFC3339, "2006-01-02T15:04:05", "2006-01-02 15:04:05", "2006-01-02 15:04:05Z07:00", "2006/01/02 15:04:05"}
	dayForms  = []string{"15:04:05"}
)

// clockIn reads a time of day, or date and time, as seconds. Of a date the
// seconds since 1970 are given, of a time of day those since midnight.
func clockIn(cell []byte) (seconds float64, ok bool) {
	if len(cell) < 7 || len(cell) > 40 || bytes.IndexByte(cell, ':') < 0 {
		return 0, false
	}
	text := string(bytes.Replace(cell, []byte(","), []byte("."), 1))
	ofDay := cell[1] == ':' || cell[2] == ':' // where a date has its year
	forms := dateForms
	if ofDay {
		forms = dayForms
	}
	for _, form := range forms {
		if at, err := time.Parse(form, text); err == nil {
			if ofDay {
				at = at.AddDate(1970, 0, 0) // of year 0
				return at.Sub(time.Unix(0, 0).UTC()).Seconds(), true
			}
			return float64(at.Unix()) + float64(at.Nanosecond())/1e9, true
		}
	}
	return 0, false
}
