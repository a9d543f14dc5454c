package server_test

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"swingwright/book"
	"swingwright/job"
	found "swingwright/opening"
)

type opening = found.Opening

// answers are what a technician finds at a door that is in order, by what is asked for.
var answers = map[string]string{
	"use.place": "interior", "use.fire_rated": "no", "use.egress": "yes", "use.operation": "manual",
	"leaf.width": "36 in", "leaf.height": "84 in", "leaf.weight": "110 lb", "frame.hand": "LH",
	"frame.pin_to_edge": "1/8 in", "frame.pin_to_face": "3/8 in", "frame.friction": "0.6 lbf", "frame.friction_at": "34 in",
	"closer.sheet": "closer A", "closer.arm": "regular arm R", "closer.size": "3", "closer.sweep_time": "5.8", "closer.latch_time": "2.0 s",
	"latch.none": "yes", "seal.none": "yes", "air.pressure_most": "3 Pa",
}

// survey answers the questions of the survey, as far as an answer is known, and puts
// the others off; it tells how many it answered.
func (p *phone) survey() (answered int) {
	p.t.Helper()
	for range 60 {
		p.wait(`!document.querySelector('.waiting') && document.getElementById('main').dataset.ready`)
		if evaluate[bool](p, `!document.querySelector('form.question')`) {
			return answered
		}
		before := evaluate[string](p, `document.querySelector('h1').innerText + document.querySelector('form.question').innerText`)
		did := evaluate[string](p, fmt.Sprintf(`(async () => {
		  const {t, or} = await import('/js/texts.js');
		  const answers = %s;
		  const said = new Map(Object.keys(answers).map(path => [or('q.' + path, path), path]));
		  const words = await import('/js/parts.js');
		  let did = '';
		  for (const field of document.querySelectorAll('form.question .field')) {
		    const label = field.querySelector('label')?.innerText.replace(/ \([^)]*\)$/, '');
		    const path = said.get(label);
		    if (!path) continue;
		    const input = field.querySelector('input');
		    input.value = answers[path];
		    did = 'field';
		  }
		  for (const set of document.querySelectorAll('form.question fieldset')) {
		    const path = said.get(set.querySelector('legend').innerText);
		    if (!path) continue;
		    const input = [...set.querySelectorAll('input, button')].find(i => i.value === answers[path]);
		    if (!input) continue;
		    input.click();
		    did ||= 'choice';
		  }
		  return did;
		})()`, object(answers)))
		single := evaluate[bool](p, `document.querySelector('.action .main') === null`)
		switch {
		case did == "":
			p.tap("Not now")
		case single:
			answered++
		default:
			answered++
			p.tap("Save, next")
		}
		p.wait(fmt.Sprintf(`document.querySelector('h1').innerText + document.querySelector('form.question')?.innerText !== %q`, before))
	}
	p.t.Fatalf("the survey does not end:\n%s", p.text())
	return 0
}

func object(m map[string]string) string {
	var parts []string
	for _, k := range slices.Sorted(maps.Keys(m)) {
		parts = append(parts, fmt.Sprintf("%q: %q", k, m[k]))
	}
	return "{" + strings.Join(parts, ", ") + "}"
}

// lap takes one lap with the stopwatch.
func (p *phone) lap(lasts time.Duration) {
	p.t.Helper()
	press := `document.querySelector('.watch').dispatchEvent(new PointerEvent('pointerdown', {bubbles: true, cancelable: true})); true`
	evaluate[bool](p, press)
	time.Sleep(lasts)
	evaluate[bool](p, press)
}

// sync waits until nothing waits any more.
func (p *phone) synced() {
	p.t.Helper()
	p.wait(`document.getElementById('network').className === 'all'`)
}

// state is the job as the book has it, read as the command line reads it.
func (s *site) state() *job.Job {
	s.t.Helper()
	files, _, err := s.book.Export(s.t.Context(), s.key, 0)
	if err != nil {
		s.t.Fatal(err)
	}
	j, err := job.Decode(job.Texts(files.Texts), files.Name)
	if err != nil {
		s.t.Fatal(err)
	}
	return j
}

// begin opens the job, says who is there, and begins an opening.
func begin(s *site, p *phone, id string) {
	p.open(s.url("job/" + s.key))
	p.wait(`document.documentElement.dataset.engine === 'here'`)
	p.page("settings")
	p.fill("#name", "Ada Bolt")
	p.tap("Save")
	p.wait(`!location.hash.includes('settings')`)
	p.page("job/" + s.key)
	p.tap("New opening")
	p.fill("#new-id", id)
	p.fill("#new-name", "Boiler room")
	p.tap("Begin its survey")
	p.wait(`document.querySelector('form.question')`)
}

// A whole job, from the survey to a signed record, with a phone.
func TestWholeJob(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	begin(s, p, "B1")
	p.look("survey-first")
	if n := p.survey(); n < 14 {
		t.Errorf("only %d questions were answered", n)
	}
	p.look("survey-done")
	base := "job/" + s.key + "/B1"
	p.page(base + "/measure/time/closing.time_90_to_12")
	for range 3 {
		p.lap(450 * time.Millisecond)
	}
	p.look("laps")
	p.tap("Keep it")
	p.wait(`location.hash.endsWith('/measure')`)
	p.page(base + "/accept")
	p.wait(`document.querySelector('#sign-name')`)
	p.tap("Sign")
	p.wait(`document.querySelector('.wrong').innerText`) // not before the sentence is read
	evaluate[bool](p, `(() => {
	  const pad = document.querySelector('.pad'), r = pad.getBoundingClientRect();
	  pad.setPointerCapture = () => {};
	  const go = (type, x, y) => pad.dispatchEvent(new PointerEvent(type, {bubbles: true, pointerId: 1, clientX: r.left + x, clientY: r.top + y}));
	  go('pointerdown', 20, 60); for (let i = 0; i < 40; i++) go('pointermove', 20 + 6 * i, 60 + 30 * Math.sin(i / 3)); go('pointerup', 260, 60);
	  return true;
	})()`)
	p.tap("#agreed")
	p.look("sign")
	p.tap("Sign")
	p.wait(`document.querySelector('[data-sign]')`)
	p.synced()
	p.wait(`document.querySelector('[data-sign] code')`) // the seal comes back from the book
	p.look("signed")

	j := s.state()
	i := slices.IndexFunc(j.Openings, func(o opening) bool { return o.ID == "B1" })
	if i < 0 {
		t.Fatal("the book has no opening B1")
	}
	o := j.Openings[i]
	if o.Name != "Boiler room" || o.Leaf.Width.Text != "36 in" || o.Closer.SweepTime.Text != "5.8 s" || o.Closer.Sheet != "closer A" || o.Latch.None != "yes" || o.Frame.PinOff.Text != "3/8 in" {
		t.Errorf("what was entered is not what the book has: %+v", o)
	}
	if len(o.Readings) != 1 || len(o.Readings[0].Values) != 3 || o.Readings[0].By != "Ada Bolt" || o.Readings[0].Start != "reacting" {
		t.Errorf("readings: %+v", o.Readings)
	}
	key, err := s.book.Find(t.Context(), s.key, "B1")
	if err != nil {
		t.Fatal(err)
	}
	notes, err := s.book.Annotations(t.Context(), key)
	if err != nil {
		t.Fatal(err)
	}
	var signed *book.Annotation
	for i := range notes {
		if notes[i].Kind == book.Sign {
			signed = &notes[i]
		}
	}
	if signed == nil || signed.Statement.Name != "Ada Bolt" || signed.Outdated || signed.Revision.Outcome != book.Kept {
		t.Fatalf("no sign-off that holds: %+v", notes)
	}
	drawn, err := s.book.Content(signed.Statement.Signature)
	if err != nil || !strings.Contains(string(drawn), "<path d=\"M") {
		t.Errorf("the signature: %v, %.80s", err, drawn)
	}
	if v, err := s.book.Verify(t.Context(), ""); err != nil || len(v.Faults) > 0 {
		t.Errorf("the book does not verify: %v, %+v", err, v)
	}
}

// The network is cut in the middle of a visit and comes back: nothing is lost, nothing is
// there twice, and the order is kept.
func TestBasement(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	p.open(s.url("job/" + s.key))
	p.wait(`document.documentElement.dataset.engine === 'here' && navigator.serviceWorker.controller`)
	begin(s, p, "B2")
	p.synced()
	s.stop()
	answered := p.survey()
	base := "job/" + s.key + "/B2"
	p.page(base)
	p.wait(`document.querySelector('.todo')`)
	p.look("basement")
	p.page(base + "/measure/time/closing.time_10_to_closed")
	for range 3 {
		p.lap(420 * time.Millisecond)
	}
	p.tap("Keep it")
	p.wait(`location.hash.endsWith('/measure')`)
	// the phone is switched off and on again, still without a network
	p.open(s.anew("settings"))
	p.wait(`document.documentElement.dataset.engine === 'here'`)
	p.page(base + "/accept")
	p.wait(`document.querySelector('#sign-name')`)
	p.tap("#agreed")
	p.tap("Sign")
	p.wait(`document.querySelector('[data-sign]')`)
	waiting := evaluate[int](p, `import('/js/sync.js').then(s => s.state.waiting)`)
	if waiting < answered+2 {
		t.Errorf("%d changes wait after %d answers, three laps and a signature", waiting, answered)
	}
	s.start()
	p.synced()
	key, err := s.book.Find(t.Context(), s.key, "B2")
	if err != nil {
		t.Fatal(err)
	}
	all := history(t, s.book, key, "")
	seen, last := map[string]bool{}, int64(1<<62)
	for _, r := range all { // the latest first
		if seen[r.ID] || r.Seq >= last {
			t.Errorf("revision %d of device number %d is there twice, or out of order", r.N, r.Seq)
		}
		seen[r.ID], last = true, r.Seq
		if r.Outcome == book.Conflict {
			t.Errorf("revision %d is a conflict with nobody: %+v", r.N, r.Change)
		}
	}
	if len(all) != waiting+1 {
		t.Errorf("%d changes waited and the opening was begun before; the book has %d", waiting, len(all))
	}
	j := s.state()
	o := j.Openings[slices.IndexFunc(j.Openings, func(o opening) bool { return o.ID == "B2" })]
	if o.Closer.LatchTime.Text != "2.0 s" || len(o.Readings) != 1 || len(o.Readings[0].Values) != 3 {
		t.Errorf("what was entered without a network: %+v, %+v", o.Closer, o.Readings)
	}
	t.Logf("%d changes went up after the cut", waiting)
}

// Two phones change the same thing: both entries are shown, and who chooses loses neither.
func TestConflict(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	p.open(s.url("job/" + s.key))
	p.along()
	s.stop()
	evaluate[bool](p, fmt.Sprintf(`(async () => { const sync = await import('/js/sync.js'); const job = await sync.job(%q); await sync.make(job, '101', sync.set('leaf.width', '35-1/2 in'), sync.set('leaf.height', '83 in')); return true; })()`, s.key))
	other := set("other-1", s.key+".1", "leaf.width", `"36 in"`, 1)
	other.Device, other.Who = "tablet", "Grace"
	if _, err := s.book.Apply(t.Context(), time.Now(), other); err != nil {
		t.Fatal(err)
	}
	s.start()
	p.synced()
	p.page("job/" + s.key)
	p.page("job/" + s.key + "/conflicts")
	p.wait(`document.querySelectorAll('[data-conflict]').length === 1`)
	text := p.text()
	if !strings.Contains(text, "36 in") || !strings.Contains(text, "35-1/2 in") || !strings.Contains(text, "Grace") {
		t.Errorf("not both are shown:\n%s", text)
	}
	p.look("conflict")
	if o := s.state().Openings[0]; o.Leaf.Width.Text != "36 in" || o.Leaf.Height.Text != "83 in" {
		t.Errorf("before it is settled: %s by %s", o.Leaf.Width.Text, o.Leaf.Height.Text)
	}
	p.tap(`.side:last-child`)
	p.wait(`document.querySelectorAll('[data-conflict]').length === 0`)
	if o := s.state().Openings[0]; o.Leaf.Width.Text != "35-1/2 in" {
		t.Errorf("after it is settled: %s", o.Leaf.Width.Text)
	}
	kept := 0
	for _, r := range history(t, s.book, s.key+".1", "") {
		if r.Path == "leaf.width" {
			kept++
		}
	}
	if kept != 3 {
		t.Errorf("%d of the three entries are in the history", kept)
	}
}

// Valves are counted where they were not, the next turn is told and drawn, and what came of it is kept.
func TestTune(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	p.open(s.url("job/" + s.key + "/102/tune"))
	if evaluate[bool](p, `document.querySelector('#turns0') !== null`) { // where the job does not tell them yet
		p.fill("#turns0", "1.5")
		p.fill("#turns1", "1 turn")
		p.tap("Keep it")
	}
	p.wait(`document.querySelector('.move')`)
	p.look("tune-move")
	told := evaluate[string](p, `document.querySelector('.turn').innerText`)
	if !strings.Contains(told, "turn to the") && !strings.Contains(told, "from") {
		t.Errorf("the move is told as %q", told)
	}
	p.fill("#sweep", "6.2")
	p.fill("#latch", "2.4 s")
	p.tap("#latched-0")
	p.tap("It is turned: keep it")
	o := &s.state().Openings[1]
	for soon := time.Now().Add(time.Minute); len(o.Adjusted) == 0 && time.Now().Before(soon); o = &s.state().Openings[1] {
		time.Sleep(100 * time.Millisecond)
	}
	last := len(o.Adjusted) - 1
	if o.ID != "102" || !o.Closer.SweepTurns.Known || last < 0 || o.Adjusted[last].SweepTime.Text != "6.2 s" || o.Adjusted[last].Latched != "yes" {
		t.Errorf("what was turned: %+v, %+v", o.Closer, o.Adjusted)
	}
}

// A photo is made smaller, kept on the phone, and goes up with the change that names it.
func TestPhoto(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	p.open(s.url("job/" + s.key + "/101/survey"))
	p.wait(`document.querySelector('#photo')`)
	picture := image.NewRGBA(image.Rect(0, 0, 2400, 1200))
	for i := range picture.Pix {
		picture.Pix[i] = byte(i)
	}
	var data bytes.Buffer
	if err := png.Encode(&data, picture); err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "door.png")
	if err := os.WriteFile(name, data.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Do(p.ctx, chromedp.SetUploadFiles(chromedp.CSS("#photo"), []string{name}, chromedp.NodeReady)); err != nil {
		t.Fatal(err)
	}
	p.wait(`document.getElementById('told').textContent`)
	p.synced()
	notes, err := s.book.Annotations(t.Context(), s.key+".1")
	if err != nil || len(notes) != 1 || notes[0].Attachment == nil || notes[0].Attachment.What != "photo" {
		t.Fatalf("%v: %+v", err, notes)
	}
	content, err := s.book.Content(notes[0].Attachment.Hash)
	if err != nil {
		t.Fatal(err)
	}
	kept, err := jpeg.DecodeConfig(bytes.NewReader(content))
	if err != nil || kept.Width != 1600 || kept.Height != 800 {
		t.Errorf("the photo in the book: %+v, %v", kept, err)
	}
}
