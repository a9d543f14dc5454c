// Package author reads rulebooks as people write them: YAML files whose limits
// are quantities or formulas. It checks types and dimensions, bounds the cost,
// and lowers every formula to the small tree of package rulebook, which runs
// where this package is too large to go. It also runs the cases that stand
// beside a book. docs/rulebook.md describes the format.
package author

import (
	"fmt"
	"io/fs"
	"regexp"
	"slices"

	yaml "go.yaml.in/yaml/v4"

	"swingwright/fact"
	"swingwright/job"
	"swingwright/quantity"
	"swingwright/rulebook"
)

// Load reads the book in the named file. The error is job.Problems: every
// problem that was found, each with its place, what stands there, what is needed and
// how to mend it.
func Load(fsys fs.FS, name string) (*rulebook.Book, error) {
	r, root := open(fsys, name)
	if root == nil {
		return nil, r.err()
	}
	plain, err := plainChecker()
	if err != nil {
		return nil, fmt.Errorf("the language of formulas is broken: %w", err)
	}
	b := builder{reader: r, checker: plain, known: map[compiledAs]*rulebook.Expr{}}
	book := b.book(root)
	if err := r.err(); err != nil {
		return nil, err
	}
	return book, nil
}

// builder makes a book from a file's nodes.
type builder struct {
	*reader
	checker *checker
	known   map[compiledAs]*rulebook.Expr
}

func (b *builder) book(root *yaml.Node) *rulebook.Book {
	rec := b.record(root, "", []string{"book", "work", "edition", "title", "rules"}, "place", "from", "until", "note", "tables")
	book := &rulebook.Book{
		ID: rec.id("book"), Work: rec.text("work"), Edition: rec.text("edition"), Title: rec.text("title"),
		Place: rec.text("place"), From: rec.date("from"), Until: rec.date("until"), Note: rec.text("note"),
	}
	for _, key := range []string{"work", "edition", "title"} {
		if n := rec.values[key]; n != nil && rec.text(key) == "" {
			rec.wrong(n, key, "", rec.want(key), "")
		}
	}
	book.Tables = b.tables(rec)
	var err error
	if b.checker, err = b.checker.withTables(book.Tables); err != nil {
		b.wrong(root, "tables", err.Error(), "tables whose names nothing else has", "rename the table")
		return book
	}
	used := map[string]bool{}
	for i, n := range rec.list("rules") {
		rule := b.rule(n, fmt.Sprintf("rules[%d]", i))
		if rule.ID != "" && used[rule.ID] {
			b.wrong(n, fmt.Sprintf("rules[%d].id", i), "the id "+quantity.Quote(rule.ID)+" a second time", "an id of its own", "")
		}
		used[rule.ID] = true
		book.Rules = append(book.Rules, rule)
	}
	return book
}

var idPattern = regexp.MustCompile(`^[a-z0-9][a-z0-9.-]{0,59}$`)

// id is a name by which other files refer to the record.
func (rec record) id(key string) string {
	text := rec.text(key)
	if rec.values[key] != nil && !idPattern.MatchString(text) {
		rec.bad(key, "small letters, digits, dots and hyphens", "")
	}
	return text
}

func (rec record) date(key string) rulebook.Date {
	text := rec.text(key)
	if text == "" {
		return ""
	}
	d, err := rulebook.ParseDate(text)
	if err != nil {
		rec.bad(key, "a date such as 2026-11-25, or 2026 where no more is known", "")
	}
	return d
}

// fact is the fact that a key names.
func (rec record) fact(key string) (fact.ID, bool) {
	text := rec.text(key)
	if text == "" {
		return 0, false
	}
	id, ok := fact.Lookup(text)
	if !ok {
		rec.bad(key, "the name of a fact", job.DidYouMean(text, fact.Names()))
	}
	return id, ok
}

// word is the place of a key's value in a list of words.
func (rec record) word(key string, words []string) int {
	text := rec.text(key)
	i := slices.Index(words, text)
	if i < 0 && text != "" {
		rec.bad(key, "one of "+listed(words), job.DidYouMean(text, words))
	}
	return max(0, i)
}
