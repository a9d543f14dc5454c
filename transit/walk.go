// Package transit tells whether a powered opening stays open long enough for the
// people who use it: at one door, and at two in series.
package transit

import (
	"errors"
	"fmt"
	"math"

	"swingwright/quantity"
)

// Speeds of people (common practice, from memory).
const (
	Frail      = 1.5 * quantity.FootPerSecond
	Wheelchair = 2 * quantity.FootPerSecond
	Brisk      = 2.5 * quantity.FootPerSecond
)

// Chair is the length of a person in a wheelchair, 4 ft: the long side of the
// clear floor space of the accessibility standards (ADA 2010, 305.3).
const Chair = 4 * quantity.Foot

// ChairWidth is the width that such a person needs, 30 in: the short side of the
// same floor space (ADA 2010, 305.3).
const ChairWidth = 30 * quantity.Inch

// A Walk is a person's way from pressing the actuator to being clear of the
// swing.
type Walk struct {
	Actuator quantity.Length // from the actuator to the doorway
	Clear    quantity.Length // through the doorway and out of the leaf's way
	Person   quantity.Length // from front to back, with chair, walker or cart
	Speed    quantity.Speed
}

// Path is how far the person's front goes until the back is clear.
func (w Walk) Path() quantity.Length { return w.Actuator + w.Clear + w.Person }

// Time is how long it takes from press to clear: (actuator + clear + person)/speed.
// The person is taken to start at once and not to wait for the leaf.
func (w Walk) Time() quantity.Time { return over(w.Path(), w.Speed) }

func over(path quantity.Length, speed quantity.Speed) quantity.Time {
	return quantity.Time(float64(path) / float64(speed))
}

// Check collects what makes no sense in a walk.
func (w Walk) Check() error {
	return errors.Join(
		length("distance to the actuator", w.Actuator), length("way through the doorway", w.Clear),
		length("length of the person", w.Person), speed(w.Speed))
}

func length(what string, l quantity.Length) error {
	if !(l >= 0) || math.IsInf(float64(l), 0) {
		return fmt.Errorf("%s of %g m: give a length, zero or more", what, float64(l))
	}
	return nil
}

func speed(v quantity.Speed) error {
	if !(v > 0) || math.IsInf(float64(v), 0) {
		return fmt.Errorf("speed of %g m/s: give one above zero, such as 0.46 m/s for a frail person", float64(v))
	}
	return nil
}

func duration(what string, t quantity.Time) error {
	if !(t >= 0) || math.IsInf(float64(t), 0) {
		return fmt.Errorf("%s of %g s: give a time, zero or more", what, float64(t))
	}
	return nil
}
