package tune

import (
	"fmt"
	"math"
	"slices"

	"swingwright/internal/lsq"
	"swingwright/quantity"
	"swingwright/swing"
)

// what numbers the quantities that can be found.
type what uint8

const (
	spring       what = iota // torque of the spring over that of Known, at every power
	loss                     // the closer's friction
	friction                 // of the hinges
	mass                     // of the slab
	zone                     // border of sweep and latch
	air                      // pressure while it was measured
	bolt                     // force of the bolt on its lip
	sweepOrifice             // share of the orifice, b·T/a², of the sweep valve
	latchOrifice
	sweepValve // resistance of the sweep valve at one of its positions
	latchValve
	begins // when a piece of a curve began
)

var whatNames = [...]string{
	"spring", "closer friction", "hinge friction", "leaf mass", "latch zone", "air pressure", "latch bolt",
	"sweep orifice share", "latch orifice share", "sweep resistance", "latch resistance", "start",
}

// A param is a quantity to be found.
type param struct {
	lsq.Param
	what  what
	index int     // of the valve's position, or of the piece
	mean  float64 // known before, in the parameter's own unit
	u     float64 // and its spread, of the logarithm where it is Log; infinite for a piece's begin
}

// A layout is which quantities are found, in what order: those that all runs share, the
// resistances, the begins of pieces.
type layout struct {
	known           *Known
	params          []param
	sweeps, latches []quantity.Turns // positions of the valves, rising
	reference       float64          // T that orifices' shares hold at, N·m
	firstSweep      int              // where the resistances begin
	firstLatch      int
	of              [sweepValve]int // where a shared quantity stands, below zero where it is given
	orifice         [2]float64      // shares where they are given: sweep, latch
}

// newLayout lays out the quantities for the states of a record.
func newLayout(k *Known, r *Record) *layout {
	l := &layout{known: k, reference: k.Values[swing.SpringClosed]}
	for i := range l.of {
		l.of[i] = -1
	}
	r.eachState(func(s State) {
		l.sweeps, l.latches = append(l.sweeps, s.Sweep), append(l.latches, s.Latch)
	})
	l.sweeps, l.latches = distinct(l.sweeps), distinct(l.latches)
	l.shared()
	l.orifices(len(r.Curves)+len(r.Laps) > 0)
	l.firstSweep = len(l.params)
	for i, u := range l.sweeps {
		l.valve(sweepValve, i, u, k.Values[swing.SweepViscous])
	}
	l.firstLatch = len(l.params)
	for i, u := range l.latches {
		l.valve(latchValve, i, u, k.Values[swing.LatchViscous])
	}
	return l
}

func (r *Record) eachState(see func(State)) {
	for i := range r.Curves {
		see(r.Curves[i].State)
	}
	for i := range r.Laps {
		see(r.Laps[i].State)
	}
	for i := range r.Gauges {
		see(r.Gauges[i].State)
	}
	for i := range r.Latchings {
		see(r.Latchings[i].State)
	}
}

func distinct(t []quantity.Turns) []quantity.Turns {
	slices.Sort(t)
	return slices.Compact(t)
}

// shared lays out, with steps for derivatives that are large beside what the integrator's
// own steps leave uncertain, about a millisecond, what every run shares.
func (l *layout) shared() {
	k := l.known
	add := func(w what, p lsq.Param, u float64) {
		if !(u > 0) {
			return
		}
		p.Name = whatNames[w]
		l.of[w] = len(l.params)
		l.params = append(l.params, param{Param: p, what: w, mean: p.Start, u: u})
	}
	v, u := &k.Values, &k.U
	add(spring, lsq.Param{Start: 1, Low: 0.2, High: 5, Log: true, Step: 0.001}, k.springU())
	add(loss, lsq.Param{Start: clamp(v[swing.CloserLoss], 0.005, 0.8), High: 0.8, Step: 0.0006}, u[swing.CloserLoss])
	add(friction, lsq.Param{Start: max(v[swing.HingeFriction], 0.01), High: 50, Step: 0.004}, u[swing.HingeFriction])
	add(mass, lsq.Param{Start: v[swing.SlabMass], Low: v[swing.SlabMass] / 5, High: 5 * v[swing.SlabMass], Log: true, Step: 0.002}, u[swing.SlabMass]/v[swing.SlabMass])
	add(zone, lsq.Param{Start: v[swing.LatchZone], Low: v[swing.LatchZone] / 10, High: 4 * v[swing.LatchZone], Step: 0.0003}, u[swing.LatchZone])
	add(air, lsq.Param{Start: v[swing.Pressure], Step: 0.01}, u[swing.Pressure])
	add(bolt, lsq.Param{Start: max(v[swing.BoltForce], 0.01), High: 500, Step: 0.03}, u[swing.BoltForce])
}

func clamp(x, low, high float64) float64 { return max(low, min(high, x)) }

// leastShare of an orifice that is looked at: two valves of which one has no orifice at
// all hand over to each other in another way than the law has it near none.
const leastShare = 0.01

// orifices lays out the orifices' shares; where no closing was seen an unknown one is left
// at none.
func (l *layout) orifices(seen bool) {
	k := l.known
	for i, o := range [2]struct {
		what what
		a, b swing.Value
	}{{sweepOrifice, swing.SweepViscous, swing.SweepOrifice}, {latchOrifice, swing.LatchViscous, swing.LatchOrifice}} {
		a := k.Values[o.a]
		share := l.reference / (a * a)
		l.orifice[i] = k.Values[o.b] * share
		u := k.U[o.b] * share
		if u == 0 && l.orifice[i] == 0 && seen {
			u = orificeSpread
		}
		if !(u > 0) {
			continue
		}
		l.of[o.what] = len(l.params)
		l.params = append(l.params, param{
			Param: lsq.Param{Name: whatNames[o.what], Start: max(l.orifice[i], 0.05), Low: leastShare, High: 20, Step: 0.0006},
			what:  o.what, mean: l.orifice[i], u: u,
		})
	}
}

func (l *layout) valve(w what, i int, at quantity.Turns, start float64) {
	name := whatNames[w]
	if w == sweepValve && len(l.sweeps) > 1 || w == latchValve && len(l.latches) > 1 {
		name = fmt.Sprintf("%s at %s", name, turnsText(at))
	}
	l.params = append(l.params, param{
		Param: lsq.Param{Name: name, Start: start, Low: start / 1e4, High: start * 1e4, Log: true, Step: 0.001},
		what:  w, index: i, mean: start, u: valveSpread,
	})
}

// resistances counts the parameters up to the last resistance.
func (l *layout) resistances() int { return l.firstLatch + len(l.latches) }

// get is a shared quantity, or the given one.
func (l *layout) get(p []float64, w what, given float64) float64 {
	if i := l.of[w]; i >= 0 {
		return p[i]
	}
	return given
}

// share is the orifice's share of a valve.
func (l *layout) share(p []float64, valve int) float64 {
	return l.get(p, sweepOrifice+what(valve), l.orifice[valve])
}

// keyed appends what of the parameters a run depends on.
func (l *layout) keyed(key, p []float64, r *run) []float64 {
	key = append(key, p[:l.firstSweep]...)
	if r.still {
		return key
	}
	return append(key, p[l.firstSweep+r.sweep], p[l.firstLatch+r.latch])
}

// values makes the model's quantities of parameters, at one of the positions of either
// valve.
func (l *layout) values(p []float64, power quantity.Ratio, sweep, latch int, oil float64, v *swing.Values) {
	l.valued(p, power, p[l.firstSweep+sweep], p[l.firstLatch+latch], oil, v)
}

// valued makes them for any resistances.
func (l *layout) valued(p []float64, power quantity.Ratio, sweep, latch, oil float64, v *swing.Values) {
	*v = l.known.Values
	share := l.get(p, spring, 1)
	closed, rise := l.known.power(power)
	v[swing.SpringClosed], v[swing.SpringRise] = share*closed, share*rise
	v[swing.CloserLoss] = l.get(p, loss, v[swing.CloserLoss])
	v[swing.HingeFriction] = l.get(p, friction, v[swing.HingeFriction])
	v[swing.SlabMass] = l.get(p, mass, v[swing.SlabMass])
	v[swing.LatchZone] = l.get(p, zone, v[swing.LatchZone])
	v[swing.Pressure] = l.get(p, air, v[swing.Pressure])
	v[swing.BoltForce] = l.get(p, bolt, v[swing.BoltForce])
	v[swing.SweepViscous], v[swing.LatchViscous] = sweep, latch
	v[swing.SweepOrifice] = l.share(p, 0) * sweep * sweep / l.reference
	v[swing.LatchOrifice] = l.share(p, 1) * latch * latch / l.reference
	v[swing.OilFactor] = oil
}

// prior is the misfit of a parameter with what was known of it before.
func (q *param) prior(value float64) float64 {
	if q.Log {
		return math.Log(value/q.mean) / q.u
	}
	return (value - q.mean) / q.u
}

// starts are the parameters where the search begins.
func (l *layout) starts() []float64 {
	p := make([]float64, len(l.params))
	for i := range p {
		p[i] = l.params[i].Start
	}
	return p
}
