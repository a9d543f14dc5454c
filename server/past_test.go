package server_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"swingwright/book"
)

// command enters something as a command does: on no device that tells of itself.
func command(t *testing.T, b *book.Book, c book.Change) int64 {
	t.Helper()
	c.ID, c.Base, c.Who, c.Made = book.NewID(), book.Latest, "J. Marlow", time.Now()
	receipts, err := b.Apply(t.Context(), time.Now(), c)
	if err != nil {
		t.Fatal(err)
	}
	return receipts[0].Revision
}

// Any state of a job is given again, with what is found of it by the rulebooks of then.
func TestAnyState(t *testing.T) {
	h, b, key := shelf(t)
	whole := func(query string) (tree map[string]any, rest string) {
		t.Helper()
		status, text := send(h, "GET", "/api/jobs/"+key+query, "")
		var got struct {
			Tree    map[string]any
			Keys    map[string]string
			Records map[string][]any
		}
		if err := json.Unmarshal([]byte(text), &got); err != nil || status != 200 {
			t.Fatal(status, err, text)
		}
		return got.Tree, fmt.Sprint(got.Keys, len(got.Records[key+".1"]))
	}
	ask := func(tree map[string]any, query string) string {
		t.Helper()
		body, err := json.Marshal(map[string]any{"job": tree, "opening": "101", "units": "us"})
		if err != nil {
			t.Fatal(err)
		}
		status, text := send(h, "POST", "/api/jobs/"+key+"/ask/opening"+query, string(body))
		if status != 200 {
			t.Fatal(status, text)
		}
		return text
	}
	head, _, err := b.Head(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	before, rest := whole("")
	found := ask(before, "")
	// the opening, the rulebooks and what hangs on the opening change
	command(t, b, book.Change{Kind: book.Set, Subject: key + ".1", Path: "closer.sweep_time", Value: "2 s"})
	command(t, b, book.Change{Kind: book.Set, Subject: key, Path: "rulebooks", Value: "[a117.1-2009]"})
	command(t, b, book.Change{Kind: book.Note, Subject: key + ".1", Value: "slams"})
	now, restNow := whole("")
	if ask(now, "") == found || restNow == rest {
		t.Fatal("what was changed changes nothing")
	}
	at := fmt.Sprint("?at=", head)
	then, restThen := whole(at)
	if fmt.Sprint(then) != fmt.Sprint(before) || restThen != rest {
		t.Error("the job is not given as it was")
	}
	if ask(then, at) != found {
		t.Error("other things are found of the state than at its time")
	}
	// a rulebook that nobody knows is told as what it is
	command(t, b, book.Change{Kind: book.Set, Subject: key, Path: "rulebooks", Value: "[no-such-book]"})
	if status, text := send(h, "GET", "/api/jobs/"+key, ""); status != 422 || !strings.Contains(text, "no-such-book") {
		t.Error(status, text)
	}
	for _, wrong := range []string{"?at=0", "?at=-1", "?at=x"} {
		if status, _ := send(h, "GET", "/api/jobs/"+key+wrong, ""); status != 400 {
			t.Errorf("%s: %d", wrong, status)
		}
		if status, _ := send(h, "POST", "/api/jobs/"+key+"/ask/opening"+wrong, "{}"); status != 400 {
			t.Errorf("%s: %d", wrong, status)
		}
	}
}

// The history leads to every state, and a sign-off to what was signed, also after the opening was changed.
func TestPastPages(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	key := s.key + ".1"
	shut := command(t, s.book, book.Change{Kind: book.Add, Subject: key, Path: "readings", Value: "{fact: closing.time_90_to_closed, value: 8.77 s}"})
	last := len(s.state().Openings[0].Readings) - 1
	signed := command(t, s.book, book.Change{Kind: book.Sign, Subject: key, Value: `{"name": "Ada Bolt", "text": "as found"}`})
	command(t, s.book, book.Change{Kind: book.Set, Subject: key, Path: fmt.Sprintf("readings[%d].value", last), Value: "2.22 s"})
	command(t, s.book, book.Change{Kind: book.Set, Subject: key, Path: "id", Value: `"101a"`})
	p.open(s.url("job/" + s.key + "/101a/history"))
	p.look("history-past")
	p.tap(fmt.Sprintf(`a[href$="/history/%d"]`, shut))
	p.wait(`document.querySelector('.past') && !document.querySelector('.waiting')`)
	p.look("past")
	text := p.text()
	for _, want := range []string{fmt.Sprintf("After revision %d", shut), "J. Marlow", "8.77"} {
		if !strings.Contains(text, want) {
			t.Errorf("the past lacks %q:\n%s", want, text)
		}
	}
	if strings.Contains(text, "2.22") || strings.Contains(text, "Ada Bolt") {
		t.Error("the past knows what came later:\n" + text)
	}
	p.page("job/" + s.key + "/101a/accept")
	p.wait(`document.querySelector('[data-sign]')`)
	if text := p.text(); !strings.Contains(text, "the opening was changed after this") {
		t.Error("nobody is told that what was signed has changed:\n" + text)
	}
	p.tap("See what was signed")
	p.wait(`document.querySelector('.past') && !document.querySelector('.waiting')`)
	if text := p.text(); !strings.Contains(text, fmt.Sprintf("After revision %d", signed)) || !strings.Contains(text, "Ada Bolt") || !strings.Contains(text, "8.77") || strings.Contains(text, "2.22") {
		t.Error("not what was signed:\n" + text)
	}
	p.page(fmt.Sprintf("job/%s/101a/history/%d", s.key, 1))
	p.wait(`document.querySelector('.problem')`) // in the middle of the import
}

// What is entered by a command while a page is open is told there, and shown where somebody wishes; what is entered
// on the same phone, or about another opening, is not.
func TestNews(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	p.open(s.url("job/" + s.key + "/101"))
	p.wait(`!document.querySelector('.waiting')`)
	p.page("job/" + s.key + "/101/survey")
	p.page("job/" + s.key + "/101")
	evaluate[bool](p, `(async () => { const sync = await import('/js/sync.js'); const job = await sync.job('`+s.key+`'); await sync.make(job, '101', {kind: 'note', value: 'by this phone'}); return true; })()`)
	p.synced()
	command(t, s.book, book.Change{Kind: book.Set, Subject: s.key + ".2", Path: "name", Value: "Elsewhere"})
	look := `document.dispatchEvent(new Event('visibilitychange')); true`
	for range 3 {
		evaluate[bool](p, look)
		evaluate[bool](p, `fetch('/api/jobs/`+s.key+`').then(() => true)`) // an answer later
	}
	if told := evaluate[string](p, `document.getElementById('news').innerText`); told != "" {
		t.Errorf("told as news: %s", told)
	}
	command(t, s.book, book.Change{Kind: book.Set, Subject: s.key + ".1", Path: "name", Value: "Corridor to the garden"})
	p.wait(`document.getElementById('news').innerText.includes('J. Marlow')`) // by itself
	p.look("news")
	if text := p.text(); strings.Contains(text, "garden") {
		t.Error("the page changed under the reader's hands")
	}
	p.tap("Show what is new")
	p.wait(`document.querySelector('h1').innerText.includes('Corridor to the garden') && document.getElementById('news').innerText === ''`)
	p.page("job/" + s.key)
	command(t, s.book, book.Change{Kind: book.BeginOpening, Subject: book.NewKey(), Job: s.key, Value: `{id: "999", name: New store}`})
	evaluate[bool](p, look)
	p.wait(`document.getElementById('news').innerText.includes('Opening added')`)
	p.tap("Show what is new")
	p.wait(`document.body.innerText.includes('New store')`)
}
