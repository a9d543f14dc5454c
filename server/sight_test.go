package server_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// media sets what the device asks of a page: colour scheme, motion, forced colours.
func (p *phone) media(features ...string) {
	p.t.Helper()
	var set []*emulation.MediaFeature
	for _, f := range features {
		name, value, _ := strings.Cut(f, "=")
		set = append(set, &emulation.MediaFeature{Name: name, Value: value})
	}
	if _, err := chromedp.Call(p.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: set}); err != nil {
		p.t.Fatal(err)
	}
}

// screen sets the size of the screen, CSS pixels, and how many pixels of the device each is.
func (p *phone) screen(width, height int64, scale float64) {
	p.t.Helper()
	if err := chromedp.Do(p.ctx, chromedp.EmulateViewport(width, height, chromedp.EmulateScale(scale))); err != nil {
		p.t.Fatal(err)
	}
}

// tells evaluates an expression that lists faults, and tells them.
func (p *phone) tells(name, what, expression string) {
	p.t.Helper()
	if found := evaluate[[]string](p, expression); len(found) > 0 {
		p.t.Errorf("%s: %s:\n  %s", name, what, strings.Join(found, "\n  "))
	}
}

// sighted holds a page to what people need to see it and to touch it: in the sun, in the dark,
// with forced colours, with gloves, enlarged, and without motion.
func (p *phone) sighted(name string) {
	p.t.Helper()
	p.learn("sight")
	for _, scheme := range []string{"light", "dark"} {
		p.media("prefers-color-scheme=" + scheme)
		p.tells(name, "letters below 7:1 in the "+scheme+" scheme", `sight.letters(7).low`)
		p.tells(name, "marks of controls and states below 3:1 in the "+scheme+" scheme", `sight.marks().low`)
	}
	p.media("forced-colors=active")
	p.tells(name, "signs that forced colours hide", `sight.marks().low.filter(x => x.includes('sign'))`)
	p.media("prefers-reduced-motion=reduce")
	p.tells(name, "what moves although less motion is asked for", `sight.moving()`)
	p.media()
	p.tells(name, "signs without their word", `import('/js/texts.js').then(({t}) => sight.alone(['meets', 'falls short', 'too close to call', 'not measured', 'does not apply'].map(v => t('verdict.' + v))
	  .concat(['in-order', 'undecided', 'falls-short', 'unknown'].map(s => t('standing.' + s)), t('conflicts.one', {n: 1}), t('conflicts.many', {n: ''}).trim(), t('reckoning'))))`)
	p.tells(name, "targets lower or narrower than 48 px", `sight.small(48)`)
	p.tells(name, "words beyond the edge of their picture", `sight.beyond()`)
	p.tells(name, "letters of pictures below 11 px", `sight.tiny(11)`)
	p.tells(name, "what has to be moved sideways to be read", `sight.panning()`)
	for _, zoom := range []struct {
		what          string
		width, height int64
		scale         float64
	}{{"at 200 %", 640, 512, 2}, {"at 400 %", 320, 256, 4}} { // of a window of 1280 by 1024; WCAG 2.2, 1.4.4 and 1.4.10
		p.screen(zoom.width, zoom.height, zoom.scale)
		p.tells(name, "what is cut "+zoom.what, `sight.cut()`)
		if wide := evaluate[int64](p, `document.documentElement.scrollWidth`); wide > zoom.width {
			p.t.Errorf("%s: the page is %d px wide %s, where the window has %d", name, wide, zoom.what, zoom.width)
		}
	}
	p.screen(360, 740, 2)
	// letters and lines set apart as WCAG 2.2, 1.4.12 says
	p.tells(name, "what is cut when letters are set apart", `(() => {
	  const sheet = new CSSStyleSheet();
	  sheet.replaceSync('* { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important } p { margin-bottom: 2em !important }');
	  document.adoptedStyleSheets = [sheet];
	  const found = sight.cut();
	  document.adoptedStyleSheets = [];
	  return found;
	})()`)
}

// learn brings a script of testdata into the page.
func (p *phone) learn(script string) {
	p.t.Helper()
	if evaluate[bool](p, `typeof `+script+` !== 'undefined'`) {
		return
	}
	text, err := os.ReadFile("testdata/" + script + ".js")
	if err != nil {
		p.t.Fatal(err)
	}
	evaluate[bool](p, string(text)+";true")
}

// What is held against pages finds what is planted, and reckons contrast as published.
func TestSightSeesFaults(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	p.open(s.url("settings"))
	p.learn("sight")
	// Black on white is 21:1 by the definition of WCAG 2.2; #767676 is known as the lightest grey
	// that keeps 4.5:1 on white (W3C, Understanding SC 1.4.3: it names #777777 as 4.47:1).
	for pair, want := range map[string]string{"0, 0, 0|255, 255, 255": "21.00", "119, 119, 119|255, 255, 255": "4.48", "118, 118, 118|255, 255, 255": "4.54"} {
		a, b, _ := strings.Cut(pair, "|")
		if got := evaluate[string](p, fmt.Sprintf(`sight.contrast(sight.parsed('rgb(%s)'), sight.parsed('rgb(%s)')).toFixed(2)`, a, b)); got != want {
			t.Errorf("the contrast of %s is %s; want %s", pair, got, want)
		}
	}
	plant := `(() => { const main = document.getElementById('main'); const e = document.createElement(%q); e.textContent = 'planted'; Object.assign(e.style, %s); main.append(e); return true; })()`
	for _, c := range []struct{ tag, style, ask string }{
		{"p", `{color: '#777'}`, `sight.letters(7).low`},
		{"button", `{border: '2px solid #ddd', background: 'transparent'}`, `sight.marks().low`},
		{"button", `{minHeight: 0, height: '40px', padding: 0}`, `sight.small(48)`},
		{"p", `{width: '50px', overflow: 'hidden', whiteSpace: 'nowrap'}`, `sight.cut()`},
		{"p", `{transition: 'opacity 1s'}`, `sight.moving()`},
	} {
		before := evaluate[[]string](p, c.ask)
		evaluate[bool](p, fmt.Sprintf(plant, c.tag, c.style))
		after := evaluate[[]string](p, c.ask)
		if len(after) != len(before)+1 || !strings.Contains(strings.Join(after, "\n"), "planted") {
			t.Errorf("%s with %s is not found by %s: %q", c.tag, c.style, c.ask, after)
		}
		evaluate[bool](p, `document.getElementById('main').lastElementChild.remove(); true`)
	}
	if n := evaluate[int](p, `sight.letters(7).seen`); n < 10 {
		t.Errorf("only %d texts were looked at", n)
	}
}

// On a laptop, in both schemes, pages use its width: pictures are those for paper, nothing is cut or has
// to be moved, and nothing stands out of the order of reading.
func TestLaptop(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	p.screen(1280, 800, 1)
	p.open(s.url("job/" + s.key))
	p.wait(`document.documentElement.dataset.engine === 'here'`)
	p.learn("sight")
	p.learn("keys")
	for _, page := range append([]string{""}, pagesOfOpening...) {
		p.page("job/" + s.key + page)
		p.wait(`!document.querySelector('.waiting')`)
		evaluate[bool](p, `document.querySelectorAll('details').forEach(d => { d.open = true; }); true`)
		p.wait(`!document.querySelector('.waiting')`)
		p.tells(page, "what is cut on a laptop", `sight.cut()`)
		p.tells(page, "what has to be moved sideways on a laptop", `sight.panning()`)
		p.tells(page, "words beyond the edge of their picture", `sight.beyond()`)
		p.tells(page, "letters of pictures below 11 px", `sight.tiny(11)`)
		p.tells(page, "order", `keys.order()`)
		if page == "/101" && evaluate[int](p, `document.querySelectorAll('.picture svg.wide').length`) < 3 {
			t.Error("a laptop is shown the pictures of a phone")
		}
		if *shots == "" {
			continue
		}
		for _, scheme := range []string{"light", "dark"} {
			p.media("prefers-color-scheme=" + scheme)
			image, err := chromedp.Run(p.ctx, chromedp.FullScreenshot(90))
			if err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(*shots, "laptop-"+scheme+name(page)+".jpg"), image, 0o666); err != nil {
				t.Fatal(err)
			}
		}
		p.media()
	}
}
