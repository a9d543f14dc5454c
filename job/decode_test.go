package job_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"swingwright/job"
	"swingwright/opening"
	"swingwright/quantity"
)

// decode reads one file that stands alone.
func decode(text string) (*job.Job, error) {
	return job.Decode(fstest.MapFS{"job.yaml": {Data: []byte(text)}}, "job.yaml")
}

// one decodes a job with one opening, whose fields are given one a line.
func one(t *testing.T, fields ...string) opening.Opening {
	t.Helper()
	j, err := decode("job: one\nopenings:\n  - id: 1\n    " + strings.Join(fields, "\n    ") + "\n")
	if err != nil {
		t.Fatal(err)
	}
	return j.Openings[0]
}

// YAML 1.1 reads 012 as ten, yes as true, 3:20 as two hundred and a date as a
// time; what a person wrote has to come through all the same.
func TestRawText(t *testing.T) {
	o := one(t, "name: 012", "use: {fire_rated: yes, egress: no}", "closer: {size: 03}",
		"survey: {room: 3:20, code: 0x10, on: 2026-11-25, empty: ~, list: [1_000, true]}")
	if o.Name != "012" || o.Use.FireRated != "yes" || o.Use.Egress != "no" {
		t.Errorf("name %q, fire rated %q, egress %q", o.Name, o.Use.FireRated, o.Use.Egress)
	}
	if o.Closer.Size.Value != 3 || o.Closer.Size.Text != "03" {
		t.Errorf("size is %+v, want 3 written as 03", o.Closer.Size)
	}
	got := fmt.Sprint(o.Survey)
	if want := "map[code:0x10 empty: list:[1_000 true] on:2026-11-25 room:3:20]"; got != want {
		t.Errorf("survey is %s, want %s", got, want)
	}
}

func TestInchMarksNeedNoQuotes(t *testing.T) {
	o := one(t, `leaf: {nominal: 3-0 x 7-0, height: '83-3/4"'}`, `frame:`, `  pin_to_edge: 1/8"`, `  lean_over: 6'-8"  # the hinges`)
	for _, c := range []struct {
		got  quantity.Measured[quantity.Length]
		want quantity.Length
	}{
		{o.Leaf.Height, 83.75 * 0.0254}, {o.Frame.PinAlong, 0.125 * 0.0254}, {o.Frame.Span, 80 * 0.0254},
	} {
		if d := c.got.Value - c.want; d > 1e-12 || d < -1e-12 || !c.got.Known {
			t.Errorf("%q is %v m, want %v m", c.got.Text, c.got.Value, c.want)
		}
	}
	if o.Leaf.Nominal != (opening.Nominal{Text: "3-0 x 7-0", Width: 3 * 0.3048, Height: 7 * 0.3048}) {
		t.Errorf("nominal size is %+v", o.Leaf.Nominal)
	}
}

func TestSameAs(t *testing.T) {
	j, err := decode(`
job: same
openings:
  - {id: c, same_as: b, leaf: {height: 2 m, weight: unknown}, closer: {gauged: []}}
  - id: a
    name: first
    leaf: {width: 0.9 m, weight: 50 kg}
    closer:
      gauged: [{angle: 5 deg, opening: 20 N, closing: 12 N, at: 0.8 m}]
    readings: [{fact: powered.dwell, value: 6 s}]
    survey: {seen: once}
  - {id: b, same_as: a, name: second, leaf: {width: 1 m, height: }}
`)
	if err != nil {
		t.Fatal(err)
	}
	c, b := j.Openings[0], j.Openings[2]
	if b.Leaf.Width.Text != "1 m" || b.Leaf.Weight.Text != "50 kg" || len(b.Closer.Gauged) != 1 || b.Name != "second" {
		t.Errorf("b is %+v, want a's fields save the width and the name", b)
	}
	if c.Leaf.Width.Text != "1 m" || c.Leaf.Height.Text != "2 m" {
		t.Errorf("c's leaf is %+v, want the width of b and a height of its own", c.Leaf)
	}
	if c.Leaf.Weight.Known || len(c.Closer.Gauged) != 0 {
		t.Errorf("c took over %+v and %v, which it says are unknown and none", c.Leaf.Weight, c.Closer.Gauged)
	}
	if c.Name != "" || len(c.Readings)+len(c.Survey)+len(b.Readings)+len(b.Survey) != 0 {
		t.Error("a name, readings or survey notes were taken over")
	}
}

func TestEncodings(t *testing.T) {
	const good = "job: x\nopenings: [{id: 1}]\n"
	for _, c := range []struct{ name, text, want string }{
		{"UTF-8 with a byte order mark", "\xef\xbb\xbf" + good, ""},
		{"Windows line ends", strings.ReplaceAll(good, "\n", "\r\n"), ""},
		{"UTF-16, little end first", "\xff\xfej\x00o\x00", "job.yaml: found text that looks like UTF-16, needed a text file in UTF-8; hint: save it again with the encoding UTF-8"},
		{"UTF-16 without a mark", "\x00j\x00o", "looks like UTF-16"},
		{"Latin-1", "job: Caf\xe9\n", "job.yaml:1:9: found the byte E9, needed a text file in UTF-8; hint: it looks like Latin-1"},
		{"NUL", "job: x\nsite: y\x00\n", "job.yaml:2:8: found the control character U+0000"},
		{"empty", "", "job.yaml: found an empty file"},
		{"blank", " \n\t\n", "job.yaml: found an empty file"},
		{"null", "~\n", "job.yaml:1:1: found an empty document"},
	} {
		_, err := decode(c.text)
		if (err == nil) != (c.want == "") || err != nil && !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want %q", c.name, err, c.want)
		}
	}
}

func TestHostileFiles(t *testing.T) {
	bomb := "a: &a [x,x,x,x,x,x,x,x,x]\n"
	for c := 'b'; c < 'k'; c++ {
		bomb += fmt.Sprintf("%c: &%c [%s]\n", c, c, strings.Repeat(fmt.Sprintf("*%c,", c-1), 9))
	}
	for name, text := range map[string]string{
		"aliases":        bomb,
		"deep brackets":  "job: " + strings.Repeat("[", 200_000),
		"deep notes":     "job: x\nnotes: " + strings.Repeat("{a: ", 500) + strings.Repeat("}", 500) + "\nopenings: [{id: 1}]\n",
		"many problems":  "job: x\nopenings:\n" + strings.Repeat("  - {ids: 1}\n", 20_000),
		"too long":       strings.Repeat("# comment\n", 1_800_000),
		"many values":    "job: x\nnotes: {a: [" + strings.Repeat("a,", 3_000_000) + "]}\n",
		"many names":     "job: x\nopenings:\n" + strings.Repeat("  - {id: a, same_as: b}\n", 50_000),
		"one long word":  "job: x\nopenings:\n  - " + strings.Repeat("a", 1_000_000) + ": 1\n",
		"long quantity":  "job: x\nopenings:\n  - {id: 1, leaf: {width: " + strings.Repeat("9", 1_000_000) + " in}}\n",
		"circle of many": circle(5000),
	} {
		_, err := decode(text)
		var problems job.Problems
		if !errors.As(err, &problems) {
			t.Errorf("%s: error %v, want job.Problems", name, err)
		}
		if n := len(problems.Error()); n > 200_000 {
			t.Errorf("%s: %d bytes of problems, more than anybody reads", name, n)
		}
	}
}

// circle is a job of n openings of which each is the same as the next.
func circle(n int) string {
	var b strings.Builder
	b.WriteString("job: x\nopenings:\n")
	for i := range n {
		fmt.Fprintf(&b, "  - {id: %d, same_as: %d}\n", i, (i+1)%n)
	}
	return b.String()
}

func TestFilesBesideTheJob(t *testing.T) {
	files := fstest.MapFS{
		"secret.yaml":       {Data: []byte("arms: []\n")},
		"clinic/job.yaml":   {Data: []byte("job: x\nsheet_files: [./more/../seals.yaml, seals.yaml, ../secret.yaml, more]\nopenings: [{id: 1, seal: {sheet: S}}]\n")},
		"clinic/seals.yaml": {Data: []byte("seals: [{name: S, force: 1 lbf}]\n")},
		"clinic/more/x":     {},
	}
	_, err := job.Decode(files, "clinic/job.yaml")
	const want = `clinic/job.yaml:2:37: sheet_files[1]: found "seals.yaml" again, needed a name of its own for each file; hint: the other one is at clinic/job.yaml:2:15
clinic/job.yaml:2:49: sheet_files[2]: found "../secret.yaml", needed a file in the job's folder; hint: give its path from the job file, with / between folders and no ..
clinic/job.yaml:2:65: sheet_files[3]: found "more", needed a file in the job's folder; hint: this is not a file`
	if err == nil || err.Error() != want {
		t.Errorf("error is\n%v\nwant\n%s", err, want)
	}
	_, err = job.Decode(files, "clinic/jobs.yaml")
	if err == nil || !strings.HasPrefix(err.Error(), "clinic/jobs.yaml: found no such file") {
		t.Errorf("error is %v, want one that names the file", err)
	}
}
