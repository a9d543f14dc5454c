package server_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"swingwright/account"
)

// arrive signs somebody in with a password, on a phone.
func (p *phone) arrive(l *lan, name, password string) {
	p.t.Helper()
	p.open(l.web.URL + "/#/sign-in")
	p.fill("#account", name)
	p.fill("#password", password)
	p.tap("form button")
	p.wait(`location.hash === '#/' && document.querySelector('nav.rows')`)
}

// The office invites somebody by the app; they choose a password with the code, on another phone; they are
// shut out; the record tells it all.
func TestAccountPages(t *testing.T) {
	l := newLAN(t)
	office, phone := newPhone(t, chromedp.Flag("ignore-certificate-errors", true)), newPhone(t, chromedp.Flag("ignore-certificate-errors", true))
	defer office.done()
	defer phone.done()
	office.arrive(l, "Olga", sentence)
	office.page("settings")
	office.tap("Accounts")
	office.wait(`document.querySelector('h1').innerText === 'Accounts' && document.querySelectorAll('nav.rows .row').length >= 4`)
	office.tap("Invite somebody")
	office.look("accounts")
	office.fill("#new-name", "Bo Marsh")
	office.tap("[value=owner]")
	office.wait(`!document.getElementById('new-customer').closest('[hidden]')`)
	office.tap("[value=technician]")
	office.wait(`document.getElementById('new-customer').closest('[hidden]')`)
	office.tap("Make the account, and show a code")
	office.wait(`document.querySelector('[data-code]')`)
	office.look("accounts-code")
	code := evaluate[string](office, `document.querySelector('[data-code]').dataset.code`)
	if said := office.text(); !strings.Contains(said, "A code for Bo Marsh") || !strings.Contains(said, l.web.URL) {
		t.Error(said)
	}
	office.wait(`[...document.querySelectorAll('nav.rows .row')].some(r => r.innerText.includes('Bo Marsh') && r.innerText.includes('chooses a password with the code'))`)

	phone.open(l.web.URL + "/#/sign-in")
	phone.tap("I was given a code")
	phone.look("code")
	phone.fill("#code-account", "bo marsh")
	phone.fill("#code", strings.ToUpper(code))
	phone.fill("#one", sentence)
	phone.fill("#two", sentence+"!")
	phone.tap("Choose the password, and sign in")
	phone.wait(`document.querySelector('#alarm p')?.innerText === 'The two differ.'`)
	phone.fill("#two", sentence)
	phone.tap("Choose the password, and sign in")
	phone.wait(`location.hash === '#/' && document.body.innerText.includes('Elm School')`)
	if a, err := l.accounts.Named(t.Context(), "Bo Marsh"); err != nil || a.Role != account.Technician {
		t.Fatal(a, err)
	}

	// changed by the command beside, it is told here: what the app shows is what is kept
	office.page("accounts")
	office.tap("Bo Marsh")
	office.wait(`document.querySelector('h1').innerText.startsWith('Bo Marsh') && document.body.innerText.includes('Signed in at 1 place')`)
	office.look("account")
	office.tap("Change the role")
	office.tap("[value=owner]")
	office.fill("#role-customer", "Elm School")
	office.tap("Save")
	office.wait(`document.querySelector('h1').innerText.includes('owner · Elm School') && document.body.innerText.includes('Signed in at 0 places')`)
	office.tap("Shut out")
	office.tap("Shut them out")
	office.wait(`document.querySelector('h1').innerText.includes('shut out')`)
	phone.page("own")
	phone.wait(`document.body.innerText.includes('Nobody is signed in')`)
	office.tap("Let in again")
	office.tap("Let them in")
	office.wait(`!document.querySelector('h1').innerText.includes('shut out')`)
	office.tap("Take the password back")
	office.tap("Take it back, and show a code")
	office.wait(`document.querySelector('[data-code]')`)
	if again := evaluate[string](office, `document.querySelector('[data-code]').dataset.code`); again == code || len(again) != 19 {
		t.Error(again)
	}

	// the last who keeps accounts is told why not
	office.page("accounts/2")
	office.tap("Shut out")
	office.tap("Shut them out")
	office.wait(`document.getElementById('alarm').innerText.includes('nobody would be left who keeps the accounts')`)
	office.page("accounts/record")
	office.look("accounts-record")
	for _, want := range []string{"account made, with a code", "password chosen with a code", "role changed", "shut out", "password taken back", "technician (by Olga)"} {
		if said := office.text(); !strings.Contains(said, want) {
			t.Errorf("the record lacks %q:\n%s", want, said)
		}
	}

	// after a while the password is asked for once more
	l.later(account.InvitationLasts)
	office.page("accounts/1")
	office.tap("Shut out")
	office.look("account-again")
	office.wait(`![...document.querySelectorAll('button')].some(b => b.innerText === 'Shut them out')`)
	office.fill("details[open] [type=password]", "not this")
	office.tap("details[open] form button")
	office.wait(`document.querySelector('details[open] .wrong')?.innerText === 'This is not the password.'`)
	office.fill("details[open] [type=password]", sentence)
	office.tap("details[open] form button")
	office.wait(`[...document.querySelectorAll('button')].some(b => b.innerText === 'Shut them out' || b.textContent === 'Shut them out')`)
}

// Everybody changes their own password, ends their own sign-ins, and makes and ends their own tokens.
func TestOwnPage(t *testing.T) {
	l := newLAN(t)
	other := l.as("Ada")
	p := newPhone(t, chromedp.Flag("ignore-certificate-errors", true))
	defer p.done()
	p.arrive(l, "Ada", sentence)
	p.page("settings")
	if said := p.text(); strings.Contains(said, "Accounts") {
		t.Error("a technician is led to the accounts")
	}
	p.page("accounts")
	p.wait(`document.body.innerText.includes('does not keep accounts')`)
	p.page("own")
	p.wait(`document.body.innerText.includes('Signed in at 2 places')`)
	p.tap("Make a token")
	p.look("own")
	p.fill("#purpose", "nightly export")
	p.tap("Make it, and show it once")
	p.wait(`document.querySelector('[data-token]')`)
	program := l.browser()
	program.token = evaluate[string](p, `document.querySelector('[data-token]').dataset.token`)
	program.wants(200, "GET", "/api/jobs", "")
	p.look("own-token")
	p.page("own")
	if said := p.text(); !strings.Contains(said, "nightly export") || strings.Contains(said, program.token) {
		t.Error(said)
	}
	p.wait(`(() => { const card = [...document.querySelectorAll('.card')].find(c => c.innerText.includes('nightly export')); card?.querySelector('button').click(); return !!card; })()`)
	p.wait(`!document.body.innerText.includes('nightly export')`)
	program.wants(401, "GET", "/api/jobs", "")
	p.tap("End all others")
	p.wait(`document.body.innerText.includes('Signed in at 1 place')`)
	other.wants(401, "GET", "/api/jobs", "")
	p.tap("Change the password")
	for field, text := range map[string]string{"#old": "not this", "#one": sentence + "!", "#two": sentence + "!"} {
		p.fill(field, text)
	}
	p.tap("Change it")
	p.wait(`document.querySelector('details[open] .wrong').innerText === 'This is not the password.'`)
	p.fill("#old", sentence)
	p.tap("Change it")
	p.wait(`document.getElementById('told').innerText.startsWith('Changed.')`)
	if status, _ := l.browser().signIn("Ada", sentence); status != 401 {
		t.Errorf("the old password: %d", status)
	}
	if status, _ := l.browser().signIn("Ada", sentence+"!"); status != 200 {
		t.Errorf("the new password: %d", status)
	}
	if said := evaluate[string](p, fmt.Sprintf(`document.body.textContent.includes(%q) ? 'shown' : ''`, sentence)); said != "" {
		t.Error("a password stands on the page")
	}
	p.page("own")
	p.tap("End it, and sign in again")
	p.wait(`document.body.innerText.includes('Nobody is signed in')`)
}
