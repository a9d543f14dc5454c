package job

import (
	"reflect"
	"slices"
	"strconv"
	"time"

	yaml "go.yaml.in/yaml/v4"

	"swingwright/opening"
	"swingwright/quantity"
)

// scalar fills v from the raw text of n, so that nothing is read into it that
// was not written: 012 stays twelve and yes stays a word.
func (w *walker) scalar(n *yaml.Node, s *shape, f *field, v reflect.Value) {
	if n.Kind != yaml.ScalarNode {
		w.wrong(n, describe(n), w.kindOf(s), "")
		return
	}
	w.checkLost(n)
	switch s.form {
	case textForm:
		w.text(n, f, v)
	case wholeForm:
		w.whole(n, f, v)
	case quantityForm:
		w.quantity(n, s, f, v)
	case choiceForm:
		w.choice(n, s, v)
	case nominalForm:
		w.nominal(n, v)
	}
}

func (w *walker) text(n *yaml.Node, f *field, v reflect.Value) {
	v.SetString(n.Value)
	if f == nil {
		return
	}
	switch f.form {
	case "date":
		if _, err := time.Parse(time.DateOnly, n.Value); err != nil {
			w.wrong(n, quantity.Quote(n.Value), "a date such as 2026-11-25", "year, month and day with hyphens")
		}
	case "file":
		file, wrong := w.inside(n.Value)
		if wrong != "" {
			w.wrong(n, quantity.Quote(n.Value), "a file in the job's folder", wrong)
			return
		}
		w.name(n, thing{"file", file})
	}
	if f.names != "" {
		w.name(n, thing{f.names, n.Value})
	}
	if f.ref != "" {
		w.references = append(w.references, reference{thing{f.ref, n.Value}, w.place(n), w.field()})
	}
}

func (w *walker) whole(n *yaml.Node, f *field, v reflect.Value) {
	x, err := strconv.Atoi(n.Value)
	if err != nil || !f.limit.holds(float64(x)) {
		w.wrong(n, quantity.Quote(n.Value), "a whole number, "+f.limit.String(), "")
		return
	}
	v.SetInt(int64(x))
}

// unknown is what people may write for a quantity that is not known, so that
// same_as does not take over another opening's.
const unknown = "unknown"

// The fields of a quantity.Measured.
const (
	measuredValue = iota
	measuredU
	measuredKnown
	measuredStated
	measuredText
)

func (w *walker) quantity(n *yaml.Node, s *shape, f *field, v reflect.Value) {
	v.Field(measuredText).SetString(n.Value)
	if n.Value == unknown {
		return
	}
	x, u, stated, err := quantity.ParseAs(s.dim, n.Value)
	if err != nil {
		w.wrong(n, quantity.Quote(n.Value), w.kindOf(s), quantity.Reason(err))
		return
	}
	if f != nil && !f.limit.holds(x) {
		w.wrong(n, quantity.Quote(n.Value), quantityNoun(s.dim)+" "+f.limit.String(), "")
		return
	}
	v.Field(measuredValue).SetFloat(x)
	v.Field(measuredU).SetFloat(u)
	v.Field(measuredKnown).SetBool(true)
	v.Field(measuredStated).SetBool(stated)
}

func (w *walker) choice(n *yaml.Node, s *shape, v reflect.Value) {
	if !slices.Contains(s.choices, n.Value) {
		w.wrong(n, quantity.Quote(n.Value), w.kindOf(s), DidYouMean(n.Value, s.choices))
		return
	}
	v.SetString(n.Value)
}

func (w *walker) nominal(n *yaml.Node, v reflect.Value) {
	width, height, err := quantity.ParseNominal(n.Value)
	if err != nil {
		w.wrong(n, quantity.Quote(n.Value), "a nominal size such as 3070 or 3-0 x 7-0", quantity.Reason(err))
		return
	}
	v.Set(reflect.ValueOf(opening.Nominal{Text: n.Value, Width: width, Height: height}))
}
