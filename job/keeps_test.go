package job_test

import (
	"fmt"
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"
	"unicode/utf8"

	"pgregory.net/rapid"

	"swingwright/job"
	"swingwright/job/amend"
)

// What a batch of changes makes of a job file: nothing moves, comments stay.
func TestFill(t *testing.T) {
	width := amend.Change{Path: "openings[0].leaf.width", Value: amend.Text(`36"`)}
	second := amend.Change{Path: "openings", Value: `{id: "2", name: n}`, Add: true}
	for _, test := range []struct {
		name, was, is string
		changes       []amend.Change
	}{
		{"a record that is not there", "job: x\nopenings:\n  - id: \"1\" # first\n    # about the use\n    use: {place: interior}\n",
			"job: x\nopenings:\n  - id: \"1\" # first\n    # about the use\n    use: {place: interior}\n    leaf:\n      width: 36\"\n",
			[]amend.Change{width}},
		{"a record in lines", "job: x\nopenings:\n  - id: 1\n    leaf:\n      # taped\n      height: 84 in # twice\n      layers:\n        - what: face\n",
			"job: x\nopenings:\n  - id: 1\n    leaf:\n      # taped\n      height: 84 in # twice\n      layers:\n        - what: face\n      width: 36\"\n",
			[]amend.Change{width}},
		{"a record in braces", "job: x\nopenings:\n- id: 1\n  leaf: {height: 84 in}\n", "job: x\nopenings:\n- id: 1\n  leaf: {height: 84 in, width: 36\"}\n", []amend.Change{width}},
		{"empty braces", "job: x\nopenings:\n- id: 1\n  leaf: {}\n", "job: x\nopenings:\n- id: 1\n  leaf: {width: 36\"}\n", []amend.Change{width}},
		{"an opening in braces", "job: x\nopenings:\n- {id: 1}\n", "job: x\nopenings:\n- {id: 1, leaf: {width: 36\"}}\n", []amend.Change{width}},
		{"all in brackets", "job: x\nopenings: [{id: 1}]\n", "job: x\nopenings: [{id: 1, leaf: {width: 36\"}}, {id: 2, name: n}]\n", []amend.Change{width, second}},
		{"a value left empty", "job: x\nopenings:\n- id: 1\n  leaf:\n    width: # later\n", "job: x\nopenings:\n- id: 1\n  leaf:\n    width: 36\" # later\n", []amend.Change{width}},
		{"a record left empty", "job: x\nopenings:\n- id: 1\n  leaf:\n", "job: x\nopenings:\n- id: 1\n  leaf:\n    width: 36\"\n", []amend.Change{width}},
		{"a list in the record", "job: x\nopenings:\n- id: 1\n  leaf:\n    layers:\n    - gauge: 18\n", "job: x\nopenings:\n- id: 1\n  leaf:\n    layers:\n    - gauge: 18\n    width: 36\"\n", []amend.Change{width}},
		{"line ends with a carriage return", "job: x\r\nopenings:\r\n- id: 1\r\n", "job: x\r\nopenings:\r\n- id: 1\r\n  leaf:\r\n    width: 36\"\r\n", []amend.Change{width}},
		{"no last line end", "job: x\nopenings:\n- id: 1", "job: x\nopenings:\n- id: 1\n  leaf:\n    width: 36\"", []amend.Change{width}},
		{"many at one byte", "job: x\nopenings:\n- id: 1\n  survey:\n    a: b", "job: x\nopenings:\n- id: 1\n  survey:\n    a: b\n    c. d: e\n    f: g\n  leaf:\n    width: 36\"\n- id: 2\n  name: n\nnotes:\n  h:\n    - {i: j}",
			[]amend.Change{{Path: "notes.h", Value: "[{i: j}]"}, second, width, {Path: `openings[0].survey."c. d"`, Value: "e"}, {Path: "openings[0].survey.f", Value: "g"}}},
		{"a further opening", "job: x\nopenings:\n  - id: 1\n    survey:\n      a: |\n        b\n", "job: x\nopenings:\n  - id: 1\n    survey:\n      a: |\n        b\n  - id: 2\n    name: n\n", []amend.Change{second}},
		{"openings that are not last", "job: x\nopenings:\n  - id: 1\n\n# the rest\nunits: us\n", "job: x\nopenings:\n  - id: 1\n  - id: 2\n    name: n\n\n# the rest\nunits: us\n", []amend.Change{second}},
	} {
		got, err := amend.Fill(test.was, test.changes)
		if err != nil || got != test.is {
			t.Errorf("%s: %v\n%s\nwant\n%s", test.name, err, got, test.is)
		}
		checkAmended(t, test.was, got)
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

func TestFillRefuses(t *testing.T) {
	for was, want := range map[string]string{
		"job: x\nopenings:\n- id: 1\n  leaf: {width: 35 in}\n": "openings[0].leaf.width: it says 35 in already",
		"job: x\nopenings:\n- id: 1\n  leaf: thick\n":          "plain value where width",
		"job: x\nopenings: []\n":                               "no such item",
		"job: x\n":                                             "no such item",
	} {
		got, err := amend.Fill(was, []amend.Change{{Path: "openings[0].leaf.width", Value: "36 in"}, {Path: "customer", Value: "c"}})
		if err == nil || !strings.Contains(err.Error(), want) || got != "" {
			t.Errorf("%s\n%v, want %s", was, err, want)
		}
	}
	_, err := amend.Fill("job: x\nname: y\n", []amend.Change{{Path: "job", Value: "z"}, {Path: "name", Value: "z"}, {Path: "a", Value: "b"}})
	if err == nil || strings.Count(err.Error(), "already") != 2 {
		t.Errorf("not all at once: %v", err)
	}
	for _, changes := range [][]amend.Change{
		{{Path: "a", Value: "b"}, {Path: "a.c", Value: "d"}}, {{Path: "a", Value: "b"}, {Path: "a", Value: "d", Add: true}},
		{{Path: "a b", Value: "c"}}, {{Path: "d", Value: "{"}}, {{Path: "d", Add: true}}, {{Path: `"d"`, Value: "not its spelling"}}, {{Path: `a."b`, Value: "c"}},
	} {
		if got, err := amend.Fill("job: x\n", changes); err == nil || got != "" {
			t.Errorf("%v made %q", changes, got)
		}
	}
}

// Whatever is added to the example job is read from it again, and all else is as it was.
func TestFillExample(t *testing.T) {
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
		var changes []amend.Change
		given := map[[2]string]string{} // by opening and field
		notes := map[string]string{}
		for i := range was.Openings {
			o, at := &was.Openings[i], fmt.Sprintf("openings[%d].", i)
			if f := rapid.SampledFrom(fields).Draw(t, "field"); f.Get(o) == "" && o.SameAs == "" && o.InPlaceOf == "" {
				if v := sample(&f); v != "" {
					given[[2]string{o.ID, f.Path}] = v
					changes = append(changes, amend.Change{Path: at + f.Path, Value: amend.Text(v)})
				}
			}
			if rapid.Bool().Draw(t, "note") {
				notes[o.ID] = note.Draw(t, "text")
				changes = append(changes, amend.Change{Path: at + amend.Path("survey", "note "+notes[o.ID]), Value: amend.Text(notes[o.ID])})
			}
		}
		changes = append(changes, amend.Change{Path: "openings", Value: "{id: fresh}", Add: true})
		got, err := amend.Fill(string(text), changes)
		if err != nil {
			t.Fatal(err)
		}
		files := fstest.MapFS{}
		if err := copyFiles(folder, files); err != nil {
			t.Fatal(err)
		}
		files["job.yaml"] = &fstest.MapFile{Data: []byte(got)}
		is, err := job.Decode(files, "job.yaml")
		if err != nil {
			t.Fatal(err)
		}
		if err := job.Keeps(was, is); err != nil {
			t.Fatal(err)
		}
		rest := got // every line that stood there still does, comments too
		for line := range strings.Lines(string(text)) {
			_, after, found := strings.Cut(rest, strings.TrimRight(line, "}\n"))
			if !found {
				t.Fatalf("%q is gone", line)
			}
			rest = after
		}
		for i := range is.Openings {
			o := &is.Openings[i]
			if want, ok := notes[o.ID]; ok && o.Survey["note "+want] != want {
				t.Fatalf("note %q became %q", want, o.Survey["note "+want])
			}
			for _, f := range fields {
				if want, ok := given[[2]string{o.ID, f.Path}]; ok && f.Get(o) != want {
					t.Fatalf("%s of %s is %q, want %q", f.Path, o.ID, f.Get(o), want)
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

// FuzzFill holds that no job makes Fill panic, and that what it adds is there when the
// job is read, and all else as it was.
func FuzzFill(f *testing.F) {
	f.Add("job: x\nopenings:\n- id: 1\n", "note", "text")
	f.Add("job: x\nopenings:\n  - {id: '1', leaf: {width: }}\nunits: us\n", "a: b", "# c")
	f.Add("job: x\nopenings:\n  - name: |\n      two\n      lines\n    id: 1\n    survey: {a: b}\n", "c", "\"d\"\n")
	f.Fuzz(func(t *testing.T, text, key, value string) {
		was, err := decode(text)
		if err != nil || len(was.Openings) == 0 || key == "" || !utf8.ValidString(key+value) {
			return
		}
		got, err := amend.Fill(text, []amend.Change{
			{Path: "openings[0]." + amend.Path("survey", key), Value: amend.Text(value)},
			{Path: "openings", Value: "{id: quite new}", Add: true}})
		if err != nil {
			return // refused, and nothing is lost
		}
		is, err := decode(got)
		if err != nil {
			return // whoever fills reads again before writing
		}
		if err := job.Keeps(was, is); err != nil {
			t.Errorf("%v:\n%s\nbecame\n%s", err, text, got)
		}
		if is.Openings[0].Survey[key] != value {
			t.Errorf("%q became %q in\n%s", value, is.Openings[0].Survey[key], got)
		}
	})
}
