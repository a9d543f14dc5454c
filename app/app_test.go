package app

import (
	"bytes"
	"io"
	"net/http"
	"net/http/httptest"
	"path"
	"regexp"
	"strings"
	"testing"

	"github.com/andybalholm/brotli"
)

func get(t *testing.T, a *App, address string, header ...string) *http.Response {
	t.Helper()
	r := httptest.NewRequest("GET", address, nil)
	for i := 0; i < len(header); i += 2 {
		r.Header.Set(header[i], header[i+1])
	}
	w := httptest.NewRecorder()
	a.ServeHTTP(w, r)
	return w.Result()
}

func TestApp(t *testing.T) {
	a, err := New()
	if err != nil {
		t.Fatal(err)
	}
	for path, kind := range map[string]string{"/": "text/html; charset=utf-8", "/js/main.js": "text/javascript; charset=utf-8", "/app.css": "text/css; charset=utf-8", "/app.webmanifest": "application/manifest+json"} {
		if r := get(t, a, path); r.StatusCode != 200 || r.Header.Get("Content-Type") != kind {
			t.Errorf("%s: %s, %s", path, r.Status, r.Header.Get("Content-Type"))
		}
	}
	for _, path := range []string{"/engine/README.md", "/../app.go", "/client/index.html", "/js/", "/none"} {
		if r := get(t, a, path); r.StatusCode != 404 {
			t.Errorf("%s: %s", path, r.Status)
		}
	}
	if r := get(t, a, "/app.css", "If-None-Match", `"`+a.Version+`"`); r.StatusCode != 304 {
		t.Errorf("a file that the browser has is sent again: %s", r.Status)
	}
	r := httptest.NewRequest("POST", "/", nil)
	w := httptest.NewRecorder()
	a.ServeHTTP(w, r)
	if w.Code != http.StatusMethodNotAllowed {
		t.Errorf("a page takes a POST: %d", w.Code)
	}
}

// The service worker lists every file, and another engine is another version.
func TestWorkerListsAll(t *testing.T) {
	a, err := New()
	if err != nil {
		t.Fatal(err)
	}
	was := a.Version
	if err := a.WithEngine([]byte("module"), []byte("starter")); err != nil {
		t.Fatal(err)
	}
	if !a.Engine() || a.Version == was {
		t.Errorf("with an engine: %v, version %s after %s", a.Engine(), a.Version, was)
	}
	script, _ := io.ReadAll(get(t, a, "/sw.js").Body)
	for name := range a.Files {
		if name != "/sw.js" && name != "/index.html" && !strings.Contains(string(script), `"`+name+`"`) {
			t.Errorf("the service worker does not keep %s", name)
		}
	}
	if strings.Count(string(script), "const version") != 1 || !strings.Contains(string(script), a.Version) {
		t.Error("the service worker has no version, or two")
	}
}

// A packed file is sent packed to who can unpack it, and plain to all others.
func TestPacked(t *testing.T) {
	a, err := New()
	if err != nil {
		t.Fatal(err)
	}
	want := bytes.Repeat([]byte("the leaf swings "), 1000)
	var packed bytes.Buffer
	w := brotli.NewWriter(&packed)
	w.Write(want)
	w.Close()
	a.Files["/engine/engine.wasm"] = &File{Type: "application/wasm", Packed: packed.Bytes()}
	r := get(t, a, "/engine/engine.wasm", "Accept-Encoding", "gzip, br")
	if got, err := io.ReadAll(brotli.NewReader(r.Body)); err != nil || r.Header.Get("Content-Encoding") != "br" || !bytes.Equal(got, want) {
		t.Errorf("packed: %d bytes, %v, %q", len(got), err, r.Header.Get("Content-Encoding"))
	}
	r = get(t, a, "/engine/engine.wasm")
	if got, err := io.ReadAll(r.Body); err != nil || r.Header.Get("Content-Encoding") != "" || !bytes.Equal(got, want) {
		t.Errorf("plain: %d bytes, %v", len(got), err)
	}
}

// Pages and scripts are packed when they are asked for, and only for who can unpack them.
func TestPagesArePacked(t *testing.T) {
	a, err := New()
	if err != nil {
		t.Fatal(err)
	}
	want := a.Files["/texts/en.js"].Data
	for encodings, packed := range map[string]bool{"gzip, deflate, br, zstd": true, "BR;q=0.5": true, "gzip": false, "br;q=0": false, "br; q=0.000, gzip": false, "brotli": false, "": false} {
		r := get(t, a, "/texts/en.js", "Accept-Encoding", encodings)
		body, _ := io.ReadAll(r.Body)
		if got := r.Header.Get("Content-Encoding") == "br"; got != packed {
			t.Errorf("%q: packed %v", encodings, got)
		}
		if packed {
			if len(body) > len(want)/2 {
				t.Errorf("%d bytes are packed into %d", len(want), len(body))
			}
			body, err = io.ReadAll(brotli.NewReader(bytes.NewReader(body)))
		}
		if err != nil || !bytes.Equal(body, want) {
			t.Errorf("%q: %d bytes, %v", encodings, len(body), err)
		}
	}
}

var imported = regexp.MustCompile(`(?m)^(?:import|export) [^;]*?from '([^']+)';`)

// The page names every module that the first pages need, so that none waits until another was read, and no other, so
// that none takes the line from these.
func TestModulesAreNamed(t *testing.T) {
	a, err := New()
	if err != nil {
		t.Fatal(err)
	}
	need := map[string]bool{}
	var follow func(name string)
	follow = func(name string) {
		if need[name] {
			return
		}
		need[name] = true
		f := a.Files[name]
		if f == nil {
			t.Fatalf("there is no %s", name)
		}
		for _, m := range imported.FindAllStringSubmatch(string(f.Data), -1) {
			follow(path.Join(path.Dir(name), m[1]))
		}
	}
	for _, first := range []string{"/js/main.js", "/js/pages/home.js", "/js/pages/job.js", "/js/pages/opening.js"} {
		follow(first)
	}
	page := string(a.Files["/index.html"].Data)
	for name := range a.Files {
		if named := strings.Contains(page, `"`+name+`"`); strings.HasSuffix(name, ".js") && named != need[name] {
			t.Errorf("%s: needed at first: %v, named in index.html: %v", name, need[name], named)
		}
	}
}
