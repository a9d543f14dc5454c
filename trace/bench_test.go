package trace_test

import (
	"testing"

	"swingwright/quantity"
	"swingwright/record"
	"swingwright/trace"
)

// minute is a recording of 60 s at 200 Hz with four swings.
func minute() []byte {
	const deg = quantity.Degree
	var c record.Course
	c.Rest(3)
	for range 4 {
		c.Turn(trace.Opening, 90*deg, 3).Rest(2).Trapezoid(trace.Sweep, 10*deg, 5, 0.1).Trapezoid(trace.Sweep, 0, 2, 0.1).Rest(2.25)
	}
	return record.Simulate(&c, record.Options{Seed: 1, Rate: 200, Jitter: 0.001, NoiseDensity: 1e-4, Bias: [3]quantity.AngularSpeed{0.01, 0.02, 0}})
}

// A recording of 60 s at 200 Hz is read in under 20 ms: text, swings, and the
// readings that an acceptance wants of each.
func BenchmarkMinute(b *testing.B) {
	data := minute()
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	const deg = quantity.Degree
	for b.Loop() {
		rec, err := trace.Read("minute", data, nil)
		if err != nil {
			b.Fatal(err)
		}
		tr := rec.Analyse(trace.Settings{})
		if len(tr.Swings) != 4 {
			b.Fatal(len(tr.Swings))
		}
		for _, s := range tr.Swings {
			s.Between(80*deg, 10*deg, true)
			s.Between(10*deg, 0, true)
			s.TimeTo(80 * deg)
			s.PeakRate(true)
			s.PeakRate(false)
			s.BackcheckAngle()
			s.HoldTime()
		}
	}
}

func BenchmarkRead(b *testing.B) {
	data := minute()
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := trace.Read("minute", data, nil); err != nil {
			b.Fatal(err)
		}
	}
}
