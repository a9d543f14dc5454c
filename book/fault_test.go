package book_test

import (
	"bytes"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"swingwright/book"
)

// filled is a book with some of everything, closed, in one file.
func filled(t *testing.T) (dir string) {
	t.Helper()
	b, dir := newBook(t)
	files, err := book.ReadFiles(os.DirFS(demo), "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if err := b.Import(t.Context(), noon, marlow, "c", files); err != nil {
		t.Fatal(err)
	}
	digest, size, err := b.Store(strings.NewReader("a photo"), 100)
	if err != nil {
		t.Fatal(err)
	}
	keep(t, b, book.Change{Kind: book.Attach, Subject: "c.1", Value: fmt.Sprintf(`{"what": "photo", "name": "a", "type": "image/png", "hash": %q, "size": %d}`, digest, size)})
	for i := range 60 {
		keep(t, b, book.Change{ID: fmt.Sprint("f", i), Kind: book.Set, Subject: fmt.Sprint("c.", 1+i%7), Path: "name", Value: fmt.Sprint("Name ", i)})
		keep(t, b, book.Change{ID: fmt.Sprint("g", i), Kind: book.Note, Subject: fmt.Sprint("c.", 1+i%7), Value: fmt.Sprint("note ", i)})
	}
	keep(t, b, book.Change{Kind: book.Sign, Subject: "c.1", Value: `{"name": "A", "text": "done"}`})
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	return dir
}

// everything is all that a book says, as a reader sees it.
func everything(t *testing.T, b *book.Book) (string, error) {
	var all strings.Builder
	list, err := b.Since(t.Context(), "c", 0, 10000)
	if err != nil {
		return "", err
	}
	for _, r := range list {
		fmt.Fprintf(&all, "%+v %s\n", *r, r.Seal())
	}
	files, _, err := b.Export(t.Context(), "c", 0)
	if err != nil {
		return "", err
	}
	for _, name := range []string{"job.yaml", "sheets/arms.yaml"} {
		all.WriteString(files.Texts[name])
	}
	entries, err := b.List(t.Context(), book.Filter{Limit: 1000})
	fmt.Fprintf(&all, "%+v", entries)
	return all.String(), err
}

// A byte that is not as it was is found, or nothing that was entered has changed:
// some bytes of a database hold nothing.
func TestFlippedBytes(t *testing.T) {
	dir := filled(t)
	name := filepath.Join(dir, "book.sqlite")
	good, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	b, err := book.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	want, err := everything(t, b)
	if err != nil {
		t.Fatal(err)
	}
	b.Close()
	const flips = 150
	random := rand.New(rand.NewPCG(7, 8))
	found, silent := 0, 0
	for range flips {
		bad := bytes.Clone(good)
		at := random.IntN(len(bad))
		bad[at] ^= 1 << random.IntN(8)
		if err := os.WriteFile(name, bad, 0o666); err != nil {
			t.Fatal(err)
		}
		if detected(t, dir, at, want) {
			found++
		} else {
			silent++
		}
	}
	t.Logf("of %d flipped bits %d were found and %d hold nothing", flips, found, silent)
	if found < flips/4 {
		t.Error("too few were found to believe it")
	}
}

// Whatever byte of what somebody signed, or of anything entered before, is not as it was, is found; but
// for copies of it that SQLite left in the unused room of its pages, which say nothing to anybody.
func TestSealedBytes(t *testing.T) {
	dir := filled(t)
	b, err := book.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	// no page of the file is left that holds what stood there once
	if err := b.Compact(t.Context(), noon); err != nil {
		t.Fatal(err)
	}
	signed, err := b.History(t.Context(), "c.1", false, 0, 1)
	if err != nil || signed[0].Kind != book.Sign {
		t.Fatal(signed, err)
	}
	list, err := b.Since(t.Context(), "c", 0, 10000)
	if err != nil {
		t.Fatal(err)
	}
	want, err := everything(t, b)
	if err != nil {
		t.Fatal(err)
	}
	b.Close()
	name := filepath.Join(dir, "book.sqlite")
	good, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	var places []int
	for _, r := range list {
		hash, err := hex.DecodeString(r.Seal())
		if err != nil {
			t.Fatal(err)
		}
		for _, text := range []string{r.ID, r.Value, r.Path, r.Who, r.Splice.Put, r.Splice.Cut, r.Made.UTC().Format("2006-01-02T15:04:05.000Z"), string(hash)} {
			if len(text) < 5 { // found anywhere
				continue
			}
			for at := 0; ; {
				i := bytes.Index(good[at:], []byte(text))
				if i < 0 {
					break
				}
				for k := range min(len(text), 2000) {
					places = append(places, at+i+k)
				}
				at += i + len(text)
			}
		}
	}
	slices.Sort(places)
	places = slices.Compact(places)
	if len(places) < len(good)/10 {
		t.Fatalf("only %d bytes of %d are under the seal", len(places), len(good))
	}
	random := rand.New(rand.NewPCG(9, 10))
	const flips = 150
	unused := 0
	for range flips {
		bad := bytes.Clone(good)
		at := places[random.IntN(len(places))]
		bad[at] ^= 1 << random.IntN(8)
		if err := os.WriteFile(name, bad, 0o666); err != nil {
			t.Fatal(err)
		}
		if !detected(t, dir, at, want) {
			unused++
		}
	}
	if unused > flips/20 {
		t.Errorf("%d of %d flips were in room that is said to be unused", unused, flips)
	}
	if err := os.WriteFile(name, good, 0o666); err != nil {
		t.Fatal(err)
	}
	if b, err = book.Open(t.Context(), dir); err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if v, err := b.Verify(t.Context(), signed[0].Seal()); err != nil || len(v.Faults) > 0 || v.SealAt != signed[0].N {
		t.Error(v, err)
	}
	t.Logf("%d bytes of %d are under the seal; of %d flips %d were found, the others in unused room", len(places), len(good), flips, flips-unused)
}

// Whoever alters a book and makes all its hashes anew is not found by the book alone, and is by the seal that stands
// on a signed paper.
func TestResealed(t *testing.T) {
	b, err := book.Open(t.Context(), filled(t))
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	signed, err := b.History(t.Context(), "c.1", false, 0, 1)
	if err != nil {
		t.Fatal(err)
	}
	for _, statement := range []string{"UPDATE revision SET who = 'somebody else' WHERE id = 'f7'", "UPDATE revision SET value = 'another note' WHERE id = 'g7'"} {
		if _, err := b.Database().Exec(statement); err != nil {
			t.Fatal(err)
		}
	}
	if v, err := b.Verify(t.Context(), ""); err != nil || len(v.Faults) == 0 {
		t.Error("altered, and not found", v, err)
	}
	if err := b.Reseal(t.Context()); err != nil {
		t.Fatal(err)
	}
	if v, err := b.Verify(t.Context(), ""); err != nil || len(v.Faults) > 0 {
		t.Error("the forgery is not as good as it was meant to be", v, err)
	}
	v, err := b.Verify(t.Context(), signed[0].Seal())
	if err != nil || len(v.Faults) != 1 || !strings.Contains(v.Faults[0].What, "altered since it was printed") {
		t.Error("the seal on the paper does not tell", v, err)
	}
}

// detected tells whether opening or verify finds a damage; where they do not, the
// book has to say what it said.
func detected(t *testing.T, dir string, at int, want string) bool {
	t.Helper()
	b, err := book.Open(t.Context(), dir)
	if err != nil {
		return true
	}
	defer b.Close()
	v, err := b.Verify(t.Context(), "")
	if err != nil || len(v.Faults) > 0 {
		return true
	}
	if got, err := everything(t, b); err != nil || got != want {
		t.Errorf("byte %d was flipped, nothing was found, and the book says something else: %v", at, err)
	}
	return false
}

// Whoever alters what a revision says, in the database itself, is found at that revision.
func TestAltered(t *testing.T) {
	dir := filled(t)
	for statement, where := range map[string]string{
		"UPDATE revision SET who = 'B' WHERE id = 'f7'":                                  "revision %d",
		"UPDATE revision SET put = 'Else' WHERE id = 'f7'":                               "revision %d",
		"UPDATE revision SET made = '2026-11-25T12:00:00.001Z' WHERE id = 'f7'":          "revision %d",
		"UPDATE revision SET kept = '2027' WHERE id = 'f7'":                              "revision %d",
		"UPDATE revision SET value = 'x' WHERE id = 'g7'":                                "revision %d",
		"UPDATE revision SET state = 'withdrawn' WHERE id = 'f7'":                        "revision %d",
		"UPDATE revision SET hash = zeroblob(32) WHERE id = 'f7'":                        "revision %d",
		"UPDATE revision SET sent = zeroblob(32), digest = zeroblob(32) WHERE id = 'f7'": "revision %d",
		"DELETE FROM revision WHERE id = 'f7'":                                           "revision %d",
		"UPDATE revision SET n = -n WHERE id IN ('f7')":                                  "revision %d",
		"UPDATE part SET text = replace(text, 'width', 'height') WHERE key = 'c.1'":      "opening 101",
		"UPDATE part SET name = '999' WHERE key = 'c.1'":                                 "opening 101",
		"UPDATE part SET state = 'withdrawn' WHERE key = 'c.1'":                          "opening 101",
		"UPDATE part SET conflicts = 1 WHERE key = 'c.1'":                                "part c.1",
		"DELETE FROM part WHERE key = 'c.1'":                                             "opening 101",
		"INSERT INTO conflict VALUES (50, 'c.1', '', 1, 0)":                              "revision 50",
		"UPDATE part SET key = 'c.x' WHERE key = 'c.1'":                                  "part c.x",
		"UPDATE part SET title = 'x' || title WHERE key = 'c.1'":                         "opening 101",
		"UPDATE revision SET outcome = 'conflict', against = 1 WHERE id = 'f7'":          "revision %d",
		"UPDATE revision SET seq = 1, device = 'x' WHERE id = 'f7'":                      "revision %d",
		"INSERT INTO revision SELECT n + 1000, 'z' || id, sent, kind, job, subject, path, value, seen, base, device, seq, who, instrument, made, kept, outcome, against, place, cut, put, state, digest, hash FROM revision WHERE id = 'f7'": "missing",
	} {
		t.Run(statement, func(t *testing.T) {
			copied := t.TempDir()
			if err := os.CopyFS(copied, os.DirFS(dir)); err != nil {
				t.Fatal(err)
			}
			b, err := book.Open(t.Context(), copied)
			if err != nil {
				t.Fatal(err)
			}
			defer b.Close()
			var n int64
			if err := b.Database().QueryRow("SELECT n FROM revision WHERE id = CASE WHEN ? LIKE '%g7%' THEN 'g7' ELSE 'f7' END", statement).Scan(&n); err != nil {
				t.Fatal(err)
			}
			if _, err := b.Database().Exec(statement); err != nil {
				t.Fatal(err)
			}
			v, err := b.Verify(t.Context(), "")
			if err != nil {
				t.Fatal(err)
			}
			if strings.Contains(where, "%d") {
				where = fmt.Sprintf(where, n)
			}
			for _, f := range v.Faults {
				if strings.Contains(f.String(), where) {
					return
				}
			}
			t.Errorf("want %q among %v", where, v.Faults)
		})
	}
}

func TestAttachmentsDamaged(t *testing.T) {
	dir := filled(t)
	var photo string
	err := fs.WalkDir(os.DirFS(dir), "attachments", func(name string, d fs.DirEntry, err error) error {
		if !d.IsDir() {
			photo = filepath.Join(dir, name)
		}
		return err
	})
	if err != nil || photo == "" {
		t.Fatal(err)
	}
	b, err := book.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	check := func(want string) {
		t.Helper()
		v, err := b.Verify(t.Context(), "")
		if err != nil || len(v.Faults) != 1 || !strings.Contains(v.Faults[0].What, want) {
			t.Errorf("%+v, %v", v, err)
		}
	}
	if err := os.WriteFile(photo, []byte("b photo"), 0o666); err != nil {
		t.Fatal(err)
	}
	check("is not what it was")
	if _, err := b.Content(filepath.Base(photo)); !errors.Is(err, book.ErrDamaged) {
		t.Error(err)
	}
	if err := os.Remove(photo); err != nil {
		t.Fatal(err)
	}
	check("is missing")
}

func TestTruncated(t *testing.T) {
	dir := filled(t)
	name := filepath.Join(dir, "book.sqlite")
	good, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	b, err := book.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	want, err := everything(t, b)
	if err != nil {
		t.Fatal(err)
	}
	b.Close()
	for _, size := range []int{0, 1, 100, 4096, 4097, len(good) / 3, len(good) / 2, len(good) - 4096, len(good) - 1} {
		if err := os.WriteFile(name, good[:size], 0o666); err != nil {
			t.Fatal(err)
		}
		if !detected(t, dir, size, want) && size < len(good)-1 { // the very last bytes may hold nothing
			t.Errorf("cut to %d of %d bytes nothing was found", size, len(good))
		}
	}
}

// A full disk refuses, keeps nothing of what it refused and loses nothing.
func TestFullDisk(t *testing.T) {
	b, _ := clinic(t)
	if _, err := b.Database().Exec("PRAGMA max_page_count = 200"); err != nil { // less than 1 MB
		t.Fatal(err)
	}
	acked := map[string]int64{}
	for i := 0; ; i++ {
		id := fmt.Sprint("w", i)
		r, err := b.Apply(t.Context(), noon, whole(book.Change{ID: id, Kind: book.Note, Subject: "c.1", Value: strings.Repeat("full ", 500)}))
		if err != nil {
			if !errors.Is(err, book.ErrFull) || !strings.Contains(err.Error(), "make room") {
				t.Error(err)
			}
			break
		}
		acked[id] = r[0].Revision
	}
	if len(acked) < 10 {
		t.Fatalf("full after %d writes", len(acked))
	}
	sound(t, b)
	if _, err := b.Database().Exec("PRAGMA max_page_count = 100000"); err != nil {
		t.Fatal(err)
	}
	for id, n := range maps.Clone(acked) { // all there: sent again they are told as kept
		r, err := b.Apply(t.Context(), noon, whole(book.Change{ID: id, Kind: book.Note, Subject: "c.1", Value: strings.Repeat("full ", 500)}))
		if err != nil || !r[0].Again || r[0].Revision != n {
			t.Fatal(id, r, err)
		}
	}
	keep(t, b, book.Change{Kind: book.Note, Subject: "c.1", Value: "room again"})
	sound(t, b)
}

// Two programs, here two open books, write at once: each write waits its turn and none is lost.
func TestTwoAtOnce(t *testing.T) {
	one, dir := newBook(t)
	files, err := book.ReadFiles(os.DirFS(demo), "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if err := one.Import(t.Context(), noon, marlow, "c", files); err != nil {
		t.Fatal(err)
	}
	two, err := book.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	defer two.Close()
	before, _, _ := one.Head(t.Context())
	const each = 40
	var wait sync.WaitGroup
	for i, b := range []*book.Book{one, two, one, two} {
		wait.Go(func() {
			for k := range each {
				if _, err := b.Apply(t.Context(), noon, whole(book.Change{Kind: book.Set, Subject: "c.1", Path: fmt.Sprint("survey.by", i), Value: fmt.Sprint(k), Device: fmt.Sprint("d", i), Seq: int64(k + 1)})); err != nil {
					t.Error(err)
				}
			}
		})
	}
	wait.Wait()
	if head, _, _ := two.Head(t.Context()); head != before+4*each {
		t.Errorf("%d of %d writes are there", head-before, 4*each)
	}
	sound(t, two)
}
