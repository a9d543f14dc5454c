package clearance

import (
	"math"

	q "swingwright/quantity"
)

// Carrier is what a body is fixed to.
type Carrier uint8

// The carriers. Bodies on the frame, walls and furniture stand still; bodies on
// the leaf turn with it and are given as they stand with the leaf closed.
const (
	OnFrame Carrier = iota
	OnLeaf
)

// Joints gives the two ends of an arm link, in the plan view, at leaf angle
// theta. ok is false where the arm is out of reach. Elsewhere the ends must move
// smoothly: over any two degrees as on a parabola, to within half of
// how far they go. Every arm does that stands clear of its dead points; and the
// steps of a sweep shrink as a contact comes near.
type Joints func(theta q.Angle) (a, b Point, ok bool)

// A Body is one thing that can touch another: its name, what it covers in the
// plan, how it moves and at which heights it is. The functions that make one
// accept anything; NewScene tells what is wrong with it.
type Body struct {
	name   string
	on     Carrier
	band   Band
	shape  outline
	joints Joints
}

// Polygon is a filled polygon with the given corners, in order either way
// round. Two corners make a thin wall, one a thin post. Boundaries may not cross.
func Polygon(name string, on Carrier, corners ...Point) Body {
	pts := make([]vec, len(corners))
	for i, c := range corners {
		pts[i] = c.vec()
	}
	return Body{name: name, on: on, shape: outline{pts: pts}}
}

// Block is a rectangle along the axes between two opposite corners.
func Block(name string, on Carrier, a, b Point) Body {
	return Polygon(name, on, a, Point{b.X, a.Y}, b, Point{a.X, b.Y})
}

// Disc is a round thing, such as a floor stop.
func Disc(name string, on Carrier, centre Point, radius q.Length) Body {
	d := Polygon(name, on, centre)
	d.shape.round = float64(radius)
	return d
}

// Bar is a straight bar of the given width with round ends about a and b.
func Bar(name string, on Carrier, a, b Point, width q.Length) Body {
	bar := Polygon(name, on, a, b)
	bar.shape.round = float64(width) / 2
	return bar
}

// HalfPlane is a wall without end: all that lies beyond the line through a
// point, on the side to which the direction toward looks, from +x. A wall
// beside the hinges at distance s is HalfPlane(name, Point{X: -s}, 180*quantity.Degree).
func HalfPlane(name string, through Point, toward q.Angle) Body {
	w := Polygon(name, OnFrame, through)
	w.shape.solid = heading(float64(toward))
	return w
}

// Link is an arm of the given width with round ends, which moves as its joints do.
func Link(name string, width q.Length, joints Joints) Body {
	return Body{name: name, joints: joints, shape: outline{pts: make([]vec, 2), round: float64(width) / 2}}
}

// Between gives the body the heights above the floor that it takes up; without
// it, it takes up all. Bodies without a common height do not touch.
func (b Body) Between(from, to q.Length) Body {
	b.band = Band{from, to}
	return b
}

// Name is the name that contacts give.
func (b Body) Name() string { return b.name }

// Heights is the band that the body takes up.
func (b Body) Heights() Band { return b.band }

// Outline gives what the body covers at leaf angle theta: the corners of its
// core and how far it reaches round them. A half-plane gives the point it was
// made with. ok is false where a link is out of reach.
func (b Body) Outline(theta q.Angle) (corners []Point, round q.Length, ok bool) {
	pts, ok := b.place(nil, float64(theta))
	for _, p := range pts {
		corners = append(corners, p.point())
	}
	return corners, q.Length(b.shape.round), ok
}

// place puts the corners at leaf angle theta into dst.
func (b *Body) place(dst []vec, theta float64) ([]vec, bool) {
	switch {
	case b.joints != nil:
		a, e, ok := b.ends(theta)
		return append(dst, a, e), ok
	case b.on == OnLeaf:
		sin, cos := math.Sincos(theta)
		for _, p := range b.shape.pts {
			dst = append(dst, p.by(sin, cos))
		}
		return dst, true
	}
	return append(dst, b.shape.pts...), true
}

// ends calls the joints; ends that are no numbers are out of reach.
func (b *Body) ends(theta float64) (vec, vec, bool) {
	a, e, ok := b.joints(q.Angle(theta))
	sum := float64(a.X + a.Y + e.X + e.Y)
	return a.vec(), e.vec(), ok && !math.IsNaN(sum) && !math.IsInf(sum, 0)
}
