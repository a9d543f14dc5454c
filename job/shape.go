package job

import (
	"math"
	"reflect"
	"strconv"

	"swingwright/opening"
	"swingwright/quantity"
)

// form is how a value is written.
type form uint8

const (
	textForm     form = iota
	wholeForm         // whole number
	quantityForm      // quantity.Measured
	choiceForm        // one of a few words
	nominalForm       // opening.Nominal
	recordForm        // struct: keys and values
	listForm          // slice of any other form
	notesForm         // map kept as it is
)

// A shape is what the tags and the type of a field say about its value. The
// reader, the schema, the starter file and the hints all follow from it.
type shape struct {
	form    form
	typ     reflect.Type
	dim     quantity.Dimension // quantityForm
	choices []string           // choiceForm
	fields  []field            // recordForm, in the order of the struct
	byKey   map[string]int     // recordForm, indices of fields
	elem    *shape             // listForm
}

// A field is one field of a record: its tags, read.
type field struct {
	key, doc, form, names, ref string
	need, own, whole           bool
	limit                      limit
	shape                      *shape
}

// limit is the span of numbers in SI that a value may have.
type limit struct {
	low, high float64 // infinite where there is none
	open      bool    // low itself is out
}

func (l limit) holds(x float64) bool {
	return x <= l.high && (x > l.low || x == l.low && !l.open)
}

func (l limit) String() string {
	low, high := strconv.FormatFloat(l.low, 'g', -1, 64), strconv.FormatFloat(l.high, 'g', -1, 64)
	switch {
	case math.IsInf(l.high, 1) && l.open:
		return "above " + low
	case math.IsInf(l.high, 1):
		return low + " or more"
	case l.open:
		return "above " + low + ", at most " + high
	}
	return "from " + low + " to " + high
}

var (
	jobShape    = shapeOf(reflect.TypeFor[Job]())
	sheetsShape = shapeOf(reflect.TypeFor[opening.Sheets]())
)

// shapeOf reads the tags of t and of all that it holds.
func shapeOf(t reflect.Type) *shape {
	s := &shape{typ: t}
	switch {
	case t == reflect.TypeFor[opening.Nominal]():
		s.form = nominalForm
	case isMeasured(t):
		s.form = quantityForm
		s.dim = reflect.Zero(t.Field(0).Type).Interface().(dimensioned).Dimension()
	case t.Kind() == reflect.Struct:
		s.form = recordForm
		s.fields, s.byKey = fieldsOf(t)
	case t.Kind() == reflect.Slice:
		s.form = listForm
		s.elem = shapeOf(t.Elem())
	case t.Kind() == reflect.Map:
		s.form = notesForm
	case t.Kind() == reflect.Int:
		s.form = wholeForm
	case t.Implements(reflect.TypeFor[chooser]()):
		s.form = choiceForm
		s.choices = reflect.Zero(t).Interface().(chooser).Choices()
	}
	return s
}

type chooser interface{ Choices() []string }

type dimensioned interface{ Dimension() quantity.Dimension }

// isMeasured tells a quantity.Measured of whatever quantity.
func isMeasured(t reflect.Type) bool {
	return t.Kind() == reflect.Struct && t.NumField() > 0 && t.Field(0).Name == "Value" &&
		t.Field(0).Type.Implements(reflect.TypeFor[dimensioned]())
}

func fieldsOf(t reflect.Type) ([]field, map[string]int) {
	fields := make([]field, t.NumField())
	byKey := make(map[string]int, len(fields))
	for i := range fields {
		tag := t.Field(i).Tag
		fields[i] = field{
			key: tag.Get("key"), doc: tag.Get("doc"), form: tag.Get("form"), names: tag.Get("names"), ref: tag.Get("ref"),
			need: tag.Get("need") == "yes", own: tag.Get("own") == "yes", whole: tag.Get("whole") == "yes",
			limit: limitOf(tag), shape: shapeOf(t.Field(i).Type),
		}
		byKey[fields[i].key] = i
	}
	return fields, byKey
}

func limitOf(tag reflect.StructTag) limit {
	l := limit{low: math.Inf(-1), high: math.Inf(1)}
	if x, err := strconv.ParseFloat(tag.Get("over"), 64); err == nil {
		l.low, l.open = x, true
	}
	if x, err := strconv.ParseFloat(tag.Get("from"), 64); err == nil {
		l.low = x
	}
	if x, err := strconv.ParseFloat(tag.Get("to"), 64); err == nil {
		l.high = x
	}
	return l
}
