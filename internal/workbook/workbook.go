// Package workbook writes tables as XLSX for people who open and print them: numbers
// as numbers, the headings frozen and repeated on every page, columns as wide as what
// they hold, pages as wide as the paper.
package workbook

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"
)

// A Sheet is one table.
type Sheet struct {
	Name    string // at most 31 characters; those that no sheet may have are replaced
	Columns []Column
	// Rows hold a string, an int, a float64 or nil in each cell.
	Rows [][]any
	// Totals is how many rows at the end are set in bold.
	Totals int
}

// A Column is one column of a table.
type Column struct {
	Heading string
	Format  Format
}

// Format is how numbers of a column are shown.
type Format uint8

// The formats.
const (
	Plain  Format = iota // as they are
	Whole                // without decimals
	Tenths               // with one decimal
	Money                // with two decimals and separated thousands
	Share                // as per cent
)

var codes = [...]string{"General", "0", "0.0", "#,##0.00", "0.0%"}

const (
	narrowest, widest = 6, 48  // characters
	longestCell       = 32_767 // ECMA-376-1:2016, 18.3.1.96 leaves it to the program; what spread-sheets take
	longestName       = 31
)

// Write writes the sheets to w.
func Write(w io.Writer, sheets []Sheet) error {
	f := excelize.NewFile()
	defer f.Close()
	b := &book{f: f}
	if err := b.styles(); err != nil {
		return err
	}
	for i := range sheets {
		if err := b.sheet(i, &sheets[i]); err != nil {
			return fmt.Errorf("sheet %s: %w", sheets[i].Name, err)
		}
	}
	return f.Write(w)
}

type book struct {
	f    *excelize.File
	head int
	body [len(codes)][2]int // by format, plain and bold
}

func (b *book) styles() (err error) {
	thin := []excelize.Border{{Type: "bottom", Color: "000000", Style: 2}}
	b.head, err = b.f.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true}, Border: thin, Alignment: &excelize.Alignment{WrapText: true, Vertical: "bottom"}})
	for i := range codes {
		for bold := range 2 {
			if err != nil {
				return err
			}
			b.body[i][bold], err = b.f.NewStyle(&excelize.Style{CustomNumFmt: &codes[i], Font: &excelize.Font{Bold: bold == 1}, Alignment: &excelize.Alignment{WrapText: true, Vertical: "top"}})
		}
	}
	return err
}

// nameOf is a name that a sheet may have.
func nameOf(name string, i int) string {
	name = strings.Trim(strings.NewReplacer(":", " ", `\`, " ", "/", " ", "?", " ", "*", " ", "[", "(", "]", ")").Replace(name), "' ")
	for utf8.RuneCountInString(name) > longestName {
		_, size := utf8.DecodeLastRuneInString(name)
		name = name[:len(name)-size]
	}
	if name == "" {
		return fmt.Sprint("Sheet", i+1)
	}
	return name
}

func (b *book) sheet(i int, s *Sheet) error {
	name := nameOf(s.Name, i)
	if i == 0 {
		if err := b.f.SetSheetName("Sheet1", name); err != nil {
			return err
		}
	} else if _, err := b.f.NewSheet(name); err != nil {
		return err
	}
	landscape, fit, whole, letter := "landscape", 1, 0, 1
	if err := b.f.SetPageLayout(name, &excelize.PageLayoutOptions{Orientation: &landscape, FitToWidth: &fit, FitToHeight: &whole, Size: &letter}); err != nil {
		return err
	}
	fits := true
	if err := b.f.SetSheetProps(name, &excelize.SheetPropsOptions{FitToPage: &fits}); err != nil {
		return err
	}
	if err := b.f.SetHeaderFooter(name, &excelize.HeaderFooterOptions{OddFooter: "&L&A&RPage &P of &N"}); err != nil {
		return err
	}
	if err := b.f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", Scope: name, RefersTo: "'" + strings.ReplaceAll(name, "'", "''") + "'!$1:$1"}); err != nil {
		return err
	}
	return b.rows(name, s)
}

func (b *book) rows(name string, s *Sheet) error {
	w, err := b.f.NewStreamWriter(name)
	if err != nil {
		return err
	}
	for i := range s.Columns {
		if err := w.SetColWidth(i+1, i+1, width(s, i)); err != nil {
			return err
		}
	}
	if err := w.SetPanes(&excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}); err != nil {
		return err
	}
	cells := make([]any, len(s.Columns))
	for i := range s.Columns {
		cells[i] = excelize.Cell{StyleID: b.head, Value: printable(s.Columns[i].Heading)}
	}
	if err := w.SetRow("A1", cells); err != nil {
		return err
	}
	for r, row := range s.Rows {
		bold := 0
		if r >= len(s.Rows)-s.Totals {
			bold = 1
		}
		cells := make([]any, len(row))
		for i, value := range row {
			format := Plain
			if i < len(s.Columns) {
				format = s.Columns[i].Format
			}
			if text, ok := value.(string); ok {
				if utf8.RuneCountInString(text) > longestCell {
					return fmt.Errorf("row %d holds a text of more than %d characters, which no cell takes", r+2, longestCell)
				}
				value = printable(text)
			}
			cells[i] = excelize.Cell{StyleID: b.body[format][bold], Value: value}
		}
		at, err := excelize.CoordinatesToCellName(1, r+2)
		if err != nil {
			return err
		}
		if err := w.SetRow(at, cells); err != nil {
			return err
		}
	}
	return w.Flush()
}

// printable is a text without the characters that XML 1.0 (5th ed., 2.2) keeps out.
func printable(text string) string {
	return strings.Map(func(c rune) rune {
		if c < ' ' && c != '\t' && c != '\n' && c != '\r' || c == 0xfffe || c == 0xffff || c == utf8.RuneError {
			return '\ufffd'
		}
		return c
	}, text)
}

// width is that of a column, in characters.
func width(s *Sheet, column int) float64 {
	longest := 0
	for line := range strings.FieldsSeq(s.Columns[column].Heading) {
		longest = max(longest, utf8.RuneCountInString(line))
	}
	for _, row := range s.Rows {
		if column >= len(row) {
			continue
		}
		n := 0
		switch v := row[column].(type) {
		case string:
			for line := range strings.Lines(v) {
				n = max(n, utf8.RuneCountInString(line))
			}
		case float64:
			n = len(fmt.Sprintf("%.2f", v)) + 2
		case int:
			n = len(fmt.Sprint(v))
		}
		longest = max(longest, n)
	}
	return float64(min(max(longest, narrowest)+2, widest))
}
