package lsq

import (
	"errors"
	"fmt"
	"math"
)

// A Param is one parameter to be found.
type Param struct {
	Name  string
	Start float64 // where the search begins, in the parameter's own unit
	// Low and High are bounds, which count where Low < High; one side is left open with an
	// infinity.
	Low, High float64
	// Log tells that the parameter is above zero and acts by its factor.
	Log bool
	// Step is how far the parameter is moved either way for a derivative, in its own unit,
	// or as a share of its value where it is Log. Zero stands for a step fit for functions
	// without noise of their own.
	Step float64
}

// A Problem is what is to be fitted.
type Problem struct {
	Params []Param
	// Observed counts the residuals of observations, which come first, and Priors those of
	// what was known before, which come after them: they hold the parameters without being
	// observations. The loss spares them.
	Observed, Priors int
	// Residuals fills r, Observed + Priors long, for parameters p in their own units. It
	// returns false where there are none. It keeps neither slice, and gives the same r for
	// the same p.
	Residuals func(p, r []float64) bool
	// Loss is that of the residuals of observations.
	Loss Loss
	// Costly tells that residuals take long to work out: derivatives then serve for
	// several steps, brought up to date by what the steps show.
	Costly bool
	// Tolerance is the relative change of the cost, and the change of every parameter by
	// the share of a standard deviation, below which the search is over; zero stands for
	// 1e-10.
	Tolerance float64
	// Most is the largest number of steps; zero stands for 200.
	Most int
}

// Check collects all that makes the problem one that cannot be solved.
func (p *Problem) Check() error {
	var all []error
	say := func(bad bool, format string, args ...any) {
		if bad {
			all = append(all, fmt.Errorf("lsq: "+format, args...))
		}
	}
	say(len(p.Params) == 0, "no parameters: give at least one")
	say(p.Observed < 0 || p.Priors < 0, "%d observations and %d priors: give counts", p.Observed, p.Priors)
	say(p.Observed+p.Priors < len(p.Params), "%d residuals for %d parameters: give at least as many", p.Observed+p.Priors, len(p.Params))
	say(p.Residuals == nil, "no function for the residuals")
	for i := range p.Params {
		q := &p.Params[i]
		bounded := q.Low < q.High
		say(math.IsNaN(q.Start) || math.IsInf(q.Start, 0), "parameter %q starts at %g: give a finite number", q.Name, q.Start)
		say(q.Log && !(q.Start > 0), "parameter %q acts by its factor and starts at %g: give a number above zero", q.Name, q.Start)
		say(bounded && !(q.Start >= q.Low && q.Start <= q.High), "parameter %q starts at %g, outside its bounds %g and %g", q.Name, q.Start, q.Low, q.High)
		say(q.Log && bounded && !(q.Low >= 0), "parameter %q acts by its factor: its lower bound %g must not be below zero", q.Name, q.Low)
		say(!(q.Step >= 0), "parameter %q has step %g: give none, or one above zero", q.Name, q.Step)
	}
	return errors.Join(all...)
}

// inner is a parameter's value as the search reckons with it.
func (p *Param) inner(value float64) float64 {
	if p.Log {
		return math.Log(value)
	}
	return value
}

// outer is the reverse of inner, kept within the bounds against rounding.
func (p *Param) outer(x float64) float64 {
	if p.Log {
		x = math.Exp(x)
	}
	if p.Low < p.High {
		x = max(p.Low, min(p.High, x))
	}
	return x
}

// box is the parameter's bounds as the search reckons with them.
func (p *Param) box() (low, high float64) {
	if !(p.Low < p.High) {
		return math.Inf(-1), math.Inf(1)
	}
	return p.inner(p.Low), p.inner(p.High)
}

// cubeRoot is the cube root of the rounding of a float64: the relative step at which
// rounding and curvature cost a central difference about the same.
const cubeRoot = 6.06e-6

// step is how far x is moved for a derivative. unit is how far it has to go for the
// residuals to move by one, where that is known; else zero.
func (p *Param) step(x, unit float64) float64 {
	switch {
	case p.Step > 0:
		return p.Step
	case p.Log:
		return cubeRoot
	case unit == 0 && x == 0:
		unit = 1e-3
	}
	return cubeRoot * max(math.Abs(x), unit)
}
