// Package takeoff counts what a job takes: parts, cable, hours, other trades, visits,
// and what all that comes to. Every line says which opening it is for, why it is
// there and on what that rests. Where a rate is a range, so is what comes of it.
//
// What it has from nobody but the trade's memory is marked, and every rate may be
// replaced by the job's own. A part that the job gives no price for is counted and
// named as not priced: there are no prices in here.
package takeoff

import (
	"fmt"
	"swingwright/decision"
	"swingwright/opening"
	"swingwright/quantity"
)

// Basis is what a line rests on.
type Basis string

// What a line may rest on.
const (
	FromJob        Basis = "the job"         // somebody wrote it down
	FromWiring     Basis = "the wiring"      // counted in the wiring of the opening
	CommonPractice Basis = "common practice" // the trade does it so
	FromMemory     Basis = "from memory"     // nobody has looked it up
)

// Range is a number that lies between two others. All three are the same where it
// is firm.
type Range struct {
	Low    float64 `json:"low"`
	Likely float64 `json:"likely"`
	High   float64 `json:"high"`
}

// Firm tells a range of one number.
func (r Range) Firm() bool { return r.Low == r.High }

// Times is the range with every number multiplied by x, which is not below zero.
func (r Range) Times(x float64) Range { return Range{r.Low * x, r.Likely * x, r.High * x} }

// Line is one kind of part of one opening, or of the whole job.
type Line struct {
	Of    string       `json:"opening,omitempty"` // id of the opening; empty for the job as a whole
	Part  opening.Part `json:"part"`
	What  string       `json:"what"`            // what to buy, in words
	Sheet string       `json:"sheet,omitempty"` // its hardware sheet, where one is named
	// Count is how many, of what is counted.
	Count int `json:"count,omitempty"`
	// Length is how much is bought of what is sold by length, in metres, waste
	// and slack included.
	Length quantity.Length `json:"length_m,omitempty"`
	Why    string          `json:"why"`
	From   string          `json:"from,omitempty"` // the field, device or cable that calls for it
	Basis  Basis           `json:"basis"`
	// Price is what one costs, or a metre; nil where the job gives none.
	Price *Range `json:"price,omitempty"`
}

// Work is one task at one opening, or of the whole job, done by one's own people.
type Work struct {
	Of          string       `json:"opening,omitempty"`
	Task        opening.Task `json:"task"`
	Times       int          `json:"times"`
	Hours       Range        `json:"hours"` // in all: each time, times how often, times the multipliers
	Multipliers []Multiplier `json:"multipliers,omitempty"`
	Why         string       `json:"why"`
	Basis       Basis        `json:"basis"` // of the hours
}

// Multiplier is what makes the hours at an opening longer or shorter.
type Multiplier struct {
	What   string  `json:"what"`
	Factor float64 `json:"factor"`
}

// Sub is the work of another firm at one opening.
type Sub struct {
	Of    string        `json:"opening"`
	Trade opening.Trade `json:"trade"`
	Why   string        `json:"why"`
	Basis Basis         `json:"basis"`
	Hours *Range        `json:"hours,omitempty"` // of theirs; nil where nobody knows
	Price *Range        `json:"price,omitempty"` // nil where the job gives none
}

// Visit is one trade at one place in one phase.
type Visit struct {
	Order    int           `json:"order"` // within place and phase, from 1
	Trade    opening.Trade `json:"trade"`
	Building string        `json:"building,omitempty"`
	Phase    string        `json:"phase,omitempty"`
	Purpose  string        `json:"purpose"`
	Openings []string      `json:"openings"`
	Hours    *Range        `json:"hours,omitempty"` // at the openings; nil where nobody knows
	Days     int           `json:"days"`            // working days, at the likely hours; 1 where they are not known
	Why      string        `json:"why"`
}

// Gap is what could not be counted.
type Gap struct {
	Of    string `json:"opening"`
	What  string `json:"what"`
	Field string `json:"field,omitempty"` // what would tell it
}

// Sum is one row of a quote, a kind of cost.
type Sum struct {
	What string `json:"what"`
	Range
	Why string `json:"why"`
}

// Quote is what the work comes to, in the job's currency. Low and High of its sums
// leave one case in twenty below and one above; Likely is the middle, half of the
// cases below it. They hold for the ranges of the rates and nothing else.
type Quote struct {
	Currency string   `json:"currency,omitempty"`
	Sums     []Sum    `json:"sums"`
	Total    Range    `json:"total"`
	Unpriced []string `json:"unpriced,omitempty"` // what is counted and not in the sums
}

// Opening is all that one opening takes.
type Opening struct {
	ID     string          `json:"id"`
	Name   string          `json:"name,omitempty"`
	Answer decision.Answer `json:"answer"`
	// Left tells why the opening is not in the quote; empty where it is.
	Left  string `json:"left_out,omitempty"`
	Lines []Line `json:"lines,omitempty"`
	Work  []Work `json:"work,omitempty"`
	Subs  []Sub  `json:"subs,omitempty"`
	Gaps  []Gap  `json:"gaps,omitempty"`
	Hours Range  `json:"hours"` // own hours
	// Total is what it comes to, without what belongs to the job as a whole.
	Total Range `json:"total"`
}

// Alternate is a possible change of an opening, priced in its place.
type Alternate struct {
	Opening
	Of string `json:"in_place_of"`
	// More is what it comes to above the opening in whose place it stands; below
	// zero where it is less.
	More Range `json:"more"`
}

// Exclusion is what the quote does not hold, and why it is said.
type Exclusion struct {
	What string `json:"what"`
	Why  string `json:"why"`
}

// Rate is a rate that was used, and where it is from.
type Rate struct {
	What string `json:"what"`
	Range
	Unit  string `json:"unit"` // h, %, or the currency
	Basis Basis  `json:"basis"`
}

// Takeoff is all that a job takes.
type Takeoff struct {
	Openings   []Opening   `json:"openings"`
	Parts      []Line      `json:"parts"`  // of all openings, alike ones added up
	Spares     []Line      `json:"spares"` // bought besides
	Visits     []Visit     `json:"visits"`
	Hours      Range       `json:"hours"` // own hours in all
	JobWork    []Work      `json:"job_work"`
	Quote      Quote       `json:"quote"`
	Alternates []Alternate `json:"alternates,omitempty"`
	Exclusions []Exclusion `json:"exclusions"`
	Rates      []Rate      `json:"rates"` // those that were used
}

// Item is an opening that is to be counted, with what was decided of it.
type Item struct {
	Opening *opening.Opening
	Answer  decision.Answer
	Calls   []decision.Call
	Reason  string // the first test that it failed, empty where none
	// Asked counts the hours to commission an operator too that is fitted and suited as
	// it is; such an opening is left out else, since nothing is to be done there.
	Asked bool
}

// NewItem is the item of an opening and its decision. It keeps no more than it
// needs of the latter.
func NewItem(o *opening.Opening, d *decision.Decision) Item {
	it := Item{Opening: o, Answer: d.Answer, Calls: d.Calls}
	for i := range d.Rungs {
		if r := &d.Rungs[i]; r.Answer == d.Answer && d.Answer > decision.FindOut {
			it.Reason = r.Test
			break
		}
	}
	return it
}

// Longer tells why the hours are multiplied, in words to stand behind the reason for the
// work; empty where they are not.
func (w *Work) Longer() (text string) {
	for _, m := range w.Multipliers {
		text += fmt.Sprintf("; times %g: %s", m.Factor, m.What)
	}
	return text
}
