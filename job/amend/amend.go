package amend

import (
	"errors"
	"fmt"
	"strings"

	yaml "go.yaml.in/yaml/v4"
)

// Set gives the field at a path, such as leaf.width, a value: YAML as it stands
// under the field, or nothing to leave it blank. Records on the way that are not there
// are made. The text is that of a whole file or of one opening.
func Set(text, path, value string) (Splice, error) {
	v, err := valueOf(value)
	if err != nil {
		return Splice{}, err
	}
	return amend(text, path, func(root *yaml.Node, way []step) error { return put(root, way, v) }, func(p *page, way []step) []string { return p.set(way, v) })
}

// Add appends an item to the list at a path, such as readings, and makes the list
// where there is none.
func Add(text, path, item string) (Splice, error) {
	v, err := valueOf(item)
	if err != nil {
		return Splice{}, err
	}
	if blank(v) {
		return Splice{}, errors.New("an item of a list cannot be blank")
	}
	return amend(text, path, func(root *yaml.Node, way []step) error { return push(root, way, v) }, func(p *page, way []step) []string { return p.add(way, v) })
}

// Remove takes out the item of a list at a path such as readings[2].
func Remove(text, path string) (Splice, error) {
	return amend(text, path, drop, (*page).remove)
}

// Get is the value at a path, on one line, and whether there is one that is not blank.
func Get(text, path string) (string, bool) {
	p, err := read(text)
	way, wrong := steps(path)
	if err != nil || wrong != nil || p.root == nil {
		return "", false
	}
	n := p.root
	for _, s := range way {
		if n = down(n, s); n == nil {
			return "", false
		}
	}
	return inline(n), !blank(n)
}

// Plain are the texts of the scalars at some paths, as a person wrote them; empty
// where there is none.
func Plain(text string, paths ...string) []string {
	plain := make([]string, len(paths))
	p, err := read(text)
	if err != nil || p.root == nil {
		return plain
	}
	for i, path := range paths {
		way, err := steps(path)
		n := p.root
		for _, s := range way {
			if n != nil {
				n = down(n, s)
			}
		}
		if err == nil && n != nil && n.Kind == yaml.ScalarNode && !blank(n) {
			plain[i] = n.Value
		}
	}
	return plain
}

// amend tries the texts that come into question until one says what is wanted and
// nothing else; the last resort is to lay the whole text out anew.
func amend(text, path string, want func(*yaml.Node, []step) error, try func(*page, []step) []string) (Splice, error) {
	way, err := steps(path)
	if err != nil {
		return Splice{}, err
	}
	p, err := read(text)
	if err != nil {
		return Splice{}, err
	}
	if p.root == nil {
		return Splice{}, errors.New("the text holds no fields")
	}
	wanted := clone(p.root)
	if err := want(wanted, way); err != nil {
		return Splice{}, fmt.Errorf("%s: %w", path, err)
	}
	for _, tried := range append(try(p, way), p.anew(wanted)) {
		if got, err := read(tried); err == nil && got.root != nil && got.item == p.item && same(got.root, wanted) {
			return Between(text, tried), nil
		}
	}
	return Splice{}, fmt.Errorf("%s: no way was found to write this value down", path)
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

func clone(n *yaml.Node) *yaml.Node {
	c := *n
	c.Content = make([]*yaml.Node, len(n.Content))
	for i := range c.Content {
		c.Content[i] = clone(n.Content[i])
	}
	return &c
}

// reach goes down all steps but the last, making records that are not there.
func reach(n *yaml.Node, way []step) (*yaml.Node, error) {
	for i, s := range way[:len(way)-1] {
		next := down(n, s)
		if next == nil || blank(next) {
			if way[i+1].key == "" {
				return nil, errors.New("there is no such item in the list")
			}
			record := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map"}
			if err := store(n, s, record); err != nil {
				return nil, err
			}
			next = record
		}
		n = next
	}
	return n, nil
}

// store puts a value at one step.
func store(n *yaml.Node, s step, v *yaml.Node) error {
	switch {
	case s.key == "" && n.Kind == yaml.SequenceNode && s.index < len(n.Content):
		n.Content[s.index] = v
	case s.key == "":
		return errors.New("there is no such item in the list")
	case n.Kind != yaml.MappingNode:
		return fmt.Errorf("there is a plain value where %s would have to be a field", s.key)
	default:
		if i := child(n, s.key); i >= 0 {
			n.Content[i+1] = v
		} else {
			n.Content = append(n.Content, &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: s.key}, v)
		}
	}
	return nil
}

func put(root *yaml.Node, way []step, v *yaml.Node) error {
	n, err := reach(root, way)
	if err != nil {
		return err
	}
	return store(n, way[len(way)-1], v)
}

func push(root *yaml.Node, way []step, v *yaml.Node) error {
	n, err := reach(root, way)
	if err != nil {
		return err
	}
	last := way[len(way)-1]
	list := down(n, last)
	switch {
	case list == nil || blank(list):
		return store(n, last, &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Content: []*yaml.Node{v}})
	case list.Kind != yaml.SequenceNode:
		return errors.New("this is no list")
	}
	list.Content = append(list.Content, v)
	return nil
}

func drop(root *yaml.Node, way []step) error {
	n := root
	for _, s := range way[:len(way)-1] {
		if n = down(n, s); n == nil {
			return errors.New("there is no such list")
		}
	}
	last := way[len(way)-1]
	if last.key != "" || n.Kind != yaml.SequenceNode || last.index >= len(n.Content) {
		return errors.New("there is no such item in a list; set a field to nothing to clear it")
	}
	n.Content = append(n.Content[:last.index:last.index], n.Content[last.index+1:]...)
	return nil
}
