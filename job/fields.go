package job

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"swingwright/opening"
	"swingwright/quantity"
)

// A Field is one field of an opening that holds a single value of its own: no list,
// no name of a sheet or of another opening.
type Field struct {
	Path    string // as it stands in hints, such as leaf.width
	Doc     string // its meaning, in one sentence
	Choices []string
	shape   *shape
	field   *field
	index   []int // in opening.Opening
}

// OpeningFields lists the fields of an opening that hold a single value, in the
// order of the record.
func OpeningFields() []Field {
	var all []Field
	var walk func(s *shape, path string, index []int)
	walk = func(s *shape, path string, index []int) {
		for i := range s.fields {
			f := &s.fields[i]
			at := append(append([]int(nil), index...), i)
			switch {
			case f.ref != "" || f.whole:
			case f.shape.form == recordForm:
				walk(f.shape, path+f.key+".", at)
			case f.shape.form != listForm && f.shape.form != notesForm:
				all = append(all, Field{path + f.key, f.doc, f.shape.choices, f.shape, f, at})
			}
		}
	}
	walk(openingShape, "", nil)
	return all
}

// Dimension is that of a quantity; false where the field holds none.
func (f *Field) Dimension() (quantity.Dimension, bool) {
	return f.shape.dim, f.shape.form == quantityForm
}

// Nominal tells a field that holds a nominal size.
func (f *Field) Nominal() bool { return f.shape.form == nominalForm }

// Text tells a field that holds any text.
func (f *Field) Text() bool { return f.shape.form == textForm }

// Check tells what is wrong with a text as the value of the field: nil where the job
// file's reader takes it. Blank text and the word unknown are no values.
func (f *Field) Check(text string) error {
	if strings.TrimSpace(text) == "" || f.shape.form == quantityForm && text == unknown {
		return fmt.Errorf("there is no value")
	}
	switch f.shape.form {
	case quantityForm:
		x, _, _, err := quantity.ParseAs(f.shape.dim, text)
		if err != nil {
			return fmt.Errorf("%s", quantity.Reason(err))
		}
		if !f.field.limit.holds(x) {
			return fmt.Errorf("it has to be %s", f.field.limit)
		}
	case nominalForm:
		if _, _, err := quantity.ParseNominal(text); err != nil {
			return fmt.Errorf("%s", quantity.Reason(err))
		}
	case wholeForm:
		if x, err := strconv.Atoi(text); err != nil || !f.field.limit.holds(float64(x)) {
			return fmt.Errorf("it has to be a whole number, %s", f.field.limit)
		}
	case choiceForm:
		for _, c := range f.Choices {
			if c == text {
				return nil
			}
		}
		return fmt.Errorf("it has to be one of %s", strings.Join(f.Choices, ", "))
	}
	return nil
}

// Get is the value of the field as it was written; empty where it was not given.
func (f *Field) Get(o *opening.Opening) string {
	v := reflect.ValueOf(o).Elem().FieldByIndex(f.index)
	switch f.shape.form {
	case quantityForm:
		return v.Field(measuredText).String()
	case nominalForm:
		return v.Interface().(opening.Nominal).Text
	case wholeForm:
		if v.Int() == 0 {
			return ""
		}
		return strconv.FormatInt(v.Int(), 10)
	}
	return v.String()
}

// Same tells that two texts are one value of the field.
func (f *Field) Same(a, b string) bool {
	if a == b {
		return true
	}
	switch f.shape.form {
	case quantityForm:
		x, u, _, errA := quantity.ParseAs(f.shape.dim, a)
		y, w, _, errB := quantity.ParseAs(f.shape.dim, b)
		return errA == nil && errB == nil && x == y && u == w
	case nominalForm:
		w, h, errA := quantity.ParseNominal(a)
		x, y, errB := quantity.ParseNominal(b)
		return errA == nil && errB == nil && w == x && h == y
	}
	return false
}

// ListsGiven names the fields of openings that OpeningFields leaves out and any of
// them gives: lists, notes, and names of sheets and of other openings.
func ListsGiven(openings []opening.Opening) (paths []string) {
	var walk func(s *shape, path string, index []int)
	walk = func(s *shape, path string, index []int) {
		for i := range s.fields {
			f := &s.fields[i]
			at := append(append([]int(nil), index...), i)
			if f.shape.form == recordForm && !f.whole {
				walk(f.shape, path+f.key+".", at)
				continue
			}
			if f.ref == "" && f.shape.form != listForm && !f.whole {
				continue
			}
			for k := range openings {
				if !reflect.ValueOf(&openings[k]).Elem().FieldByIndex(at).IsZero() {
					paths = append(paths, path+f.key)
					break
				}
			}
		}
	}
	walk(openingShape, "", nil)
	return paths
}
