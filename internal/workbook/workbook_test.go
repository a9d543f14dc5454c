package workbook_test

import (
	"bytes"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"swingwright/internal/reference"
	"swingwright/internal/workbook"
)

// readBack is what another library finds in a workbook.
type readBack struct {
	Name, Freeze, Titles, Orientation string
	FitWidth, FitHeight               int
	FitToPage                         bool
	Widths                            []float64
	Cells                             [][]any
	Types                             [][]string
	Formats                           []string
	Bold                              []bool
}

// Another library finds what was written: numbers as numbers, texts that look like
// numbers or formulas as texts, the first row frozen and repeated, pages as wide as
// the paper.
func TestReadBack(t *testing.T) {
	if testing.Short() {
		t.Skip("asks another program")
	}
	sheet := workbook.Sheet{
		Name:    "Parts: all/of them [and a name that is far too long]",
		Columns: []workbook.Column{{Heading: "what"}, {Heading: "how many", Format: workbook.Whole}, {Heading: "price", Format: workbook.Money}, {Heading: "share", Format: workbook.Share}},
		Rows:    [][]any{{"=1+1", 3, 1234.5, 0.075}, {"007", nil, 0.1, 1.0}, {"total\x00\x0b", 3, -2.25, nil}, {"two\nlines é½", 0, 1e9, 0.5}},
		Totals:  1,
	}
	var b bytes.Buffer
	if err := workbook.Write(&b, []workbook.Sheet{sheet, {Name: "Parts: all/of them", Columns: []workbook.Column{{Heading: "x"}}}}); err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "a.xlsx")
	if err := os.WriteFile(name, b.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
	var got []readBack
	if err := reference.OpenPyXL.Ask("testdata/readback.py", name, &got); err != nil {
		t.Fatal(err)
	}
	if len(got) != 2 {
		t.Fatalf("%d sheets", len(got))
	}
	g := got[0]
	want := [][]any{
		{"what", "how many", "price", "share"},
		{"=1+1", 3.0, 1234.5, 0.075}, {"007", nil, 0.1, 1.0}, {"total\ufffd\ufffd", 3.0, -2.25, nil}, {"two\nlines é½", 0.0, 1e9, 0.5},
	}
	if !reflect.DeepEqual(g.Cells, want) {
		t.Errorf("cells\n%v, want\n%v", g.Cells, want)
	}
	for r, row := range g.Types {
		for c, kind := range row {
			wanted := "n"
			if c == 0 || r == 0 {
				wanted = "s"
			}
			if kind != wanted {
				t.Errorf("cell %d,%d is of type %s, want %s", r, c, kind, wanted)
			}
		}
	}
	if g.Freeze != "A2" || g.Titles != "$1:$1" || g.Orientation != "landscape" || !g.FitToPage || g.FitWidth != 1 || g.FitHeight != 0 {
		t.Errorf("set-up %+v", g)
	}
	if len([]rune(g.Name)) > 31 || strings.ContainsAny(g.Name, `[]:*?/\`) {
		t.Errorf("name %q", g.Name)
	}
	if !reflect.DeepEqual(g.Formats, []string{"General", "0", "#,##0.00", "0.0%"}) {
		t.Errorf("formats %q", g.Formats)
	}
	if !reflect.DeepEqual(g.Bold, []bool{true, false, false, false, true}) {
		t.Errorf("bold %v", g.Bold)
	}
	for i, w := range g.Widths {
		if w < 8 || w > 48 {
			t.Errorf("column %d is %v wide", i, w)
		}
	}
}

func TestTooLong(t *testing.T) {
	err := workbook.Write(&bytes.Buffer{}, []workbook.Sheet{{Name: "a", Columns: []workbook.Column{{}}, Rows: [][]any{{strings.Repeat("x", 32_768)}}}})
	if err == nil || !strings.Contains(err.Error(), "row 2") {
		t.Errorf("%v", err)
	}
}
