package job_test

import (
	"os"
	"testing"

	"swingwright/job"
)

func TestDemoDecodes(t *testing.T) {
	j, err := job.Decode(os.DirFS("../demo"), "harbour-street-clinic/job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if got := len(j.Openings); got != 5 {
		t.Errorf("%d openings, want the 5 of the file", got)
	}
	heir := j.Openings[3]
	if heir.Leaf.Width.Text != "908 mm" || heir.Frame.PinAlong.Text != "3 mm" || heir.Frame.Hand != "RH" || len(heir.Closer.Gauged) != 2 {
		t.Errorf("104 is %+v, want the leaf of 102 with a hand and gauge readings of its own", heir)
	}
	if len(heir.Survey) != 0 {
		t.Errorf("104 took over survey notes %v of another opening", heir.Survey)
	}
}
