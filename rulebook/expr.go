package rulebook

import (
	"swingwright/fact"
	"swingwright/quantity"
)

// An Expr is a checked formula: a tree of operations on facts and numbers. All
// values are float64 in SI; yes is 1 and no is 0; a choice is its index in the fact's list.
type Expr struct {
	Op    Op
	Kind  fact.Kind          // kind of the result
	Dim   quantity.Dimension // dimension of the result, for Number
	Value float64            // for Const the value; for In and Of the unit in SI
	Fact  fact.ID            // for Read the fact; for Word the fact whose choice it is
	Unit  string             // for In and Of the unit's name in formulas
	Table *Table             // for Cell, SureCell and HasCell
	Args  []Expr
}

// Op is an operation of a formula.
type Op uint8

// The operations.
const (
	Const    Op = iota // Value
	Read               // the fact's value
	Word               // a choice of Fact, by its index Value
	In                 // argument / unit: a quantity as a number of units
	Of                 // argument * unit: a number of units as a quantity
	Neg                // -a
	Add                // a + b
	Sub                // a - b
	Mul                // a * b
	Div                // a / b
	Sqrt               // square root of a number
	Min                // least of the arguments
	Max                // largest of the arguments
	CeilTo             // ceil_to(step, x): the least multiple of step that is not below x
	Less               // a < b
	LessEq             // a <= b
	More               // a > b
	MoreEq             // a >= b
	Same               // a == b, of choices or of yes and no
	Differ             // a != b
	Not                // !a
	And                // a && b
	Or                 // a || b
	If                 // a ? b : c
	Doubt              // unconfirmed(a): a, which nobody read in published text
	Cell               // the table's cell for the keys
	SureCell           // the nearest confirmed cell at or beyond the keys
	HasCell            // whether the table has a cell for the keys
	ops                // how many there are
)

// op describes an operation: its name in JSON, how many arguments, its sign or name in formulas.
type op struct {
	name  string
	least int // fewest arguments
	most  int // most arguments
	sign  string
}

// manyArgs bounds the arguments of min and max.
const manyArgs = 8

var opTable = [ops]op{
	Const:    {"const", 0, 0, ""},
	Read:     {"fact", 0, 0, ""},
	Word:     {"word", 0, 0, ""},
	In:       {"in", 1, 1, "in_"},
	Of:       {"of", 1, 1, ""},
	Neg:      {"neg", 1, 1, "-"},
	Add:      {"add", 2, 2, "+"},
	Sub:      {"sub", 2, 2, "-"},
	Mul:      {"mul", 2, 2, "*"},
	Div:      {"div", 2, 2, "/"},
	Sqrt:     {"sqrt", 1, 1, "sqrt"},
	Min:      {"min", 1, manyArgs, "min"},
	Max:      {"max", 1, manyArgs, "max"},
	CeilTo:   {"ceil_to", 2, 2, "ceil_to"},
	Less:     {"lt", 2, 2, "<"},
	LessEq:   {"le", 2, 2, "<="},
	More:     {"gt", 2, 2, ">"},
	MoreEq:   {"ge", 2, 2, ">="},
	Same:     {"eq", 2, 2, "=="},
	Differ:   {"ne", 2, 2, "!="},
	Not:      {"not", 1, 1, "!"},
	And:      {"and", 2, 2, "&&"},
	Or:       {"or", 2, 2, "||"},
	If:       {"if", 3, 3, "?"},
	Doubt:    {"doubt", 1, 1, "unconfirmed"},
	Cell:     {"cell", 1, 2, ""},
	SureCell: {"sure_cell", 1, 2, "_sure"},
	HasCell:  {"has_cell", 1, 2, "_has"},
}

// String is the operation's name.
func (o Op) String() string {
	if o >= ops {
		return "?"
	}
	return opTable[o].name
}

// Uses collects every fact that the formula reads, in use or not.
func (e *Expr) Uses() Facts {
	var s Facts
	if e == nil {
		return s
	}
	if e.Op == Read {
		s.Add(e.Fact)
	}
	for i := range e.Args {
		s = s.Union(e.Args[i].Uses())
	}
	return s
}
