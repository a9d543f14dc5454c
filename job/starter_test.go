package job

import (
	"reflect"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"swingwright/opening"
)

// TestStarterDecodes reads the starter file as it is written, and once more
// with all the lines taken in that do not count as it stands.
func TestStarterDecodes(t *testing.T) {
	files := fstest.MapFS{
		"job.yaml": {Data: Starter()}, "house-rules.yaml": {}, "sheets.yaml": {Data: []byte("seals: []\n")}, "readings.yaml": {Data: []byte("kept: []\n")},
		"full.yaml": {Data: []byte(uncommented(string(Starter())) + "  - id: \"100\"\n")},
	}
	j, err := Decode(files, "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	o := &j.Openings[0]
	if gaps := opening.Missing(o, &j.Sheets); len(gaps) > 0 {
		t.Errorf("the starter lacks %v, and was to compute as it stands", gaps)
	}
	if doubts := opening.Implausible(o); len(doubts) > 0 {
		t.Errorf("the starter has implausible values: %v", doubts)
	}
	if _, err := Decode(files, "full.yaml"); err != nil {
		t.Errorf("with every line in use: %v", err)
	}
}

// uncommented takes the marks off the lines that begin with # and hold a key,
// and moves the openings, which have to end it, to the end.
func uncommented(text string) string {
	var head, openings []string
	part := &head
	for line := range strings.Lines(text) {
		plain := strings.TrimPrefix(line, "# ")
		isKey := strings.Contains(plain, ": ") && strings.Contains(line, "  #") || strings.HasPrefix(plain, " ")
		if isKey || strings.HasPrefix(plain, "notes:") {
			line = plain
		}
		switch {
		case strings.HasPrefix(line, "openings:"):
			part = &openings
		case !strings.HasPrefix(line, " ") && !strings.HasPrefix(line, "#") && line != "\n":
			part = &head
		}
		*part = append(*part, line)
	}
	return strings.Join(head, "") + strings.Join(openings, "")
}

// TestStarterHasEveryField holds the starter file in step with the record.
func TestStarterHasEveryField(t *testing.T) {
	keys := map[string]bool{}
	for _, m := range regexp.MustCompile(`([0-9A-Za-z_]+):`).FindAllStringSubmatch(starterLines, -1) {
		keys[m[1]] = true
	}
	eachField(jobShape, "", func(home string, f *field) {
		if !keys[f.key] {
			t.Errorf("%s.%s is nowhere in the starter file", home, f.key)
		}
	})
}

// TestRecordHasTags holds that every field of the record says what it is.
func TestRecordHasTags(t *testing.T) {
	seen := map[reflect.Type]bool{}
	eachField(jobShape, "", func(home string, f *field) {
		if f.key == "" || !strings.HasSuffix(f.doc, ".") {
			t.Errorf("a field under %q has key %q and doc %q", home, f.key, f.doc)
		}
		seen[f.shape.typ] = true
	})
	if !seen[reflect.TypeFor[opening.Leaf]()] {
		t.Error("the walk over the fields did not come to the leaf")
	}
}

func TestStarterIsNarrow(t *testing.T) {
	for line := range strings.Lines(string(Starter())) {
		if n := len([]rune(strings.TrimSuffix(line, "\n"))); n > widestLine {
			t.Errorf("%d characters in %q", n, line)
		}
	}
}
