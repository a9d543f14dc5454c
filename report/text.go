package report

import (
	"bufio"
	"io"
	"strings"
	"unicode/utf8"

	"swingwright/decision"
	"swingwright/plan"
)

// Text writes plans for people, one after another: Start, then a Plan for every
// opening, a Group for every group, then End.
type Text struct {
	w     *bufio.Writer
	style Style
	tally tally
}

// NewText starts a text report on w. Errors of writing are returned by the
// method during which they happened.
func NewText(w io.Writer, style Style) *Text {
	return &Text{w: bufio.NewWriter(w), style: style}
}

// Start writes what holds for the whole job.
func (t *Text) Start(h Head) error {
	t.title(h.Job.Name, '=')
	about := t.table(8, 20)
	for _, line := range [][2]string{{"Customer", h.Job.Customer}, {"Site", h.Job.Site}, {"Surveyed", h.Job.Date}} {
		if line[1] != "" {
			about.add(line[0], line[1])
		}
	}
	for i, b := range h.Books {
		label := ""
		if i == 0 {
			label = "Judged by"
		}
		about.add(label, b.ID+": "+work(b)+" ("+b.Place+")")
	}
	if len(h.Books) == 0 {
		about.add("Judged by", "nothing: the job names no rulebooks")
	}
	for _, c := range h.Cautions {
		about.add("Caution", c)
	}
	t.put(about)
	return t.flush()
}

// Plan writes one opening and what was decided of it.
func (t *Text) Plan(p *plan.Plan, d *decision.Decision) error {
	t.tally.count(p, d)
	t.blank()
	t.heading(p)
	t.whatItIs(p)
	t.decision(d)
	t.howItMoves(p)
	t.howItIsDriven(p)
	t.roomForTheSwing(p)
	t.passing(p)
	t.findings(p)
	t.meetings(p)
	t.questions(d)
	t.doubts(p)
	t.remarks(p)
	if t.style.Why {
		t.assumed(p)
	}
	return t.flush()
}

// End writes a line for every opening and the legend.
func (t *Text) End() error {
	t.summary()
	t.legend()
	return t.flush()
}

func (t *Text) heading(p *plan.Plan) {
	t.title(strings.TrimSpace(p.Opening.ID+" "+noBreak+p.Opening.Name), '-')
}

// title is a line of text, underlined.
func (t *Text) title(text string, under rune) {
	for _, line := range wrap(text, t.style.width()) {
		t.w.WriteString(line + "\n" + strings.Repeat(string(under), utf8.RuneCountInString(line)) + "\n")
	}
}

// head is the name of a section.
func (t *Text) head(text string) { t.w.WriteString("\n  " + t.said(text) + "\n") }

// said is a text in the language of the report.
func (t *Text) said(text string) string { return t.style.Phrases.Say(text) }

func (t *Text) blank() { t.w.WriteString("\n") }

// table starts a table of columns with the given least widths.
func (t *Text) table(least ...int) *table {
	return &table{indent: 2, width: t.style.width(), least: least, phrases: t.style.Phrases}
}

// section starts a table below the name of a section.
func (t *Text) section(least ...int) *table {
	tab := t.table(least...)
	tab.indent = 4
	return tab
}

func (t *Text) put(tab *table) { tab.write(t.w, t.style.Colour) }

// paragraph writes a text across the page, hanging below its first word.
func (t *Text) paragraph(lead, text string) {
	tab := t.section(utf8.RuneCountInString(lead), 20)
	tab.add(lead, text)
	t.put(tab)
}

func (t *Text) flush() error { return t.w.Flush() }
