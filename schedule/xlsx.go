package schedule

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// Limits of an XLSX file, which is a zip archive: a small one can hold much.
const (
	mostPacked   = 32 << 20
	mostUnpacked = 64 << 20 // about 100 000 rows
	mostParts    = 2000
)

// openXLSX reads a whole file, after a look at what it would unpack to.
func openXLSX(r io.Reader) (*Source, error) {
	packed, err := io.ReadAll(io.LimitReader(r, mostPacked+1))
	if err != nil {
		return nil, err
	}
	if err := checkZip(packed); err != nil {
		return nil, err
	}
	f, err := excelize.OpenReader(bytes.NewReader(packed), excelize.Options{UnzipSizeLimit: mostUnpacked, UnzipXMLSizeLimit: mostUnpacked})
	if err != nil {
		return nil, &Refused{"this is no XLSX file that can be read: " + err.Error(), "save it again as .xlsx, or as CSV"}
	}
	s := &Source{Kind: "XLSX", close: f.Close}
	for _, name := range f.GetSheetList() {
		merged, err := mergesOf(f, name)
		if err != nil {
			continue // a sheet that holds no cells, such as a chart
		}
		sheet := Sheet{Name: name, groups: merged.across}
		sheet.Rows = func(yield func(*Row, error) bool) { rowsOfXLSX(f, name, merged, yield) }
		s.Sheets = append(s.Sheets, sheet)
	}
	return s, nil
}

// checkZip refuses an archive that unpacks to more than is read. It unpacks it, and
// does not believe what its directory says.
func checkZip(packed []byte) error {
	bomb := &Refused{fmt.Sprintf("the file is larger than %d MB, or unpacks to more than %d MB", mostPacked>>20, mostUnpacked>>20), "save the schedule alone, without pictures, as CSV: that may have any length"}
	if len(packed) > mostPacked {
		return bomb
	}
	z, err := zip.NewReader(bytes.NewReader(packed), int64(len(packed)))
	if err != nil {
		return &Refused{"this is no XLSX file that can be read: " + err.Error(), "save it again as .xlsx, or as CSV"}
	}
	if len(z.File) > mostParts {
		return bomb
	}
	left := int64(mostUnpacked)
	for _, part := range z.File {
		r, err := part.Open()
		if err != nil {
			return &Refused{"this is no XLSX file that can be read: " + part.Name + ": " + err.Error(), "save it again as .xlsx, or as CSV"}
		}
		n, err := io.Copy(io.Discard, io.LimitReader(r, left+1))
		r.Close()
		if left -= n; left < 0 {
			return bomb
		}
		if err != nil {
			return &Refused{"this is no XLSX file that can be read: " + part.Name + ": " + err.Error(), "save it again as .xlsx, or as CSV"}
		}
	}
	return nil
}

// merges are the merged cells of a sheet.
type merges struct {
	down   []merge          // those of more than one row
	across map[int][][2]int // by row, the columns from 0, first to last, of those of more than one column
}

type merge struct {
	column, first, last int // column from 0, rows from 1
	value               string
}

func mergesOf(f *excelize.File, sheet string) (*merges, error) {
	cells, err := f.GetMergeCells(sheet)
	if err != nil {
		return nil, err
	}
	m := &merges{across: map[int][][2]int{}}
	for _, c := range cells {
		left, top, err1 := excelize.CellNameToCoordinates(c.GetStartAxis())
		right, bottom, err2 := excelize.CellNameToCoordinates(c.GetEndAxis())
		if err1 != nil || err2 != nil {
			continue
		}
		if bottom > top {
			m.down = append(m.down, merge{left - 1, top, bottom, c.GetCellValue()})
		}
		if right > left {
			m.across[top] = append(m.across[top], [2]int{left - 1, right - 1})
		}
	}
	slices.SortFunc(m.down, func(a, b merge) int { return a.first - b.first })
	return m, nil
}

// rowsOfXLSX walks a sheet twice at once: as its cells are stored, and as they are
// shown.
func rowsOfXLSX(f *excelize.File, sheet string, m *merges, yield func(*Row, error) bool) {
	stored, err := f.Rows(sheet)
	if err != nil {
		yield(nil, err)
		return
	}
	defer stored.Close()
	shown, err := f.Rows(sheet)
	if err != nil {
		yield(nil, err)
		return
	}
	defer shown.Close()
	next, open := 0, []merge(nil)
	for n := 1; stored.Next() && shown.Next(); n++ {
		raw, err := stored.Columns(excelize.Options{RawCellValue: true})
		if err != nil {
			yield(nil, err)
			return
		}
		seen, err := shown.Columns()
		if err != nil {
			yield(nil, err)
			return
		}
		if len(raw) > mostColumns {
			yield(nil, &Refused{fmt.Sprintf("row %d of %s has %d columns", n, sheet, len(raw)), fmt.Sprintf("at most %d are read; is this a schedule?", mostColumns)})
			return
		}
		row := &Row{Number: n, Cells: make([]string, len(raw))}
		for i := range raw {
			row.Cells[i] = raw[i]
			if i < len(seen) {
				row.Cells[i] = meant(raw[i], seen[i])
			}
			name, _ := excelize.CoordinatesToCellName(i+1, n)
			if formula, err := f.GetCellFormula(sheet, name); err == nil && formula != "" {
				row.Formulas = append(row.Formulas, i)
				if raw[i] == "" {
					row.Cells[i] = "=" + strings.TrimPrefix(formula, "=")
					if row.unsaved == nil {
						row.unsaved = map[int]unsaved{}
					}
					row.unsaved[i] = unsaved{row.Cells[i], workedOut(f, sheet, name)}
				}
			}
		}
		for ; next < len(m.down) && m.down[next].first < n; next++ {
			open = append(open, m.down[next])
		}
		open = slices.DeleteFunc(open, func(k merge) bool { return k.last < n })
		for _, k := range open {
			for len(row.Cells) <= k.column {
				row.Cells = append(row.Cells, "")
			}
			if row.Cells[k.column] == "" {
				row.Cells[k.column] = k.value
				row.Merged = append(row.Merged, k.column)
			}
		}
		if !yield(row, nil) {
			return
		}
	}
	if err := stored.Error(); err != nil {
		yield(nil, err)
	}
}

// shownDate tells a number that is shown as a date.
var shownDate = regexp.MustCompile(`^\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}`)

// meant is a cell as who filled it in means it: a number as it is stored, with all its
// digits, unless it is shown as a date or with a unit behind it.
func meant(raw, seen string) string {
	if raw == seen {
		return raw
	}
	x, err := strconv.ParseFloat(raw, 64)
	if err != nil || shownDate.MatchString(seen) || strings.ContainsFunc(seen, func(c rune) bool {
		return c > 127 || strings.ContainsRune("\"'%", c) || c >= 'A' && c <= 'Z' && c != 'E' || c >= 'a' && c <= 'z' && c != 'e'
	}) {
		return seen
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}
