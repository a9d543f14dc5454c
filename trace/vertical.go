package trace

import (
	"fmt"
	"math"

	"swingwright/quantity"
)

// vertical is the hinge's direction in the device's axes.
type vertical struct {
	axis vector // unit vector, its sense not known yet
	pick [3]int // which column of rates belongs to x, y and z
	from string // what it was found from
	on   []bool // rows in which the recorder was fixed to the leaf; nil for all
	// steady tells that it was so all the time.
	steady bool
}

const byGravity = "gravity"

// identity is the order in which axes are named alike.
var identity = [3]int{0, 1, 2}

// orders are all ways in which rates called alpha, beta and gamma may belong to
// x, y and z: texts and devices differ.
var orders = [][3]int{identity, {1, 2, 0}, {2, 0, 1}, {0, 2, 1}, {2, 1, 0}, {1, 0, 2}}

// astray is the angle between gravity and the axis of turning from which they
// cannot both be right.
const astray = 12 * degree

// findVertical finds the hinge's direction from gravity, which does not change in
// the device while the leaf turns. Without gravity it is the axis about which the
// device turned.
func (r *Recording) findVertical(step float64) (v vertical, faults []Fault) {
	tell := func(spoils bool, better, found string, args ...any) {
		faults = append(faults, Fault{Found: fmt.Sprintf(found, args...), Better: better, Spoils: spoils})
	}
	v = vertical{pick: identity, from: byGravity}
	var tiles []tile
	var g vector
	if r.accel[0] != nil {
		tiles = r.tiles(step)
		g = attitude(tiles)
		v.on = r.fixed(tiles)
	}
	axis, lead := spindle(&r.rate, identity, tiles)
	ok := r.isGravity(g)
	switch {
	case r.accel[0] == nil:
		tell(false, "record acceleration with gravity too", "there is no acceleration: the axis of turning is taken for the vertical")
	case !ok:
		tell(false, "record acceleration that includes gravity, and state its unit", "the acceleration, %.3g at rest, is not that of gravity: the axis of turning is taken for the vertical", g.norm())
	default:
		v.axis = g.unit()
	}
	if v.axis == (vector{}) {
		if v.from = "the axis of turning"; lead < 50 {
			tell(true, "fix the recorder to the leaf, and record acceleration too", "it does not turn about one axis")
		}
		v.axis = axis
		return v, faults
	}
	v.steady = steady(tiles, v.axis)
	if lead < 50 { // hardly any turning to compare with
		return v, faults
	}
	off := between(axis, v.axis)
	if off > astray && r.greek {
		for _, pick := range orders {
			if a, _ := spindle(&r.rate, pick, tiles); between(a, v.axis) < off {
				off, v.pick = between(a, v.axis), pick
			}
		}
		tell(false, "write rates and accelerations about x, y and z", "alpha, beta and gamma were taken for the axes that turn about the vertical")
	}
	if off > astray {
		tell(true, "write rates and accelerations about the same three axes, and fix the recorder so that it cannot move on the leaf", "it turned about an axis %.0f° off the vertical", off/degree)
	}
	return v, faults
}

// isGravity tells that an acceleration is that of gravity: in m/s², or in g where
// no unit is told.
func (r *Recording) isGravity(g vector) bool {
	return math.Abs(g.norm()/quantity.StandardGravity-1) < 0.2 || !r.unit && math.Abs(g.norm()-1) < 0.2
}
