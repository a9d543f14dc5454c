package job_test

import (
	"math"
	"strings"
	"testing"

	"swingwright/job"
	"swingwright/opening"
	q "swingwright/quantity"
)

// Laps and forces come to what their instruments make of them.
func TestRepeatedReadings(t *testing.T) {
	laps, err := job.ResolveReading(opening.Reading{Fact: "powered.dwell", Values: []string{"5.0 s", "5.2 s", "5.1 s"}})
	if err != nil || math.Abs(laps.Value-5.1) > 1e-12 || math.Abs(laps.U-0.069) > 5e-4 || laps.Repeats.N != 3 || !laps.Stated {
		t.Errorf("laps: %+v, %v", laps, err)
	}
	late, err := job.ResolveReading(opening.Reading{Fact: "powered.time_to_check", Values: []string{"3.61 s"}, Start: "with-press"})
	if err != nil || math.Abs(late.Value-3.5) > 1e-12 {
		t.Errorf("with the press: %+v, %v", late, err)
	}
	forces, err := job.ResolveReading(opening.Reading{Fact: "powered.stall_moment", Values: []string{"58.5 N", "60 N", "61.5 N"}, At: q.Exactly(q.Length(0.9))})
	if err != nil || math.Abs(forces.Value-60*0.9*1.005) > 0.02 || math.Abs(forces.Repeats.DF-6) > 0.3 {
		t.Errorf("forces: %+v, %v", forces, err)
	}
}

// What is wrong with repeated readings says so and how to mend it.
func TestWrongRepeats(t *testing.T) {
	for _, c := range []struct {
		r    opening.Reading
		want string
	}{
		{opening.Reading{Fact: "powered.dwell", Value: "5 s", Values: []string{"5 s"}}, "one of them"},
		{opening.Reading{Fact: "powered.dwell", Values: []string{"5"}}, "no unit"},
		{opening.Reading{Fact: "powered.dwell", Values: []string{"-5 s"}}, "above zero"},
		{opening.Reading{Fact: "leaf.width", Values: []string{"36 in"}}, "a time or a force"},
		{opening.Reading{Fact: "opening.egress", Values: []string{"yes"}}, "a time or a force"},
		{opening.Reading{Fact: "powered.stall_moment", Values: []string{"60 N"}}, "add at"},
		{opening.Reading{Fact: "powered.stall_moment", Values: []string{"300 N"}, At: q.Exactly(q.Length(0.9))}, "beyond the gauge's range"},
	} {
		if _, err := job.ResolveReading(c.r); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: %v, want %q", c.r, err, c.want)
		}
	}
}
