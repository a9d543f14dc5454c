package onsite

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"swingwright/job"
	"swingwright/opening"
	"swingwright/quantity"
)

// A Question of the survey asks for one thing; a thing may be told in several ways,
// or take several fields.
type Question struct {
	Gap   string `json:"gap"`   // the field that is missing
	Stops string `json:"stops"` // what cannot be reckoned without it; empty where a wide assumed value stands in
	Why   string `json:"why"`
	How   string `json:"how"`
	// Parts are the fields to fill in. Where Either, any one of them is enough.
	Parts  []Part `json:"parts"`
	Either bool   `json:"either"`
}

// A Part is one field of a question.
type Part struct {
	Path    string   `json:"path"`
	Doc     string   `json:"doc"`
	Kind    string   `json:"kind"`    // quantity, choice, number, nominal or text
	Dim     string   `json:"dim"`     // of a quantity
	Unit    string   `json:"unit"`    // in which the reader gives a quantity
	Step    float64  `json:"step"`    // of a stepper, in that unit
	Choices []string `json:"choices"` // of a choice, or the names of the sheets there are
	Last    string   `json:"last"`    // what stands in this field at the opening before, in this reader's units where it is a quantity
	Told    string   `json:"told"`    // what stands here already
}

// Surveyed is the answer to "survey".
type Surveyed struct {
	Questions []Question      `json:"questions"` // in the order of the record
	Doubts    []opening.Doubt `json:"doubts"`
	Last      string          `json:"last"` // the opening before, whose answers are offered
}

// ways are the fields by which a gap can be closed, where it takes another than its own.
var ways = map[string]struct {
	fields []string
	either bool
}{
	"latch.force":       {[]string{"latch.none", "latch.sheet", "latch.force"}, true},
	"seal.force":        {[]string{"seal.none", "seal.sheet", "seal.force"}, true},
	"closer":            {[]string{"closer.none", "closer.sheet", "closer.arm", "closer.size"}, false},
	"frame.pin_to_edge": {[]string{"frame.pin_to_edge", "frame.pin_to_face"}, false},
	"frame.lean_over":   {[]string{"frame.lean_over", "frame.lean_toward"}, false},
	"frame.friction":    {[]string{"frame.friction", "frame.friction_at"}, false},
	"operator.speed":    {[]string{"operator.speed_setting", "operator.speed"}, true},
	"closer.gauged":     {[]string{"closer.gauged[0].angle", "closer.gauged[0].opening", "closer.gauged[0].closing", "closer.gauged[0].at"}, false},
	"leaf.width":        {[]string{"leaf.width", "leaf.nominal"}, true},
}

// steps are how far one press of a stepper goes, in the unit in which it is shown.
var steps = map[quantity.Dimension][2]float64{ // SI, US
	quantity.DimLength: {1, 0.0625}, quantity.DimAngle: {1, 1}, quantity.DimMass: {0.5, 1}, quantity.DimTime: {0.1, 0.1},
	quantity.DimForce: {0.5, 0.1}, quantity.DimPressure: {1, 0.01}, quantity.DimTurns: {0.125, 0.125}, quantity.DimTemperature: {1, 1},
	quantity.DimRatio: {1, 1}, quantity.DimSpeed: {0.5, 1},
}

// survey answers what is still to be found out at an opening, one thing after another.
func (e *Engine) survey(a *Asked) (any, error) {
	t, err := e.understand(a)
	if err != nil {
		return nil, err
	}
	o := t.opening
	out := Surveyed{Questions: []Question{}, Doubts: append(append([]opening.Doubt{}, opening.Implausible(o)...), opening.ImplausibleHardware(o, &t.job.Sheets)...)}
	before := t.before()
	if before != nil {
		out.Last = before.ID
	}
	gaps := slices.Concat(opening.Missing(o, &t.job.Sheets), opening.MissingAir(o, &t.job.Climate))
	for _, g := range gaps {
		q := Question{Gap: g.Field, Stops: g.Stops, Why: g.Why, How: g.How, Parts: []Part{}}
		fields := []string{g.Field}
		if way, ok := ways[g.Field]; ok {
			fields, q.Either = way.fields, way.either
		}
		for _, path := range fields {
			q.Parts = append(q.Parts, t.parts(path, before)...)
		}
		out.Questions = append(out.Questions, q)
	}
	return out, nil
}

// before is the opening that stands before the one in question in the job; nil for the first.
func (t *task) before() *opening.Opening {
	i := slices.IndexFunc(t.job.Openings, func(o opening.Opening) bool { return o.ID == t.opening.ID })
	for i--; i >= 0; i-- {
		if t.job.Openings[i].InPlaceOf == "" {
			return &t.job.Openings[i]
		}
	}
	return nil
}

// parts are the fields to fill in for a path: itself, or those of a record.
func (t *task) parts(path string, before *opening.Opening) (parts []Part) {
	f, ok := job.EntryOf(path)
	if !ok {
		return nil // of a sheet, which is not asked for at the leaf
	}
	switch f.Kind {
	case "record":
		for _, key := range f.Fields {
			parts = append(parts, t.parts(path+"."+key, before)...)
		}
		return parts
	case "list", "notes":
		return nil
	}
	p := Part{Path: path, Doc: f.Doc, Kind: f.Kind, Choices: f.Choices, Told: written(t.opening, path)}
	if strings.HasSuffix(path, ".none") {
		p.Choices = []string{"yes"}
	}
	if f.Ref != "" {
		p.Choices = t.sheets(f.Ref)
		p.Kind = "sheet"
	}
	if p.Choices == nil {
		p.Choices = []string{}
	}
	if f.Kind == "quantity" {
		p.Dim, p.Unit, p.Step = f.Dim.String(), quantity.Unit(f.Dim, t.units), 1
		if s, ok := steps[f.Dim]; ok {
			p.Step = s[0]
			if t.units == quantity.US {
				p.Step = s[1]
			}
		}
	}
	if before != nil {
		p.Last = written(before, path)
	}
	return append(parts, p)
}

// sheets are the names of the job's sheets of a sort.
func (t *task) sheets(sort string) (names []string) {
	v := reflect.ValueOf(&t.job.Sheets).Elem()
	for i := range v.NumField() {
		list := v.Field(i)
		for k := range list.Len() {
			one := list.Index(k)
			at := nameOf(one.Type(), sort)
			if at >= 0 {
				names = append(names, one.Field(at).String())
			}
		}
	}
	return names
}

// nameOf is the field by which a sheet of a sort is named; below 0 for another sort.
func nameOf(t reflect.Type, sort string) int {
	for i := range t.NumField() {
		if t.Field(i).Tag.Get("names") == sort {
			return i
		}
	}
	return -1
}

// written is what stands in a field of an opening as it was written; empty where
// nothing does.
func written(o *opening.Opening, path string) string {
	v := reflect.ValueOf(o).Elem()
	for _, step := range strings.Split(path, ".") {
		key, index, _ := strings.Cut(step, "[")
		v = under(v, key)
		if !v.IsValid() {
			return ""
		}
		if index != "" {
			var n int
			if _, err := fmt.Sscanf(index, "%d]", &n); err != nil || v.Kind() != reflect.Slice || n >= v.Len() {
				return ""
			}
			v = v.Index(n)
		}
	}
	switch {
	case v.Kind() == reflect.String:
		return v.String()
	case v.Kind() == reflect.Struct && v.FieldByName("Text").IsValid():
		return v.FieldByName("Text").String()
	case v.Kind() == reflect.Int && v.Int() != 0:
		return fmt.Sprint(v.Int())
	}
	return ""
}

// under is the field of a record with a key.
func under(v reflect.Value, key string) reflect.Value {
	if v.Kind() == reflect.Struct {
		for i := range v.NumField() {
			if v.Type().Field(i).Tag.Get("key") == key {
				return v.Field(i)
			}
		}
	}
	return reflect.Value{}
}

// Valued is the answer to "value".
type Valued struct {
	OK     bool    `json:"ok"`
	Reason string  `json:"reason"` // what is wrong, and what is needed
	Number float64 `json:"number"` // in Unit
	Unit   string  `json:"unit"`   // the reader's
	Shown  string  `json:"shown"`
}

// value answers how a text reads as the value of a field.
func (e *Engine) value(a *Asked) (any, error) {
	f, ok := job.EntryOf(a.Field)
	if !ok || f.Kind != "quantity" {
		return nil, fmt.Errorf("%s is no field of an opening that has a quantity", a.Field)
	}
	v, u, _, err := quantity.ParseAs(f.Dim, a.Text)
	if err != nil {
		return Valued{Reason: err.Error() + "; " + quantity.Reason(err)}, nil
	}
	out := Valued{OK: true, Unit: quantity.Unit(f.Dim, a.units()), Shown: quantity.Display(f.Dim, v, u, true, a.units())}
	out.Number, err = quantity.InUnit(f.Dim, v, out.Unit)
	return out, err
}
