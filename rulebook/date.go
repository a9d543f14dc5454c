package rulebook

import (
	"fmt"
	"strings"
	"time"
)

// A Date is a day as 2026-11-25, or a whole month or year where no more is
// known: 2002-08, 1997. The empty Date is unknown.
type Date string

// ParseDate reads a date; the error shows how to write one.
func ParseDate(text string) (Date, error) {
	for _, layout := range []string{"2006-01-02", "2006-01", "2006"} {
		if _, err := time.Parse(layout, text); err == nil {
			return Date(text), nil
		}
	}
	return "", fmt.Errorf("%q is not a date; write it as 2026-11-25, or 2026-11 or 2026 where no more is known", text)
}

// Before tells whether d ended before e began. An unknown date is before nothing and has nothing before it.
func (d Date) Before(e Date) bool {
	return d != "" && e != "" && d.endsBefore(e)
}

// endsBefore compares the ISO forms; a whole month or year ends with its last day.
func (d Date) endsBefore(e Date) bool {
	return d != "" && e != "" && d < e && !strings.HasPrefix(string(e), string(d)+"-")
}
