// Package report writes plans: tables for people, and JSON for programs that
// want to look further or do the sum again.
//
// Both are written opening by opening, as the plans come, so that a job of any
// length needs no more memory than its widest opening. Nothing that a person
// typed reaches the terminal with control characters in it.
package report

import (
	"swingwright/job"
	"swingwright/phrasebook"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/rulebook"
)

// Head is what a report says of the job as a whole, before its openings.
type Head struct {
	Job      *job.Job
	Openings int              // how many plans follow
	Books    []*rulebook.Book // that the openings are judged by
	Cautions []string         // on the job as a whole, such as a book that is out of force
	Options  plan.Options     // with which the plans are made
}

// Style says how a report is written for people. The zero Style is plain text
// in SI units, 100 characters wide.
type Style struct {
	Units  quantity.System
	Width  int  // of the page in characters, 100 when zero, never taken below 72
	Colour bool // beside the marks and words, never in their place
	All    bool // list rules that do not apply, and all that are not measured, too
	Why    bool // show how far each limit was confirmed, and what was assumed
	// Phrases say the report of check in another language; nil for English.
	Phrases *phrasebook.Book
}

const (
	usualWidth = 100
	leastWidth = 72
)

func (s Style) width() int {
	if s.Width == 0 {
		return usualWidth
	}
	return max(s.Width, leastWidth)
}
