package swing

import (
	"testing"

	"swingwright/quantity"
)

func benched(b *testing.B) Model {
	v, link := typical()
	m, err := New(&v, link)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	return m
}

// One closing of an ordinary leaf from 90°, with six marks.
func BenchmarkClosing(b *testing.B) {
	m := benched(b)
	marks := closingTimes()
	var mv Mover
	for b.Loop() {
		mv.Close(&m, 90*quantity.Degree, marks[:])
	}
	b.ReportMetric(float64(mv.Steps), "steps")
}

// The same to tolerances of 1e-9 and without the chart.
func BenchmarkClosingExact(b *testing.B) {
	m := benched(b)
	marks := closingTimes()
	mv := Mover{Exact: true}
	for b.Loop() {
		mv.Close(&m, 90*quantity.Degree, marks[:])
	}
	b.ReportMetric(float64(mv.Steps), "steps")
}

// The same closing by SciPy's RK45 at tolerances that serve the same purpose,
// timed inside Python once it is warm.
func BenchmarkClosingSciPy(b *testing.B) {
	m := benched(b)
	var out struct {
		NS []float64 `json:"ns"`
	}
	for b.Loop() {
		if out.NS == nil {
			if err := askSciPy("testdata/closing.py", []refCase{refOf(m, 0)}, &out, "--time", "5"); err != nil {
				b.Fatal(err)
			}
		}
	}
	best := out.NS[0]
	for _, ns := range out.NS {
		best = min(best, ns)
	}
	b.ReportMetric(best, "ns/op")
}

// Making a model ready: the arm, its chart, the valves.
func BenchmarkNew(b *testing.B) {
	v, link := typical()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := New(&v, link); err != nil {
			b.Fatal(err)
		}
	}
}

// Fitting both valves to stopwatch times.
func BenchmarkFitValves(b *testing.B) {
	m := benched(b)
	var mv Mover
	for b.Loop() {
		other := m
		if _, err := mv.FitValves(&other, Found{Sweep: 5.8, Latch: 2.2}); err != nil {
			b.Fatal(err)
		}
	}
}

// Fitting them again to a leaf a little different, as every draw does.
func BenchmarkRefit(b *testing.B) {
	m := benched(b)
	var mv Mover
	fit, err := mv.FitValves(&m, Found{Sweep: 5.8, Latch: 2.2})
	if err != nil {
		b.Fatal(err)
	}
	v := m.v
	v[SlabMass] *= 1.05
	near, err := New(&v, m.link)
	if err != nil {
		b.Fatal(err)
	}
	marks := foundMarks()
	for b.Loop() {
		other := near
		if !mv.Refit(&other, &fit, Found{Sweep: 5.9, Latch: 2.1}, Guess{}, marks[:]).Closed {
			b.Fatal("does not close")
		}
	}
}
