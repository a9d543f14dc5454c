package trace

import (
	"slices"
	"strings"
	"unicode"
)

// A Column is one column of the file and what it was taken for.
type Column struct {
	Name string // from the header; empty without one
	Role Role
	Unit string // as understood; empty where it is not known
	Why  string // why it is unused, or how role or unit were inferred; may be empty

	unit  unit
	greek bool // its axis is called alpha, beta or gamma
	clock bool // of time: written as time of day
}

// Words that headers are made of.
var (
	timeWords   = []string{"time", "timestamp", "t", "ts", "stamp", "elapsed", "clock", "datetime"}
	rateWords   = []string{"gyro", "gyroscope", "gyr", "rotation", "rotationrate", "rot", "rate", "angular", "omega", "w", "velocity", "spin"}
	accelWords  = []string{"acceleration", "accelerometer", "accelerationincludinggravity", "accel", "acc", "a", "gravity", "grav"}
	angleWords  = []string{"angle", "theta", "heading", "yaw"}
	linearWords = []string{"linear", "user", "nogravity"}
	greekWords  = []string{"alpha", "beta", "gamma"}
	axisWords   = []string{"x", "y", "z"}
)

// understand finds what a column holds from its name.
func understand(name string) Column {
	c := Column{Name: name}
	bare, in := unbracket(name)
	tokens := tokensOf(bare)
	c.unit, _ = unitOf(in)
	if c.unit.of == noDimension {
		c.unit, tokens = trailingUnit(tokens)
	}
	axis, rest := axisOf(tokens)
	c.greek = axis >= 0 && has(tokens, greekWords)
	c.take(axis, rest)
	if c.Role != Unused && c.unit.of != noDimension && c.unit.of != c.Role.dimension() {
		c.Why, c.Role = "its unit is not one of a "+c.Role.String(), Unused
	}
	if c.Role == Unused {
		return c
	}
	if c.unit.of == noDimension && c.greek && has(tokens, []string{"rotation", "rotationrate"}) {
		c.unit, c.Why = degreesPer, "deg/s, as the W3C Device Orientation and Motion text has it for a rotation rate by alpha, beta and gamma"
	}
	c.Unit = c.unit.symbol
	return c
}

// take gives the column its role from the axis in its name, -1 for none, and
// the other words.
func (c *Column) take(axis int, rest []string) {
	of := c.unit.of
	switch {
	case has(rest, []string{"temp", "temperature"}):
		c.Why = "temperature is not used"
	case has(rest, linearWords) && (of == ofAcceleration || has(rest, accelWords)):
		c.Why = "acceleration without gravity does not tell the vertical"
	case axis >= 0 && of == ofAcceleration, axis >= 0 && of == noDimension && has(rest, accelWords) && !has(rest, rateWords):
		c.Role = AccelerationX + Role(axis)
	case axis >= 0 && (of == ofRate || of == noDimension && (has(rest, rateWords) || has(rest, []string{"g"}))):
		c.Role = RateX + Role(axis)
	case axis < 0 && of == ofRate, axis < 0 && of == noDimension && has(rest, rateWords):
		c.Role = Rate
	case axis < 0 && has(rest, angleWords):
		c.Role = Angle
	case axis < 0 && of <= ofTime && (has(rest, timeWords) || len(rest) == 0 && of == ofTime):
		c.Role = Time
	default:
		c.Why = "not understood"
	}
}

func has(tokens, words []string) bool {
	return slices.ContainsFunc(tokens, func(t string) bool { return slices.Contains(words, t) })
}

// unbracket parts a name from what stands in its last brackets.
func unbracket(name string) (bare, in string) {
	end := strings.LastIndexAny(name, ")]}")
	start := strings.LastIndexAny(name, "([{")
	if start < 0 || end < start {
		return name, ""
	}
	in = name[start+1 : end]
	if _, ok := unitOf(in); !ok {
		return name, ""
	}
	return name[:start] + " " + name[end+1:], in
}

// tokensOf are the words of a name in lower case, cut at anything but letters and
// digits, and before capitals inside a word.
func tokensOf(name string) (tokens []string) {
	var word []rune
	end := func() {
		if len(word) > 0 {
			tokens = append(tokens, strings.ToLower(string(word)))
			word = word[:0]
		}
	}
	for _, r := range name {
		switch {
		case r == '°' || r == 'µ' || r == 'μ' || r == '²':
		case !unicode.IsLetter(r) && !unicode.IsDigit(r):
			end()
			continue
		case unicode.IsUpper(r) && len(word) > 0 && unicode.IsLower(word[len(word)-1]):
			end()
		}
		word = append(word, r)
	}
	end()
	return tokens
}

// trailingUnit finds a unit in the last words, as in t_ms and gyro_x_deg_s; a
// name of nothing else keeps its words where they could be more than a unit.
func trailingUnit(tokens []string) (unit, []string) {
	for n := min(3, len(tokens)); n > 0; n-- {
		first := len(tokens) - n
		u, ok := unitOf(strings.Join(tokens[first:], "/"))
		if ok && (first > 0 || u.of == ofTime) {
			return u, tokens[:first]
		}
	}
	if len(tokens) > 1 { // seconds_elapsed
		if u, ok := unitOf(tokens[0]); ok && u.of == ofTime {
			return u, tokens[1:]
		}
	}
	return unit{}, tokens
}

// axisOf finds the axis in a name's words, -1 for none, also as the last letter
// of a word such as gz or accx, and gives the words without it.
func axisOf(tokens []string) (axis int, rest []string) {
	axis = -1
	for _, t := range tokens {
		if i := max(slices.Index(axisWords, t), slices.Index(greekWords, t)); i >= 0 && axis < 0 {
			axis = i
			continue
		}
		stem, last := t[:max(0, len(t)-1)], t[max(0, len(t)-1):]
		if i := slices.Index(axisWords, last); i >= 0 && axis < 0 && (stem == "g" || slices.Contains(rateWords, stem) || slices.Contains(accelWords, stem)) {
			axis, t = i, stem
		}
		rest = append(rest, t)
	}
	return axis, rest
}
