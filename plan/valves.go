package plan

import (
	"math"

	"swingwright/internal/propagate"
	q "swingwright/quantity"
	"swingwright/swing"
)

// lead is how one input leads the logarithms of sweep and latch time, beside what the
// fit itself and the strength of the pull tell: per unit of the input, and per square of that.
type lead struct {
	at          int
	per, square [2]float64
}

// timed is a model as it was when the closing times were taken: with an operator
// only where that was fitted then.
func (k *reckoner) timed(m *swing.Model, v *swing.Values) error {
	if k.r.TimedWith {
		return remade(m, v, k.r)
	}
	return m.Remake(v, k.r.Link)
}

// fitBest fits the valves of the best estimates to the times found.
func (k *reckoner) fitBest(v swing.Values) (err error) {
	v[swing.OilFactor] = 1
	m := &k.model
	if err = k.timed(m, &v); err != nil {
		return err
	}
	if k.fit, err = k.mover.FitValves(m, k.found(k.x[:])); err != nil {
		return err
	}
	k.fitted = true
	k.x[swing.SweepViscous], k.x[swing.LatchViscous] = m.Values()[swing.SweepViscous], m.Values()[swing.LatchViscous]
	return nil
}

// learn finds the leads of the inputs that bear on the times, each from a closing
// with that input moved up by its spread, so that a draw's fit begins close to its
// end. They are those of the best estimates, whatever was drawn before. What leads far is
// looked at moved down as well.
func (k *reckoner) learn(inputs []propagate.Input, place []int) {
	k.leads, k.mover.Draft = k.leads[:0], !k.fine
	if !k.fitted {
		return
	}
	for i, at := range place {
		if !k.bears(at) {
			continue
		}
		in := &inputs[i]
		down, up := max(in.Low-in.Mean, -in.U), min(in.High-in.Mean, in.U)
		high, ok := k.moved(at, up)
		var low [2]float64
		both := false
		if !ok || math.Abs(high[0]) > far || math.Abs(high[1]) > far {
			low, both = k.moved(at, down)
		}
		switch {
		case ok && both:
			k.leads = append(k.leads, curved(at, down, low, up, high))
		case ok:
			k.leads = append(k.leads, straight(at, up, high))
		case both:
			k.leads = append(k.leads, straight(at, down, low))
		}
	}
}

// far is the lead, as a logarithm, that is looked at on both sides.
const far = 0.003

// straight is the lead of an input that moves the times by is when moved by so much.
func straight(at int, by float64, is [2]float64) lead {
	return lead{at: at, per: [2]float64{is[0] / by, is[1] / by}}
}

// curved is that of an input that was moved both ways.
func curved(at int, down float64, low [2]float64, up float64, high [2]float64) (one lead) {
	one.at = at
	for i := range low {
		a, b := low[i]/down, high[i]/up
		one.square[i] = (b - a) / (up - down)
		one.per[i] = a - one.square[i]*down
	}
	return one
}

// moved is the lead of the best estimates with one input moved.
func (k *reckoner) moved(at int, by float64) (is [2]float64, ok bool) {
	if by == 0 {
		return is, false
	}
	x := k.x
	x[at] += by
	var v swing.Values
	copy(v[:], x[:swing.NumValues])
	v[swing.OilFactor] = 1
	if k.timed(&k.model, &v) != nil {
		return is, false
	}
	return k.mover.Lead(&k.model, &k.fit, k.found(x[:]))
}

// bears tells whether an input may bear on the times found.
func (k *reckoner) bears(at int) bool {
	switch v := swing.Value(at); {
	case at == inSweepTime || at == inLatchTime:
		return true
	case at >= swing.NumValues, v == swing.OilFactor, v == swing.AttachedMass:
		return false
	case v >= swing.FreeFlow && v <= swing.CheckZone: // of opening
		return false
	case v >= swing.DrivePinionX:
		return k.r.TimedWith
	}
	return true
}

// accepted is the share of a stopwatch's spread by which a draw's fit may miss its
// time. Most miss by far less: the root of the mean square stays below a tenth, with
// which the spread of times grows by half a hundredth.
const accepted = 1.0 / 8

// guess is what the leads say of a draw.
func (k *reckoner) guess(x []float64) (g swing.Guess) {
	for _, one := range k.leads {
		by := x[one.at] - k.x[one.at]
		g.Lead[0] += (one.per[0] + one.square[0]*by) * by
		g.Lead[1] += (one.per[1] + one.square[1]*by) * by
	}
	f := &k.r.Found
	g.Within = [2]float64{accepted * f.Sweep.U / f.Sweep.Value, 1}
	if f.Latch.Known {
		g.Within[1] = accepted * f.Latch.U / f.Latch.Value
	}
	return g
}

// refit sets the valves of a model so that it closes in the times found, as it
// was when they were taken: at the usual pressure, with the oil as it then was,
// which is how it leaves the air. marks are those of the last closing.
func (k *reckoner) refit(m *swing.Model, x []float64, marks []swing.Mark) (out swing.Refitted) {
	m.SetAir(x[swing.Pressure], 1)
	fit := func() { out = k.mover.Refit(m, &k.fit, k.found(x), k.guess(x), marks) }
	if k.without() {
		m.Unfitted(fit)
	} else {
		fit()
	}
	return out
}

// without tells that the operator was not fitted when the times were taken.
func (k *reckoner) without() bool { return k.r.Drive.Fitted && !k.r.TimedWith }

// asTimed tells that a leaf closes now as it did when it was timed, so that the
// closing of a fit can stand for the one now: with the same oil and without an
// operator that has since been added and turns along.
func (k *reckoner) asTimed(oil float64) bool { return oil == 1 && (!k.without() || k.r.Drive.LetsGo) }

func (k *reckoner) found(x []float64) swing.Found {
	return swing.Found{Sweep: q.Time(x[inSweepTime]), Latch: q.Time(x[inLatchTime])}
}
