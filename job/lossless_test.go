package job_test

import (
	"reflect"
	"testing"

	yaml "go.yaml.in/yaml/v4"
	"pgregory.net/rapid"
	_ "swingwright/internal/steady"
)

// Whatever is written down as a note, in whatever script, is kept as it is.
func TestNotesAreKept(t *testing.T) {
	text := rapid.StringMatching(`[\PCé½±"'#:,\[\]{}&*!|>%@~ -]{0,20}`)
	rapid.Check(t, func(t *rapid.T) {
		survey := map[string]any{}
		for _, name := range rapid.SliceOfDistinct(rapid.StringMatching(`[a-z]{1,8}`), rapid.ID).Draw(t, "names") {
			survey[name] = text.Draw(t, name)
		}
		survey["list"] = []any{text.Draw(t, "item"), map[string]any{"deep": text.Draw(t, "deep")}}
		name := "x" + text.Draw(t, "name")
		file, err := yaml.Dump(map[string]any{"job": name, "openings": []any{map[string]any{"id": "1", "survey": survey}}})
		if err != nil {
			t.Fatal(err)
		}
		j, err := decode(string(file))
		if err != nil {
			t.Fatalf("%s\n%v", file, err)
		}
		if j.Name != name || !reflect.DeepEqual(j.Openings[0].Survey, survey) {
			t.Fatalf("%s\nbecame %q with %v", file, j.Name, j.Openings[0].Survey)
		}
	})
}

// A quantity is kept as it was typed, whatever was made of it.
func TestQuantitiesKeepTheirText(t *testing.T) {
	j, err := decode("job: x\nopenings:\n  - id: 1\n    leaf: {width: 3'-0 1/2\", weight: 120 lb +/- 5 kg}\n")
	if err != nil {
		t.Fatal(err)
	}
	l := j.Openings[0].Leaf
	if l.Width.Text != `3'-0 1/2"` || l.Weight.Text != "120 lb +/- 5 kg" || l.Weight.U != 2.5 {
		t.Errorf("width %+v, weight %+v", l.Width, l.Weight)
	}
}
