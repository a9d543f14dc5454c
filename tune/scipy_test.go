package tune

import (
	"flag"
	"fmt"
	"math"
	"testing"

	"swingwright/internal/reference"
	"swingwright/swing"
)

// A refParam is a parameter as testdata/identify.py reads it.
type refParam struct {
	What  string  `json:"what"`
	Index int     `json:"index"`
	Mean  float64 `json:"mean"`
	U     float64 `json:"u"`
	Log   bool    `json:"log"`
	Low   float64 `json:"low"`
	High  float64 `json:"high"`
	Step  float64 `json:"step"`
}

type refCurve struct {
	From   float64   `json:"from"`
	T      []float64 `json:"t"`
	Theta  []float64 `json:"theta"`
	U      []float64 `json:"u"`
	Pieces [][2]int  `json:"pieces"`
	Shut   float64   `json:"shut"`
	ShutU  float64   `json:"shut_u"`
	Spring float64   `json:"spring"`
	Rise   float64   `json:"rise"`
	Sweep  int       `json:"sweep"`
	Latch  int       `json:"latch"`
}

type refGauge struct {
	Angle   float64 `json:"angle"`
	At      float64 `json:"at"`
	Force   float64 `json:"force"`
	U       float64 `json:"u"`
	Closing bool    `json:"closing"`
	Spring  float64 `json:"spring"`
	Rise    float64 `json:"rise"`
}

// A refProblem is one fit as it reads it, A refFit what it writes.
type refProblem struct {
	Case      map[string]any `json:"case"`
	Params    []refParam     `json:"params"`
	Start     []float64      `json:"start"`
	Ours      []float64      `json:"ours"`
	Reference float64        `json:"reference"`
	Shares    [2]float64     `json:"shares"`
	Huber     float64        `json:"huber"`
	Curves    []refCurve     `json:"curves"`
	Gauges    []refGauge     `json:"gauges"`
}

type refFit struct {
	At   []float64   `json:"at"`
	Cov  [][]float64 `json:"cov"`
	Cost float64     `json:"cost"`
	Ours float64     `json:"ours"`
}

// refOf writes down what a work fitted.
func refOf(w *work, start []float64) refProblem {
	k := w.known
	values := map[string]float64{}
	for i, s := range swing.Symbols {
		values[s.Key] = k.Values[i]
	}
	p := refProblem{
		Case: map[string]any{
			"values": values, "closer": true, "track": k.Link.Track, "on_leaf": k.Link.OnLeaf, "bend": k.Link.Bend, "latch": k.Link.Latch,
		},
		Start: start, Reference: w.layout.reference, Shares: w.layout.orifice, Huber: huber, Gauges: []refGauge{},
	}
	for i := range w.layout.params {
		q := &w.layout.params[i]
		one := refParam{What: whatNames[q.what], Index: q.index, Mean: q.mean, U: q.u, Log: q.Log, Low: q.Low, High: q.High, Step: q.Step}
		if !(q.Low < q.High) {
			one.Low, one.High = -1e6, 1e6
		}
		if q.what == begins {
			one.U = 1e9
		}
		p.Params = append(p.Params, one)
	}
	for _, c := range w.curves {
		r := w.runs[c.run]
		one := refCurve{From: c.from, T: c.t, Theta: c.theta, Sweep: r.sweep, Latch: r.latch}
		one.Spring, one.Rise = k.power(r.power)
		for _, u := range c.u {
			one.U = append(one.U, u*c.scale)
		}
		for _, s := range c.pieces {
			one.Pieces = append(one.Pieces, [2]int{s.first, s.end})
		}
		if c.shuts() {
			one.Shut, one.ShutU = c.shut, c.shutU
		}
		p.Curves = append(p.Curves, one)
	}
	for i := range w.record.Gauges {
		g := &w.record.Gauges[i]
		one := refGauge{Angle: float64(g.Angle), At: float64(g.At), Force: float64(g.Force), U: float64(g.U), Closing: g.Way == Closing}
		one.Spring, one.Rise = k.power(g.State.Power)
		p.Gauges = append(p.Gauges, one)
	}
	return p
}

// Parameters and covariance of fits to recorded closings, one of them touched by a hand,
// agree with an independent program: other equations of motion, another integrator,
// another search. Where a search ends is worth some hundredths of a spread.
func TestFitsAgreeWithSciPyValidation(t *testing.T) {
	if testing.Short() {
		t.Skip("asks SciPy")
	}
	var problems []refProblem
	var fits []*Fit
	for seed := range uint64(2) {
		d := newDoor(100 + seed)
		// orifices as of a sheet: near none, the hand-over between the valves has no
		// derivative
		d.share = [2]float64{0.15, 0.1}
		for k, v := range [2]swing.Value{swing.SweepOrifice, swing.LatchOrifice} {
			a := d.known.Values[swing.SweepViscous+2*swing.Value(k)]
			d.known.Values[v] = d.share[k] * a * a / d.known.Values[swing.SpringClosed]
		}
		s := State{Power: 3, Sweep: 0.7, Latch: 0.8}
		how := phone
		if seed == 1 {
			how.touch, how.held = 45*degree, 0.7
		}
		r := &Record{Curves: []Curve{d.curve(s, how)}}
		if seed == 1 {
			r.Gauges = []Gauge{d.gauge(s, Opening, 10*deg, 0.85, 0.03), d.gauge(s, Closing, 10*deg, 0.85, 0.03)}
		}
		w, result, f := identified(t, &d.known, r)
		ref := refOf(w, append([]float64(nil), result...))
		ref.Ours = result
		problems, fits = append(problems, ref), append(fits, f)
	}
	var out struct {
		Fits []refFit `json:"fits"`
	}
	if err := reference.SciPy.Ask("testdata/identify.py", map[string]any{"fits": problems}, &out); err != nil || len(out.Fits) != len(fits) {
		t.Fatalf("%d fits of %d, %v", len(out.Fits), len(fits), err)
	}
	var worst [3]float64
	parameters := 0
	for i, f := range fits {
		for k, x := range compareFits(t, i, f, &out.Fits[i]) {
			worst[k] = max(worst[k], x)
		}
		parameters += len(f.Quantities)
	}
	page := fmt.Sprintf(`## Identification beside SciPy (package tune)

%d fits of the swing model to recorded closings, one touched by a hand and with forces gauged, %d quantities, against
scipy.optimize.least_squares on the same samples with other equations of motion and another integrator (tune/testdata/identify.py).

| Quantity | Worst | Asked |
|---|---|---|
| values apart, in standard uncertainties | ≤ %s | 0.03 |
| standard uncertainties apart, as a share | ≤ %s | 0.01 |
| correlations apart | ≤ %s | 0.01 |
`, len(fits), parameters, reference.StepUp(max(worst[0], 0.003)), reference.StepUp(max(worst[1], 0.001)), reference.StepUp(max(worst[2], 0.001)))
	if err := reference.Section(page, "tune", *update); err != nil {
		t.Error(err)
	}
}

var update = flag.Bool("update", false, "write this package's part of docs/validation.md anew")

// identified is Identify with what it worked with.
func identified(t *testing.T, k *Known, r *Record) (*work, []float64, *Fit) {
	t.Helper()
	var w *work
	f, err := identify(k, r, func(made *work) { w = made })
	if err != nil {
		t.Fatal(err)
	}
	return w, f.at, f
}

// compareFits returns the worst differences of values, spreads and correlations.
func compareFits(t *testing.T, i int, f *Fit, want *refFit) [3]float64 {
	t.Helper()
	n := len(f.Quantities)
	worst, worstU, worstR := 0.0, 0.0, 0.0
	for j := range n {
		q := &f.Quantities[j]
		u := math.Sqrt(want.Cov[j][j])
		off := q.Value - want.At[j]
		if q.Log {
			off = math.Log(q.Value / want.At[j])
		}
		worst, worstU = max(worst, math.Abs(off)/u), max(worstU, math.Abs(q.U/u-1))
		if !(math.Abs(off) < 0.03*u) {
			t.Errorf("fit %d: %s is %.5g, SciPy: %.5g, %.2g spreads apart", i, q.Name, q.Value, want.At[j], off/u)
		}
		if !(math.Abs(q.U/u-1) < 0.01) {
			t.Errorf("fit %d: %s varies by %.4g, SciPy: %.4g", i, q.Name, q.U, u)
		}
		for k := range j {
			c := f.Covariance[j*n+k] / (q.U * f.Quantities[k].U)
			ref := want.Cov[j][k] / math.Sqrt(want.Cov[j][j]*want.Cov[k][k])
			worstR = max(worstR, math.Abs(c-ref))
			if !(math.Abs(c-ref) < 0.01) {
				t.Errorf("fit %d: %s and %s correlate by %.3f, SciPy: %.3f", i, q.Name, f.Quantities[k].Name, c, ref)
			}
		}
	}
	if !(want.Ours < want.Cost+0.05) {
		t.Errorf("fit %d: cost %.4f, SciPy: %.4f", i, want.Ours, want.Cost)
	}
	t.Logf("cost %.4f, SciPy %.4f", want.Ours, want.Cost)
	t.Logf("fit %d: %d parameters, worst %.2g spreads apart, spreads by %.2g, correlations by %.2g", i, n, worst, worstU, worstR)
	return [3]float64{worst, worstU, worstR}
}
