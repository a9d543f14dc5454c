package amend

import (
	"errors"
	"strings"

	yaml "go.yaml.in/yaml/v4"
)

// A Job is the text of a job file cut at its openings. One after the other, its
// pieces are the file to the byte.
type Job struct {
	Front    string   // up to the first opening
	Openings []string // each with its hyphen and the comments above it
	Back     string   // what follows the last opening
}

// String is the job file.
func (j Job) String() string { return j.Front + strings.Join(j.Openings, "") + j.Back }

// Split cuts a job file at its openings. An error tells a file that is no YAML, or
// whose openings do not stand on lines of their own, each behind a hyphen.
func Split(text string) (Job, error) {
	p, err := read(text)
	if err != nil {
		return Job{}, err
	}
	if p.root == nil {
		return Job{}, errors.New("the text holds no fields")
	}
	i := child(p.root, "openings")
	if i < 0 || blank(p.root.Content[i+1]) {
		return Job{Front: text}, nil
	}
	list := p.root.Content[i+1]
	if list.Kind != yaml.SequenceNode || list.Style&yaml.FlowStyle != 0 || p.root.Style&yaml.FlowStyle != 0 {
		return Job{}, errOneLine
	}
	back := len(text)
	if i+2 < len(p.root.Content) {
		back = p.above(list, p.lineOf(p.at(p.root.Content[i+2])))
	}
	return p.cut(list, back)
}

var errOneLine = errors.New("the openings stand between brackets: write each on lines of its own, behind a hyphen, so that one can be changed without the others")

// cut cuts before each item of a list, with the comments above it where they are comments.
func (p *page) cut(list *yaml.Node, back int) (Job, error) {
	hyphens := make([]int, len(list.Content))
	for k, item := range list.Content {
		hyphens[k] = p.hyphen(list, item)
	}
	for _, comments := range []bool{true, false} {
		cuts := append(append([]int{}, hyphens...), back)
		for k := range hyphens {
			if comments {
				cuts[k] = p.above(list, hyphens[k])
			}
		}
		if j, ok := p.pieces(list, cuts); ok {
			return j, nil
		}
	}
	return Job{}, errOneLine
}

// pieces makes the pieces, and tells whether each opening alone says what it says in the file.
func (p *page) pieces(list *yaml.Node, cuts []int) (Job, bool) {
	last := len(cuts) - 1
	j := Job{Front: p.text[:cuts[0]], Back: p.text[cuts[last]:], Openings: make([]string, last)}
	for k := range j.Openings {
		if cuts[k] >= cuts[k+1] {
			return Job{}, false
		}
		j.Openings[k] = p.text[cuts[k]:cuts[k+1]]
		one, err := read(j.Openings[k])
		if err != nil || !one.item || !same(one.root, list.Content[k]) {
			return Job{}, false
		}
	}
	return j, true
}

// above is where the comments and blank lines above a line begin that belong to it.
func (p *page) above(list *yaml.Node, line int) int {
	for line > 0 {
		before := p.lineOf(line - 1)
		content := p.text[before:line]
		trimmed := strings.TrimSpace(content)
		comment := strings.HasPrefix(trimmed, "#") && len(content)-len(strings.TrimLeft(content, " ")) < list.Column
		if trimmed != "" && !comment || before >= line {
			break
		}
		line = before
	}
	return line
}

// Hyphens is how many spaces stand before the hyphen of the opening that a text
// holds; of any other text it is two.
func Hyphens(text string) int {
	for line := range strings.Lines(text) {
		if words := strings.TrimLeft(line, " "); strings.HasPrefix(words, "- ") || strings.TrimSpace(words) == "-" {
			return len(line) - len(words)
		} else if content := strings.TrimSpace(words); content != "" && content[0] != '#' {
			break
		}
	}
	return 2
}
