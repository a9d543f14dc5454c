package amend

import (
	"fmt"
	"strconv"
	"strings"

	yaml "go.yaml.in/yaml/v4"
)

// A step leads from a value to one inside it: to a key or to the item of an index.
type step struct {
	key   string
	index int // where key is empty
}

// down follows the step, and returns nil where it leads nowhere.
func (s step) down(n *yaml.Node) *yaml.Node {
	if i := s.place(n); i >= 0 {
		return n.Content[i]
	}
	return nil
}

// place is where among the contents of a value the step leads, or -1.
func (s step) place(n *yaml.Node) int {
	if s.key != "" {
		if i := child(n, s.key); i >= 0 {
			return i + 1
		}
	} else if n.Kind == yaml.SequenceNode && s.index < len(n.Content) {
		return s.index
	}
	return -1
}

// child is the place of a key among the contents of a record, or -1.
func child(n *yaml.Node, key string) int {
	for i := 0; n.Kind == yaml.MappingNode && i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return i
		}
	}
	return -1
}

// Path is the path that leads through keys: leaf.width, or survey."Door No." where a
// key holds what means something in a path.
func Path(keys ...string) string {
	words := make([]string, len(keys))
	for i, key := range keys {
		if words[i] = key; !plainKey(key) {
			words[i] = strconv.Quote(key)
		}
	}
	return strings.Join(words, ".")
}

// plainKey tells a key that stands in a path without quotation marks.
func plainKey(key string) bool { return key != "" && !strings.ContainsAny(key, ".[] \t\r\n\"'") }

// steps splits a path such as closer.gauged[1].angle or survey."Door No."; an error
// tells one that is none. Every path has one spelling, so that paths can be compared.
func steps(path string) (list []step, err error) {
	for rest := path; ; rest = rest[1:] {
		var key string
		if quoted, err := strconv.QuotedPrefix(rest); err == nil && rest[0] == '"' {
			if key, err = strconv.Unquote(quoted); err != nil || key == "" || Path(key) != quoted {
				return nil, fmt.Errorf("%q has %s between quotation marks, which it needs not or not so", path, quoted)
			}
			rest = rest[len(quoted):]
		} else {
			end := strings.IndexAny(rest+".", ".[")
			if key, rest = rest[:end], rest[end:]; !plainKey(key) {
				return nil, fmt.Errorf("%q is no path of a field, such as closer.gauged[1].angle", path)
			}
		}
		list = append(list, step{key: key})
		for strings.HasPrefix(rest, "[") {
			number, after, closed := strings.Cut(rest[1:], "]")
			if !closed {
				return nil, fmt.Errorf("%q has a [ without its ]", path)
			}
			i, err := strconv.Atoi(number)
			if err != nil || i < 0 {
				return nil, fmt.Errorf("%q has no number between [ and ]", path)
			}
			list, rest = append(list, step{index: i}), after
		}
		if rest == "" {
			return list, nil
		}
		if rest[0] != '.' {
			return nil, fmt.Errorf("%q has text after a ] or a quotation mark", path)
		}
	}
}
