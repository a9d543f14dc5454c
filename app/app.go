// Package app is the site app: the pages, scripts and texts that a browser is given,
// and the engine that answers in it. There is no build step: what stands in the folder
// client is what the browser reads. The engine is put into the folder engine by
// make build; without it the app asks the server.
package app

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io/fs"
	"maps"
	"net/http"
	"path"
	"slices"
	"strings"
	"sync"

	"github.com/andybalholm/brotli"
)

//go:embed client engine
var embedded embed.FS

// A File is one file of the app.
type File struct {
	Type string // media type
	Data []byte
	// Packed is the file packed with brotli. Of the engine it comes so from the build, without Data;
	// the others are packed when they are first asked for.
	Packed []byte
	once   sync.Once
}

// quality is how hard files are packed that the build did not pack: a few milliseconds each, once.
const quality = 9

// pack packs what is worth it, once, and gives it.
func (f *File) pack() []byte {
	f.once.Do(func() {
		if f.Packed != nil || len(f.Data) > mostPacked || f.Type == types[".wasm"] {
			return
		}
		var b bytes.Buffer
		w := brotli.NewWriterLevel(&b, quality)
		if _, err := w.Write(f.Data); err == nil && w.Close() == nil && b.Len() < len(f.Data) {
			f.Packed = b.Bytes()
		}
	})
	return f.Packed
}

// mostPacked is up to how many bytes files are packed when they are asked for.
const mostPacked = 1 << 20

// An App is the files of the app under the paths at which they are served.
type App struct {
	Files map[string]*File
	// Version names the app by what is in it; its service worker keeps it under that name.
	Version string
	script  []byte // of the service worker, without what is put in front of it
}

// The paths of files that are more than read.
const (
	enginePath  = "/engine/engine.wasm"
	starterPath = "/engine/wasm_exec.js"
	workerPath  = "/sw.js"
)

// types are the media types of the app's files, so that they do not depend on the
// machine; what has none is not served.
var types = map[string]string{".html": "text/html; charset=utf-8", ".js": "text/javascript; charset=utf-8", ".css": "text/css; charset=utf-8",
	".svg": "image/svg+xml", ".webmanifest": "application/manifest+json", ".wasm": "application/wasm"}

// New gathers the app. It fails where a file of the build is damaged.
func New() (*App, error) {
	a := &App{Files: map[string]*File{}}
	err := fs.WalkDir(embedded, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := embedded.ReadFile(name)
		if err != nil {
			return err
		}
		a.add(name, data)
		return nil
	})
	if err != nil {
		return nil, err
	}
	w := a.Files[workerPath]
	if w == nil {
		return nil, fmt.Errorf("app: %s is missing", workerPath)
	}
	a.script = w.Data
	return a, a.seal()
}

// WithEngine puts another engine into the app: the module, and the script of the same
// Go that starts it.
func (a *App) WithEngine(module, starter []byte) error {
	a.Files[enginePath] = &File{Type: types[".wasm"], Data: module}
	a.Files[starterPath] = &File{Type: types[".js"], Data: starter}
	return a.seal()
}

// Engine tells that the engine for the browser is among the files.
func (a *App) Engine() bool { return a.Files[enginePath] != nil && a.Files[starterPath] != nil }

// Pack packs all files that are packed when they are asked for, so that whoever comes first need not wait.
func (a *App) Pack() {
	for _, f := range a.Files {
		f.pack()
	}
}

// add takes up a file under the path at which it is served.
func (a *App) add(name string, data []byte) {
	at := "/" + strings.TrimPrefix(name, "client/")
	f := &File{Data: data}
	if packed, ok := strings.CutSuffix(at, ".br"); ok {
		at, f.Packed, f.Data = packed, data, nil
	}
	if f.Type = types[path.Ext(at)]; f.Type != "" {
		a.Files[at] = f
	}
}

// seal names the app by what is in it, and puts its name and the list of its files in
// front of the service worker.
func (a *App) seal() error {
	sum := sha256.New()
	files := []string{"/"}
	for _, name := range slices.Sorted(maps.Keys(a.Files)) {
		f := a.Files[name]
		if name != workerPath {
			content := f.Data
			if content == nil {
				content = f.Packed
			}
			fmt.Fprintf(sum, "%s %d\n", name, len(content))
			sum.Write(content)
		}
		if name != workerPath && name != "/index.html" {
			files = append(files, name)
		}
	}
	sum.Write(a.script)
	a.Version = hex.EncodeToString(sum.Sum(nil))[:12]
	list, err := json.Marshal(files)
	if err != nil {
		return err
	}
	head := fmt.Sprintf("const version = %q;\nconst files = %s;\n", a.Version, list)
	a.Files[workerPath] = &File{Type: types[".js"], Data: append([]byte(head), a.script...)}
	return nil
}

// ServeHTTP serves a file of the app, or 404. Every file is asked for again each time,
// by its version: the service worker is what keeps them.
func (a *App) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		w.Header().Set("Allow", "GET, HEAD")
		http.Error(w, "pages are only read", http.StatusMethodNotAllowed)
		return
	}
	name := r.URL.Path
	if name == "/" {
		name = "/index.html"
	}
	f := a.Files[name]
	if f == nil {
		http.NotFound(w, r)
		return
	}
	h := w.Header()
	h.Set("Content-Type", f.Type)
	h.Set("Cache-Control", "no-cache")
	h.Set("ETag", `"`+a.Version+`"`)
	h.Set("Vary", "Accept-Encoding")
	if r.Header.Get("If-None-Match") == `"`+a.Version+`"` {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	data := f.Data
	if packed := f.pack(); packed != nil && Brotli(r) {
		h.Set("Content-Encoding", "br")
		data = packed
	} else if data == nil {
		var plain bytes.Buffer
		if _, err := plain.ReadFrom(brotli.NewReader(bytes.NewReader(f.Packed))); err != nil {
			http.Error(w, "the engine of this build is damaged: "+err.Error(), http.StatusInternalServerError)
			return
		}
		data = plain.Bytes()
	}
	h.Set("Content-Length", fmt.Sprint(len(data)))
	if r.Method != http.MethodHead {
		w.Write(data)
	}
}

// Brotli tells whether whoever asks can unpack what was packed with brotli (RFC 9110, 12.5.3; RFC 7932).
func Brotli(r *http.Request) bool {
	for one := range strings.SplitSeq(strings.Join(r.Header.Values("Accept-Encoding"), ","), ",") {
		name, weight, _ := strings.Cut(one, ";")
		if strings.EqualFold(strings.TrimSpace(name), "br") {
			weight = strings.TrimPrefix(strings.ReplaceAll(weight, " ", ""), "q=")
			return strings.Trim(weight, "0.") != "" || weight == ""
		}
	}
	return false
}
