package plan

import (
	"math"

	q "swingwright/quantity"
	"swingwright/swing"
)

// A Draw is one set of inputs out of the many that the survey leaves possible.
type Draw struct {
	Model  *swing.Model // at the usual pressure, with this draw's valves in force
	Handle q.Length     // hinge axis to where the hand works the leaf
	Least  q.Pressure   // smallest pressure to be reckoned with, as for opening by hand
}

// Drawn draws the inputs n times, 2 or more, and shows each draw, so that a
// curve can be given its spread. Same seed, same draws. What show is given belongs
// to Drawn and holds for this draw, but show may change the model. Draws of which no model can be made are
// left out. It fails where the plan has a problem.
func (p *Plan) Drawn(n int, seed uint64, show func(d Draw)) error {
	var mk Maker
	var k reckoner
	if err := k.prepare(p.Resolved); err != nil {
		return err
	}
	mk.vary(p.Resolved, &k, nil)
	k.learn(mk.inputs, mk.place)
	if err := mk.draws.Prepare(seed, n, mk.inputs, 0); err != nil {
		return err
	}
	x := k.x
	mk.draws.Evaluate(0, n, func(in, _ []float64) {
		for i, at := range mk.place {
			x[at] = in[i]
		}
		if k.drawn(x[:]) {
			show(Draw{Model: &k.model, Handle: q.Length(x[inHandle]), Least: q.Pressure(x[inPressureLeast])})
		}
	})
	return nil
}

// drawn makes the model of inputs x; false where they make none.
func (k *reckoner) drawn(x []float64) bool {
	var v swing.Values
	copy(v[:], x[:swing.NumValues])
	m := &k.model
	if remade(m, &v, k.r) != nil {
		return false
	}
	if k.fitted {
		k.timing.set(m.LatchEdge(), math.NaN())
		if !k.refit(m, x, k.timing.marks).Closed {
			return false
		}
		m.SetAir(v[swing.Pressure], v[swing.OilFactor])
	}
	return true
}
