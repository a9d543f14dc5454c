package job

import (
	_ "embed"
	"strings"
	"unicode/utf8"
)

//go:embed starter.yaml
var starterLines string

// Starter is the commented file with which a job begins: a small job that
// computes as it stands, with the meaning of every field behind it.
func Starter() []byte {
	var b strings.Builder
	records := map[int]*shape{0: jobShape} // by the indentation of their keys
	for line := range strings.Lines(starterLines) {
		line = strings.TrimSuffix(line, "\n")
		if prose, isProse := strings.CutPrefix(line, "##"); isProse {
			b.WriteString("#" + prose + "\n")
			continue
		}
		f, indent := keyOf(line, records)
		if f == nil {
			b.WriteString(line + "\n")
			continue
		}
		records[indent+2] = f.shape
		if f.shape.form == listForm {
			records[indent+4] = f.shape.elem
		}
		writeCommented(&b, line, explain(f))
	}
	return []byte(b.String())
}

// keyOf finds the field that a line of the starter file gives, and the
// indentation of its key. The file indents by two, and list items by two more.
func keyOf(line string, records map[int]*shape) (*field, int) {
	line = strings.TrimPrefix(line, "# ") // it does not count as it stands, but may
	plain := strings.TrimLeft(line, " ")
	indent := len(line) - len(plain)
	if item, isItem := strings.CutPrefix(plain, "- "); isItem {
		plain, indent = item, indent+2
	}
	key, _, found := strings.Cut(plain, ":")
	s := records[indent]
	if !found || s == nil {
		return nil, 0
	}
	i, found := s.byKey[key]
	if !found {
		return nil, 0
	}
	return &s.fields[i], indent
}

// explain is the meaning of a field and the words that it takes.
func explain(f *field) string {
	if f.shape.form == choiceForm {
		return f.doc + " One of: " + strings.Join(f.shape.choices, ", ") + "."
	}
	return f.doc
}

// The layout of the starter file, in characters.
const (
	commentColumn = 42
	widestLine    = 104
)

// writeCommented writes a line with a comment beside it, wrapped within its column.
func writeCommented(b *strings.Builder, line, comment string) {
	width := commentColumn - 2
	b.WriteString(line)
	at := utf8.RuneCountInString(line)
	if at > width {
		b.WriteByte('\n')
		at = 0
	}
	column := 0
	for _, word := range strings.Fields(comment) {
		switch {
		case column == 0:
			b.WriteString(strings.Repeat(" ", commentColumn-at) + "#")
			column = commentColumn + 1
		case column+1+utf8.RuneCountInString(word) > widestLine:
			b.WriteString("\n" + strings.Repeat(" ", commentColumn) + "#")
			column = commentColumn + 1
		}
		b.WriteString(" " + word)
		column += 1 + utf8.RuneCountInString(word)
	}
	b.WriteByte('\n')
}
