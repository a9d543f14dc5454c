package clearance

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
	q "swingwright/quantity"
)

func scene(t testing.TB, bodies ...Body) *Scene {
	t.Helper()
	s, err := NewScene(bodies...)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// at is the point at a distance from the pin in a direction in degrees.
func at(r, degrees float64) Point { return heading(degrees * deg).times(r).point() }

// plainLeaf has its pull face on the line through the pin, so that it points where it has turned to.
var plainLeaf = Leaf{Width: 1, Thickness: 0.04}

// Contacts of the plain leaf in closed form.
func TestContacts(t *testing.T) {
	high := Projection{Name: "closer", Side: Pull, At: 0.3, Along: 0.2, Out: 0.06, Heights: Band{1.9, 2}}
	for _, c := range []struct {
		what    string
		other   Body
		degrees float64 // above 180: none
		moving  string
	}{
		{"thin post", Polygon("it", OnFrame, at(0.7, 50)), 50, "leaf"},
		{"thin wall along a ray", Polygon("it", OnFrame, at(0.5, 50), at(0.6, 50)), 50, "leaf"},
		{"thin wall square to a ray, just in reach", Polygon("it", OnFrame, at(0.99999, 50), at(2, 50)), 50, "leaf"},
		{"thin wall just out of reach of both corners", Polygon("it", OnFrame, at(math.Hypot(1, 0.04)+1e-5, 50), at(2, 50)), 999, ""},
		{"floor stop", Disc("it", OnFrame, at(0.8, 90), 0.05), 90 - math.Asin(0.05/0.8)/deg, "leaf"},
		{"floor stop below the closer", Disc("it", OnFrame, at(0.3, 100), 0.02).Between(0, 0.1), 999, ""},
		{"bar", Bar("it", OnFrame, at(0.8, 90), at(2, 90), 0.1), 90 - math.Asin(0.05/0.8)/deg, "leaf"},
		{"wall before the leaf", HalfPlane("it", Point{Y: 0.5}, 90*q.Degree), 30, "leaf"},
		{"wall beside the hinges", HalfPlane("it", Point{X: -0.5}, 180*q.Degree), 120, "leaf"},
		{"cabinet behind", Block("it", OnFrame, Point{-2, 1}, Point{-0.5, -2}), 120, "leaf"},
		{"sprinkler at the closer's height", Disc("it", OnFrame, at(math.Hypot(0.4, 0.06), 120), 0).Between(1.9, 3), 120 - math.Atan(0.06/0.4)/deg, "closer"},
	} {
		leaf := plainLeaf.Body("leaf").Between(0.01, 1.85)
		closer := high.On(plainLeaf)
		if c.what == "floor stop below the closer" {
			leaf = leaf.Between(0.2, 1.85)
		}
		got := scene(t, leaf, closer, c.other).Sweep(0, 180*q.Degree)
		if c.degrees > 180 {
			if got.Touches || got.Angle != 180*q.Degree {
				t.Errorf("%s: contact at %g°, want none", c.what, float64(got.Angle/q.Degree))
			}
			continue
		}
		if d := c.degrees - float64(got.Angle/q.Degree); !got.Touches || d < -1e-9 || d > 0.01 {
			t.Errorf("%s: contact at %.5f° (%v), want %.5f", c.what, float64(got.Angle/q.Degree), got.Touches, c.degrees)
		}
		if got.Touch.Moving != c.moving || got.Touch.Other != "it" {
			t.Errorf("%s: %q touches %q, want %q and \"it\"", c.what, got.Touch.Moving, got.Touch.Other, c.moving)
		}
	}
}

func TestWhereItTouches(t *testing.T) {
	post := at(0.7, 50)
	got := scene(t, plainLeaf.Body("leaf"), Polygon("post", OnFrame, post)).Sweep(0, q.Angle(math.Pi))
	if got.Touch.At.To(post) > 2*hair {
		t.Errorf("the leaf touches at %v, the post is at %v", got.Touch.At, post)
	}
}

// A leaf in its frame opens off its stops; how far, the frame's face says. Its
// pull face runs at g from the pin, so it meets the jamb's corner K at
// θ = arg K + arcsin(g/|K|).
func TestOpensOffItsStops(t *testing.T) {
	l := Leaf{Edge: 0.004, Face: 0.010, Width: 0.908, Thickness: 0.045}
	f := Frame{Width: 0.914, HingeGap: 0.003, HingeStop: 0.016, LatchStop: 0.016, StopDepth: 0.05, Depth: 0.12, Cover: 0.05}
	flush := scene(t, append(f.Bodies(l), l.Body("leaf"))...)
	if got := flush.Sweep(0, 180*q.Degree); got.Touches {
		t.Errorf("a leaf flush with its frame touches at %g°: %+v", float64(got.Angle/q.Degree), got.Touch)
	}
	if got := flush.Sweep(0, 1e-5); got.Touches || got.Angle != 1e-5 {
		t.Errorf("a swing too short to leave the stops ends at %g rad: %+v", got.Angle, got.Touch)
	}
	f.Proud = 0.030
	corner := vec{float64(l.Edge - f.HingeGap), float64(f.Proud - l.Face)}
	want := math.Atan2(corner.y, corner.x) + math.Asin(float64(l.Face)/corner.length())
	got := scene(t, append(f.Bodies(l), l.Body("leaf"))...).Sweep(0, 180*q.Degree)
	if d := want - float64(got.Angle); !got.Touches || got.Touch.Other != "hinge jamb" || d < -1e-9 || d > 0.01*deg {
		t.Errorf("a leaf set 30 mm back touches %q at %.4f°, want hinge jamb at %.4f", got.Touch.Other, float64(got.Angle/q.Degree), want/deg)
	}
}

func TestFrameLeavesItsGaps(t *testing.T) {
	l := Leaf{Edge: 0.004, Face: 0.010, Width: 0.908, Thickness: 0.045}
	f := Frame{Width: 0.914, HingeGap: 0.002, HingeStop: 0.016, LatchStop: 0.013, StopDepth: 0.05, Depth: 0.12, Cover: 0.05}
	if d := f.LatchGap(l) - 0.004; math.Abs(float64(d)) > 1e-15 {
		t.Errorf("latch gap %g m, want 4 mm", f.LatchGap(l))
	}
	gaps := scene(t, append(f.Bodies(l), l.Body("leaf"))...).Gaps(0)
	want := map[string]float64{"hinge jamb": 0.002, "latch jamb": 0.004, "hinge stop": 0, "latch stop": 0}
	if len(gaps) != len(want) {
		t.Errorf("%d gaps, want %d", len(gaps), len(want))
	}
	for _, g := range gaps {
		if math.Abs(float64(g.Distance)-want[g.Fixed]) > 1e-15 {
			t.Errorf("%s: %g m from the closed leaf, want %g", g.Fixed, g.Distance, want[g.Fixed])
		}
	}
}

func TestOverlapAtTheStartIsContact(t *testing.T) {
	got := scene(t, plainLeaf.Body("leaf"), Disc("crate", OnFrame, at(0.5, 0), 0.1)).Sweep(0, 1)
	if !got.Touches || got.Angle != 0 || got.Touch.Other != "crate" {
		t.Errorf("a crate in the closed leaf: %+v", got)
	}
}

// A leaf whose pin stands at its very corner meets a wall beside it at 90° and
// the little that is left there. On its way the corner keeps as near to the
// wall: at 0.1 mm that is let by, at 2 µm it counts as contact.
func TestScrapingCountsAsContact(t *testing.T) {
	wall := func(off float64) *Scene {
		return scene(t, plainLeaf.Body("leaf"), Block("wall", OnFrame, Point{q.Length(-off), -1}, Point{-1, 2}))
	}
	got := wall(1e-4).Sweep(0, q.Angle(math.Pi))
	if d := math.Pi/2 + math.Asin(1e-4) - float64(got.Angle); d < -1e-9 || d > 0.01*deg {
		t.Errorf("0.1 mm from the wall: contact at %g°", float64(got.Angle/q.Degree))
	}
	got = wall(2e-6).Sweep(0, q.Angle(math.Pi))
	if !got.Touches || got.Angle > 89*q.Degree || got.Angle <= 0 {
		t.Errorf("2 µm from the wall: contact at %g°, want one on the way", float64(got.Angle/q.Degree))
	}
}

func TestKeepOff(t *testing.T) {
	s := scene(t, plainLeaf.Body("leaf"), Disc("stop", OnFrame, at(0.8, 90), 0.05), Polygon("post", OnFrame, at(0.7, 20)))
	got, err := s.KeepOff("stop", 0.03, 0, q.Angle(math.Pi))
	want := math.Pi/2 - math.Asin(0.08/0.8)
	if d := want - float64(got.Angle); err != nil || !got.Touches || d < -1e-9 || d > 0.01*deg {
		t.Errorf("comes to 30 mm of the stop at %g rad, want %g (%v)", got.Angle, want, err)
	}
	for name, keep := range map[string]q.Length{"leaf": 0, "nothing": 0, "stop": -1} {
		if _, err := s.KeepOff(name, keep, 0, 1); err == nil {
			t.Errorf("keeping %g m off %q is taken", keep, name)
		}
	}
}

// drawn is a random scene that starts clear.
func drawn(t *rapid.T) (refScene, *Scene) {
	seed := rapid.Uint64().Draw(t, "seed")
	d := draw{rand.New(rand.NewPCG(seed, 1))}
	s := d.scene()
	bodies := make([]Body, len(s.Bodies))
	for i, b := range s.Bodies {
		bodies[i] = b.body()
	}
	ready, err := NewScene(bodies...)
	if err != nil {
		t.Fatalf("a drawn scene is refused: %v", err)
	}
	if !s.startsClear(ready) {
		t.Skip("does not start clear")
	}
	return s, ready
}

// Before the contact nothing on the frame touches, wherever one looks.
func TestNothingTouchesBefore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, ready := drawn(t)
		got := ready.Sweep(0, q.Angle(s.To))
		part := q.Angle(rapid.Float64Range(0, 0.9999).Draw(t, "part"))
		if g, ok := ready.Nearest(part * got.Angle); ok && g.Distance == 0 {
			t.Errorf("%q touches %q at %g rad, contact is said to be at %g", g.Moving, g.Fixed, part*got.Angle, got.Angle)
		}
	})
}

// One more thing never lets the leaf open farther, nor does more room to keep;
// the order of the bodies does not matter, but for the micrometre at which a
// contact is called one: 0.01° as Sweep states.
func TestMoreInTheWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, ready := drawn(t)
		to := q.Angle(s.To)
		before := ready.Sweep(0, to)
		bodies := []Body{Disc("more", OnFrame, drawPoint(t, "more"), 0.01)}
		for i := len(ready.bodies); i > 0; i-- {
			bodies = append(bodies, ready.bodies[i-1])
		}
		again, err := NewScene(bodies[1:]...)
		if err != nil {
			t.Fatal(err)
		}
		if got := again.Sweep(0, to); math.Abs(float64(got.Angle-before.Angle)) > 1e-4 || got.Touches != before.Touches {
			t.Errorf("%g rad in one order, %g in the other", before.Angle, got.Angle)
		}
		more, err := NewScene(bodies...)
		if err != nil {
			t.Fatal(err)
		}
		if got := more.Sweep(0, to); got.Angle > before.Angle+1e-4 {
			t.Errorf("opens to %g rad, with one more thing to %g", before.Angle, got.Angle)
		}
		near, err := more.KeepOff("more", 0.01, 0, to)
		far, err2 := more.KeepOff("more", 0.02, 0, to)
		if err != nil || err2 != nil || far.Angle > near.Angle {
			t.Errorf("keeping 10 mm to %g rad, 20 mm to %g (%v, %v)", near.Angle, far.Angle, err, err2)
		}
	})
}

// A contact turns with the scene: what stands still turned on by an angle is
// met that much later. And it does not change with the size of all things.
func TestContactTurnsAndScales(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, _ := drawn(t)
		on := rapid.Float64Range(0, 1).Draw(t, "on")
		k := rapid.Float64Range(0.5, 2).Draw(t, "scale")
		var plain, turned, scaled []Body
		for i := range s.Bodies {
			b := s.Bodies[i].body()
			if b.joints != nil {
				continue
			}
			plain = append(plain, b)
			more, grown := b, b
			more.shape.pts, grown.shape.pts = nil, nil
			grown.shape.round *= k
			for _, p := range b.shape.pts {
				grown.shape.pts = append(grown.shape.pts, p.times(k))
				if b.on == OnFrame {
					p = p.turned(on)
				}
				more.shape.pts = append(more.shape.pts, p)
			}
			if b.shape.half() {
				more.shape.solid = b.shape.solid.turned(on)
			}
			turned, scaled = append(turned, more), append(scaled, grown)
		}
		find := func(bodies []Body, from float64) (float64, bool) {
			sc, err := NewScene(bodies...)
			if err != nil {
				t.Fatal(err)
			}
			got := sc.Sweep(q.Angle(from), q.Angle(from+s.To))
			return float64(got.Angle) - from, got.Touches
		}
		want, touches := find(plain, 0)
		if got, ok := find(turned, on); ok != touches || math.Abs(got-want) > 1e-9 {
			t.Errorf("contact %v at %g rad, turned on %v at %g", touches, want, ok, got)
		}
		// The gap that counts as contact does not scale, so grazes may differ.
		if got, ok := find(scaled, 0); ok == touches && math.Abs(got-want) > 0.01*deg {
			t.Errorf("contact at %g rad, scaled by %g at %g", want, k, got)
		}
	})
}
