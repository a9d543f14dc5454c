package book_test

import (
	"context"
	"os"
	"testing"

	"pgregory.net/rapid"
)

var background = context.Background()

func TestMain(m *testing.M) {
	if dir := os.Getenv("BOOK_WRITER"); dir != "" {
		os.Exit(writer(dir))
	}
	if what := os.Getenv("BOOK_DO"); what != "" {
		os.Exit(do(what, os.Getenv("BOOK_ROOT")))
	}
	code := m.Run()
	if benchDir != "" {
		os.RemoveAll(benchDir)
	}
	os.Exit(code)
}

// tempDir is a folder for one draw of a property test.
func tempDir(t *rapid.T) (string, error) {
	dir, err := os.MkdirTemp("", "book")
	t.Cleanup(func() { os.RemoveAll(dir) })
	return dir + "/book", err
}
