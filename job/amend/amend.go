package amend

import (
	"cmp"
	"errors"
	"slices"
	"strings"

	yaml "go.yaml.in/yaml/v4"
)

// A Change gives the field at a path, such as leaf.width, a value, or appends one to
// the list there. Records and lists on the way that are not there are made.
type Change struct {
	Path  string
	Value string // YAML as it stands under the field, or nothing to leave it blank
	Add   bool
}

// Set gives the field at a path a value. The text is that of a whole file or of one
// opening.
func Set(text, path, value string) (Splice, error) { return one(text, Change{path, value, false}) }

// Add appends an item to the list at a path, such as readings.
func Add(text, path, item string) (Splice, error) { return one(text, Change{path, item, true}) }

func one(text string, c Change) (Splice, error) {
	w, err := wishOf([]Change{c}, false)
	if err != nil {
		return Splice{}, err
	}
	return between(text, w)
}

// Remove takes out the item of a list at a path such as readings[2].
func Remove(text, path string) (Splice, error) {
	way, err := steps(path)
	if err != nil {
		return Splice{}, err
	}
	w := new(wish)
	w.along(way, path).gone = true
	return between(text, w)
}

// between is the splice that makes a wish come true, if need be of the whole text.
func between(text string, w *wish) (Splice, error) {
	after, err := amend(text, w, true)
	if err != nil {
		return Splice{}, err
	}
	return Between(text, after), nil
}

// Fill makes many changes at once, and none that would take the place of anything: a
// field that says something already is an error, as is a text in which there is no room
// for a value without moving others. Errors are told all together.
func Fill(text string, changes []Change) (string, error) {
	w, err := wishOf(changes, true)
	if err != nil {
		return "", err
	}
	return amend(text, w, false)
}

// amend tries the texts that come into question until one says what is wished and
// nothing else; the last resort, if allowed, is to lay the whole text out anew.
func amend(text string, w *wish, anew bool) (string, error) {
	p, err := read(text)
	if err != nil {
		return "", err
	}
	if p.root == nil {
		return "", errors.New("the text holds no fields")
	}
	wanted, err := w.on(p.root)
	if err != nil {
		return "", err
	}
	for _, loose := range []bool{false, true} { // as comments usually stand, and as they may stand
		if after, ok := spliced(text, p.grant(p.whole(loose), w)); ok && p.says(after, wanted) {
			return after, nil
		}
	}
	if after := p.anew(wanted); anew && p.says(after, wanted) {
		return after, nil
	}
	return "", errors.New("no way was found to write down what was wished")
}

// says tells that a text says what is wanted, and is of the same kind.
func (p *page) says(text string, wanted *yaml.Node) bool {
	got, err := read(text)
	return err == nil && got.root != nil && got.item == p.item && same(got.root, wanted)
}

// spliced is a text with splices that were all made for it, unless they overlap. Of
// those at one byte the first comes first.
func spliced(text string, splices []Splice) (string, bool) {
	slices.SortStableFunc(splices, func(a, b Splice) int { return cmp.Compare(a.At, b.At) })
	var b strings.Builder
	last := 0
	for _, s := range splices {
		if s.At < last {
			return "", false
		}
		b.WriteString(text[last:s.At] + s.Put)
		last = s.At + len(s.Cut)
	}
	b.WriteString(text[last:])
	return b.String(), true
}

// Get is the value at a path, on one line, and whether there is one that is not blank.
func Get(text, path string) (string, bool) {
	p, err := read(text)
	if err != nil {
		return "", false
	}
	n := p.find(path)
	if n == nil {
		return "", false
	}
	return inline(n), !blank(n)
}

// Plain are the texts of the scalars at some paths, as a person wrote them; empty
// where there is none.
func Plain(text string, paths ...string) []string {
	plain := make([]string, len(paths))
	p, err := read(text)
	for i, path := range paths {
		if err != nil {
			break
		}
		if n := p.find(path); n != nil && n.Kind == yaml.ScalarNode && !blank(n) {
			plain[i] = n.Value
		}
	}
	return plain
}

// find is the value at a path, nil where there is none.
func (p *page) find(path string) *yaml.Node {
	way, err := steps(path)
	n := p.root
	if err != nil {
		return nil
	}
	for _, s := range way {
		if n == nil {
			return nil
		}
		n = s.down(n)
	}
	return n
}

// anew is the whole text laid out again, without its comments.
func (p *page) anew(root *yaml.Node) string {
	if !p.item {
		return block(root, 0, p.end) + p.end
	}
	hyphen := max(p.indent-2, 0)
	return strings.Repeat(" ", hyphen) + "- " + block(root, hyphen+2, p.end) + p.end
}

// same compares values as a job file reads them: the text of scalars, and blanks.
func same(a, b *yaml.Node) bool {
	if a.Kind != b.Kind || len(a.Content) != len(b.Content) || blank(a) != blank(b) || a.Kind == yaml.ScalarNode && !blank(a) && a.Value != b.Value {
		return false
	}
	for i := range a.Content {
		other := b.Content[i]
		if a.Kind == yaml.MappingNode { // the order of keys means nothing
			at := child(b, a.Content[i&^1].Value)
			if at < 0 {
				return false
			}
			other = b.Content[at+i&1]
		}
		if !same(a.Content[i], other) {
			return false
		}
	}
	return true
}
