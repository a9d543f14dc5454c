package job

import (
	"fmt"
	"reflect"
	"slices"

	"swingwright/opening"
)

// Change returns an opening of a job as it would be with some of its fields changed:
// text is YAML as it stands under an opening, such as "closer: {arm: arm T}". Its
// name, readings and survey notes are not taken over. Problems are told with the
// place in the text, under the name given for it.
func Change(j *Job, id, text, name string) (*opening.Opening, error) {
	i := slices.IndexFunc(j.Openings, func(o opening.Opening) bool { return o.ID == id })
	if i < 0 {
		return nil, fmt.Errorf("the job has no opening %q", id)
	}
	r := &reader{names: namesOf(j)}
	o := opening.Opening{}
	if plain, p := plainText(name, []byte(text)); p != nil {
		r.problems.add(*p)
	} else if root, p := parse(name, plain); p != nil {
		r.problems.add(*p)
	} else {
		w := &walker{reader: r, file: name, lines: linesOf(plain)}
		w.value(root, changeShape, nil, reflect.ValueOf(&o).Elem())
	}
	r.checkReferences()
	if err := r.problems.err(); err != nil {
		return nil, err
	}
	inherit(openingShape, reflect.ValueOf(&o).Elem(), reflect.ValueOf(&j.Openings[i]).Elem())
	o.ID, o.InPlaceOf = id, id
	return &o, nil
}

// changeShape is that of an opening that need not have a name.
var changeShape = func() *shape {
	s := *openingShape
	s.fields = slices.Clone(s.fields)
	for i := range s.fields {
		s.fields[i].need, s.fields[i].names = false, ""
	}
	return &s
}()

// namesOf are the names of openings and sheets that a job has.
func namesOf(j *Job) map[thing]Place {
	names := map[thing]Place{}
	for i := range j.Openings {
		names[thing{"opening", j.Openings[i].ID}] = Place{}
	}
	sheets := reflect.ValueOf(&j.Sheets).Elem()
	for i := range sheetsShape.fields {
		sort := sheetsShape.fields[i].shape.elem
		at := slices.IndexFunc(sort.fields, func(f field) bool { return f.names != "" })
		for k := range sheets.Field(i).Len() {
			names[thing{sort.fields[at].names, sheets.Field(i).Index(k).Field(at).String()}] = Place{}
		}
	}
	return names
}
