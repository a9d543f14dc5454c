package rulebook

import (
	"fmt"

	"swingwright/fact"
	"swingwright/quantity"
)

// exprForm is the JSON form of a formula.
type exprForm struct {
	Op    string     `json:"op"`
	Kind  string     `json:"kind,omitempty"` // empty for a number
	Dim   string     `json:"dim,omitempty"`  // empty for a ratio
	Value float64    `json:"value,omitempty"`
	Fact  string     `json:"fact,omitempty"`
	Unit  string     `json:"unit,omitempty"`
	Table string     `json:"table,omitempty"`
	Args  []exprForm `json:"args,omitempty"`
}

// mostParts bounds a formula read from JSON; package author allows fewer.
const mostParts = 1000

var kindNames = map[fact.Kind]string{fact.YesNo: "yes or no", fact.Choice: "choice"}

func (e *Expr) form() *exprForm {
	if e == nil {
		return nil
	}
	f := &exprForm{Op: e.Op.String(), Kind: kindNames[e.Kind], Value: e.Value, Unit: e.Unit}
	if e.Dim != quantity.DimRatio {
		f.Dim = e.Dim.String()
	}
	if e.Op == Read || e.Op == Word {
		f.Fact = e.Fact.String()
	}
	if e.Table != nil {
		f.Table = e.Table.ID
	}
	for i := range e.Args {
		f.Args = append(f.Args, *e.Args[i].form())
	}
	return f
}

// whole reads a formula; nil stays nil.
func (f *exprForm) whole(b *Book) (*Expr, error) {
	if f == nil {
		return nil, nil
	}
	parts := 0
	e, err := f.expr(b, &parts)
	if err != nil {
		return nil, err
	}
	return &e, nil
}

func (f *exprForm) expr(b *Book, parts *int) (Expr, error) {
	if *parts++; *parts > mostParts {
		return Expr{}, fmt.Errorf("found a formula of more than %d parts, needed a shorter one", mostParts)
	}
	e := Expr{Value: f.Value, Unit: f.Unit}
	if err := f.nature(&e); err != nil {
		return e, err
	}
	if err := f.references(&e, b); err != nil {
		return e, err
	}
	for i := range f.Args {
		a, err := f.Args[i].expr(b, parts)
		if err != nil {
			return e, err
		}
		e.Args = append(e.Args, a)
	}
	return e, nil
}

// nature reads operation, kind and dimension.
func (f *exprForm) nature(e *Expr) error {
	for e.Op = 0; e.Op < ops && opTable[e.Op].name != f.Op; e.Op++ {
	}
	if e.Op == ops {
		return fmt.Errorf("found the operation %q, needed one of this program's", f.Op)
	}
	if n, o := len(f.Args), opTable[e.Op]; n < o.least || n > o.most {
		return fmt.Errorf("found %s with %d arguments, needed %d to %d", f.Op, n, o.least, o.most)
	}
	for kind, name := range kindNames {
		if f.Kind == name {
			e.Kind = kind
		}
	}
	if f.Kind != kindNames[e.Kind] {
		return fmt.Errorf("found the kind %q, needed yes or no, choice, or none for a number", f.Kind)
	}
	if f.Dim == "" {
		return nil
	}
	var err error
	e.Dim, err = dimension(f.Dim)
	return err
}

// references finds the fact and the table that the operation names.
func (f *exprForm) references(e *Expr, b *Book) error {
	var ok bool
	switch e.Op {
	case Read, Word:
		if e.Fact, ok = fact.Lookup(f.Fact); !ok {
			return fmt.Errorf("found the fact %q, needed one of this program's facts", f.Fact)
		}
		if n := len(e.Fact.Fact().Choices); e.Op == Word && !(f.Value >= 0 && f.Value < float64(n)) {
			return fmt.Errorf("found choice %v of %s, needed 0 to %d", f.Value, f.Fact, n-1)
		}
	case Cell, SureCell, HasCell:
		if e.Table, ok = b.Table(f.Table); !ok {
			return fmt.Errorf("found the table %q, needed one of the book's", f.Table)
		}
		if e.Table.Keys() != len(f.Args) {
			return fmt.Errorf("found %d keys for the table %q, needed %d", len(f.Args), f.Table, e.Table.Keys())
		}
	}
	return nil
}
