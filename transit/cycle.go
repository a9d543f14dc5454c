package transit

import (
	"errors"
	"math"

	"swingwright/quantity"
)

// A Cycle is one opening by the operator, from the press.
type Cycle struct {
	Opening quantity.Time // from the press to fully open, release of the lock included
	Hold    quantity.Time // held fully open
	Usable  quantity.Time // from the start of closing until the leaf reaches the path; see PathAngle
}

// Available is how long the way is free from the press: opening, hold and the
// usable part of closing.
func (c Cycle) Available() quantity.Time { return c.Opening + c.Hold + c.Usable }

// Spread is the standard uncertainty of what is available, from those of a
// cycle's parts, which are independent (JCGM 100:2008, eq. 10).
func Spread(u Cycle) quantity.Time {
	return quantity.Time(math.Hypot(math.Hypot(float64(u.Opening), float64(u.Hold)), float64(u.Usable)))
}

// Check collects what makes no sense in a cycle.
func (c Cycle) Check() error {
	return errors.Join(duration("opening time", c.Opening), duration("hold", c.Hold), duration("usable part of closing", c.Usable))
}

// PathAngle is the leaf angle down to which a closing leaf leaves a path of the
// given width free beside the strike jamb: the latch edge, at radius r from the
// hinge axis, stands r·cos θ out from the hinge jamb, so that
// cos θ = (opening − path)/r. It is 90 degrees where the path takes the whole
// opening; false where the path is wider than that.
func PathAngle(opening, latchEdge, path quantity.Length) (quantity.Angle, bool) {
	cos := float64((opening - path) / latchEdge)
	if !(cos >= 0 && latchEdge > 0) {
		return 0, false
	}
	return quantity.Angle(math.Acos(min(1, cos))), true
}

// An Advice is what comes of holding a walk against a cycle.
type Advice struct {
	Needed    quantity.Time
	Available quantity.Time
	Margin    quantity.Time // Available − Needed
	// Hold is the least hold with which the person gets through with the spare
	// time asked for; never below zero.
	Hold quantity.Time
	// Actuator is how far the actuator may be at most with the hold as it is;
	// below zero where no place is near enough.
	Actuator quantity.Length
}

// Advise holds a walk against a cycle; spare is the time that should be left over.
func Advise(w Walk, c Cycle, spare quantity.Time) Advice {
	needed, available := w.Time(), c.Available()
	return Advice{
		Needed: needed, Available: available, Margin: available - needed,
		Hold:     max(0, needed+spare-c.Opening-c.Usable),
		Actuator: quantity.Length(float64(available-spare)*float64(w.Speed)) - w.Clear - w.Person,
	}
}

// HoldByDistance is the least hold that the low-energy standard recommends for an
// actuator so far from the middle of the door: 5 s, and 1 s more for every foot,
// begun or whole, beyond 5 ft (ANSI/BHMA A156.19-2013, A-5, advisory).
func HoldByDistance(actuator quantity.Length) quantity.Time {
	const whole = 1e-9 // a foot written in another unit is still a foot
	return 5*quantity.Second + quantity.Time(max(0, math.Ceil(float64(actuator/quantity.Foot)-5-whole)))
}
