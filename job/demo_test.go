package job_test

import (
	"os"
	"slices"
	"testing"

	"swingwright/job"
	"swingwright/opening"
)

func TestDemoDecodes(t *testing.T) {
	j, err := job.Decode(os.DirFS("../demo"), "harbour-street-clinic/job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	changes := 0
	for i := range j.Openings {
		if j.Openings[i].InPlaceOf != "" {
			changes++
		}
	}
	if got := len(j.Openings) - changes; got != 16 || changes != 6 {
		t.Errorf("%d openings and %d possible changes, want the 16 and 6 of the file", got, changes)
	}
	heir := j.Openings[3]
	if heir.Leaf.Width.Text != "908 mm" || heir.Frame.PinAlong.Text != "3 mm" || heir.Frame.Hand != "RH" || len(heir.Closer.Gauged) != 2 {
		t.Errorf("104 is %+v, want the leaf of 102 with a hand and gauge readings of its own", heir)
	}
	for i := range j.Openings {
		o := &j.Openings[i]
		stops := slices.ContainsFunc(opening.Missing(o, &j.Sheets), func(g opening.Gap) bool { return g.Stops != "" })
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

// The demo has one of everything that a job may meet: every hand, place, arm,
// kind of operator and of lock, and the groups and tables that go with them.
func TestDemoHasOneOfEverything(t *testing.T) {
	j, err := job.Decode(os.DirFS("../demo"), "harbour-street-clinic/job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	note := func(sort, what string) { seen[sort+" "+what] = true }
	for i := range j.Openings {
		o := &j.Openings[i]
		note("hand", string(o.Frame.Hand))
		note("place", string(o.Use.Place))
		note("operation", string(o.Use.Operation))
		note("lock", string(o.Lock.Kind))
		for _, s := range j.Sheets.Arms {
			if s.Name == o.Closer.Arm {
				note("arm", string(s.Kind)+" "+string(s.Side))
			}
		}
		for _, s := range j.Sheets.Operators {
			if s.Name == o.Operator.Sheet {
				note("operator", string(s.Kind))
			}
		}
	}
	for _, g := range j.Groups {
		note("group", string(g.Kind))
	}
	for _, want := range []string{
		"hand LH", "hand RH", "hand LHR", "hand RHR",
		"place interior", "place exterior", "place vestibule-outer", "place vestibule-inner",
		"operation manual", "operation low-energy",
		"lock push-pull", "lock passage", "lock exit-device", "lock deadbolt", "lock magnet",
		"arm regular ", "arm parallel ", "arm top-jamb ", "arm slide-track pull", "arm slide-track push",
		"operator add-on", "operator own-arm", "group pair", "group vestibule",
	} {
		if !seen[want] {
			t.Errorf("no opening of the demo has %s", want)
		}
	}
	if got := len(j.Climate.Months); got != 12 {
		t.Errorf("%d months, want 12", got)
	}
}
