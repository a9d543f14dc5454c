package window

import (
	"math"

	"swingwright/quantity"
	"swingwright/swing"
)

// A Finder answers questions, one at a time. The zero Finder is ready; kept, it
// allocates little. It is not safe for use by several goroutines at once.
type Finder struct {
	mover swing.Mover
	ask   *Question
	model swing.Model // at the setting at
	at    quantity.Ratio
	made  bool
	// guess is where the least resistances are looked for first: the logarithms
	// of resistance over spring torque where they were found last, slopes how the logarithms of times answered there.
	guess, slopes [2]float64
	zone          quantity.Angle // leaf angle below which the latch valve governs
	// extra is a pressure added to that of every Shuts, Pa.
	extra float64
	marks []swing.Mark
}

// begin turns to a question.
func (f *Finder) begin(ask *Question) {
	f.ask, f.made, f.extra, f.slopes = ask, false, 0, [2]float64{}
	top := float64(ask.Spring[len(ask.Spring)-1].Closed)
	low, high := f.box()
	for i := range f.guess {
		f.guess[i] = (low[i]+high[i])/2 - math.Log(top)
	}
	f.set(ask.settings().Low)
	f.zone, _ = f.model.LeafAngle(quantity.Angle(ask.Values[swing.LatchZone])) // zero where the arm does not get there
}

// set makes the model ready at a setting.
func (f *Finder) set(setting quantity.Ratio) {
	if f.made && f.at == setting {
		return
	}
	v := f.ask.Values
	f.ask.Spring.At(setting).Put(&v)
	v[swing.OilFactor] = 1
	// Check made the same arm before, and nothing else can fail.
	f.model, _ = swing.New(&v, f.ask.Link)
	_ = f.model.SetDrive(f.ask.Drive)
	f.at, f.made = setting, true
}

// box is the range of the valves, in logarithms of the resistance: sweep, latch.
func (f *Finder) box() (low, high [2]float64) {
	v := &f.ask.Valves
	return [2]float64{math.Log(float64(v.Sweep[0])), math.Log(float64(v.Latch[0]))},
		[2]float64{math.Log(float64(v.Sweep[1])), math.Log(float64(v.Latch[1]))}
}

// turn sets the valves to logarithms of resistances.
func (f *Finder) turn(at [2]float64) { f.model.SetValves(math.Exp(at[0]), math.Exp(at[1])) }

// still is the value of a demand that the valves have no part in, at the
// setting the model is made for.
func (f *Finder) still(d *Demand) float64 {
	switch d.Kind {
	case HandForce:
		f.model.SetAir(float64(d.Pressure), 1)
		return float64(swing.HandForce(f.model.LargestHandMoment(d.From, d.To), d.At))
	case ClosingMoment:
		return float64(f.model.LeastClosingMoment(d.From, d.To))
	}
	return float64(f.at)
}

// A group is the timed demands of one state of the air, which one closing
// answers, or the Shuts of one pressure and oil, by rising angle.
type group struct {
	pressure, oil float64
	of            []int // demands, by their place in the set
}

// motion closes the leaf from the release angle in a group's air and puts the
// group's values, by place in the set, into out. It returns the angle of the
// largest rate.
func (f *Finder) motion(s *set, g *group, out []float64) (peak quantity.Angle) {
	f.model.SetAir(g.pressure, g.oil)
	f.marks = f.marks[:0]
	for _, i := range g.of {
		if d := &s.demands[i]; d.Kind == LeastTime || d.Kind == MostTime {
			f.marks = swing.WithMark(swing.WithMark(f.marks, d.From), d.To)
		}
	}
	m := f.mover.Close(&f.model, f.ask.release(), f.marks)
	for _, i := range g.of {
		d := &s.demands[i]
		switch d.Kind {
		case PeakEnergy:
			out[i] = float64(m.Energy)
		case ImpactEnergy:
			out[i] = float64(m.Impact)
		default:
			out[i] = float64(swing.PassedAt(f.marks, d.To) - swing.PassedAt(f.marks, d.From))
			if math.IsNaN(out[i]) {
				out[i] = math.Inf(1)
			}
		}
	}
	return m.PeakAt
}

// shuts puts into good, by place in the set, whether the leaf shuts from the
// angles of a group.
func (f *Finder) shuts(s *set, g *group, good []bool) {
	var angles [8]quantity.Angle
	var shut [8]bool
	f.model.SetAir(g.pressure+f.extra, g.oil)
	for of := g.of; len(of) > 0; {
		n := min(len(of), len(angles))
		for k, i := range of[:n] {
			angles[k] = s.demands[i].From
		}
		f.mover.ShutsFrom(&f.model, angles[:n], shut[:n])
		for k, i := range of[:n] {
			good[i] = shut[k]
		}
		of = of[n:]
	}
}
