package schedule

import (
	"bufio"
	"fmt"
	"io"
	"io/fs"
	"slices"
	"strconv"

	yaml "go.yaml.in/yaml/v4"

	"swingwright/job"
	"swingwright/job/amend"
	"swingwright/quantity"
)

// WriteMap writes a mapping as YAML, to be edited and given again. File is the
// schedule that it is for.
func WriteMap(w io.Writer, m *Mapping, file string) error {
	b := bufio.NewWriter(w)
	fmt.Fprintf(b, `# What the columns of %s go with. Change it, and give it again with --map.
# field: a field of an opening, such as leaf.width; swingwright schedule fields lists
# them. No field: the column is kept as a note. unit: of cells without one.
sheets:
`, oneLine(file))
	for i := range m.Sheets {
		s := &m.Sheets[i]
		fmt.Fprintf(b, "  - sheet: %s\n", amend.Inline(s.Sheet))
		if s.Skip != "" {
			fmt.Fprintf(b, "    skip: %s\n", amend.Inline(s.Skip))
			if len(s.Columns) == 0 {
				continue
			}
		}
		fmt.Fprintf(b, "    header: %d\n    columns:\n", s.Header)
		for k := range s.Columns {
			c := &s.Columns[k]
			fmt.Fprintf(b, "      - heading: %s\n        # %s", amend.Inline(c.Heading), c.Reason)
			if len(c.Examples) > 0 {
				fmt.Fprintf(b, "; cells such as %s", quantity.Quote(oneLine(c.Examples[0])))
			}
			b.WriteString("\n        field:")
			if c.Field != "" {
				b.WriteString(" " + c.Field)
			}
			b.WriteByte('\n')
			if c.Unit != "" {
				fmt.Fprintf(b, "        unit: %s\n", amend.Inline(c.Unit))
			}
		}
	}
	return b.Flush()
}

// ReadMap reads a mapping file of fsys. Its error is job.Problems, all of them.
func ReadMap(fsys fs.FS, name string) (*Mapping, error) {
	root, _, p := job.ReadYAML(fsys, name, 1<<20, "a mapping has a few lines for every column")
	if p != nil {
		return nil, job.Problems{*p}
	}
	r := &mapReader{file: name}
	m := r.read(root)
	if len(r.problems) > 0 {
		return nil, r.problems
	}
	return m, nil
}

type mapReader struct {
	file     string
	problems job.Problems
}

func (r *mapReader) wrong(n *yaml.Node, field, found, needed, hint string) {
	r.problems = append(r.problems, job.Problem{Place: job.Place{File: r.file, Line: n.Line, Column: n.Column}, Field: field, Found: found, Needed: needed, Hint: hint})
}

// keys walks the keys of a record, each of which has to be one of those known.
func (r *mapReader) keys(n *yaml.Node, field string, known map[string]func(*yaml.Node)) {
	if n.Kind != yaml.MappingNode {
		r.wrong(n, field, quantity.Quote(n.Value), "keys and values", "")
		return
	}
	var names []string
	for k := range known {
		names = append(names, k)
	}
	slices.Sort(names)
	for i := 0; i+1 < len(n.Content); i += 2 {
		key := n.Content[i]
		if use := known[key.Value]; use != nil {
			use(n.Content[i+1])
		} else {
			r.wrong(key, field, quantity.Quote(key.Value), fmt.Sprintf("one of %q", names), job.DidYouMean(key.Value, names))
		}
	}
}

func (r *mapReader) list(n *yaml.Node, field string, each func(*yaml.Node)) {
	if n.Kind != yaml.SequenceNode {
		r.wrong(n, field, quantity.Quote(n.Value), "a list", "begin each with a hyphen")
		return
	}
	for _, one := range n.Content {
		each(one)
	}
}

func (r *mapReader) read(root *yaml.Node) *Mapping {
	m := new(Mapping)
	r.keys(root, "", map[string]func(*yaml.Node){"sheets": func(n *yaml.Node) {
		r.list(n, "sheets", func(n *yaml.Node) { m.Sheets = append(m.Sheets, r.sheet(n)) })
	}})
	return m
}

func (r *mapReader) sheet(n *yaml.Node) (s SheetMap) {
	used := map[string]string{}
	r.keys(n, "sheets", map[string]func(*yaml.Node){
		"sheet": func(n *yaml.Node) { s.Sheet = n.Value },
		"skip":  func(n *yaml.Node) { s.Skip = n.Value },
		"header": func(n *yaml.Node) {
			x, err := strconv.Atoi(n.Value)
			if err != nil || x < 1 {
				r.wrong(n, "header", quantity.Quote(n.Value), "the number of the row with the headings", "rows count from 1")
			}
			s.Header = x
		},
		"columns": func(n *yaml.Node) {
			r.list(n, "columns", func(n *yaml.Node) {
				c := r.column(n)
				if first, again := used[c.Field]; again && c.Field != "" {
					r.wrong(n, "field", c.Field+" again", "each field once", "it goes with "+first+" already")
				}
				used[c.Field] = c.Heading
				s.Columns = append(s.Columns, c)
			})
		},
	})
	if s.Skip == "" && used["id"] == "" {
		r.wrong(n, "columns", "", "a column with field: id", "it holds the numbers of the openings; write skip: and why to leave the sheet out")
	}
	return s
}

func (r *mapReader) column(n *yaml.Node) (c Column) {
	c.Confidence = 1
	r.keys(n, "columns", map[string]func(*yaml.Node){
		"heading": func(n *yaml.Node) { c.Heading = n.Value },
		"unit": func(n *yaml.Node) {
			if c.Unit = n.Value; n.Value != "" && unitNamed(n.Value) == "" {
				r.wrong(n, "unit", quantity.Quote(n.Value), "a unit such as in, mm or lb", "")
			}
		},
		"field": func(n *yaml.Node) {
			if c.Field = n.Value; n.Value != "" && targets[n.Value] == nil {
				r.wrong(n, "field", quantity.Quote(n.Value), "a field of an opening with a single value", job.DidYouMean(n.Value, Fields()))
			}
		},
	})
	return c
}
