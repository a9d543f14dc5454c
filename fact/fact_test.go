package fact

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"swingwright/quantity"
)

// The table is whole: as many rows as constants, each with a name that leads back
// to it, a meaning that is a sentence, and what its kind needs.
func TestTable(t *testing.T) {
	if len(Table) != Count {
		t.Fatalf("%d rows, %d constants", len(Table), Count)
	}
	dotted := regexp.MustCompile(`^[a-z]+\.[a-z0-9_]+$`)
	for i := range Table {
		f := &Table[i]
		if id, ok := Lookup(f.Name); !ok || id != ID(i) {
			t.Errorf("row %d is named %q, which is the name of row %d", i, f.Name, id)
		}
		if !dotted.MatchString(f.Name) || !strings.HasSuffix(f.Meaning, ".") || f.Got == "" {
			t.Errorf("row %d is not whole: %+v", i, f)
		}
		if (f.Kind == Choice) != (len(f.Choices) > 1) || f.Kind != Number && f.Dim != quantity.DimRatio {
			t.Errorf("%s has choices or a dimension that do not go with its kind", f.Name)
		}
		if len(f.Choices) != len(slices.Compact(slices.Sorted(slices.Values(f.Choices)))) {
			t.Errorf("%s has a choice twice", f.Name)
		}
	}
}

// The constants mean the rows that they are named for, at either end of each part of the table.
func TestConstantsMeanTheirRows(t *testing.T) {
	for id, name := range map[ID]string{
		Interior: "opening.interior", PressureLeast: "air.pressure_least",
		ClearWidth: "doorway.clear_width", HingeBearing: "hinge.bearing",
		LabelTime: "fire.label_time", Marked: "service.marked",
	} {
		if id.String() != name {
			t.Errorf("%d is %s, want %s", id, id, name)
		}
	}
	if _, ok := Lookup("leaf.colour"); ok {
		t.Error("a name that is nobody's was found")
	}
}
