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
	inverse  [2][2]float64 // d ln a / d ln (t − free)
	free     [2]float64    // of each time, what no valve takes away, s; about
	share    [2]float64    // which share of the time found that is
	timed    [2]bool
	strength [2]float64 // of the model fitted; see there
}

// FitValves finds the viscous resistances of sweep and latch with which a
// model closes in the times found: Newton's method in the logarithms of
// resistance and time, where they are nearly proportional. A latch that was not
// timed keeps the ratio of the model's own resistances. The model is left with
// the resistances found. It fails where no setting gives the times.
func (mv *Mover) FitValves(m *Model, found Found) (Fit, error) {
	f := Fit{found: found, timed: [2]bool{true, found.Latch > 0}, strength: m.strength()}
	f.lnA = [2]float64{math.Log(m.v[SweepViscous]), math.Log(m.v[LatchViscous])}
	ratio := f.lnA[1] - f.lnA[0]
	for range 25 {
		r, ok := mv.misfit(m, &f, f.lnA)
		if !ok {
			return f, errDoesNotClose
		}
		if math.Abs(r[0]) < 1e-7 && math.Abs(r[1]) < 1e-7 {
			m.SetValves(math.Exp(f.lnA[0]), math.Exp(f.lnA[1]))
			if err := mv.slopes(m, &f, ratio); err != nil {
				return f, err
			}
			f.straighten()
			return f, nil
		}
		if err := mv.slopes(m, &f, ratio); err != nil {
			return f, err
		}
		f.step(r, ratio)
	}
	return f, errNoSetting
}

// straighten sees to it that slopes hold farther from the fit: a time in which
// the leaf's inertia has a part grows with the resistance as t = free + c·a.
func (f *Fit) straighten() {
	j := [2][2]float64{{1 / f.inverse[0][0], 0}, {0, 1}} // d ln t / d ln a
	if f.timed[1] {
		j = inverted(f.inverse)
	}
	for i, t := range [...]float64{float64(f.found.Sweep), float64(f.found.Latch)} {
		share := max(0, min(0.9, 1-j[i][i]))
		f.share[i], f.free[i] = share, share*t
		for k := range f.inverse {
			f.inverse[k][i] *= 1 - share
		}
	}
}

// over is ln of the part of time i that a valve rules.
func (f *Fit) over(i int, t float64) float64 { return math.Log(max(t-f.free[i], t/50)) }

// apart is by how much two pairs of times differ, as step wants it.
func (f *Fit) apart(sweep, latch quantity.Time, found Found) (r [2]float64) {
	r[0] = f.over(0, float64(sweep)) - f.over(0, float64(found.Sweep))
	if f.timed[1] {
		r[1] = f.over(1, float64(latch)) - f.over(1, float64(found.Latch))
	}
	return r
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
	marks := foundMarks()
	r, _, ok := mv.missed(m, f, lnA, marks[:])
	return r, ok
}

// missed is misfit, which shows the closing and its marks.
func (mv *Mover) missed(m *Model, f *Fit, lnA [2]float64, marks []Mark) ([2]float64, Motion, bool) {
	m.SetValves(math.Exp(lnA[0]), math.Exp(lnA[1]))
	closing := mv.Close(m, marksFound[0], marks)
	if !closing.End.Shut() {
		return [2]float64{}, closing, false
	}
	sweep, shut := PassedAt(marks, marksFound[1]), PassedAt(marks, marksFound[2])
	r := [2]float64{math.Log(float64(sweep / f.found.Sweep))}
	if f.timed[1] {
		r[1] = math.Log(float64((shut - sweep) / f.found.Latch))
	}
	return r, closing, true
}

// foundMarks are the marks that a Found is timed by.
func foundMarks() (marks [len(marksFound)]Mark) {
	for i := range marks {
		marks[i].Angle = marksFound[i]
	}
	return marks
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
	f.inverse = inverted(j)
	return check(f.inverse)
}

// inverted is the inverse of a matrix.
func inverted(j [2][2]float64) [2][2]float64 {
	det := j[0][0]*j[1][1] - j[0][1]*j[1][0]
	return [2][2]float64{{j[1][1] / det, -j[0][1] / det}, {-j[1][0] / det, j[0][0] / det}}
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
// than about a part in a thousand; what it leaves grows with its square.
const near = 0.015

// near tells that a last step leaves no more than is accepted, from a miss of
// the times and of what of them the valves rule.
func (g *Guess) near(miss, ruled [2]float64) bool {
	for i := range miss {
		if math.Abs(miss[i]) > max(near, math.Sqrt(g.Within[i])/3) || math.Abs(ruled[i]) > 0.03 {
			return false
		}
	}
	return true
}

// hit tells that the misfit is accepted as it is.
func (g *Guess) hit(miss [2]float64) bool {
	return math.Abs(miss[0]) < g.Within[0] && math.Abs(miss[1]) < g.Within[1]
}

// Guess is what is known beforehand of a model that is to be fitted again.
type Guess struct {
	// Lead is how far the logarithms of sweep and latch time would come out from
	// those found, were the valves set by what times found and strength of the pull tell.
	Lead [2]float64
	// Within are the misfits of sweep and latch time, as logarithms, that are
	// taken as they are; zero has every misfit stepped out.
	Within [2]float64
}

// Refitted is how a model was fitted again.
type Refitted struct {
	// Closed is false where the model does not close, or not in the times given.
	Closed bool
	// Last is the last closing that was followed, and Same tells that the valves are
	// as they were in it.
	Last Motion
	Same bool
}

// Refit sets the valves of a model much like the one that was fitted, so that
// it closes in the times given: a closing or two, corrected by the slopes of the
// fit, which are brought up to date on the way (Broyden, "A class of methods for
// solving nonlinear simultaneous equations", Math. Comp. 19 (1965) 577-593). marks, in
// falling order and with those of 90, 12 and 0 degrees among them, are those of the last closing.
func (mv *Mover) Refit(m *Model, f *Fit, found Found, guess Guess, marks []Mark) (out Refitted) {
	g, ratio := f.begun(m, found, guess)
	before, last := g.lnA, [2]float64{}
	for try := range 8 {
		var miss [2]float64
		if miss, out.Last, out.Closed = mv.missed(m, &g, g.lnA, marks); !out.Closed {
			return out
		}
		r := g.apart(found.Sweep*quantity.Time(math.Exp(miss[0])), found.Latch*quantity.Time(math.Exp(miss[1])), found)
		if out.Same = guess.hit(miss); out.Same {
			return out
		}
		if try > 0 {
			g.learn([2]float64{g.lnA[0] - before[0], g.lnA[1] - before[1]}, [2]float64{r[0] - last[0], r[1] - last[1]})
			if out.Closed = check(g.inverse) == nil; !out.Closed {
				return out // the valves no longer rule the times
			}
		}
		before, last = g.lnA, r
		g.step(r, ratio)
		if guess.near(miss, r) {
			m.SetValves(math.Exp(g.lnA[0]), math.Exp(g.lnA[1]))
			return out
		}
	}
	out.Closed = false
	return out
}

// begun is a fit carried over to another model and other times, and the ratio of
// the resistances' logarithms.
func (f *Fit) begun(m *Model, found Found, guess Guess) (g Fit, ratio float64) {
	g, ratio = *f, f.lnA[1]-f.lnA[0]
	g.found = found
	lead := guess.Lead
	for i, strength := range m.strength() {
		if by := strength / f.strength[i]; by > 0 {
			// a stronger pull shortens what the valves rule in proportion, and the rest by its root
			lead[i] -= (1 - f.share[i]/2) * math.Log(by)
		}
	}
	want := Found{found.Sweep * quantity.Time(math.Exp(-lead[0])), found.Latch * quantity.Time(math.Exp(-lead[1]))}
	g.step(f.apart(f.found.Sweep, f.found.Latch, want), ratio)
	return g, ratio
}

// strength is what draws the leaf shut in the middle of the sweep and of the latch
// zone, with friction and air, over the square of the arm's ratio: at one rate of the leaf,
// in proportion to the resistance that balances it.
func (m *Model) strength() (s [2]float64) {
	for i, theta := range [...]float64{math.Pi / 4, math.Pi / 30} {
		_, n, _ := m.arm.Turn(theta)
		s[i] = (m.drive(theta)*(1-m.v[CloserLoss]) - m.v[HingeFriction] - m.breeze(theta) - m.backDrive(theta)) / (n * n)
	}
	return s
}

// Lead is the Guess.Lead of a model; ok is false where that does not close.
func (mv *Mover) Lead(m *Model, f *Fit, found Found) (lead [2]float64, ok bool) {
	g, _ := f.begun(m, found, Guess{})
	return mv.misfit(m, &g, g.lnA)
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
