package picture

import (
	"math"
	"slices"
	"strings"
	"testing"

	"swingwright/internal/draw"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/quantity"
)

// path finds an item by its title.
func path(t *testing.T, s *draw.Scene, title string) draw.Path {
	t.Helper()
	for _, item := range s.Items {
		if p, ok := item.(draw.Path); ok && p.Title == title {
			return p
		}
	}
	t.Fatalf("the picture has no %q", title)
	return draw.Path{}
}

// planOf is leaf and arm of opening 101 alone, at the scale that suits them:
// without what stands around them and without an operator, so up to 90 degrees.
func planOf(t *testing.T, hand opening.Hand) *draw.Scene {
	o, sheets, books := demoOpening(t, "101")
	o.Frame.Hand = hand
	o.Room, o.Controls, o.DoorLoop, o.Operator = opening.Room{}, nil, opening.DoorLoop{}, opening.Operator{}
	return Plan(plan.Make(&o, sheets, books, quick), quantity.SI)
}

// Hand is told from the outside, the push side of LH and RH and the pull side of
// LHR and RHR (SDI 111-D, read second-hand): the pull side being at the top of
// the page, LH and RHR have their hinges to the left, RH and LHR to the right.
func TestHand(t *testing.T) {
	for hand, left := range map[opening.Hand]bool{"LH": true, "RHR": true, "RH": false, "LHR": false} {
		s := planOf(t, hand)
		hinge, latch := covered(path(t, s, "hinge jamb")), covered(path(t, s, "latch jamb"))
		if got := hinge.right < latch.left; got != left {
			t.Errorf("%s: hinges to the left is %v, want %v", hand, got, left)
		}
		if open := covered(path(t, s, "leaf at 90°")); open.low < hinge.high-3 {
			t.Errorf("%s: the open leaf does not stand toward the top of the page", hand)
		}
		if !strings.Contains(words(s), "("+string(hand)+")") {
			t.Errorf("%s is not named", hand)
		}
	}
	if text := words(planOf(t, "")); !strings.Contains(text, "Hand not known") {
		t.Errorf("an unknown hand is not called so: %s", text)
	}
}

// The other hand is the mirror image: every line, circle and arc of the one, seen
// in a mirror, is in the other.
func TestHandsAreMirrorImages(t *testing.T) {
	left, right := planOf(t, "LH"), planOf(t, "RH")
	axis := covered(path(t, left, "leaf at 0°")).left + covered(path(t, right, "leaf at 0°")).right
	var want, got []box
	for i, s := range []*draw.Scene{left, right} {
		for _, item := range s.Items {
			p, isPath := item.(draw.Path)
			if _, isText := item.(draw.Text); isText || isPath && p.Title == "" {
				continue // words, and the small marks that stand by them, are not mirrored
			}
			b := covered(item)
			if i == 0 {
				b.left, b.right = axis-b.right, axis-b.left
				want = append(want, b)
			} else {
				got = append(got, b)
			}
		}
	}
	if len(want) < 8 {
		t.Fatalf("only %d things to compare", len(want))
	}
	for _, w := range want {
		if !slices.ContainsFunc(got, func(g box) bool {
			return math.Abs(g.left-w.left)+math.Abs(g.right-w.right)+math.Abs(g.low-w.low)+math.Abs(g.high-w.high) < 1e-6
		}) {
			t.Errorf("nothing at the mirror image %+v", w)
		}
	}
}

// The drawing is to its scale: the demonstration's leaf of 35-3/4 in is
// 908.05 mm, 90.81 mm long at 1:10, and at 60 degrees it reaches half as far.
func TestScale(t *testing.T) {
	s := planOf(t, "LH")
	if !strings.Contains(words(s), "Scale 1:10 ") {
		t.Fatalf("scale: %s", words(s))
	}
	leaf := path(t, s, "leaf at 0°")
	if long := leaf.Points[1].X - leaf.Points[0].X; math.Abs(long-908.05/10) > 1e-9 {
		t.Errorf("the leaf is %v mm long on paper", long)
	}
	turned := path(t, s, "leaf at 60°")
	if reach := turned.Points[1].X - turned.Points[0].X; math.Abs(reach-908.05/20) > 1e-9 {
		t.Errorf("at 60 degrees it reaches %v mm", reach)
	}
}

// The arm keeps its lengths at every angle: 11 in and 10.47 in at 1:10.
func TestArmKeepsItsLengths(t *testing.T) {
	s := planOf(t, "RHR")
	var bars []float64
	for _, item := range s.Items {
		if p, ok := item.(draw.Path); ok && len(p.Points) == 2 && (p.Width == 1.3 || p.Width == 0.7) {
			bars = append(bars, math.Hypot(p.Points[1].X-p.Points[0].X, p.Points[1].Y-p.Points[0].Y)*10/25.4)
		}
	}
	slices.Sort(bars)
	want := []float64{10.47, 11, 11, 11, 11} // the closed forearm, and four main arms
	if len(bars) != len(want) {
		t.Fatalf("%d bars: %v", len(bars), bars)
	}
	for i := range want {
		if math.Abs(bars[i]-want[i]) > 1e-9 {
			t.Errorf("bar %d is %v in long, want %v", i, bars[i], want[i])
		}
	}
}
