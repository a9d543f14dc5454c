package trace

import (
	"strings"

	"swingwright/quantity"
)

// unit is a unit that columns are written in: SI = number·factor.
type unit struct {
	of     dimension
	factor float64
	symbol string
}

// dimension is what a unit measures; acceleration is wanted for its direction
// only, and is held in m/s².
type dimension uint8

const (
	noDimension dimension = iota
	ofTime
	ofRate
	ofAcceleration
	ofAngle
)

const degree = float64(quantity.Degree)

var (
	seconds    = unit{ofTime, 1, "s"}
	millis     = unit{ofTime, 1e-3, "ms"}
	micros     = unit{ofTime, 1e-6, "µs"}
	nanos      = unit{ofTime, 1e-9, "ns"}
	degreesPer = unit{ofRate, degree, "deg/s"}
	radiansPer = unit{ofRate, 1, "rad/s"}
	metresPer  = unit{ofAcceleration, 1, "m/s²"}
	gravities  = unit{ofAcceleration, quantity.StandardGravity, "g"}
	degrees    = unit{ofAngle, degree, "deg"}
	radians    = unit{ofAngle, 1, "rad"}
)

var units = map[string]unit{
	"s": seconds, "sec": seconds, "secs": seconds, "second": seconds, "seconds": seconds,
	"ms": millis, "msec": millis, "millis": millis, "millisecond": millis, "milliseconds": millis,
	"us": micros, "usec": micros, "micros": micros, "microsecond": micros, "microseconds": micros,
	"ns": nanos, "nsec": nanos, "nanos": nanos, "nanosecond": nanos, "nanoseconds": nanos,
	"deg/s": degreesPer, "deg/sec": degreesPer, "degree/s": degreesPer, "degrees/s": degreesPer, "degrees/second": degreesPer, "degree/second": degreesPer, "deg/second": degreesPer, "dps": degreesPer, "degs-1": degreesPer,
	"rad/s": radiansPer, "rad/sec": radiansPer, "radian/s": radiansPer, "radians/s": radiansPer, "radians/second": radiansPer, "radian/second": radiansPer, "rads-1": radiansPer,
	"m/s2": metresPer, "m/s/s": metresPer, "m/sec2": metresPer, "ms-2": metresPer, "mps2": metresPer,
	"g": gravities, "gs": gravities, "gee": gravities,
	"deg": degrees, "degs": degrees, "degree": degrees, "degrees": degrees,
	"rad": radians, "rads": radians, "radian": radians, "radians": radians,
}

var unitSpelling = strings.NewReplacer(" ", "", "°", "deg", "º", "deg", "µ", "u", "μ", "u", "²", "2", "^", "", "**", "", "·", "", "*", "", "per", "/", "⁻", "-", "¹", "1", "_", "/")

// unitOf finds a unit by any of its spellings.
func unitOf(text string) (unit, bool) {
	u, ok := units[unitSpelling.Replace(strings.ToLower(strings.TrimSpace(text)))]
	return u, ok
}
