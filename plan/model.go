package plan

import (
	"swingwright/fact"
	"swingwright/opening"
	"swingwright/quantity"
	"swingwright/rulebook"
	"swingwright/swing"
)

// Model is the model that the best estimates make, at the usual pressure and with
// the valves in force: for whoever follows one more motion or force than the plan
// did. It fails where an arm cannot be put together.
func (p *Plan) Model() (m swing.Model, err error) {
	v := p.Values()
	err = remade(&m, &v, p.Resolved)
	return m, err
}

// ModelOf is the model that other values and another linkage make, with the plan's
// operator: for whoever asks what a change would do.
func (p *Plan) ModelOf(v *swing.Values, link swing.Linkage) (m swing.Model, err error) {
	r := *p.Resolved
	r.Link = link
	err = remade(&m, v, &r)
	return m, err
}

// Values are the best estimates that the plan was reckoned with: those of the
// rows, save that times found by stopwatch have set the valves.
func (p *Plan) Values() swing.Values {
	v := p.Resolved.values()
	if p.Fitted() {
		v[swing.SweepViscous], v[swing.LatchViscous] = p.Swing.Sweep, p.Swing.Latch
	}
	return v
}

// Fitted tells whether the resistances of sweep and latch were set so that the
// leaf closes in the times found.
func (p *Plan) Fitted() bool {
	return p.Resolved.Found.Sweep.Known && p.Problem == nil && p.Swing.Sweep > 0
}

// Known are the facts as rules look at them.
func (p *Plan) Known() rulebook.Env {
	env := rulebook.NewEnv()
	for id := range p.Facts {
		if f := &p.Facts[id]; f.Known {
			env[fact.ID(id)] = f.Value
		}
	}
	return env
}

// HandUnknown says what has to be known before the force of a hand that opens the
// leaf can be told; nothing where it can.
func (p *Plan) HandUnknown() string {
	switch {
	case p.closerUnknown():
		return "There is a closer, but closer, arm and spring are not all known: give the arm's sheet and the power setting, or gauge the closer opening and closing."
	case !(p.Resolved.Handle.Value > 0):
		return "The width of the leaf and the place of its handle are not known."
	}
	return ""
}

// closerUnknown tells that there is a closer of which too little is known to
// follow the leaf.
func (p *Plan) closerUnknown() bool {
	closer := p.Facts[fact.HasCloser]
	return closer.Known && closer.Value != 0 && !p.Resolved.Link.Closer
}

// Turned is the model with spring and valves as the last adjustment left them: the valves
// by their law, a ∝ 1/(u − u_0) and b ∝ 1/(u − u_0)², from where they stood when the times
// were found. Without adjustments, or without turns, it is Model.
func (p *Plan) Turned(sheets *opening.Sheets) (m swing.Model, err error) {
	v := p.Values()
	c := &p.Opening.Closer
	sheet := sheets.Closer(c.Sheet)
	if n := len(p.Opening.Adjusted); n > 0 && sheet != nil {
		states, _ := p.states(sheet)
		now := states[len(states)-1]
		valve := func(av, bv swing.Value, found, now quantity.Turns, shut quantity.Turns) {
			if err != nil || !(found > 0) {
				return
			}
			a, b, wrong := swing.ValveAt(quantity.Damping(v[av]), quantity.SquareDamping(v[bv]), found, now, shut)
			v[av], v[bv], err = float64(a), float64(b), wrong
		}
		valve(swing.SweepViscous, swing.SweepOrifice, c.SweepTurns.Value, now.Sweep, sheet.Sweep.Shut.Value)
		valve(swing.LatchViscous, swing.LatchOrifice, c.LatchTurns.Value, now.Latch, sheet.Latch.Shut.Value)
		if powers := p.Powers(sheets); len(powers) > 0 && now.Power != c.Size.Value {
			powers.At(now.Power).Put(&v)
		}
	}
	if err == nil {
		err = remade(&m, &v, p.Resolved)
	}
	return m, err
}
