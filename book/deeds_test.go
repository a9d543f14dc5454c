package book_test

import (
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"

	"swingwright/book"
)

// A deed is something that a program does to books in a folder, while a test cuts the power or lets the disk fail. What
// it does is done by a child; it tells of each thing that was acknowledged to it.
type deed struct {
	name  string
	begin func(t *testing.T, root string) // makes what the folder holds before
	do    func(root string, tell func(...any)) error
	// holds looks at the folder after it went wrong, as the next program would find it, when these lines had been told
	holds func(t *testing.T, root string, told []string)
}

// deeds are what is done to books.
var deeds = []deed{
	{"make", func(*testing.T, string) {}, func(root string, tell func(...any)) error {
		b, err := book.Create(background, root+"/b")
		if err == nil {
			err = b.Import(background, noon, marlow, "q", &book.Files{Name: "job.yaml", Texts: map[string]string{"job.yaml": small}})
		}
		if err == nil {
			tell("imported")
			err = b.Close()
		}
		return err
	}, func(t *testing.T, root string, told []string) {
		if len(told) == 0 {
			return // nobody was told that there is a book
		}
		b := reopened(t, root+"/b")
		if files, _, err := b.Export(t.Context(), "q", 0); err != nil || files.Texts["job.yaml"] != small {
			t.Error(files, err)
		}
	}},
	{"enter", func(t *testing.T, root string) { makeFixture(t, root+"/b") }, func(root string, tell func(...any)) error {
		b, err := book.Open(background, root+"/b")
		if err != nil {
			return err
		}
		for i := range 12 {
			changes := []book.Change{whole(book.Change{ID: fmt.Sprint("e", i), Kind: book.Note, Subject: "q.1", Value: strings.Repeat("a note ", 1+300*(i%4))}),
				whole(book.Change{ID: fmt.Sprint("f", i), Kind: book.Set, Subject: "q.1", Path: "name", Value: fmt.Sprint("Name ", i)})}
			if i%5 == 1 {
				digest, size, err := b.Store(strings.NewReader(fmt.Sprint("photo ", i, strings.Repeat(" of a door", 2000))), 1<<20)
				if err != nil {
					return err
				}
				changes = append(changes, whole(book.Change{ID: fmt.Sprint("g", i), Kind: book.Attach, Subject: "q.1", Value: fmt.Sprintf(`{"what": "photo", "name": "a", "type": "image/png", "hash": %q, "size": %d}`, digest, size)}))
			}
			receipts, err := b.Apply(background, noon, changes...)
			if err != nil {
				return err
			}
			for _, r := range receipts {
				tell(r.ID, r.Revision)
			}
		}
		return b.Close()
	}, func(t *testing.T, root string, told []string) { entered(t, reopened(t, root+"/b"), told) }},
	{"bring up", func(t *testing.T, root string) { copied(t, "testdata/schema-1", root+"/b") }, func(root string, tell func(...any)) error {
		b, err := book.Open(background, root+"/b")
		if err != nil {
			return err
		}
		tell("up")
		return b.Close()
	}, func(t *testing.T, root string, told []string) {
		holds(t, reopened(t, root+"/b"))
		// the copy from before is whole wherever it is there, and it is there wherever the book is newer
		before := t.TempDir() + "/before"
		copied(t, root+"/b/attachments", before+"/attachments")
		data, err := os.ReadFile(root + "/b/before-schema-2.sqlite")
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(before+"/book.sqlite", data, 0o600); err != nil {
			t.Fatal(err)
		}
		holds(t, reopened(t, before))
	}},
	{"back up", func(t *testing.T, root string) { makeFixture(t, root+"/b") }, backUp, func(t *testing.T, root string, told []string) {
		holds(t, reopened(t, root+"/b"))
		if _, err := os.Stat(root + "/stick/book.sqlite"); err == nil {
			holds(t, reopened(t, root+"/stick")) // whole, with its attachments, or not there
		} else if len(told) > 0 {
			t.Error("a backup that was acknowledged is not there:", err)
		}
	}},
	{"back up again", func(t *testing.T, root string) {
		makeFixture(t, root+"/b")
		if err := backUp(root, func(...any) {}); err != nil {
			t.Fatal(err)
		}
		b := reopened(t, root+"/b")
		digest, size, err := b.Store(strings.NewReader("another photo"), 100)
		if err != nil {
			t.Fatal(err)
		}
		keep(t, b, book.Change{ID: "later", Kind: book.Attach, Subject: "q.1", Value: fmt.Sprintf(`{"what": "photo", "name": "a", "type": "image/png", "hash": %q, "size": %d}`, digest, size)})
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
	}, backUp, func(t *testing.T, root string, told []string) {
		stick := reopened(t, root+"/stick")
		want := int64(11)
		if head, _, err := stick.Head(t.Context()); err != nil || head != want && (len(told) > 0 || head != want-1) {
			t.Errorf("the backup is at revision %d: %v", head, err)
		}
		entered(t, reopened(t, root+"/b"), []string{"later 11"})
	}},
	{"compact", func(t *testing.T, root string) {
		makeFixture(t, root+"/b")
		b := reopened(t, root+"/b")
		for i := range 30 {
			keep(t, b, book.Change{ID: fmt.Sprint("n", i), Kind: book.Note, Subject: "q.1", Value: strings.Repeat("a note ", 300)})
		}
		if _, _, err := b.Store(strings.NewReader("belongs to nothing"), 100); err != nil {
			t.Fatal(err)
		}
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
	}, func(root string, tell func(...any)) error {
		b, err := book.Open(background, root+"/b")
		if err == nil {
			err = b.Compact(background, noon.AddDate(1, 0, 0))
		}
		if err == nil {
			tell("compacted")
			err = b.Close()
		}
		return err
	}, func(t *testing.T, root string, told []string) {
		var notes []string
		for i := range 30 {
			notes = append(notes, fmt.Sprintf("n%d %d", i, 11+i))
		}
		entered(t, reopened(t, root+"/b"), notes)
	}},
}

// backUp backs the book up.
func backUp(root string, tell func(...any)) error {
	b, err := book.Open(background, root+"/b")
	if err == nil {
		_, err = b.Backup(background, root+"/stick")
	}
	if err == nil {
		tell("backed up")
		err = b.Close()
	}
	return err
}

// do does a deed, as the child.
func do(what, root string) int {
	for _, d := range deeds {
		if d.name == what {
			if err := d.do(root, func(line ...any) { fmt.Println(line...) }); err != nil {
				fmt.Fprintln(os.Stderr, err)
				return 1
			}
			return 0
		}
	}
	return 2
}

// reopened opens a book as the next program does, and finds it sound.
func reopened(t *testing.T, dir string) *book.Book {
	t.Helper()
	b, err := book.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { b.Close() })
	sound(t, b)
	return b
}

// entered finds in a book what was told as entered: identities with their revisions.
func entered(t *testing.T, b *book.Book, told []string) {
	t.Helper()
	for _, line := range told {
		id, number, _ := strings.Cut(line, " ")
		var n string
		if err := b.Database().QueryRow("SELECT n FROM revision WHERE id = ?", id).Scan(&n); err != nil || n != number {
			t.Errorf("%s was acknowledged as revision %s and is %s: %v", id, number, n, err)
		}
	}
}

func copied(t *testing.T, from, to string) {
	t.Helper()
	if err := errors.Join(os.MkdirAll(to, 0o777), os.CopyFS(to, os.DirFS(from))); err != nil {
		t.Fatal(err)
	}
}
