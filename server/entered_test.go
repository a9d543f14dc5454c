package server_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"swingwright/book"
)

// Whatever is entered in the app is a revision that says who, when, on which device and, of what was measured, with
// what; and both the history of the app and that of the book tell it.
func TestRevisionsSayWho(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	begun := time.Now().Add(-time.Second)
	p.open(s.url("job/" + s.key))
	p.page("settings")
	p.fill("#name", "Ada Bolt")
	p.tap("Save")
	p.wait(`!location.hash.includes('settings')`)
	base := "job/" + s.key + "/102"
	at := func(page string) {
		t.Helper()
		p.page(base + "/" + page)
		p.wait(`!document.querySelector('.waiting')`)
	}
	at("measure/time/closing.time_90_to_12") // a reading by stopwatch
	p.lap(450 * time.Millisecond)
	p.tap("Keep it")
	p.wait(`location.hash.endsWith('/measure')`)
	at("measure/force/hand.to_open") // by gauge
	p.fill("#f1", "4.1 lbf")
	p.fill("#at", "34 in")
	p.tap("Keep it")
	p.wait(`location.hash.endsWith('/measure')`)
	at("measure/seen/closing.latches_from_90") // by eye
	p.tap("[value=yes]")
	p.wait(`location.hash.endsWith('/measure')`)
	at("tune") // the valves are counted, then an adjustment
	p.fill("#turns0", "1 turns")
	p.fill("#turns1", "1 turns")
	p.tap("Keep it")
	p.wait(`document.getElementById('sweep')`)
	p.fill("#sweep", "5.9")
	p.tap(".turned button.main")
	p.wait(`document.getElementById('told').innerText`)
	at("survey") // a photo
	evaluate[bool](p, `(async () => {
	  const canvas = document.createElement('canvas');
	  canvas.width = canvas.height = 30;
	  canvas.getContext('2d').fillRect(0, 0, 20, 20);
	  const blob = await new Promise(done => canvas.toBlob(done, 'image/png'));
	  const files = new DataTransfer();
	  files.items.add(new File([blob], 'sill.png', {type: 'image/png'}));
	  const input = document.getElementById('photo');
	  input.files = files.files;
	  input.dispatchEvent(new Event('change'));
	  return true;
	})()`)
	p.wait(`document.getElementById('told').innerText.includes('hoto')`)
	evaluate[bool](p, `(async () => { const sync = await import('/js/sync.js'); const job = await sync.job('`+s.key+`'); await sync.make(job, '102', sync.set('leaf.thickness', '1-3/4 in'), {kind: 'note', value: 'squeaks'}); return true; })()`)
	at("accept")
	p.wait(`document.querySelector('#sign-name')`)
	p.tap("#agreed")
	p.tap("Sign")
	p.wait(`document.querySelector('[data-sign]')`)
	p.synced()

	key, err := s.book.Find(t.Context(), s.key, "102")
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]string{ // what was entered, and with what
		"add readings closing.time_90_to_12": "stopwatch", "add readings hand.to_open": "force gauge", "add readings closing.latches_from_90": "eye", "add adjustments": "stopwatch",
		"attach": "camera", "note": "", "set leaf.thickness": "", "set closer.sweep_turns": "", "set closer.latch_turns": "", "sign": "",
	}
	device := ""
	for _, r := range history(t, s.book, key, "") {
		if r.Seq == 0 {
			continue // the import
		}
		what := strings.TrimSpace(string(r.Kind) + " " + r.Path)
		for known := range want {
			if strings.HasPrefix(known, what+" ") && strings.Contains(r.Value, strings.TrimPrefix(known, what+" ")) {
				what = known
			}
		}
		with, known := want[what]
		if !known {
			t.Errorf("nobody entered %s %s", what, r.Value)
			continue
		}
		delete(want, what)
		if device == "" {
			device = r.Device
		}
		if r.Who != "Ada Bolt" || r.Device == "" || r.Device != device || r.Instrument != with || r.Made.Before(begun) || r.Made.After(time.Now().Add(time.Second)) || r.Kept.IsZero() {
			t.Errorf("%s: by %q on %q with %q (not %q), at %v", what, r.Who, r.Device, r.Instrument, with, r.Made)
		}
		if then, err := s.book.At(t.Context(), key, r.N-1); err != nil || r.Kind == book.Set && strings.Contains(then.Text, "1-3/4 in") {
			t.Errorf("%s: what stood before cannot be seen: %v", what, err)
		}
	}
	if len(want) > 0 {
		t.Errorf("not in the history: %v", want)
	}
	at("history")
	p.wait(`document.querySelectorAll('[data-change]').length >= 8`)
	for _, said := range []string{"Ada Bolt", "force gauge", "stopwatch", "camera", fmt.Sprint("device ", device[:6])} {
		if !strings.Contains(p.text(), said) {
			t.Errorf("the history does not say %q:\n%s", said, p.text())
		}
	}
}
