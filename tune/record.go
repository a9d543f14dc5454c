package tune

import (
	"errors"
	"fmt"
	"math"

	"swingwright/quantity"
)

// A Curve is one closing as recorded: the leaf let go at rest and left to itself.
type Curve struct {
	Name  string
	State State
	Oil   quantity.Ratio // viscosity of the oil over that at the reference temperature; zero stands for 1
	T     []float64      // time of each sample, s, rising
	Theta []float64      // leaf angle from closed, rad
	U     float64        // standard deviation of a sample's angle, rad
	// Scale is the relative standard uncertainty that all its angles share, as of the scale
	// of a recorder, which the curves of a record are taken to have in common; 0 for none.
	Scale quantity.Ratio
	Valid []bool // samples to be looked at; nil for all
}

// A Lap is the time that a closing from rest took from one leaf angle to another.
type Lap struct {
	State    State
	Oil      quantity.Ratio // as with Curve
	Release  quantity.Angle // where the leaf was let go; zero stands for 90 degrees
	From, To quantity.Angle // leaf angles, From the larger
	Time, U  quantity.Time  // mean, and its standard uncertainty
}

// A Way is in which a force was gauged.
type Way uint8

// The ways.
const (
	Opening Way = iota // moves the released leaf slowly open
	// Closing: with which the leaf is slowly let close, its bolt riding the strike's lip
	// where it meets it, as about an inch from closed: what is left there to latch with.
	Closing
)

// A Gauge is a gauged force on the leaf, square to it.
type Gauge struct {
	State    State
	Way      Way
	Angle    quantity.Angle
	At       quantity.Length // from the hinge axis
	Force, U quantity.Force  // mean, and its standard uncertainty
}

// A Latching is whether the leaf, let close by itself, latched.
type Latching struct {
	State   State
	Latched bool
}

// A Record is all that was measured at an opening with one closer.
type Record struct {
	Curves    []Curve
	Laps      []Lap
	Gauges    []Gauge
	Latchings []Latching
}

func oilOf(r quantity.Ratio) float64 {
	if r == 0 {
		return 1
	}
	return float64(r)
}

func (l *Lap) release() quantity.Angle {
	if l.Release == 0 {
		return 90 * quantity.Degree
	}
	return l.Release
}

// fewest is the least number of good samples of a curve worth fitting.
const fewest = 20

// Check collects all that makes the record of no use.
func (r *Record) Check() error {
	var all []error
	say := func(bad bool, format string, args ...any) {
		if bad {
			all = append(all, fmt.Errorf(format, args...))
		}
	}
	positive := func(x float64) bool { return x > 0 && !math.IsInf(x, 0) }
	for i := range r.Curves {
		if err := r.Curves[i].check(); err != nil {
			all = append(all, fmt.Errorf("curve %d %s: %w", i+1, r.Curves[i].Name, err))
		}
	}
	for i := range r.Laps {
		l := &r.Laps[i]
		say(!positive(float64(l.Time)) || !positive(float64(l.U)), "lap %d: %g s, good to %g s: give both above zero", i+1, float64(l.Time), float64(l.U))
		say(!(l.To >= 0 && l.From > l.To && l.From <= l.release()), "lap %d: from %.0f to %.0f degrees: it runs down, from at most the %.0f where the leaf was let go",
			i+1, float64(l.From/quantity.Degree), float64(l.To/quantity.Degree), float64(l.release()/quantity.Degree))
		say(!(l.Oil >= 0), "lap %d: viscosity ratio %g: give one above zero", i+1, float64(l.Oil))
	}
	for i := range r.Gauges {
		g := &r.Gauges[i]
		say(!positive(float64(g.U)) || math.IsNaN(float64(g.Force)) || math.IsInf(float64(g.Force), 0), "force %d: %g N, good to %g N: give numbers, the second above zero", i+1, float64(g.Force), float64(g.U))
		say(!positive(float64(g.At)), "force %d acts at %g m: give its distance from the hinge axis", i+1, float64(g.At))
		say(!(g.Angle >= 0 && g.Angle <= 115*quantity.Degree), "force %d at %.0f degrees: give an angle up to 115", i+1, float64(g.Angle/quantity.Degree))
	}
	return errors.Join(all...)
}

func (c *Curve) check() error {
	switch {
	case len(c.T) != len(c.Theta) || c.Valid != nil && len(c.Valid) != len(c.T):
		return fmt.Errorf("%d times, %d angles and %d marks of validity: give as many of each", len(c.T), len(c.Theta), len(c.Valid))
	case !(c.U > 0) || math.IsInf(c.U, 0):
		return fmt.Errorf("its samples vary by %g rad: give a standard deviation above zero", c.U)
	case !(c.Scale >= 0 && c.Scale < 0.2):
		return fmt.Errorf("its angles share an uncertainty of %g: give one below 0.2", float64(c.Scale))
	case !(c.Oil >= 0):
		return fmt.Errorf("viscosity ratio %g: give one above zero", float64(c.Oil))
	}
	good, last := 0, math.Inf(-1)
	for i := range c.T {
		if c.Valid != nil && !c.Valid[i] {
			continue
		}
		if !(c.T[i] > last) || math.IsInf(c.T[i], 0) || math.IsNaN(c.Theta[i]) || math.Abs(c.Theta[i]) > math.Pi {
			return fmt.Errorf("sample %d: %g rad at %g s: times must rise and angles be those of a leaf", i+1, c.Theta[i], c.T[i])
		}
		good, last = good+1, c.T[i]
	}
	if good < fewest {
		return fmt.Errorf("%d good samples: a closing needs %d or more", good, fewest)
	}
	return nil
}
