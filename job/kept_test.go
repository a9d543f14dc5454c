package job

import (
	"strings"
	"testing"
	"testing/fstest"
)

// Readings kept beside a job count like its own, after them; slips in their file are
// told with its place.
func TestKeptReadings(t *testing.T) {
	const text = "job: x\nreading_files: [kept.yaml]\nopenings:\n  - id: a\n    readings: [{fact: powered.dwell, value: 5 s}]\n"
	files := fstest.MapFS{
		"job.yaml":  {Data: []byte(text)},
		"kept.yaml": {Data: []byte("kept:\n  - of: a\n    readings: [{fact: powered.dwell, value: 6 s}]\n")},
	}
	j, err := Decode(files, "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if r := j.Openings[0].Readings; len(r) != 2 || r[1].Value != "6 s" {
		t.Errorf("readings: %+v", r)
	}
	files["kept.yaml"] = &fstest.MapFile{Data: []byte("kept:\n  - of: b\n    readings: [{fact: powered.dwel, value: 6 s}]\n")}
	_, err = Decode(files, "job.yaml")
	for _, want := range []string{`kept.yaml:2:9: kept[0].of: found "b"`, `kept.yaml:3:23: kept[0].readings[0].fact`, "did you mean powered.dwell?"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v does not tell %q", err, want)
		}
	}
}
