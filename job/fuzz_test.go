package job_test

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"swingwright/job"
)

// FuzzDecode holds that whatever bytes are read, there is either a job or a
// list of problems that can be printed, and never a panic.
func FuzzDecode(f *testing.F) {
	seeds, err := filepath.Glob("testdata/broken/*.yaml")
	if err != nil {
		f.Fatal(err)
	}
	for _, file := range append(seeds, "../demo/harbour-street-clinic/job.yaml", "../demo/harbour-street-clinic/sheets/arms.yaml") {
		text, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	f.Fuzz(func(t *testing.T, text string) {
		j, err := decode(text)
		var problems job.Problems
		switch {
		case err == nil && (j == nil || j.Name == "" || len(j.Openings) == 0):
			t.Errorf("%+v is no job, and there is no problem", j)
		case err != nil && (!errors.As(err, &problems) || problems.Error() == ""):
			t.Errorf("error %v is no list of problems", err)
		}
	})
}
