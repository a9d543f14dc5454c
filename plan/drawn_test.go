package plan

import (
	"math"
	"os"
	"testing"

	"swingwright/fact"
	"swingwright/job"
	q "swingwright/quantity"
	"swingwright/swing"
)

// What is drawn for a picture spreads as the facts do, which come of draws of
// their own: the standard deviation of 200 draws scatters by about 5 %.
func TestDrawnSpreadsAsTheFactsDo(t *testing.T) {
	j, err := job.Decode(os.DirFS("../demo/harbour-street-clinic"), "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for i := range 4 {
		p := Make(&j.Openings[i], &j.Sheets, nil, Options{Seed: 7})
		var n, sum, squares float64
		var mover swing.Mover
		if err := p.Drawn(200, 3, func(d Draw) {
			marks := []swing.Mark{{Angle: 12 * q.Degree}}
			mover.Close(d.Model, 90*q.Degree, marks)
			x := float64(marks[0].Time) - p.Facts[fact.CloseTime90To12].Value
			n, sum, squares = n+1, sum+x, squares+x*x
		}); err != nil {
			t.Fatal(err)
		}
		sd := math.Sqrt((squares - sum*sum/n) / (n - 1))
		if u := p.Facts[fact.CloseTime90To12].U; n < 190 || !(math.Abs(sd/u-1) < 0.25) {
			t.Errorf("opening %s: %v draws spread the time from 90 to 12 degrees by %.4f s, the facts by %.4f s", p.Opening.ID, n, sd, u)
		}
	}
}

func TestDrawnRepeats(t *testing.T) {
	j, err := job.Decode(os.DirFS("../demo/harbour-street-clinic"), "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p := Make(&j.Openings[0], &j.Sheets, nil, Options{})
	gather := func(seed uint64) (all []swing.Values) {
		if err := p.Drawn(8, seed, func(d Draw) { all = append(all, *d.Model.Values()) }); err != nil {
			t.Fatal(err)
		}
		return all
	}
	a, b, c := gather(1), gather(1), gather(2)
	for i := range a {
		if a[i] != b[i] {
			t.Errorf("draw %d differs from run to run", i)
		}
		if a[i] == c[i] {
			t.Errorf("draw %d is the same with another seed", i)
		}
	}
	if err := p.Drawn(1, 1, func(Draw) {}); err == nil {
		t.Error("one draw, which has no spread, is taken")
	}
}
