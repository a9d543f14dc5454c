package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"swingwright/book"
)

// served is serve under way.
type served struct {
	t    *testing.T
	url  string
	stop func()
	key  string // of the job
}

// serveFolder runs serve on what is named, until stop.
func serveFolder(t *testing.T, what string) *served {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	read, write := io.Pipe()
	done := make(chan int, 1)
	var wrong bytes.Buffer
	go func() {
		done <- run(ctx, []string{"serve", what, "--port", "0"}, nil, write, &wrong)
		write.Close()
	}()
	line, err := bufio.NewReader(read).ReadString('\n')
	if err != nil {
		t.Fatalf("serve said nothing: %v, status %d, %s", err, <-done, &wrong)
	}
	go io.Copy(io.Discard, read)
	s := &served{t: t, url: strings.TrimSpace(strings.TrimPrefix(line, "the site app: "))}
	s.stop = func() {
		cancel()
		if status := <-done; status != 0 {
			t.Errorf("serve ended with %d: %s", status, &wrong)
		}
		s.stop = func() {}
	}
	t.Cleanup(func() { s.stop() })
	var jobs []struct{ Key string }
	if err := json.Unmarshal([]byte(s.get("/api/jobs")), &jobs); err != nil || len(jobs) != 1 {
		t.Fatalf("jobs: %v, %v", jobs, err)
	}
	s.key = jobs[0].Key
	return s
}

func (s *served) get(path string) string {
	s.t.Helper()
	r, err := http.Get(s.url + path)
	if err != nil {
		s.t.Fatal(err)
	}
	defer r.Body.Close()
	text, err := io.ReadAll(r.Body)
	if err != nil || r.StatusCode != 200 {
		s.t.Fatalf("%s: %s, %v: %.300s", path, r.Status, err, text)
	}
	return string(text)
}

// enter enters a value, as the app does.
func (s *served) enter(opening, path, value string) {
	s.t.Helper()
	var job struct{ Keys map[string]string }
	if err := json.Unmarshal([]byte(s.get("/api/jobs/"+s.key)), &job); err != nil {
		s.t.Fatal(err)
	}
	body, err := json.Marshal([]book.Change{{ID: book.NewID(), Kind: book.Set, Subject: job.Keys[opening], Path: path, Value: `"` + value + `"`, Base: book.Latest, Who: "Ada", Made: time.Now()}})
	if err != nil {
		s.t.Fatal(err)
	}
	r, err := http.Post(s.url+"/api/changes", "application/json", bytes.NewReader(body))
	if err != nil {
		s.t.Fatal(err)
	}
	defer r.Body.Close()
	if text, _ := io.ReadAll(r.Body); r.StatusCode != 200 || !bytes.Contains(text, []byte(`"kept"`)) || bytes.Contains(text, []byte("refused")) {
		s.t.Fatalf("%s: %s", r.Status, text)
	}
}

const twoOpenings = `# what the technician wrote
job: one
openings:
  - id: A # by the stairs
    leaf: {width: 36 in, height: 84 in}
  - id: B
    leaf:
      width: 35 in # by tape
`

// edit changes a text in a file, as an editor does.
func edit(t *testing.T, name, from, to string) {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil || !strings.Contains(string(text), from) {
		t.Fatalf("%v: no %q in\n%s", err, from, text)
	}
	if err := os.WriteFile(name, []byte(strings.Replace(string(text), from, to, 1)), 0o666); err != nil {
		t.Fatal(err)
	}
	later := time.Now().Add(2 * time.Second) // for file systems that count in seconds
	if err := os.Chtimes(name, later, later); err != nil {
		t.Fatal(err)
	}
}

// What is entered in the app stands in the job file, what is edited in the file is shown
// in the app, also when serve was not running meanwhile; comments stay.
func TestServeFollowsTheJobFile(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "job.yaml")
	if err := os.WriteFile(name, []byte(twoOpenings), 0o666); err != nil {
		t.Fatal(err)
	}
	says := func(want ...string) {
		t.Helper()
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range want {
			if !strings.Contains(string(text), w) {
				t.Errorf("the job file does not say %q:\n%s", w, text)
			}
		}
	}
	s := serveFolder(t, dir)
	s.enter("B", "leaf.height", "83 in")
	says("83 in", "# what the technician wrote", "# by the stairs", "# by tape")
	var was struct{ Rev int64 }
	if err := json.Unmarshal([]byte(s.get("/api/jobs/"+s.key)), &was); err != nil {
		t.Fatal(err)
	}
	edit(t, name, "36 in", "36-1/4 in")
	// an open page asks what is new
	if text := s.get(fmt.Sprint("/api/jobs/", s.key, "/changes?after=", was.Rev)); strings.Count(text, `"id"`) != 1 || !strings.Contains(text, `"who":"job file job.yaml"`) {
		t.Errorf("nobody who looks at the job is told that its file was edited:\n%s", text)
	}
	// so it is told of what a command enters into the book, and the file has it too
	var said bytes.Buffer
	if run(t.Context(), []string{"book", "enter", filepath.Join(dir, "job.book"), "-o", "A", "set", "leaf.thickness", "1-3/8 in", "--by", "Bo"}, nil, &said, &said) != 0 {
		t.Fatal(said.String())
	}
	if text := s.get(fmt.Sprint("/api/jobs/", s.key, "/changes?after=", was.Rev)); strings.Count(text, `"id"`) != 2 || !strings.Contains(text, `"who":"Bo"`) {
		t.Errorf("nobody who looks at the job is told of what was entered by a command:\n%s", text)
	}
	says("36-1/4 in", "1-3/8 in")
	if text := s.get("/api/jobs/" + s.key); !strings.Contains(text, "36-1/4 in") || !strings.Contains(text, "83 in") {
		t.Errorf("the app does not show what was edited:\n%s", text)
	}
	s.enter("A", "leaf.weight", "110 lb")
	says("36-1/4 in", "110 lb", "83 in")
	s.stop()
	edit(t, name, "35 in", "35-1/2 in")
	s = serveFolder(t, name)
	if text := s.get("/api/jobs/" + s.key); !strings.Contains(text, "35-1/2 in") || !strings.Contains(text, "110 lb") {
		t.Errorf("what was edited while nothing was served is lost:\n%s", text)
	}
	// a file that cannot be understood leaves the book as it is, and is not overwritten
	edit(t, name, "110 lb", "three elephants")
	if text := s.get("/api/jobs/" + s.key); !strings.Contains(text, "110 lb") {
		t.Errorf("a slip in the file took the job away:\n%s", text)
	}
	s.enter("B", "leaf.thickness", "1-3/4 in")
	says("three elephants")
	edit(t, name, "three elephants", "112 lb")
	if text := s.get("/api/jobs/" + s.key); !strings.Contains(text, "112 lb") || !strings.Contains(text, "1-3/4 in") {
		t.Errorf("after the slip was mended:\n%s", text)
	}
	says("112 lb", "1-3/4 in")
}

// A file that is saved in the very moment in which the book writes it is not overwritten, and neither side loses
// anything.
func TestServeMeetsAnEditor(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "job.yaml")
	if err := os.WriteFile(name, []byte(twoOpenings), 0o666); err != nil {
		t.Fatal(err)
	}
	f, err := followJob(t.Context(), name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.book.Close()
	if err := f.read(); err != nil {
		t.Fatal(err)
	}
	a, err := f.last()
	if err != nil {
		t.Fatal(err)
	}
	id, err := f.book.Find(t.Context(), a.Job, "A")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := f.book.Apply(t.Context(), time.Now(), book.Change{ID: "app", Kind: book.Set, Subject: id, Path: "leaf.weight", Value: `"120 lb"`, Base: book.Latest, Who: "Ada", Made: time.Now()}); err != nil {
		t.Fatal(err)
	}
	edit(t, name, "35 in", "35-1/2 in") // after the file was read, before it is written
	if err := f.export(a.Job); err != nil {
		t.Fatal(err)
	}
	for range 2 {
		if err := f.write(); err != nil {
			t.Fatal(err)
		}
		text, err := os.ReadFile(name)
		if err != nil || !strings.Contains(string(text), "35-1/2 in") || !strings.Contains(string(text), "120 lb") {
			t.Errorf("%v:\n%s", err, text)
		}
		files, _, err := f.book.Export(t.Context(), a.Job, 0)
		if err != nil || files.Texts["job.yaml"] != string(text) {
			t.Errorf("%v: the book has\n%s", err, files.Texts["job.yaml"])
		}
	}
}

// A stop between book and file leaves both to be joined again.
func TestServeAfterAStop(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "job.yaml")
	if err := os.WriteFile(name, []byte(twoOpenings), 0o666); err != nil {
		t.Fatal(err)
	}
	s := serveFolder(t, dir)
	key := s.key
	s.stop()
	b, err := book.Open(t.Context(), filepath.Join(dir, "job.book"))
	if err != nil {
		t.Fatal(err)
	}
	id, err := b.Find(t.Context(), key, "A")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := b.Apply(t.Context(), time.Now(), book.Change{ID: "late", Kind: book.Set, Subject: id, Path: "leaf.weight", Value: `"120 lb"`, Base: book.Latest, Who: "Ada", Made: time.Now()}); err != nil {
		t.Fatal(err)
	}
	b.Close()
	s = serveFolder(t, dir)
	if text, err := os.ReadFile(name); err != nil || !strings.Contains(string(text), "120 lb") {
		t.Errorf("what the book had and the file had not is lost: %v\n%s", err, text)
	}
	if text := s.get("/api/jobs/" + s.key); !strings.Contains(text, "120 lb") {
		t.Errorf("the file took the place of what the book had:\n%s", text)
	}
}
