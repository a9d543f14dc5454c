package amend

import (
	"strings"

	yaml "go.yaml.in/yaml/v4"
)

// A slot is where a value stands.
type slot struct {
	key   *yaml.Node // its key; nil for the root and for items
	value *yaml.Node
	limit int  // byte up to which the value may reach, at the begin of a line; counts outside of brackets only
	flow  bool // inside brackets
	loose bool // what looks like a comment below the value counts as a part of it, as in a text of several lines
}

// whole is the slot of all that the text holds.
func (p *page) whole(loose bool) slot {
	return slot{value: p.root, limit: len(p.text), flow: p.root.Style&yaml.FlowStyle != 0, loose: loose}
}

// inside is the slot one step further down.
func (p *page) inside(s slot, st step) (slot, bool) {
	n := s.value
	next := slot{limit: s.limit, flow: s.flow || n.Style&yaml.FlowStyle != 0, loose: s.loose}
	i := st.place(n)
	if i < 0 {
		return next, false
	}
	next.value = n.Content[i]
	if st.key != "" {
		next.key = n.Content[i-1]
	}
	switch {
	case i+1 == len(n.Content):
	case st.key != "":
		next.limit = p.lineOf(p.at(n.Content[i+1]))
	case !next.flow:
		next.limit = p.hyphen(n, n.Content[i+1])
	}
	return next, true
}

// hyphen is where the line begins that holds the hyphen of an item of a list.
func (p *page) hyphen(list, item *yaml.Node) int {
	line := p.lineOf(p.at(item))
	for line > 0 && !strings.HasPrefix(strings.TrimLeft(p.text[line:p.next(line)], " "), "-") {
		before := p.lineOf(line - 1)
		if before >= line {
			break // a byte order mark stands before the first line
		}
		line = before
	}
	return line
}

// span is where the text of a value begins and ends.
func (p *page) span(s slot) (from, to int) {
	from = p.at(s.value)
	v := s.value
	switch {
	case blank(v) && v.Value == "":
		at := p.colon(s.key)
		return at, at
	case s.flow || v.Style&(yaml.FlowStyle|yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) != 0:
		return from, scan(p.text, from)
	case v.Kind != yaml.ScalarNode || v.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		return from, p.reach(s, from)
	}
	line := strings.TrimRight(p.text[from:p.next(from)], "\r\n")
	if i := strings.Index(line, " #"); i >= 0 {
		line = line[:i]
	}
	to = from + len(strings.TrimRight(line, " \t"))
	if far := p.reach(s, from); far > from+len(strings.TrimRight(p.text[from:p.next(from)], "\r\n")) {
		to = far // it goes on below
	}
	return from, to
}

// reach is the end of a value that may fill lines.
func (p *page) reach(s slot, from int) int {
	if s.loose {
		return from + len(strings.TrimRight(p.text[from:s.limit], "\r\n"))
	}
	deepest := len(p.text)
	if s.key != nil && s.value.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 {
		deepest = s.key.Column - 1 // further in it is text
	}
	return p.said(from, s.limit, deepest)
}

// colon is the byte after the colon of a key.
func (p *page) colon(key *yaml.Node) int {
	if key == nil {
		return len(p.text)
	}
	at := p.at(key)
	if key.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) != 0 {
		at = scan(p.text, at)
	} else {
		at = min(at+len(key.Value), len(p.text))
	}
	if i := strings.IndexByte(p.text[at:], ':'); i >= 0 {
		return at + i + 1
	}
	return len(p.text)
}

// scan is the end of a value that begins at a byte and stands between brackets or
// quotation marks, or inside such.
func scan(text string, at int) int {
	if at >= len(text) {
		return len(text)
	}
	switch text[at] {
	case '"', '\'':
		return quoted(text, at)
	case '{', '[':
		return bracketed(text, at)
	}
	i := at
	for i < len(text) && !strings.ContainsRune(",]}", rune(text[i])) && !strings.HasPrefix(text[i:], " #") {
		i++
	}
	return at + len(strings.TrimRight(text[at:i], " \t\r\n"))
}

func quoted(text string, at int) int {
	for i := at + 1; i < len(text); i++ {
		switch {
		case text[i] == '\\' && text[at] == '"':
			i++
		case text[i] != text[at]:
		case text[at] == '\'' && i+1 < len(text) && text[i+1] == '\'':
			i++
		default:
			return i + 1
		}
	}
	return len(text)
}

// bracketed is the end of what begins with a bracket. Quotation marks count only
// where a value begins: inside one they are inches.
func bracketed(text string, at int) int {
	depth, begins := 0, true
	for i := at; i < len(text); i++ {
		c := text[i]
		switch {
		case begins && (c == '"' || c == '\''):
			i = quoted(text, i) - 1
			begins = false
		case c == '{' || c == '[':
			depth++
			begins = true
		case c == '}' || c == ']':
			depth--
			begins = false
			if depth == 0 {
				return i + 1
			}
		case c == ',' || c == ':' && i+1 < len(text) && strings.ContainsRune(" \r\n", rune(text[i+1])):
			begins = true
		case c == '#' && strings.ContainsRune(" \t\n", rune(text[i-1])):
			for i+1 < len(text) && text[i+1] != '\n' {
				i++
			}
		case c != ' ' && c != '\t' && c != '\r' && c != '\n':
			begins = false
		}
	}
	return len(text)
}
