package window

import (
	"fmt"
	"math"

	"swingwright/judge"
	"swingwright/quantity"
)

// Kind is what a demand is about. Each is one-sided.
type Kind uint8

// The kinds of demand.
const (
	// HandForce: the largest force by hand, power off, that moves the released
	// leaf slowly open between two leaf angles, felt at a radius; at most so much.
	HandForce Kind = iota
	// ClosingMoment: the closer's least closing moment on the leaf between two
	// leaf angles; at least so much.
	ClosingMoment
	// Shuts: the pressure against which the leaf, let go at rest at an angle,
	// shuts and latches; at least so much.
	Shuts
	// LeastPower: the setting itself; at least so much.
	LeastPower
	// MostPower: the setting itself; at most so much.
	MostPower
	// LeastTime: the time of closing from one leaf angle to another; at least so much.
	LeastTime
	// MostTime: the same; at most so much.
	MostTime
	// PeakEnergy: the largest kinetic energy while closing; at most so much.
	PeakEnergy
	// ImpactEnergy: the kinetic energy as the leaf reaches its frame; at most so much.
	ImpactEnergy
)

// role is how a kind of demand bounds settings and resistances.
type role uint8

const (
	ceiling role = iota // kept below some setting, whatever the valves
	floor               // kept above some setting, whatever the valves
	slow                // kept above some resistances
	quick               // kept below some resistances
)

var kinds = [...]struct {
	name string
	dim  quantity.Dimension
	side judge.Side
	role role
}{
	HandForce:     {"force by hand", quantity.DimForce, judge.AtMost, ceiling},
	ClosingMoment: {"closing moment", quantity.DimTorque, judge.AtLeast, floor},
	Shuts:         {"pressure it shuts against", quantity.DimPressure, judge.AtLeast, quick},
	LeastPower:    {"power setting", quantity.DimRatio, judge.AtLeast, floor},
	MostPower:     {"power setting", quantity.DimRatio, judge.AtMost, ceiling},
	LeastTime:     {"closing time", quantity.DimTime, judge.AtLeast, slow},
	MostTime:      {"closing time", quantity.DimTime, judge.AtMost, quick},
	PeakEnergy:    {"peak energy", quantity.DimEnergy, judge.AtMost, slow},
	ImpactEnergy:  {"impact energy", quantity.DimEnergy, judge.AtMost, slow},
}

// String is what is limited, in words.
func (k Kind) String() string {
	if int(k) >= len(kinds) {
		return fmt.Sprintf("kind %d of demand", uint8(k))
	}
	return kinds[k].name
}

// Dim is the dimension of the kind's limit, value and margin.
func (k Kind) Dim() quantity.Dimension { return kinds[k].dim }

// Side is the side of the limit on which the value must lie.
func (k Kind) Side() judge.Side { return kinds[k].side }

// A Demand is one limit on the opening.
type Demand struct {
	Name   string // by which answers name it, different from every other
	What   string // what is demanded, for people
	Source string // where the limit stands
	Kind   Kind
	// From and To are leaf angles. A time runs from From down to To; hand
	// force and closing moment are looked for between them; Shuts is let go at
	// From. The others leave them out.
	From, To quantity.Angle
	At       quantity.Length // radius at which a HandForce acts
	// Limit is in SI, of dimension Kind.Dim. That of Shuts is the worst
	// pressure that pushes the closed leaf open.
	Limit float64
	// Allowance is kept away from the limit, on its good side and in its unit:
	// a guard for what is not well known. Below zero it eases the demand.
	Allowance float64
	// Pressure is the air's while the demand must hold, positive pushing the
	// leaf open; Shuts has its own.
	Pressure quantity.Pressure
	// Oil is the oil's viscosity while the demand must hold over that for which
	// resistances are given; zero stands for 1.
	Oil quantity.Ratio
}

// bound is the limit with its allowance.
func (d *Demand) bound() float64 {
	if d.Kind.Side() == judge.AtLeast {
		return d.Limit + d.Allowance
	}
	return d.Limit - d.Allowance
}

// margin is how far a value keeps from the bound, positive on the good side.
func (d *Demand) margin(value float64) float64 {
	if d.Kind.Side() == judge.AtLeast {
		return value - d.bound()
	}
	return d.bound() - value
}

// eased is the demand with its limit eased by so much.
func (d Demand) eased(by float64) Demand {
	d.Allowance -= by
	return d
}

func (d *Demand) oil() float64 {
	if d.Oil == 0 {
		return 1
	}
	return float64(d.Oil)
}

// problems lists what makes no sense in a demand; release is where closings begin.
func (d *Demand) problems(release quantity.Angle) (all []error) {
	say := func(bad bool, format string, args ...any) {
		if bad {
			all = append(all, fmt.Errorf("demand %q: "+format, append([]any{d.Name}, args...)...))
		}
	}
	if int(d.Kind) >= len(kinds) {
		say(true, "its kind is none of those listed")
		return all
	}
	say(d.Name == "", "it has no name; answers need one to refer to")
	say(math.IsNaN(d.bound()) || math.IsInf(d.bound(), 0), "limit %g with allowance %g: both must be finite", d.Limit, d.Allowance)
	say(!(d.Oil >= 0) || math.IsInf(float64(d.Oil), 0), "viscosity ratio %g: give one above zero", float64(d.Oil))
	say(math.IsNaN(float64(d.Pressure)) || math.IsInf(float64(d.Pressure), 0), "pressure %g Pa: give a finite one", float64(d.Pressure))
	degrees := func(a quantity.Angle) float64 { return float64(a / quantity.Degree) }
	switch d.Kind {
	case HandForce, ClosingMoment:
		say(!(d.From >= 0 && d.To >= d.From && d.To <= 120*quantity.Degree), "from %g to %g degrees: give rising leaf angles up to 120", degrees(d.From), degrees(d.To))
		say(d.Kind == HandForce && !(d.At > 0), "radius %g m: a force needs the distance from the hinge axis at which it acts", float64(d.At))
	case LeastTime, MostTime:
		say(!(d.To >= 0 && d.From > d.To && d.From <= release), "from %g to %g degrees: a closing time runs down from at most %g, where the leaf is let go", degrees(d.From), degrees(d.To), degrees(release))
		say(!(d.Limit > 0), "limit %g s: give a time above zero", d.Limit)
	case Shuts:
		say(!(d.From > 0 && d.From <= 120*quantity.Degree), "let go at %g degrees: give a leaf angle above 0, up to 120", degrees(d.From))
	case PeakEnergy, ImpactEnergy:
		say(!(d.bound() > 0), "limit %g J with allowance %g J: what is left must be above zero", d.Limit, d.Allowance)
	}
	return all
}
