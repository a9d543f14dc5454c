package job_test

import (
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"swingwright/job"
)

var update = flag.Bool("update", false, "write the lists of problems beside the broken files")

// TestBrokenFiles holds the list of problems of each broken file against the
// list beside it, which a person has read: each line has to send a stranger to
// the right place and tell what to do there.
func TestBrokenFiles(t *testing.T) {
	const dir = "testdata/broken"
	files, err := filepath.Glob(dir + "/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatal("no broken files", err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			_, err := job.Decode(os.DirFS(dir), filepath.Base(file))
			var problems job.Problems
			if !errors.As(err, &problems) {
				t.Fatalf("error is %v, want job.Problems", err)
			}
			got := problems.Error() + "\n"
			list := strings.TrimSuffix(file, ".yaml") + ".txt"
			if *update {
				if err := os.WriteFile(list, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(list)
			if err != nil {
				t.Fatal(err)
			}
			if got != string(want) {
				t.Errorf("got\n%s\nwant\n%s", got, want)
			}
		})
	}
}
