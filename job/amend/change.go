package amend

import (
	"strings"

	yaml "go.yaml.in/yaml/v4"
)

// with is the splice that puts a text in the place of what stands between two bytes.
func (p *page) with(from, to int, put string) Splice { return Splice{from, p.text[from:to], put} }

// grant is what makes a wish about what stands in a slot come true. What lies deeper
// comes first: where both are written at one byte, it ends before what holds it goes on.
func (p *page) grant(s slot, w *wish) []Splice {
	switch {
	case w.value != nil:
		return []Splice{p.replace(s, w.value)}
	case blank(s.value), w.items != nil && len(s.value.Content) == 0:
		v, _ := w.on(nil)
		return []Splice{p.replace(s, v)}
	}
	var all []Splice
	var fresh []*yaml.Node // keys and values
	for _, b := range w.below {
		if next, found := p.inside(s, b.step); b.gone {
			all = append(all, p.remove(s, next))
		} else if found {
			all = append(all, p.grant(next, b)...)
		} else {
			v, _ := b.on(nil)
			fresh = append(fresh, keyNode(b.step.key), v)
		}
	}
	if fresh != nil {
		all = append(all, p.insert(s, fresh))
	}
	if w.items != nil {
		all = append(all, p.attach(s, w.items))
	}
	return all
}

// replace puts a value in the place of another.
func (p *page) replace(s slot, v *yaml.Node) Splice {
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

// insert writes fields into a record that has not got them.
func (p *page) insert(s slot, fields []*yaml.Node) Splice {
	record := &yaml.Node{Kind: yaml.MappingNode, Content: fields}
	if s.flow || s.value.Style&yaml.FlowStyle != 0 {
		text := inline(record)
		return p.intoBrackets(s.value, text[1:len(text)-1])
	}
	from, limit := p.at(s.value), s.limit
	if i := child(s.value, "openings"); s.value == p.root && !p.item && i > 0 && blank(s.value.Content[i+1]) {
		limit = p.lineOf(p.at(s.value.Content[i])) // what follows openings: is another text
	}
	s.limit = limit
	at := p.reach(s, from)
	indent := s.value.Column - 1
	return p.with(at, at, p.end+strings.Repeat(" ", indent)+block(record, indent, p.end))
}

// intoBrackets writes something behind all that stands between brackets.
func (p *page) intoBrackets(n *yaml.Node, text string) Splice {
	at := scan(p.text, p.at(n)) - 1
	at = len(strings.TrimRight(p.text[:at], " \t\r\n"))
	if len(n.Content) > 0 {
		text = ", " + text
	}
	return p.with(at, at, text)
}

// attach writes items at the end of a list, on lines of their own where the last one
// stands so.
func (p *page) attach(s slot, items []*yaml.Node) Splice {
	if s.flow || s.value.Style&yaml.FlowStyle != 0 {
		text := inline(&yaml.Node{Kind: yaml.SequenceNode, Content: items})
		return p.intoBrackets(s.value, text[1:len(text)-1])
	}
	last := s.value.Content[len(s.value.Content)-1]
	lines := last.Kind == yaml.MappingNode && last.Style&yaml.FlowStyle == 0
	indent := s.value.Column - 1
	var b strings.Builder
	for _, v := range items {
		b.WriteString(p.end + strings.Repeat(" ", indent) + item(v, indent, p.end, lines))
	}
	at := p.reach(s, p.at(s.value))
	return p.with(at, at, b.String())
}

// remove takes an item out of its list.
func (p *page) remove(list, item slot) Splice {
	if len(list.value.Content) == 1 {
		return p.replace(list, &yaml.Node{Kind: yaml.SequenceNode})
	}
	from, to := p.span(item)
	if item.flow {
		return p.fromBrackets(from, to)
	}
	return p.with(p.hyphen(list.value, item.value), p.next(to), "")
}

// fromBrackets takes a value out of a list between brackets, with one comma.
func (p *page) fromBrackets(from, to int) Splice {
	after := strings.TrimLeft(p.text[to:], " \t\r\n")
	if rest, comma := strings.CutPrefix(after, ","); comma {
		return p.with(from, len(p.text)-len(strings.TrimLeft(rest, " \t\r\n")), "")
	}
	before := strings.TrimSuffix(strings.TrimRight(p.text[:from], " \t\r\n"), ",")
	return p.with(len(before), to, "")
}
