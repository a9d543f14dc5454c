package server_test

import (
	"bytes"
	"fmt"
	"net"
	"net/http/httptest"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/andybalholm/brotli"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"swingwright/book"
	"swingwright/job/amend"
)

// The line of a phone out of town: 1.6 Mbit/s either way, 150 ms there and back. It is
// shaped outside the browser, so that its workers wait for it too.
const (
	lineRate  = 1.6e6 / 8 // bytes in a second
	lineDelay = 75 * time.Millisecond
	slowness  = 4 // of the phone's processor against this one
)

// A line carries connections to a server as slowly as a phone's network does.
type line struct {
	net.Listener
	to       string
	up, down *lane
}

// A lane is one direction, which all connections share.
type lane struct {
	sync.Mutex
	free time.Time // when what was sent before will be through
}

// through tells when so many bytes have arrived, if they are sent now.
func (l *lane) through(n int) time.Time {
	l.Lock()
	defer l.Unlock()
	if now := time.Now(); l.free.Before(now) {
		l.free = now
	}
	l.free = l.free.Add(time.Duration(float64(n) / lineRate * float64(time.Second)))
	return l.free.Add(lineDelay)
}

// newLine makes a line to an address.
func newLine(t testing.TB, to string) *line {
	t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	l := &line{listener, to, &lane{}, &lane{}}
	t.Cleanup(func() { listener.Close() })
	go func() {
		for {
			near, err := listener.Accept()
			if err != nil {
				return
			}
			go l.carry(near)
		}
	}()
	return l
}

// carry carries one connection, whose handshake has gone there and back before.
func (l *line) carry(near net.Conn) {
	time.Sleep(2 * lineDelay)
	far, err := net.Dial("tcp", l.to)
	if err != nil {
		near.Close()
		return
	}
	go l.copy(far, near, l.up)
	l.copy(near, far, l.down)
}

// copy hands on what was read, each piece when it is through.
func (l *line) copy(to, from net.Conn, lane *lane) {
	type piece struct {
		data []byte
		at   time.Time
	}
	pieces := make(chan piece, 64) // what is on its way
	go func() {
		defer close(pieces)
		for {
			data := make([]byte, 1460)
			n, err := from.Read(data)
			if n > 0 {
				pieces <- piece{data[:n], lane.through(n)}
			}
			if err != nil {
				return
			}
		}
	}()
	for p := range pieces {
		time.Sleep(time.Until(p.at))
		if _, err := to.Write(p.data); err != nil {
			from.Close()
		}
	}
	to.Close()
	from.Close()
}

// packed is the engine, packed in haste: make build takes longer and comes to a seventh less.
var packed = sync.OnceValues(func() ([2][]byte, error) {
	parts, err := engine()
	if err != nil {
		return parts, err
	}
	var b bytes.Buffer
	w := brotli.NewWriterOptions(&b, brotli.WriterOptions{Quality: 6, LGWin: 24})
	w.Write(parts[0])
	err = w.Close()
	return [2][]byte{b.Bytes(), parts[1]}, err
})

// BenchmarkFirstLoad measures how long a phone that comes for the first time, along a slow line and with
// a slow processor, waits for the list of a job and for the first state in it. Nothing is kept
// from one round to the next: neither in the browser nor, of the states, in the book.
func BenchmarkFirstLoad(bench *testing.B) {
	for _, n := range []int{22, 1000} {
		bench.Run(fmt.Sprint(n), func(bench *testing.B) { firstLoad(bench, n) })
	}
}

func firstLoad(bench *testing.B, openings int) {
	parts, err := packed()
	if err != nil {
		bench.Fatal(err)
	}
	var listed, stated, here []time.Duration
	for bench.Loop() {
		bench.StopTimer()
		l := newLAN(bench)
		job := "clinic"
		if openings > 22 {
			job = "large"
			if err := l.book.Import(bench.Context(), l.at, book.By{Who: "test", Made: l.at}, job, many(bench, openings)); err != nil {
				bench.Fatal(err)
			}
		}
		if err := l.app.WithEngine(parts[0], parts[1]); err != nil {
			bench.Fatal(err)
		}
		engine := l.app.Files["/engine/engine.wasm"]
		engine.Data, engine.Packed = nil, parts[0]
		l.app.Pack()
		web := httptest.NewUnstartedServer(l.server)
		web.EnableHTTP2 = true
		web.StartTLS()
		way := newLine(bench, web.Listener.Addr().String())
		p := newPhone(bench, chromedp.Flag("ignore-certificate-errors", true))
		address := "https://" + way.Addr().String()
		must := func(err error) {
			if err != nil {
				bench.Fatal(err)
			}
		}
		_, err := chromedp.Call(p.ctx, network.SetCookie, network.SetCookieParams{Name: "__Host-swingwright", Value: l.as("Ada").cookie(), URL: address, Secure: new(true), HTTPOnly: new(true), Path: "/"})
		must(err)
		_, err = chromedp.Call(p.ctx, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: slowness})
		must(err)
		_, err = chromedp.Call(p.ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: `
		  new MutationObserver(() => {
		    const rows = [...document.querySelectorAll('nav.rows .row-under')];
		    if (rows.length && location.hash.includes('job')) window.listed ??= performance.now();
		    if (rows.some(r => r.querySelector('b'))) window.stated ??= performance.now();
		    if (document.documentElement.dataset.engine === 'here') window.here ??= performance.now();
		  }).observe(document, {childList: true, subtree: true, attributes: true});`})
		must(err)
		bench.StartTimer()
		p.open(address + "/#/job/" + job)
		p.wait(`window.stated`)
		bench.StopTimer()
		p.waitLong(`window.here`, 2*time.Minute)
		for name, times := range map[string]*[]time.Duration{"listed": &listed, "stated": &stated, "here": &here} {
			*times = append(*times, time.Duration(evaluate[float64](p, "window."+name)*float64(time.Millisecond)))
		}
		bench.Log(evaluate[string](p, `(() => {
		  const all = performance.getEntriesByType('resource'), page = performance.getEntriesByType('navigation')[0], ms = x => Math.round(x);
		  const scripts = all.filter(e => e.initiatorType === 'link' || e.initiatorType === 'script' || e.name.endsWith('.js')), asked = all.filter(e => e.name.includes('/api/'));
		  return 'page ' + ms(page.responseEnd) + ', ' + scripts.length + ' scripts ' + ms(Math.min(...scripts.map(e => e.startTime))) + ' to ' + ms(Math.max(...scripts.filter(e => e.startTime < window.listed).map(e => e.responseEnd))) + ', ' +
		    asked.slice(0, 6).map(e => e.name.replace(location.origin, '') + ' ' + ms(e.startTime) + ' to ' + ms(e.responseEnd)).join(', ') + '; listed ' + ms(window.listed) + ', stated ' + ms(window.stated);
		})()`))
		if err := chromedp.Cancel(p.ctx); err != nil { // else its engine goes on while the next phone loads
			bench.Log(err)
		}
		web.Close()
		bench.StartTimer()
	}
	for name, times := range map[string][]time.Duration{"listed": listed, "stated": stated, "engine": here} {
		slices.Sort(times)
		bench.Logf("%s: %v", name, times)
		bench.ReportMetric(float64(times[len(times)/2].Milliseconds()), name+"-median-ms")
	}
}

// many is a job of so many openings.
func many(t testing.TB, n int) *book.Files {
	t.Helper()
	files := clinic(t)
	var text strings.Builder
	cut, err := amend.Split(files.Texts["job.yaml"])
	if err != nil {
		t.Fatal(err)
	}
	text.WriteString(cut.Front[:strings.Index(cut.Front, "groups:")] + "openings:\n")
	for i := range n {
		fmt.Fprintf(&text, "  - id: %q\n    name: Corridor to room %d\n    use: {place: interior, operation: low-energy}\n    leaf: {width: %d in, height: 84 in, weight: %d lb}\n    closer: {sheet: closer A, arm: regular arm R, size: 3, sweep_time: 6 s, latch_time: 2 s}\n", fmt.Sprint(i+1), i, 34+i%5, 90+i%40)
	}
	files.Texts["job.yaml"] = text.String()
	return files
}
