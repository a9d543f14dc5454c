package book_test

import (
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"swingwright/book"
)

var newFixture = flag.String("fixture", "", "make the fixture of the newest schema in this folder, once, when a schema is new")

// small is the job of the fixtures.
const small = `# A small job.
job: Quay
openings:
  - id: "1" # the front door
    name: Street to hall
    leaf: {width: 36 in}
  - id: "2"
`

// makeFixture fills a book with something of everything.
func makeFixture(t *testing.T, dir string) {
	b, err := book.Create(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := b.Import(t.Context(), noon, marlow, "q", &book.Files{Name: "job.yaml", Texts: map[string]string{"job.yaml": small}}); err != nil {
		t.Fatal(err)
	}
	digest, size, err := b.Store(strings.NewReader("a photo"), 100)
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range []book.Change{
		{Kind: book.Set, Subject: "q.1", Path: "leaf.width", Value: "35-3/4 in", Device: "phone", Seq: 1, Instrument: "tape"},
		{Kind: book.Set, Subject: "q.1", Path: "leaf.width", Value: "35 in", Device: "tablet", Seq: 1, Base: 3},
		{Kind: book.Add, Subject: "q.1", Path: "readings", Value: "{fact: closing.time_90_to_10, value: 6 s}"},
		{Kind: book.Note, Subject: "q.1", Value: "squeaks in the cold"},
		{Kind: book.Attach, Subject: "q.2", Value: fmt.Sprintf(`{"what": "photo", "name": "sill.png", "type": "image/png", "hash": %q, "size": %d}`, digest, size)},
		{Kind: book.Sign, Subject: "q.1", Value: `{"name": "J. Marlow", "text": "left as found"}`},
		{Kind: book.Withdraw, Subject: "q.2"},
	} {
		c.ID = fmt.Sprint("fixture-", i)
		keep(t, b, c)
	}
	if err := b.SaveSummary(t.Context(), "q.1", 9, book.Summary{State: "go", Missing: 3}); err != nil {
		t.Fatal(err)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
}

func TestMakeFixture(t *testing.T) {
	if *newFixture == "" {
		t.Skip("only when a schema is new: -fixture testdata/schema-N")
	}
	makeFixture(t, *newFixture)
}

// The books of all schemas that ever were, in testdata, are brought up to the newest with
// all that they hold.
func TestEverySchema(t *testing.T) {
	fixtures, err := filepath.Glob("testdata/schema-*")
	steps, wrong := fs.Glob(book.Schema(), "*.sql")
	if err != nil || wrong != nil || len(fixtures) != len(steps)+book.InGo() {
		t.Fatalf("%d fixtures of %d schemas: make the one that is missing with -fixture; %v %v", len(fixtures), len(steps)+book.InGo(), err, wrong)
	}
	for i, fixture := range fixtures {
		t.Run(filepath.Base(fixture), func(t *testing.T) {
			dir := t.TempDir()
			if err := os.CopyFS(dir, os.DirFS(fixture)); err != nil {
				t.Fatal(err)
			}
			b, err := book.Open(t.Context(), dir)
			if err != nil {
				t.Fatal(err)
			}
			defer b.Close()
			holds(t, b)
			_, err = os.Stat(fmt.Sprintf("%s/before-schema-%d.sqlite", dir, i+2))
			if old := i+1 < len(fixtures); old != (err == nil) {
				t.Errorf("a copy from before: %v", err)
			}
		})
	}
}

// holds finds what makeFixture put in.
func holds(t *testing.T, b *book.Book) {
	t.Helper()
	v := sound(t, b)
	if v.Revisions != 10 || v.Attachments != 1 {
		t.Errorf("%+v", v)
	}
	files, _, err := b.Export(t.Context(), "q", 3)
	if err != nil || files.Texts["job.yaml"] != small {
		t.Error(files, err)
	}
	files, _, err = b.Export(t.Context(), "q", 0)
	want := "# A small job.\njob: Quay\nopenings:\n  - id: \"1\" # the front door\n    name: Street to hall\n    leaf: {width: 35-3/4 in}\n    readings:\n      - {fact: closing.time_90_to_10, value: 6 s}\n"
	if err != nil || files.Texts["job.yaml"] != want {
		t.Error(files, err)
	}
	if list, err := b.Disputes(t.Context(), "q.1", 9); len(list) != 1 || list[0].Change.Value != "35 in" {
		t.Error(list, err)
	}
	if found, err := b.Search(t.Context(), "", "squeaks", 9); len(found) != 1 {
		t.Error(found, err)
	}
	list, err := b.List(t.Context(), book.Filter{Summary: "go"})
	if len(list) != 1 || list[0].Summary.Missing != 3 {
		t.Error(list, err)
	}
	keep(t, b, book.Change{Kind: book.Set, Subject: "q.1", Path: "name", Value: "Street to lobby"})
	sound(t, b)
}

// next is the schema with one more step.
func next(t *testing.T, step string) fs.FS {
	t.Helper()
	steps := fstest.MapFS{}
	names, err := fs.Glob(book.Schema(), "*.sql")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		text, err := fs.ReadFile(book.Schema(), name)
		if err != nil {
			t.Fatal(err)
		}
		steps[name] = &fstest.MapFile{Data: text}
	}
	steps["99999_next.sql"] = &fstest.MapFile{Data: []byte("-- +goose Up\n" + step)}
	return steps
}

// A newer program brings the book up with a copy made first; then this one refuses it.
func TestUpgrade(t *testing.T) {
	dir := t.TempDir() + "/b"
	makeFixture(t, dir)
	b, err := book.OpenWith(t.Context(), dir, next(t, "ALTER TABLE part ADD COLUMN more TEXT NOT NULL DEFAULT 'x';"))
	if err != nil {
		t.Fatal(err)
	}
	var more string
	if err := b.Database().QueryRow("SELECT more FROM part WHERE key = 'q.1'").Scan(&more); err != nil || more != "x" {
		t.Error(more, err)
	}
	b.Close()
	if _, err := book.Open(t.Context(), dir); !errors.Is(err, book.ErrNewer) {
		t.Error(err)
	}
	copies, _ := filepath.Glob(dir + "/before-schema-*.sqlite")
	if len(copies) != 1 {
		t.Fatal(copies)
	}
	if err := os.Rename(copies[0], dir+"/book.sqlite"); err != nil { // put back
		t.Fatal(err)
	}
	old, err := book.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	defer old.Close()
	holds(t, old)
}

// A step that fails leaves the book as it was.
func TestUpgradeFails(t *testing.T) {
	dir := t.TempDir() + "/b"
	makeFixture(t, dir)
	if _, err := book.OpenWith(t.Context(), dir, next(t, "DELETE FROM revision;\nALTER TABLE none ADD COLUMN more TEXT;")); err == nil {
		t.Fatal("a step that cannot be done was done")
	}
	b, err := book.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	holds(t, b)
}

// Programs that open an old book at the same moment bring it up once, and all go on.
func TestUpgradedAtOnce(t *testing.T) {
	for range 5 {
		dir := t.TempDir()
		if err := os.CopyFS(dir, os.DirFS("testdata/schema-1")); err != nil {
			t.Fatal(err)
		}
		var wait sync.WaitGroup
		for range 3 {
			wait.Go(func() {
				b, err := book.Open(t.Context(), dir)
				if err != nil {
					t.Error(err)
					return
				}
				defer b.Close()
				if found, err := b.Search(t.Context(), "q", "squeaks", 9); err != nil || len(found) != 1 {
					t.Error(found, err)
				}
			})
		}
		wait.Wait()
	}
}
