package clearance

import (
	"encoding/binary"
	"math"
	"strings"
	"testing"

	q "swingwright/quantity"
)

func TestSceneTellsAllThatIsWrong(t *testing.T) {
	nan := q.Length(math.NaN())
	_, err := NewScene(
		Polygon("bow", OnFrame, Point{0, 0}, Point{1, 1}, Point{1, 0}, Point{0, 1}),
		Polygon("", OnLeaf, Point{0, 0}),
		Polygon("none", OnFrame),
		Disc("ball", OnFrame, Point{nan, 0}, -1),
		Disc("ball", OnFrame, Point{200, 0}, 1),
		HalfPlane("wall", Point{}, q.Angle(math.Inf(1))),
		Block("shelf", OnFrame, Point{0, 0}, Point{1, 1}).Between(2, 1),
		Polygon("ghost", Carrier(7), Point{}),
		Link("arm", nan, crank(Point{}, 1)),
	)
	for _, want := range []string{
		`"bow": its edges from corner 1 and from corner 3 cross`,
		`"": a body has no name`,
		`"none": it has 0 corners`,
		`"ball": corner 1 is at (NaN, 0) m`,
		`"ball": its radius or half width is -1 m`,
		`"ball": corner 1 is at (200, 0) m`,
		`bodies 4 and 5 are both named "ball"`,
		`"wall": the direction toward which it lies is no finite angle`,
		`"shelf": it reaches from 2 m to 1 m`,
		`"ghost": carrier 7`,
		`"arm": its radius or half width is NaN m`,
	} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("the error lacks %s:\n%v", want, err)
		}
	}
}

func TestOutline(t *testing.T) {
	l := Leaf{Edge: 0.01, Face: 0.02, Width: 1, Thickness: 0.04}
	pull := Projection{Name: "pull", At: 0.9, Along: 0.1, Out: 0.05, Heights: Band{0.9, 1.1}}.On(l)
	corners, round, ok := pull.Outline(90 * q.Degree)
	want := []Point{{0.02, 0.85}, {0.02, 0.95}, {-0.03, 0.95}, {-0.03, 0.85}}
	if !ok || round != 0 || len(corners) != len(want) || pull.Name() != "pull" || pull.Heights() != (Band{0.9, 1.1}) {
		t.Fatalf("%v, %g, %v", corners, round, ok)
	}
	for i := range want {
		if corners[i].To(want[i]) > 1e-15 {
			t.Errorf("corner %d at %v, want %v", i, corners[i], want[i])
		}
	}
	push := Projection{Side: Push, At: 0.9, Along: 0.1, Out: 0.05}.On(l)
	if corners, _, _ := push.Outline(0); corners[2].To(Point{0.95, -0.11}) > 1e-15 {
		t.Errorf("the push side's outer corner is at %v, want (0.95, -0.11)", corners[2])
	}
	if _, _, ok := Link("arm", 0, func(q.Angle) (Point, Point, bool) { return Point{}, Point{}, false }).Outline(0); ok {
		t.Error("a link out of reach has an outline")
	}
}

func TestGaps(t *testing.T) {
	s := scene(t, plainLeaf.Body("leaf").Between(0, 2), Disc("stop", OnFrame, at(0.5, 90), 0.1).Between(0, 0.1),
		Disc("lamp", OnFrame, at(0.5, 60), 0.1).Between(2.5, 3), HalfPlane("wall", Point{X: -0.3}, 180*q.Degree))
	gaps := s.Gaps(60 * q.Degree)
	// Open by 60° the leaf leans away from the wall: its corner on the pin is nearest.
	want := map[string]float64{"stop": 0.5*math.Sin(30*deg) - 0.1, "wall": 0.3}
	if len(gaps) != 2 {
		t.Fatalf("gaps %+v, want stop and wall; the lamp hangs above the leaf", gaps)
	}
	for _, g := range gaps {
		if g.Moving != "leaf" || math.Abs(float64(g.Distance)-want[g.Fixed]) > 1e-12 {
			t.Errorf("%+v, want %g m", g, want[g.Fixed])
		}
	}
	if g, ok := s.Nearest(60 * q.Degree); !ok || g.Fixed != "stop" {
		t.Errorf("nearest is %+v (%v), want the stop", g, ok)
	}
	arm := Link("arm", 0, crank(Point{0.2, 0.1}, 0.3))
	if g, ok := scene(t, plainLeaf.Body("leaf"), arm).Nearest(0); ok {
		t.Errorf("a leaf and its arm alone have a nearest thing on the frame: %+v", g)
	}
}

// Sweeps of bodies on the leaf do not allocate, so that they can run once a draw.
func TestSweepDoesNotAllocate(t *testing.T) {
	s := typical(t, false)
	if n := testing.AllocsPerRun(20, func() { s.Sweep(0, q.Angle(math.Pi)) }); n > 0 {
		t.Errorf("%g allocations a sweep", n)
	}
	if n := testing.AllocsPerRun(20, func() { s.Nearest(1) }); n > 0 {
		t.Errorf("%g allocations a look", n)
	}
}

// typical is a leaf with closer, pulls and exit bar in its frame, a wall, a
// cabinet, a floor stop and a shelf; and with the arm's two links if asked for.
func typical(t testing.TB, arm bool) *Scene {
	t.Helper()
	l := Leaf{Edge: 0.006, Face: 0.0095, Width: 0.908, Thickness: 0.0445}
	f := Frame{Width: 0.914, HingeGap: 0.003, HingeStop: 0.016, LatchStop: 0.016, StopDepth: 0.06, Depth: 0.14, Cover: 0.05}
	bodies := append(f.Bodies(l), l.Body("leaf").Between(0.01, 2.13),
		Projection{Name: "closer", At: 0.2, Along: 0.25, Out: 0.06, Heights: Band{2, 2.1}}.On(l),
		Projection{Name: "pull", At: 0.84, Along: 0.05, Out: 0.06, Heights: Band{0.9, 1.1}}.On(l),
		Projection{Name: "exit bar", Side: Push, At: 0.5, Along: 0.8, Out: 0.07, Heights: Band{0.9, 1.1}}.On(l),
		HalfPlane("wall", Point{X: -0.12}, 180*q.Degree),
		Block("cabinet", OnFrame, Point{-0.4, 0.3}, Point{-0.1, 0.7}).Between(0, 0.8),
		Disc("floor stop", OnFrame, Point{-0.06, 0.8}, 0.02).Between(0, 0.05),
		Block("shelf", OnFrame, Point{0.95, 0.2}, Point{1.3, 0.6}),
	)
	if arm {
		parts := refArm{Pinion: [2]float64{0.165, 0.057}, Shoe: [2]float64{0.3175, 0.0254}, Main: 0.28, Fore: 0.266, Bend: 1, OnLeaf: true, Part: "main"}
		fore := parts
		fore.Part = "fore"
		bodies = append(bodies, Link("main arm", 0.02, parts.joints).Between(2.1, 2.14), Link("forearm", 0.02, fore.joints).Between(2.1, 2.14))
	}
	return scene(t, bodies...)
}

func BenchmarkSweep(b *testing.B) {
	for name, arm := range map[string]bool{"rigid": false, "arm": true} {
		s := typical(b, arm)
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				s.Sweep(0, q.Angle(math.Pi))
			}
		})
	}
}

func BenchmarkGaps(b *testing.B) {
	s := typical(b, true)
	b.ReportAllocs()
	for b.Loop() {
		s.Gaps(1.5)
	}
}

// FuzzScene reads bodies from raw bytes: whatever they hold, a scene is refused
// with words or swept to an answer within the swing.
func FuzzScene(f *testing.F) {
	floats := func(vs ...float32) (out []byte) {
		for _, v := range vs {
			out = binary.LittleEndian.AppendUint32(out, math.Float32bits(v))
		}
		return out
	}
	f.Add(floats(0, 0, 1, 0, 1, 1, 0, 1), floats(0, 0.9), uint8(0), float32(3))
	f.Add(floats(0, 0, 1, 0, 0.5, 0), floats(1, 0, 1, 0, 1, 0), uint8(1), float32(1))     // no area, one place thrice
	f.Add(floats(0, 0, 1, 1, 1, 0, 0, 1), floats(0, 0), uint8(2), float32(2))             // crosses itself
	f.Add(floats(0, 0), floats(0, 0), uint8(0), float32(3))                               // both on the pin
	f.Add(floats(1, 0), floats(0, 1.000001), uint8(0), float32(7))                        // a graze
	f.Add(floats(float32(math.NaN()), 0), floats(1e30, 0), uint8(3), float32(math.NaN())) // no places at all
	f.Add(floats(0, 0, 1, 0, 1, -0.1, 0, -0.1), floats(0, 0, 1, 0), uint8(4), float32(1e9))
	f.Add([]byte("00000000"), []byte("00000000"), uint8('I'), float32(-103.2)) // a swing that ends before it starts
	f.Add([]byte("00000000"), []byte("0000000B"), uint8(0x12), float32(86))    // an arm that spins ever faster
	f.Fuzz(func(t *testing.T, moving, fixed []byte, kind uint8, to float32) {
		points := func(b []byte) (out []Point) {
			for ; len(b) >= 8 && len(out) < 40; b = b[8:] {
				x, y := math.Float32frombits(binary.LittleEndian.Uint32(b)), math.Float32frombits(binary.LittleEndian.Uint32(b[4:]))
				out = append(out, Point{q.Length(x), q.Length(y)})
			}
			return out
		}
		pts := points(fixed)
		other := Polygon("fixed", OnFrame, pts...)
		if kind&1 != 0 && len(pts) > 0 {
			other = HalfPlane("fixed", pts[0], q.Angle(to))
		}
		bodies := []Body{Polygon("moving", OnLeaf, points(moving)...), other}
		if kind&2 != 0 {
			bodies = append(bodies, Link("arm", q.Length(to), func(theta q.Angle) (Point, Point, bool) {
				return Point{X: 0.3}, Point{X: 1}.Turned(theta * theta), true
			}))
		}
		if kind&4 != 0 {
			bodies[1].shape.round = float64(kind) / 1000
		}
		s, err := NewScene(bodies...)
		if err != nil {
			return
		}
		got := s.Sweep(0, q.Angle(to))
		if math.IsNaN(float64(to)) {
			return
		}
		if !(got.Angle >= 0 && got.Angle <= max(0, q.Angle(to))) {
			t.Errorf("swept to %g of %g rad", got.Angle, to)
		}
		// Over many turns two bodies may be looked at too often, and count as scraping.
		if got.Touches && to < 2*math.Pi {
			g, ok := s.Nearest(got.Angle)
			if got.Touch.Other == "fixed" && (!ok || g.Distance > 1e-3) {
				t.Errorf("a contact with %g m left", g.Distance)
			}
		}
	})
}
