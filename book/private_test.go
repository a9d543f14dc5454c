package book_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"swingwright/book"
)

// Nobody but its owner can read a book, a backup, or a copy from before an upgrade, while it is
// being made either; who gave a folder to others on purpose is not overruled.
func TestPrivate(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("files have no such permissions there")
	}
	b, _ := clinic(t)
	dir := b.Dir()
	backup := filepath.Join(t.TempDir(), "stick", "clinic.book")
	if _, err := b.Backup(t.Context(), backup); err != nil {
		t.Fatal(err)
	}
	shared := filepath.Join(t.TempDir(), "shared")
	if err := os.Mkdir(shared, 0o755); err != nil {
		t.Fatal(err)
	}
	if _, err := b.Backup(t.Context(), shared); err != nil {
		t.Fatal(err)
	}
	old := t.TempDir() + "/old"
	if err := os.CopyFS(old, os.DirFS("testdata/schema-1")); err != nil {
		t.Fatal(err)
	}
	upgraded, err := book.Open(t.Context(), old)
	if err != nil {
		t.Fatal(err)
	}
	defer upgraded.Close()
	files := 0
	for _, folder := range []string{dir, backup, shared, old} {
		err := filepath.WalkDir(folder, func(name string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.Contains(d.Name(), ".sqlite") {
				return err
			}
			if folder == old && !strings.HasPrefix(d.Name(), "before-schema-") {
				return nil // as it was given to us
			}
			files++
			if info, err := d.Info(); err != nil || info.Mode().Perm() != 0o600 {
				t.Errorf("%s can be read by others: %v, %v", name, info.Mode(), err)
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if files < 6 { // three databases, the log of the open one, and the copy
		t.Errorf("only %d files were looked at", files)
	}
	for folder, want := range map[string]fs.FileMode{dir: 0o700, backup: 0o700, shared: 0o755, filepath.Dir(backup): 0o755} {
		if info, err := os.Stat(folder); err != nil || info.Mode().Perm()&^0o022 != want {
			t.Errorf("%s: %v, not %v; %v", folder, info.Mode(), want, err)
		}
	}
	if err := upgraded.Private(); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]fs.FileMode{"/book.sqlite": 0o600, "/before-schema-2.sqlite": 0o600, "/attachments": 0o700} {
		if info, err := os.Stat(old + name); err != nil || info.Mode().Perm() != want {
			t.Errorf("%s: %v, %v", name, info.Mode(), err)
		}
	}
}
