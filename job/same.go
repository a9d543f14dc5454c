package job

import (
	"cmp"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"swingwright/opening"
)

// takeOver fills in the fields that openings take over from others by same_as or
// in_place_of.
func (r *reader) takeOver(openings []opening.Opening) {
	index := make(map[string]int, len(openings))
	for i := range openings {
		index[openings[i].ID] = i
	}
	done := make([]bool, len(openings))
	for i := range openings {
		r.follow(openings, index, done, i)
	}
}

// follow fills in one opening and, before it, those that it is the same as. It
// walks the chain up to an opening that is complete, then back down.
func (r *reader) follow(openings []opening.Opening, index map[string]int, done []bool, start int) {
	var chain []int
	for at, found := start, true; found && !done[at]; at, found = target(openings, index, at) {
		if k := slices.Index(chain, at); k >= 0 {
			r.circle(openings, chain[k:])
			break
		}
		chain = append(chain, at)
	}
	for k := len(chain) - 1; k >= 0; k-- {
		heir := chain[k]
		if from, found := target(openings, index, heir); found && done[from] {
			inherit(openingShape, reflect.ValueOf(&openings[heir]).Elem(), reflect.ValueOf(&openings[from]).Elem())
		}
		done[heir] = true
	}
}

// target is the opening that another is the same as, if there is one.
func target(openings []opening.Opening, index map[string]int, heir int) (int, bool) {
	from := cmp.Or(openings[heir].SameAs, openings[heir].InPlaceOf)
	if from == "" {
		return 0, false
	}
	i, found := index[from]
	return i, found
}

var openingShape = shapeOf(reflect.TypeFor[opening.Opening]())

// circle reports openings that are the same as each other, all around.
func (r *reader) circle(openings []opening.Opening, chain []int) {
	names := make([]string, 0, len(chain)+1)
	for _, i := range chain {
		names = append(names, openings[i].ID)
	}
	names = append(names, names[0])
	key := "same_as"
	if openings[chain[0]].SameAs == "" {
		key = "in_place_of"
	}
	field := fmt.Sprintf("openings[%d].%s", chain[0], key)
	p := Problem{Field: field, Found: "a circle, " + strings.Join(names, " → "), Needed: "a chain that ends",
		Hint: "one of them has to give its own fields"}
	if i := slices.IndexFunc(r.references, func(ref reference) bool { return ref.field == field }); i >= 0 {
		p.Place = r.references[i].place
	}
	r.problems.add(p)
}

// inherit sets the fields of heir that were not given to those of from: field
// by field in records, whole lists, and nothing that is an opening's own.
func inherit(s *shape, heir, from reflect.Value) {
	for i := range s.fields {
		f := &s.fields[i]
		switch {
		case f.own:
		case f.shape.form == recordForm && !f.whole:
			inherit(f.shape, heir.Field(i), from.Field(i))
		case heir.Field(i).IsZero():
			heir.Field(i).Set(from.Field(i))
		}
	}
}
