package schedule

import (
	"strconv"
	"strings"
)

// A cell that begins with one of these is a formula to a spread-sheet that opens a
// CSV file (OWASP, CSV Injection).
const formulaStarts = "=+-@\t\r\n＝＋－＠"

// guarded writes a text so that no spread-sheet takes it for a formula: with an
// apostrophe before it. Plain numbers stay.
func guarded(text string) string {
	if _, err := strconv.ParseFloat(text, 64); err == nil {
		return text
	}
	if dangerous(text) {
		return "'" + text
	}
	return text
}

// unguarded takes away the apostrophe that guarded put there.
func unguarded(text string) string {
	if strings.HasPrefix(text, "'") && dangerous(text[1:]) {
		return text[1:]
	}
	return text
}

// dangerous tells a text that is, or would be once apostrophes are gone, a formula.
func dangerous(text string) bool {
	for _, c := range strings.TrimLeft(text, "'") {
		return strings.ContainsRune(formulaStarts, c)
	}
	return false
}
