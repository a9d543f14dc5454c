package clearance

import (
	"testing"

	"pgregory.net/rapid"
	q "swingwright/quantity"
)

// Rooms that are built to the inch of 2010 ADA Standards, Table 404.2.4.1,
// before a doorway 36 in wide that begins at the pin.
func TestApproachOfTheTable(t *testing.T) {
	const in = q.Inch
	for _, c := range []struct {
		what         string
		side         Side
		depth, latch q.Length
		hinge        q.Length
	}{
		{"front, pull", Pull, 60, 18, 0},
		{"front, push, closer and latch", Push, 48, 12, 0},
		{"hinge, pull", Pull, 60, 36, 0},
		{"hinge, pull, other way", Pull, 54, 42, 0},
		{"hinge, push", Push, 42, 0, 22},
		{"latch, pull", Pull, 48, 24, 0},
		{"latch, push", Push, 42, 24, 0},
	} {
		a := Approach{Side: c.side, Hinge: 0, Latch: 36 * in, Face: 0, Far: 200 * in}
		out := in
		if c.side == Push {
			a.Face, out = -1.75*in, -in
		}
		wall := Area{Point{-150 * in, a.Face + out*c.depth}, Point{150 * in, a.Face + out*(c.depth+4)}}
		right := Area{Point{36*in + c.latch*in, a.Face}, Point{40*in + c.latch*in, a.Face + out*100}}
		left := Area{Point{-c.hinge * in, a.Face}, Point{-c.hinge*in - 4*in, a.Face + out*100}}
		behind := Area{Point{-100 * in, a.Face - out}, Point{100 * in, a.Face - out*2}}
		a.Blocks = []Area{wall, right, left, behind}
		near := func(got, want q.Length) bool { return got > want-1e-9 && got < want+1e-9 }
		if got := a.Depth(c.hinge*in, c.latch*in); !near(got, c.depth*in) {
			t.Errorf("%s: %g in deep, want %g", c.what, float64(got/in), float64(c.depth))
		}
		if got := a.Depth(c.hinge*in, c.latch*in+0.01*in); got != 0 {
			t.Errorf("%s: %g in deep behind the side wall, want none", c.what, float64(got/in))
		}
		if got, ok := a.BeyondLatch(c.depth*in - 1e-6); !ok || !near(got, c.latch*in) {
			t.Errorf("%s: %g in beyond the latch (%v), want %g", c.what, float64(got/in), ok, float64(c.latch))
		}
		if got, ok := a.BeyondHinge(c.depth*in - 1e-6); !ok || !near(got, c.hinge*in) {
			t.Errorf("%s: %g in beyond the hinges (%v), want %g", c.what, float64(got/in), ok, float64(c.hinge))
		}
		if _, ok := a.BeyondLatch(c.depth*in + 0.01*in); ok {
			t.Errorf("%s: a depth through the far wall is taken", c.what)
		}
		if _, ok := a.BeyondHinge(c.depth*in + 0.01*in); ok {
			t.Errorf("%s: a depth through the far wall is taken", c.what)
		}
	}
}

func TestOpenFloor(t *testing.T) {
	a := Approach{Latch: 0.9, Far: 3}
	latch, ok := a.BeyondLatch(1.5)
	hinge, ok2 := a.BeyondHinge(1.5)
	if a.Depth(1, 1) != 3 || latch != 3 || hinge != 3 || !ok || !ok2 {
		t.Errorf("open floor: %g deep, %g and %g beside, want 3 m each", a.Depth(1, 1), latch, hinge)
	}
}

// A pilaster 10 in beyond the latch side that stands out 9 in, and a wall that ends behind the face.
func TestStands(t *testing.T) {
	const in = q.Inch
	a := Approach{Latch: 36 * in, Blocks: []Area{
		{Point{46 * in, -5 * in}, Point{50 * in, 9 * in}},
		{Point{36 * in, -5 * in}, Point{90 * in, -1 * in}},
		{Point{-9 * in, 0}, Point{-5 * in, 20 * in}},
	}}
	if got := a.Stands(18 * in); got != 9*in {
		t.Errorf("stands out %g in within 18 in, want 9", float64(got/in))
	}
	if got := a.Stands(9.9 * in); got != 0 {
		t.Errorf("stands out %g in within 9.9 in, want 0", float64(got/in))
	}
}

// Asking for more beside the doorway never gives more depth; the two ways of
// asking agree; the push side is the pull side mirrored.
func TestApproachProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := Approach{Latch: 0.9, Far: 5}
		for range rapid.IntRange(0, 5).Draw(t, "blocks") {
			a.Blocks = append(a.Blocks, Area{drawPoint(t, "a"), drawPoint(t, "b")})
		}
		length := func(name string) q.Length { return q.Length(rapid.Float64Range(0, 2).Draw(t, name)) }
		hinge, latch, more := length("hinge"), length("latch"), length("more")
		depth := a.Depth(hinge, latch)
		if wider := a.Depth(hinge+more, latch+more); wider > depth {
			t.Errorf("%g m deep, %g over a wider strip", depth, wider)
		}
		if clear, ok := a.BeyondLatch(depth); !ok || clear < min(latch, a.Far) {
			t.Errorf("%g m deep over %g beyond the latch, but only %g clear there (%v)", depth, latch, clear, ok)
		}
		if clear, ok := a.BeyondHinge(depth); !ok || clear < min(hinge, a.Far) {
			t.Errorf("%g m deep over %g beyond the hinges, but only %g clear there (%v)", depth, hinge, clear, ok)
		}
		m := a
		m.Side, m.Face, m.Blocks = Push, -a.Face, nil
		for _, b := range a.Blocks {
			m.Blocks = append(m.Blocks, Area{Point{b.A.X, -b.A.Y}, Point{b.B.X, -b.B.Y}})
		}
		if m.Depth(hinge, latch) != depth || m.Stands(latch) != a.Stands(latch) {
			t.Errorf("pull %g m, push %g", depth, m.Depth(hinge, latch))
		}
	})
}
