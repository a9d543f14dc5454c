package job

import (
	"io/fs"
	"strconv"
	"strings"

	yaml "go.yaml.in/yaml/v4"
)

// An Index finds the places of a job file's fields, for warnings about values
// that are read without a problem.
type Index struct {
	file string
	root *yaml.Node
}

// Locate makes the index of the named job file of fsys. Its error is Problems.
func Locate(fsys fs.FS, name string) (*Index, error) {
	root, _, p := (&reader{fsys: fsys}).root(name)
	if p != nil {
		return nil, Problems{*p}
	}
	return &Index{name, root}, nil
}

// Place is where the field of an opening, numbered from 0, is given, such as
// leaf.width; where it was taken over, the place is in the other opening. For a
// field that is not given it is the place of the nearest record around it.
func (x *Index) Place(opening int, field string) Place {
	openings := child(x.root, "openings")
	if openings == nil || opening < 0 || opening >= len(openings.Content) {
		return Place{File: x.file}
	}
	own := openings.Content[opening]
	best := x.place(own)
	seen := map[*yaml.Node]bool{} // ends a circle
	for n := own; n != nil && !seen[n]; n = x.same(openings, n) {
		seen[n] = true
		at, whole := follow(n, field)
		if whole {
			return x.place(at)
		}
		if n == own {
			best = x.place(at)
		}
	}
	return best
}

func (x *Index) place(n *yaml.Node) Place { return Place{x.file, n.Line, n.Column} }

// same is the opening that another is the same as, or nil.
func (x *Index) same(openings, n *yaml.Node) *yaml.Node {
	name := child(n, "same_as")
	if name == nil {
		name = child(n, "in_place_of")
	}
	if name == nil {
		return nil
	}
	for _, o := range openings.Content {
		if id := child(o, "id"); id != nil && id.Value == name.Value {
			return o
		}
	}
	return nil
}

// follow goes down a path such as closer.gauged[1].angle as far as it is given.
func follow(n *yaml.Node, path string) (at *yaml.Node, whole bool) {
	for _, step := range strings.Split(strings.ReplaceAll(path, "[", ".["), ".") {
		next := down(n, step)
		if next == nil || isBlank(next) {
			return n, false
		}
		n = next
	}
	return n, true
}

// down returns the value of a key, or the item of an index such as [1], or nil.
func down(n *yaml.Node, step string) *yaml.Node {
	number, isIndex := strings.CutPrefix(step, "[")
	if !isIndex {
		return child(n, step)
	}
	i, err := strconv.Atoi(strings.TrimSuffix(number, "]"))
	if err != nil || n.Kind != yaml.SequenceNode || i < 0 || i >= len(n.Content) {
		return nil
	}
	return n.Content[i]
}
