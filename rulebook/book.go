// Package rulebook holds published limits as dated, sourced data and applies
// them to the facts of an opening. A limit is a small typed formula that was
// checked when its book was read; this package only works it out, without
// allocating, and can show the working. Reading books that people wrote is the
// business of package author.
package rulebook

import (
	"swingwright/fact"
	"swingwright/quantity"
)

// A Book is the limits of one edition of one published work.
type Book struct {
	ID      string // by which jobs name it: a156.19-2007
	Work    string // the published work
	Edition string // the edition, or the editions that agree
	Title   string // for people
	Place   string // where it may have been adopted
	From    Date   // first day of the edition; empty when unknown
	Until   Date   // last day it held; empty while it holds
	Note    string // what a reader of the whole book must know
	Tables  []*Table
	Rules   []Rule
}

// InForce tells whether the book holds on the day. An unknown first or last day does not exclude it.
func (b *Book) InForce(on Date) bool {
	return !on.Before(b.From) && !b.Until.endsBefore(on)
}

// InForce picks the books that hold on the day, in the order given.
func InForce(books []*Book, on Date) []*Book {
	var held []*Book
	for _, b := range books {
		if b.InForce(on) {
			held = append(held, b)
		}
	}
	return held
}

// Rule finds a rule by its ID.
func (b *Book) Rule(id string) (*Rule, bool) {
	for i := range b.Rules {
		if b.Rules[i].ID == id {
			return &b.Rules[i], true
		}
	}
	return nil, false
}

// Table finds a table by its ID.
func (b *Book) Table(id string) (*Table, bool) {
	for _, t := range b.Tables {
		if t.ID == id {
			return t, true
		}
	}
	return nil, false
}

// A Rule is one limit on one fact.
type Rule struct {
	ID    string  // unique in its book
	Title string  // the demand in one short phrase
	Of    fact.ID // what is judged
	Side  Side    // which side of the limit is good
	// Limit is what the fact is held against: a number of dimension Dim, or
	// for MustHold a statement that is true or false.
	Limit *Expr
	// At, when given, is the radius (a length) at which the judged moment is
	// turned into a force; Limit is then a force.
	At *Expr
	// When tells whether the rule applies; nil is always.
	When *Expr
	// Sure, when given, is a confirmed limit at least as strict as Limit: what
	// keeps it passes even where Limit itself is not confirmed.
	Sure *Expr
	// Confirmed tells that somebody compared the limit with published text. A
	// rule that is not confirmed may caution and never passes.
	Confirmed bool
	Advice    bool   // recommended, not demanded
	Note      string // what a reader must know: traps, contradictions, where measured
	Source    Source
}

// Dim is the dimension in which value and limit are compared.
func (r *Rule) Dim() quantity.Dimension {
	if r.At != nil {
		return quantity.DimForce
	}
	return r.Of.Fact().Dim
}

// Side is which side of a limit is the good one.
type Side uint8

// The sides.
const (
	AtLeast  Side = iota // the value may equal or exceed the limit
	AtMost               // the value may equal or fall below the limit
	MustHold             // the statement must be true
)

var sideNames = [...]string{"at least", "at most", "must hold"}

// String is the side in words.
func (s Side) String() string { return nameOf(sideNames[:], int(s)) }
