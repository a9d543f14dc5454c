package server_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"swingwright/book"
)

// along takes the job that is shown along.
func (p *phone) along() {
	p.t.Helper()
	p.tap("Take this job along")
	p.waitLong(`document.querySelector('.along').innerText.includes('is on this device, as it was')`, time.Minute)
}

// paths are the paths that were asked for since this was asked last.
func (s *site) paths() []string {
	s.mu.Lock()
	defer s.mu.Unlock()
	all := s.asked
	s.asked = nil
	return all
}

const rowCount = `document.querySelectorAll('nav.rows a').length`

// A job that was taken along is there without a network, with openings that were never looked at, their photos, and how
// they stand; what is entered then goes up afterwards.
func TestTakenAlong(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	hash, size, err := s.book.Store(strings.NewReader(string(picture(t, 40, 30))), 1<<20)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.book.Apply(t.Context(), time.Now(), book.Change{ID: "photo", Kind: book.Attach, Subject: s.key + ".5", Base: book.Latest, Who: "Grace", Made: time.Now(),
		Value: fmt.Sprintf(`{"what": "photo", "name": "sill.png", "type": "image/png", "hash": %q, "size": %d}`, hash, size)}); err != nil {
		t.Fatal(err)
	}
	p.open(s.url("job/" + s.key))
	p.along()
	p.wait(`document.documentElement.dataset.engine === 'here'`)
	p.wait(`!document.querySelector('nav.rows').innerText.includes('Reckoning')`)
	p.look("along")
	online := evaluate[[]string](p, `[...document.querySelectorAll('nav.rows a')].map(a => a.innerText)`)
	id := evaluate[string](p, fmt.Sprintf(`fetch('/api/openings/%s.5').then(r => r.json()).then(o => o.id)`, s.key))
	s.stop()

	p.fill("#search", "accessible toilet") // the page that is shown goes on with what is here
	p.wait(rowCount + ` === 2`)
	p.open(s.anew("job/" + s.key))
	p.wait(rowCount + ` === 22`)
	p.waitLong(`!document.querySelector('nav.rows').innerText.includes('Reckoning')`, 2*time.Minute)
	if offline := evaluate[[]string](p, `[...document.querySelectorAll('nav.rows a')].map(a => a.innerText)`); !slices.Equal(online, offline) {
		t.Errorf("with a network the list says\n%q, without one\n%q", online, offline)
	}
	p.look("along-offline")
	p.fill("#search", "accessible toilet")
	p.wait(rowCount + ` === 2`)
	p.fill("#search", "")
	p.wait(rowCount + ` === 22`)
	want := 0
	for _, row := range online {
		if strings.Contains(row, "falls short") {
			want++
		}
	}
	evaluate[bool](p, `(() => { const s = document.querySelector('#narrowing'); s.value = 'falls-short'; s.dispatchEvent(new Event('change')); return true; })()`)
	p.wait(fmt.Sprintf(`%s === %d`, rowCount, want))

	p.page("job/" + s.key + "/" + id + "/history")
	p.wait(`document.querySelector('img')?.naturalWidth === 40`)
	p.page("job/" + s.key + "/" + id) // never looked at before
	p.wait(`document.querySelector('.todo b')`)
	p.page("job/" + s.key + "/" + id + "/survey")
	p.wait(`document.querySelector('h1')`)
	evaluate[bool](p, fmt.Sprintf(`(async () => { const sync = await import('/js/sync.js'); await sync.make(await sync.opening(%q, %q), %q, sync.set('leaf.width', '35-1/2 in')); return true; })()`, s.key, id, id))
	s.start()
	p.synced()
	if o := s.state().Openings[4]; o.ID != id || o.Leaf.Width.Text != "35-1/2 in" {
		t.Errorf("%s: %s", o.ID, o.Leaf.Width.Text)
	}

	// taken off again, what was changed or begun here stays, with what it takes its fields over from
	p.page("job/" + s.key)
	p.tap("New opening")
	p.fill("#new-id", "Z1")
	p.fill("#new-like", "113")
	p.tap("Begin its survey")
	p.wait(`location.hash.endsWith('/Z1/survey')`)
	p.synced()
	p.page("job/" + s.key + "/Z1") // the server shows it by now
	p.wait(`document.querySelector('.todo b')`)
	p.page("job/" + s.key)
	p.tap("Take it off this device")
	p.wait(`document.querySelector('.along').innerText.includes('Take this job along')`)
	s.stop()
	p.open(s.anew("job/" + s.key))
	p.wait(`document.querySelectorAll('nav.rows a').length > 0 && document.body.innerText.includes('Only the openings that were opened on this device')`)
	if kept := evaluate[[]string](p, `[...document.querySelectorAll('nav.rows a b')].map(b => b.innerText)`); !slices.Contains(kept, id) {
		t.Errorf("what was changed here is gone: %q", kept)
	}
	p.look("along-part")
	p.page("job/" + s.key + "/110")
	p.wait(`document.body.innerText.includes('is not on this device')`)
	p.page("job/" + s.key + "/Z1")
	p.wait(`document.querySelector('.todo b')`)
	p.look("along-own")
}

// Where there is a network only what is shown is asked for, however large the job; what was opened stays.
func TestOnlyWhatIsShown(t *testing.T) {
	s, p := newSite(t, many(t, 130)), newPhone(t)
	defer p.done()
	p.open(s.url("job/" + s.key))
	p.wait(rowCount + ` === 50`)
	p.wait(`document.querySelector('nav.rows .row-under b')`)
	p.look("large")
	p.tap("Show more")
	p.wait(rowCount + ` === 100 && document.activeElement === document.querySelectorAll('nav.rows a')[50]`)
	p.tap("Show more")
	p.wait(rowCount + ` === 130 && document.body.innerText.includes('130 openings')`)
	p.fill("#search", "room 77")
	p.wait(rowCount + ` === 2`) // one is 77, one leads to room 77
	p.tap("nav.rows a:last-child")
	p.wait(`document.querySelector('h1').innerText.includes('78') && document.querySelector('.standing')`)
	for _, path := range s.paths() {
		if path == "GET /api/jobs/"+s.key {
			t.Error("the whole job was asked for")
		}
	}
	p.page("job/" + s.key)
	p.tap("New opening")
	p.fill("#new-id", "12")
	p.tap("Begin its survey")
	p.wait(`!document.querySelector('#new-id').validity.valid`) // the server has it, though this phone does not
	p.fill("#new-id", "N1")
	p.fill("#new-like", "nowhere")
	p.tap("Begin its survey")
	p.wait(`!document.querySelector('#new-like').validity.valid`)
	p.fill("#new-like", "12")
	p.tap("Begin its survey")
	p.wait(`location.hash.endsWith('/N1/survey')`)
	p.synced()
	if !slices.ContainsFunc(s.state().Openings, func(o opening) bool { return o.ID == "N1" && o.SameAs == "12" }) {
		t.Error("the opening that was begun is not in the book")
	}
	p.wait(`document.documentElement.dataset.engine === 'here' && navigator.serviceWorker.controller`)
	s.stop()
	p.page("job/" + s.key + "/78")
	p.wait(`document.querySelector('.todo b')`)
	p.page("job/" + s.key + "/N1")
	p.wait(`document.querySelector('.todo b')`)
	p.page("job/" + s.key + "/90")
	p.wait(`document.body.innerText.includes('is not on this device')`)
}

// What an earlier version of the app kept on the phone is there after the app is brought up: the jobs, and what waits.
func TestPhoneBroughtUp(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	if err := chromedp.Do(p.ctx, chromedp.Navigate("http://"+s.address+"/icon.svg")); err != nil {
		t.Fatal(err)
	}
	evaluate[bool](p, fmt.Sprintf(`(async () => {
	  const got = {...await (await fetch('/api/jobs/%[1]s')).json(), id: '%[1]s'};
	  const db = await new Promise((done, fail) => {
	    const r = indexedDB.open('swingwright', 1);
	    r.onupgradeneeded = () => { for (const [n, o] of Object.entries({jobs: {keyPath: 'id'}, changes: {keyPath: 'seq'}, blobs: {keyPath: 'hash'}, states: {keyPath: 'key'}, settings: {}})) r.result.createObjectStore(n, o); };
	    r.onsuccess = () => done(r.result);
	    r.onerror = () => fail(r.error);
	  });
	  const tx = db.transaction(['jobs', 'changes', 'settings'], 'readwrite');
	  tx.objectStore('jobs').put(got);
	  tx.objectStore('changes').put({seq: 1, id: 'old-1', kind: 'set', job: '%[1]s', subject: '%[1]s.2', path: 'leaf.width', value: '"35-1/4 in"', base: got.rev, device: 'old-phone', who: 'Ada', made: new Date().toISOString(), waits: true});
	  tx.objectStore('settings').put(1, 'seq');
	  tx.objectStore('settings').put('old-phone', 'device');
	  await new Promise(done => { tx.oncomplete = done; });
	  db.close();
	  return true;
	})()`, s.key))
	p.open(s.url("settings"))
	held := evaluate[[]string](p, fmt.Sprintf(`import('/js/sync.js').then(s => s.job(%q)).then(j => j.tree.openings.map(o => o.id + ' ' + j.keys[o.id]))`, s.key))
	if len(held) != 22 || held[0] != "101 "+s.key+".1" {
		t.Errorf("%q", held)
	}
	p.synced()
	if o := s.state().Openings[1]; o.Leaf.Width.Text != "35-1/4 in" {
		t.Errorf("what waited: %s", o.Leaf.Width.Text)
	}
}
