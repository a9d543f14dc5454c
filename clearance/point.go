package clearance

import (
	"math"

	q "swingwright/quantity"
)

// A Point is a place in the plan view, from the hinge pin.
type Point struct{ X, Y q.Length }

// Turned is where a point of the leaf is when the leaf has turned by theta.
func (p Point) Turned(theta q.Angle) Point { return p.vec().turned(float64(theta)).point() }

// To is the distance from one point to another.
func (p Point) To(o Point) q.Length { return q.Length(o.vec().minus(p.vec()).length()) }

// Side is a side of the doorway, or the face of the closed leaf on that side.
type Side uint8

// The sides: the leaf swings toward Pull.
const (
	Pull Side = iota
	Push
)

// A Band is the range of heights above the floor that a thing takes up. The
// zero Band takes up all heights.
type Band struct{ From, To q.Length }

// Meets tells whether two bands share a height; bands that only touch do not.
func (b Band) Meets(o Band) bool {
	if b == (Band{}) || o == (Band{}) {
		return true
	}
	return b.From < o.To && o.From < b.To
}

// A vec is a point or a direction in the plan, in metres.
type vec struct{ x, y float64 }

func (p Point) vec() vec { return vec{float64(p.X), float64(p.Y)} }

func (a vec) point() Point { return Point{q.Length(a.x), q.Length(a.y)} }

func (a vec) plus(b vec) vec          { return vec{a.x + b.x, a.y + b.y} }
func (a vec) minus(b vec) vec         { return vec{a.x - b.x, a.y - b.y} }
func (a vec) times(k float64) vec     { return vec{a.x * k, a.y * k} }
func (a vec) dot(b vec) float64       { return a.x*b.x + a.y*b.y }
func (a vec) cross(b vec) float64     { return a.x*b.y - a.y*b.x }
func (a vec) length() float64         { return math.Hypot(a.x, a.y) }
func (a vec) by(sin, cos float64) vec { return vec{a.x*cos - a.y*sin, a.x*sin + a.y*cos} }

func (a vec) turned(theta float64) vec {
	sin, cos := math.Sincos(theta)
	return a.by(sin, cos)
}

// heading is the unit vector at an angle from +x.
func heading(angle float64) vec {
	sin, cos := math.Sincos(angle)
	return vec{cos, sin}
}
