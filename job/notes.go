package job

import (
	"reflect"
	"strings"

	yaml "go.yaml.in/yaml/v4"
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
	if isBlank(n) {
		w.checkBlank(n)
		return ""
	}
	w.checkComment(n)
	return n.Value
}

func (w *walker) noteFields(n *yaml.Node, depth int) map[string]any {
	fields := make(map[string]any, len(n.Content)/2)
	for i := 0; i+1 < len(n.Content); i += 2 {
		key := n.Content[i]
		w.enter(key.Value)
		if _, again := fields[key.Value]; key.Kind != yaml.ScalarNode {
			w.wrong(key, "a key that is no word", "a name", "")
		} else if again {
			w.wrong(key, "the key "+key.Value+" again", "each key once", "give one of the two another name")
		} else {
			fields[key.Value] = w.note(n.Content[i+1], depth+1)
		}
		w.leave()
	}
	return fields
}

// checkBlank reports a value that YAML took for a comment: "name: #5" is a
// blank to it, and what was entered would be lost.
func (w *walker) checkBlank(n *yaml.Node) {
	w.checkLost(n, w.lines.after(n.Line, n.Column-1))
}

// checkComment reports a number sign inside a text, as in "name: Room #5".
func (w *walker) checkComment(n *yaml.Node) {
	if n.Style == 0 {
		w.checkLost(n, strings.TrimPrefix(w.lines.after(n.Line, n.Column-1), n.Value))
	}
}

// checkLost reports a number sign followed by a digit: somebody who writes
// that means a number, while comments begin with a space or a letter.
func (w *walker) checkLost(n *yaml.Node, rest string) {
	rest = strings.TrimLeft(rest, " \t")
	if len(rest) > 1 && rest[0] == '#' && rest[1] >= '0' && rest[1] <= '9' {
		rest = strings.TrimRight(rest, "\r")
		w.wrong(n, quote(rest)+", which YAML takes for a comment", "the whole text between quotation marks", "or a space after the # if it is a comment")
	}
}
