package server_test

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"swingwright/book"
)

// press presses keys, one after another, as a person with a keyboard would.
func (p *phone) press(keys string, held ...chromedp.Modifier) {
	p.t.Helper()
	if err := chromedp.Do(p.ctx, chromedp.KeyEvent(keys, chromedp.KeyModifiers(held...))); err != nil {
		p.t.Fatal(err)
	}
}

// step goes to the next control, or with back to the one before, and holds how it shows its
// focus to WCAG 2.2, 2.4.7, 2.4.11 and 2.4.13. It gives what the control is called.
func (p *phone) step(back bool) string {
	p.t.Helper()
	if back {
		p.press(kb.Tab, chromedp.ModifierShift)
	} else {
		p.press(kb.Tab)
	}
	p.learn("sight")
	p.learn("keys")
	p.tells(evaluate[string](p, `location.hash`), "focus", `keys.faults()`)
	return evaluate[string](p, `keys.name()`)
}

// to goes on from control to control until one is called so, or begins so.
func (p *phone) to(name string) { p.t.Helper(); p.towards(name, false) }

// backTo goes back until a control is called so.
func (p *phone) backTo(name string) { p.t.Helper(); p.towards(name, true) }

func (p *phone) towards(name string, back bool) {
	p.t.Helper()
	var passed []string
	for range 120 {
		at := p.step(back)
		if at == name || strings.HasPrefix(at, name) {
			return
		}
		passed = append(passed, at)
	}
	p.t.Fatalf("no control %q; passed %q\n%s", name, passed, p.text())
}

// arrives waits for a page, and that its heading has the focus: a screen reader reads on from there.
func (p *phone) arrives(hash string) {
	p.t.Helper()
	p.wait(fmt.Sprintf(`location.hash.endsWith(%q) && document.getElementById('main').dataset.ready === location.hash.slice(2) && !document.querySelector('.waiting') && document.activeElement.tagName === 'H1'`, hash))
}

// answer answers the question that is shown, with keys alone, or puts it off.
func (p *phone) answer() (answered bool) {
	p.t.Helper()
	var fields []struct{ Kind, Name, Value string }
	found := evaluate[string](p, fmt.Sprintf(`(async () => {
	  const {or} = await import('/js/texts.js'), answers = %s;
	  const said = new Map(Object.keys(answers).map(path => [or('q.' + path, path), answers[path]]));
	  const clean = text => text.replace(/\s+/g, ' ').trim();
	  const list = [];
	  for (const e of document.querySelectorAll('form.question .field, form.question fieldset')) {
	    const label = e.querySelector('label, legend').innerText;
	    const value = said.get(e.matches('fieldset') ? label : label.replace(/ \([^)]*\)$/, ''));
	    if (value === undefined) continue;
	    if (!e.matches('fieldset')) list.push({Kind: 'field', Name: clean(label), Value: value});
	    else if (e.matches('.picks')) { const b = [...e.querySelectorAll('button')].find(b => b.value === value); if (b) list.push({Kind: 'pick', Name: clean(b.innerText), Value: ''}); }
	    else { const at = [...e.querySelectorAll('input')].findIndex(i => i.value === value); if (at >= 0) list.push({Kind: 'choice', Name: clean(e.querySelector('input:checked, input').labels[0].innerText), Value: String(at)}); }
	  }
	  return JSON.stringify(list);
	})()`, object(answers)))
	if err := json.Unmarshal([]byte(found), &fields); err != nil {
		p.t.Fatal(err)
	}
	if len(fields) == 0 {
		p.to("Not now")
		p.press(kb.Enter)
		return false
	}
	for _, f := range fields {
		p.to(f.Name)
		switch f.Kind {
		case "field":
			p.press("a", chromedp.ModifierCtrl)
			p.press(f.Value)
		case "pick":
			p.press(kb.Enter)
			return true
		case "choice":
			p.press(" ")
			for range f.Value[0] - '0' {
				p.press(kb.ArrowDown)
			}
		}
	}
	p.to("Save, next")
	p.press(kb.Enter)
	return true
}

// A whole visit without a finger or a mouse.
func TestKeyboardVisit(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	if _, err := s.book.Apply(t.Context(), time.Now(), set("tablet-1", s.key+".1", "leaf.width", `"36 in"`, 1), func() book.Change {
		c := set("other-1", s.key+".1", "leaf.width", `"35-1/2 in"`, 1)
		c.Device, c.Who, c.Base = "another tablet", "Grace", 1
		return c
	}()); err != nil {
		t.Fatal(err)
	}
	p.open(s.url("settings"))
	p.wait(`document.documentElement.dataset.engine === 'here'`)
	p.to("Your name")
	p.press("Ada Bolt")
	p.to("millimetres, newtons")
	p.press(" ")
	p.wait(`document.activeElement.innerText === 'millimetres, newtons' && document.activeElement.matches('[aria-current]')`) // shown anew, and the focus has stayed
	p.backTo("inches, pounds")
	p.press(kb.Enter)
	p.wait(`document.activeElement.innerText === 'inches, pounds' && document.activeElement.matches('[aria-current]')`)
	p.to("Save")
	p.press(kb.Enter)
	p.wait(`!location.hash.includes('settings')`)
	p.page("job/" + s.key)

	// two entries for one thing
	p.to("1 thing was entered twice")
	p.press(kb.Enter)
	p.arrives("/conflicts")
	p.to("35-1/2 in")
	p.press(kb.Enter)
	p.wait(`document.querySelectorAll('[data-conflict]').length === 0`)
	p.arrives("/conflicts")
	p.backTo("Back")
	p.press(kb.Enter)
	p.arrives("job/" + s.key)

	// a new opening and its survey
	p.to("New opening")
	p.press(kb.Enter)
	p.to("Its number")
	p.press("K1")
	p.to("Where it is")
	p.press("Plant room")
	p.to("Begin its survey")
	p.press(kb.Enter)
	p.wait(`document.querySelector('form.question')`)
	p.arrives("K1/survey")
	answered := 0
	for range 60 {
		if evaluate[bool](p, `!document.querySelector('form.question')`) {
			break
		}
		before := evaluate[string](p, `document.querySelector('h1').innerText + document.querySelector('form.question').innerText`)
		if p.answer() {
			answered++
		}
		p.wait(fmt.Sprintf(`!document.querySelector('.waiting') && document.getElementById('main').dataset.ready && document.querySelector('h1').innerText + document.querySelector('form.question')?.innerText !== %q`, before))
		p.arrives("K1/survey")
	}
	if answered < 14 {
		t.Errorf("only %d questions were answered", answered)
	}
	p.to("Back to the opening")
	p.press(kb.Enter)
	p.arrives("/K1")

	// the stopwatch, by the space bar
	p.to("Measure")
	p.press(kb.Enter)
	p.arrives("/K1/measure")
	p.to("Closing, 90° to")
	p.press(kb.Enter)
	p.wait(`document.querySelector('.watch')`)
	p.to("Stopwatch:")
	for range 3 {
		p.press(" ")
		time.Sleep(420 * time.Millisecond)
		p.press(" ")
	}
	p.wait(`document.querySelectorAll('.laps li').length === 3`)
	p.to("Drop lap 1")
	p.press(kb.Enter)
	p.wait(`document.querySelectorAll('.laps li').length === 2`)
	p.to("Keep it")
	p.press(kb.Enter)
	p.arrives("/K1/measure")

	// the gauge, typed and stepped
	p.to("Push to 90°")
	p.press(kb.Enter)
	p.wait(`document.querySelector('#f1')`)
	p.to("Reading 1")
	p.press("6.5")
	p.press(kb.ArrowUp)
	p.press(kb.ArrowUp)
	p.press(kb.ArrowDown)
	if v := evaluate[string](p, `document.querySelector('#f1').value`); v != "6.6 lbf" {
		t.Errorf("after two steps up and one down: %q", v)
	}
	p.to("Reading 2")
	p.press("6.7")
	p.to("More: Reading 3")
	p.press(" ")
	if v := evaluate[string](p, `document.querySelector('#f3').value + '|' + document.querySelector('#f3').closest('.field').querySelector('[aria-live]').textContent`); v != "0.1 lbf|0.1 lbf" {
		t.Errorf("a step from nothing, and what is said of it: %q", v)
	}
	p.backTo("Reading 3")
	p.press("a", chromedp.ModifierCtrl)
	p.press("6.6")
	p.to("Distance from the hinge pin")
	p.press("34")
	p.to("Keep it")
	p.press(kb.Enter)
	p.arrives("/K1/measure")
	p.backTo("Back")
	p.press(kb.Enter)
	p.arrives("/K1")

	// tuning: the valves are counted
	p.to("Tune")
	p.press(kb.Enter)
	p.wait(`location.hash.endsWith('/tune') && document.querySelector('#turns0')`)
	p.to("Sweep valve, turns from shut")
	p.press("1.5")
	p.to("Latch valve, turns from shut")
	p.press("1")
	p.to("Keep it")
	p.press(kb.Enter)
	p.wait(`!document.querySelector('#turns0')`)
	p.arrives("/K1/tune")
	if evaluate[bool](p, `document.querySelector('.turned') !== null`) {
		p.to("From 90 to 12 degrees")
		p.press("6.1")
		p.to("yes")
		p.press(" ")
		p.to("It is turned: keep it")
		p.press(kb.Enter)
		p.arrives("/K1/tune")
	}
	p.backTo("Back")
	p.press(kb.Enter)
	p.arrives("/K1")

	// signing: the typed name counts, nothing is drawn
	p.to("Accept and sign")
	p.press(kb.Enter)
	p.wait(`document.querySelector('#sign-name')`)
	p.to("Role")
	p.press("technician")
	p.to("I have seen")
	p.press(" ")
	p.to("Sign")
	p.press(kb.Enter)
	p.wait(`document.querySelector('[data-sign]')`)
	p.arrives("/K1/accept")
	p.backTo("Back")
	p.press(kb.Enter)
	p.arrives("/K1")
	p.to("Hand over")
	p.press(kb.Enter)
	p.arrives("/K1/handover")
	p.to("That it opens by hand")
	p.press(" ")
	p.to("Name of who takes it over")
	p.press("Olga Owner")
	p.to("Sign")
	p.press(kb.Enter)
	p.wait(`document.querySelector('[data-sign]')?.innerText.includes('Olga Owner') || document.querySelectorAll('[data-sign]').length === 2`)
	p.arrives("/K1/handover")
	p.backTo("Back")
	p.press(kb.Enter)
	p.arrives("/K1")

	// a service call
	p.to("Service call")
	p.press(kb.Enter)
	p.arrives("/K1/service")
	p.to("It slams")
	p.press(kb.Enter)
	p.wait(`document.querySelector('.test')`)
	p.to("yes")
	p.press(kb.Enter)
	p.wait(`[...document.querySelectorAll('.action button')].some(b => b.innerText === 'Keep this call')`)
	p.to("Keep this call")
	p.press(kb.Enter)
	p.arrives("/K1")
	p.synced()

	j := s.state()
	i := slices.IndexFunc(j.Openings, func(o opening) bool { return o.ID == "K1" })
	if i < 0 {
		t.Fatal("the book has no opening K1")
	}
	o := j.Openings[i]
	if o.Name != "Plant room" || o.Leaf.Width.Text != "36 in" || o.Closer.Sheet != "closer A" || o.Closer.SweepTurns.Text != "1.5 turns" {
		t.Errorf("what was entered is not what the book has: %+v", o)
	}
	if len(o.Readings) != 2 || len(o.Readings[0].Values) != 2 || len(o.Readings[1].Values) != 3 || o.Readings[1].Values[0] != "6.6 lbf" {
		t.Errorf("readings: %+v", o.Readings)
	}
	if width := j.Openings[0].Leaf.Width.Text; width != "35-1/2 in" {
		t.Errorf("of two entries %s holds", width)
	}
	key, err := s.book.Find(t.Context(), s.key, "K1")
	if err != nil {
		t.Fatal(err)
	}
	notes, err := s.book.Annotations(t.Context(), key)
	if err != nil {
		t.Fatal(err)
	}
	var kinds []string
	for _, n := range notes {
		kinds = append(kinds, string(n.Kind))
		if n.Kind == book.Sign && n.Statement.Signature != "" {
			t.Errorf("a signature that nobody drew: %+v", n.Statement)
		}
	}
	slices.Sort(kinds)
	if want := []string{"note", "sign", "sign"}; !slices.Equal(kinds, want) {
		t.Errorf("the record has %q; want %q", kinds, want)
	}
}

// On every page Tab comes to every control, in the order of reading, and leaves it again;
// Shift+Tab goes the same way back.
func TestKeyboardReaches(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	p.open(s.url("job/" + s.key))
	p.wait(`document.documentElement.dataset.engine === 'here'`)
	p.learn("sight")
	p.learn("keys")
	for _, page := range append([]string{""}, pagesOfOpening...) {
		p.page("job/" + s.key + page)
		p.wait(`!document.querySelector('.waiting') && !document.body.innerText.includes('Reckoning')`) // else rows come meanwhile
		evaluate[bool](p, `document.querySelectorAll('details').forEach(d => { d.open = true; }); true`)
		p.wait(`!document.querySelector('.waiting')`)
		p.reaches(page)
	}
	for _, page := range []string{"settings", "job/" + s.key + "/conflicts"} {
		p.page(page)
		p.reaches(page)
	}
}

func (p *phone) reaches(page string) {
	p.t.Helper()
	p.tells(page, "order", `keys.order()`)
	want := evaluate[[]string](p, `keys.stops()`)
	evaluate[bool](p, `scrollTo(0, 0); document.querySelector('h1').focus(); true`)
	var forward []string
	for range 2*len(want) + 4 {
		p.step(false)
		at := evaluate[string](p, `keys.at()`)
		if at == "" {
			continue // the browser's own controls, past the end of the page
		}
		if len(forward) > 0 && at == forward[0] && len(forward) >= len(want) {
			break
		}
		forward = append(forward, at)
	}
	if i := slices.IndexFunc(forward, func(at string) bool { return strings.Contains(at, "#skip") }); i > 0 {
		forward = append(slices.Clone(forward[i:]), forward[:i]...) // from the head of the page
	}
	if !slices.Equal(forward, want) {
		p.t.Errorf("%s: Tab comes to\n%q\nand the page has\n%q", page, forward, want)
		return
	}
	evaluate[bool](p, `document.querySelector('h1').focus(); true`)
	var back []string
	for range 3 {
		p.step(true)
		back = append(back, evaluate[string](p, `keys.at()`))
	}
	i := slices.IndexFunc(want, func(at string) bool { return strings.Contains(at, "Settings") })
	if i < 0 || back[0] != want[i] || back[i] != want[0] {
		p.t.Errorf("%s: Shift+Tab goes back to %q", page, back)
	}
}

// The link past the bar leads to the heading and leaves the address alone; Escape puts away what
// was told.
func TestSkipAndEscape(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	p.open(s.url("job/" + s.key + "/101/measure"))
	p.wait(`!document.querySelector('.waiting')`)
	p.backTo("Skip to the page")
	if hidden := evaluate[bool](p, `document.getElementById('skip').getBoundingClientRect().left < 0`); hidden {
		t.Error("the link past the bar is not seen when it has the focus")
	}
	p.press(kb.Enter)
	p.arrives("/101/measure")
	if text := evaluate[string](p, `document.querySelector('h1').innerText`); !strings.HasPrefix(text, "Measure") {
		t.Errorf("the link past the bar leads to %q", text)
	}
	evaluate[bool](p, `import('/js/dom.js').then(({alarm, say}) => { alarm('Something went wrong'); say('Saved.'); return true; })`)
	p.look("alarm")
	p.press(kb.Escape)
	if left := evaluate[string](p, `document.getElementById('alarm').innerText + document.getElementById('told').innerText`); left != "" {
		t.Errorf("Escape leaves %q", left)
	}
	if at := evaluate[string](p, `document.activeElement.tagName`); at != "H1" {
		t.Errorf("and the focus on %s", at)
	}
	// on a low screen, as when it is enlarged, nothing covers what has the focus
	p.screen(320, 256, 4)
	for range 12 {
		p.step(false)
	}
}
