package server_test

import (
	"fmt"
	"testing"
)

// Every page is shown, on a phone, and is clean.
func TestPages(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	p.open(s.url("job/" + s.key))
	p.wait(`document.documentElement.dataset.engine === 'here'`)
	p.wait(`!document.querySelector('nav.rows').innerText.includes('Reckoning')`)
	p.look("job")
	for _, page := range []string{"101", "101/survey", "104/survey", "101/measure", "101/measure/phone", "101/measure/time/closing.time_90_to_10", "101/measure/force/hand.to_open", "102/tune",
		"101/accept", "101/handover", "101/service", "101/service/no-latch", "101/history"} {
		p.page(fmt.Sprintf("job/%s/%s", s.key, page))
		p.wait(`!document.querySelector('.waiting')`)
		p.look(name(page))
	}
	p.page("settings")
	p.look("settings")
	p.page("job/" + s.key + "/conflicts")
	p.look("conflicts")
}

// name is a name for a file.
func name(page string) string {
	b := []byte(page)
	for i, c := range b {
		if c == '/' {
			b[i] = '-'
		}
	}
	return string(b)
}
