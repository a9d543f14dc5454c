package ode

import (
	"errors"
	"fmt"
	"math"
)

// Options says how exactly to follow a motion. With the defaults the marks of a
// closing leaf come out within some 0.01 ms. A zero field takes the default
// named beside it.
type Options struct {
	// Rel is the error allowed per step relative to the value; default 1e-5.
	Rel float64
	// AbsAngle is the error allowed per step in the angle on top of that, rad; default 1e-6.
	AbsAngle float64
	// AbsRate is the error allowed per step in the rate on top of that, rad/s; default 1e-6.
	AbsRate float64
	// FirstStep is the length of the first step tried, s; default: guessed.
	FirstStep float64
	// MaxStep is the longest step, s; default: no bound.
	MaxStep float64
	// MaxTries is how many steps may be tried, refused ones included, before
	// the solver gives up; default 10000.
	MaxTries int
	// Timeless tells that the acceleration does not depend on the time, which
	// saves a look where the motion is stiff.
	Timeless bool
}

// withDefaults fills in what was left zero and reports every field that makes no sense.
func (o Options) withDefaults() (Options, error) {
	var problems []error
	fill := func(field *float64, name string, standard float64) {
		if !(*field >= 0) || math.IsInf(*field, 0) {
			problems = append(problems, fmt.Errorf("ode: option %s is %v; give a positive number, or 0 for the default", name, *field))
		}
		if *field == 0 {
			*field = standard
		}
	}
	fill(&o.Rel, "Rel", 1e-5)
	fill(&o.AbsAngle, "AbsAngle", 1e-6)
	fill(&o.AbsRate, "AbsRate", 1e-6)
	fill(&o.FirstStep, "FirstStep", 0)
	fill(&o.MaxStep, "MaxStep", math.MaxFloat64)
	if o.MaxTries < 0 {
		problems = append(problems, fmt.Errorf("ode: option MaxTries is %d; give a positive number, or 0 for the default", o.MaxTries))
	}
	if o.MaxTries == 0 {
		o.MaxTries = 10000
	}
	return o, errors.Join(problems...)
}
