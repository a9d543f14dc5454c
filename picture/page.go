package picture

import (
	"image/color"
	"strings"
	"unicode"

	"swingwright/internal/draw"
	"swingwright/phrasebook"
	"swingwright/plan"
)

// Measures of a page, mm.
const (
	pageWidth  = 190. // of paper
	margin     = 8.   // on paper
	letter     = 3.   // height of capitals
	heading    = 3.6  // height of capitals of the title
	lineHeight = 5.2
)

// page is a scene that is filled from the top down; its height is what it came
// to. Until then its top lies at y = 0 and all else below.
type page struct {
	*draw.Scene
	format  format
	y       float64          // how far it is filled, mm, zero or negative
	phrases *phrasebook.Book // says its words; nil for English
}

// newPage begins a page with its title, which names the opening, in English.
func newPage(p *plan.Plan, name, title string) *page { return In{}.newPage(p, name, title) }

// pageOf begins a page with its title, which names what it is about, in English.
func pageOf(name, title, id, about string) *page { return In{}.pageOf(name, title, id, about) }

func (to In) newPage(p *plan.Plan, name, title string) *page {
	return to.pageOf(name, title, p.Opening.ID, p.Opening.Name)
}

func (to In) pageOf(name, title, id, about string) *page {
	title = clean(strings.TrimSpace(to.Phrases.Say(title) + " – " + id + " " + about))
	f := to.format()
	g := &page{Scene: &draw.Scene{Width: f.width, Title: title, ID: identifier(name, id)}, format: f, y: -f.rim, phrases: to.Phrases}
	g.column(f.rim, f.inner(), draw.Text{Height: heading, Bold: true}, title)
	g.y -= 1
	return g
}

// Add puts items on top, with their words said in the language of the page.
func (g *page) Add(items ...draw.Item) {
	for _, item := range items {
		switch i := item.(type) {
		case draw.Text:
			i.Body, i.Title = g.phrases.Say(i.Body), g.phrases.Say(i.Title)
			item = i
		case draw.Path:
			i.Title = g.phrases.Say(i.Title)
			item = i
		case draw.Circle:
			i.Title = g.phrases.Say(i.Title)
			item = i
		case draw.Arc:
			i.Title = g.phrases.Say(i.Title)
			item = i
		}
		g.Scene.Add(item)
	}
}

// identifier joins words to a name of letters, digits and hyphens.
func identifier(words ...string) string {
	return strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' {
			return r
		}
		return '-'
	}, strings.Join(words, "-"))
}

// say writes ordinary text over the whole width, in as many lines as it takes.
func (g *page) say(text string) { g.lines(draw.Text{Height: letter}, text) }

// lines writes text over the whole width in the given style.
func (g *page) lines(style draw.Text, text string) {
	g.column(g.format.rim, g.format.inner(), style, g.phrases.Say(text))
}

// beside writes ordinary text indented, to the right of some sign.
func (g *page) beside(indent float64, text string) {
	g.column(g.format.rim+indent, g.format.inner()-indent, draw.Text{Height: letter}, g.phrases.Say(text))
}

// column writes text as it stands in lines that begin at left and are no longer than width, mm.
func (g *page) column(left, width float64, style draw.Text, text string) {
	if style.Height != heading {
		g.Words = append(g.Words, strings.ReplaceAll(clean(text), "\u00a0", " "))
	}
	if g.format.narrow() { // there it is the screen's own letters that have to fit, and some are wide
		width *= 0.88
	}
	for _, line := range wrap(style, text, width) {
		style.At, style.Body, style.Level = draw.Point{X: left, Y: g.y}, line, draw.Top
		g.Scene.Add(style)
		g.y -= lineHeight * style.Height / letter
	}
}

// sampled writes text behind a sample of the line it is about.
func (g *page) sampled(style draw.Style, text string) {
	const sample = 12.
	left := g.format.rim
	g.Add(draw.Line(draw.Point{X: left, Y: g.y - letter/2}, draw.Point{X: left + sample, Y: g.y - letter/2}, style))
	g.beside(sample+2, text)
}

// foot names the works from which the limits of a picture are.
func (g *page) foot(shown []*plan.Finding) {
	if len(shown) > 0 {
		g.y -= 1.5
		g.say(editions(shown))
	}
}

// frame takes a box of the given height over the width of all plots.
func (g *page) frame(height float64) draw.Box {
	box := draw.Box{Min: draw.Point{X: g.format.plotLeft, Y: g.y - height}, Max: draw.Point{X: g.format.plotRight(), Y: g.y}}
	g.y -= height
	return box
}

// Left and right end of all plots on paper, so that those above each other line up, mm.
const (
	plotLeft  = 25.
	plotRight = pageWidth - margin - 3
)

// done gives the page its height and moves all up onto it.
func (g *page) done() *draw.Scene {
	g.Height = g.format.rim - g.y
	for i, item := range g.Items {
		g.Items[i] = moved(item, draw.Point{Y: g.Height})
	}
	return g.Scene
}

// moved is an item moved, mm.
func moved(item draw.Item, by draw.Point) draw.Item {
	up := func(p draw.Point) draw.Point { return draw.Point{X: p.X + by.X, Y: p.Y + by.Y} }
	switch i := item.(type) {
	case draw.Path:
		points := make([]draw.Point, len(i.Points))
		for k, p := range i.Points {
			points[k] = up(p)
		}
		i.Points = points
		return i
	case draw.Circle:
		i.Center = up(i.Center)
		return i
	case draw.Arc:
		i.Center = up(i.Center)
		return i
	case draw.Text:
		i.At = up(i.At)
		return i
	}
	return item
}

// wrap breaks text at spaces, and words that are too long for a line anywhere,
// into lines that are no longer than width, mm. A tenth is left to spare, for
// letters other than those that are measured here.
func wrap(style draw.Text, text string, width float64) []string {
	fits := func(line string) bool {
		style.Body = line
		return 1.1*style.Width() <= width
	}
	var lines []string
	line := ""
	for word := range strings.SplitSeq(clean(text), " ") {
		if line != "" && fits(line+" "+word) {
			line += " " + word
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		if line = word; fits(word) {
			continue
		}
		line = ""
		for _, r := range word {
			if line != "" && !fits(line+string(r)) {
				lines, line = append(lines, line), ""
			}
			line += string(r)
		}
	}
	return append(lines, line)
}

// clean puts a space in the place of what has no picture, as a line break in a
// name from a file.
func clean(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, "?"))
}

// notice is a picture of nothing but words, in English: what it would show and why it cannot.
func notice(p *plan.Plan, name, title string, why ...string) *draw.Scene {
	return In{}.notice(p, name, title, why...)
}

func (to In) notice(p *plan.Plan, name, title string, why ...string) *draw.Scene {
	g := to.newPage(p, name, title)
	said := make([]string, len(why))
	for i, text := range why {
		said[i] = g.phrases.Say(text)
		g.say(text)
		g.y -= 2
	}
	g.Description = clean(strings.Join(said, " "))
	return g.done()
}

// together keeps a text on one line by spaces that do not break.
func together(text string) string { return strings.ReplaceAll(text, " ", "\u00a0") }

// label is a text on a white ground, which keeps lines below from running
// through it.
func label(t draw.Text) []draw.Item {
	w := 1.05 * t.Width()
	low := lowLeft(t, w)
	const rim = 0.5
	return []draw.Item{draw.Rectangle(
		draw.Point{X: low.X - rim, Y: low.Y - t.Height/4 - rim}, draw.Point{X: low.X + w + rim, Y: low.Y + t.Height + rim},
		draw.Style{Fill: draw.White}), t}
}

// lowLeft is where the letters of a text of width w begin, on its base line.
func lowLeft(t draw.Text, w float64) draw.Point {
	return draw.Point{
		X: t.At.X - w*[...]float64{draw.Start: 0, draw.Middle: 0.5, draw.End: 1}[t.Anchor],
		Y: t.At.Y - t.Height*[...]float64{draw.Baseline: 0, draw.Centre: 0.5, draw.Top: 1}[t.Level],
	}
}

// thin is a faint line that carries nothing on its own.
func thin(c color.NRGBA) draw.Style { return draw.Style{Width: 0.15, Stroke: c} }
