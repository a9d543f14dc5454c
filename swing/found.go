package swing

import (
	"errors"
	"math"

	"swingwright/quantity"
)

// Found is what a stopwatch found of a closing, let go at rest at 90 degrees.
type Found struct {
	Sweep quantity.Time // from 90 to 12 degrees
	Latch quantity.Time // from 12 degrees to closed; zero where it was not timed
}

// marksFound are the marks a Found is timed by.
var marksFound = [...]quantity.Angle{90 * quantity.Degree, 12 * quantity.Degree, 0}

// Errors of fitting valves to times.
var (
	errDoesNotClose = errors.New("with these springs, frictions and pressures the leaf does not close at any valve setting, but times were taken: something among them is not as entered")
	errNoSetting    = errors.New("no valve setting gives the times entered: check the times, the spring and the arm")
)

// Fit is the pair of viscous resistances that give the times found, and how
// the times answer to them. One fit serves many similar models.
type Fit struct {
	found    Found
	lnA      [2]float64    // ln of sweep and latch resistance
	inverse  [2][2]float64 // d ln a / d ln t
	timed    [2]bool
	weakness float64 // spring drive at 45 degrees of the model fitted, N·m
}

// FitValves finds the viscous resistances of sweep and latch with which a
// model closes in the times found: Newton's method in the logarithms of
// resistance and time, where they are nearly proportional. A latch that was not
// timed keeps the ratio of the model's own resistances. The model is left with
// the resistances found. It fails where no setting gives the times.
func (mv *Mover) FitValves(m *Model, found Found) (Fit, error) {
	f := Fit{found: found, timed: [2]bool{true, found.Latch > 0}, weakness: m.drive(math.Pi / 4)}
	f.lnA = [2]float64{math.Log(m.v[SweepViscous]), math.Log(m.v[LatchViscous])}
	ratio := f.lnA[1] - f.lnA[0]
	for range 25 {
		r, ok := mv.misfit(m, &f, f.lnA)
		if !ok {
			return f, errDoesNotClose
		}
		if math.Abs(r[0]) < 1e-7 && math.Abs(r[1]) < 1e-7 {
			m.SetValves(math.Exp(f.lnA[0]), math.Exp(f.lnA[1]))
			return f, mv.slopes(m, &f, ratio)
		}
		if err := mv.slopes(m, &f, ratio); err != nil {
			return f, err
		}
		f.step(r, ratio)
	}
	return f, errNoSetting
}

// step moves the resistances by the misfit r of the times, at most tenfold.
func (f *Fit) step(r [2]float64, ratio float64) {
	for i := range f.lnA {
		f.lnA[i] -= max(-2.3, min(2.3, f.inverse[i][0]*r[0]+f.inverse[i][1]*r[1]))
	}
	if !f.timed[1] {
		f.lnA[1] = f.lnA[0] + ratio
	}
}

// misfit is ln of each time over the time found.
func (mv *Mover) misfit(m *Model, f *Fit, lnA [2]float64) ([2]float64, bool) {
	m.SetValves(math.Exp(lnA[0]), math.Exp(lnA[1]))
	t, ok := mv.times(m)
	if !ok {
		return [2]float64{}, false
	}
	r := [2]float64{math.Log(t[0] / float64(f.found.Sweep))}
	if f.timed[1] {
		r[1] = math.Log(t[1] / float64(f.found.Latch))
	}
	return r, true
}

// times are those of a Found, s, for the model as it is.
func (mv *Mover) times(m *Model) (t [2]float64, ok bool) {
	var marks [len(marksFound)]Mark
	for i := range marks {
		marks[i].Angle = marksFound[i]
	}
	if !mv.Close(m, marksFound[0], marks[:]).End.Shut() {
		return t, false
	}
	sweep := float64(marks[1].Time)
	return [2]float64{sweep, float64(marks[2].Time) - sweep}, true
}

// slopes finds how the logarithms of the resistances answer to those of the
// times, by differences.
func (mv *Mover) slopes(m *Model, f *Fit, ratio float64) error {
	const h = 1e-3
	at, ok := mv.misfit(m, f, f.lnA)
	if !ok {
		return errDoesNotClose
	}
	var j [2][2]float64 // j[i][k] = d ln t_i / d ln a_k
	for k := range f.timed {
		moved := f.lnA
		moved[k] += h
		if !f.timed[1] {
			moved[1] = moved[0] + ratio
		}
		r, ok := mv.misfit(m, f, moved)
		if !ok {
			return errDoesNotClose
		}
		j[0][k], j[1][k] = (r[0]-at[0])/h, (r[1]-at[1])/h
	}
	m.SetValves(math.Exp(f.lnA[0]), math.Exp(f.lnA[1]))
	if !f.timed[1] {
		f.inverse = [2][2]float64{{1 / j[0][0], 0}, {0, 0}}
		return check(f.inverse)
	}
	det := j[0][0]*j[1][1] - j[0][1]*j[1][0]
	f.inverse = [2][2]float64{{j[1][1] / det, -j[0][1] / det}, {-j[1][0] / det, j[0][0] / det}}
	return check(f.inverse)
}

func check(inverse [2][2]float64) error {
	for _, row := range inverse {
		for _, x := range row {
			if math.IsNaN(x) || math.Abs(x) > 50 {
				return errNoSetting
			}
		}
	}
	return nil
}

// near is the misfit, as a logarithm, from which one more step leaves less
// than about a part in a thousand.
const near = 0.015

// Refit sets the valves of a model much like the one that was fitted, so that
// it closes in the times given: a closing or two, corrected by the slopes of the
// fit, which are brought up to date on the way (Broyden, "A class of methods for
// solving nonlinear simultaneous equations", Math. Comp. 19 (1965) 577-593). ok is
// false where the model does not close, or not in those times.
func (mv *Mover) Refit(m *Model, f *Fit, found Found) (ok bool) {
	g := *f
	g.found = found
	ratio := f.lnA[1] - f.lnA[0]
	shift := math.Log(m.drive(math.Pi/4) / f.weakness) // a stronger spring wants more resistance
	for i := range g.lnA {
		g.lnA[i] += shift
	}
	before, last := g.lnA, [2]float64{}
	for try := range 8 {
		r, ok := mv.misfit(m, &g, g.lnA)
		if !ok {
			return false
		}
		if try > 0 {
			g.learn([2]float64{g.lnA[0] - before[0], g.lnA[1] - before[1]}, [2]float64{r[0] - last[0], r[1] - last[1]})
		}
		before, last = g.lnA, r
		g.step(r, ratio)
		if math.Abs(r[0]) < near && math.Abs(r[1]) < near {
			m.SetValves(math.Exp(g.lnA[0]), math.Exp(g.lnA[1]))
			return true
		}
	}
	return false
}

// learn makes the slopes agree with what a step s of the resistances did to the
// misfit, y: H += (s − H·y)·sᵀH/(sᵀH·y).
func (f *Fit) learn(s, y [2]float64) {
	h := &f.inverse
	hy := [2]float64{h[0][0]*y[0] + h[0][1]*y[1], h[1][0]*y[0] + h[1][1]*y[1]}
	sh := [2]float64{s[0]*h[0][0] + s[1]*h[1][0], s[0]*h[0][1] + s[1]*h[1][1]}
	shy := sh[0]*y[0] + sh[1]*y[1]
	if math.Abs(shy) < 1e-12 {
		return
	}
	for i := range h {
		for k := range h[i] {
			h[i][k] += (s[i] - hy[i]) * sh[k] / shy
		}
	}
}
