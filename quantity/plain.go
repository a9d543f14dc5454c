package quantity

import "strings"

// plain rewrites the many marks that people, word processors and drawing
// programs put into a quantity to the few that are read further on: the space,
// ' " - / · ° ² ³ ± and digits.
var plain = strings.NewReplacer(
	// Spaces of all widths, and the two marks of no width.
	"\t", " ", "\n", " ", "\r", " ", "\u00a0", " ", "\u2000", " ", "\u2001", " ",
	"\u2002", " ", "\u2003", " ", "\u2004", " ", "\u2005", " ", "\u2006", " ",
	"\u2007", " ", "\u2008", " ", "\u2009", " ", "\u200a", " ", "\u200b", " ",
	"\u202f", " ", "\u205f", " ", "\u3000", " ", "\ufeff", " ",
	// Plus or minus, before its parts are looked at.
	"+/-", "±", "+/−", "±", "+-", "±", "+−", "±",
	// Hyphens, dashes and the minus sign.
	"\u2010", "-", "\u2011", "-", "\u2012", "-", "\u2013", "-", "\u2014", "-", "\u2212", "-",
	// Inch marks before foot marks: two apostrophes are an inch mark.
	"''", `"`, "’’", `"`, "′′", `"`, "″", `"`, "“", `"`, "”", `"`,
	"′", "'", "‘", "'", "’", "'", "´", "'",
	// Product dots.
	"⋅", "·", "•", "·", "∙", "·", "×", "·", "*", "·",
	// Degrees; the ordinal sign and the ring are often typed for it.
	"º", "°", "˚", "°", "℃", "°C", "℉", "°F",
	// Powers and the water gauge.
	"^2", "²", "^3", "³", "H2O", "wg", "h2o", "wg", "H₂O", "wg",
	// Fractions in one character; the space parts them from a whole number.
	"⁄", "/", "∕", "/",
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8",
	"⅞", " 7/8", "⅓", " 1/3", "⅔", " 2/3", "⅕", " 1/5", "⅖", " 2/5", "⅗", " 3/5",
	"⅘", " 4/5", "⅙", " 1/6", "⅚", " 5/6", "⅒", " 1/10",
)
