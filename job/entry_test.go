package job_test

import (
	"slices"
	"testing"

	"swingwright/job"
	"swingwright/opening"
	"swingwright/quantity"
)

func TestEntryOf(t *testing.T) {
	for path, want := range map[string]job.Entry{
		"closer.sweep_time":         {Kind: "quantity", Dim: quantity.DimTime},
		"use.place":                 {Kind: "choice"},
		"closer.sheet":              {Kind: "text", Ref: "closer"},
		"leaf.layers[3].gauge":      {Kind: "number"},
		"room.things[0].from.along": {Kind: "quantity", Dim: quantity.DimLength},
		"leaf":                      {Kind: "record"},
		"readings":                  {Kind: "list"},
		"id":                        {Kind: "text", Names: "opening"},
	} {
		got, ok := job.EntryOf(path)
		if !ok || got.Kind != want.Kind || got.Dim != want.Dim || got.Ref != want.Ref || got.Names != want.Names || got.Path != path || got.Doc == "" {
			t.Errorf("%s: %+v, %v", path, got, ok)
		}
	}
	for _, path := range []string{"", "closer.", "nonsense", "closer.sheet.name", "leaf[0]", "leaf..width"} {
		if f, ok := job.EntryOf(path); ok {
			t.Errorf("%q is no field, but %+v was found", path, f)
		}
	}
	place, _ := job.EntryOf("use.place")
	if !slices.Equal(place.Choices, opening.Place("").Choices()) {
		t.Errorf("choices of use.place: %v", place.Choices)
	}
}
