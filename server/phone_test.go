package server_test

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"swingwright/app"
	"swingwright/book"
	"swingwright/server"
)

var shots = flag.String("shots", "", "write a picture of every page that is looked at into this folder")

// chromium is the browser that Debian brings; make reference installs it.
const chromium = "/usr/bin/chromium"

// A site is a server of a book of its own, which can be stopped and started again at
// the same address.
type site struct {
	t       testing.TB
	book    *book.Book
	app     *app.App
	key     string // of the job
	address string
	web     *http.Server
	mu      sync.Mutex
	asked   []string // paths that were asked for
}

// engine builds the engine for the browser, once.
var engine = sync.OnceValues(func() ([2][]byte, error) {
	dir, err := os.MkdirTemp("", "engine")
	if err != nil {
		return [2][]byte{}, err
	}
	defer os.RemoveAll(dir)
	out := filepath.Join(dir, "engine.wasm")
	build := exec.Command("go", "build", "-trimpath", "-ldflags=-s -w", "-o", out, "../cmd/swingwright-wasm")
	build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0")
	if text, err := build.CombinedOutput(); err != nil {
		return [2][]byte{}, fmt.Errorf("%w: %s", err, text)
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return [2][]byte{}, err
	}
	module, err := os.ReadFile(out)
	if err != nil {
		return [2][]byte{}, err
	}
	starter, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"))
	return [2][]byte{module, starter}, err
})

// newSite serves the clinic, or the job whose files are given.
func newSite(t testing.TB, files *book.Files) *site {
	t.Helper()
	s := &site{t: t}
	var err error
	if files == nil {
		files = clinic(t)
	}
	if s.book, err = book.Create(t.Context(), filepath.Join(t.TempDir(), "book")); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.book.Close() })
	s.key = book.NewKey()
	if err := s.book.Import(t.Context(), time.Now(), book.By{Who: "test", Made: time.Now()}, s.key, files); err != nil {
		t.Fatal(err)
	}
	if s.app, err = app.New(); err != nil {
		t.Fatal(err)
	}
	parts, err := engine()
	if err != nil {
		t.Fatal(err)
	}
	if err := s.app.WithEngine(parts[0], parts[1]); err != nil {
		t.Fatal(err)
	}
	s.start()
	t.Cleanup(s.stop)
	return s
}

func clinic(t testing.TB) *book.Files {
	t.Helper()
	files, err := book.ReadFiles(os.DirFS("../demo/harbour-street-clinic"), "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return files
}

func (s *site) start() {
	s.t.Helper()
	address := s.address
	if address == "" {
		address = "127.0.0.1:0"
	}
	listener, err := net.Listen("tcp", address)
	if err != nil {
		s.t.Fatal(err)
	}
	s.address = listener.Addr().String()
	handler := server.New(s.book, s.app, time.Now)
	s.web = &http.Server{Handler: http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		s.mu.Lock()
		s.asked = append(s.asked, r.Method+" "+r.URL.Path)
		s.mu.Unlock()
		handler.ServeHTTP(w, r)
	})}
	go s.web.Serve(listener)
}

// stop cuts the network: the server is gone, and so are all its connections.
func (s *site) stop() { s.web.Close() }

func (s *site) url(path string) string { return "http://" + s.address + "/#/" + path }

// anew is the address of a page that is loaded anew, as when the phone was switched off: to go to another page behind the # loads nothing.
func (s *site) anew(path string) string {
	return "http://" + s.address + "/?" + book.NewKey() + "#/" + path
}

// A phone is a browser of 360 by 740 px.
type phone struct {
	t   testing.TB
	ctx context.Context
	mu  sync.Mutex
	bad []string // what the browser complained of
}

func newPhone(t testing.TB, more ...chromedp.ExecAllocatorOption) *phone {
	t.Helper()
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(chromium), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.UserDataDir(t.TempDir()),
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true))
	options = append(options, more...)
	browser, cancel := chromedp.NewExecAllocator(t.Context(), options...)
	t.Cleanup(cancel)
	ctx, cancel := chromedp.NewContext(browser)
	t.Cleanup(cancel)
	p := &phone{t: t, ctx: ctx}
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(360, 740, chromedp.EmulateScale(2))); err != nil {
		t.Fatalf("%v; make reference installs the browser", err)
	}
	if _, err := chromedp.Call(ctx, emulation.SetTouchEmulationEnabled, emulation.SetTouchEmulationEnabledParams{Enabled: true}); err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Listen(ctx, func(event any) {
		p.mu.Lock()
		defer p.mu.Unlock()
		if e, ok := event.(*runtime.EventExceptionThrown); ok {
			p.bad = append(p.bad, e.ExceptionDetails.Text)
		}
	}); err != nil {
		t.Fatal(err)
	}
	return p
}

// open opens an address and waits until its page is shown.
func (p *phone) open(url string) {
	p.t.Helper()
	if err := chromedp.Do(p.ctx, chromedp.Navigate(url)); err != nil {
		p.t.Fatal(err)
	}
	p.wait(`document.getElementById('main')?.dataset.ready`)
}

// page goes to another page of the app.
func (p *phone) page(path string) {
	p.t.Helper()
	evaluate[bool](p, fmt.Sprintf(`document.getElementById('main').dataset.ready = ''; if (location.hash === %q) dispatchEvent(new Event('hashchange')); else location.hash = %q; true`, "#/"+path, "#/"+path))
	p.wait(`document.getElementById('main').dataset.ready`)
}

// evaluate gives the value of an expression, which may be a promise.
func evaluate[T any](p *phone, expression string) T {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, 60*time.Second)
	defer cancel()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		p.t.Fatalf("%s: %v\n%s", expression, err, p.text())
	}
	return v
}

// wait waits until an expression holds.
func (p *phone) wait(expression string) {
	p.t.Helper()
	p.waitLong(expression, 30*time.Second)
}

// waitLong waits for so long until an expression holds.
func (p *phone) waitLong(expression string, long time.Duration) {
	p.t.Helper()
	for end := time.Now().Add(long); ; time.Sleep(40 * time.Millisecond) {
		ok, err := chromedp.Run(p.ctx, chromedp.Evaluate[bool]("!!("+expression+")"))
		if err == nil && ok {
			return
		}
		if time.Now().After(end) {
			p.t.Fatalf("waited in vain for %s: %v\n%s", expression, err, p.text())
		}
	}
}

// text is what the page says.
func (p *phone) text() string {
	text, err := chromedp.Run(p.ctx, chromedp.Evaluate[string](`document.body.innerText`))
	if err != nil {
		return err.Error()
	}
	return text
}

// tap taps what a selector finds, or the button, link or label that says a text.
func (p *phone) tap(what string) {
	p.t.Helper()
	p.wait(fmt.Sprintf(`(() => {
	  const what = %q;
	  let e = null;
	  try { e = document.querySelector(what); } catch {}
	  e ||= [...document.querySelectorAll('button, a, label, summary')].find(b => b.innerText.trim() === what || b.innerText.trim().startsWith(what + '\n'));
	  if (!e) return false;
	  e.scrollIntoView({block: 'center'});
	  e.click();
	  return true;
	})()`, what))
}

// fill writes a text into a field.
func (p *phone) fill(selector, text string) {
	p.t.Helper()
	p.wait(fmt.Sprintf(`(() => { const e = document.querySelector(%q); if (!e) return false; e.value = %q; e.dispatchEvent(new Event('input')); return true; })()`, selector, text))
}

// look writes a picture of the whole page, where asked to, and holds the page to what
// is asked of every page.
func (p *phone) look(name string) {
	p.t.Helper()
	evaluate[bool](p, `window.folded = [...document.querySelectorAll('details:not([open])')]; folded.forEach(d => { d.open = true; }); true`)
	defer evaluate[bool](p, `folded.forEach(d => { d.open = false; }); true`)
	p.wait(`!document.querySelector('.waiting')`)
	if wrong := evaluate[string](p, `document.querySelector('.problem')?.innerText || (document.querySelector('h1').innerText === 'Nothing here' ? document.body.innerText : '')`); wrong != "" {
		p.t.Errorf("%s: %s", name, wrong)
	}
	if text := p.text(); strings.Contains(text, "[object") || strings.Contains(text, "undefined") || strings.Contains(text, "NaN") {
		p.t.Errorf("%s shows what is no text:\n%s", name, text)
	}
	if cut := evaluate[[]string](p, `[...document.querySelectorAll('.row, button, .choice span, .main, label')].filter(e => e.offsetParent && e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).display !== 'inline' && !e.classList.contains('unseen')).map(e => e.innerText)`); len(cut) > 0 {
		p.t.Errorf("%s: words stand out of their place: %q", name, cut)
	}
	p.accessible(name)
	if wide := evaluate[int](p, `document.documentElement.scrollWidth`); wide > 360 {
		p.t.Errorf("%s: the page is %d px wide on a screen of 360", name, wide)
	}
	p.sighted(name)
	p.heard(name)
	p.picture(name)
}

// picture writes a picture of the page, where asked to.
func (p *phone) picture(name string) {
	p.t.Helper()
	if *shots == "" {
		return
	}
	image, err := chromedp.Run(p.ctx, chromedp.CaptureScreenshot())
	if err != nil {
		p.t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(*shots, name+".png"), image, 0o666); err != nil {
		p.t.Fatal(err)
	}
	whole := func(name string) {
		p.t.Helper()
		full, err := chromedp.Run(p.ctx, chromedp.FullScreenshot(90))
		if err != nil {
			p.t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(*shots, name+".jpg"), full, 0o666); err != nil {
			p.t.Fatal(err)
		}
	}
	whole(name + "-whole")
	p.media("prefers-color-scheme=dark")
	whole(name + "-dark")
	p.screen(1280, 800, 1)
	whole(name + "-dark-laptop")
	p.media()
	whole(name + "-laptop")
	p.screen(360, 740, 2)
}

// accessible holds a page to WCAG 2.2 AA, as far as axe-core 4.14.1 can tell.
func (p *phone) accessible(name string) {
	p.t.Helper()
	p.learn("axe")
	found := evaluate[string](p, `axe.run(document, {runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']}).then(r => JSON.stringify(r.violations.map(v => ({id: v.id, help: v.help, at: v.nodes.slice(0, 3).map(n => n.html.slice(0, 160) + ' | ' + n.failureSummary)}))))`)
	var violations []struct {
		ID, Help string
		At       []string
	}
	if err := json.Unmarshal([]byte(found), &violations); err != nil {
		p.t.Fatal(err)
	}
	for _, v := range violations {
		p.t.Errorf("%s: %s: %s\n  %s", name, v.ID, v.Help, strings.Join(v.At, "\n  "))
	}
}

// done tells what the browser complained of.
func (p *phone) done() {
	p.t.Helper()
	p.mu.Lock()
	defer p.mu.Unlock()
	if len(p.bad) > 0 {
		p.t.Error(errors.New(strings.Join(p.bad, "\n")))
	}
}
