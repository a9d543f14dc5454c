package clearance

import (
	"math"

	q "swingwright/quantity"
)

// A Floor is a rectangle of floor on which a person or a wheelchair stands.
type Floor struct {
	Centre Point
	// Length runs in the direction Turn from +x, Width square to it.
	Length, Width q.Length
	Turn          q.Angle
}

func (f Floor) corners() []Point {
	along := heading(float64(f.Turn)).times(float64(f.Length) / 2)
	across := heading(float64(f.Turn) + math.Pi/2).times(float64(f.Width) / 2)
	c := f.Centre.vec()
	return []Point{
		c.minus(along).minus(across).point(), c.plus(along).minus(across).point(),
		c.plus(along).plus(across).point(), c.minus(along).plus(across).point(),
	}
}

// Body is the floor as a thing on the frame, so that it can take part in a Scene.
func (f Floor) Body(name string) Body { return Polygon(name, OnFrame, f.corners()...) }

// A Stand is where a switch and the floor before it are, as seen from the leaf.
// What the distances must be is for the rules to say.
type Stand struct {
	// SwitchToSweep and FloorToSweep are the distances from the floor that the
	// leaf sweeps, within "the arc of the swing"; zero where they reach into it.
	SwitchToSweep, FloorToSweep q.Length
	// SwitchToLeaf and FloorToLeaf are the distances from the leaf when it is open.
	SwitchToLeaf, FloorToLeaf q.Length
	// SwitchToCentre is the distance from the middle of the closed leaf.
	SwitchToCentre q.Length
	// SwitchToClosedEdge and SwitchToOpenEdge are the distances from the middle
	// of the latch edge with the leaf closed and open.
	SwitchToClosedEdge, SwitchToOpenEdge q.Length
	// SwitchAhead is how far the switch is from the closed leaf's face on its
	// side, square to it; SwitchPastOpenEdge how far it is, that way, beyond all of
	// the open leaf, below zero where the leaf reaches farther.
	SwitchAhead, SwitchPastOpenEdge q.Length
	// Side is the side of the closed leaf on which the switch is.
	Side Side
	// Hidden tells that the open leaf stands between the switch and the middle
	// of the doorway.
	Hidden bool
}

// StandAt sees where a switch and the floor before it are, for a leaf that opens to an angle.
func StandAt(l Leaf, open q.Angle, at Point, floor Floor) Stand {
	s := SwitchAt(l, open, at)
	leaf, ground := l.opened(open), floor.Body("").shape.pts
	s.FloorToSweep = l.ToSweep(open, floor.corners()...)
	s.FloorToLeaf = q.Length(coreToCore(ground, leaf[:]).gap)
	return s
}

// SwitchAt sees where a switch is, of whose floor nothing is known, for a leaf
// that opens to an angle; what a Stand tells of the floor is left zero.
func SwitchAt(l Leaf, open q.Angle, at Point) Stand {
	leaf, point := l.opened(open), [1]vec{at.vec()}
	pull, push := l.faceAt(Pull), l.faceAt(Push)
	y := (pull + push) / 2
	middle, edge := Point{l.Edge + l.Width/2, y}, Point{l.Radius(), y}
	s := Stand{
		SwitchToSweep:      q.Length(l.toSweep(float64(open), point[:])),
		SwitchToLeaf:       q.Length(coreToCore(point[:], leaf[:]).gap),
		SwitchToCentre:     at.To(middle),
		SwitchToClosedEdge: at.To(edge),
		SwitchToOpenEdge:   at.To(edge.Turned(open)),
		SwitchAhead:        at.Y - pull,
		SwitchPastOpenEdge: at.Y - q.Length(max(leaf[0].y, leaf[1].y, leaf[2].y, leaf[3].y)),
	}
	if at.Y < y {
		s.Side, s.SwitchAhead = Push, push-at.Y
	}
	sight := [2]vec{at.vec(), middle.vec()}
	s.Hidden = coreToCore(sight[:], leaf[:]).gap == 0
	return s
}

// opened are the corners of the leaf at an angle.
func (l Leaf) opened(open q.Angle) (pts [4]vec) {
	for i, c := range l.corners() {
		pts[i] = c.vec().turned(float64(open))
	}
	return pts
}
