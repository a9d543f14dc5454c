package author

import (
	"slices"
	"strings"

	yaml "go.yaml.in/yaml/v4"

	"swingwright/job"
	"swingwright/quantity"
)

// record is a YAML mapping whose keys have been checked.
type record struct {
	*reader
	node   *yaml.Node
	path   string // of the record in its file, empty at the top
	values map[string]*yaml.Node
}

// record reads a mapping that may hold the known keys; those of need must be there.
func (r *reader) record(n *yaml.Node, path string, need []string, known ...string) record {
	rec := record{reader: r, node: n, path: path, values: map[string]*yaml.Node{}}
	known = append(slices.Clone(need), known...)
	if !r.isMapping(n, path) {
		return rec
	}
	for key, value := range pairs(n) {
		switch {
		case !slices.Contains(known, key.Value):
			r.wrong(key, rec.field(""), "the key "+quantity.Quote(key.Value), "one of "+strings.Join(known, ", "), job.DidYouMean(key.Value, known))
		case rec.values[key.Value] != nil:
			r.wrong(key, rec.field(key.Value), "the key a second time", "each key once", "")
		default:
			rec.values[key.Value] = value
		}
	}
	for _, key := range need {
		if rec.values[key] == nil {
			r.wrong(n, rec.field(key), "", rec.want(key), "")
		}
	}
	return rec
}

func (r *reader) isMapping(n *yaml.Node, path string) bool {
	if n.Kind == yaml.MappingNode {
		return true
	}
	r.wrong(n, path, describe(n), "keys and values", "")
	return false
}

// want says what a key is for.
func (rec record) want(key string) string {
	if w, ok := wants[key]; ok {
		return w
	}
	return key
}

var wants = map[string]string{
	"book":       "the name by which jobs call the book",
	"work":       "the published work that the limits stand in",
	"edition":    "the edition of the work",
	"title":      "a short title for people",
	"rules":      "a list of rules",
	"id":         "a name of its own, such as close-90-to-10",
	"of":         "the name of the fact that is judged, such as closing.time_90_to_10",
	"source":     "where the limit stands: clause, confidence, checked_by, checked_on",
	"clause":     "the clause that the limit stands in",
	"confidence": "how the figure was got, such as read second-hand, or from memory",
	"cells":      "the table's cells, row by row",
	"rows":       "the table's first key: {name, unit, at: [...]}",
	"unit":       "the unit in which it is printed",
	"at":         "the printed keys, rising",
	"name":       "a short name for people",
	"rule":       "the rule that is tried",
	"expect":     "meets, falls short, does not apply, may apply, not measured or faulty",
	"cases":      "a list of cases",
	"given":      "what is known of the opening, by the names of facts",
	"collisions": "a list of collisions",
	"differs":    "in what the rules differ",
	"treatment":  "what to do about it",
	"from":       "where the expected figure comes from",
}

// pairs runs over the keys and values of a mapping.
func pairs(n *yaml.Node) func(yield func(key, value *yaml.Node) bool) {
	return func(yield func(key, value *yaml.Node) bool) {
		for i := 0; i+1 < len(n.Content); i += 2 {
			if !yield(n.Content[i], n.Content[i+1]) {
				return
			}
		}
	}
}

// field is the path of one of the record's keys.
func (rec record) field(key string) string {
	if rec.path == "" || key == "" {
		return rec.path + key
	}
	return rec.path + "." + key
}

// text is the raw text of a key's value, empty where there is none.
func (rec record) text(key string) string {
	n := rec.values[key]
	if n == nil {
		return ""
	}
	return rec.scalar(n, rec.field(key))
}

// bad notes a problem with a key's value.
func (rec record) bad(key, needed, hint string) {
	n := rec.values[key]
	rec.wrong(n, rec.field(key), describe(n), needed, hint)
}

// yes reads yes or no; no where the key is missing.
func (rec record) yes(key string) bool {
	switch text := rec.text(key); text {
	case "yes":
		return true
	case "no", "":
	default:
		rec.bad(key, "yes or no", "")
	}
	return false
}

// list is the entries of a key's list.
func (rec record) list(key string) []*yaml.Node {
	n := rec.values[key]
	if n == nil {
		return nil
	}
	return rec.entries(n, rec.field(key))
}

// entries is the content of a list.
func (r *reader) entries(n *yaml.Node, path string) []*yaml.Node {
	switch {
	case n.Kind != yaml.SequenceNode:
		r.wrong(n, path, describe(n), "a list", "")
		return nil
	case len(n.Content) > mostRules:
		r.wrong(n, path, "too long a list", "at most 2000 entries", "split the file")
		return nil
	}
	return n.Content
}

// scalar is the raw text of a single value.
func (r *reader) scalar(n *yaml.Node, path string) string {
	if n.Kind != yaml.ScalarNode {
		r.wrong(n, path, describe(n), "a single value", "")
		return ""
	}
	return strings.TrimSpace(n.Value)
}

// describe names what stands at a node that is not what was needed.
func describe(n *yaml.Node) string {
	switch n.Kind {
	case yaml.MappingNode:
		return "keys and values"
	case yaml.SequenceNode:
		return "a list"
	case yaml.AliasNode:
		return "a value that begins with *, which repeats another"
	}
	if n.Value == "" {
		return ""
	}
	return quantity.Quote(n.Value)
}
