package plan

import (
	"swingwright/fact"
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
