package report

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"swingwright/decision"
	"swingwright/job"
	"swingwright/judge"
	"swingwright/plan"
	"swingwright/quantity"
)

// Letter writes, as plain text, the letter to a customer that an opening cannot be
// made power operated as it is: what was found, against which limit, the least that
// would change it, and who has to be asked. It is for openings that were refused or
// referred; for others it says what has to be done first.
func Letter(w io.Writer, style Style, j *job.Job, p *plan.Plan, d *decision.Decision) error {
	out := bufio.NewWriter(w)
	before := LetterLine
	for _, part := range LetterParts(style, j, p, d) {
		part.write(out, style.width(), before)
		before = part.Kind
	}
	out.WriteString("\n\n____________________________          ____________________________\nname, date                            signature\n")
	return out.Flush()
}

// A LetterPart is a part of a letter, for whoever sets it in type.
type LetterPart struct {
	Kind LetterKind
	Text string
}

// LetterKind is what a part of a letter is.
type LetterKind uint8

// The kinds of part.
const (
	LetterLine LetterKind = iota // a line of the head, as an address; may be empty
	LetterSays                   // a paragraph
	LetterItem                   // one of a list, below the paragraph before it
)

// LetterParts is the letter that Letter writes, without the place for the signature.
func LetterParts(style Style, j *job.Job, p *plan.Plan, d *decision.Decision) []LetterPart {
	l := letter{style: style}
	l.head(j, p)
	l.say(opener[d.Answer])
	l.reasons(d)
	l.cheapest(d)
	l.asked(d)
	l.say("What stands here was reckoned from what was found at the opening and from the limits named beside it. It certifies nothing: locally adopted codes, the hardware maker's paper and the licensed person on site come first. Every value can be measured again.")
	return l.parts
}

// write sets a part in lines so many characters wide, below a part of kind before.
func (p *LetterPart) write(w *bufio.Writer, width int, before LetterKind) {
	switch p.Kind {
	case LetterLine:
		w.WriteString(strings.Join(wrap(p.Text, len(p.Text)+1), " ") + "\n") // without what could steer a terminal
	case LetterSays:
		w.WriteString("\n")
		for _, line := range wrap(p.Text, width) {
			w.WriteString(line + "\n")
		}
	case LetterItem:
		if before != LetterItem {
			w.WriteString("\n")
		}
		for i, line := range wrap(p.Text, width-4) {
			w.WriteString([2]string{"  - ", "    "}[min(i, 1)] + line + "\n")
		}
	}
}

var opener = [...]string{
	decision.Go:      "We looked at this opening and found nothing that speaks against making it power operated.",
	decision.FindOut: "We looked at this opening. Before we can say whether it may be made power operated, the following has to be found out.",
	decision.Repair:  "We looked at this opening. Before it is made power operated, the following has to be repaired or set.",
	decision.Change:  "We looked at this opening. It cannot be made power operated as it is; the following would have to be changed.",
	decision.Refer:   "We looked at this opening. We cannot make it power operated until others have answered for the following.",
	decision.Refuse:  "We looked at this opening. We cannot make it power operated as it stands, for the following reasons.",
}

type letter struct {
	style Style
	parts []LetterPart
}

func (l *letter) head(j *job.Job, p *plan.Plan) {
	for _, line := range []string{j.Customer, j.Site, "", j.Date, ""} {
		l.line(line)
	}
	l.line("Opening " + p.Opening.ID + " " + p.Opening.Name)
}

func (l *letter) line(text string) { l.parts = append(l.parts, LetterPart{LetterLine, text}) }
func (l *letter) say(text string)  { l.parts = append(l.parts, LetterPart{LetterSays, text}) }
func (l *letter) item(text string) { l.parts = append(l.parts, LetterPart{LetterItem, text}) }

// reasons are the tests that speak against it, the gravest first.
func (l *letter) reasons(d *decision.Decision) {
	for answer := decision.Refuse; answer > decision.Go; answer-- {
		for i := range d.Rungs {
			r := &d.Rungs[i]
			if r.Answer == answer && (r.Verdict == judge.FallsShort || d.Answer == decision.FindOut) {
				l.item(l.reason(r))
			}
		}
	}
}

func (l *letter) reason(r *decision.Rung) string {
	text := "Wanted: " + lowered(r.Test) + ". "
	switch n := r.Number; {
	case n != nil:
		text += fmt.Sprintf("Found: %s; the limit is %s %s", l.both(n.Dim, n.Value, n.U), n.Side, l.both(n.Dim, n.Limit, 0))
	case r.Verdict == judge.NotMeasured:
		text += "This is not known"
	default:
		text += "This is not so"
	}
	text += " (" + r.Source + ")"
	if r.Why != "" {
		text += "; " + r.Why
	}
	return text + "."
}

// lowered is a statement as it stands within a sentence.
func lowered(text string) string {
	r, n := utf8.DecodeRuneInString(text)
	return string(unicode.ToLower(r)) + text[n:]
}

// both writes a value in the reader's units and in the other ones.
func (l *letter) both(d quantity.Dimension, si, u float64) string {
	own := quantity.Display(d, si, u, true, l.style.Units)
	other := quantity.Display(d, si, u, true, quantity.US+quantity.SI-l.style.Units)
	if own == other {
		return own
	}
	return own + " (" + other + ")"
}

// cheapest names the least that would mend the tests that speak against it, each
// once, and what was tried and is not enough.
func (l *letter) cheapest(d *decision.Decision) {
	var with, without []string
	mends := map[string]int{}
	for i := range d.Rungs {
		r := &d.Rungs[i]
		c := r.Cure()
		switch {
		case r.Verdict != judge.FallsShort:
		case c == nil:
			without = append(without, r.Test+l.tried(r))
		case mends[c.What] > 0:
			with[mends[c.What]-1] += " It mends this too: " + r.Test + "."
		default:
			with = append(with, r.Test+": "+l.cure(c)+".")
			mends[c.What] = len(with)
		}
	}
	l.list("The least that would change that, of what we reckoned again:", with)
	l.list("For the following we know of nothing that would be enough:", without)
}

func (l *letter) cure(c *decision.Cure) string {
	text := c.What
	if n := c.Number; n != nil {
		text += ", which reckoned again gives " + l.both(n.Dim, n.Value, n.U)
	}
	if c.But != "" {
		text += "; " + c.But
	}
	return text
}

func (l *letter) tried(r *decision.Rung) string {
	if len(r.Cures) == 0 {
		return "."
	}
	var names []string
	for i := range r.Cures {
		names = append(names, l.cure(&r.Cures[i]))
	}
	return "; tried were: " + strings.Join(names, "; ") + "."
}

func (l *letter) list(lead string, items []string) {
	if len(items) == 0 {
		return
	}
	l.say(lead)
	for _, text := range items {
		l.item(text)
	}
}

// asked names who has to be asked.
func (l *letter) asked(d *decision.Decision) {
	var items []string
	for _, c := range d.Calls {
		items = append(items, c.Whom+": "+c.Why+".")
	}
	l.list("To be asked:", items)
}
