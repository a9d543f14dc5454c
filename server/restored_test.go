package server_test

import (
	"fmt"
	"testing"
	"time"

	"swingwright/book"
)

// A book is lost and put back from a backup. Phones that had sent more than the backup has go on: what is still on
// them is sent again, in order and once, and what somebody else entered into the book meanwhile is not overwritten unseen.
func TestPutBack(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	p.open(s.url("job/" + s.key))
	p.wait(`document.documentElement.dataset.engine === 'here' && navigator.serviceWorker.controller`)
	enter := func(changes string) {
		t.Helper()
		evaluate[bool](p, fmt.Sprintf(`(async () => { const sync = await import('/js/sync.js'); const job = await sync.opening(%q, '101', true); await sync.make(job, '101', %s); return true; })()`, s.key, changes))
	}
	enter(`sync.set('leaf.width', '35-1/2 in')`)
	p.synced()
	folder := t.TempDir() + "/backup"
	if _, err := s.book.Backup(t.Context(), folder); err != nil {
		t.Fatal(err)
	}
	// after the backup: seen here and dropped from the phone, and lost with the book
	enter(`sync.set('leaf.height', '83 in'), sync.set('name', 'Lost with the book')`)
	p.synced()
	p.page("job/" + s.key + "/101")
	p.wait(`document.querySelector('h1').innerText.includes('Lost with the book')`)
	// acknowledged, and still here
	evaluate[bool](p, `(async () => { const sync = await import('/js/sync.js'); const job = await sync.opening('`+s.key+`', '101'); await sync.make(job, '101', {kind: 'note', value: 'acknowledged by the lost book'}); return true; })()`)
	p.synced()
	s.stop()
	s.book.Close()
	enter(`sync.set('leaf.thickness', '1-3/4 in'), {kind: 'note', value: 'made while the book was lost'}`)
	evaluate[bool](p, `(async () => { const sync = await import('/js/sync.js'); const job = await sync.opening('`+s.key+`', '101');
	  const blob = new Blob(['time,angle\n0,0\n'], {type: 'text/csv'}); const hash = await sync.keepBlob(blob);
	  await sync.make(job, '101', {kind: 'attach', value: JSON.stringify({what: 'recording', name: 'swing.csv', type: blob.type, hash, size: blob.size})}); return true; })()`)
	restored, err := book.Open(t.Context(), folder)
	if err != nil {
		t.Fatal(err)
	}
	defer restored.Close()
	s.book = restored
	command(t, restored, book.Change{Kind: book.Set, Subject: s.key + ".1", Path: "leaf.thickness", Value: "1-3/8 in"})
	s.start()
	p.synced()
	values, last, conflicts := map[string]int{}, int64(1<<62), 0
	for _, r := range history(t, restored, s.key+".1", "") {
		if r.Seq == 0 {
			continue
		}
		values[r.Path+r.Value]++
		if r.Seq >= last {
			t.Errorf("number %d is out of order", r.Seq)
		}
		last = r.Seq
		if r.Outcome == book.Conflict {
			conflicts++
		}
	}
	for _, want := range []string{`leaf.width"35-1/2 in"`, "acknowledged by the lost book", "made while the book was lost", `leaf.thickness"1-3/4 in"`} {
		if values[want] != 1 {
			t.Errorf("%q is there %d times: %v", want, values[want], values)
		}
	}
	if conflicts != 1 {
		t.Errorf("%d conflicts, where the same field was changed without sight of each other", conflicts)
	}
	if v, err := restored.Verify(t.Context(), ""); err != nil || len(v.Faults) > 0 || v.Attachments == 0 {
		t.Error(v, err)
	}
	// and it goes on as before
	enter(`sync.set('leaf.weight', '112 lb')`)
	p.synced()
	for end := time.Now().Add(10 * time.Second); ; time.Sleep(50 * time.Millisecond) {
		if o := s.state().Openings[0]; o.Leaf.Weight.Text == "112 lb" {
			break
		} else if time.Now().After(end) {
			t.Fatalf("later entries do not come: %+v", o.Leaf)
		}
	}
	if waits := evaluate[int](p, `import('/js/sync.js').then(s => s.state.waiting)`); waits != 0 {
		t.Errorf("%d changes wait", waits)
	}
}

// Where no number tells that the book was put back, the seal of what a phone had seen does: what others entered since is
// not taken for what the phone had seen under the same revision.
func TestPutBackUnnoticed(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	p.open(s.url("job/" + s.key + "/101"))
	p.wait(`document.documentElement.dataset.engine === 'here' && navigator.serviceWorker.controller`)
	folder := t.TempDir() + "/backup"
	if _, err := s.book.Backup(t.Context(), folder); err != nil {
		t.Fatal(err)
	}
	for i := range 3 {
		command(t, s.book, book.Change{Kind: book.Note, Subject: s.key + ".1", Value: fmt.Sprint("seen, and lost with the book ", i)})
	}
	if rev := evaluate[int64](p, `(async () => { const sync = await import('/js/sync.js'); return (await sync.opening('`+s.key+`', '101', true)).revs['`+s.key+`.1']; })()`); rev < 34 {
		t.Fatalf("the phone has seen revision %d only", rev)
	}
	s.stop()
	s.book.Close()
	evaluate[bool](p, `(async () => { const sync = await import('/js/sync.js'); const job = await sync.opening('`+s.key+`', '101'); await sync.make(job, '101', sync.set('leaf.width', '35-1/2 in')); return true; })()`)
	restored, err := book.Open(t.Context(), folder)
	if err != nil {
		t.Fatal(err)
	}
	defer restored.Close()
	s.book = restored
	// as many revisions as there were, and the same field among them
	command(t, restored, book.Change{Kind: book.Set, Subject: s.key + ".1", Path: "leaf.width", Value: "36-1/4 in"})
	for i := range 5 {
		command(t, restored, book.Change{Kind: book.Note, Subject: s.key + ".1", Value: fmt.Sprint("entered since ", i)})
	}
	s.start()
	p.synced()
	var mine *book.Revision
	for _, r := range history(t, restored, s.key+".1", "") {
		if r.Seq > 0 {
			mine = r
		}
	}
	if mine == nil || mine.Outcome != book.Conflict {
		t.Errorf("what somebody entered since was overwritten unseen: %+v", mine)
	}
	if o := s.state().Openings[0]; o.Leaf.Width.Text != "36-1/4 in" {
		t.Error(o.Leaf.Width)
	}
}
