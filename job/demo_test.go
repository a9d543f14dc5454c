package job_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"swingwright/job"
	"swingwright/opening"
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
	for i := range j.Openings {
		o := &j.Openings[i]
		stops := slices.ContainsFunc(opening.Missing(o, &j.Sheets), func(g opening.Gap) bool {
			around := strings.HasPrefix(g.Field, "frame.") || strings.HasPrefix(g.Field, "room.") // not of its motion
			return g.Stops != "" && !around
		})
		if stops != (o.ID == "105") {
			t.Errorf("%s lacks something that stops its computation: %v; only 105 was to", o.ID, stops)
		}
		if doubts := opening.Implausible(o); len(doubts) > 0 {
			t.Errorf("%s has implausible values: %v", o.ID, doubts)
		}
	}
	if len(heir.Survey) != 0 {
		t.Errorf("104 took over survey notes %v of another opening", heir.Survey)
	}
}
