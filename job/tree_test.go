package job_test

import (
	"encoding/json"
	"os"
	"reflect"
	"testing"
	"testing/fstest"

	"swingwright/job"
)

// A tree written as JSON is the job again, with what stood in other files.
func TestTree(t *testing.T) {
	fsys := os.DirFS("../demo/harbour-street-clinic")
	want, err := job.Decode(fsys, "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	tree, err := job.ReadTree(fsys, "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(tree)
	if err != nil {
		t.Fatal(err)
	}
	got, err := job.Decode(fstest.MapFS{"job.json": {Data: text}}, "job.json")
	if err != nil {
		t.Fatal(err)
	}
	want.SheetFiles, want.OwnRules, want.Readings = nil, nil, nil
	if !reflect.DeepEqual(got, want) {
		t.Errorf("the job changed on the way through its tree")
	}
	again, err := job.ReadTree(fstest.MapFS{"job.json": {Data: text}}, "job.json")
	if err != nil || !reflect.DeepEqual(again, tree) {
		t.Errorf("the tree of a tree is another one: %v", err)
	}
}

// Readings that were kept in a file of their own stand with their opening.
func TestTreeKeepsReadings(t *testing.T) {
	fsys := fstest.MapFS{
		"job.yaml":  {Data: []byte("job: one\nreading_files: [kept.yaml]\nnotes: {blank: , number: 012}\nopenings:\n  - id: 012\n    readings: [{fact: closing.time_90_to_10, value: 5 s}]\n")},
		"kept.yaml": {Data: []byte("kept:\n  - of: \"012\"\n    readings: [{fact: closing.time_90_to_10, value: 6 s}]\n")},
	}
	tree, err := job.ReadTree(fsys, "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(tree)
	if err != nil {
		t.Fatal(err)
	}
	got, err := job.Decode(fstest.MapFS{"job.json": {Data: text}}, "job.json")
	if err != nil {
		t.Fatal(err)
	}
	if r := got.Openings[0].Readings; got.Openings[0].ID != "012" || len(r) != 2 || r[1].Value != "6 s" {
		t.Errorf("readings: %+v", r)
	}
	if o := tree.Opening("012"); o == nil || tree.Opening("12") != nil {
		t.Errorf("opening 012: %v", o)
	}
	if _, err := job.ReadTree(fsys, "none.yaml"); err == nil {
		t.Error("a job that is not there has a tree")
	}
}
