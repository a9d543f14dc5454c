package server_test

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// A label leads a phone to the sign-in, and from there to its opening; signed out, the phone
// holds nothing of the jobs any more.
func TestLabelLeadsToSignIn(t *testing.T) {
	l := newLAN(t)
	p := newPhone(t, chromedp.Flag("ignore-certificate-errors", true))
	defer p.done()
	p.open(l.web.URL + "/o/clinic.1")
	p.wait(`document.querySelector('h1').innerText === 'Sign in'`)
	p.look("sign-in")
	p.fill("#account", "Ada")
	p.fill("#password", "the kettle sings at eight")
	p.tap("form button")
	p.wait(`document.getElementById('alarm').innerText.includes('do not belong together')`)
	p.fill("#password", sentence)
	p.tap("form button")
	p.wait(`location.hash === '#/job/clinic/101' && document.querySelector('h1').innerText.includes('101')`)
	if cookie := evaluate[string](p, `document.cookie`); cookie != "language=en" { // and nothing of the session
		t.Errorf("a script can read %q", cookie)
	}
	p.wait(`navigator.serviceWorker.controller || (async () => !!(await navigator.serviceWorker.ready))()`)
	p.page("settings")
	if text := p.text(); !strings.Contains(text, "Signed in as Ada.") {
		t.Error(text)
	}
	p.look("settings-signed-in")
	p.tap("Sign out, and take the jobs off this device")
	p.wait(`document.querySelector('h1').innerText === 'Sign in'`)
	if held := evaluate[int](p, `(async () => (await (await import('/js/store.js')).all('jobs')).length)()`); held != 0 {
		t.Errorf("%d jobs stay on the phone of whoever signed out", held)
	}
	if status := evaluate[int](p, `fetch('/api/jobs').then(r => r.status)`); status != 401 {
		t.Errorf("still in: %d", status)
	}
}
