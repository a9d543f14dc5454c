package tune

import (
	"testing"
	"time"
)

func TestTry(t *testing.T) {
	for seed := range []int{3} {
		d := newDoor(uint64(seed))
		s := State{Power: 3, Sweep: 0.8, Latch: 0.8}
		how := phone
		if seed%2 == 1 {
			how.touch, how.held = 50*degree, 0.6
		}
		r := &Record{Curves: []Curve{d.curve(s, how)}}
		r.Gauges = append(r.Gauges, d.gauge(s, Opening, 10*deg, 0.85, 0.03), d.gauge(s, Closing, 10*deg, 0.85, 0.03))
		now := time.Now()
		f, err := Identify(&d.known, r)
		if err != nil {
			t.Fatal(err)
		}
		t.Log(time.Since(now), f.Steps)
		v := d.turned(s)
		t.Logf("true spring %.3f loss %.3f hinge %.3f mass %.2f zone %.4f air %.2f bolt %.2f sweep %.2f %.2f latch %.2f %.2f\nmisfit %.2f rms %.4f scale %.2f n %d\n%s",
			float64(d.spring[0].Closed)/5, v[4+13], v[34], v[5], v[24], v[41], v[35], v[20], d.share[0], v[22], d.share[1], float64(f.Misfit), float64(f.Curves[0].RMS)/degree, float64(f.Curves[0].Scale), len(f.Curves[0].Misfits), f.Report())
	}
}
