package swingwright

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"swingwright/fact"
	"swingwright/quantity"
	"swingwright/swing"
)

var update = flag.Bool("update", false, "write the tables of GLOSSARY.md anew")

// The tables of the glossary are those of the code.
func TestGlossary(t *testing.T) {
	was, err := os.ReadFile("GLOSSARY.md")
	if err != nil {
		t.Fatal(err)
	}
	now := part(t, part(t, string(was), "symbols", symbols()), "facts", facts())
	switch {
	case now == string(was):
	case *update:
		if err := os.WriteFile("GLOSSARY.md", []byte(now), 0o666); err != nil {
			t.Fatal(err)
		}
	default:
		t.Error("the tables of GLOSSARY.md are stale: go test -run Glossary . -update")
	}
}

// part puts a table between its two marks.
func part(t *testing.T, page, name, table string) string {
	t.Helper()
	before, rest, ok := strings.Cut(page, "<!-- "+name+": written by a test -->\n")
	_, after, closed := strings.Cut(rest, "<!-- end -->")
	if !ok || !closed {
		t.Fatalf("GLOSSARY.md has lost the marks around its table of %s", name)
	}
	return before + "<!-- " + name + ": written by a test -->\n" + table + "<!-- end -->" + after
}

func symbols() string {
	var b strings.Builder
	b.WriteString("| symbol | key in JSON | unit | meaning |\n| --- | --- | --- | --- |\n")
	for _, s := range swing.Symbols {
		fmt.Fprintf(&b, "| %s | `%s` | %s | %s |\n", s.Symbol, s.Key, quantity.SIUnit(s.Dim), s.Meaning)
	}
	return b.String()
}

func facts() string {
	var b strings.Builder
	b.WriteString("| fact | value | meaning | how it is got |\n| --- | --- | --- | --- |\n")
	for _, f := range fact.Table {
		fmt.Fprintf(&b, "| `%s` | %s | %s | %s |\n", f.Name, kind(&f), f.Meaning, f.Got)
	}
	return b.String()
}

// kind is what sort of value a fact has: its SI unit, yes or no, or its choices.
func kind(f *fact.Fact) string {
	switch f.Kind {
	case fact.YesNo:
		return "yes or no"
	case fact.Choice:
		return strings.Join(f.Choices, ", ")
	}
	if unit := quantity.SIUnit(f.Dim); unit != "" {
		return unit
	}
	return "number"
}

// Links of the pages lead somewhere.
func TestLinks(t *testing.T) {
	pages, err := filepath.Glob("*.md")
	if err != nil {
		t.Fatal(err)
	}
	docs, err := filepath.Glob("docs/*.md")
	if err != nil {
		t.Fatal(err)
	}
	link := regexp.MustCompile(`\]\(([^)#:]+)(#[^)]*)?\)`)
	for _, page := range append(pages, docs...) {
		text, err := os.ReadFile(page)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range link.FindAllStringSubmatch(string(text), -1) {
			if _, err := os.Stat(filepath.Join(filepath.Dir(page), m[1])); err != nil {
				t.Errorf("%s links to %s, which is not there", page, m[1])
			}
		}
	}
}
