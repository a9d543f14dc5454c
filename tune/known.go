package tune

import (
	"errors"
	"fmt"
	"math"

	"swingwright/quantity"
	"swingwright/swing"
	"swingwright/window"
)

// Known is what is known of an opening before its closings are looked at.
type Known struct {
	// Values are the best estimates of the model's quantities. The resistances of the
	// valves are where the search begins, and little more.
	Values swing.Values
	// U are their standard uncertainties. Those of the spring, the closer's loss, the
	// slab's mass, the latch zone, the hinge friction, the bolt and the pressure make each
	// of these a quantity to be found, with Values as if observed; zero takes it as given.
	// So do those of the orifice resistances: one that is zero with no orifice resistance
	// stands for one of any ordinary size.
	U    swing.Values
	Link swing.Linkage
	// Spring is the marked powers, weakest first; empty where the spring cannot be set:
	// then it is that of Values. The uncertainty of its torque is one share at every
	// power.
	Spring window.Spring
}

// Assumed where Known does not say.
const (
	valveSpread   = 1.5 // of the logarithm of a valve's resistance: within a factor of twenty
	orificeSpread = 0.3 // of b·T/a², the orifice's share at the whole torque of the spring over the viscous one
)

// Check collects all that makes Known of no use.
func (k *Known) Check() error {
	var all []error
	say := func(bad bool, format string, args ...any) {
		if bad {
			all = append(all, fmt.Errorf(format, args...))
		}
	}
	for i := range k.Values {
		v, u := k.Values[i], k.U[i]
		say(math.IsNaN(v) || math.IsInf(v, 0), "%s is %g: give a finite number", swing.Symbols[i].Key, v)
		say(!(u >= 0) || math.IsInf(u, 0), "%s varies by %g: give a standard uncertainty, zero or above", swing.Symbols[i].Key, u)
	}
	say(!k.Link.Closer, "there is no closer to tune")
	if len(all) > 0 {
		return errors.Join(all...)
	}
	for _, i := range []swing.Value{swing.SpringClosed, swing.SweepViscous, swing.LatchViscous, swing.SlabMass, swing.LatchZone} {
		say(!(k.Values[i] > 0), "%s is %g: give a number above zero", swing.Symbols[i].Key, k.Values[i])
	}
	v := k.Values
	m, err := swing.New(&v, k.Link)
	if err != nil {
		return errors.Join(append(all, err)...)
	}
	if fault, ok := m.Arm().Reach(90 * quantity.Degree); !ok {
		all = append(all, fmt.Errorf("the arm reaches %.0f of the 90 degrees that closings are timed from: place it otherwise", float64(fault.Theta/quantity.Degree)))
	}
	return errors.Join(all...)
}

// power is the spring at a state, before its share is applied.
func (k *Known) power(at quantity.Ratio) (closed, rise float64) {
	if len(k.Spring) == 0 {
		return k.Values[swing.SpringClosed], k.Values[swing.SpringRise]
	}
	p := k.Spring.At(at)
	return float64(p.Closed), float64(p.Rise)
}

// springU is the spread of the spring's share.
func (k *Known) springU() float64 {
	if u := k.U[swing.SpringClosed] / k.Values[swing.SpringClosed]; u > 0 {
		return u
	}
	return 0
}
