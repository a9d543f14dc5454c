package amend

import (
	"errors"
	"fmt"
	"slices"

	yaml "go.yaml.in/yaml/v4"
)

// A wish is what shall become of a value: another in its place, items at its end, its
// end, or wishes about what it holds.
type wish struct {
	step  step
	path  string     // of the first change that leads here
	value *yaml.Node // in its place
	keep  bool       // not where something stands already
	items []*yaml.Node
	gone  bool // an item, out of its list
	below []*wish
}

// wishOf is the wish that changes come to.
func wishOf(changes []Change, keep bool) (*wish, error) {
	top := new(wish)
	var wrong []error
	for i := range changes {
		c := &changes[i]
		way, err := steps(c.Path)
		if err != nil {
			wrong = append(wrong, err)
			continue
		}
		v, err := valueOf(c.Value)
		if err == nil && c.Add && blank(v) {
			err = errors.New("an item of a list cannot be blank")
		}
		w := top.along(way, c.Path)
		if c.Add {
			w.items = append(w.items, v)
		} else {
			w.value, w.keep = v, keep
		}
		if err != nil {
			wrong = append(wrong, fmt.Errorf("%s: %w", c.Path, err))
		}
	}
	return top, errors.Join(wrong...)
}

// along is the wish at the end of a path.
func (w *wish) along(way []step, path string) *wish {
	for _, s := range way {
		w = w.at(s, path)
	}
	return w
}

// at is the wish one step further down. The last ones are looked at first, since
// changes of one opening come together.
func (w *wish) at(s step, path string) *wish {
	for _, b := range slices.Backward(w.below) {
		if b.step == s {
			return b
		}
	}
	b := &wish{step: s, path: path}
	w.below = append(w.below, b)
	return b
}

// on is a value with the wish come true, nil being one that is not there. The value
// itself stays as it is; what no wish is about is shared.
func (w *wish) on(n *yaml.Node) (*yaml.Node, error) {
	void := n == nil || blank(n)
	switch {
	case w.value != nil && len(w.items)+len(w.below) > 0:
		return nil, w.wrong("it is given a value, and so is something in it")
	case w.value != nil && w.keep && !void:
		return nil, w.wrong("it says " + inline(n) + " already, which is not replaced")
	case w.value != nil:
		return w.value, nil
	}
	now := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map"}
	switch {
	case !void:
		*now = *n
		now.Content = slices.Clone(n.Content)
	case w.items != nil:
		now = &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq"}
	}
	var all []error
	for _, b := range w.below {
		all = append(all, b.in(now))
	}
	if w.items != nil && now.Kind != yaml.SequenceNode {
		all = append(all, w.wrong("this is no list"))
	}
	now.Content = append(now.Content, w.items...)
	return now, errors.Join(all...)
}

// in makes the wish come true in the value that holds what it is about.
func (w *wish) in(n *yaml.Node) error {
	i := w.step.place(n)
	switch {
	case w.gone && (i < 0 || w.step.key != ""):
		return w.wrong("there is no such item in a list; set a field to nothing to clear it")
	case w.gone:
		n.Content = slices.Delete(n.Content, i, i+1)
		return nil
	case i < 0 && w.step.key == "":
		return w.wrong("there is no such item in the list")
	case i < 0 && n.Kind != yaml.MappingNode:
		return w.wrong("there is a plain value where " + w.step.key + " would have to be a field")
	case i < 0:
		v, err := w.on(nil)
		n.Content = append(n.Content, keyNode(w.step.key), v)
		return err
	}
	v, err := w.on(n.Content[i])
	n.Content[i] = v
	return err
}

func keyNode(key string) *yaml.Node {
	return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: key}
}

func (w *wish) wrong(what string) error { return fmt.Errorf("%s: %s", w.path, what) }
