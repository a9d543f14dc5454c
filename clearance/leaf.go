package clearance

import (
	"math"

	q "swingwright/quantity"
)

// A Leaf is the leaf in the plan.
type Leaf struct {
	// Edge is the distance from the hinge pin to the hinge edge, along the closed leaf.
	Edge q.Length
	// Face is the distance from the hinge pin back to the pull face, square to
	// it; above zero with the pin out in front of that face.
	Face q.Length
	// Width is edge to edge, Thickness face to face.
	Width, Thickness q.Length
}

// Radius is the distance of the latch edge from the hinge pin, along the leaf.
func (l Leaf) Radius() q.Length { return l.Edge + l.Width }

// faceAt is where the face on a side lies while the leaf is closed.
func (l Leaf) faceAt(s Side) q.Length {
	if s == Pull {
		return -l.Face
	}
	return -l.Face - l.Thickness
}

// Body is the leaf itself.
func (l Leaf) Body(name string) Body {
	return Block(name, OnLeaf, Point{l.Edge, l.faceAt(Push)}, Point{l.Radius(), l.faceAt(Pull)})
}

// A Projection is something that stands out from a face of the leaf, taken as a
// rectangle: knob, lever, pull, exit bar, the body of a closer.
type Projection struct {
	Name string
	Side Side
	// At is the distance of its middle from the hinge pin, along the leaf, and
	// Along its length that way.
	At, Along q.Length
	// Out is how far it stands out from the face.
	Out q.Length
	// Heights is what it takes up above the floor.
	Heights Band
}

// On is the projection as a body on the leaf.
func (p Projection) On(l Leaf) Body {
	c := p.corners(l)
	b := Polygon(p.Name, OnLeaf, c[:]...)
	b.band = p.Heights
	return b
}

func (p Projection) corners(l Leaf) [4]Point {
	face, out := l.faceAt(p.Side), p.Out
	if p.Side == Push {
		out = -out
	}
	left, right := p.At-p.Along/2, p.At+p.Along/2
	return [4]Point{{left, face}, {right, face}, {right, face + out}, {left, face + out}}
}

func (l Leaf) corners() [4]Point {
	return [4]Point{
		{l.Edge, l.faceAt(Push)}, {l.Radius(), l.faceAt(Push)},
		{l.Radius(), l.faceAt(Pull)}, {l.Edge, l.faceAt(Pull)},
	}
}

// farthest is the greatest x that any of the corners has at leaf angle theta.
func farthest(corners [4]Point, theta float64) float64 {
	most := math.Inf(-1)
	for _, c := range corners {
		most = math.Max(most, c.vec().turned(theta).x)
	}
	return most
}
