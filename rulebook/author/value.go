package author

import (
	"strings"
	"unicode/utf8"

	"cel.dev/cel-go/cel"
	yaml "go.yaml.in/yaml/v4"

	"swingwright/fact"
	"swingwright/job"
	"swingwright/quantity"
	"swingwright/rulebook"
)

// formula reads a key's value as a number of dimension d: a quantity as people
// write it, such as 67 N, or a formula. It is nil where the key is missing or wrong.
func (b *builder) formula(rec record, key string, d quantity.Dimension) *rulebook.Expr {
	text := rec.text(key)
	if text == "" {
		return nil
	}
	if !looksLikeFormula(text) {
		return rec.constant(key, text, d)
	}
	return b.compiled(rec, key, text, quantityOf(d))
}

// statement reads a key's value as something true or false.
func (b *builder) statement(rec record, key string) *rulebook.Expr {
	text := rec.text(key)
	if text == "" {
		return nil
	}
	return b.compiled(rec, key, text, yesNo)
}

func (b *builder) compiled(rec record, key, text string, want *cel.Type) *rulebook.Expr {
	if utf8.RuneCountInString(text) > mostRunes {
		rec.wrong(rec.values[key], rec.field(key), "too long a formula", "at most 1000 characters", "split the rule in two")
		return nil
	}
	if e := b.known[compiledAs{text, want}]; e != nil {
		return e
	}
	e, complaints := b.checker.compile(text, want)
	for _, c := range complaints {
		line, column := b.placeIn(rec.values[key], c.line, c.column)
		b.wrongAt(line, column, rec.field(key), c.found, c.needed, c.hints)
	}
	if len(complaints) > 0 {
		return nil
	}
	b.known[compiledAs{text, want}] = e
	return e
}

// compiledAs is a formula's text and the kind of value wanted of it. Many rules
// of a book have the same condition; it is compiled once.
type compiledAs struct {
	text string
	want *cel.Type
}

// looksLikeFormula tells formulas from quantities: a formula has a bracket, an operator that no
// quantity has, or the name of a fact.
func looksLikeFormula(text string) bool {
	if strings.ContainsAny(text, "*<>=&|?[{!") {
		return true
	}
	if before, _, ok := strings.Cut(text, "("); ok && before != "" {
		return true
	}
	for word := range strings.FieldsSeq(text) {
		group, _, ok := strings.Cut(word, ".")
		if ok && factGroups[group] {
			return true
		}
	}
	return false
}

// factGroups are the parts of the facts' names before the dot.
var factGroups = func() map[string]bool {
	groups := map[string]bool{}
	for i := range fact.Table {
		group, _, _ := strings.Cut(fact.Table[i].Name, ".")
		groups[group] = true
	}
	return groups
}()

// constant reads a quantity of dimension d.
func (rec record) constant(key, text string, d quantity.Dimension) *rulebook.Expr {
	v, ok := rec.amount(rec.values[key], rec.field(key), text, d)
	if !ok {
		return nil
	}
	e := &rulebook.Expr{Op: rulebook.Const, Dim: d, Value: v}
	if d != quantity.DimRatio {
		e.Unit = text
	}
	return e
}

// amount reads a quantity without spread, in SI.
func (r *reader) amount(n *yaml.Node, field, text string, d quantity.Dimension) (float64, bool) {
	v, _, spread, err := quantity.ParseAs(d, text)
	switch {
	case err != nil:
		r.wrong(n, field, quantity.Quote(text), job.Article(d.String())+", as a quantity or a formula", quantity.Reason(err))
		return 0, false
	case spread:
		r.wrong(n, field, quantity.Quote(text), "a quantity without a spread", "a limit is exact; spreads belong to what is measured")
		return 0, false
	}
	return v, true
}

// placeIn maps a place in a formula (line from 1, column from 0, in characters)
// to its place in the file; the formula's start where YAML's writing hides it.
func (r *reader) placeIn(n *yaml.Node, line, column int) (fileLine, fileColumn int) {
	switch {
	case n.Style&yaml.LiteralStyle != 0 && n.Line+line <= len(r.lines):
		return n.Line + line, indent(r.lines[n.Line+line-1]) + column + 1
	case n.Style&yaml.FoldedStyle != 0 && line == 1:
		return r.placeInFolded(n, column)
	}
	start := n.Column
	if n.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) != 0 {
		start++
	}
	if n.Line <= len(r.lines) && line == 1 {
		text := []rune(r.lines[n.Line-1])
		if start-1 <= len(text) && strings.HasPrefix(string(text[start-1:]), n.Value) {
			return n.Line, start + column
		}
	}
	return n.Line, n.Column
}

// placeInFolded finds a column of a text whose lines YAML joined with a space each.
func (r *reader) placeInFolded(n *yaml.Node, column int) (fileLine, fileColumn int) {
	for at := n.Line + 1; at <= len(r.lines); at++ {
		text := r.lines[at-1]
		length := utf8.RuneCountInString(strings.TrimSpace(text))
		if length == 0 {
			break
		}
		if column <= length {
			return at, indent(text) + column + 1
		}
		column -= length + 1
	}
	return n.Line, n.Column
}

// indent is how many spaces a line begins with.
func indent(line string) int { return len(line) - len(strings.TrimLeft(line, " ")) }
