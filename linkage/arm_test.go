package linkage

import (
	"math"
	"strings"
	"testing"

	"swingwright/quantity"
)

func TestNewSaysWhatIsWrong(t *testing.T) {
	good := example(12.5 * quantity.Inch)
	for _, c := range []struct {
		name string
		spec func(*Spec)
		want string
	}{
		{"no main arm", func(s *Spec) { s.Main = 0 }, "above zero"},
		{"no forearm", func(s *Spec) { s.Fore = -0.1 }, "above zero"},
		{"not a number", func(s *Spec) { s.Shoe.X = quantity.Length(math.NaN()) }, "not finite"},
		{"endless", func(s *Spec) { s.Line = quantity.Angle(math.Inf(1)) }, "not finite"},
		// pinion to shoe: √(6² + 1.25²) in = 155.7 mm; arms 50 mm and 80 mm span 30 to 130 mm
		{"too short", func(s *Spec) { s.Main, s.Fore = 0.05, 0.08 }, "156 mm apart, the arms span 30 to 130 mm"},
		// the pinion stands 1.25 in, 31.75 mm, off the track
		{"off the track", func(s *Spec) { s.Track, s.Main = true, 0.03 }, "passes 32 mm from the pinion, beyond the arm of 30 mm"},
	} {
		s := good
		c.spec(&s)
		if _, err := New(s); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
}

// FuzzArm asks for nothing but an end: no geometry may hang or panic, and what
// is made holds itself together closed.
func FuzzArm(f *testing.F) {
	f.Add(false, true, 0.165, 0.057, 0.318, 0.025, 0.279, 0.266, 0.0, 1)
	f.Add(true, false, 0.2, -0.05, 0.1, -0.05, 0.25, 0.0, 0.02, -1)
	f.Add(false, false, 0.0, 0.0, 0.0, 0.0, 1e300, 1e300, 0.0, 1)
	f.Add(true, true, 1e-300, 0.0, math.MaxFloat64, 0.0, 1e-300, 0.0, 1e300, 0)
	f.Fuzz(func(t *testing.T, track, onLeaf bool, px, py, sx, sy, main, fore, line float64, bend int) {
		l := func(x float64) quantity.Length { return quantity.Length(x) }
		a, err := New(Spec{
			Track: track, OnLeaf: onLeaf, Bend: bend, Pinion: Point{l(px), l(py)}, Shoe: Point{l(sx), l(sy)},
			Main: l(main), Fore: l(fore), Line: quantity.Angle(line),
		})
		if err != nil {
			return
		}
		if psi, _, ok := a.Turn(0); ok && !(math.Abs(psi) < 1e-6) {
			t.Errorf("closed, ψ = %g", psi)
		}
		a.Reach(180 * quantity.Degree)
		a.Posture(quantity.Radian)
	})
}

func BenchmarkTurn(b *testing.B) {
	a, err := New(example(12.5 * quantity.Inch))
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	theta := 0.0
	for b.Loop() {
		a.Turn(theta)
		theta = math.Mod(theta+0.01, 1.6)
	}
}
