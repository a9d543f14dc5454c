package job

import (
	"strings"

	"swingwright/quantity"
)

// An Entry tells how one field of the record is written, for a form that asks for it.
type Entry struct {
	Path    string             // from the opening, such as closer.sweep_time
	Doc     string             // its meaning, in one sentence for people
	Kind    string             // text, number, quantity, choice, nominal, record, list or notes
	Dim     quantity.Dimension // of a quantity
	Choices []string           // of a choice
	Ref     string             // the sort of thing whose name it must be, such as closer; else empty
	Names   string             // the sort of thing that it names; else empty
	Fields  []string           // keys of a record, in their order
}

var formNames = [...]string{textForm: "text", wholeForm: "number", quantityForm: "quantity", choiceForm: "choice", nominalForm: "nominal", recordForm: "record", listForm: "list", notesForm: "notes"}

// EntryOf finds a field of an opening by its path, such as closer.sweep_time or
// room.things[0].from; false where an opening has no such field.
func EntryOf(path string) (Entry, bool) {
	s, f := openingShape, (*field)(nil)
	for _, step := range strings.Split(strings.ReplaceAll(path, "[", ".["), ".") {
		switch {
		case strings.HasPrefix(step, "[") && s.form == listForm:
			s = s.elem
		case s.form == recordForm:
			at, ok := s.byKey[step]
			if !ok {
				return Entry{}, false
			}
			f = &s.fields[at]
			s = f.shape
		default:
			return Entry{}, false
		}
	}
	if f == nil {
		return Entry{}, false
	}
	out := Entry{Path: path, Doc: f.doc, Kind: formNames[s.form], Dim: s.dim, Choices: s.choices, Ref: f.ref, Names: f.names}
	for i := range s.fields {
		out.Fields = append(out.Fields, s.fields[i].key)
	}
	return out, true
}
