package server_test

import (
	"bytes"
	"database/sql"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"
	"time"

	"golang.org/x/crypto/argon2"

	"swingwright/account"
	"swingwright/app"
	"swingwright/book"
	"swingwright/server"
)

// A lan is a server that others reach, over TLS, with accounts: Ada, a technician; Olga, of
// the office; Owen, who owns the clinic; Eva, who owns a school.
type lan struct {
	t        testing.TB
	book     *book.Book
	accounts *account.Accounts
	app      *app.App
	server   *server.Server
	web      *httptest.Server
	mu       sync.Mutex
	at       time.Time
}

const (
	sentence = "the kettle sings at seven"
	school   = "# invented\njob: Elm School\ncustomer: Elm School\nopenings:\n  - id: S1\n    name: Gate to yard\n    leaf: {width: 36 in, height: 84 in}\n"
)

func (l *lan) now() time.Time {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.at
}

func (l *lan) later(d time.Duration) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.at = l.at.Add(d)
}

// quick is a hash of the sentence that takes little, unlike those that accounts are given.
var quick = func() string {
	salt, b := []byte("0123456789abcdef"), base64.RawStdEncoding
	return fmt.Sprintf("$argon2id$v=19$m=64,t=1,p=1$%s$%s", b.EncodeToString(salt), b.EncodeToString(argon2.IDKey([]byte(sentence), salt, 1, 64, 1, 32)))
}()

func newLAN(t testing.TB) *lan {
	t.Helper()
	l := &lan{t: t, at: time.Now()}
	b, err := book.Create(t.Context(), t.TempDir()+"/book")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { b.Close() })
	l.book, l.accounts = b, account.Of(b, l.now)
	by := book.By{Who: "test", Made: l.at}
	if err := b.Import(t.Context(), l.at, by, "clinic", clinic(t)); err != nil {
		t.Fatal(err)
	}
	if err := b.Import(t.Context(), l.at, by, "school", &book.Files{Name: "job.yaml", Texts: map[string]string{"job.yaml": school}}); err != nil {
		t.Fatal(err)
	}
	for _, a := range []struct {
		name, customer string
		role           account.Role
	}{{"Ada", "", account.Technician}, {"Olga", "", account.Office}, {"Owen", "Harbour Street Clinic", account.Owner}, {"Eva", "Elm School", account.Owner}} {
		err := b.Write(t.Context(), func(tx *sql.Tx) error {
			_, err := tx.Exec("INSERT INTO account (name, role, customer, hash, epoch, disabled, made) VALUES (?, ?, ?, ?, 1, 0, '')", a.name, a.role, a.customer, quick)
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	a, err := app.New()
	if err != nil {
		t.Fatal(err)
	}
	l.app, l.server = a, server.New(b, a, l.now)
	l.server.SignIn(l.accounts, func(host string) bool { return host == "127.0.0.1" })
	l.web = httptest.NewTLSServer(l.server)
	t.Cleanup(l.web.Close)
	return l
}

// A caller is a browser or a program.
type caller struct {
	*lan
	client *http.Client
	token  string
}

// browser is one in which nobody has signed in.
func (l *lan) browser() *caller {
	l.t.Helper()
	jar, err := cookiejar.New(nil)
	if err != nil {
		l.t.Fatal(err)
	}
	return &caller{lan: l, client: &http.Client{Jar: jar, Transport: l.web.Client().Transport}}
}

// as is a browser in which somebody has signed in.
func (l *lan) as(name string) *caller {
	l.t.Helper()
	c := l.browser()
	if status, text := c.signIn(name, sentence); status != 200 {
		l.t.Fatalf("%s cannot sign in: %d %s", name, status, text)
	}
	return c
}

func (c *caller) signIn(name, password string) (int, string) {
	return c.send("POST", "/api/session", fmt.Sprintf(`{"name": %q, "password": %q}`, name, password))
}

// send sends what a page of the app would, unless headers say otherwise; an empty header is left out.
func (c *caller) send(method, path, body string, header ...string) (int, string) {
	c.t.Helper()
	status, text, _ := c.do(method, path, body, header...)
	return status, text
}

func (c *caller) do(method, path, body string, header ...string) (int, string, http.Header) {
	c.t.Helper()
	r, err := http.NewRequest(method, c.web.URL+path, strings.NewReader(body))
	if err != nil {
		c.t.Fatal(err)
	}
	if method != "GET" {
		r.Header.Set("Origin", c.web.URL)
		r.Header.Set("Sec-Fetch-Site", "same-origin")
		r.Header.Set("Content-Type", "application/json")
	}
	if c.token != "" {
		r.Header.Del("Origin")
		r.Header.Del("Sec-Fetch-Site")
		r.Header.Set("Authorization", "Bearer "+c.token)
	}
	for i := 0; i < len(header); i += 2 {
		switch {
		case header[i] == "Host":
			r.Host = header[i+1]
		case header[i+1] == "":
			r.Header.Del(header[i])
		default:
			r.Header.Set(header[i], header[i+1])
		}
	}
	answer, err := c.client.Do(r)
	if err != nil {
		c.t.Fatal(err)
	}
	defer answer.Body.Close()
	var text bytes.Buffer
	if _, err := io.Copy(&text, answer.Body); err != nil {
		c.t.Fatal(err)
	}
	return answer.StatusCode, text.String(), answer.Header
}

// wants sends something and holds the status against what it should be.
func (c *caller) wants(status int, method, path, body string, header ...string) string {
	c.t.Helper()
	got, text := c.send(method, path, body, header...)
	if got != status {
		c.t.Errorf("%s %s: %d, not %d: %.300s", method, path, got, status, text)
	}
	return text
}

// program is a caller with a token.
func (l *lan) program(name string, role account.Role) (*caller, int64) {
	l.t.Helper()
	text, id, err := l.accounts.NewToken(l.t.Context(), name, "test", role, 0)
	if err != nil {
		l.t.Fatal(err)
	}
	c := l.browser()
	c.token = text
	return c, id
}

// cookie is what the browser holds.
func (c *caller) cookie() string {
	r, _ := http.NewRequest("GET", c.web.URL+"/api/", nil)
	for _, one := range c.client.Jar.Cookies(r.URL) {
		if one.Name == "__Host-swingwright" {
			return one.Value
		}
	}
	return ""
}

// session is the id of the session that the browser has, as its owner sees it.
func (c *caller) session() string {
	c.t.Helper()
	var all []struct {
		ID   string
		This bool
	}
	if err := json.Unmarshal([]byte(c.wants(200, "GET", "/api/sessions", "")), &all); err != nil {
		c.t.Fatal(err)
	}
	for _, one := range all {
		if one.This {
			return one.ID
		}
	}
	c.t.Fatal("the session that asks is not among those of its owner")
	return ""
}
