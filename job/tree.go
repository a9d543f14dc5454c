package job

import (
	"cmp"
	"io/fs"
	"maps"
	"path"
	"slices"

	yaml "go.yaml.in/yaml/v4"
)

// A Tree is a job as keys, lists and texts, just as they were written: what may be
// changed field by field and written as JSON, which Decode reads as it reads YAML.
type Tree map[string]any

// ReadTree reads a job that Decode reads without a problem into one tree that stands
// alone: its sheet files and reading files stand in it and are not named any more, nor
// are files of rules, which a job that stands alone cannot name. Its error is Problems.
func ReadTree(fsys fs.FS, name string) (Tree, error) { return readTree(fsys, name, nil) }

// ReadPartTree reads a job file of which some openings are left out into a tree, as ReadTree
// reads a whole one; for exists see DecodePart.
func ReadPartTree(fsys fs.FS, name string, exists func(sort, name string) bool) (Tree, error) {
	return readTree(fsys, name, exists)
}

func readTree(fsys fs.FS, name string, elsewhere func(sort, name string) bool) (Tree, error) {
	r := &reader{fsys: fsys, dir: path.Dir(name), names: map[thing]Place{}, elsewhere: elsewhere}
	if _, err := r.decode(name); err != nil {
		return nil, err
	}
	r = &reader{fsys: fsys, dir: path.Dir(name)}
	t, err := r.tree(name)
	if err != nil {
		return nil, err
	}
	for _, file := range r.files(t, "sheet_files") {
		more, err := r.tree(file)
		if err != nil {
			return nil, err
		}
		t.addSheets(more)
	}
	for _, file := range r.files(t, "reading_files") {
		more, err := r.tree(file)
		if err != nil {
			return nil, err
		}
		t.addReadings(more)
	}
	for _, key := range []string{"sheet_files", "reading_files", "own_rules"} {
		delete(t, key)
	}
	return t, nil
}

// tree reads one file.
func (r *reader) tree(name string) (Tree, error) {
	root, _, p := r.root(name)
	if p != nil {
		return nil, Problems{*p}
	}
	t, _ := asWritten(root).(map[string]any)
	return t, nil
}

// files are the files listed under a key of a tree, each once, in the order given.
func (r *reader) files(t Tree, key string) (names []string) {
	for _, name := range t.list(key) {
		if file, wrong := r.inside(name.(string)); wrong == "" && !slices.Contains(names, file) {
			names = append(names, file)
		}
	}
	return names
}

// list is the list under a key; nil where there is none.
func (t Tree) list(key string) []any {
	list, _ := t[key].([]any)
	return list
}

// addSheets appends the sheets of a sheet file.
func (t Tree) addSheets(more Tree) {
	own, _ := t["sheets"].(map[string]any)
	if own == nil {
		own = map[string]any{}
		t["sheets"] = own
	}
	for sort, sheets := range more {
		if list, ok := sheets.([]any); ok {
			own[sort] = append(Tree(own).list(sort), list...)
		}
	}
}

// addReadings appends kept readings to those of their openings.
func (t Tree) addReadings(more Tree) {
	for _, one := range more.list("kept") {
		kept, _ := one.(map[string]any)
		if o := t.Opening(kept["of"]); o != nil {
			o["readings"] = append(Tree(o).list("readings"), Tree(kept).list("readings")...)
		}
	}
}

// Opening is the opening of a name; nil where there is none. What is changed in it is
// changed in the tree.
func (t Tree) Opening(id any) map[string]any {
	for _, one := range t.list("openings") {
		if o, ok := one.(map[string]any); ok && o["id"] == id {
			return o
		}
	}
	return nil
}

// Part is the tree with one opening alone and those that it needs: what it takes fields over from, and the
// opening before it, from which a survey takes over too; without groups, whose members may be others.
// It shares what is in it with the whole.
func (t Tree) Part(id string) Tree {
	all := t.list("openings")
	need := map[any]bool{}
	follow := func(o map[string]any) {
		for ; o != nil && !need[o["id"]]; o = t.Opening(cmp.Or(text(o["same_as"]), text(o["in_place_of"]))) {
			need[o["id"]] = true
		}
	}
	follow(t.Opening(id))
	at := slices.IndexFunc(all, func(one any) bool { o, _ := one.(map[string]any); return o["id"] == id })
	for i := at - 1; i >= 0; i-- {
		if o, _ := all[i].(map[string]any); text(o["in_place_of"]) == "" {
			follow(o)
			break
		}
	}
	part := maps.Clone(t)
	delete(part, "groups")
	var kept []any
	for _, one := range all {
		if o, _ := one.(map[string]any); need[o["id"]] {
			kept = append(kept, one)
		}
	}
	part["openings"] = kept
	return part
}

func text(v any) string {
	s, _ := v.(string)
	return s
}

// asWritten is a node as keys, lists and texts. What was left blank is left out.
func asWritten(n *yaml.Node) any {
	switch n.Kind {
	case yaml.MappingNode:
		fields := make(map[string]any, len(n.Content)/2)
		for i := 0; i+1 < len(n.Content); i += 2 {
			if value := n.Content[i+1]; !isBlank(value) {
				fields[n.Content[i].Value] = asWritten(value)
			}
		}
		return fields
	case yaml.SequenceNode:
		items := make([]any, len(n.Content))
		for i, item := range n.Content {
			items[i] = asWritten(item)
		}
		return items
	}
	if isBlank(n) {
		return ""
	}
	return n.Value
}
