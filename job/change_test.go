package job

import (
	"strings"
	"testing"
	"testing/fstest"
)

const changeable = `job: x
sheets:
  arms:
    - {name: arm R, kind: regular, main_arm: 11 in}
    - {name: arm T, kind: top-jamb, main_arm: 11 in}
openings:
  - id: a
    name: first
    leaf: {width: 36 in, height: 84 in}
    closer: {arm: arm R, size: 3}
    readings: [{fact: powered.dwell, value: 6 s}]
  - {id: b, in_place_of: a, closer: {arm: arm T}}
`

func changeableJob(t *testing.T) *Job {
	t.Helper()
	j, err := Decode(fstest.MapFS{"job.yaml": {Data: []byte(changeable)}}, "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// What may stand in place of an opening takes its fields over, as a change given in
// a line does.
func TestChange(t *testing.T) {
	j := changeableJob(t)
	typed, err := Change(j, "a", "closer: {arm: arm T}", "--if")
	if err != nil {
		t.Fatal(err)
	}
	written := j.Openings[1]
	for name, o := range map[string]struct{ arm, of, name string }{
		"typed":   {typed.Closer.Arm, typed.InPlaceOf, typed.Name},
		"written": {written.Closer.Arm, written.InPlaceOf, written.Name},
	} {
		if o.arm != "arm T" || o.of != "a" || o.name != "" {
			t.Errorf("%s: %+v", name, o)
		}
	}
	if typed.Leaf.Width != j.Openings[0].Leaf.Width || typed.Closer.Size != j.Openings[0].Closer.Size || len(typed.Readings) != 0 {
		t.Errorf("taken over: %+v", typed)
	}
	if j.Openings[0].Closer.Arm != "arm R" {
		t.Error("the opening itself was changed")
	}
}

// Slips in a change are told like slips in a file.
func TestChangeTellsSlips(t *testing.T) {
	j := changeableJob(t)
	for text, want := range map[string]string{
		"closer: {arm: arm X}":    `--if:1:15: closer.arm: found "arm X"`,
		"closer: {armm: arm T}":   "did you mean arm?",
		"leaf: {width: 36}":       "it has no unit",
		"closer {":                "--if:1",
		"- a":                     "fields such as",
		"":                        "--if",
		"leaf: {width: 3 in\x00}": "--if",
	} {
		if _, err := Change(j, "a", text, "--if"); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
	if _, err := Change(j, "z", "leaf: {}", "--if"); err == nil {
		t.Error("an opening that is not there was changed")
	}
}
