package author

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the listings of testdata/broken anew")

// Each broken book is told with every problem, its place and its remedy.
func TestBrokenBooks(t *testing.T) {
	files, err := filepath.Glob("testdata/broken/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatal("no broken books", err)
	}
	for _, file := range files {
		name := filepath.Base(file)
		t.Run(name, func(t *testing.T) {
			book, err := Load(os.DirFS("testdata/broken"), name)
			if err == nil || book != nil {
				t.Fatal("a broken book was accepted")
			}
			listing := strings.TrimSuffix(file, ".yaml") + ".txt"
			if *update {
				if err := os.WriteFile(listing, []byte(err.Error()+"\n"), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, readErr := os.ReadFile(listing)
			if readErr != nil {
				t.Fatal(readErr)
			}
			if got := err.Error() + "\n"; got != string(want) {
				t.Errorf("got\n%s\nwant\n%s", got, want)
			}
		})
	}
}
