package ode

import (
	"errors"
	"fmt"
)

// Why a motion could not be followed further; errors.Is tells them apart.
var (
	// ErrTooManySteps means that Options.MaxTries was reached.
	ErrTooManySteps = errors.New("too many steps: the motion is too stiff or too long for this limit; raise MaxTries or loosen the tolerances")
	// ErrNotFinite means that the acceleration came out infinite or not a number.
	ErrNotFinite = errors.New("the acceleration is not a finite number here; look for a zero inertia or an input that is not a number")
	// ErrStepTooSmall means that no step long enough to matter met the tolerances.
	ErrStepTooSmall = errors.New("no step is short enough: the acceleration jumps or grows without bound here; end the phase before it, or loosen the tolerances")
	// ErrPastEnd means that Step was called when the end had been reached.
	ErrPastEnd = errors.New("the end has been reached; start again with a later end")
)

// A Failure tells where a motion could not be followed further. It wraps one
// of the errors of this package.
type Failure struct {
	// Why is the reason.
	Why error
	// Time is the last time reached, s.
	Time float64
	// State is the state at that time.
	State State
	// Step is the length of the step that was tried, s.
	Step float64
}

// Error gives place and reason.
func (f *Failure) Error() string {
	return fmt.Sprintf("ode: at t = %.6g s (angle %.6g rad, rate %.6g rad/s, step %.3g s): %v",
		f.Time, f.State.Angle, f.State.Rate, f.Step, f.Why)
}

// Unwrap gives the reason.
func (f *Failure) Unwrap() error { return f.Why }
