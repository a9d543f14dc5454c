package phrasebook

import (
	"regexp"
	"strings"
)

// Values are amounts as package quantity prints them, with or without a spread and a
// unit; codes are names of fields and marks of things, which are the same in every language.
var (
	value = regexp.MustCompile(`^` + one + `(?: ± ` + one + `)?(?: to ` + one + `)? ?(?:` + units + `)$|^` + one + ` ± ` + one + `$`)
	code  = regexp.MustCompile(`^(?:[a-z_0-9]+(?:\[[^\]]*\])?(?:\.[a-z_0-9]+(?:\[[^\]]*\])?)+|[a-z]+_[a-z_]+|[A-Z]{0,2}[0-9][A-Z0-9.()/-]*(?: ?\([a-z0-9]{1,3}\))*(?: [a-z])?|[A-Z]{1,3}-?[0-9]*(?: ?\([0-9]+\))?)$`)
	point = regexp.MustCompile(`([0-9])\.([0-9])`)
	// amount is the decimal of an amount within a sentence, where clauses and editions have points too.
	amount = regexp.MustCompile(`([0-9])\.([0-9]+(?: a [0-9]+(?:\.[0-9]+)?)? (?:in|ft|mm|m|lb|lbf|N|J|s|g|%|lb/ft²|lbf·ft|N·m)\b)`)
)

// one is a number, in decimals or with a fraction of an inch.
const one = `[-−+]?(?:[0-9]+(?:\.[0-9]+)?(?:e[-+]?[0-9]+)?|(?:[0-9]+-)?[0-9]+/[0-9]+)`

// units are the symbols that may follow a number.
const units = `in|ft|mm|cm|m|lb|kg|g|lbf|N|N·m|in·lbf|lbf·ft|ft·lbf|J|s|ms|min|h|deg|°|rad|deg/s|°/s|rad/s|ft/s|m/s|mph|km/h|Pa|in\. w\.g\.|` +
	`V|A|mA|Ah|W|VA|Hz|Ω|°C|°F|K|%|turns|turn|lb/ft²|kg/m²|kg·m²|lb·ft²|N·m·s/rad|N·m·s²/rad²|N·m/rad|in·lbf/deg|in·lbf/rad|in·lbf·s/rad|ft·lbf/rad|Ω/kft|Ω/km|mV|mΩ|mA·h|cSt|mm²/s|ft²|m²|kg/m³|lb/ft³|AWG|mm²|in²`

// value says an amount; it is false where a text is none.
func (b *Book) value(text string) (string, bool) {
	if !value.MatchString(text) {
		return "", false
	}
	out := strings.Replace(b.decimal(text), " to ", " a ", 1)
	for _, w := range unitWords {
		if cut, ok := strings.CutSuffix(out, w[0]); ok {
			return cut + w[1], true
		}
	}
	return out, true
}

// unitWords are units that are words, or written otherwise.
var unitWords = [][2]string{{"turns", "vueltas"}, {"turn", "vuelta"}, {" deg", "°"}, {" deg/s", "°/s"}}

// decimal writes a number with the decimal mark of the language.
func (b *Book) decimal(text string) string {
	if !b.comma {
		return text
	}
	return point.ReplaceAllString(text, "$1,$2")
}

// isCode tells whether a text is a name in no language: a field, a mark, a unit, or what
// somebody wrote, in quotation marks.
func isCode(text string) bool {
	return code.MatchString(text) || symbols.MatchString(text) || len(text) > 1 && text[0] == '"' && strings.IndexByte(text[1:], '"') == len(text)-2
}

// symbols are units by themselves; more may be written than are shown.
var symbols = regexp.MustCompile(`^(?:` + units + `|oz|ozf|kN|kgf|psf|psi|hPa|kPa|yd|°R|us|ns|m/s2|lbf·s|rpm)$`)

const noBreak = "\u00a0"

// hold keeps amounts on one line, in a text whose English held some together.
func hold(text string) string {
	text = spread.ReplaceAllString(text, "$1"+noBreak+"±"+noBreak+"$2")
	return symbol.ReplaceAllString(text, "$1"+noBreak+"$2")
}

var (
	spread = regexp.MustCompile(`([0-9]) ± ([0-9])`)
	symbol = regexp.MustCompile(`([0-9]) ((?:` + units + `)(?:[^\p{L}]|$))`)
)
