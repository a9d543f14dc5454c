package plan

import (
	"math"
	"testing"

	q "swingwright/quantity"
	"swingwright/swing"
)

// Every draw closes in the times drawn: the root of the mean square of what it misses by is
// below a tenth of the stopwatch's spread, at which the spread of times grows by 0.5 %.
func TestDrawsCloseInTheTimesDrawn(t *testing.T) {
	j, _ := clinic(t)
	for _, id := range []string{"101", "102", "103", "104"} {
		r := Resolve(demoOpening(t, j, id), &j.Sheets)
		var mk Maker
		var k reckoner
		if err := k.prepare(r); err != nil {
			t.Fatal(err)
		}
		mk.vary(r, &k, nil)
		k.learn(mk.inputs, mk.place)
		if err := mk.draws.Prepare(1, 256, mk.inputs, 0); err != nil {
			t.Fatal(err)
		}
		marks := []swing.Mark{{Angle: 90 * q.Degree}, {Angle: 12 * q.Degree}, {Angle: 0}}
		x, n := k.x, 0.0
		var square [2]float64
		k.mover.Draft = true
		mk.draws.Evaluate(0, 256, func(in, _ []float64) {
			for i, at := range mk.place {
				x[at] = in[i]
			}
			if !k.drawn(x[:]) {
				return
			}
			k.model.SetAir(x[swing.Pressure], 1)
			fine := swing.Mover{}
			k.model.Unfitted(func() { fine.Close(&k.model, 90*q.Degree, marks) })
			n++
			square[0] += math.Pow((float64(marks[1].Time)-x[inSweepTime])/r.Found.Sweep.U, 2)
			square[1] += math.Pow((float64(marks[2].Time-marks[1].Time)-x[inLatchTime])/r.Found.Latch.U, 2)
		})
		for i, what := range []string{"sweep", "latch"} {
			if miss := math.Sqrt(square[i] / n); !(miss < 0.1) {
				t.Errorf("%s: %s missed by %.3f of the stopwatch's spread", id, what, miss)
			} else {
				t.Logf("%s: %s missed by %.3f", id, what, miss)
			}
		}
		if n < 250 {
			t.Errorf("%s: only %v draws could be fitted", id, n)
		}
	}
}
