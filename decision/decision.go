// Package decision tells what to do with one opening: whether it is suited to
// be opened under power as it is, what has to be repaired or changed first, whom to
// call, and when to refuse. It climbs a ladder of tests, each with a number and its
// limit, and reckons every cure again instead of asserting it.
package decision

import (
	"swingwright/judge"
	"swingwright/quantity"
)

// Answer is what is to be done with an opening.
type Answer uint8

// The answers, from the best to the worst. An opening gets the worst of its rungs.
const (
	Go      Answer = iota // suited as it is
	FindOut               // nothing speaks against it, but something is not known or too close to call
	Repair                // repair, set or adjust what is there first
	Change                // change hardware, or what the opening is meant to be
	Refer                 // somebody else has to answer for it first
	Refuse                // no cure that was tried helps
)

var answers = [...]string{"go", "find out first", "repair first", "change", "refer", "refuse"}

// String is the answer in words.
func (a Answer) String() string { return answers[a] }

// MarshalText writes the answer in words.
func (a Answer) MarshalText() ([]byte, error) { return []byte(a.String()), nil }

// Decision is what was decided of one opening, and why.
type Decision struct {
	Answer Answer
	Rungs  []Rung // the tests that were put, in the order of the ladder
	Calls  []Call // whom to call, and why
	// Questions are what is not known, those first that would settle most.
	Questions []Question
}

// A Rung is one test of the ladder.
type Rung struct {
	Test    string // what is asked, as a statement that should hold
	Verdict judge.Verdict
	Answer  Answer
	Number  *Number // what was found against which limit; nil where the test has none
	Source  string  // where the limit stands
	Why     string  // what stands behind the verdict, where it is not plain
	// Missing are the fields of the survey, or the facts, that the test waits for.
	Missing []string
	// Cures are what would mend it, the least effort first, each reckoned again.
	Cures []Cure
}

// Cure is the cheapest cure that works, nil where none does.
func (r *Rung) Cure() *Cure {
	for i := range r.Cures {
		if r.Cures[i].Works {
			return &r.Cures[i]
		}
	}
	return nil
}

// Number is what was found, and its limit.
type Number struct {
	Dim      quantity.Dimension
	Side     judge.Side
	Value, U float64 // in SI, with its standard uncertainty
	Limit    float64
}

// Margin is the distance of the value from its limit, above zero on the good side.
func (n *Number) Margin() float64 { return judge.Margin(n.Side, n.Value, n.Limit) }

// Effort is how much work a cure is, by the trade's sense of it (common practice).
type Effort uint8

// The efforts, least first.
const (
	Adjusting Effort = iota // turning a screw, moving a plate
	Repairing               // work on what is there
	Replacing               // another part
	Building                // another trade's work
)

// A Cure is one thing that might mend a rung.
type Cure struct {
	What   string // what to do
	Effort Effort
	Answer Answer  // what the rung comes to with it: Repair, Change or Refer
	Number *Number // what was reckoned again; nil where there is no number to it
	Works  bool    // whether the test passes then, spread included
	But    string  // what it costs elsewhere
}

// A Call is somebody to call, and why.
type Call struct {
	Whom string
	Why  string
}
