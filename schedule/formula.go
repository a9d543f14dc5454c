package schedule

import (
	"regexp"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"
)

// Formulas whose file holds no value are worked out only where little can go wrong: few
// cells, and functions that cannot grow what they are given.
const (
	deepestFormula = 8    // formulas that lead to formulas
	mostFormula    = 300  // letters of one
	mostReferred   = 1000 // cells that all of them look at
)

var (
	quoted     = regexp.MustCompile(`"[^"]*"`)
	reference  = regexp.MustCompile(`\$?[A-Z]{1,3}\$?[0-9]{1,7}(:\$?[A-Z]{1,3}\$?[0-9]{1,7})?`)
	word       = regexp.MustCompile(`[A-Za-z_][A-Za-z_.0-9]*`)
	calmEnough = []string{"ABS", "AVERAGE", "CONCAT", "CONCATENATE", "IF", "INT", "LEFT", "LEN", "LOWER", "MAX", "MID", "MIN", "PRODUCT", "RIGHT", "ROUND", "ROUNDDOWN", "ROUNDUP", "SUM", "TRIM", "UPPER"}
)

// workedOut is what a formula comes to whose file holds no value of it; empty where it is
// not worked out.
func workedOut(f *excelize.File, sheet, cell string) string {
	left := mostReferred
	if !calm(f, sheet, cell, deepestFormula, &left) {
		return ""
	}
	value, err := f.CalcCellValue(sheet, cell)
	if err != nil || strings.HasPrefix(value, "#") {
		return ""
	}
	return strings.TrimSpace(value)
}

// calm tells that a cell, and whatever it looks at, may be worked out.
func calm(f *excelize.File, sheet, cell string, depth int, left *int) bool {
	formula, err := f.GetCellFormula(sheet, cell)
	if err != nil {
		return false
	}
	if formula == "" {
		return true
	}
	if depth == 0 || len(formula) > mostFormula || strings.ContainsAny(formula, "![]{}") {
		return false
	}
	text := quoted.ReplaceAllString(strings.TrimPrefix(formula, "="), "")
	refs := reference.FindAllString(text, -1)
	for _, w := range word.FindAllString(reference.ReplaceAllString(text, " "), -1) {
		if !slices.Contains(calmEnough, strings.ToUpper(w)) {
			return false
		}
	}
	for _, r := range refs {
		if !calmRange(f, sheet, strings.ReplaceAll(r, "$", ""), depth-1, left) {
			return false
		}
	}
	return true
}

// calmRange is calm of all cells of a reference.
func calmRange(f *excelize.File, sheet, ref string, depth int, left *int) bool {
	from, to, several := strings.Cut(ref, ":")
	if !several {
		to = from
	}
	x1, y1, err1 := excelize.CellNameToCoordinates(from)
	x2, y2, err2 := excelize.CellNameToCoordinates(to)
	if err1 != nil || err2 != nil || x2 < x1 || y2 < y1 || (x2-x1+1) > *left || (y2-y1+1) > *left || (x2-x1+1)*(y2-y1+1) > *left {
		return false
	}
	*left -= (x2 - x1 + 1) * (y2 - y1 + 1)
	for x := x1; x <= x2; x++ {
		for y := y1; y <= y2; y++ {
			name, err := excelize.CoordinatesToCellName(x, y)
			if err != nil || !calm(f, sheet, name, depth, left) {
				return false
			}
		}
	}
	return true
}
