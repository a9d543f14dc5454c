package schedule_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"swingwright/schedule"
)

// unsaved is a workbook whose formulas hold no values, as programs leave them that write
// formulas and reckon nothing.
func unsaved(t testing.TB) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	for cell, text := range map[string]string{
		"A1": "Door No.", "B1": "Room name", "C1": "Thickness (mm)", "D1": "Remark", "E1": "Comment",
		"A2": "101", "A3": "102", "A4": "103", "A5": "104", "B4": "Store", "B5": "Yard",
	} {
		f.SetCellValue("Sheet1", cell, text)
	}
	for cell, x := range map[string]float64{"D2": 1, "G2": 31, "D3": 1, "D4": 1, "C5": 45, "D5": 1} {
		f.SetCellValue("Sheet1", cell, x)
	}
	for cell, formula := range map[string]string{
		"C2": "G2+14",                                                      // 45, by hand
		"B2": `CONCATENATE("Room ",A2)`,                                    // Room 101
		"C3": "C2*2-SUM(C2:C2)",                                            // by way of C2: 45
		"B3": "UPPER(TODAY())",                                             // a function that is not worked out
		"C4": "C4+1",                                                       // a ring
		"E4": `REPT(REPT("x",32767),32767)`,                                // a gigabyte
		"E5": `IF(Sheet2!A1>1,"far","near")`,                               // another sheet
		"E2": strings.Repeat("ABS(", 200) + "1" + strings.Repeat(")", 200), // too deep
	} {
		if err := f.SetCellFormula("Sheet1", cell, formula); err != nil {
			t.Fatal(err)
		}
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// A formula without a value is told of at its cell, is no field's value, and is kept;
// what it comes to is said where that can be worked out, and taken where that is asked for.
func TestFormulasWithoutValues(t *testing.T) {
	formulas := []string{"=G2+14", `=CONCATENATE("Room ",A2)`, "=C2*2-SUM(C2:C2)", "=UPPER(TODAY())", "=C4+1", `=REPT(REPT("x",32767),32767)`, `=IF(Sheet2!A1>1,"far","near")`}
	for _, taken := range []bool{false, true} {
		j, r := importedBy(t, bytes.NewReader(unsaved(t)), schedule.Options{WorkOut: taken})
		var told []string
		for _, one := range r.Told {
			told = append(told, one.Place.String()+": "+one.What)
		}
		for cell, want := range map[string]string{"C2": "45", "B2": "Room 101", "C3": "45"} {
			say := "; worked out here it comes to " + want
			if taken {
				say = "; it was worked out here, and " + want + " taken"
			}
			found := false
			for _, one := range r.Told {
				found = found || strings.HasSuffix(one.Place.String(), "!"+cell) && strings.Contains(one.What, say)
			}
			if !found {
				t.Errorf("nothing at %s says %q: %s", cell, say, told)
			}
		}
		for _, cell := range []string{"B3", "C4", "E4", "E5", "E2"} {
			found := false
			for _, one := range r.Told {
				found = found || strings.HasSuffix(one.Place.String(), "!"+cell) && strings.Contains(one.What, "holds no value") && !strings.Contains(one.What, "worked out")
			}
			if !found {
				t.Errorf("%s is not told of, or was worked out: %s", cell, told)
			}
		}
		kept := map[string]bool{}
		for i := range j.Openings {
			for text := range everything(&j.Openings[i]) {
				kept[text] = true
			}
		}
		for _, formula := range formulas {
			if !kept[formula] {
				t.Errorf("%s is lost", formula)
			}
		}
		for i := range j.Openings {
			if strings.HasPrefix(j.Openings[i].Name, "=") {
				t.Errorf("%q was taken for a name", j.Openings[i].Name)
			}
		}
		one := &j.Openings[0]
		if known := one.Leaf.Thickness.Known; known != taken || taken && (float64(one.Leaf.Thickness.Value) != 0.045 || one.Name != "Room 101" || float64(j.Openings[1].Leaf.Thickness.Value) != 0.045) {
			t.Errorf("%s: taken %v: thickness %+v, name %q", mappingText(&r.Mapping), taken, one.Leaf.Thickness, one.Name)
		}
	}
}

// Out again and back, a formula that was kept is still there, as text that no
// spread-sheet takes for a formula.
func TestFormulasComeBack(t *testing.T) {
	j, r := importedBy(t, bytes.NewReader(unsaved(t)), schedule.Options{})
	var out bytes.Buffer
	if err := schedule.Of(j.Openings, &r.Mapping).WriteCSV(&out, j.Openings); err != nil {
		t.Fatal(err)
	}
	t.Log(out.String())
	again, _ := imported(t, &out, nil)
	for i := range j.Openings {
		was, is := everything(&j.Openings[i]), everything(&again.Openings[i])
		for text := range was {
			if strings.HasPrefix(text, "=") && !is[text] {
				t.Errorf("opening %s: %s is lost: %v", j.Openings[i].ID, text, is)
			}
		}
	}
}
