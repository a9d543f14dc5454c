package logic

import (
	"math"

	q "swingwright/quantity"
)

// Swing is to which side of its door a leaf swings.
type Swing uint8

// The swings.
const (
	EitherWay Swing = iota // not known: taken to swing with whoever passes
	SwingsIn               // into the space between the doors
	SwingsOut              // away from it
)

// Lengths along a way are counted from its first door.

// doorAt is how far along its way somebody comes to a door.
func (t *Traffic) doorAt(way, door int) float64 {
	if door == way {
		return 0
	}
	return float64(t.Between)
}

// meets tells that a leaf swings toward whoever comes to it on a way.
func (t *Traffic) meets(way, door int) bool {
	if door == way {
		return t.Leaves[door].Swing == SwingsOut
	}
	return t.Leaves[door].Swing == SwingsIn
}

// sweep is the stretch of a way that a leaf sweeps: its width on the side to which it
// swings.
func (t *Traffic) sweep(way, door int) (from, to float64) {
	at, wide := t.doorAt(way, door), float64(t.Leaves[door].Width)
	if t.meets(way, door) {
		return at - wide, at
	}
	return at, at + wide
}

// clearOf is how far somebody's front has to come for their back to be out of a leaf's
// sweep and of its doorway.
func (t *Traffic) clearOf(way, door int) float64 {
	_, to := t.sweep(way, door)
	return to + float64(t.Person)
}

// startsAt is where people stand until the first door is open: at it, or before the
// sweep of a leaf that comes toward them.
func (t *Traffic) startsAt(way int) float64 {
	from, _ := t.sweep(way, way)
	return min(0, from)
}

// A Stand is where people wait before the second door.
type Stand struct {
	Before q.Length // how far before it their front is
	MoveUp bool     // nearer than people like to, so that the first leaf can close behind them
	// Short is by how much the space falls short of taking them clear of both leaves;
	// zero or less where it does. They then stand in the way of the first leaf.
	Short q.Length
}

// stand is where people wait: as near as they like to, but before the sweep of a leaf
// that comes toward them, and moved up as far as they can where the first leaf could not
// close behind them otherwise. Where a leaf swings that is not known to, they do not move up.
func (t *Traffic) stand(way int) Stand {
	second := 1 - way
	gap, wide := float64(t.Between), float64(t.Leaves[second].Width)
	at, most := gap-float64(t.Near), gap
	switch {
	case t.meets(way, second):
		at, most = min(at, gap-wide), gap-wide
	case t.Leaves[second].Swing == EitherWay:
		most = at
	}
	clear := t.clearOf(way, way)
	s := Stand{Short: q.Length(clear - most)}
	if at < clear && most > at {
		at, s.MoveUp = min(clear, most), true
	}
	s.Before = q.Length(gap - math.Max(0, at))
	return s
}

// stops is the same as a length along the way.
func (t *Traffic) stops(way int) float64 { return float64(t.Between - t.stand(way).Before) }
