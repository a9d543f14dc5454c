package amend

import (
	"strings"

	yaml "go.yaml.in/yaml/v4"
)

// both asks for a text twice: as comments usually stand, and as they may stand.
func both(make func(loose bool) string) []string { return []string{make(false), make(true)} }

func (p *page) with(from, to int, put string) string { return p.text[:from] + put + p.text[to:] }

func (p *page) set(way []step, v *yaml.Node) []string {
	return both(func(loose bool) string {
		s, rest := p.locate(way, loose)
		switch {
		case len(rest) == 0:
			return p.replace(s, v)
		case blank(s.value):
			return p.replace(s, nested(rest, v))
		}
		return p.insert(s, rest, v)
	})
}

// nested is a value under keys that are not there yet.
func nested(way []step, v *yaml.Node) *yaml.Node {
	for i := len(way) - 1; i >= 0; i-- {
		v = &yaml.Node{Kind: yaml.MappingNode, Content: []*yaml.Node{{Kind: yaml.ScalarNode, Tag: "!!str", Value: way[i].key}, v}}
	}
	return v
}

// replace puts a value in the place of another.
func (p *page) replace(s slot, v *yaml.Node) string {
	from, to := p.span(s)
	old := s.value
	if s.key == nil || s.flow {
		if text := inline(v); from == p.colon(s.key) && text != "" {
			return p.with(from, to, " "+text)
		}
		return p.with(from, to, inline(v))
	}
	lines := old.Kind != yaml.ScalarNode && old.Style&yaml.FlowStyle == 0
	if v.Kind == yaml.ScalarNode && !blank(v) && !lines && from != p.colon(s.key) {
		return p.with(from, to, inline(v)) // spaces before it stay as they are
	}
	text := strings.TrimPrefix(entry("", v, s.key.Column-1, p.end), ":")
	return p.with(p.colon(s.key), to, text)
}

// insert writes a field into a record that has not got it.
func (p *page) insert(s slot, way []step, v *yaml.Node) string {
	v = nested(way[1:], v)
	key := inline(&yaml.Node{Kind: yaml.ScalarNode, Value: way[0].key})
	if s.flow || s.value.Style&yaml.FlowStyle != 0 {
		return p.intoBrackets(s.value, key+": "+inline(v))
	}
	from, limit := p.at(s.value), s.limit
	if i := child(s.value, "openings"); s.value == p.root && !p.item && i > 0 && blank(s.value.Content[i+1]) {
		limit = p.lineOf(p.at(s.value.Content[i])) // what follows openings: is another text
	}
	s.limit = limit
	at := p.reach(s, from)
	indent := s.value.Column - 1
	return p.with(at, at, p.end+strings.Repeat(" ", indent)+entry(key, v, indent, p.end))
}

// intoBrackets writes something behind all that stands between brackets.
func (p *page) intoBrackets(n *yaml.Node, text string) string {
	at := scan(p.text, p.at(n)) - 1
	at = len(strings.TrimRight(p.text[:at], " \t\r\n"))
	if len(n.Content) > 0 {
		text = ", " + text
	}
	return p.with(at, at, text)
}

func (p *page) add(way []step, item *yaml.Node) []string {
	list := &yaml.Node{Kind: yaml.SequenceNode, Content: []*yaml.Node{item}}
	return both(func(loose bool) string {
		s, rest := p.locate(way, loose)
		switch {
		case len(rest) > 0 && !blank(s.value):
			return p.insert(s, rest, list)
		case blank(s.value) || len(s.value.Content) == 0:
			return p.replace(s, nested(rest, list))
		case s.value.Style&yaml.FlowStyle != 0:
			return p.intoBrackets(s.value, inline(item))
		}
		at := p.reach(s, p.at(s.value))
		return p.with(at, at, p.end+strings.Repeat(" ", s.value.Column-1)+"- "+inline(item))
	})
}

func (p *page) remove(way []step) []string {
	return both(func(loose bool) string {
		list, _ := p.locate(way[:len(way)-1], loose)
		s, _ := p.locate(way, loose)
		if len(list.value.Content) == 1 {
			return p.replace(list, &yaml.Node{Kind: yaml.SequenceNode})
		}
		from, to := p.span(s)
		if s.flow {
			return p.fromBrackets(from, to)
		}
		return p.with(p.hyphen(list.value, s.value), p.next(to), "")
	})
}

// fromBrackets takes a value out of a list between brackets, with one comma.
func (p *page) fromBrackets(from, to int) string {
	after := strings.TrimLeft(p.text[to:], " \t\r\n")
	if rest, comma := strings.CutPrefix(after, ","); comma {
		return p.text[:from] + strings.TrimLeft(rest, " \t\r\n")
	}
	before := strings.TrimRight(p.text[:from], " \t\r\n")
	return strings.TrimSuffix(before, ",") + p.text[to:]
}
