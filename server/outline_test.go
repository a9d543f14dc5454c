package server_test

import (
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/chromedp"
)

var update = flag.Bool("update", false, "write the spoken outlines in testdata anew")

// A spoken is a node of the accessibility tree: what a screen reader has to say.
type spoken struct {
	role, name, description, value string
	props                          map[string]string
	within                         bool // a named control, whose name is spoken instead
	children                       []*spoken
}

// tree is the accessibility tree of the page as Chromium gives it to a screen reader, without
// what it leaves out.
func (p *phone) tree() *spoken {
	p.t.Helper()
	got, err := chromedp.Call(p.ctx, accessibility.GetFullAXTree, accessibility.GetFullAXTreeParams{})
	if err != nil {
		p.t.Fatal(err)
	}
	text := func(v *accessibility.Value) string {
		if v == nil {
			return ""
		}
		var any any
		if json.Unmarshal(v.Value, &any) != nil || any == nil {
			return ""
		}
		return strings.Join(strings.Fields(fmt.Sprint(any)), " ")
	}
	nodes := map[accessibility.NodeID]*accessibility.Node{}
	for _, n := range got.Nodes {
		nodes[n.NodeID] = n
	}
	var build func(id accessibility.NodeID) []*spoken
	build = func(id accessibility.NodeID) (out []*spoken) {
		n := nodes[id]
		if n == nil {
			return nil
		}
		var below []*spoken
		for _, child := range n.ChildIDs {
			below = append(below, build(child)...)
		}
		role := text(n.Role)
		if n.Ignored || slices.Contains([]string{"generic", "none", "InlineTextBox", "LineBreak", "paragraph", "LabelText", "emphasis", "strong", "rowgroup", "listmarker", "ListMarker", "figure", "code", "superscript"}, role) && text(n.Name) == "" || role == "InlineTextBox" || role == "ListMarker" {
			return below
		}
		if (role == "button" || role == "link") && text(n.Name) != "" {
			for _, b := range below {
				for _, s := range b.all() {
					s.within = true
				}
			}
		}
		s := &spoken{role: role, name: text(n.Name), description: text(n.Description), value: text(n.Value), props: map[string]string{}, children: below}
		for _, prop := range n.Properties {
			s.props[string(prop.Name)] = text(prop.Value)
		}
		return []*spoken{s}
	}
	roots := build(got.Nodes[0].NodeID)
	if len(roots) != 1 {
		p.t.Fatalf("%d roots of the accessibility tree", len(roots))
	}
	return roots[0]
}

// all lists a node and all below it, in the order in which they are spoken.
func (s *spoken) all() []*spoken {
	out := []*spoken{s}
	for _, c := range s.children {
		out = append(out, c.all()...)
	}
	return out
}

// states are the properties that are spoken with a node.
var states = []string{"level", "checked", "expanded", "pressed", "required", "invalid", "live"}

var numbers, stamps = regexp.MustCompile(`\d+(?:[.,/-]\d+)*`), regexp.MustCompile(`\b(?:[0-9a-f]{12,}|[A-Z][a-z]{2} \d{1,2}(?:, \d{4})?(?:, \d{2}:\d{2}(?: [AP]M)?)?)`)

// outline writes what is spoken, line by line; numbers are left open, since they are the engine's,
// and of many of a kind the first three are written.
func (s *spoken) outline(b *strings.Builder, depth int) {
	open := func(text string) string {
		text = numbers.ReplaceAllString(stamps.ReplaceAllString(text, "DATE"), "#")
		if r := []rune(text); len(r) > 70 {
			text = string(r[:70]) + "…"
		}
		return text
	}
	fmt.Fprintf(b, "%s%s %q", strings.Repeat("  ", depth), s.role, open(s.name))
	for _, name := range states {
		if v := s.props[name]; v != "" && v != "false" && v != "off" {
			fmt.Fprintf(b, " %s=%s", name, v)
		}
	}
	if s.value != "" {
		fmt.Fprintf(b, " value=%q", open(s.value))
	}
	if s.description != "" {
		fmt.Fprintf(b, " described=%q", open(s.description))
	}
	b.WriteString("\n")
	whole := slices.Contains([]string{"link", "button", "heading", "image", "img", "StaticText", "radio", "checkbox", "textbox", "searchbox", "rowheader", "columnheader", "cell", "DisclosureTriangle", "option", "combobox", "progressbar"}, s.role)
	if whole && s.name != "" {
		return // its name says what is in it
	}
	run := 0
	for i, c := range s.children {
		if i > 0 && c.role == s.children[i-1].role {
			run++
		} else {
			run = 0
		}
		if run == 3 && slices.Contains([]string{"listitem", "row", "link", "StaticText"}, c.role) {
			fmt.Fprintf(b, "%s…\n", strings.Repeat("  ", depth+1))
		}
		if run >= 3 && slices.Contains([]string{"listitem", "row", "link", "StaticText"}, c.role) {
			continue
		}
		c.outline(b, depth+1)
	}
}

// heard holds a page to what a person who hears it needs.
func (p *phone) heard(name string) *spoken {
	p.t.Helper()
	root := p.tree()
	all := root.all()
	count := map[string]int{}
	level := 0
	for _, s := range all {
		count[s.role]++
		switch s.role {
		case "heading":
			var l int
			fmt.Sscan(s.props["level"], &l)
			if l > level+1 {
				p.t.Errorf("%s: the heading %q of level %d comes after level %d", name, s.name, l, level)
			}
			level = l
		case "table":
			if s.name == "" {
				p.t.Errorf("%s: a table without a name", name)
			}
		case "button", "link", "textbox", "searchbox", "combobox", "checkbox", "radio", "image", "img", "DisclosureTriangle", "progressbar", "meter", "slider", "spinbutton", "navigation", "region":
			if s.name == "" {
				p.t.Errorf("%s: a %s without a name", name, s.role)
			}
		}
		if (s.role == "image" || s.role == "img") && s.description == "" && strings.Contains(s.name, " – ") {
			p.t.Errorf("%s: the picture %q is not described", name, s.name)
		}
		if s.role == "StaticText" && !s.within && regexp.MustCompile(`^[‹›≡◣○↑✓+−]+$`).MatchString(s.name) {
			p.t.Errorf("%s: a sign for the eye alone is spoken: %q", name, s.name)
		}
	}
	for role, want := range map[string]int{"main": 1, "banner": 1} {
		if count[role] != want {
			p.t.Errorf("%s: %d of the landmark %s", name, count[role], role)
		}
	}
	headings := slices.DeleteFunc(slices.Clone(all), func(s *spoken) bool { return s.role != "heading" || s.props["level"] != "1" })
	if len(headings) != 1 {
		p.t.Errorf("%s: %d headings of level 1", name, len(headings))
	}
	if !strings.HasSuffix(root.name, " – Swingwright") || len(headings) == 1 && !strings.HasPrefix(headings[0].name, strings.TrimSuffix(root.name, " – Swingwright")) {
		p.t.Errorf("%s: the title of the document is %q", name, root.name)
	}
	if count["status"] < 1 {
		p.t.Errorf("%s: nothing tells a screen reader what happens", name)
	}
	return root
}

// Every page is spoken as it was when its outline was read through, in English.
func TestSpokenOutlines(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	p.open(s.url("job/" + s.key))
	p.wait(`document.documentElement.dataset.engine === 'here'`)
	p.wait(`!document.querySelector('nav.rows').innerText.includes('Reckoning')`)
	pages := []string{"job/" + s.key}
	for _, page := range pagesOfOpening {
		pages = append(pages, "job/"+s.key+page)
	}
	pages = append(pages, "settings", "job/"+s.key+"/conflicts")
	for _, page := range pages {
		p.page(page)
		p.wait(`!document.querySelector('.waiting')`)
		evaluate[bool](p, `document.querySelectorAll('details').forEach(d => { d.open = true; }); true`)
		p.wait(`!document.querySelector('.waiting') && !document.querySelector('nav.rows')?.innerText.includes('Reckoning')`)
		file := name(strings.TrimPrefix(strings.TrimPrefix(page, "job/"+s.key), "/"))
		if file == "" {
			file = "job"
		}
		root := p.heard(file)
		var b strings.Builder
		root.outline(&b, 0)
		path := filepath.Join("testdata", "outline", file+".txt")
		if *update {
			if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(path, []byte(b.String()), 0o666); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Errorf("%v; read the page's outline through, then go test ./server -run Outlines -update", err)
			continue
		}
		if got := b.String(); got != string(want) {
			t.Errorf("%s is spoken otherwise; read it through, then go test ./server -run Outlines -update:\n%s", file, parting(string(want), got))
		}
	}
}

// parting is where two texts part, with the lines around.
func parting(a, b string) string {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range min(len(x), len(y)) {
		if x[i] != y[i] {
			return fmt.Sprintf("line %d\n- %s\n+ %s", i+1, strings.Join(x[i:min(i+4, len(x))], "\n- "), strings.Join(y[i:min(i+4, len(y))], "\n+ "))
		}
	}
	return fmt.Sprintf("%d lines, then %d", len(x), len(y))
}

// What happens is said by itself: what was saved, that there is no network, how many wait, and when
// all is up. In Spanish the document says that it is Spanish.
func TestWhatHappensIsSaid(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	says := func(role, want string) {
		t.Helper()
		var said []string
		for _, n := range p.tree().all() {
			if n.role != role {
				continue
			}
			var words []string
			for _, c := range n.all()[1:] {
				if c.role == "StaticText" {
					words = append(words, c.name)
				}
			}
			said = append(said, strings.Join(words, " "))
		}
		if !slices.ContainsFunc(said, func(x string) bool { return strings.Contains(x, want) }) {
			t.Errorf("no %s says %q; they say %q", role, want, said)
		}
	}
	p.open(s.url("job/" + s.key + "/101/measure/time/closing.time_90_to_10"))
	p.wait(`document.documentElement.dataset.engine === 'here' && navigator.serviceWorker.controller`)
	p.wait(`document.querySelector('.watch')`)
	says("status", "Up to date")
	p.lap(420 * 1e6)
	says("status", "Lap 1:")
	s.stop()
	p.tap("Keep it")
	p.wait(`location.hash.endsWith('/measure') && document.getElementById('network').innerText.includes('waiting')`)
	says("status", "Saved on this device.")
	p.wait(`document.getElementById('network').innerText.includes('No network')`)
	says("status", "1 waiting")
	says("status", "No network")
	s.start()
	p.synced()
	says("status", "Up to date")
	p.page("settings")
	p.tap("Español")
	p.wait(`document.documentElement.lang === 'es' && document.querySelector('h1').innerText === 'Ajustes'`)
	if root := p.heard("ajustes"); !strings.HasPrefix(root.name, "Ajustes") {
		t.Errorf("the document is called %q", root.name)
	}
	says("status", "Al día")
}
