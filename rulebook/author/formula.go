package author

import (
	"fmt"
	"slices"
	"strings"

	"cel.dev/cel-go/cel"
	"cel.dev/cel-go/common/ast"
	"cel.dev/cel-go/common/types"

	"swingwright/fact"
	"swingwright/job"
	"swingwright/quantity"
	"swingwright/rulebook"
)

// A complaint is what is wrong with a formula, at a place within its text.
type complaint struct {
	line, column         int // line from 1, column from 0, in characters
	found, needed, hints string
}

// compile checks a formula's text and lowers it to the rulebook's own tree. The
// result must be of kind want, or of any kind where want is nil.
func (c *checker) compile(text string, want *cel.Type) (*rulebook.Expr, []complaint) {
	parsed, issues := c.env.Parse(text)
	if issues.Err() != nil {
		return nil, c.plainWords(issues)
	}
	tree := parsed.NativeRep()
	wholeNumbersAreNumbers(tree.Expr())
	if bad := c.unknownNames(tree); len(bad) > 0 {
		return nil, bad
	}
	checked, issues := c.env.Check(parsed)
	if issues.Err() != nil {
		return nil, c.plainWords(issues)
	}
	if got := checked.OutputType(); want != nil && !got.IsExactType(want) {
		return nil, []complaint{{line: 1, found: inWords(got.String()), needed: inWords(want.String())}}
	}
	l := lowering{checker: c, tree: checked.NativeRep()}
	e := l.lower(l.tree.Expr())
	if len(l.complaints) > 0 {
		return nil, l.complaints
	}
	return &e, nil
}

// wholeNumbersAreNumbers turns 3 into 3.0: formulas know one kind of number.
func wholeNumbersAreNumbers(e ast.Expr) {
	make := ast.NewExprFactory()
	ast.PreOrderVisit(e, ast.NewExprVisitor(func(e ast.Expr) {
		if e.Kind() == ast.LiteralKind {
			if n, ok := e.AsLiteral().(types.Int); ok {
				e.SetKindCase(make.NewLiteral(e.ID(), types.Double(n)))
			}
		}
	}))
}

// unknownNames looks for facts and functions that do not exist.
func (c *checker) unknownNames(tree *ast.AST) []complaint {
	var bad []complaint
	var visit func(e ast.Expr)
	visit = func(e ast.Expr) {
		if name := dotted(e); name != "" {
			if _, ok := fact.Lookup(name); !ok {
				bad = append(bad, complaintAt(tree, first(e), "the name "+quantity.Quote(name), "the name of a fact", job.DidYouMean(name, fact.Names())))
			}
			return
		}
		switch e.Kind() {
		case ast.SelectKind:
			visit(e.AsSelect().Operand())
		case ast.CallKind:
			call := e.AsCall()
			if name := call.FunctionName(); isWord(name) && (call.IsMemberFunction() || !slices.Contains(c.functions, name)) {
				bad = append(bad, complaintAt(tree, e, "the function "+quantity.Quote(name), "a function that formulas know", job.DidYouMean(name, c.functions)))
			}
			for _, a := range call.Args() {
				visit(a)
			}
		}
	}
	visit(tree.Expr())
	return bad
}

// dotted is the whole of a name such as leaf.width, empty for anything else.
func dotted(e ast.Expr) string {
	switch e.Kind() {
	case ast.IdentKind:
		return e.AsIdent()
	case ast.SelectKind:
		if inner := dotted(e.AsSelect().Operand()); inner != "" && !e.AsSelect().IsTestOnly() {
			return inner + "." + e.AsSelect().FieldName()
		}
	}
	return ""
}

// first is the part of a dotted name that stands first.
func first(e ast.Expr) ast.Expr {
	for e.Kind() == ast.SelectKind {
		e = e.AsSelect().Operand()
	}
	return e
}

// complaintAt is a complaint about one part of the formula.
func complaintAt(tree *ast.AST, e ast.Expr, found, needed, hint string) complaint {
	at := tree.SourceInfo().GetStartLocation(e.ID())
	column := at.Column()
	if e.Kind() == ast.CallKind && isWord(e.AsCall().FunctionName()) {
		column = max(0, column-len(e.AsCall().FunctionName())) // a call is placed at its bracket
	}
	return complaint{line: at.Line(), column: column, found: found, needed: needed, hints: hint}
}

// lowering turns a checked tree into the rulebook's own.
type lowering struct {
	*checker
	tree       *ast.AST
	complaints []complaint
}

func (l *lowering) wrong(e ast.Expr, found, needed, hint string) rulebook.Expr {
	l.complaints = append(l.complaints, complaintAt(l.tree, e, found, needed, hint))
	return rulebook.Expr{}
}

func (l *lowering) lower(e ast.Expr) rulebook.Expr {
	switch e.Kind() {
	case ast.LiteralKind:
		return l.literal(e)
	case ast.IdentKind:
		if id, ok := fact.Lookup(e.AsIdent()); ok {
			f := id.Fact()
			return rulebook.Expr{Op: rulebook.Read, Fact: id, Kind: f.Kind, Dim: f.Dim}
		}
	case ast.CallKind:
		return l.call(e)
	}
	return l.wrong(e, "something that formulas do not know", "facts, numbers, operators and functions", "")
}

func (l *lowering) literal(e ast.Expr) rulebook.Expr {
	switch v := e.AsLiteral().(type) {
	case types.Double:
		return rulebook.Expr{Op: rulebook.Const, Value: float64(v)}
	case types.Bool:
		return rulebook.Expr{Op: rulebook.Const, Kind: fact.YesNo, Value: truth(bool(v))}
	}
	return l.wrong(e, fmt.Sprintf("the value %v", e.AsLiteral()), "a number, a fact or a formula", "a word in quotation marks can only stand behind == or != and a fact with choices")
}

func truth(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

func (l *lowering) call(e ast.Expr) rulebook.Expr {
	s, ok := l.signature(e)
	if !ok {
		return l.wrong(e, "a use of "+quantity.Quote(e.AsCall().FunctionName())+" that could mean several things", "one of known kind", "")
	}
	args := e.AsCall().Args()
	out := rulebook.Expr{Op: s.op, Unit: s.unit, Value: s.factor, Table: s.table}
	out.Kind, out.Dim = kindOf(l.tree.GetType(e.ID()))
	if (s.op == rulebook.Same || s.op == rulebook.Differ) && s.args[1] == word {
		out.Args = l.comparedWord(args)
		return out
	}
	for _, a := range args {
		out.Args = append(out.Args, l.lower(a))
	}
	return folded(out)
}

// signature is the one that the checker chose for a call.
func (l *lowering) signature(e ast.Expr) (signature, bool) {
	ids := l.tree.GetOverloadIDs(e.ID())
	if len(ids) != 1 {
		return signature{}, false
	}
	s, ok := l.signatures[ids[0]]
	return s, ok
}

// comparedWord lowers a choice and the word that it is compared with.
func (l *lowering) comparedWord(args []ast.Expr) []rulebook.Expr {
	left := l.lower(args[0])
	text, ok := args[1].AsLiteral().(types.String)
	if left.Op != rulebook.Read || !ok {
		l.wrong(args[1], "a comparison without a plain word", `a fact with choices, == or !=, and a word, such as opening.operation == "low-energy"`, "")
		return []rulebook.Expr{left, {}}
	}
	choices := left.Fact.Fact().Choices
	i := slices.Index(choices, string(text))
	if i < 0 {
		l.wrong(args[1], "the word "+quantity.Quote(string(text)), "one of "+strings.Join(choices, ", "), job.DidYouMean(string(text), choices))
	}
	return []rulebook.Expr{left, {Op: rulebook.Word, Kind: fact.Choice, Fact: left.Fact, Value: float64(i)}}
}

// kindOf is the kind and dimension that a checked type stands for.
func kindOf(t *cel.Type) (fact.Kind, quantity.Dimension) {
	if t.Kind() == types.BoolKind {
		return fact.YesNo, 0
	}
	if t.TypeName() == "quantity" && len(t.Parameters()) == 1 {
		name := strings.ReplaceAll(t.Parameters()[0].TypeName(), "_", " ")
		if d, ok := quantity.DimensionOf(name); ok {
			return fact.Number, d
		}
	}
	return fact.Number, quantity.DimRatio
}

// folded turns inches(36) into one constant, with the very bits that "36 in" is
// read as, so that a leaf exactly at a limit compares equal with it.
func folded(e rulebook.Expr) rulebook.Expr {
	if e.Op != rulebook.Of || e.Args[0].Op != rulebook.Const || e.Args[0].Unit != "" {
		return e
	}
	v, err := quantity.FromUnit(e.Dim, e.Args[0].Value, symbolOf(e.Unit))
	if err != nil {
		return e
	}
	return rulebook.Expr{Op: rulebook.Const, Kind: e.Kind, Dim: e.Dim, Value: v, Unit: e.String()}
}
