package packet

import (
	"reflect"
	"regexp"
	"strings"

	"swingwright/decision"
	"swingwright/fact"
	"swingwright/internal/paper"
	"swingwright/opening"
	"swingwright/quantity"
)

func noSurvey(s *sheet) string {
	if len(s.Decision.Questions) == 0 {
		return "nothing is missing"
	}
	return ""
}

// surveyParts are the rounds in which one goes about an opening, by the first word of
// the fields that belong to each.
var surveyParts = [...]struct {
	title string
	of    []string
}{
	{"What it is for", []string{"use", "opening", "building", "safety", "service"}},
	{"Fire", []string{"fire"}},
	{"Leaf", []string{"leaf"}},
	{"Frame and hinges", []string{"frame", "hinges", "hinge"}},
	{"The way through, walls, ceiling and floor", []string{"doorway", "room", "approach", "gap", "threshold", "hardware"}},
	{"Closer and arm", []string{"closer"}},
	{"Operator", []string{"operator"}},
	{"Lock, latch and seals", []string{"lock", "latch", "seal"}},
	{"Air and weather", []string{"air", "pressure"}},
	{"Power, switches and cord", []string{"power", "controls", "control", "door_loop"}},
	{"Signs", []string{"signs", "sign"}},
	{"To be measured at the leaf", []string{"closing", "hand", "powered"}},
	{"To be looked up in the makers' papers", []string{"sheets"}},
}

// survey lists what is not known, round by round, with blanks.
func survey(s *sheet) {
	s.Say("Take it along and write in it. A square (■) marks what nothing can be reckoned without. Measure from the hinge side, write the unit and, where you know it, the spread, and photograph both sides. What you cannot find out stays blank: nothing is guessed.")
	s.Blanks(paper.Blank{Label: "surveyed by", Share: 2}, paper.Blank{Label: "date", Share: 1}, paper.Blank{Label: "temperature at the closer", Share: 1}, paper.Blank{Label: "instruments", Share: 2})
	done := map[string]bool{}
	for _, part := range surveyParts {
		var list []*decision.Question
		for i := range s.Decision.Questions {
			q := &s.Decision.Questions[i]
			for _, of := range part.of {
				if first(q.Field) == of && !done[q.Field] {
					list = append(list, q)
					done[q.Field] = true
				}
			}
		}
		s.round(part.title, list)
	}
	var rest []*decision.Question
	for i := range s.Decision.Questions {
		if q := &s.Decision.Questions[i]; !done[q.Field] {
			rest = append(rest, q)
		}
	}
	s.round("Other", rest)
	s.photos()
}

func (s *sheet) round(title string, list []*decision.Question) {
	if len(list) == 0 {
		return
	}
	s.Heading(title)
	t := paper.NewTable("", "what is not known", "how to find it out", "found")
	t.Columns[0].Width = 3
	t.Columns[1].Width, t.Columns[2].Grow, t.Columns[3].Width = 0.36*s.Width(), 1, 38
	for _, q := range list {
		mark := ""
		if q.Stops != "" {
			mark = "■"
		}
		t.Cells(paper.Cell{Text: mark}, paper.Cell{Text: asked(q.Field)}, paper.Cell{Text: howTo(q)}, paper.Cell{Line: true})
	}
	s.Table(t)
}

// howTo is how to find something out, or why it is wanted.
func howTo(q *decision.Question) string {
	switch {
	case q.How != "" && !strings.HasPrefix(q.How, "To be "):
		return q.How
	case q.Why != "" && !strings.HasPrefix(q.Why, "Rules ask for it."):
		return q.Why
	}
	id, ok := fact.Lookup(q.Field)
	if !ok {
		return "Look, or ask."
	}
	switch row := id.Fact(); row.Kind {
	case fact.YesNo:
		return "Yes or no."
	case fact.Choice:
		return "One of " + strings.Join(row.Choices, ", ") + "."
	default:
		return orElse(with[row.Dim], "Measure it.")
	}
}

// with is what a quantity is found out with.
var with = map[quantity.Dimension]string{
	quantity.DimLength: "Tape or rule.", quantity.DimForce: "Force gauge.", quantity.DimTorque: "Force gauge; write its distance from the hinge pin.",
	quantity.DimTime: "Stopwatch.", quantity.DimAngle: "Angle finder.", quantity.DimRatio: "Count it, or read it off.", quantity.DimMass: "Scale.",
}

// photos is the usual set of photographs (common practice, from memory).
func (s *sheet) photos() {
	s.Heading("Photographs, each with a rule in the picture")
	t := paper.NewTable("", "")
	t.Columns[0].Width = s.Width()/2 - 2
	all := [...]string{
		"whole opening, pull side and push side", "head with closer, pull side and push side", "hinge edge, and latch edge with strike",
		"fire labels of leaf and frame, or the places where they would be", "wall beside the open leaf; ceiling above", "nearest power; reader and lock, where there are any",
	}
	for i := 0; i < len(all); i += 2 {
		t.Cells(paper.Cell{Text: upper(all[i]), Tick: true}, paper.Cell{Text: upper(all[i+1]), Tick: true})
	}
	s.Table(t)
}

func first(field string) string {
	name, _, _ := strings.Cut(field, ".")
	name, _, _ = strings.Cut(name, "[")
	return name
}

var index = regexp.MustCompile(`\[[^\]]*\]`)

// asked is what a field means, in the words of the schema or of the facts table, and
// the field's name for whoever types it in.
func asked(field string) string {
	if id, ok := fact.Lookup(field); ok {
		return id.Fact().Meaning
	}
	path := strings.Split(index.ReplaceAllString(field, ""), ".")
	at := reflect.TypeFor[opening.Opening]()
	if path[0] == "sheets" {
		at, path = reflect.TypeFor[opening.Sheets](), path[1:]
	}
	doc := ""
	for _, key := range path {
		for at.Kind() == reflect.Slice || at.Kind() == reflect.Pointer {
			at = at.Elem()
		}
		found := false
		for i := 0; at.Kind() == reflect.Struct && i < at.NumField(); i++ {
			if f := at.Field(i); f.Tag.Get("key") == key {
				doc, at, found = f.Tag.Get("doc"), f.Type, true
				break
			}
		}
		if !found {
			return field
		}
	}
	if strings.Contains(field, "[") {
		return doc + " (" + field + ")"
	}
	return orElse(doc, field)
}
