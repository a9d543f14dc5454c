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

// Whatever rates and stamps a recording holds, its swings are told or refused.
// Two bytes make a sample: how it follows the one before, and its rate.
func FuzzAnalyse(f *testing.F) {
	rest := make([]byte, 100)
	swing := append([]byte{}, rest...)
	for _, rate := range []int8{20, 20, 0, -30, -10, -5} {
		for range 50 {
			swing = append(swing, 0, byte(rate))
		}
	}
	f.Add(append(swing, rest...), uint8(20))
	f.Add(append(append(swing, 200, 50, 255, 0), rest...), uint8(100))
	f.Fuzz(func(t *testing.T, data []byte, step uint8) {
		r := &Recording{axes: 1}
		at := 0.0
		for i := 0; i+1 < len(data); i += 2 {
			switch code := data[i]; {
			case code < 128:
				at += float64(step) / 1000 * (1 + float64(code)/128)
			case code < 160: // the same stamp
			case code < 192:
				at -= float64(code-160) / 10
			case code < 250:
				at += float64(code - 192)
			default:
				at += 1e9
			}
			r.t, r.line = append(r.t, at), append(r.line, int32(i))
			r.rate[0] = append(r.rate[0], float64(int8(data[i+1]))*degree)
		}
		if len(r.t) == 0 {
			return
		}
		for _, s := range r.Analyse(Settings{}).Swings {
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
