package author

import (
	"strings"

	yaml "go.yaml.in/yaml/v4"

	"swingwright/rulebook"
)

// source reads where a limit stands. What a record lacks makes it worthless: nobody
// could compare it again; so all of it is needed.
func (b *builder) source(n *yaml.Node, path string) rulebook.Source {
	rec := b.record(n, path, []string{"clause", "confidence"}, "table", "page", "how", "inputs", "checked_by", "checked_on", "says")
	s := rulebook.Source{
		Clause: rec.text("clause"), Table: rec.text("table"), Page: rec.text("page"),
		Confidence: rulebook.Confidence(rec.word("confidence", rulebook.Confidences())),
		How:        rec.text("how"),
		CheckedBy:  rec.text("checked_by"), CheckedOn: rec.date("checked_on"), Says: rec.text("says"),
	}
	for _, key := range []string{"clause", "confidence"} {
		if rec.values[key] != nil && rec.text(key) == "" {
			rec.wrong(rec.values[key], rec.field(key), "", rec.want(key), "")
		}
	}
	switch s.Confidence {
	case rulebook.FromMemory, rulebook.CommonPractice:
	default:
		if s.CheckedBy == "" {
			rec.wrong(n, rec.field("checked_by"), "", "who compared the record with the text", "or set confidence to from memory: the limit then cautions and never passes")
		}
		if s.CheckedOn == "" && rec.text("checked_on") == "" {
			rec.wrong(n, rec.field("checked_on"), "", "the day of the comparison, such as 2026-11-25", "")
		}
	}
	if s.Confidence == rulebook.Derived {
		rec.derivation(&s)
	}
	return s
}

// derivation reads from what a derived figure was worked out.
func (rec record) derivation(s *rulebook.Source) {
	if s.How == "" {
		rec.wrong(rec.node, rec.field("how"), "", "from what the figure was derived, by which sum", "")
	}
	switch rec.text("inputs") {
	case "confirmed":
		s.Inputs = true
	case "not confirmed":
	default:
		rec.wrong(rec.node, rec.field("inputs"), rec.text("inputs"), "confirmed, or not confirmed", "say whether every figure that went in was read in published text")
	}
}

// listed joins words for a sentence.
func listed(words []string) string { return strings.Join(words, ", ") }
