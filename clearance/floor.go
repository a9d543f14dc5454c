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
	// Side is the side of the closed leaf on which the switch is.
	Side Side
	// Hidden tells that the open leaf stands between the switch and the middle
	// of the doorway.
	Hidden bool
}

// StandAt sees where a switch and the floor before it are, for a leaf that opens to an angle.
func StandAt(l Leaf, open q.Angle, at Point, floor Floor) Stand {
	leaf := l.Body("")
	leafPts, _ := leaf.place(nil, float64(open))
	ground := floor.Body("").shape.pts
	y := (l.faceAt(Pull) + l.faceAt(Push)) / 2
	middle, edge := Point{l.Edge + l.Width/2, y}, Point{l.Radius(), y}
	s := Stand{
		SwitchToSweep:      l.ToSweep(open, at),
		FloorToSweep:       l.ToSweep(open, floor.corners()...),
		SwitchToLeaf:       q.Length(coreToCore([]vec{at.vec()}, leafPts).gap),
		FloorToLeaf:        q.Length(coreToCore(ground, leafPts).gap),
		SwitchToCentre:     at.To(middle),
		SwitchToClosedEdge: at.To(edge),
		SwitchToOpenEdge:   at.To(edge.Turned(open)),
	}
	if at.Y < y {
		s.Side = Push
	}
	s.Hidden = coreToCore([]vec{at.vec(), middle.vec()}, leafPts).gap == 0
	return s
}
