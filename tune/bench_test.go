package tune

import (
	"testing"

	"swingwright/quantity"
)

// visited is a call tuned by two adjustments, as it stands after.
func visited(b *testing.B, seed uint64, curves bool) *Visit {
	b.Helper()
	c := newCall(seed)
	c.curves = curves
	v := &Visit{Known: c.door.known, Demands: c.demands}
	for i := range 3 {
		s := c.start
		s.Sweep += eighth * 2 / 3 * quantity.Turns(i)
		s.Latch += eighth * quantity.Turns(i)
		v.States = append(v.States, s)
		c.measure(&v.Record, s, s)
	}
	return v
}

func BenchmarkFitOneCurve(b *testing.B) { benchFit(b, 1, true) }

func BenchmarkFitThreeCurves(b *testing.B) { benchFit(b, 3, true) }

func BenchmarkFitLaps(b *testing.B) { benchFit(b, 3, false) }

func benchFit(b *testing.B, curves int, with bool) {
	v := visited(b, 5, with)
	if with {
		v.Record.Curves = v.Record.Curves[:curves]
	}
	steps := 0
	for b.Loop() {
		f, err := Identify(&v.Known, &v.Record)
		if err != nil {
			b.Fatal(err)
		}
		steps = f.Steps
	}
	b.ReportMetric(float64(steps), "steps")
}

func BenchmarkAdviceLaps(b *testing.B) { benchAdvice(b, 5, false) }

func BenchmarkAdviceCurves(b *testing.B) { benchAdvice(b, 5, true) }

// An opening that no setting serves, with what excludes what.
func BenchmarkAdviceNoSetting(b *testing.B) { benchAdvice(b, 58, true) }

func benchAdvice(b *testing.B, seed uint64, curves bool) {
	v := visited(b, seed, curves)
	var a *Advice
	for b.Loop() {
		var err error
		if a, err = Advise(v); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(a.Do), "advice")
}
