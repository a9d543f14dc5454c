package author

import (
	"errors"
	"fmt"
	"io/fs"
	"math"
	"slices"
	"strings"

	yaml "go.yaml.in/yaml/v4"

	"swingwright/fact"
	"swingwright/job"
	"swingwright/quantity"
	"swingwright/rulebook"
)

// A Case is what people of the trade expect of one rule for one opening.
type Case struct {
	Place  job.Place
	Name   string
	Rule   *rulebook.Rule
	Env    rulebook.Env // what is known of the opening
	Expect string       // one of Expectations
	// Limit is the expected limit in SI, NaN where the case names none.
	Limit float64
	// Within is how far from Limit the rule's may lie, in SI.
	Within      float64
	Unconfirmed bool // the limit is expected to rest on an unconfirmed part
	// Surely tells that the value is expected to keep the rule's stricter confirmed limit.
	Surely bool
	From   string // where the expected figure comes from
}

// The things that a case may expect.
const (
	Meets      = "meets"
	FallsShort = "falls short"
)

// Expectations lists what a case may expect of a rule.
func Expectations() []string {
	return []string{Meets, FallsShort, rulebook.NotApplying.String(), rulebook.MayApply.String(), rulebook.Unmeasured.String(), rulebook.Faulty.String()}
}

// LoadCases reads the cases of a book. The error is job.Problems.
func LoadCases(fsys fs.FS, name string, book *rulebook.Book) ([]Case, error) {
	r, root := open(fsys, name)
	if root == nil {
		return nil, r.err()
	}
	rec := r.record(root, "", []string{"book", "cases"}, "given")
	if text := rec.text("book"); text != "" && text != book.ID {
		rec.bad("book", "the book "+book.ID, "")
	}
	shared := rulebook.NewEnv()
	if n := rec.values["given"]; n != nil {
		r.given(n, "given", shared)
	}
	var cases []Case
	for i, n := range rec.list("cases") {
		cases = append(cases, r.oneCase(n, fmt.Sprintf("cases[%d]", i), book, slices.Clone(shared)))
	}
	if err := r.err(); err != nil {
		return nil, err
	}
	return cases, nil
}

func (r *reader) oneCase(n *yaml.Node, path string, book *rulebook.Book, env rulebook.Env) Case {
	rec := r.record(n, path, []string{"name", "rule", "expect", "from"}, "given", "limit", "within", "unconfirmed", "surely", "on")
	c := Case{
		Place: job.Place{File: r.file, Line: n.Line, Column: n.Column}, Name: rec.text("name"), Env: env,
		From: rec.text("from"), Limit: math.NaN(), Unconfirmed: rec.yes("unconfirmed"), Surely: rec.yes("surely"),
	}
	c.Expect = Expectations()[rec.word("expect", Expectations())]
	if g := rec.values["given"]; g != nil {
		r.given(g, rec.field("given"), env)
	}
	if on := rec.date("on"); on != "" && !book.InForce(on) {
		rec.bad("on", "a day on which the book holds", "")
	}
	rule, ok := book.Rule(rec.text("rule"))
	if !ok {
		if rec.values["rule"] != nil {
			rec.bad("rule", "a rule of "+book.ID, job.DidYouMean(rec.text("rule"), ruleIDs(book)))
		}
		return c
	}
	c.Rule = rule
	if text := rec.text("limit"); text != "" {
		c.Limit, _ = r.amount(rec.values["limit"], rec.field("limit"), text, rule.Dim())
		c.Within = 1e-6 * math.Abs(c.Limit)
	}
	if text := rec.text("within"); text != "" {
		c.Within, _ = r.amount(rec.values["within"], rec.field("within"), text, rule.Dim())
	}
	return c
}

func ruleIDs(book *rulebook.Book) []string {
	ids := make([]string, len(book.Rules))
	for i := range book.Rules {
		ids[i] = book.Rules[i].ID
	}
	return ids
}

// given reads what is known of an opening: facts and their values.
func (r *reader) given(n *yaml.Node, path string, env rulebook.Env) {
	if !r.isMapping(n, path) {
		return
	}
	for key, value := range pairs(n) {
		id, ok := fact.Lookup(key.Value)
		if !ok {
			r.wrong(key, path, "the name "+quantity.Quote(key.Value), "the name of a fact", job.DidYouMean(key.Value, fact.Names()))
			continue
		}
		if v, ok := r.valueOf(id, value, path+"."+key.Value); ok {
			env[id] = v
		}
	}
}

// valueOf reads one fact's value. A force with "at" and a radius stands for a
// moment: 16 lbf at 35 in.
func (r *reader) valueOf(id fact.ID, n *yaml.Node, path string) (float64, bool) {
	text := r.scalar(n, path)
	f := id.Fact()
	switch {
	case text == "unknown":
		return math.NaN(), true
	case f.Kind == fact.Number && f.Dim == quantity.DimTorque:
		return r.moment(n, path, text)
	case f.Kind == fact.Number:
		return r.amount(n, path, text, f.Dim)
	}
	words := f.Choices
	if f.Kind == fact.YesNo {
		words = []string{"no", "yes"}
	}
	i := slices.Index(words, text)
	if i < 0 {
		r.wrong(n, path, quantity.Quote(text), "one of "+listed(words), job.DidYouMean(text, words))
	}
	return float64(i), i >= 0
}

// moment reads a torque, or a force and the radius at which it acts.
func (r *reader) moment(n *yaml.Node, path, text string) (float64, bool) {
	force, radius, ok := strings.Cut(text, " at ")
	if !ok {
		return r.amount(n, path, text, quantity.DimTorque)
	}
	f, okF := r.amount(n, path, force, quantity.DimForce)
	at, okAt := r.amount(n, path, radius, quantity.DimLength)
	return f * at, okF && okAt
}

// RunCases reads and runs the cases of a book. It returns how many there were;
// the error joins those that failed, or is job.Problems where the file is not sound.
func RunCases(fsys fs.FS, name string, book *rulebook.Book) (int, error) {
	cases, err := LoadCases(fsys, name, book)
	if err != nil {
		return 0, err
	}
	var failed []error
	for _, c := range cases {
		failed = append(failed, c.Run())
	}
	return len(cases), errors.Join(failed...)
}

// Run applies the case's rule and compares the outcome with what was expected.
// The error tells the case's place and name and what came out instead.
func (c Case) Run() error {
	out := c.Rule.Check(c.Env)
	wrong := func(format string, args ...any) error {
		return fmt.Errorf("%s: %s: %s", c.Place, c.Name, fmt.Sprintf(format, args...))
	}
	show := func(v float64) string { return inBothSystems(c.Rule.Dim(), v) }
	if got := verdict(out); got != c.Expect {
		return wrong("the rule says %q, expected %q; value %v, limit %v", got, c.Expect, show(out.Value), show(out.Limit))
	}
	if !math.IsNaN(c.Limit) && !(math.Abs(out.Limit-c.Limit) <= c.Within) {
		return wrong("the limit is %v, expected %v", show(out.Limit), show(c.Limit))
	}
	if out.Unconfirmed != c.Unconfirmed {
		return wrong("the limit rests on an unconfirmed part: %v, expected %v", out.Unconfirmed, c.Unconfirmed)
	}
	if c.Surely && !(out.Sure >= 0) {
		return wrong("the value is past the stricter confirmed limit by %v, or there is none", show(-out.Sure))
	}
	return nil
}

// inBothSystems prints a value in US and in SI units.
func inBothSystems(d quantity.Dimension, v float64) string {
	known := !math.IsNaN(v)
	us, si := quantity.Display(d, v, 0, known, quantity.US), quantity.Display(d, v, 0, known, quantity.SI)
	if us == si {
		return us
	}
	return us + " (" + si + ")"
}

// verdict is an outcome in the words of Expectations.
func verdict(out rulebook.Outcome) string {
	switch {
	case out.End != rulebook.Judged:
		return out.End.String()
	case out.Margin >= 0:
		return Meets
	}
	return FallsShort
}
