package server_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"swingwright/app"
	"swingwright/book"
	"swingwright/server"
)

// shelf serves a book with the clinic, without a browser.
func shelf(t *testing.T) (http.Handler, *book.Book, string) {
	t.Helper()
	b, err := book.Create(t.Context(), t.TempDir()+"/book")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { b.Close() })
	key := book.NewKey()
	if err := b.Import(t.Context(), time.Now(), book.By{Who: "test", Made: time.Now()}, key, clinic(t)); err != nil {
		t.Fatal(err)
	}
	a, err := app.New()
	if err != nil {
		t.Fatal(err)
	}
	return server.New(b, a, time.Now), b, key
}

// send sends a request and gives status and answer.
func send(h http.Handler, method, path, body string, header ...string) (int, string) {
	r := httptest.NewRequest(method, "http://localhost"+path, strings.NewReader(body))
	for i := 0; i < len(header); i += 2 {
		if header[i] == "Host" {
			r.Host = header[i+1]
			continue
		}
		r.Header.Set(header[i], header[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	text, _ := io.ReadAll(w.Result().Body)
	return w.Code, string(text)
}

const kind, asJSON = "Content-Type", "application/json"

func set(id, key, path, value string, seq int64) book.Change {
	return book.Change{ID: id, Kind: book.Set, Subject: key, Path: path, Value: value, Base: 30, Device: "phone", Seq: seq, Who: "Ada", Made: time.Date(2026, 11, 25, 10, 0, 0, 0, time.UTC)}
}

func written(changes ...book.Change) string {
	text, err := json.Marshal(changes)
	if err != nil {
		panic(err)
	}
	return string(text)
}

// Changes are kept once, in order; one that can never be kept is told, and those before
// it are kept.
func TestChanges(t *testing.T) {
	h, b, key := shelf(t)
	one, two := set("a-1", key+".1", "leaf.height", `"84 in"`, 1), set("a-2", key+".1", "leaf.width", `"36 in"`, 2)
	for range 2 {
		status, text := send(h, "POST", "/api/changes", written(one, two), kind, asJSON)
		if status != 200 || strings.Count(text, `"kept"`) != 3 || strings.Contains(text, "refused") {
			t.Fatalf("%d %s", status, text)
		}
	}
	if n := len(history(t, b, key+".1", "phone")); n != 2 {
		t.Errorf("two changes sent twice left %d revisions", n)
	}
	wrong := set("a-4", key+".1", "leaf.width", `"three elephants"`, 4)
	status, text := send(h, "POST", "/api/changes", written(set("a-3", key+".1", "leaf.height", `"85 in"`, 3), wrong, set("a-5", key+".1", "leaf.height", `"86 in"`, 5)), kind, asJSON)
	if status != 200 || !strings.Contains(text, `"id":"a-4","why"`) || !strings.Contains(text, `"id":"a-3"`) || strings.Contains(text, "a-5") {
		t.Errorf("a wrong change among good ones: %d %s", status, text)
	}
	if status, text = send(h, "POST", "/api/changes", written(set("a-9", key+".1", "leaf.height", `"86 in"`, 9)), kind, asJSON); status != http.StatusConflict {
		t.Errorf("a change past a gap: %d %s", status, text)
	}
	_, text = send(h, "GET", "/api/jobs/"+key, "")
	if !strings.Contains(text, `"85 in"`) {
		t.Error("the job does not show what was kept")
	}
}

// history are the revisions of a part that a device made.
func history(t *testing.T, b *book.Book, key, device string) (all []*book.Revision) {
	t.Helper()
	list, err := b.History(t.Context(), key, false, 0, 1000)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range list {
		if device == "" || r.Device == device {
			all = append(all, r)
		}
	}
	return all
}

// What is no change, too large, of another site or for another host is turned away.
func TestTurnsAway(t *testing.T) {
	h, _, key := shelf(t)
	good := written(set("b-1", key+".1", "leaf.height", `"84 in"`, 1))
	for _, c := range []struct {
		what, method, path, body string
		header                   []string
		status                   int
	}{
		{"another site", "POST", "/api/changes", good, []string{kind, asJSON, "Sec-Fetch-Site", "cross-site"}, 403},
		{"another site, by its origin", "POST", "/api/changes", good, []string{kind, asJSON, "Origin", "http://evil.example"}, 403},
		{"another host", "GET", "/api/jobs", "", []string{"Host", "evil.example"}, 421},
		{"another host with a port", "GET", "/", "", []string{"Host", "evil.example:8714"}, 421},
		{"a form", "POST", "/api/changes", good, []string{kind, "application/x-www-form-urlencoded"}, 415},
		{"no JSON", "POST", "/api/changes", "{{{", []string{kind, asJSON}, 400},
		{"an unknown field", "POST", "/api/changes", `[{"id":"x","role":"owner"}]`, []string{kind, asJSON}, 400},
		{"too many", "POST", "/api/changes", "[" + strings.Repeat(`{"id":"x"},`, 500) + `{"id":"x"}]`, []string{kind, asJSON}, 413},
		{"too large", "POST", "/api/changes", `[{"id":"` + strings.Repeat("x", 21<<20) + `"}]`, []string{kind, asJSON}, 413},
		{"no such job", "GET", "/api/jobs/nobody", "", nil, 404},
		{"out of the folder", "GET", "/api/attachments/..%2f..%2fbook.sqlite", "", nil, 404},
		{"no hash", "PUT", "/api/attachments/abc", "hello", nil, 422},
		{"another content", "PUT", "/api/attachments/" + strings.Repeat("0", 64), "hello", nil, 422},
		{"a program", "PUT", "/api/attachments/" + book.Digest("\x7fELF\x02\x01\x01\x00\x00\x00"), "\x7fELF\x02\x01\x01\x00\x00\x00", nil, 415},
		{"nothing to be asked", "POST", "/api/jobs/" + key + "/ask/everything", "{}", []string{kind, asJSON}, 404},
		{"changing by reading", "GET", "/api/changes", "", nil, 404},
	} {
		if status, text := send(h, c.method, c.path, c.body, c.header...); status != c.status {
			t.Errorf("%s: %d, not %d: %.200s", c.what, status, c.status, text)
		}
	}
	if status, text := send(h, "POST", "/api/changes", good, kind, asJSON, "Sec-Fetch-Site", "same-origin"); status != 200 {
		t.Errorf("the app itself is turned away: %d %s", status, text)
	}
}

// Every answer carries the policy; an attachment that could hold a script is never shown.
func TestNothingRuns(t *testing.T) {
	h, _, _ := shelf(t)
	svg := `<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>`
	if status, text := send(h, "PUT", "/api/attachments/"+book.Digest(svg), svg); status != 200 {
		t.Fatalf("%d %s", status, text)
	}
	r := httptest.NewRequest("GET", "http://localhost/api/attachments/"+book.Digest(svg), nil)
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	if w.Header().Get("Content-Type") != "application/octet-stream" || !strings.Contains(w.Header().Get("Content-Security-Policy"), "sandbox") || w.Header().Get("Content-Disposition") != "attachment" {
		t.Errorf("a drawing with a script: %v", w.Header())
	}
	for _, path := range []string{"/", "/js/main.js", "/api/jobs", "/none"} {
		w := httptest.NewRecorder()
		h.ServeHTTP(w, httptest.NewRequest("GET", "http://127.0.0.1:8714"+path, nil))
		policy := w.Header().Get("Content-Security-Policy")
		if !strings.Contains(policy, "default-src 'none'") || strings.Contains(policy, "unsafe-inline") || strings.Contains(policy, "'unsafe-eval'") || w.Header().Get("X-Content-Type-Options") != "nosniff" {
			t.Errorf("%s: %v", path, w.Header())
		}
	}
}

// The server answers what the engine in the browser would.
func TestAsk(t *testing.T) {
	h, _, key := shelf(t)
	_, text := send(h, "GET", "/api/jobs/"+key, "")
	var job struct {
		Tree  json.RawMessage
		Rules []string
		Rev   int64
		Keys  map[string]string
	}
	if err := json.Unmarshal([]byte(text), &job); err != nil {
		t.Fatal(err)
	}
	if len(job.Keys) != 22 || job.Keys["101"] != key+".1" || job.Rev < 22 || len(job.Rules) != 5 {
		t.Errorf("job: %d keys, revision %d, rules %v", len(job.Keys), job.Rev, job.Rules)
	}
	asked, _ := json.Marshal(map[string]any{"job": job.Tree, "rules": job.Rules, "opening": "101", "units": "us"})
	status, answer := send(h, "POST", fmt.Sprintf("/api/jobs/%s/ask/state", key), string(asked), kind, asJSON)
	if status != 200 || !bytes.Contains([]byte(answer), []byte(`"standing":"in-order"`)) {
		t.Errorf("%d %s", status, answer)
	}
}
