package amend

import (
	"errors"
	"io"
	"strings"
	"unicode/utf8"

	yaml "go.yaml.in/yaml/v4"
)

// mark is the byte order mark that some editors put before a text.
const mark = "\ufeff"

// A page is a text with its YAML: a whole file, or one opening cut out of one.
type page struct {
	text   string
	lines  []int // where each begins, in bytes
	root   *yaml.Node
	item   bool   // the root is the one item of a list: an opening
	indent int    // columns before the keys of the root
	end    string // of a line
}

// read parses a text. An empty one, or one of comments alone, has a nil root.
func read(text string) (*page, error) {
	p := &page{text: text, lines: starts(text), end: "\n"}
	if strings.Contains(text, "\r\n") {
		p.end = "\r\n"
	}
	root, err := parse(text)
	if err != nil || root == nil {
		return p, err
	}
	if root.Kind == yaml.SequenceNode && len(root.Content) == 1 && root.Style&yaml.FlowStyle == 0 {
		p.item = true
		root = root.Content[0]
	}
	if root.Kind != yaml.MappingNode {
		return nil, errors.New("the text holds no fields")
	}
	p.root, p.indent = root, root.Column-1
	return p, nil
}

// parse returns the root of a text's one document, nil where there is nothing but comments.
func parse(text string) (*yaml.Node, error) {
	loader, err := yaml.NewLoader(strings.NewReader(text), yaml.WithUniqueKeys(false))
	if err != nil {
		return nil, err
	}
	var document, second yaml.Node
	if err := loader.Load(&document); errors.Is(err, io.EOF) {
		return nil, nil
	} else if err != nil {
		return nil, err
	}
	if err := loader.Load(&second); !errors.Is(err, io.EOF) {
		return nil, errors.New("the text holds more than one document")
	}
	if blank(document.Content[0]) {
		return nil, nil
	}
	return document.Content[0], nil
}

// starts are the bytes at which the lines of a text begin.
func starts(text string) []int {
	lines := []int{0}
	if strings.HasPrefix(text, mark) {
		lines[0] = len(mark)
	}
	for i := range len(text) {
		if text[i] == '\n' || text[i] == '\r' && !(i+1 < len(text) && text[i+1] == '\n') {
			lines = append(lines, i+1)
		}
	}
	return lines
}

// at is the byte at which a node begins.
func (p *page) at(n *yaml.Node) int {
	if n.Line < 1 || n.Line > len(p.lines) {
		return len(p.text)
	}
	at := p.lines[n.Line-1]
	for column := 1; column < n.Column && at < len(p.text); column++ {
		_, size := utf8.DecodeRuneInString(p.text[at:])
		at += size
	}
	return at
}

// lineOf is the byte at which the line that holds a byte begins.
func (p *page) lineOf(at int) int {
	low, high := 0, len(p.lines)
	for high-low > 1 {
		if middle := (low + high) / 2; p.lines[middle] <= at {
			low = middle
		} else {
			high = middle
		}
	}
	return p.lines[low]
}

// next is the byte after the end of the line that holds a byte.
func (p *page) next(at int) int {
	if i := strings.IndexByte(p.text[at:], '\n'); i >= 0 {
		return at + i + 1
	}
	return len(p.text)
}

// said is the end, in bytes, of what is said before a limit that stands at the
// begin of a line or at the end of the text: blank lines and comments in front of
// the limit are left to what follows, comments only where they stand no deeper
// than so many columns. The line break is not part of it.
func (p *page) said(from, limit, deepest int) int {
	end := limit
	for {
		for end > from && (p.text[end-1] == '\n' || p.text[end-1] == '\r') {
			end--
		}
		line := max(p.lineOf(max(end-1, 0)), from)
		content := strings.TrimSpace(p.text[line:end])
		indent := len(p.text[line:end]) - len(strings.TrimLeft(p.text[line:end], " "))
		if line <= from || content != "" && (content[0] != '#' || indent > deepest) {
			return end
		}
		end = line
	}
}

// blank tells a value that was left empty.
func blank(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && n.Tag == "!!null" }
