package author

import (
	"fmt"
	"io/fs"
	"strings"
	"sync"

	yaml "go.yaml.in/yaml/v4"

	"swingwright/job"
	"swingwright/quantity"
	"swingwright/rulebook"
)

// collisionsFile holds the collisions among the books beside it; it is no book itself.
const collisionsFile = "collisions.yaml"

// Collisions reads the collisions among the books that come with the program.
// They are read once; callers share them and must not change them.
func Collisions() ([]rulebook.Collision, error) { return collisions() }

var collisions = sync.OnceValues(func() ([]rulebook.Collision, error) {
	books, err := Builtin()
	if err != nil {
		return nil, err
	}
	return LoadCollisions(rulebook.Builtin(), collisionsFile, books)
})

// LoadCollisions reads a file of collisions; each of their rules must be in one
// of the books. The error is job.Problems.
func LoadCollisions(fsys fs.FS, name string, books []*rulebook.Book) ([]rulebook.Collision, error) {
	r, root := open(fsys, name)
	if root == nil {
		return nil, r.err()
	}
	b := builder{reader: r}
	rec := r.record(root, "", []string{"collisions"})
	used := map[string]bool{}
	var list []rulebook.Collision
	for i, n := range rec.list("collisions") {
		path := fmt.Sprintf("collisions[%d]", i)
		c := b.collision(n, path, books)
		if c.ID != "" && used[c.ID] {
			r.wrong(n, path+".id", "the id "+quantity.Quote(c.ID)+" a second time", "an id of its own", "")
		}
		used[c.ID] = true
		list = append(list, c)
	}
	if err := r.err(); err != nil {
		return nil, err
	}
	return list, nil
}

func (b *builder) collision(n *yaml.Node, path string, books []*rulebook.Book) rulebook.Collision {
	rec := b.record(n, path, []string{"id", "title", "rules", "differs", "treatment", "source"})
	c := rulebook.Collision{ID: rec.id("id"), Title: rec.text("title"), Differs: rec.text("differs"), Treatment: rec.text("treatment")}
	if s := rec.values["source"]; s != nil {
		c.Source = b.source(s, rec.field("source"))
	}
	for i, entry := range rec.list("rules") {
		if ref, ok := b.ruleRef(entry, fmt.Sprintf("%s[%d]", rec.field("rules"), i), books); ok {
			c.Rules = append(c.Rules, ref)
		}
	}
	if at := rec.values["rules"]; at != nil && at.Kind == yaml.SequenceNode && len(at.Content) < 2 {
		rec.wrong(at, rec.field("rules"), fmt.Sprint(len(at.Content)), "two rules or more", "it takes two to collide")
	}
	return c
}

// ruleRef reads the name of a rule: its book, a space and its id.
func (b *builder) ruleRef(n *yaml.Node, path string, books []*rulebook.Book) (rulebook.RuleRef, bool) {
	text := b.scalar(n, path)
	id, rule, _ := strings.Cut(text, " ")
	ref := rulebook.RuleRef{Book: id, Rule: rule}
	var ids []string
	for _, book := range books {
		if book.ID != id {
			ids = append(ids, book.ID)
			continue
		}
		if _, ok := book.Rule(rule); ok {
			return ref, true
		}
		b.wrong(n, path, quantity.Quote(text), "a book and one of its rules, such as ada-2010 closer-sweep", job.DidYouMean(rule, ruleIDs(book)))
		return ref, false
	}
	b.wrong(n, path, quantity.Quote(text), "a book and one of its rules, such as ada-2010 closer-sweep", job.DidYouMean(id, ids))
	return ref, false
}
