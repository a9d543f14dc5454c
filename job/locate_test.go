package job_test

import (
	"os"
	"testing"
	"testing/fstest"

	"swingwright/job"
)

func TestPlacesOfFields(t *testing.T) {
	files := fstest.MapFS{"job.yaml": {Data: []byte(`job: x
openings:
  - id: a
    leaf:
      width: 36 in
    closer:
      gauged:
        - {angle: 5 deg, opening: 5 lbf, closing: 3 lbf, at: 34 in}
        - {angle: 6 deg, opening: 5 lbf, closing: 3 lbf, at: 34 in}
  - {id: b, same_as: a, leaf: {height: 84 in, width: }}
  - {id: c, same_as: d}
  - {id: d, same_as: c}
`)}}
	x, err := job.Locate(files, "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		opening     int
		field, want string
	}{
		{0, "leaf.width", "job.yaml:5:14"},
		{0, "closer.gauged[1].angle", "job.yaml:9:19"},
		{0, "closer.gauged[2].angle", "job.yaml:8:9"},   // the list
		{0, "leaf.weight", "job.yaml:5:7"},              // the leaf
		{0, "air.pressure", "job.yaml:3:5"},             // the opening
		{1, "leaf.height", "job.yaml:10:40"},            // its own
		{1, "leaf.width", "job.yaml:5:14"},              // taken over
		{1, "latch.force", "job.yaml:10:5"},             // nowhere
		{2, "leaf.width", "job.yaml:11:5"},              // a circle
		{4, "leaf.width", "job.yaml"},                   // no such opening
		{0, "closer.gauged[-1].angle", "job.yaml:8:9"},  // no such item
		{0, "leaf.width.more", "job.yaml:5:14"},         // no such field
		{0, "closer.gauged[x].opening", "job.yaml:8:9"}, // no such item
	} {
		if got := x.Place(c.opening, c.field).String(); got != c.want {
			t.Errorf("opening %d, %s is at %s, want %s", c.opening, c.field, got, c.want)
		}
	}
	if _, err := job.Locate(os.DirFS("testdata/broken"), "syntax-at.yaml"); err == nil {
		t.Error("a broken file has an index")
	}
}
