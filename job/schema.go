package job

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"

	"swingwright/fact"
	"swingwright/quantity"
)

// Schema is the JSON Schema (draft 2020-12) of a job file, with which editors
// check and complete what is typed. It refuses nothing that Decode takes; what
// takes units, names or several files to see, only Decode can refuse.
func Schema() []byte { return schemaText(jobShape, "A job: a set of openings.") }

// SheetsSchema is the JSON Schema of a file with hardware sheets.
func SheetsSchema() []byte {
	return schemaText(sheetsShape, "Hardware sheets, copied from the makers' papers.")
}

func schemaText(s *shape, title string) []byte {
	root := schemaOf(s, nil)
	root.Schema, root.Title = "https://json-schema.org/draft/2020-12/schema", title
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(root); err != nil {
		panic(err) // never: the schema is made of strings and finite numbers
	}
	return b.Bytes()
}

// schema is the part of JSON Schema in use here. A nil pointer says nothing.
type schema struct {
	Schema      string     `json:"$schema,omitempty"`
	Title       string     `json:"title,omitempty"`
	Description string     `json:"description,omitempty"`
	Type        []string   `json:"type,omitempty"`
	Enum        []*string  `json:"enum,omitempty"` // a nil stands for null
	Pattern     string     `json:"pattern,omitempty"`
	MinLength   int        `json:"minLength,omitempty"`
	Minimum     *float64   `json:"minimum,omitempty"`
	Above       *float64   `json:"exclusiveMinimum,omitempty"`
	Maximum     *float64   `json:"maximum,omitempty"`
	Examples    []string   `json:"examples,omitempty"`
	Required    []string   `json:"required,omitempty"`
	Properties  properties `json:"properties,omitempty"`
	Others      *bool      `json:"additionalProperties,omitempty"`
	Items       *schema    `json:"items,omitempty"`
	MinItems    int        `json:"minItems,omitempty"`
}

// properties keep the order of the record, which is the order of the work.
type properties []property

type property struct {
	key   string
	value *schema
}

// MarshalJSON writes the properties as one object.
func (ps properties) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, p := range ps {
		value, err := json.Marshal(p.value)
		if err != nil {
			return nil, err
		}
		if i > 0 {
			b.WriteByte(',')
		}
		key, err := json.Marshal(p.key)
		if err != nil {
			return nil, err
		}
		b.Write(key)
		b.WriteByte(':')
		b.Write(value)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// schemaOf describes values of shape s in field f, which is nil at the root and
// in lists. A value that need not be given may be left empty.
func schemaOf(s *shape, f *field) *schema {
	x := new(schema)
	switch s.form {
	case textForm:
		x.Type = []string{"string", "number", "boolean"} // 101 and yes are texts to us
	case wholeForm:
		x.Type, x.Pattern = []string{"integer", "string"}, `^[0-9]+$`
	case quantityForm:
		x.quantity(s.dim)
	case choiceForm:
		x.Type, x.Enum = []string{"string"}, pointers(s.choices)
	case nominalForm:
		x.Type, x.Examples = []string{"string", "integer"}, []string{"3070", "3-0 x 7-0"}
	case recordForm:
		x.record(s)
	case listForm:
		x.Type, x.Items = []string{"array"}, schemaOf(s.elem, nil)
	case notesForm:
		x.Type = []string{"object"}
	}
	if f != nil {
		x.field(f)
	}
	return x
}

// quantity describes a number with its unit. Only a ratio may be a bare number.
func (x *schema) quantity(dim quantity.Dimension) {
	e := examples[dim]
	x.Type, x.Examples = []string{"string"}, e[:]
	if dim == quantity.DimRatio {
		x.Type = append(x.Type, "number")
		return
	}
	x.Pattern = `^unknown$|[0-9¼½¾⅛⅜⅝⅞].*[^-0-9\s.,/±+]`
}

func (x *schema) record(s *shape) {
	x.Type, x.Others = []string{"object"}, new(bool)
	for i := range s.fields {
		f := &s.fields[i]
		x.Properties = append(x.Properties, property{f.key, schemaOf(f.shape, f)})
		if f.need {
			x.Required = append(x.Required, f.key)
		}
	}
}

// field adds what the tags of a field say.
func (x *schema) field(f *field) {
	x.Description = f.doc
	if f.shape.form == quantityForm && f.shape.dim != quantity.DimRatio {
		x.Description += " Written with " + strings.Join(quantity.UnitsOf(f.shape.dim), ", ") + "."
	}
	if f.form == "date" {
		x.Type, x.Pattern = []string{"string"}, `^[0-9]{4}-[0-9]{2}-[0-9]{2}$`
	}
	if f.ref == "fact" {
		x.Type, x.Enum = []string{"string"}, pointers(fact.Names())
	}
	if f.shape.form == wholeForm || f.shape.form == quantityForm && f.shape.dim == quantity.DimRatio {
		x.limit(f.limit)
	}
	switch {
	case !f.need:
		x.Type = append(x.Type, "null")
		if x.Enum != nil {
			x.Enum = append(x.Enum, nil)
		}
	case f.shape.form == listForm:
		x.MinItems = 1
	case f.shape.form == textForm:
		x.MinLength = 1
	}
}

// limit bounds a bare number.
func (x *schema) limit(l limit) {
	if !math.IsInf(l.low, 0) && l.open {
		x.Above = &l.low
	} else if !math.IsInf(l.low, 0) {
		x.Minimum = &l.low
	}
	if !math.IsInf(l.high, 0) {
		x.Maximum = &l.high
	}
}

func pointers(words []string) []*string {
	p := make([]*string, len(words))
	for i := range words {
		p[i] = &words[i]
	}
	return p
}
