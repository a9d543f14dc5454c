package author

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"swingwright/rulebook"
)

// withFormula is a book of one rule with the condition.
func withFormula(when string) string {
	return fmt.Sprintf(`book: b
work: w
edition: '1'
title: t
rules:
  - id: r
    title: t
    of: closing.time_90_to_10
    at_least: 3 s
    when: %q
    source: {clause: '1', confidence: from memory}
`, when)
}

func loadText(text string) (*rulebook.Book, error) {
	return Load(fstest.MapFS{"b.yaml": &fstest.MapFile{Data: []byte(text)}}, "b.yaml")
}

// A file that is meant to hold the program up is refused with a place, not
// worked through.
func TestHostileFiles(t *testing.T) {
	bombs := map[string]string{
		"long formula":      withFormula("opening.interior" + strings.Repeat(" && opening.interior", 100000)[:900000]),
		"deep brackets":     withFormula(strings.Repeat("(", 400) + "opening.interior" + strings.Repeat(")", 400)),
		"deep choice":       withFormula(strings.Repeat("opening.interior?", 50) + "true" + strings.Repeat(":true", 50)),
		"loops":             withFormula("[1,2].map(x, [1,2].map(y, x*y)).size() > 3"),
		"many parts":        withFormula("0<" + strings.Repeat("1+", 490) + "1"),
		"deep yaml":         strings.Repeat("[", 20000),
		"alias bomb":        "a: &a [x,x,x,x,x,x,x,x]\nb: &b [*a,*a,*a,*a,*a,*a,*a,*a]\nc: &c [*b,*b,*b,*b,*b,*b,*b,*b]\nrules: *c\n",
		"endless alias":     "rules: &a [*a]\n",
		"merge key":         "<<: &a {book: b}\nrules: []\n",
		"large file":        "#" + strings.Repeat("x", mostBytes),
		"nothing":           "",
		"only comments":     "# book: b\n",
		"zero bytes":        "book: \x00\n",
		"not text":          "book: \xff\xfe\n",
		"two documents":     "book: b\n---\nbook: c\n",
		"many problems":     "rules:\n" + strings.Repeat("  - {}\n", 1500),
		"too many rules":    "rules:\n" + strings.Repeat("  - {}\n", 2500),
		"not a number":      withFormula("1.0/0.0 > 1e999"),
		"reserved words":    withFormula("for && while"),
		"a name too long":   withFormula(strings.Repeat("a", 900)),
		"infinite quantity": strings.Replace(withFormula("true"), "3 s", "1e999 s", 1),
	}
	for name, text := range bombs {
		book, err := loadText(text)
		switch {
		case err == nil || book != nil:
			t.Errorf("%s: accepted", name)
		case !strings.HasPrefix(err.Error(), "b.yaml"):
			t.Errorf("%s: no place in %q", name, err)
		case len(err.Error()) > 200_000:
			t.Errorf("%s: %d bytes of problems", name, len(err.Error()))
		}
	}
}

func TestMissingFile(t *testing.T) {
	_, err := Load(fstest.MapFS{}, "house.yaml")
	if err == nil || !strings.Contains(err.Error(), "no such file") {
		t.Errorf("got %v", err)
	}
}

// A book as written on another system is read as well.
func TestByteOrderMarkAndLineEnds(t *testing.T) {
	text := "\xef\xbb\xbf" + strings.ReplaceAll(withFormula("opening.egress"), "\n", "\r\n")
	if _, err := loadText(text); err != nil {
		t.Error(err)
	}
}

// The empty list of rules is a book too, for one who begins.
func TestNoRulesYet(t *testing.T) {
	if _, err := loadText("book: b\nwork: w\nedition: '1'\ntitle: t\nrules: []\n"); err != nil {
		t.Error(err)
	}
}

func FuzzLoad(f *testing.F) {
	names, err := fs.Glob(rulebook.Builtin(), "*.yaml")
	if err != nil {
		f.Fatal(err)
	}
	for _, name := range names {
		text, err := fs.ReadFile(rulebook.Builtin(), name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text[:min(len(text), 3000)]))
	}
	f.Add(withFormula("leaf.width > inches(36)"))
	f.Add("tables: {a: {unit: s, rows: {name: n, at: [1, 2], pick: exact}, cells: [none, 2]}}")
	f.Fuzz(func(t *testing.T, text string) {
		book, err := loadText(text)
		if (book == nil) != (err != nil) {
			t.Fatalf("book %v and error %v", book, err)
		}
		if book == nil {
			return
		}
		for i := range book.Rules {
			book.Rules[i].Check(rulebook.NewEnv())
			if book.Rules[i].Source.Clause == "" {
				t.Fatal("a rule without a clause was accepted")
			}
		}
	})
}

func FuzzFormula(f *testing.F) {
	all, err := Builtin()
	if err != nil {
		f.Fatal(err)
	}
	for _, b := range all {
		for i := range b.Rules {
			for _, e := range []*rulebook.Expr{b.Rules[i].Limit, b.Rules[i].When} {
				f.Add(e.String())
			}
		}
	}
	c, err := plainChecker()
	if err != nil {
		f.Fatal(err)
	}
	o := newOracle(f, nil)
	f.Fuzz(func(t *testing.T, text string) {
		e, complaints := c.compile(text, nil)
		if (e == nil) == (len(complaints) == 0) {
			t.Fatalf("formula %v and complaints %v", e, complaints)
		}
		if len(complaints) > 0 {
			return
		}
		env := rulebook.NewEnv()
		got, info := rulebook.Eval(e, env)
		want, state := run(t, o.program(t, text), e.Uses(), env)
		if !agree(got, want) || !alike(info, state, env) {
			t.Fatalf("%s = %v (%v), the language says %v (%v)", text, got, info.State, want, state)
		}
	})
}

// A server reads books for many people at once; the race detector watches here.
func TestBooksAreReadTogether(t *testing.T) {
	for _, id := range BuiltinIDs() {
		t.Run(id, func(t *testing.T) {
			t.Parallel()
			if _, err := BuiltinBook(id); err != nil {
				t.Error(err)
			}
		})
	}
}
