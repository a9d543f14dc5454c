package job

import (
	"reflect"
	"strings"

	yaml "go.yaml.in/yaml/v4"

	"swingwright/quantity"
)

// deepestNote is how deep notes may be nested; nobody writes deeper by hand.
const deepestNote = 32

// notes fills a map with whatever was written down: texts as they stand, lists
// as []any, and fields as map[string]any.
func (w *walker) notes(n *yaml.Node, v reflect.Value) {
	if n.Kind != yaml.MappingNode {
		w.wrong(n, describe(n), "notes of the form name: text", "give each note a name and a colon")
		return
	}
	v.Set(reflect.ValueOf(w.note(n, 0)))
}

// note returns a note as a string, a []any or a map[string]any.
func (w *walker) note(n *yaml.Node, depth int) any {
	if depth > deepestNote {
		w.wrong(n, "notes nested too deep", "fewer levels", "")
		return nil
	}
	if !w.isPlain(n) {
		return nil
	}
	switch n.Kind {
	case yaml.SequenceNode:
		list := make([]any, len(n.Content))
		for i, item := range n.Content {
			list[i] = w.note(item, depth+1)
		}
		return list
	case yaml.MappingNode:
		return w.noteFields(n, depth)
	}
	w.checkLost(n)
	if isBlank(n) {
		return ""
	}
	return n.Value
}

func (w *walker) noteFields(n *yaml.Node, depth int) map[string]any {
	fields := make(map[string]any, len(n.Content)/2)
	for i := 0; i+1 < len(n.Content); i += 2 {
		key := n.Content[i]
		w.enter(printable(key.Value))
		if _, again := fields[key.Value]; key.Kind != yaml.ScalarNode {
			w.wrong(key, "a key that is no word", "a name", "")
		} else if again {
			w.wrong(key, "this key again", "each key once", "give one of the two another name")
		} else {
			fields[key.Value] = w.note(n.Content[i+1], depth+1)
		}
		w.leave()
	}
	return fields
}

// lost returns what YAML took for a comment and was not meant as one: to it
// "name: #5" is a blank and "name: Room #5" is Room. Somebody who writes a
// number sign before a digit means a number; comments begin otherwise.
func (w *walker) lost(n *yaml.Node) string {
	const farthest = 500 // columns; beyond it nobody writes by hand, and looking would take long
	if n.Kind != yaml.ScalarNode || n.Style != 0 || n.Column > farthest {
		return ""
	}
	rest := w.lines.after(n.Line, n.Column-1)
	if !isBlank(n) {
		rest = strings.TrimPrefix(rest, n.Value)
	}
	rest = strings.Trim(rest, " \t\r")
	if len(rest) > 1 && rest[0] == '#' && rest[1] >= '0' && rest[1] <= '9' {
		return rest
	}
	return ""
}

// checkLost reports text that would be lost.
func (w *walker) checkLost(n *yaml.Node) {
	if rest := w.lost(n); rest != "" {
		w.wrong(n, quantity.Quote(rest)+", which YAML takes for a comment", "the whole text between quotation marks", "if it is a comment put a space after the #")
	}
}
