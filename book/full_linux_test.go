package book_test

import (
	"errors"
	"fmt"
	"os"
	"strings"
	"syscall"
	"testing"

	"swingwright/book"
)

// On a disk that is really full, writes and attachments are refused by name, nothing
// that was acknowledged is lost, and the book goes on once there is room.
func TestReallyFullDisk(t *testing.T) {
	disk := t.TempDir()
	if err := syscall.Mount("tmpfs", disk, "tmpfs", 0, "size=3m"); err != nil {
		t.Skip("a small disk can be made by root alone: ", err)
	}
	t.Cleanup(func() { syscall.Unmount(disk, 0) })
	filler := disk + "/filler"
	if err := os.WriteFile(filler, make([]byte, 1<<20), 0o666); err != nil {
		t.Fatal(err)
	}
	b, err := book.Create(t.Context(), disk+"/b")
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if err := b.Import(t.Context(), noon, marlow, "q", &book.Files{Name: "job.yaml", Texts: map[string]string{"job.yaml": small}}); err != nil {
		t.Fatal(err)
	}
	acked := map[string]int64{}
	note := func(i int) book.Change {
		return whole(book.Change{ID: fmt.Sprint("w", i), Kind: book.Note, Subject: "q.1", Value: strings.Repeat("full ", 2000)})
	}
	for i := 0; ; i++ {
		r, err := b.Apply(t.Context(), noon, note(i))
		if err != nil {
			if !errors.Is(err, book.ErrFull) {
				t.Error(err)
			}
			break
		}
		acked[r[0].ID] = r[0].Revision
	}
	if _, _, err := b.Store(strings.NewReader(strings.Repeat("photo", 500_000)), 1<<30); !errors.Is(err, book.ErrFull) {
		t.Error(err)
	}
	sound(t, b)
	if err := os.Remove(filler); err != nil {
		t.Fatal(err)
	}
	for i := range len(acked) + 1 {
		r, err := b.Apply(t.Context(), noon, note(i))
		if err != nil {
			t.Fatal(err)
		}
		if n, was := acked[r[0].ID]; was && (!r[0].Again || r[0].Revision != n) {
			t.Error(r)
		}
	}
	sound(t, b)
	t.Logf("full after %d writes", len(acked))
}
