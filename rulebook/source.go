package rulebook

// A Source tells where a limit was published and how far it was confirmed. The
// work and edition are those of its book.
type Source struct {
	Clause     string     `json:"clause"`              // clause, section or article
	Table      string     `json:"table,omitempty"`     // table or equation within the work
	Page       string     `json:"page,omitempty"`      // page, where the clause does not suffice
	Confidence Confidence `json:"confidence"`          // how the figure was got
	How        string     `json:"how,omitempty"`       // for Derived: from what, by which sum
	Inputs     bool       `json:"inputs,omitempty"`    // for Derived: every input was itself confirmed
	CheckedBy  string     `json:"checkedBy,omitempty"` // who compared the record with the text
	CheckedOn  Date       `json:"checkedOn,omitempty"` // when
	Says       string     `json:"says,omitempty"`      // the demand in our own words
}

// Confirmed tells whether the figure was compared with published text, or
// derived from figures that were.
func (s *Source) Confirmed() bool {
	if s.CheckedBy == "" || s.CheckedOn == "" {
		return false
	}
	switch s.Confidence {
	case ReadInLaw, ReadInStandard, ReadSecondHand:
		return true
	case Derived:
		return s.Inputs && s.How != ""
	}
	return false
}

// Confidence is how a figure was got. The zero Confidence is FromMemory.
type Confidence uint8

// The kinds of confidence, weakest first.
const (
	FromMemory     Confidence = iota // nobody could look it up yet
	CommonPractice                   // what the trade does, without a published source
	Derived                          // worked out from other figures
	ReadSecondHand                   // read in a text that describes or quotes the work
	ReadInStandard                   // read in the standard's own text
	ReadInLaw                        // read in a government's text
)

var confidenceNames = [...]string{
	"from memory", "common practice", "derived",
	"read second-hand", "read in the standard's own text", "read in government text",
}

// Confidences lists the kinds as books write them, weakest first.
func Confidences() []string { return confidenceNames[:] }

// String is the confidence as books write it.
func (c Confidence) String() string { return nameOf(confidenceNames[:], int(c)) }
