package job

import (
	"bytes"
	"encoding/json"
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	yaml "go.yaml.in/yaml/v4"
)

// An Addition is a value that is added to a job file where none stands.
type Addition struct {
	Opening string   // id; empty for the job itself
	Path    []string // keys down to the value
	Value   any      // a string, or lists and maps of strings
}

// Amend adds values and openings to the text of a job file, and leaves every byte
// that stands there as it is. More are openings in YAML, each with a hyphen in the
// first column. Its error is Problems; a value that would take the place of another,
// and a text in which a value cannot be placed without moving others, are refused.
func Amend(name string, text []byte, adds []Addition, more []byte) ([]byte, error) {
	bom := bytes.HasPrefix(text, []byte("\xef\xbb\xbf"))
	plain, p := plainText(name, text)
	if p != nil {
		return nil, Problems{*p}
	}
	root, p := parse(name, plain)
	if p != nil {
		return nil, Problems{*p}
	}
	a := &amender{name: name, text: plain, starts: lineStarts(plain), end: "\n"}
	if bytes.Contains(plain, []byte("\r\n")) {
		a.end = "\r\n"
	}
	openings := child(root, "openings")
	if openings == nil || openings.Kind != yaml.SequenceNode {
		return nil, Problems{{Place: Place{File: name}, Field: "openings", Found: "no list", Needed: "a list of openings"}}
	}
	a.addAll(root, openings, adds)
	if len(more) > 0 {
		a.append(root, openings, more)
	}
	if err := a.problems.err(); err != nil {
		return nil, err
	}
	out := a.apply()
	if bom {
		out = append([]byte("\xef\xbb\xbf"), out...)
	}
	return out, nil
}

// amender gathers the edits of one text.
type amender struct {
	name     string
	text     []byte
	starts   []int // offsets of the lines
	end      string
	edits    []edit
	problems Problems
}

// edit is a text that is put in at an offset.
type edit struct {
	at   int
	text string
}

func lineStarts(text []byte) []int {
	starts := []int{0}
	for i, b := range text {
		if b == '\n' {
			starts = append(starts, i+1)
		}
	}
	return starts
}

// offset is that of a line and column, both from 1, in characters.
func (a *amender) offset(line, column int) int {
	at := a.lineStart(line)
	for ; column > 1 && at < len(a.text); column-- {
		_, size := utf8.DecodeRune(a.text[at:])
		at += size
	}
	return at
}

// lineStart is the offset of a line, or the end of the text.
func (a *amender) lineStart(line int) int {
	if line-1 < len(a.starts) {
		return a.starts[line-1]
	}
	return len(a.text)
}

func (a *amender) put(at int, text string) { a.edits = append(a.edits, edit{at, text}) }

func (a *amender) wrong(n *yaml.Node, field, found, needed, hint string) {
	a.problems.add(Problem{Place: Place{a.name, n.Line, n.Column}, Field: field, Found: found, Needed: needed, Hint: hint})
}

// branch is a key with a value, or with branches of its own.
type branch struct {
	key   string
	value any
	below []*branch
}

// grow adds a value to the branches.
func grow(all []*branch, path []string, value any) []*branch {
	i := slices.IndexFunc(all, func(b *branch) bool { return b.key == path[0] })
	if i < 0 {
		i = len(all)
		all = append(all, &branch{key: path[0]})
	}
	if len(path) == 1 {
		all[i].value = value
	} else {
		all[i].below = grow(all[i].below, path[1:], value)
	}
	return all
}

func (a *amender) addAll(root, openings *yaml.Node, adds []Addition) {
	trees := map[string][]*branch{}
	var order []string
	for _, one := range adds {
		if _, seen := trees[one.Opening]; !seen {
			order = append(order, one.Opening)
		}
		trees[one.Opening] = grow(trees[one.Opening], one.Path, one.Value)
	}
	homes := map[string]*yaml.Node{"": root}
	for _, o := range openings.Content {
		if id := child(o, "id"); id != nil {
			homes[id.Value] = o
		}
	}
	for _, id := range order {
		home := homes[id]
		if home == nil {
			a.wrong(openings, "openings", fmt.Sprintf("no opening %q", id), "an opening of that id", "")
			continue
		}
		a.into(home, trees[id], id)
	}
}

// into adds branches to a record.
func (a *amender) into(m *yaml.Node, tree []*branch, field string) {
	if m.Kind != yaml.MappingNode || len(m.Content) == 0 && m.Style&yaml.FlowStyle == 0 {
		a.wrong(m, field, describe(m), "fields", "")
		return
	}
	var fresh []*branch
	for _, b := range tree {
		key, value := entry(m, b.key)
		path := field + "." + b.key
		switch {
		case key == nil:
			fresh = append(fresh, b)
		case isBlank(value) && value.Value == "" && b.below == nil:
			a.fill(key, flow(b.value))
		case isBlank(value) && value.Value == "":
			a.fill(key, flowOf(b.below))
		case b.below == nil:
			a.wrong(value, path, describe(value), "no value yet", "what stands there is not replaced")
		default:
			a.into(value, b.below, path)
		}
	}
	if len(fresh) == 0 {
		return
	}
	if m.Style&yaml.FlowStyle != 0 {
		text := strings.TrimSuffix(strings.TrimPrefix(flowOf(fresh), "{"), "}")
		if len(m.Content) > 0 {
			text += ", "
		}
		a.put(a.offset(m.Line, m.Column)+1, text)
		return
	}
	indent := strings.Repeat(" ", m.Content[0].Column-1)
	var b strings.Builder
	for _, one := range fresh {
		a.block(&b, one, indent)
	}
	a.put(a.lineStart(a.after(m)), b.String())
}

// after is the line before which a block record takes a further field: behind the
// last of its fields that takes one line, else before all of them.
func (a *amender) after(m *yaml.Node) int {
	for i := len(m.Content) - 2; i >= 0; i -= 2 {
		key, value := m.Content[i], m.Content[i+1]
		oneLine := value.Line == key.Line && value.Style&(yaml.LiteralStyle|yaml.FoldedStyle) == 0 && !isBlank(value)
		next := key.Line + 1
		if i+2 < len(m.Content) {
			next = m.Content[i+2].Line
		}
		if oneLine && value.Kind == yaml.ScalarNode && (i+2 >= len(m.Content) || next > key.Line) {
			return key.Line + 1
		}
	}
	return m.Content[0].Line
}

// entry is a key of a record with its value, nil where there is none.
func entry(m *yaml.Node, key string) (k, v *yaml.Node) {
	for i := 0; i+1 < len(m.Content); i += 2 {
		if m.Content[i].Value == key {
			return m.Content[i], m.Content[i+1]
		}
	}
	return nil, nil
}

// fill puts a value behind a key that has none.
func (a *amender) fill(key *yaml.Node, value string) {
	at := a.offset(key.Line, key.Column)
	colon := bytes.IndexByte(a.text[at:], ':')
	if colon < 0 {
		a.wrong(key, key.Value, "a key without a colon", "key: value", "")
		return
	}
	a.put(at+colon+1, " "+value)
}

// block writes a branch as lines of a block record.
func (a *amender) block(b *strings.Builder, one *branch, indent string) {
	if one.below == nil {
		b.WriteString(indent + Scalar(one.key) + ": " + flow(one.value) + a.end)
		return
	}
	b.WriteString(indent + Scalar(one.key) + ":" + a.end)
	for _, k := range one.below {
		a.block(b, k, indent+"  ")
	}
}

// append puts further openings behind the last one.
func (a *amender) append(root, openings *yaml.Node, more []byte) {
	if openings.Style&yaml.FlowStyle != 0 || len(openings.Content) == 0 {
		a.wrong(openings, "openings", "a list in brackets", "a list with hyphens, to which openings can be added", "write every opening on a line of its own, with a hyphen before it")
		return
	}
	at := len(a.text)
	for i := 0; i+1 < len(root.Content); i += 2 {
		if root.Content[i+1] == openings && i+2 < len(root.Content) {
			at = a.lineStart(a.behind(root.Content[i+2].Line))
		}
	}
	indent := strings.Repeat(" ", openings.Column-1)
	var b strings.Builder
	if at > 0 && a.text[at-1] != '\n' {
		b.WriteString(a.end)
	}
	for line := range strings.Lines(string(more)) {
		if line = strings.TrimSuffix(line, "\n"); line != "" {
			b.WriteString(indent + line)
		}
		b.WriteString(a.end)
	}
	a.put(at, b.String())
}

// behind is the line after the last one above a key that is no comment and not blank.
func (a *amender) behind(line int) int {
	for ; line > 1; line-- {
		above := bytes.TrimSpace(a.text[a.lineStart(line-1):a.lineStart(line)])
		if len(above) > 0 && above[0] != '#' {
			break
		}
	}
	return line
}

func (a *amender) apply() []byte {
	slices.SortStableFunc(a.edits, func(x, y edit) int { return x.at - y.at })
	var out bytes.Buffer
	last := 0
	for _, e := range a.edits {
		out.Write(a.text[last:e.at])
		if e.at == len(a.text) && e.at > 0 && a.text[e.at-1] != '\n' && out.Len() > 0 && out.Bytes()[out.Len()-1] != '\n' && !strings.HasPrefix(e.text, a.end) {
			out.WriteString(a.end)
		}
		out.WriteString(e.text)
		last = e.at
	}
	out.Write(a.text[last:])
	return out.Bytes()
}

// plainScalar are texts that mean themselves without quotation marks.
var plainScalar = regexp.MustCompile(`^\pL[\pL0-9_]*([ .-][\pL0-9_]+)*$|^[0-9]+([ .-][\pL0-9_]+)*$`)

// Scalar writes a text as a YAML scalar that is read as that text, quoted unless it
// is plain.
func Scalar(text string) string {
	if plainScalar.MatchString(text) {
		switch strings.ToLower(text) {
		case "null", "true", "false", "y", "n", "on", "off": // words that other readers take for something else
		default:
			return text
		}
	}
	return quoted(text)
}

func quoted(text string) string {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(strings.ToValidUTF8(text, "\ufffd")); err != nil {
		return `""`
	}
	return escapeControls(strings.TrimSuffix(b.String(), "\n"))
}

// escapeControls escapes what JSON lets stand and YAML does not.
func escapeControls(s string) string {
	if !strings.ContainsFunc(s, func(c rune) bool { return isControl(c) || c == 0xfeff || c == 0x85 }) {
		return s
	}
	var b strings.Builder
	for _, c := range s {
		if isControl(c) || c == 0xfeff || c == 0x85 {
			fmt.Fprintf(&b, `\u%04x`, c)
		} else {
			b.WriteRune(c)
		}
	}
	return b.String()
}

// flow writes a value on one line.
func flow(value any) string {
	switch v := value.(type) {
	case string:
		return Scalar(v)
	case []any:
		parts := make([]string, len(v))
		for i := range v {
			parts[i] = flowInside(v[i])
		}
		return "[" + strings.Join(parts, ", ") + "]"
	case map[string]any:
		keys := make([]string, 0, len(v))
		for k := range v {
			keys = append(keys, k)
		}
		slices.Sort(keys)
		parts := make([]string, len(keys))
		for i, k := range keys {
			parts[i] = quoted(k) + ": " + flowInside(v[k])
		}
		return "{" + strings.Join(parts, ", ") + "}"
	}
	return quoted(fmt.Sprint(value))
}

func flowInside(value any) string {
	if s, ok := value.(string); ok {
		return quoted(s)
	}
	return flow(value)
}

func flowOf(tree []*branch) string {
	parts := make([]string, len(tree))
	for i, b := range tree {
		value := flowOf(b.below)
		if b.below == nil {
			value = flowInside(b.value)
		}
		parts[i] = Scalar(b.key) + ": " + value
	}
	return "{" + strings.Join(parts, ", ") + "}"
}

// NewOpening writes an opening in YAML, with a hyphen in the first column, from
// values under their paths; the first has to be its id.
func NewOpening(adds []Addition) []byte {
	var tree []*branch
	for _, one := range adds {
		tree = grow(tree, one.Path, one.Value)
	}
	a := &amender{end: "\n"}
	var b strings.Builder
	for _, one := range tree {
		a.block(&b, one, "  ")
	}
	text := b.String()
	if len(text) < 2 {
		return nil
	}
	return []byte("- " + text[2:])
}

// Keeps tells whether everything that a job says is said by another as well, which
// may say more: nil, or what was lost or changed first.
func Keeps(was, is *Job) error {
	if len(is.Openings) < len(was.Openings) {
		return fmt.Errorf("%d openings became %d", len(was.Openings), len(is.Openings))
	}
	for i := range was.Openings {
		if at := changed(openingShape, reflect.ValueOf(&was.Openings[i]).Elem(), reflect.ValueOf(&is.Openings[i]).Elem()); at != "" {
			return fmt.Errorf("opening %s: %s would change", was.Openings[i].ID, at)
		}
	}
	a, b := *was, *is
	a.Openings, b.Openings = nil, nil
	if at := changed(jobShape, reflect.ValueOf(&a).Elem(), reflect.ValueOf(&b).Elem()); at != "" {
		return fmt.Errorf("%s would change", at)
	}
	return nil
}

// changed is the path of the first field that was given and is not the same.
func changed(s *shape, was, is reflect.Value) string {
	for i := range s.fields {
		f := &s.fields[i]
		v, w := was.Field(i), is.Field(i)
		switch {
		case f.shape.form == recordForm:
			if at := changed(f.shape, v, w); at != "" {
				return f.key + "." + at
			}
		case f.shape.form == notesForm:
			if !notesKept(v.Interface(), w.Interface()) {
				return f.key
			}
		case v.IsZero(), reflect.DeepEqual(v.Interface(), w.Interface()):
		default:
			return f.key
		}
	}
	return ""
}

// notesKept tells that all of was stands in is.
func notesKept(was, is any) bool {
	from, ok := was.(map[string]any)
	to, also := is.(map[string]any)
	if !ok || !also {
		return reflect.DeepEqual(was, is)
	}
	for k, v := range from {
		if w, there := to[k]; !there || !notesKept(v, w) {
			return false
		}
	}
	return true
}

// Flow writes a text, or lists and maps of texts, as YAML on one line.
func Flow(value any) string { return flow(value) }
