package job_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"swingwright/fact"
	"swingwright/job"
	"swingwright/opening"
	q "swingwright/quantity"
)

const lbf, inch = 4.4482216152605, 0.0254 // exact: NIST SP 811 (2008), B.8

func TestResolveReading(t *testing.T) {
	at := func(text string) q.Measured[q.Length] {
		m, err := q.Parse[q.Length](text)
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	for _, c := range []struct {
		r    opening.Reading
		want job.Reading
	}{
		{opening.Reading{Fact: "closing.time_90_to_10", Value: "5.9 s ± 0.2 s"}, job.Reading{Fact: fact.CloseTime90To10, Value: 5.9, U: 0.1, Stated: true}},
		{opening.Reading{Fact: "closing.time_90_to_10", Value: "5.9 s"}, job.Reading{Fact: fact.CloseTime90To10, Value: 5.9}},
		{opening.Reading{Fact: "closing.latches_from_5", Value: "yes"}, job.Reading{Fact: fact.LatchesFrom5, Value: 1, Stated: true}},
		{opening.Reading{Fact: "closing.latches_from_5", Value: "no"}, job.Reading{Fact: fact.LatchesFrom5, Stated: true}},
		{opening.Reading{Fact: "latch.release_motion", Value: "rotating"}, job.Reading{Fact: fact.ReleaseMotion, Value: 2, Stated: true}},
		{opening.Reading{Fact: "hand.to_start", Value: "10 N·m ± 1 N·m"}, job.Reading{Fact: fact.HandToStart, Value: 10, U: 0.5, Stated: true}},
		{opening.Reading{Fact: "hand.to_start", Value: "12 lbf", At: at("34 in")}, job.Reading{Fact: fact.HandToStart, Value: 12 * lbf * 34 * inch}},
		// Relative spreads of 2 % and 1.5 % add in squares to 2.5 %.
		{opening.Reading{Fact: "hand.to_start", Value: "20 N ± 4 %", At: at("0.5 m ± 3 %")}, job.Reading{Fact: fact.HandToStart, Value: 10, U: 0.25, Stated: true}},
		{opening.Reading{Fact: "hand.release_force", Value: "20 N", At: at("0.5 m")}, job.Reading{Fact: fact.HandReleaseForce, Value: 20}},
	} {
		got, err := job.ResolveReading(c.r)
		near := func(a, b float64) bool { return math.Abs(a-b) <= 1e-12*max(1, math.Abs(b)) }
		if err != nil || got.Fact != c.want.Fact || !near(got.Value, c.want.Value) || !near(got.U, c.want.U) || got.Stated != c.want.Stated {
			t.Errorf("%+v is %+v, %v, want %+v", c.r, got, err, c.want)
		}
	}
}

// A force and the moment that it makes are the same reading.
func TestForceAtADistanceIsItsMoment(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		newtons, metres := rapid.Float64Range(1, 200).Draw(t, "N"), rapid.Float64Range(0.3, 1.2).Draw(t, "m")
		force, err := job.ResolveReading(opening.Reading{Fact: "powered.stall_moment",
			Value: q.FormatValue(q.Force(newtons), q.SI, 9), At: q.Exactly(q.Length(metres))})
		if err != nil {
			t.Fatal(err)
		}
		moment, err := job.ResolveReading(opening.Reading{Fact: "powered.stall_moment", Value: q.FormatValue(q.Torque(newtons*metres), q.SI, 9)})
		if err != nil || math.Abs(force.Value-moment.Value) > 1e-8 {
			t.Fatalf("%v N at %v m is %v, %v N·m is %v: %v", newtons, metres, force, newtons*metres, moment, err)
		}
	})
}

func TestUnreadableReadings(t *testing.T) {
	for _, c := range []struct {
		r     opening.Reading
		field string
	}{
		{opening.Reading{Fact: "closing.time", Value: "6 s"}, "fact"},
		{opening.Reading{Fact: "closing.time_90_to_10", Value: "6"}, "value"},
		{opening.Reading{Fact: "closing.time_90_to_10", Value: "6 s", At: q.Exactly(q.Length(1))}, "at"},
		{opening.Reading{Fact: "closing.latches_from_5", Value: "1"}, "value"},
	} {
		_, err := job.ResolveReading(c.r)
		var p job.Problem
		if !errors.As(err, &p) || p.Field != c.field {
			t.Errorf("%+v: error %v, want a problem of %s", c.r, err, c.field)
		}
	}
}
