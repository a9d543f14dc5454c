package report

import (
	"bytes"
	"errors"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"swingwright/judge"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/rulebook"
	"swingwright/rulebook/author"
)

// whole writes all that can be written of the demo for people.
func whole(t testing.TB, style Style) string {
	t.Helper()
	h, plans := demo(t)
	h.Cautions = []string{"a caution on the job"}
	var out bytes.Buffer
	text := NewText(&out, style)
	err := text.Start(h)
	for _, p := range plans {
		look := NewLook(p, 75*quantity.Degree, quantity.Metre/2)
		err = errors.Join(err, text.Plan(p, decided(h, p)), look.Text(text))
		for i := range p.Findings {
			err = errors.Join(err, text.Working(p, &p.Findings[i]))
		}
	}
	books, wrong := author.Builtin()
	err = errors.Join(err, wrong, text.Books(books, "2026-11-25"), text.End())
	for _, b := range books {
		err = errors.Join(err, text.Book(b))
		for i := range b.Rules {
			err = errors.Join(err, text.Rule(b, &b.Rules[i]))
		}
	}
	if err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func TestTextKeepsToThePage(t *testing.T) {
	for _, width := range []int{80, 100, 132} {
		for _, units := range []quantity.System{quantity.US, quantity.SI} {
			text := whole(t, Style{Units: units, Width: width, All: true, Why: true})
			for line := range strings.Lines(text) {
				if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > width {
					t.Errorf("%v, %d wide: a line of %d: %s", units, width, n, line)
				}
			}
			if strings.Contains(text, "NaN") || strings.Contains(text, "Inf ") || strings.Contains(text, "%!") {
				t.Errorf("%v: a value that does not exist is printed as if it did", units)
			}
		}
	}
}

// Colour is an addition: without it, the text is the same.
func TestColourAddsNothingToRead(t *testing.T) {
	plain := whole(t, Style{})
	colour := whole(t, Style{Colour: true})
	if colour == plain {
		t.Error("nothing is coloured")
	}
	if got := regexp.MustCompile("\x1b\\[[0-9]+m").ReplaceAllString(colour, ""); got != plain {
		t.Error("with its colours taken away the text differs from the plain one")
	}
}

// Every verdict has a mark of its own in plain ASCII, and the legend explains it.
func TestMarks(t *testing.T) {
	var legend bytes.Buffer
	text := NewText(&legend, Style{})
	text.legend()
	if err := text.flush(); err != nil {
		t.Fatal(err)
	}
	seen := make(map[string]judge.Verdict)
	for _, v := range []judge.Verdict{judge.NotMeasured, judge.Meets, judge.FallsShort, judge.TooClose, judge.DoesNotApply} {
		m := mark(&plan.Finding{Verdict: v, Rule: &rulebook.Rule{}})
		if other, ok := seen[m]; ok {
			t.Errorf("%v and %v share the mark %q", v, other, m)
		}
		seen[m] = v
		if strings.ContainsFunc(m, func(r rune) bool { return r >= utf8.RuneSelf }) {
			t.Errorf("the mark of %v, %q, is not ASCII", v, m)
		}
		if !strings.Contains(legend.String(), "\n  "+strings.TrimSpace(m)+" ") {
			t.Errorf("the legend does not explain %q", m)
		}
	}
	advice := &plan.Finding{Verdict: judge.FallsShort, Caution: true, Rule: &rulebook.Rule{}}
	if m := mark(advice); m != "! " || !strings.Contains(verdict(advice), "limit unconfirmed") {
		t.Errorf("a limit that is not confirmed is told as %q", verdict(advice))
	}
}

// The demo's openings come to what their story in the job file says, as far as
// the published books judge them.
func TestSummary(t *testing.T) {
	text := whole(t, Style{})
	for _, line := range []string{
		"16 openings: 3 in order, 6 undecided, 7 falls short",
		`ok in order +101`, `!! falls short +102`, `\?\? undecided +105`, `ok in order +110`, `!! falls short +111`,
	} {
		if !regexp.MustCompile(line).MatchString(text) {
			t.Errorf("the summary lacks %s", line)
		}
	}
}

// A job cannot steer the terminal it is shown on.
func TestHostileTexts(t *testing.T) {
	h, plans := demo(t)
	h.Job.Name, plans[0].Opening.Name = "\x1b]0;owned\x07job", "\x1b[2J\r\nfirst\u202etsal"
	var out bytes.Buffer
	text := NewText(&out, Style{})
	if err := errors.Join(text.Start(h), text.Plan(plans[0], decided(h, plans[0])), text.End()); err != nil {
		t.Fatal(err)
	}
	if strings.ContainsFunc(out.String(), func(r rune) bool { return r < ' ' && r != '\n' || r == 0x202e }) {
		t.Error("control characters of the job reach the terminal")
	}
}
