package job_test

import (
	"bytes"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/santhosh-tekuri/jsonschema/v6"
	yaml "go.yaml.in/yaml/v4"

	"swingwright/job"
)

func compile(t *testing.T, text []byte) *jsonschema.Schema {
	t.Helper()
	document, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("schema.json", document); err != nil {
		t.Fatal(err)
	}
	schema, err := c.Compile("schema.json") // checks it against the draft's own schema
	if err != nil {
		t.Fatal(err)
	}
	return schema
}

// validate returns the paths at which a YAML text breaks the schema, as an
// editor sees it: numbers and nulls resolved.
func validate(t *testing.T, schema *jsonschema.Schema, text []byte) []string {
	t.Helper()
	var v any
	if err := yaml.Load(text, &v); err != nil {
		t.Fatal(err)
	}
	err := schema.Validate(plainDates(v))
	if err == nil {
		return nil
	}
	var paths []string
	var leaves func(e *jsonschema.ValidationError)
	leaves = func(e *jsonschema.ValidationError) {
		if len(e.Causes) == 0 {
			paths = append(paths, "/"+strings.Join(e.InstanceLocation, "/"))
		}
		for _, cause := range e.Causes {
			leaves(cause)
		}
	}
	leaves(err.(*jsonschema.ValidationError))
	slices.Sort(paths)
	return slices.Compact(paths)
}

// plainDates turns dates back into texts: YAML 1.2 knows none, while the library
// resolves those of YAML 1.1.
func plainDates(v any) any {
	switch v := v.(type) {
	case time.Time:
		return v.Format(time.DateOnly)
	case []any:
		for i := range v {
			v[i] = plainDates(v[i])
		}
	case map[string]any:
		for key := range v {
			v[key] = plainDates(v[key])
		}
	}
	return v
}

func TestSchemaTakesWhatDecodeTakes(t *testing.T) {
	schema, sheets := compile(t, job.Schema()), compile(t, job.SheetsSchema())
	demo, err := os.ReadFile("../demo/harbour-street-clinic/job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string][]byte{
		"demo": demo, "starter": job.Starter(),
		"blanks": []byte("job: 2026\ndate:\nopenings:\n- {id: 1, use: , leaf: {width: , nominal: 3070, height: unknown, layers: [{gauge: 18, count: '2'}]}, closer: {size: 3 }, readings: , survey: }\n"),
	} {
		if paths := validate(t, schema, text); paths != nil {
			t.Errorf("%s breaks the schema at %v", name, paths)
		}
	}
	for _, file := range []string{"closers", "arms", "latches-and-seals", "operators", "locks-and-strikes", "switches-and-supplies"} {
		text, err := os.ReadFile("../demo/harbour-street-clinic/sheets/" + file + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		if paths := validate(t, sheets, text); paths != nil {
			t.Errorf("%s breaks the schema at %v", file, paths)
		}
	}
}

func TestSchemaRefusesAtTheRightPath(t *testing.T) {
	schema := compile(t, job.Schema())
	for _, c := range []struct{ text, path string }{
		{"openings: [{id: 1}]", "/"},
		{"job: x\nopenings: []", "/openings"},
		{"job: x\nopenings: [{name: x}]", "/openings/0"},
		{"job: x\ndate: 25/11/2026\nopenings: [{id: 1}]", "/date"},
		{"job: x\nunits: imperial\nopenings: [{id: 1}]", "/units"},
		{"job: x\nopenings: [{id: 1, leaf: {width: 36}}]", "/openings/0/leaf/width"},
		{"job: x\nopenings: [{id: 1, leaf: {width: '36'}}]", "/openings/0/leaf/width"},
		{"job: x\nopenings: [{id: 1, leaf: {widht: 36 in}}]", "/openings/0/leaf"},
		{"job: x\nopenings: [{id: 1, leaf: {layers: [{gauge: 30}]}}]", "/openings/0/leaf/layers/0/gauge"},
		{"job: x\nopenings: [{id: 1, frame: {hand: left}}]", "/openings/0/frame/hand"},
		{"job: x\nopenings: [{id: 1, closer: {size: 0}}]", "/openings/0/closer/size"},
		{"job: x\nopenings: [{id: 1, readings: [{fact: closing.time, value: 6 s}]}]", "/openings/0/readings/0/fact"},
		{"job: x\nsheets: {closers: [{name: A, powers: []}]}\nopenings: [{id: 1}]", "/sheets/closers/0/powers"},
	} {
		if paths := validate(t, schema, []byte(c.text)); !slices.Equal(paths, []string{c.path}) {
			t.Errorf("%s\nis refused at %v, want %s", c.text, paths, c.path)
		}
		if _, err := decode(c.text); err == nil {
			t.Errorf("%s\nis refused by the schema and taken by Decode", c.text)
		}
	}
}
