package server_test

import (
	"regexp"
	"testing"
)

// pagesOfOpening are the pages about openings, behind the address of the job.
var pagesOfOpening = []string{"/101", "/101/survey", "/105/survey", "/101/measure", "/101/measure/phone", "/101/measure/time/closing.time_90_to_10", "/101/measure/force/hand.to_open", "/101/measure/seen/closing.latches_from_90", "/102/tune",
	"/101/accept", "/101/handover", "/101/service", "/101/service/no-latch", "/101/history"}

// Every page is shown, on a phone, and is clean.
func TestPages(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	p.open(s.url("job/" + s.key))
	p.wait(`document.documentElement.dataset.engine === 'here'`)
	p.wait(`!document.querySelector('nav.rows').innerText.includes('Reckoning')`)
	p.look("job")
	for _, page := range pagesOfOpening {
		p.page("job/" + s.key + page)
		p.wait(`!document.querySelector('.waiting')`)
		p.look(name(page[1:]))
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

var (
	// english are words that no Spanish sentence has.
	english = regexp.MustCompile(`(?i)\b(the|of|is|are|with|from|that|which|at|by|to|leaf|closer|hinge|latch|open|closed|spring|within|than|short)\b`)
	// named is what people and publishers named, and what signs say.
	named = regexp.MustCompile(`ADA Standards for Accessible Design|AUTOMATIC CAUTION DOOR|PUSH TO OPERATE|PULL TO OPERATE|ACTIVATE SWITCH TO OPERATE|` +
		`(?:Corridor|Waiting room|Street|Vestibule|Lobby|Reception|Basement stair) to\b[A-Za-z0-9, -]*|A door [a-z0-9 ]+|[0-9]+ lbf to spare at the latch edge|plate [a-z ]+|[a-z]+(\.[a-z_0-9]+)+|closer [AB]|regular arm R|lever latch L2|(spring|add-on|unit) of`)
)

// In Spanish nothing on a page is English but names, titles of works and what signs say: neither
// what the catalogue has, nor what the engine says.
func TestSpanish(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	p.open(s.url("settings"))
	p.tap("Español")
	p.wait(`document.documentElement.lang === 'es' && document.querySelector('h1').innerText === 'Ajustes'`)
	p.wait(`document.documentElement.dataset.engine === 'here'`)
	for _, page := range []string{"", "/101", "/101/survey", "/110/survey", "/101/measure", "/101/measure/phone", "/101/measure/time/closing.time_90_to_10", "/102/tune", "/101/accept", "/101/handover", "/101/service", "/101/service/no-latch", "/conflicts"} {
		p.page("job/" + s.key + page)
		p.wait(`!document.querySelector('.waiting')`)
		p.look("es" + name(page))
		if same := evaluate[[]string](p, `(async () => {
		  const en = (await import('/texts/en.js')).default, es = (await import('/texts/es.js')).default;
		  const words = new Set(Object.keys(en).filter(k => en[k] !== es[k] && !Object.values(es).includes(en[k])).map(k => en[k]));
		  const found = [];
		  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
		  for (let n; n = walk.nextNode();) if (words.has(n.data.trim()) && !n.parentElement.closest('[lang=en]')) found.push(n.data.trim());
		  return found;
		})()`); len(same) > 0 {
			t.Errorf("%s says in English: %q", page, same)
		}
		for _, text := range evaluate[[]string](p, `(() => {
		  const found = [], walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
		  for (let n; n = walk.nextNode();) if (!n.parentElement.closest('[lang=en], script, style, svg')) found.push(n.data.trim());
		  // the lines of a picture go together, since names are broken there
		  return found.concat([...document.querySelectorAll('svg')].filter(svg => !svg.closest('[lang=en]')).map(svg => [...svg.querySelectorAll('text')].map(t => t.textContent).join(' ')));
		})()`) {
			if english.MatchString(named.ReplaceAllString(text, "·")) {
				t.Errorf("%s says in English: %q", page, text)
			}
		}
	}
}

// The papers of an opening are a PDF.
func TestPapers(t *testing.T) {
	h, _, key := shelf(t)
	status, text := send(h, "GET", "/api/openings/"+key+".1/packet.pdf?units=si&paper=a4", "")
	if status != 200 || len(text) < 10_000 || text[:5] != "%PDF-" {
		t.Errorf("%d, %d bytes: %.80q", status, len(text), text)
	}
	for _, wrong := range []string{key + ".1/packet.pdf?units=si&paper=b5", key + ".1/packet.pdf?units=cubits&paper=a4"} {
		if status, _ := send(h, "GET", "/api/openings/"+wrong, ""); status != 400 {
			t.Errorf("%s: %d", wrong, status)
		}
	}
	for _, wrong := range []string{"nobody", key} {
		if status, _ := send(h, "GET", "/api/openings/"+wrong+"/packet.pdf?units=si&paper=a4", ""); status != 404 {
			t.Errorf("%s: %d", wrong, status)
		}
	}
}
