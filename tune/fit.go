package tune

import (
	"fmt"
	"math"
	"slices"

	"swingwright/internal/lsq"
	"swingwright/quantity"
	"swingwright/swing"
)

// A Quantity is one quantity found.
type Quantity struct {
	Name  string
	Value float64 // SI; the spring's and the orifices' are shares
	U     float64 // standard uncertainty; of the logarithm where Log
	Log   bool
	Known float64 // what was known before, and its spread, likewise
	Prior float64
	Bound bool // came to lie on a bound
}

// A Resistance is what a valve was found to resist at one position.
type Resistance struct {
	Turns   quantity.Turns
	Viscous quantity.Damping
	U       quantity.Ratio // standard uncertainty, as a share
}

// A Misfit is how one average of a curve's samples lies from the model.
type Misfit struct {
	T      float64 // s, on the curve's own clock
	Off    float64 // measured less fitted, rad
	Weight float64 // 0 to 1, as the fit let it count
}

// A Followed is how well the fit follows one curve.
type Followed struct {
	Begins  quantity.Time  // when the leaf was let go, on the curve's own clock
	RMS     quantity.Angle // root mean square of the misfits that count
	Scale   quantity.Ratio // by which the samples' stated spread was raised for misfits that are larger or keep together
	Misfits []Misfit
}

// A Fit is what a record tells of a closer and its leaf.
type Fit struct {
	Quantities []Quantity // the shared ones, then the resistances
	// Covariance is theirs, by rows; of the logarithm where Log.
	Covariance   []float64
	Sweep, Latch []Resistance // by rising turns
	Curves       []Followed   // of the record, in order
	Left         []Stretch    // what was left out of them
	CannotTell   []string     // what this record cannot tell
	Notes        []string
	Misfit       quantity.Ratio // weighted sum of squares over degrees of freedom; about 1 for a good fit
	Steps        int
	layout       *layout
	at           []float64
	ofRuns       int
}

// fit gathers what was found.
func (w *work) fit(r *lsq.Result, left []Stretch, notes []string) *Fit {
	l := w.layout
	n, m := l.resistances(), len(l.params)
	f := &Fit{Left: left, Notes: notes, Steps: r.Steps, layout: l, at: slices.Clone(r.At), ofRuns: n}
	f.Misfit = quantity.Ratio(r.Variance())
	cov := r.Covariance()
	f.Covariance = make([]float64, n*n)
	for i := range n {
		copy(f.Covariance[i*n:(i+1)*n], cov[i*m:i*m+n])
		q := &l.params[i]
		f.Quantities = append(f.Quantities, Quantity{
			Name: q.Name, Value: r.At[i], U: math.Sqrt(cov[i*m+i]), Log: q.Log, Known: q.mean, Prior: q.u, Bound: r.Bound[i],
		})
	}
	f.Sweep, f.Latch = f.valve(0), f.valve(1)
	w.followed(f, r)
	w.tell(f, r)
	return f
}

// valve gathers the resistances of a valve.
func (f *Fit) valve(which int) (all []Resistance) {
	first := f.first(which)
	for i, u := range f.layout.turnsOf(which) {
		q := &f.Quantities[first+i]
		all = append(all, Resistance{u, quantity.Damping(q.Value), quantity.Ratio(q.U)})
	}
	return all
}

// first is where a valve's resistances begin.
func (f *Fit) first(which int) int {
	if which == 0 {
		return f.layout.firstSweep
	}
	return f.layout.firstLatch
}

// followed gathers the misfits of the curves.
func (w *work) followed(f *Fit, r *lsq.Result) {
	n, begin := 0, w.layout.resistances()
	for _, c := range w.curves {
		out := Followed{Scale: quantity.Ratio(c.scale), Begins: quantity.Time(math.NaN())}
		sum, weights := 0.0, 0.0
		for k, p := range c.pieces {
			if k == 0 {
				out.Begins = quantity.Time(r.At[begin])
			}
			for i := p.first; i < p.end; i++ {
				off := -r.Residuals[n] * c.u[i] * c.scale
				out.Misfits = append(out.Misfits, Misfit{c.t[i], off, r.Weights[n]})
				sum += r.Weights[n] * off * off
				weights += r.Weights[n]
				n++
			}
			begin++
		}
		if c.shuts() {
			n++
		}
		out.RMS = quantity.Angle(math.Sqrt(sum / weights))
		f.Curves = append(f.Curves, out)
	}
	for i := range w.record.Laps {
		if e := r.Residuals[n+i]; math.Abs(e) > 4 {
			l := &w.record.Laps[i]
			f.Notes = append(f.Notes, fmt.Sprintf("the lap of %.2f s at %v does not go with the rest: it lies %.0f of its spreads off; time it again", float64(l.Time), l.State, math.Abs(e)))
		}
	}
	n += len(w.record.Laps)
	for i := range w.record.Gauges {
		if e := r.Residuals[n+i]; math.Abs(e) > 4 {
			g := &w.record.Gauges[i]
			f.Notes = append(f.Notes, fmt.Sprintf("the force of %.1f N at %.0f degrees does not go with the rest: it lies %.0f of its spreads off; gauge it again", float64(g.Force), float64(g.Angle/quantity.Degree), math.Abs(e)))
		}
	}
}

// Values are the model's quantities as found, for a spring setting and any resistances of
// the valves (N·m·s/rad at the oil's reference temperature), the orifices going with them
// as b ∝ a², and an oil's viscosity over that at the reference temperature.
func (f *Fit) Values(power quantity.Ratio, sweep, latch quantity.Damping, oil quantity.Ratio) swing.Values {
	var v swing.Values
	f.layout.valued(f.at, power, float64(sweep), float64(latch), oilOf(oil), &v)
	return v
}
