package job_test

import (
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"
	"unicode/utf8"

	"pgregory.net/rapid"

	"swingwright/job"
)

func TestAmend(t *testing.T) {
	width := job.Addition{Opening: "1", Path: []string{"leaf", "width"}, Value: `36"`}
	for _, test := range []struct {
		name, was, is string
		adds          []job.Addition
		more          string
	}{
		{"a record that is not there", "job: x\nopenings:\n  - id: \"1\" # first\n    # about the use\n    use: {place: interior}\n",
			"job: x\nopenings:\n  - id: \"1\" # first\n    leaf:\n      width: \"36\\\"\"\n    # about the use\n    use: {place: interior}\n",
			[]job.Addition{width}, ""},
		{"a record in lines", "job: x\nopenings:\n  - id: 1\n    leaf:\n      # taped\n      height: 84 in # twice\n      layers:\n        - what: face\n",
			"job: x\nopenings:\n  - id: 1\n    leaf:\n      # taped\n      height: 84 in # twice\n      width: \"36\\\"\"\n      layers:\n        - what: face\n",
			[]job.Addition{width}, ""},
		{"a record in braces", "job: x\nopenings:\n- id: 1\n  leaf: {height: 84 in}\n", "job: x\nopenings:\n- id: 1\n  leaf: {width: \"36\\\"\", height: 84 in}\n", []job.Addition{width}, ""},
		{"empty braces", "job: x\nopenings:\n- id: 1\n  leaf: {}\n", "job: x\nopenings:\n- id: 1\n  leaf: {width: \"36\\\"\"}\n", []job.Addition{width}, ""},
		{"an opening in braces", "job: x\nopenings:\n- {id: 1}\n", "job: x\nopenings:\n- {leaf: {width: \"36\\\"\"}, id: 1}\n", []job.Addition{width}, ""},
		{"a value left empty", "job: x\nopenings:\n- id: 1\n  leaf:\n    width: # later\n", "job: x\nopenings:\n- id: 1\n  leaf:\n    width: \"36\\\"\" # later\n", []job.Addition{width}, ""},
		{"a record left empty", "job: x\nopenings:\n- id: 1\n  leaf:\n", "job: x\nopenings:\n- id: 1\n  leaf: {width: \"36\\\"\"}\n", []job.Addition{width}, ""},
		{"only lists in the record", "job: x\nopenings:\n- id: 1\n  leaf:\n    layers:\n    - gauge: 18\n", "job: x\nopenings:\n- id: 1\n  leaf:\n    width: \"36\\\"\"\n    layers:\n    - gauge: 18\n", []job.Addition{width}, ""},
		{"line ends with a carriage return", "job: x\r\nopenings:\r\n- id: 1\r\n", "job: x\r\nopenings:\r\n- id: 1\r\n  leaf:\r\n    width: \"36\\\"\"\r\n", []job.Addition{width}, ""},
		{"no last line end", "job: x\nopenings:\n- id: 1", "job: x\nopenings:\n- id: 1\n  leaf:\n    width: \"36\\\"\"\n", []job.Addition{width}, ""},
		{"a further opening", "job: x\nopenings:\n  - id: 1\n    survey:\n      a: |\n        b\n", "job: x\nopenings:\n  - id: 1\n    survey:\n      a: |\n        b\n  - id: \"2\"\n    name: n\n", nil, "- id: \"2\"\n  name: n\n"},
		{"openings that are not last", "job: x\nopenings:\n  - id: 1\n\n# the rest\nunits: us\n", "job: x\nopenings:\n  - id: 1\n  - id: \"2\"\n\n# the rest\nunits: us\n", nil, "- id: \"2\"\n"},
		{"notes of the job", "job: x\nopenings:\n- id: 1\n", "job: x\nnotes:\n  a: [\"b\", {\"c\": \"d\"}]\nopenings:\n- id: 1\n", []job.Addition{{Path: []string{"notes", "a"}, Value: []any{"b", map[string]any{"c": "d"}}}}, ""},
	} {
		got, err := job.Amend("job.yaml", []byte(test.was), test.adds, []byte(test.more))
		if err != nil || string(got) != test.is {
			t.Errorf("%s: %v\n%s\nwant\n%s", test.name, err, got, test.is)
		}
		checkAmended(t, test.was, string(got))
	}
}

// checkAmended holds that an amended text is a job that says all that the old one said.
func checkAmended(t interface {
	Helper()
	Errorf(string, ...any)
}, before, after string) {
	t.Helper()
	files := fstest.MapFS{"was.yaml": {Data: []byte(before)}, "is.yaml": {Data: []byte(after)}}
	was, err := job.Decode(files, "was.yaml")
	if err != nil {
		t.Errorf("%v", err)
		return
	}
	is, err := job.Decode(files, "is.yaml")
	if err != nil {
		t.Errorf("%s\n%v", after, err)
		return
	}
	if err := job.Keeps(was, is); err != nil {
		t.Errorf("%v", err)
	}
	rest := after // what stood there still does, in its order
	for _, c := range before {
		i := strings.IndexRune(rest, c)
		if i < 0 {
			t.Errorf("something of\n%s\nis gone from\n%s", before, after)
			return
		}
		rest = rest[i:]
		rest = rest[len(string(c)):]
	}
}

func TestAmendRefuses(t *testing.T) {
	for was, want := range map[string]string{
		"job: x\nopenings:\n- id: 1\n  leaf: {width: 35 in}\n": `found "35 in", needed no value yet`,
		"job: x\nopenings:\n- id: 2\n":                         `no opening "1"`,
		"job: x\nopenings:\n- id: 1\n  leaf: thick\n":          `found "thick", needed fields`,
		"job: x\n": "needed a list of openings",
	} {
		_, err := job.Amend("job.yaml", []byte(was), []job.Addition{{Opening: "1", Path: []string{"leaf", "width"}, Value: "36 in"}}, nil)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s\n%v, want %s", was, err, want)
		}
	}
}

// Whatever is added to the example job is read from it again, and all else is as it was.
func TestAmendExample(t *testing.T) {
	text, err := os.ReadFile("../demo/harbour-street-clinic/job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	folder := os.DirFS("../demo/harbour-street-clinic")
	was, err := job.Decode(folder, "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	fields := job.OpeningFields()
	note := rapid.StringMatching(`[\PCé½±"'#:,\[\]{}&*!|>%@~ -]{1,20}`)
	rapid.Check(t, func(t *rapid.T) {
		var adds []job.Addition
		notes := map[string]string{}
		for i := range was.Openings {
			o := &was.Openings[i]
			if f := rapid.SampledFrom(fields).Draw(t, "field"); f.Get(o) == "" && o.SameAs == "" && o.InPlaceOf == "" {
				if v := sample(&f); v != "" {
					adds = append(adds, job.Addition{Opening: o.ID, Path: strings.Split(f.Path, "."), Value: v})
				}
			}
			if rapid.Bool().Draw(t, "note") {
				notes[o.ID] = note.Draw(t, "text")
				adds = append(adds, job.Addition{Opening: o.ID, Path: []string{"survey", "note " + notes[o.ID]}, Value: notes[o.ID]})
			}
		}
		got, err := job.Amend("job.yaml", text, adds, []byte("- id: fresh\n"))
		if err != nil {
			t.Fatal(err)
		}
		files := fstest.MapFS{}
		if err := copyFiles(folder, files); err != nil {
			t.Fatal(err)
		}
		files["job.yaml"] = &fstest.MapFile{Data: got}
		is, err := job.Decode(files, "job.yaml")
		if err != nil {
			t.Fatal(err)
		}
		if err := job.Keeps(was, is); err != nil {
			t.Fatal(err)
		}
		for i := range is.Openings {
			o := &is.Openings[i]
			if want, ok := notes[o.ID]; ok && o.Survey["note "+want] != want {
				t.Fatalf("note %q became %q", want, o.Survey["note "+want])
			}
			for _, a := range adds {
				for _, f := range fields {
					if a.Opening == o.ID && f.Path == strings.Join(a.Path, ".") && f.Get(o) != a.Value {
						t.Fatalf("%s of %s is %q, want %q", f.Path, o.ID, f.Get(o), a.Value)
					}
				}
			}
		}
		if is.Openings[len(is.Openings)-1].ID != "fresh" {
			t.Fatal("the fresh opening is not there")
		}
	})
}

// sample is a value that a field takes; empty where none of these does.
func sample(f *job.Field) string {
	for _, v := range append(f.Choices, "3 in", "2 lbf", "3 s", "1 deg", "2", "1.5 turns", "0.5", "20 °C", "3 deg/s", "3 Pa", "3070", "5 kg", "2 mph") {
		if !f.Text() && f.Check(v) == nil {
			return v
		}
	}
	return ""
}

func copyFiles(from fs.FS, to fstest.MapFS) error {
	return fs.WalkDir(from, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(from, name)
		to[name] = &fstest.MapFile{Data: text}
		return err
	})
}

// FuzzAmend holds that nothing makes Amend panic, and that what was added is there
// wherever the amended text is a job that keeps the old one.
func FuzzAmend(f *testing.F) {
	f.Add("job: x\nopenings:\n- id: 1\n", "note", "text")
	f.Add("job: x\nopenings:\n  - {id: '1', leaf: {width: }}\nunits: us\n", "a: b", "# c")
	f.Add("job: x\nopenings:\n  - name: |\n      two\n      lines\n    id: 1\n    survey: {a: b}\n", "c", "\"d\"\n")
	f.Fuzz(func(t *testing.T, text, key, value string) {
		was, err := decode(text)
		if err != nil || key == "" || !utf8.ValidString(key+value) {
			return
		}
		got, err := job.Amend("job.yaml", []byte(text), []job.Addition{{Opening: was.Openings[0].ID, Path: []string{"survey", key}, Value: value}}, []byte("- id: quite new\n"))
		if err != nil {
			return // refused, and nothing is lost
		}
		is, err := decode(string(got))
		if err != nil {
			return // whoever amends reads again before writing
		}
		if job.Keeps(was, is) == nil && is.Openings[0].Survey[key] != value {
			t.Errorf("%q became %q in\n%s", value, is.Openings[0].Survey[key], got)
		}
	})
}
