// Package fact is the one table of named quantities that the program can know
// of an opening. Rules, readings, tables, the schema and the glossary all take
// names, units and meanings from here, so that a value that was computed and a
// value that was measured are judged under the same name.
package fact

import "swingwright/quantity"

// ID is a fact's place in Table.
type ID int

// Kind tells what sort of value a fact has.
type Kind uint8

// The kinds of value.
const (
	Number Kind = iota // a quantity of dimension Dim
	YesNo              // true or false; where computed from draws, a share of true ones
	Choice             // one of Choices
)

// A Fact is one named quantity of an opening.
type Fact struct {
	Name    string             // dotted, as rules and readings write it: closing.time_90_to_10
	Kind    Kind               // what sort of value
	Dim     quantity.Dimension // for Number
	Choices []string           // for Choice, in the order that numbers them
	Meaning string             // one sentence for people
	Got     string             // how it comes to be known
}

// Lookup finds a fact by its name.
func Lookup(name string) (ID, bool) {
	id, ok := byName[name]
	return id, ok
}

// Names are the names of all facts, in the order of the table.
func Names() []string {
	names := make([]string, len(Table))
	for i := range Table {
		names[i] = Table[i].Name
	}
	return names
}

// Fact returns the row of the table.
func (id ID) Fact() *Fact { return &Table[id] }

// String is the fact's name.
func (id ID) String() string { return Table[id].Name }

var byName = func() map[string]ID {
	m := make(map[string]ID, len(Table))
	for i := range Table {
		m[Table[i].Name] = ID(i)
	}
	return m
}()
