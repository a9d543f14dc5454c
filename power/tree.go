package power

import (
	"errors"
	"fmt"
	"math"

	q "swingwright/quantity"
)

// A Run is a pair of conductors, out and back, to one more place on a tree.
type Run struct {
	Name string
	// Parent is the node that it comes from: 0 is the supply, k the far end of run k-1.
	// It lies before the run's own.
	Parent int
	Length q.Length // one way
	Wire   Wire
	// Doubled is how many such pairs lie side by side; 1 when zero.
	Doubled int
	// Extra is resistance beside the wire's own: terminals, hinge contacts.
	Extra q.Resistance
	// U is the relative standard uncertainty of its resistance, that of its length
	// included, its temperature left out.
	U q.Ratio
}

// Gauges is the gauge of its wires, with how many pairs where there is more than one.
func (r *Run) Gauges() string {
	if r.Doubled > 1 {
		return fmt.Sprintf("%d × %s", r.Doubled, r.Wire.Gauge)
	}
	return r.Wire.Gauge.String()
}

// Tree is a supply and all that it feeds.
type Tree struct {
	// Volts that the supply gives, and the standard uncertainty.
	Volts, VoltsU q.Voltage
	// Inner is the supply's own resistance; none for one that regulates its voltage.
	Inner q.Resistance
	// Warmth of the conductors, and the standard uncertainty.
	Warmth, WarmthU q.Temperature
	Runs            []Run
	Loads           []Load
	Sequences       []Sequence
	// AnyTime tells that the sequences start independently of each other, so that any
	// phase of one can meet any phase of another.
	AnyTime bool
}

// Check reports everything that keeps the tree from being reckoned.
func (t *Tree) Check() error {
	var errs []error
	wrong := func(format string, args ...any) { errs = append(errs, fmt.Errorf(format, args...)) }
	good := func(x float64) bool { return x >= 0 && !math.IsInf(x, 0) }
	if !good(float64(t.Volts)) || t.Volts == 0 {
		wrong("the supply gives %v V; it needs a voltage above zero", float64(t.Volts))
	}
	if !good(float64(t.VoltsU)) || !good(float64(t.Inner)) || !good(float64(t.Warmth)) || !good(float64(t.WarmthU)) {
		wrong("the supply's spread, resistance or temperature is below zero or endless")
	}
	for i := range t.Runs {
		r := &t.Runs[i]
		switch {
		case r.Parent < 0 || r.Parent > i:
			wrong("run %q comes from place %d, which does not lie before it", r.Name, r.Parent)
		case !good(float64(r.Length)) || !good(float64(r.Extra)) || !good(float64(r.U)) || r.Doubled < 0:
			wrong("run %q has a length, resistance, spread or count below zero or endless", r.Name)
		case !r.Wire.Gauge.Known():
			wrong("run %q has no gauge between 24 and 10 AWG", r.Name)
		}
	}
	for i := range t.Loads {
		l := &t.Loads[i]
		if l.Node < 0 || l.Node > len(t.Runs) {
			wrong("load %q is connected to no place on the tree", l.Name)
		}
		if l.Sequence < 0 || l.Sequence >= len(t.Sequences) {
			wrong("load %q goes with no sequence", l.Name)
		}
		if !good(float64(l.Rated)) || l.Rated == 0 {
			wrong("load %q needs a rated voltage above zero", l.Name)
		}
		if l.Behaviour > SteadyPower {
			wrong("load %q behaves in no known way", l.Name)
		}
		for p, a := range l.Draws {
			if !good(float64(a)) || !good(float64(l.U[p])) {
				wrong("load %q draws %v A %v", l.Name, float64(a), Phase(p))
			}
		}
	}
	for i := range t.Sequences {
		for _, d := range t.Sequences[i].Lasts {
			if !good(float64(d)) || !good(float64(t.Sequences[i].Start)) {
				wrong("sequence %d has a time below zero or endless", i)
				break
			}
		}
	}
	return errors.Join(errs...)
}

// Resistance is that of a run, out and back, at the tree's temperature.
func (t *Tree) Resistance(run int) q.Resistance { return q.Resistance(t.resistance(&t.Runs[run])) }

// resistance is a run's, out and back.
func (t *Tree) resistance(r *Run) float64 {
	return 2*float64(r.Length)*float64(r.Wire.Resistance(t.Warmth))/float64(max(r.Doubled, 1)) + float64(r.Extra)
}
