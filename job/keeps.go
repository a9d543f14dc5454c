package job

import (
	"fmt"
	"reflect"
)

// Keeps tells whether everything that a job says is said by another as well, which
// may say more: nil, or what was lost or changed first.
func Keeps(was, is *Job) error {
	if len(is.Openings) < len(was.Openings) {
		return fmt.Errorf("%d openings became %d", len(was.Openings), len(is.Openings))
	}
	for i := range was.Openings {
		if at := changed(openingShape, reflect.ValueOf(&was.Openings[i]).Elem(), reflect.ValueOf(&is.Openings[i]).Elem()); at != "" {
			return fmt.Errorf("opening %s: %s would change", was.Openings[i].ID, at)
		}
	}
	a, b := *was, *is
	a.Openings, b.Openings = nil, nil
	if at := changed(jobShape, reflect.ValueOf(&a).Elem(), reflect.ValueOf(&b).Elem()); at != "" {
		return fmt.Errorf("%s would change", at)
	}
	return nil
}

// changed is the path of the first field that was given and is not the same.
func changed(s *shape, was, is reflect.Value) string {
	for i := range s.fields {
		f := &s.fields[i]
		v, w := was.Field(i), is.Field(i)
		switch {
		case f.shape.form == recordForm:
			if at := changed(f.shape, v, w); at != "" {
				return f.key + "." + at
			}
		case f.shape.form == notesForm:
			if !notesKept(v.Interface(), w.Interface()) {
				return f.key
			}
		case v.IsZero(), reflect.DeepEqual(v.Interface(), w.Interface()):
		default:
			return f.key
		}
	}
	return ""
}

// notesKept tells that all of was stands in is.
func notesKept(was, is any) bool {
	from, ok := was.(map[string]any)
	to, also := is.(map[string]any)
	if !ok || !also {
		return reflect.DeepEqual(was, is)
	}
	for k, v := range from {
		if w, there := to[k]; !there || !notesKept(v, w) {
			return false
		}
	}
	return true
}
