package quantity

import (
	"errors"
	"strconv"
	"strings"
)

// A ParseError tells why a text is not the quantity that was wanted, and what
// to write instead.
type ParseError struct {
	// Text is what was read.
	Text string
	// Want is the kind of quantity that was wanted.
	Want Dimension
	// Reason says what is wrong with the text.
	Reason string
	// Hint says how to mend it.
	Hint string

	noun string // what was wanted, when it is not just a quantity of Want
}

// Error gives one sentence, such as
//
//	"5 lb" is not a force: lb is a mass; write lbf or N
func (e *ParseError) Error() string {
	noun := e.noun
	if noun == "" {
		noun = e.Want.noun()
	}
	return Quote(e.Text) + " is not " + noun + ": " + e.Reason + "; " + e.Hint
}

// Reason is what is wrong with the text of a ParseError and how to mend it,
// without the text itself; of any other error it is its message.
func Reason(err error) string {
	var e *ParseError
	if errors.As(err, &e) {
		return strings.TrimSuffix(e.Reason+"; "+e.Hint, "; ")
	}
	return err.Error()
}

// Quote puts a text that somebody wrote into quotation marks: curved ones where
// it holds an inch mark or a backslash, so that nothing needs a backslash. A long
// text is cut.
func Quote(text string) string {
	const longest = 60 // characters; a quantity is far shorter
	if r := []rune(text); len(r) > longest {
		text = string(r[:longest]) + "…"
	}
	quoted := strconv.Quote(text)
	if strings.ContainsAny(text, `"\`) {
		return "“" + quotable.Replace(quoted[1:len(quoted)-1]) + "”"
	}
	return quoted
}

// quotable takes back what strconv.Quote does to inch marks and backslashes.
var quotable = strings.NewReplacer(`\"`, `"`, `\\`, `\`)

// The faults below leave Text and Want to the caller that knows them.

func fault(reason, hint string) *ParseError {
	return &ParseError{Reason: reason, Hint: hint}
}

// both joins what is wrong with the two halves of a text; nil is nothing wrong.
func both(a, b *ParseError) *ParseError {
	switch {
	case a == nil:
		return b
	case b == nil || a.Reason == b.Reason:
		return a
	case a.Hint == b.Hint:
		return fault(a.Reason+" and "+b.Reason, a.Hint)
	}
	return fault(a.Reason+" and "+b.Reason, a.Hint+"; "+b.Hint)
}

func noUnit(d Dimension, which string) *ParseError {
	return fault(which+" has no unit", "write "+unitChoice(d))
}

// notOfDimension says that a unit is strange to dimension d. For one that
// belongs elsewhere it names only the two units that the trade most likely
// meant; for one that nobody knows it names all.
func notOfDimension(d Dimension, written string) *ParseError {
	found := candidates(written)
	if len(found) == 0 {
		return fault(strings.TrimSpace(written)+" is not a unit known here", "write "+unitChoice(d))
	}
	usual := []string{Unit(d, US)}
	if si := Unit(d, SI); si != usual[0] {
		usual = append(usual, si)
	}
	if d == DimRatio {
		usual = []string{"a bare number", "%"}
	}
	return fault(found[0].symbol+" is "+found[0].dim.noun(), "write "+orList(usual))
}
