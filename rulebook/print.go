package rulebook

import (
	"strconv"
	"strings"

	"swingwright/fact"
)

// How tightly the signs bind, loosest first.
const (
	bindIf = iota
	bindOr
	bindAnd
	bindCompare
	bindAdd
	bindMul
	bindUnary
	bindAtom
)

// String writes the formula as books do.
func (e *Expr) String() string {
	if e == nil {
		return ""
	}
	var b strings.Builder
	e.write(&b, bindIf)
	return b.String()
}

// binding is how tightly the formula's outermost operation binds.
func (e *Expr) binding() int {
	switch e.Op {
	case If:
		return bindIf
	case Or:
		return bindOr
	case And:
		return bindAnd
	case Less, LessEq, More, MoreEq, Same, Differ:
		return bindCompare
	case Add, Sub:
		return bindAdd
	case Mul, Div:
		return bindMul
	case Neg, Not:
		return bindUnary
	case Const:
		if e.Value < 0 && e.Unit == "" {
			return bindUnary
		}
	}
	return bindAtom
}

// write puts the formula in brackets where its place binds tighter than it does.
func (e *Expr) write(b *strings.Builder, place int) {
	own := e.binding()
	if own < place {
		b.WriteByte('(')
		defer b.WriteByte(')')
	}
	switch {
	case e.Op == If:
		e.Args[0].write(b, bindOr)
		b.WriteString(" ? ")
		e.Args[1].write(b, bindOr)
		b.WriteString(" : ")
		e.Args[2].write(b, bindIf)
	case e.Op == Neg || e.Op == Not:
		b.WriteString(opTable[e.Op].sign)
		e.Args[0].write(b, bindUnary+1)
	case own < bindUnary:
		e.Args[0].write(b, own)
		b.WriteString(" " + opTable[e.Op].sign + " ")
		if e.Op != And && e.Op != Or { // a chain of these means the same however it is bracketed
			own++
		}
		e.Args[1].write(b, own)
	default:
		e.writeAtom(b)
	}
}

func (e *Expr) writeAtom(b *strings.Builder) {
	switch e.Op {
	case Const:
		b.WriteString(e.constant())
		return
	case Read:
		b.WriteString(e.Fact.String())
		return
	case Word:
		b.WriteString(strconv.Quote(e.word()))
		return
	}
	b.WriteString(e.function())
	b.WriteByte('(')
	for i := range e.Args {
		if i > 0 {
			b.WriteString(", ")
		}
		e.Args[i].write(b, bindIf)
	}
	b.WriteByte(')')
}

// constant is a number, yes or no, or a quantity as its author wrote it.
func (e *Expr) constant() string {
	switch {
	case e.Unit != "":
		return e.Unit
	case e.Kind == fact.YesNo:
		return strconv.FormatBool(e.Value != 0)
	}
	return strconv.FormatFloat(e.Value, 'g', -1, 64)
}

// word is the choice that a Word stands for.
func (e *Expr) word() string {
	return nameOf(e.Fact.Fact().Choices, int(e.Value))
}

// function is the name of a call.
func (e *Expr) function() string {
	sign := opTable[e.Op].sign
	switch {
	case e.Table != nil:
		return e.Table.ID + sign
	case e.Unit != "":
		return sign + e.Unit
	}
	return sign
}
