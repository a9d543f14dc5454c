package amend

import (
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"

	yaml "go.yaml.in/yaml/v4"
)

// valueOf parses a value as it stands under a field: YAML, of which JSON is a
// part. Nothing at all, or null, is a blank.
func valueOf(text string) (*yaml.Node, error) {
	var said string
	if strings.HasPrefix(text, `"`) && json.Unmarshal([]byte(text), &said) == nil { // most are; this is faster
		return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: said}, nil
	}
	n, err := parse(text)
	if err != nil {
		return nil, fmt.Errorf("the value is not YAML: %w", err)
	}
	if n == nil {
		return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!null"}, nil
	}
	return n, plain(n)
}

// plain refuses what a job file cannot say.
func plain(n *yaml.Node) error {
	if n.Kind == yaml.AliasNode || n.Anchor != "" || n.Style&yaml.TaggedStyle != 0 {
		return fmt.Errorf("the value holds an alias, an anchor or a tag; put a text that begins with *, & or ! into quotation marks")
	}
	for _, c := range n.Content {
		if err := plain(c); err != nil {
			return err
		}
	}
	return nil
}

// Text is a value that holds a text and nothing else, whatever stands in it.
func Text(text string) string {
	var b strings.Builder
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(text); err != nil { // a string always has JSON
		panic(err)
	}
	said := strings.TrimSuffix(b.String(), "\n")
	if !strings.ContainsFunc(said, unwritable) {
		return said
	}
	var all strings.Builder
	for _, c := range said {
		if unwritable(c) {
			fmt.Fprintf(&all, `\u%04x`, c)
		} else {
			all.WriteRune(c)
		}
	}
	return all.String()
}

// unwritable tells characters that JSON lets stand and YAML does not (YAML 1.2.2, 5.1).
func unwritable(c rune) bool {
	return c >= 0x7f && c <= 0x9f || c == 0xfeff || c == 0xfffe || c == 0xffff
}

// Inline is the value that texts, and lists and maps of texts, make, on one line and
// without quotation marks that are not needed. Of anything else it is what fmt prints.
func Inline(value any) string { return inline(nodeOf(value)) }

func nodeOf(value any) *yaml.Node {
	n := new(yaml.Node)
	switch v := value.(type) {
	case []any:
		n.Kind = yaml.SequenceNode
		for _, one := range v {
			n.Content = append(n.Content, nodeOf(one))
		}
	case map[string]any:
		n.Kind = yaml.MappingNode
		for _, key := range slices.Sorted(maps.Keys(v)) {
			n.Content = append(n.Content, keyNode(key), nodeOf(v[key]))
		}
	default:
		return keyNode(fmt.Sprint(value))
	}
	return n
}

// Record is the record that changes make where nothing stands, on one line.
func Record(fields []Change) (string, error) {
	n, err := record(fields)
	if err != nil {
		return "", err
	}
	return inline(n), nil
}

func record(fields []Change) (*yaml.Node, error) {
	w, err := wishOf(fields, true)
	if err != nil {
		return nil, err
	}
	return w.on(nil)
}

// bare matches texts that need no quotation marks anywhere: nothing in them means
// something to YAML, in a list or outside one.
var bare = regexp.MustCompile(`^(-?[0-9]|\pL)[\pL\pN ./+±°%½¼¾'"()_²³·-]*$`)

// words that YAML takes for a blank.
var nothing = []string{"null", "Null", "NULL"}

// inline renders a value on one line.
func inline(n *yaml.Node) string {
	switch n.Kind {
	case yaml.MappingNode:
		fields := make([]string, 0, len(n.Content)/2)
		for i := 0; i+1 < len(n.Content); i += 2 {
			fields = append(fields, strings.TrimRight(inline(n.Content[i])+": "+inline(n.Content[i+1]), " "))
		}
		return "{" + strings.Join(fields, ", ") + "}"
	case yaml.SequenceNode:
		items := make([]string, len(n.Content))
		for i := range items {
			items[i] = inline(n.Content[i])
		}
		return "[" + strings.Join(items, ", ") + "]"
	}
	if blank(n) {
		return ""
	}
	if bare.MatchString(n.Value) && !strings.HasSuffix(n.Value, " ") && !slices.Contains(nothing, n.Value) {
		return n.Value
	}
	return Text(n.Value)
}

// block renders the fields of a record on lines of their own, every line behind
// the first indented.
func block(n *yaml.Node, indent int, end string) string {
	var b strings.Builder
	for i := 0; i+1 < len(n.Content); i += 2 {
		if i > 0 {
			b.WriteString(end + strings.Repeat(" ", indent))
		}
		b.WriteString(entry(inline(n.Content[i]), n.Content[i+1], indent, end))
	}
	return b.String()
}

// entry renders a key of a record on lines, with its value: lists of records and
// records of records on lines of their own.
func entry(key string, v *yaml.Node, indent int, end string) string {
	deep := end + strings.Repeat(" ", indent+2)
	switch {
	case v.Kind == yaml.SequenceNode && len(v.Content) > 0 && v.Content[0].Kind == yaml.MappingNode:
		var b strings.Builder
		b.WriteString(key + ":")
		for _, one := range v.Content {
			b.WriteString(deep + item(one, indent+2, end, false))
		}
		return b.String()
	case v.Kind == yaml.MappingNode && len(v.Content) > 0:
		return key + ":" + deep + block(v, indent+2, end)
	}
	return strings.TrimRight(key+": "+inline(v), " ")
}

// item renders an item of a list behind its hyphen, on lines of its own where that is
// wanted or where records or lists stand in it.
func item(n *yaml.Node, indent int, end string, lines bool) string {
	deep := slices.ContainsFunc(n.Content, func(c *yaml.Node) bool { return len(c.Content) > 0 })
	if n.Kind == yaml.MappingNode && len(n.Content) > 0 && (lines || deep) {
		return "- " + block(n, indent+2, end)
	}
	return "- " + inline(n)
}

// Opening lays out a new opening from its fields, as the item of a list whose
// hyphens stand behind so many spaces. Text that begins with a hyphen is laid out already
// and is returned as it is.
func Opening(value string, spaces int) (string, error) {
	n, err := valueOf(value)
	if err != nil {
		return "", err
	}
	if n.Kind == yaml.SequenceNode && len(n.Content) == 1 && n.Content[0].Kind == yaml.MappingNode && n.Style&yaml.FlowStyle == 0 {
		return value, nil
	}
	return laidOut(n, spaces)
}

// OpeningOf lays out the opening that changes make where nothing stands.
func OpeningOf(fields []Change, spaces int) (string, error) {
	n, err := record(fields)
	if err != nil {
		return "", err
	}
	return laidOut(n, spaces)
}

func laidOut(n *yaml.Node, spaces int) (string, error) {
	if n.Kind != yaml.MappingNode || len(n.Content) == 0 {
		return "", errors.New("an opening has fields, the first of them its id")
	}
	return strings.Repeat(" ", spaces) + item(n, spaces, "\n", true) + "\n", nil
}

// Values is all that a text says, without the names of its fields: what a search looks in.
func Values(text string) string {
	p, err := read(text)
	if err != nil || p.root == nil {
		return text
	}
	var said []string
	var walk func(n *yaml.Node)
	walk = func(n *yaml.Node) {
		for i, c := range n.Content {
			if n.Kind != yaml.MappingNode || i%2 == 1 {
				walk(c)
			}
		}
		if n.Kind == yaml.ScalarNode && !blank(n) {
			said = append(said, n.Value)
		}
	}
	walk(p.root)
	return strings.Join(said, "\n")
}
