package author

import (
	"fmt"
	"sync"

	"cel.dev/cel-go/cel"

	"swingwright/fact"
	"swingwright/rulebook"
)

// Limits on one formula. The longest in the books that come with the program has about 240 characters.
const (
	mostRunes   = 1000
	mostDepth   = 40
	mostNodes   = 300
	mostRepairs = 5 // syntax errors of one formula that are told
)

// A checker checks formulas: the facts and functions that they may name.
type checker struct {
	env        *cel.Env
	signatures map[string]signature // by overload
	functions  []string             // that may be called by name
}

// plainChecker knows facts and functions, but no tables.
var plainChecker = sync.OnceValues(func() (*checker, error) {
	c := &checker{signatures: map[string]signature{}}
	options := []cel.EnvOption{
		cel.ParserExpressionSizeLimit(mostRunes),
		cel.ParserRecursionLimit(mostDepth),
		cel.ParserErrorRecoveryLimit(mostRepairs),
		cel.ExpressionNodeLimit(mostNodes),
	}
	for i := range fact.Table {
		options = append(options, cel.Variable(fact.Table[i].Name, typeOf(&fact.Table[i])))
	}
	return c, c.build(cel.NewCustomEnv, append(options, c.declare(languageSignatures())...))
})

// withTables is a checker that also knows the tables' functions.
func (c *checker) withTables(tables []*rulebook.Table) (*checker, error) {
	if len(tables) == 0 {
		return c, nil
	}
	d := &checker{signatures: make(map[string]signature, len(c.signatures)+3*len(tables))}
	for id, s := range c.signatures {
		d.signatures[id] = s
	}
	d.functions = append(d.functions, c.functions...)
	var own []signature
	for _, t := range tables {
		own = append(own, ofTable(t)...)
	}
	return d, d.build(c.env.Extend, d.declare(own))
}

func (c *checker) build(from func(...cel.EnvOption) (*cel.Env, error), options []cel.EnvOption) error {
	env, err := from(options...)
	c.env = env
	return err
}

// declare makes the signatures known and returns the options that declare them.
func (c *checker) declare(list []signature) []cel.EnvOption {
	overloads := map[string][]cel.FunctionOpt{}
	var names []string
	for _, s := range list {
		if overloads[s.function] == nil {
			names = append(names, s.function)
		}
		id := overload(s.function, len(overloads[s.function]))
		overloads[s.function] = append(overloads[s.function], cel.Overload(id, s.args, s.result))
		c.signatures[id] = s
	}
	options := make([]cel.EnvOption, len(names))
	for i, name := range names {
		options[i] = cel.Function(name, overloads[name]...)
		if isWord(name) {
			c.functions = append(c.functions, name)
		}
	}
	return options
}

// overload names the nth signature of a function.
func overload(function string, n int) string { return fmt.Sprintf("%s/%d", function, n) }

// isWord tells names that people can write from the names of operators.
func isWord(name string) bool {
	return name != "" && name[0] >= 'a' && name[0] <= 'z'
}
