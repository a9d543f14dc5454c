package job

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"

	yaml "go.yaml.in/yaml/v4"

	"swingwright/quantity"
)

// walker fills values from the nodes of one file.
type walker struct {
	*reader
	file  string
	lines lines
	path  []string // keys and indices down to the node in hand
}

// value fills v, of shape s, from n. The field f tells the limits; it is nil at
// the root and in lists of texts.
func (w *walker) value(n *yaml.Node, s *shape, f *field, v reflect.Value) {
	if w.problems.full() || !w.isPlain(n) {
		return
	}
	if isBlank(n) {
		w.checkLost(n)
		return
	}
	switch s.form {
	case recordForm:
		w.record(n, s, v)
	case listForm:
		w.list(n, s, f, v)
	case notesForm:
		w.notes(n, v)
	default:
		w.scalar(n, s, f, v)
	}
}

// record fills a struct from keys and values.
func (w *walker) record(n *yaml.Node, s *shape, v reflect.Value) {
	if n.Kind != yaml.MappingNode {
		w.wrong(n, describe(n), "fields such as "+someKeys(s), "")
		return
	}
	var seen uint64 // a bit for each field
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		at, known := s.byKey[key.Value]
		if key.Kind != yaml.ScalarNode || !known {
			w.unknownKey(key, s)
			continue
		}
		w.enter(key.Value)
		if seen&(1<<at) != 0 {
			w.wrong(key, "this key again", "each key once", "delete one of the two")
		} else {
			w.value(value, s.fields[at].shape, &s.fields[at], v.Field(at))
		}
		seen |= 1 << at
		w.leave()
	}
	w.checkNeeds(n, s)
	w.checkRecord(n, v)
}

// checkNeeds tells the fields that a record must have and has not.
func (w *walker) checkNeeds(n *yaml.Node, s *shape) {
	for i := range s.fields {
		f := &s.fields[i]
		if !f.need {
			continue
		}
		at := child(n, f.key)
		if at == nil {
			at = n
		} else if saysSomething(at, f.shape) || w.lost(at) != "" {
			continue // that it is right is seen to elsewhere
		}
		w.enter(f.key)
		w.wrong(at, "", w.kindOf(f.shape), "fill it in: "+f.doc)
		w.leave()
	}
}

// saysSomething tells a value that is more than a blank, an empty list, or the
// word unknown for a quantity.
func saysSomething(n *yaml.Node, s *shape) bool {
	if n.Kind == yaml.SequenceNode {
		return len(n.Content) > 0
	}
	blank := isBlank(n) || n.Value == "" || s.form == quantityForm && n.Value == unknown
	return n.Kind != yaml.ScalarNode || !blank
}

// list fills a slice from the items of a list.
func (w *walker) list(n *yaml.Node, s *shape, f *field, v reflect.Value) {
	if n.Kind != yaml.SequenceNode {
		hint := "write [" + n.Value + "]"
		if s.elem.form == recordForm {
			hint = "begin each with a hyphen and a space"
		} else if n.Kind != yaml.ScalarNode {
			hint = ""
		}
		w.wrong(n, describe(n), "a list", hint)
		return
	}
	v.Set(reflect.MakeSlice(s.typ, len(n.Content), len(n.Content)))
	for i, item := range n.Content {
		w.enter("[" + strconv.Itoa(i) + "]")
		if isBlank(item) {
			w.wrong(item, "an empty item", "a value, or no hyphen", "")
		} else {
			w.value(item, s.elem, f, v.Index(i))
		}
		w.leave()
	}
}

// isPlain refuses what YAML can do beyond keys, values and lists: none of it
// helps a person who writes down a survey, and some of it hides what was meant.
func (w *walker) isPlain(n *yaml.Node) bool {
	switch {
	case n.Kind == yaml.AliasNode:
		w.wrong(n, "the alias *"+n.Value, "the value itself", "to repeat an opening's fields use same_as")
	case n.Anchor != "":
		w.wrong(n, "the anchor &"+n.Anchor, "a value", "put a text that begins with & into quotation marks; to repeat an opening's fields use same_as")
	case n.Style&yaml.TaggedStyle != 0:
		w.wrong(n, "the tag "+n.Tag, "a value", "put a text that begins with ! into quotation marks")
	default:
		return true
	}
	return false
}

// isBlank tells a value left empty.
func isBlank(n *yaml.Node) bool {
	return n.Kind == yaml.ScalarNode && n.Tag == "!!null"
}

// enter and leave keep the path of the field in hand.
func (w *walker) enter(step string) { w.path = append(w.path, step) }
func (w *walker) leave()            { w.path = w.path[:len(w.path)-1] }

// field is the path as people read it: openings[0].leaf.width.
func (w *walker) field() string {
	return strings.ReplaceAll(strings.Join(w.path, "."), ".[", "[")
}

func (w *walker) place(n *yaml.Node) Place { return Place{w.file, n.Line, n.Column} }

// wrong reports a problem of the field in hand.
func (w *walker) wrong(n *yaml.Node, found, needed, hint string) {
	w.problems.add(Problem{Place: w.place(n), Field: w.field(), Found: found, Needed: needed, Hint: hint})
}

// describe says what a node is, for people.
func describe(n *yaml.Node) string {
	switch n.Kind {
	case yaml.SequenceNode:
		return fmt.Sprintf("a list of %d", len(n.Content))
	case yaml.MappingNode:
		return "fields of its own"
	}
	return quantity.Quote(n.Value)
}

// printable is a key as it may stand in a path: quoted unless it is plain.
func printable(key string) string {
	if quoted := quantity.Quote(key); quoted != `"`+key+`"` {
		return quoted
	}
	return key
}

// child returns the value of a key, or nil.
func child(n *yaml.Node, key string) *yaml.Node {
	for i := 0; n.Kind == yaml.MappingNode && i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return n.Content[i+1]
		}
	}
	return nil
}
