package server_test

import (
	"archive/zip"
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/jpeg"
	"image/png"
	"net/http"
	"net/url"
	"os"
	"strings"
	"testing"
	"time"

	"swingwright/account"
	"swingwright/book"
)

// filled puts names into the places of a pattern.
func filled(pattern, job, key, hash string) (method, path string) {
	method, path, _ = strings.Cut(pattern, " ")
	return method, strings.NewReplacer("{job}", job, "{key}", key, "{hash}", hash, "{question}", "state", "{account}", "1", "{session}", "x", "{token}", "1", "{device}", "phone").Replace(path)
}

// Without a sign-in no route answers but those that say so, and the app itself.
func TestNobodyComesIn(t *testing.T) {
	l := newLAN(t)
	patterns, needs := l.server.Needs()
	for _, c := range []*caller{l.browser(), {lan: l, client: l.browser().client, token: "swing_aaaaaaaaaaaaaaaaaaaaaaaaaa"}} {
		for _, pattern := range patterns {
			if method, path := filled(pattern, "clinic", "clinic.1", strings.Repeat("0", 64)); needs[pattern] != "anyone" {
				l.later(4 * time.Second) // wrong tokens are slowed
				c.wants(401, method, path, "[]")
			}
		}
	}
	if len(needs) < 15 || needs["POST /api/session"] != "anyone" || needs["GET /api/jobs"] != "sees" || needs["GET /api/accounts"] != "keeps" {
		t.Error("the routes are not what they are thought to be", needs)
	}
	b := l.browser()
	b.wants(200, "GET", "/", "")
	b.wants(200, "GET", "/o/clinic.1", "")
	b.wants(404, "GET", "/api/none", "")
	if text := b.wants(200, "GET", "/api/session", ""); text != `{"needed":true,"name":"","role":"","customer":"","keeps":false,"fresh":false}` {
		t.Error(text)
	}
	b.wants(401, "GET", "/api/jobs", "", "Authorization", "Basic QWRhOng=")
	b.wants(421, "GET", "/api/session", "", "Host", "evil.example")
}

func TestRoles(t *testing.T) {
	l := newLAN(t)
	ada, olga, owen := l.as("Ada"), l.as("Olga"), l.as("Owen")
	note := func(id string) string {
		return written(book.Change{ID: id, Kind: book.Note, Subject: "clinic.1", Value: "squeaks", Base: book.Latest, Who: "unnamed", Made: l.now()})
	}
	sign := func(id string) string {
		return written(book.Change{ID: id + "n", Kind: book.Note, Subject: "clinic.1", Value: "left as found", Base: book.Latest, Who: "Bo", Made: l.now()},
			book.Change{ID: id, Kind: book.Sign, Subject: "clinic.1", Value: `{"name": "Bo", "text": "left as found"}`, Base: book.Latest, Who: "Bo", Made: l.now()})
	}
	_, needs := l.server.Needs()
	for pattern := range needs {
		if method, path := filled(pattern, "clinic", "clinic.1", strings.Repeat("0", 64)); needs[pattern] == "enters" {
			owen.wants(403, method, path, "[]")
		}
	}
	ada.wants(200, "POST", "/api/changes", note("a1"))
	olga.wants(200, "POST", "/api/changes", note("o1"))
	if text := ada.wants(200, "POST", "/api/changes", sign("a2")); strings.Contains(text, "refused") {
		t.Error(text)
	}
	if text := olga.wants(200, "POST", "/api/changes", sign("o2")); !strings.Contains(text, `"refused":{"id":"o2"`) || !strings.Contains(text, `"id":"o2n"`) {
		t.Error("the office signs, or what stood before is lost:", text)
	}
	if text := owen.wants(200, "GET", "/api/session", ""); !strings.Contains(text, `"role":"owner","customer":"Harbour Street Clinic"`) {
		t.Error(text)
	}
	// who entered it is who signed in, whatever is said; sent again by another hand it is kept once
	if text := olga.wants(200, "POST", "/api/changes", sign("a2")); !strings.Contains(text, `"id":"a2n","n"`) {
		t.Error(text)
	}
	ada.wants(200, "POST", "/api/changes", sign("a2"))
	who := map[string]string{}
	for _, r := range history(t, l.book, "clinic.1", "") {
		who[r.ID] = r.Who
	}
	for id, want := range map[string]string{"a1": "Ada", "o1": "Olga", "a2": "Bo (signed in as Ada)", "o2n": "Bo (signed in as Olga)"} {
		if who[id] != want {
			t.Errorf("%s was entered by %q, not %q", id, who[id], want)
		}
	}
	if _, kept := who["o2"]; kept {
		t.Error("the office signed")
	}
}

// An owner sees nothing of another's, and is told of it what is told of what is not there.
func TestAnotherOwnersRecords(t *testing.T) {
	l := newLAN(t)
	ada, owen, eva := l.as("Ada"), l.as("Owen"), l.as("Eva")
	photo := string(picture(t, 4, 4))
	hash := book.Digest(photo)
	ada.wants(200, "PUT", "/api/attachments/"+hash, photo)
	ada.wants(200, "POST", "/api/changes", written(book.Change{ID: "p1", Kind: book.Attach, Subject: "school.1", Base: book.Latest, Who: "Ada", Made: l.now(),
		Value: fmt.Sprintf(`{"what": "photo", "name": "gate.png", "type": "image/png", "hash": %q, "size": %d}`, hash, len(photo))}))
	patterns, needs := l.server.Needs()
	tried := 0
	for _, pattern := range patterns {
		if !strings.Contains(pattern, "{") || needs[pattern] != "sees" {
			continue
		}
		tried++
		method, path := filled(pattern, "school", "school.1", hash)
		body := ""
		if method == "POST" {
			body = `{}`
		}
		text := owen.wants(404, method, path, body)
		method, path = filled(pattern, "nobody", "nobody.1", strings.Repeat("0", 64))
		none := owen.wants(404, method, path, body)
		like := strings.NewReplacer("nobody", "school", strings.Repeat("0", 64), hash).Replace(none)
		if text != like {
			t.Errorf("%s: what is another's is told from what is not there:\n%q\n%q", pattern, text, like)
		}
		method, path = filled(pattern, "school", "school.1", hash)
		if status, text := eva.send(method, path, body); status == 404 || status == 403 || status == 401 {
			t.Errorf("%s: an owner does not see their own: %d %s", pattern, status, text)
		}
	}
	if tried < 7 {
		t.Errorf("only %d routes were tried", tried)
	}
	for _, path := range []string{"/api/jobs", "/api/search?q=gate", "/api/search?q=36"} {
		if text := owen.wants(200, "GET", path, ""); strings.Contains(text, "school") || strings.Contains(text, "Elm") {
			t.Errorf("%s: %s", path, text)
		}
	}
	if text := eva.wants(200, "GET", "/api/search?q=gate", ""); !strings.Contains(text, `"key":"school.1"`) {
		t.Error("an owner does not find their own:", text)
	}
	if text := eva.wants(200, "GET", "/api/jobs", ""); !strings.Contains(text, "school") || strings.Contains(text, "clinic") {
		t.Error(text)
	}
	owen.wants(404, "GET", "/api/search?q=gate&job=school", "")
	owen.wants(404, "GET", "/api/jobs/clinic/openings?after=school.1", "")
	owen.wants(200, "GET", "/api/jobs/clinic/openings?after=clinic.1", "")
	// the key of a part that is no job gives nobody a job
	owen.wants(404, "GET", "/api/jobs/school.1", "")
	// a job that changes hands is seen by its new owner alone, and a withdrawn one by none
	ada.wants(200, "POST", "/api/changes", written(book.Change{ID: "c1", Kind: book.Set, Subject: "school", Path: "customer", Value: `"Harbour Street Clinic"`, Base: book.Latest, Who: "Ada", Made: l.now()}))
	owen.wants(200, "GET", "/api/openings/school.1", "")
	eva.wants(404, "GET", "/api/openings/school.1", "")
	ada.wants(200, "POST", "/api/changes", written(book.Change{ID: "c2", Kind: book.Withdraw, Subject: "school", Base: book.Latest, Who: "Ada", Made: l.now()}))
	owen.wants(404, "GET", "/api/openings/school.1", "")
	// a program of the owner sees what the owner sees
	p, _ := l.program("Eva", "")
	p.wants(404, "GET", "/api/jobs/clinic", "")
}

// Whoever puts a session of their own into somebody's browser does not come in with it.
func TestSessionFixation(t *testing.T) {
	l := newLAN(t)
	eve, victim := l.as("Eva"), l.browser()
	planted := eve.cookie()
	at, err := url.Parse(l.web.URL + "/")
	if err != nil || planted == "" {
		t.Fatal(err, planted)
	}
	plant := func(value string) {
		victim.client.Jar.SetCookies(at, []*http.Cookie{{Name: "__Host-swingwright", Value: value, Path: "/", Secure: true}})
	}
	for _, value := range []string{planted, "chosen-by-somebody-else"} {
		plant(value)
		if status, text := victim.signIn("Ada", sentence); status != 200 {
			t.Fatal(status, text)
		}
		if victim.cookie() == value || victim.cookie() == "" {
			t.Error("the session goes on under the name that was put there")
		}
		if text := eve.wants(200, "GET", "/api/session", ""); strings.Contains(text, "Ada") {
			t.Error("who planted the session is let in as somebody else")
		}
	}
	_, _, h := l.browser().do("POST", "/api/session", `{"name": "Ada", "password": "`+sentence+`"}`)
	for _, want := range []string{"__Host-swingwright=", "Secure", "HttpOnly", "SameSite=Lax", "Path=/"} {
		if !strings.Contains(h.Get("Set-Cookie"), want) || strings.Contains(h.Get("Set-Cookie"), "Domain") {
			t.Errorf("the cookie %q lacks %s", h.Get("Set-Cookie"), want)
		}
	}
}

// What a thief of the book's files finds lets nobody in.
func TestStolenFiles(t *testing.T) {
	l := newLAN(t)
	ada := l.as("Ada")
	program, _ := l.program("Ada", "")
	entries, err := os.ReadDir(l.book.Dir())
	if err != nil || len(entries) < 2 {
		t.Fatal(entries, err)
	}
	for _, e := range entries {
		data, err := os.ReadFile(l.book.Dir() + "/" + e.Name())
		if e.IsDir() {
			continue
		} else if err != nil {
			t.Fatal(err)
		}
		for what, secret := range map[string]string{"password": sentence, "session": ada.cookie(), "token": program.token} {
			if secret == "" || bytes.Contains(data, []byte(secret)) {
				t.Errorf("%s holds a %s", e.Name(), what)
			}
		}
	}
}

// A page elsewhere changes nothing through the browser of somebody who signed in.
func TestCrossSite(t *testing.T) {
	l := newLAN(t)
	ada := l.as("Ada")
	patterns, _ := l.server.Needs()
	body := written(book.Change{ID: "x1", Kind: book.Note, Subject: "clinic.1", Value: "forged", Base: book.Latest, Who: "Ada", Made: l.now()})
	bodies := map[string]string{"POST /api/changes": body, "POST /api/password": `{"old": "` + sentence + `", "new": "another sentence of mine"}`,
		"POST /api/session": `{"name": "Eva", "password": "` + sentence + `"}`, "PUT /api/attachments/{hash}": "x", "POST /api/jobs/{job}/ask/{question}": "{}",
		"POST /api/accounts": `{"name": "Eve", "role": "office"}`, "PUT /api/accounts/{account}/role": `{"role": "office"}`, "POST /api/tokens": `{"purpose": "theft"}`}
	for _, c := range []struct {
		what   string
		header []string
	}{
		{"a page elsewhere", []string{"Sec-Fetch-Site", "cross-site", "Origin", "https://evil.example"}},
		{"a page of another port", []string{"Sec-Fetch-Site", "same-site", "Origin", "https://127.0.0.1:1"}},
		{"an old browser, elsewhere", []string{"Sec-Fetch-Site", "", "Origin", "https://evil.example"}},
		{"a page without an origin", []string{"Sec-Fetch-Site", "", "Origin", "null"}},
		{"no word of where", []string{"Sec-Fetch-Site", "", "Origin", ""}},
	} {
		tried := 0
		for _, pattern := range patterns {
			method, path := filled(pattern, "clinic", "clinic.1", book.Digest("x"))
			if method == "GET" {
				continue
			}
			tried++
			if status, text := ada.send(method, path, bodies[pattern], c.header...); status != 403 || !strings.Contains(text, "cross-origin") && !strings.Contains(text, "say with Origin") {
				t.Errorf("%s: %s: %d %s", c.what, pattern, status, text)
			}
		}
		if tried < 12 {
			t.Errorf("only %d routes were tried", tried)
		}
	}
	// a form of a page elsewhere cannot send JSON, and nothing else is taken
	olga := l.as("Olga")
	for pattern, text := range bodies {
		if method, path := filled(pattern, "clinic", "clinic.1", ""); strings.HasPrefix(text, "{") && !strings.Contains(pattern, "ask") || pattern == "POST /api/changes" {
			for _, kind := range []string{"text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x", ""} {
				olga.wants(415, method, path, text, "Content-Type", kind)
			}
		}
	}
	if text := ada.wants(200, "GET", "/api/session", ""); !strings.Contains(text, `"Ada"`) {
		t.Error("put out, or in as another:", text)
	}
	for _, r := range history(t, l.book, "clinic.1", "") {
		if r.Value == "forged" {
			t.Error("a forged change was kept")
		}
	}
	ada.wants(200, "POST", "/api/changes", body)
	program, _ := l.program("Ada", "")
	program.wants(200, "POST", "/api/changes", body)
}

// Guessing is slow, for one name from many places as from one place for many names, and
// whoever signed in before is not disturbed.
func TestBruteForce(t *testing.T) {
	l := newLAN(t)
	ada, guess := l.as("Ada"), l.browser()
	tries, slow := 0, 0
	for i := range 14 {
		status, text, h := guess.do("POST", "/api/session", fmt.Sprintf(`{"name": "Owen", "password": "guess number %d of many"}`, i))
		switch status {
		case 401:
			tries++
		case 429:
			slow++
			if h.Get("Retry-After") == "" {
				t.Error("nobody says when to come again")
			}
		default:
			t.Fatal(status, text)
		}
	}
	if tries != 10 || slow != 4 {
		t.Errorf("%d guesses were looked at, %d not", tries, slow)
	}
	if status, _ := guess.signIn(" OWEN ", sentence); status != 429 {
		t.Errorf("the right password, after too many wrong ones: %d", status)
	}
	ada.wants(200, "GET", "/api/jobs", "")
	l.later(time.Minute + time.Second)
	if status, text := guess.signIn("Owen", sentence); status != 200 {
		t.Errorf("after a minute: %d %s", status, text)
	}
	for i := range 30 { // many names from one place
		status, _ := guess.signIn(fmt.Sprint("nobody ", i), sentence)
		if want := map[bool]int{true: 401, false: 429}[i < 19]; status != want {
			t.Fatalf("guess %d: %d, not %d", i, status, want)
		}
	}
	// wrong tokens count too
	l.later(3*time.Second + time.Millisecond)
	wrong := l.browser()
	wrong.token = "swing_wrong"
	wrong.wants(401, "GET", "/api/jobs", "")
	wrong.wants(429, "GET", "/api/jobs", "")
	ada.wants(200, "GET", "/api/jobs", "")
	events, err := l.accounts.Events(t.Context(), 1000)
	if err != nil {
		t.Fatal(err)
	}
	count := map[account.What]int{}
	for _, e := range events {
		count[e.What]++
		if e.What == account.Refused && e.Address != "127.0.0.1" {
			t.Errorf("%+v", e)
		}
	}
	if count[account.Refused] != 29 || count[account.SignedIn] != 2 || count[account.Slowed] != 2 || count[account.TokenNot] != 1 {
		t.Errorf("the record of sign-ins: %v", count)
	}
}

// Whoever asks without end is slowed, whether signed in or not.
func TestFlood(t *testing.T) {
	l := newLAN(t)
	b := l.browser()
	slowed := 0
	for range 320 {
		if status, _ := b.send("GET", "/api/session", ""); status == 429 {
			slowed++
		}
	}
	if slowed != 20 {
		t.Errorf("%d of 320 were turned away", slowed)
	}
	l.later(time.Second)
	b.wants(200, "GET", "/api/session", "")
}

// A session ends where its owner, or whoever keeps the accounts, says so, and by itself.
func TestSessionsEnd(t *testing.T) {
	l := newLAN(t)
	in := func(c *caller, want bool) {
		t.Helper()
		if status, text := c.send("GET", "/api/jobs", ""); want != (status == 200) || !want && status != 401 {
			t.Errorf("%d %.200s", status, text)
		}
	}
	replay := func(value string) *caller {
		c := l.browser()
		at, _ := url.Parse(l.web.URL + "/")
		c.client.Jar.SetCookies(at, []*http.Cookie{{Name: "__Host-swingwright", Value: value, Path: "/", Secure: true}})
		return c
	}
	one := l.as("Ada")
	held := one.cookie()
	in(replay(held), true)
	one.wants(204, "DELETE", "/api/session", "")
	in(one, false)
	in(replay(held), false)

	one, two := l.as("Ada"), l.as("Ada")
	one.wants(401, "POST", "/api/password", `{"old": "wrong", "new": "another sentence of mine"}`)
	one.wants(422, "POST", "/api/password", `{"old": "`+sentence+`", "new": "short"}`)
	one.wants(204, "POST", "/api/password", `{"old": "`+sentence+`", "new": "another sentence of mine"}`)
	in(one, true)
	in(two, false)

	olga := l.as("Olga")
	program, id := l.program("Olga", "")
	in(program, true)
	program.wants(403, "POST", "/api/password", `{"old": "`+sentence+`", "new": "another sentence of mine"}`)
	if err := l.accounts.Disable(t.Context(), "Olga"); err != nil {
		t.Fatal(err)
	}
	in(olga, false)
	in(program, false)
	if err := l.accounts.Enable(t.Context(), "Olga"); err != nil {
		t.Fatal(err)
	}
	in(olga, false)
	in(program, true)
	if err := l.accounts.Withdraw(t.Context(), id); err != nil {
		t.Fatal(err)
	}
	in(program, false)

	owen, eva := l.as("Owen"), l.as("Eva")
	for range 4 {
		l.later(6 * 24 * time.Hour)
		in(owen, true)
	}
	in(eva, false) // a week without use
	l.later(6*24*time.Hour + time.Hour)
	in(owen, false) // 30 days after the sign-in
}

func picture(t *testing.T, w, h int) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, w, h))); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// claims makes a PNG say that it is of another size.
func claims(content []byte, w, h uint32) []byte {
	c := bytes.Clone(content)
	binary.BigEndian.PutUint32(c[16:], w) // PNG (ISO/IEC 15948:2004), 11.2.2: IHDR
	binary.BigEndian.PutUint32(c[20:], h)
	binary.BigEndian.PutUint32(c[29:], crc32.ChecksumIEEE(c[12:29]))
	return c
}

// What is sent is what it says, and unfolds to nothing that fills a memory.
func TestUploads(t *testing.T) {
	l := newLAN(t)
	ada := l.as("Ada")
	good := picture(t, 40, 30)
	var photo, packed, archive bytes.Buffer
	if err := jpeg.Encode(&photo, image.NewGray(image.Rect(0, 0, 40, 30)), nil); err != nil {
		t.Fatal(err)
	}
	z := gzip.NewWriter(&packed)
	z.Write(bytes.Repeat([]byte{' '}, 64<<20))
	z.Close()
	a := zip.NewWriter(&archive)
	f, err := a.Create("bomb")
	if err != nil {
		t.Fatal(err)
	}
	f.Write(bytes.Repeat([]byte{0}, 64<<20))
	a.Close()
	for _, c := range []struct {
		what    string
		content []byte
		status  int
	}{
		{"a picture", good, 200},
		{"a photo", photo.Bytes(), 200},
		{"a text", []byte("time,angle\n0,0\n"), 200},
		{"nothing", nil, 200}, // an empty text
		{"a picture that unfolds to 3.6 Gpixel", claims(good, 60000, 60000), 413},
		{"a picture whose size overflows", claims(good, 1<<31-1, 1<<31-1), 415},
		{"a picture of no width", claims(good, 0, 30), 415},
		{"a picture cut off at its head", good[:20], 415},
		{"a photo cut off at its head", photo.Bytes()[:10], 415},
		{"a picture with a damaged head", append([]byte("\x89PNG\r\n\x1a\n"), bytes.Repeat([]byte{7}, 100)...), 415},
		{"an archive", archive.Bytes(), 415},
		{"packed blanks", packed.Bytes(), 415},
		{"a program", []byte("MZ\x90\x00\x03\x00\x00\x00\x04"), 415},
		{"a film", append([]byte("\x00\x00\x00\x18ftypmp42"), make([]byte, 32)...), 415},
		{"26 MB", bytes.Repeat([]byte{'a'}, 26<<20), 413},
	} {
		if status, text := ada.send("PUT", "/api/attachments/"+book.Digest(string(c.content)), string(c.content), "Content-Type", ""); status != c.status {
			t.Errorf("%s: %d, not %d: %.200s", c.what, status, c.status, text)
		}
	}
	if text := ada.wants(422, "PUT", "/api/attachments/"+strings.Repeat("a", 64), "hello"); !strings.Contains(text, "hash") {
		t.Error(text)
	}
	ada.wants(415, "POST", "/api/changes", packed.String(), "Content-Encoding", "gzip")
	ada.wants(413, "POST", "/api/session", `{"name": "`+strings.Repeat("x", 8<<10)+`"}`)
	ada.wants(413, "POST", "/api/changes", `[{"id":"`+strings.Repeat("x", 21<<20)+`"}]`)
	ada.wants(400, "POST", "/api/changes", strings.Repeat("[", 1<<20))
	ada.wants(413, "POST", "/api/jobs/clinic/ask/state", strings.Repeat(" ", 33<<20))
}

// Nothing that is sent leads out of the book's folder, means something to the database, or
// unfolds without end when it is read as YAML.
func TestTraversalAndInjection(t *testing.T) {
	l := newLAN(t)
	ada := l.as("Ada")
	for _, path := range []string{
		"/..%2f..%2fetc%2fpasswd", "/%2e%2e/%2e%2e/etc/passwd", "/js/..%2f..%2f..%2fgo.mod", "//etc/passwd", "/book.sqlite", "/trust/ca-key.pem", "/js/%00",
		"/api/attachments/..%2fbook.sqlite", "/api/attachments/%2e%2e%2fbook.sqlite", "/api/attachments/.new-x", "/api/attachments/" + strings.Repeat("0", 62) + "..",
		"/api/jobs/..%2fclinic", "/api/jobs/' OR '1'='1", "/api/jobs/clinic%00", "/api/openings/clinic.1';DROP TABLE part;--", "/api/openings/%25", "/api/jobs/clinic/openings?after=x' OR 1=1--",
		"/api/search?q=x&job=' OR ''='",
	} {
		path = strings.ReplaceAll(path, " ", "%20")
		if status, text := ada.send("GET", path, ""); status != 404 && !(status == 200 && text == "[]") {
			t.Errorf("%s: %d %.200s", path, status, text)
		}
	}
	for _, words := range []string{`" OR job : school`, `name : *`, `NEAR(a b)`, `'; DROP TABLE words; --`, `"`, `*`, `- job : x`, "\x00", strings.Repeat("a ", 2000), `a" AND job : "school`} {
		if status, text := ada.send("GET", "/api/search?job=clinic&q="+url.QueryEscape(words), ""); status != 200 || strings.Contains(text, "school") {
			t.Errorf("%q: %d %.200s", words, status, text)
		}
	}
	bomb := "{a: &a [x,x,x,x,x,x,x,x,x]"
	for i := 'b'; i < 'k'; i++ {
		bomb += fmt.Sprintf(", %c: &%c [*%[3]c,*%[3]c,*%[3]c,*%[3]c,*%[3]c,*%[3]c,*%[3]c,*%[3]c,*%[3]c]", i, i, i-1)
	}
	for what, c := range map[string]book.Change{
		"a file outside":    {Kind: book.BeginFile, Job: "clinic", Subject: "clinic.f", Path: "../../outside.yaml", Value: "x: 1\n"},
		"a file at a root":  {Kind: book.BeginFile, Job: "clinic", Subject: "clinic.f", Path: "/etc/cron.d/x", Value: "x: 1\n"},
		"a file of a drive": {Kind: book.BeginFile, Job: "clinic", Subject: "clinic.f", Path: `C:\x`, Value: "x: 1\n"},
		"another document":  {Kind: book.Set, Subject: "clinic.1", Path: "name", Value: "x\n---\nopenings: []"},
		"a field beside":    {Kind: book.Set, Subject: "clinic.1", Path: "name", Value: "x\n    leaf: {width: 1 in}"},
		"aliases":           {Kind: book.Set, Subject: "clinic.1", Path: "name", Value: bomb + "}"},
		"depth":             {Kind: book.Set, Subject: "clinic.1", Path: "name", Value: strings.Repeat("[", 20000)},
		"a key of SQL":      {Kind: book.Note, Subject: "clinic.1'; --", Value: "x"},
		"no attachment":     {Kind: book.Attach, Subject: "clinic.1", Value: `{"what": "photo", "hash": "../../../etc/passwd", "size": 1}`},
	} {
		c.ID, c.Base, c.Who, c.Made = book.NewID(), book.Latest, "Ada", l.now()
		if text := ada.wants(200, "POST", "/api/changes", written(c)); !strings.Contains(text, `"refused"`) {
			t.Errorf("%s: %.300s", what, text)
		}
	}
	// texts stay texts
	for i, text := range []string{"<script>alert(1)</script>", "'; DROP TABLE revision; --", "=1+1", "a\r\nSet-Cookie: x=y"} {
		ada.wants(200, "POST", "/api/changes", written(book.Change{ID: fmt.Sprint("t", i), Kind: book.Note, Subject: "clinic.1", Value: text, Base: book.Latest, Who: text, Made: l.now()}))
	}
	_, text, h := ada.do("GET", "/api/openings/clinic.1", "")
	if h.Get("Content-Type") != "application/json" || h.Get("X-Content-Type-Options") != "nosniff" || strings.Contains(text, "<script>") {
		t.Errorf("a text may be run: %v", h)
	}
	if v, err := l.book.Verify(t.Context(), ""); err != nil || len(v.Faults) > 0 {
		t.Error(v, err)
	}
}
