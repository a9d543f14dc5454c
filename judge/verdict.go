package judge

import (
	"fmt"
	"strings"
)

// A Verdict is what can be said of a value and a limit. The list is closed. The
// zero Verdict is NotMeasured, so that a finding nobody filled in passes nothing.
type Verdict uint8

// The verdicts.
const (
	// NotMeasured: there is no value to judge.
	NotMeasured Verdict = iota
	// Meets: the value is on the good side of the limit by the guard band or more.
	Meets
	// FallsShort: the value is on the bad side of the limit by more than the guard band.
	FallsShort
	// TooClose: the value is within the guard band of the limit; measure better.
	TooClose
	// DoesNotApply: the rule does not concern this opening.
	DoesNotApply
	verdicts // how many there are
)

var verdictWords = [verdicts]string{
	NotMeasured:  "not measured",
	Meets:        "meets",
	FallsShort:   "falls short",
	TooClose:     "too close to call",
	DoesNotApply: "does not apply",
}

// String gives the verdict in words, such as "falls short".
func (v Verdict) String() string {
	if v >= verdicts {
		return fmt.Sprintf("verdict %d", uint8(v))
	}
	return verdictWords[v]
}

// MarshalText writes the words that String gives; an error for a number that
// is no verdict.
func (v Verdict) MarshalText() ([]byte, error) {
	if v >= verdicts {
		return nil, fmt.Errorf("verdict %d does not exist: the last is %d, %q", uint8(v), verdicts-1, verdicts-1)
	}
	return []byte(verdictWords[v]), nil
}

// UnmarshalText reads the words that String gives; the error lists them.
func (v *Verdict) UnmarshalText(text []byte) error {
	for known, words := range verdictWords {
		if words == string(text) {
			*v = Verdict(known)
			return nil
		}
	}
	return fmt.Errorf("%q is not a verdict: write one of %q", text, strings.Join(verdictWords[:], `", "`))
}
