package server_test

import (
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"swingwright/book"
)

func (s *site) label(key string) string { return "http://" + s.address + "/o/" + key }

// A label leads to its opening, with and without a network; one that leads nowhere is told, with what can be done,
// and is looked up again where there is a network.
func TestLabels(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	p.open(s.label(s.key + ".1"))
	p.wait(`document.querySelector('h1').innerText.includes('101')`)
	p.wait(`document.documentElement.dataset.engine === 'here' && navigator.serviceWorker.controller`)

	p.open(s.label("nowhere"))
	p.wait(`document.querySelector('h1').innerText === 'Label without an opening'`)
	if text := p.text(); !strings.Contains(text, "No opening that you may see") || !strings.Contains(text, "nowhere") || !strings.Contains(text, "another customer") {
		t.Error(text)
	}
	p.look("label-unknown")

	s.stop()
	p.open(s.label(s.key + ".1")) // the phone has it
	p.wait(`document.querySelector('h1').innerText.includes('101') && document.querySelector('.standing')`)
	p.open(s.label("fresh"))
	p.wait(`document.querySelector('h1').innerText === 'Label without an opening'`)
	if text := p.text(); !strings.Contains(text, "no network to ask") || !strings.Contains(text, "fresh") {
		t.Error(text)
	}
	p.look("label-offline")

	// meanwhile somebody begins the opening, and sticks its label on
	if _, err := s.book.Apply(t.Context(), time.Now(), book.Change{ID: "f1", Kind: book.BeginOpening, Job: s.key, Subject: "fresh", Value: `{"id": "F1", "name": "Fresh"}`, Who: "Grace", Made: time.Now()}); err != nil {
		t.Fatal(err)
	}
	s.start()
	evaluate[bool](p, `dispatchEvent(new Event('online'))`)
	p.wait(`document.querySelector('h1').innerText.includes('F1')`)

	// and takes it back
	if _, err := s.book.Apply(t.Context(), time.Now(), book.Change{ID: "f2", Kind: book.Withdraw, Subject: s.key + ".2", Base: book.Latest, Who: "Grace", Made: time.Now()}); err != nil {
		t.Fatal(err)
	}
	other := newPhone(t)
	other.open(s.label(s.key + ".2"))
	other.wait(`document.querySelector('h1').innerText === 'Label without an opening'`)
}

// Who may not see an opening is told no more of its label than of one that is nowhere, and may sign in as somebody else.
func TestLabelOfAnother(t *testing.T) {
	l := newLAN(t)
	p := newPhone(t, chromedp.Flag("ignore-certificate-errors", true))
	defer p.done()
	p.open(l.web.URL + "/o/clinic.1")
	p.wait(`document.querySelector('h1').innerText === 'Sign in'`)
	p.fill("#account", "Eva")
	p.fill("#password", sentence)
	p.tap("form button")
	p.wait(`document.querySelector('h1').innerText === 'Label without an opening'`)
	if text := p.text(); !strings.Contains(text, "No opening that you may see") || !strings.Contains(text, "now as Eva") {
		t.Error(text)
	}
	p.look("label-of-another")
}
