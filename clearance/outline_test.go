package clearance

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Distances that a ruler gives.
func TestBetween(t *testing.T) {
	square := []vec{{0, 0}, {1, 0}, {1, 1}, {0, 1}}
	angle := []vec{{0, 0}, {3, 0}, {3, 1}, {1, 1}, {1, 3}, {0, 3}} // an L
	for _, c := range []struct {
		what string
		a, b outline
		gap  float64
	}{
		{"two points, 3-4-5", outline{pts: []vec{{0, 0}}}, outline{pts: []vec{{3, 4}}}, 5},
		{"point and disc", outline{pts: []vec{{0, 0}}}, outline{pts: []vec{{3, 4}}, round: 2}, 3},
		{"two discs that overlap", outline{pts: []vec{{0, 0}}, round: 4}, outline{pts: []vec{{3, 4}}, round: 2}, 0},
		{"square and point beside an edge", outline{pts: square}, outline{pts: []vec{{0.3, -2}}}, 2},
		{"square and point off a corner", outline{pts: square}, outline{pts: []vec{{4, 5}}}, 5},
		{"point within a square", outline{pts: square}, outline{pts: []vec{{0.3, 0.4}}}, 0},
		{"square within a square", outline{pts: []vec{{-1, -1}, {2, -1}, {2, 2}, {-1, 2}}}, outline{pts: square}, 0},
		{"segment right through a square", outline{pts: square}, outline{pts: []vec{{-1, 0.5}, {2, 0.5}}}, 0},
		{"segments that cross", outline{pts: []vec{{0, 0}, {1, 1}}}, outline{pts: []vec{{0, 1}, {1, 0}}}, 0},
		{"segments in one line", outline{pts: []vec{{0, 0}, {1, 0}}}, outline{pts: []vec{{1.5, 0}, {2, 0}}}, 0.5},
		{"point in the crook of an L", outline{pts: angle}, outline{pts: []vec{{2, 2.5}}}, 1},
		{"square in the crook of an L", outline{pts: angle}, outline{pts: []vec{{1.5, 1.25}, {2, 1.25}, {2, 2}, {1.5, 2}}}, 0.25},
		{"square before a half-plane", outline{pts: square}, outline{pts: []vec{{-2, 9}}, solid: vec{-1, 0}}, 2},
		{"disc before a half-plane", outline{pts: []vec{{0, 0}}, round: 0.5}, outline{pts: []vec{{-2, 9}}, solid: vec{-1, 0}}, 1.5},
		{"square reaching into a half-plane", outline{pts: square}, outline{pts: []vec{{0.5, 0}}, solid: vec{1, 0}}, 0},
	} {
		if n := between(&c.a, &c.b); math.Abs(n.gap-c.gap) > 1e-14 {
			t.Errorf("%s: gap %g m, want %g", c.what, n.gap, c.gap)
		}
		if c.b.half() {
			continue
		}
		if n := between(&c.b, &c.a); math.Abs(n.gap-c.gap) > 1e-14 {
			t.Errorf("%s, the other way round: gap %g m, want %g", c.what, n.gap, c.gap)
		}
	}
}

func TestWhereTheyMeet(t *testing.T) {
	a, b := outline{pts: []vec{{0, 0}, {2, 2}}}, outline{pts: []vec{{0, 1}, {2, 1}}}
	if n := between(&a, &b); n.a.minus(vec{1, 1}).length() > 1e-15 || n.a != n.b {
		t.Errorf("segments that cross at (1, 1) meet at %v and %v", n.a, n.b)
	}
}

func drawOutline(t *rapid.T, name string) outline {
	at := rapid.Float64Range(-1, 1)
	o := outline{round: rapid.Float64Range(0, 0.2).Draw(t, name+" round")}
	for range rapid.IntRange(1, 6).Draw(t, name+" corners") {
		o.pts = append(o.pts, vec{at.Draw(t, name+" x"), at.Draw(t, name+" y")})
	}
	return o
}

// A distance does not care who measures, and mirrors and grows with the whole.
func TestBetweenMirrorsAndScales(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawOutline(t, "a"), drawOutline(t, "b")
		k := rapid.Float64Range(0.1, 10).Draw(t, "scale")
		change := func(o outline, f func(vec) vec, round float64) *outline {
			out := outline{round: o.round * round}
			for _, p := range o.pts {
				out.pts = append(out.pts, f(p))
			}
			return &out
		}
		gap := between(&a, &b).gap
		if back := between(&b, &a).gap; math.Abs(back-gap) > 1e-12 {
			t.Errorf("gap %g one way, %g the other", gap, back)
		}
		mirror := func(p vec) vec { return vec{p.x, -p.y} }
		if m := between(change(a, mirror, 1), change(b, mirror, 1)).gap; math.Abs(m-gap) > 1e-12 {
			t.Errorf("gap %g, mirrored %g", gap, m)
		}
		grow := func(p vec) vec { return p.times(k) }
		if g := between(change(a, grow, k), change(b, grow, k)).gap; math.Abs(g-k*gap) > 1e-12*k {
			t.Errorf("gap %g, scaled by %g it is %g", gap, k, g)
		}
	})
}

// No two places within the outlines are nearer than the gap.
func TestNothingIsNearer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawOutline(t, "a"), drawOutline(t, "b")
		n := between(&a, &b)
		on := func(o outline, name string) vec {
			p, r := edge(o.pts, rapid.IntRange(0, edges(o.pts)-1).Draw(t, name+" edge"))
			at := p.plus(r.minus(p).times(rapid.Float64Range(0, 1).Draw(t, name+" along")))
			return at.plus(heading(rapid.Float64Range(0, 7).Draw(t, name+" aside")).times(o.round))
		}
		if d := on(a, "a").minus(on(b, "b")).length(); d < n.gap-1e-12 {
			t.Errorf("two places are %g m apart, the gap is said to be %g", d, n.gap)
		}
		if ends := n.a.minus(n.b).length(); math.Abs(ends-n.gap) > 1e-12 {
			t.Errorf("the ends are %g m apart, the gap is %g", ends, n.gap)
		}
	})
}
