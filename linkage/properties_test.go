package linkage

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	_ "swingwright/internal/steady"
	"swingwright/quantity"
)

const deg = float64(quantity.Degree)

// arms draws arms of every sort that can be assembled closed, sensible or not.
func arms(t *rapid.T) (Spec, Arm) {
	length := func(name string, low, high float64) quantity.Length {
		return quantity.Length(rapid.Float64Range(low, high).Draw(t, name))
	}
	s := Spec{
		Track: rapid.Bool().Draw(t, "track"), OnLeaf: rapid.Bool().Draw(t, "on leaf"),
		Bend:   rapid.SampledFrom([]int{-1, 1}).Draw(t, "bend"),
		Pinion: Point{length("pinion x", -0.2, 0.5), length("pinion y", -0.2, 0.2)},
		Shoe:   Point{length("shoe x", -0.2, 0.6), length("shoe y", -0.2, 0.2)},
		Main:   length("main arm", 0.15, 0.45), Fore: length("forearm", 0.15, 0.45),
		Line: quantity.Angle(rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "line")),
	}
	a, err := New(s)
	if err != nil {
		t.Skip(err)
	}
	return s, a
}

func apart(p, q Point) float64 { return math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y)) }

func turned(p Point, by float64) Point {
	s, c := math.Sincos(by)
	x, y := float64(p.X), float64(p.Y)
	return Point{quantity.Length(c*x - s*y), quantity.Length(s*x + c*y)}
}

// aside is the distance of p from the line through q with direction (cos u, sin u), positive to its left.
func aside(p, q Point, u float64) float64 {
	s, c := math.Sincos(u)
	return float64(p.Y-q.Y)*c - float64(p.X-q.X)*s
}

// along is the distance from q to p measured along direction u.
func along(p, q Point, u float64) float64 {
	s, c := math.Sincos(u)
	return float64(p.X-q.X)*c + float64(p.Y-q.Y)*s
}

// Arms keep their lengths and hang on their pivots at every angle; a roller
// stays on its track.
func TestLoopCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, a := arms(t)
		theta := rapid.Float64Range(0, 180).Draw(t, "degrees") * deg
		p, ok := a.Posture(quantity.Angle(theta))
		if !ok {
			t.Skip("out of reach")
		}
		leaf, frame := theta, 0.0 // turn of what is on the leaf and on the frame
		if !s.OnLeaf {
			leaf, frame = frame, leaf
		}
		shoe := turned(s.Shoe, frame)
		if off := apart(p.Pinion, turned(s.Pinion, leaf)); off > 1e-15 {
			t.Errorf("pinion off by %g m", off)
		}
		if off := apart(p.Elbow, p.Pinion) - float64(s.Main); math.Abs(off) > 1e-13 {
			t.Errorf("main arm off by %g m", off)
		}
		if s.Track {
			if off := aside(p.Far, shoe, float64(s.Line)+frame); math.Abs(off) > 1e-13 || apart(p.Far, p.Elbow) > 1e-15 {
				t.Errorf("roller off its track by %g m", off)
			}
			return
		}
		if off := apart(p.Elbow, p.Far) - float64(s.Fore); math.Abs(off) > 1e-13 || apart(p.Far, shoe) > 1e-13 {
			t.Errorf("forearm off by %g m, shoe by %g m", off, apart(p.Far, shoe))
		}
	})
}

// The ratio by the theorem of three centres: what the forearm's line (with a
// track, its normal at the roller) passes the hinge axis by, over what it passes
// the pinion by.
func TestRatioByInstantCentres(t *testing.T) {
	checked := 0
	rapid.Check(t, func(t *rapid.T) {
		s, a := arms(t)
		theta := rapid.Float64Range(0, 180).Draw(t, "degrees") * deg
		p, ok := a.Posture(quantity.Angle(theta))
		n, _ := a.Ratio(theta)
		if !ok {
			t.Skip("out of reach")
		}
		var hinge, pinion float64
		if s.Track {
			u := float64(s.Line)
			if !s.OnLeaf {
				u += theta
			}
			hinge, pinion = along(p.Far, Point{}, u), along(p.Far, p.Pinion, u)
		} else {
			u := math.Atan2(float64(p.Far.Y-p.Elbow.Y), float64(p.Far.X-p.Elbow.X))
			hinge, pinion = aside(Point{}, p.Far, u), aside(p.Pinion, p.Far, u)
		}
		if math.Abs(pinion) < 1e-3 {
			t.Skip("nearly in line")
		}
		checked++
		if want := math.Abs(hinge / pinion); math.Abs(math.Abs(n)-want) > 1e-9*(1+want) {
			t.Errorf("n = %g, instant centres give %g", n, want)
		}
	})
	if checked < 5 {
		t.Errorf("only %d postures were checked", checked)
	}
}

// difference is the derivative of f by central differences of fourth order.
func difference(f func(float64) float64, x, h float64) float64 {
	return (f(x-2*h) - 8*f(x-h) + 8*f(x+h) - f(x+2*h)) / (12 * h)
}

// n is the slope of ψ and Bend that of n, wherever the arm is not near the end
// of its reach.
func TestDerivatives(t *testing.T) {
	const h = 1e-3
	rapid.Check(t, func(t *rapid.T) {
		_, a := arms(t)
		theta := rapid.Float64Range(0.5, 179).Draw(t, "degrees") * deg
		for x := theta - 10*h; x <= theta+10*h; x += h {
			if n, ok := a.Ratio(x); !ok || math.Abs(n) > 4 || math.Abs(a.Bend(x)) > 20 {
				t.Skip("near a dead point")
			}
		}
		n, _ := a.Ratio(theta)
		slope := difference(func(x float64) float64 { psi, _, _ := a.Turn(x); return psi }, theta, h)
		bend := difference(func(x float64) float64 { n, _ := a.Ratio(x); return n }, theta, h)
		// fifth derivatives stay below 1e6 here: h⁴/30 of them is 3e-8
		if math.Abs(n-slope) > 1e-6 || math.Abs(a.Bend(theta)-bend) > 1e-5 {
			t.Errorf("n = %g, slope of ψ %g; Bend = %g, slope of n %g", n, slope, a.Bend(theta), bend)
		}
	})
}

// ψ runs on without a jump over the whole swing, as far as the arm reaches.
func TestTurnIsContinuous(t *testing.T) {
	longest := 0.0
	rapid.Check(t, func(t *rapid.T) {
		_, a := arms(t)
		const step = 0.05 * deg
		last, rate, _ := a.Turn(0)
		if last != 0 || rate < 0 {
			t.Fatalf("closed: ψ = %g, n = %g", last, rate)
		}
		for theta := step; theta <= 180*deg; theta += step {
			psi, n, ok := a.Turn(theta)
			if !ok {
				break
			}
			// the mean slope lies between slopes where n does not turn; 1.5 is far below a full turn
			if d := math.Abs(psi - last); d > 1.5 {
				t.Fatalf("ψ jumps by %g rad before %.2f° (n = %g)", psi-last, theta/deg, n)
			}
			last = psi
			longest = max(longest, math.Abs(psi))
		}
	})
	if longest < math.Pi && !testing.Short() {
		t.Errorf("ψ never passed half a turn (%g): the test shows nothing", longest)
	}
}

// An arm and its mirror image turn alike: y → −y, opening the other way.
func TestMirrorImage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, a := arms(t)
		m := s
		m.Pinion.Y, m.Shoe.Y, m.Line = -s.Pinion.Y, -s.Shoe.Y, -s.Line
		if !s.Track {
			m.Bend = -s.Bend // left becomes right
		}
		b, err := New(m)
		if err != nil {
			t.Fatal(err)
		}
		theta := rapid.Float64Range(0, 180).Draw(t, "degrees") * deg
		psi, n, ok := a.Turn(theta)
		mirrored, mn, mok := b.Turn(-theta)
		if ok != mok || ok && (math.Abs(n-mn) > 1e-12*math.Abs(n) || math.Abs(math.Remainder(psi+mirrored, 2*math.Pi)) > 1e-12) {
			t.Errorf("ψ %g and %g, n %g and %g", psi, mirrored, n, mn)
		}
	})
}

// Only the shape counts: twice the size turns alike to the last bit, and any
// other size within rounding.
func TestSizeDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, a := arms(t)
		k := quantity.Length(rapid.SampledFrom([]float64{2, 1 / 0.0254}).Draw(t, "scale"))
		m := s
		m.Pinion, m.Shoe = Point{s.Pinion.X * k, s.Pinion.Y * k}, Point{s.Shoe.X * k, s.Shoe.Y * k}
		m.Main, m.Fore = s.Main*k, s.Fore*k
		b, err := New(m)
		if err != nil {
			t.Skip("assembled only within rounding")
		}
		theta := rapid.Float64Range(0, 180).Draw(t, "degrees") * deg
		psi, n, ok := a.Turn(theta)
		psi2, n2, ok2 := b.Turn(theta)
		if !ok || !ok2 || math.Abs(n) > 100 {
			t.Skip("at the end of its reach")
		}
		within := 1e-300 // to the last bit, save where numbers fade out
		if k != 2 {
			within = 1e-10 * (1 + n*n) // near its reach the arm magnifies rounding
		}
		if math.Abs(psi-psi2) > within || math.Abs(n-n2) > within {
			t.Errorf("ψ %g and %g, n %g and %g", psi, psi2, n, n2)
		}
	})
}

// An arm on the leaf's own line is out of reach where the law of cosines says:
// a² + b² − 2ab·cos θ = (L1 + L2)².
func TestReachByTheLawOfCosines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.Float64Range(0.1, 0.3).Draw(t, "pinion")
		b := rapid.Float64Range(0.1, 0.3).Draw(t, "shoe")
		want := rapid.Float64Range(20, 170).Draw(t, "degrees") * deg
		sum := math.Sqrt(p*p + b*b - 2*p*b*math.Cos(want))
		main := sum * rapid.Float64Range(0.4, 0.6).Draw(t, "share")
		a, err := New(Spec{
			OnLeaf: true, Bend: 1, Pinion: Point{X: quantity.Length(p)}, Shoe: Point{X: quantity.Length(b)},
			Main: quantity.Length(main), Fore: quantity.Length(sum - main),
		})
		if err != nil {
			t.Skip(err) // folded up too close when closed
		}
		f, ok := a.Reach(180 * quantity.Degree)
		if ok || float64(f.Theta) > want+0.011*deg {
			t.Fatalf("reaches to %.2f° (%v), want no farther than %.2f°", float64(f.Theta)/deg, ok, want/deg)
		}
		if !f.DeadPoint && math.Abs(float64(f.Theta)-want) > 0.011*deg {
			t.Errorf("out of reach at %.3f°, want %.3f°", float64(f.Theta)/deg, want/deg)
		}
		if f.DeadPoint {
			// there the forearm points at the hinge axis
			p, _ := a.Posture(f.Theta)
			u := math.Atan2(float64(p.Far.Y-p.Elbow.Y), float64(p.Far.X-p.Elbow.X))
			if off := aside(Point{}, p.Far, u); math.Abs(off) > 1e-3 {
				t.Errorf("dead point at %.2f°, where the forearm passes the hinge axis by %g m", float64(f.Theta)/deg, off)
			}
		}
	})
}

// The typed form says the same, and a zero Arm is not ready.
func TestAt(t *testing.T) {
	a, err := New(example(12.5 * quantity.Inch))
	if err != nil {
		t.Fatal(err)
	}
	psi, n, ok := a.At(quantity.Radian)
	p, r, _ := a.Turn(1)
	if float64(psi) != p || float64(n) != r || !ok || !a.Ready() || a.Spec() != example(12.5*quantity.Inch) {
		t.Errorf("At gives %v, %v, %v; Turn %v, %v", psi, n, ok, p, r)
	}
	if (&Arm{}).Ready() {
		t.Error("an arm that was not made is ready")
	}
}
