package trace

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"swingwright/quantity"
)

// Whatever a file holds, it is read or refused with a reason, swings or not, and
// no reading is anything but a number or a reason.
func FuzzRead(f *testing.F) {
	paths, err := filepath.Glob("testdata/*.[ct]*")
	if err != nil {
		f.Fatal(err)
	}
	for _, path := range paths {
		data, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte("time (s),rate (deg/s)\n1e300,1\n-1e300,2\n0,1e20\n1,1\n2,1\n3,1\n4,5\n5,5\n6,7\n7,7\n8,8\n"))
	f.Add([]byte("\xff\xfe,\x00"))
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := Read("fuzz", data, nil)
		if err != nil {
			if r != nil || err.Error() == "" {
				t.Fatalf("%v and %q", r, err)
			}
			return
		}
		tr := r.Analyse(Settings{})
		if len(tr.Swings) == 0 && len(tr.Faults) == 0 {
			t.Fatal("neither swings nor faults")
		}
		for _, s := range tr.Swings {
			usable(t, s)
		}
	})
}

func usable(t *testing.T, s *Swing) {
	t.Helper()
	check := func(known bool, value, u float64, why string) {
		if known && (math.IsNaN(value) || math.IsInf(value, 0) || !(u >= 0) || math.IsInf(u, 0)) || !known && why == "" {
			t.Fatalf("%v ± %v, %q", value, u, why)
		}
		if known && s.Spoilt() != "" {
			t.Fatalf("%v from a recording in which %s", value, s.Spoilt())
		}
	}
	for _, a := range [][2]float64{{90, 10}, {10, 0}, {0, 80}, {1, 2}} {
		r := s.Between(quantity.Angle(a[0]*degree), quantity.Angle(a[1]*degree), a[0] > a[1])
		check(r.Known, float64(r.Value), float64(r.U), r.Why)
	}
	for _, r := range []Reading[quantity.AngularSpeed]{s.PeakRate(true), s.PeakRate(false), s.ImpactRate()} {
		check(r.Known, float64(r.Value), float64(r.U), r.Why)
	}
	h, o, b := s.HoldTime(), s.OpenAngle(), s.BackcheckAngle()
	check(h.Known, float64(h.Value), float64(h.U), h.Why)
	check(o.Known, float64(o.Value), float64(o.U), o.Why)
	check(b.Known, float64(b.Value), float64(b.U), b.Why)
	for _, x := range s.Samples() {
		if !(math.Abs(float64(x.Angle)) < math.MaxFloat64) {
			t.Fatalf("%+v", x)
		}
	}
}
