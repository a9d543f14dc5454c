package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/swing"
	"swingwright/window"
)

// A Window is at which settings of the closer one opening satisfies everything
// asked of it at once.
type Window struct {
	window.Answer
	// Missing is what has to be known before anything can be told; where there is
	// any, nothing else is filled in but Left.
	Missing []string
	// Left are demands that could not be put, each with the reason.
	Left []string
	// Notes are what was taken for granted.
	Notes []string
	// Sweep and Latch are the turns from shut between which the valves may be left
	// at the best setting, most closed first; NaN where no sheet tells.
	Sweep, Latch [2]q.Turns
	// SweepSet and LatchSet are the turns that Marks are reckoned with.
	SweepSet, LatchSet q.Turns
	// Marks are when a leaf let go at 90 degrees passes 90, 12 and 10 degrees and
	// is shut, at the best setting and the usual pressure.
	Marks [4]swing.Mark
	// HandStart and HandOpen are the forces by hand at the handle there that set the leaf
	// in motion and move it on to 90 degrees, power off.
	HandStart, HandOpen q.Force
}

// Window looks for the settings of spring and valves that keep every limit of the
// plan's findings that they bear on. It reckons with best estimates; where the
// question cannot be put, Window.Missing says for want of what. It fails only where
// the question makes no sense all the same.
func (p *Plan) Window(sheets *opening.Sheets) (*Window, error) { return p.window(sheets, false) }

// HasWindow is Window without the search for what excludes what and what would
// change it, where there is none; that search takes twenty times as long.
func (p *Plan) HasWindow(sheets *opening.Sheets) (*Window, error) { return p.window(sheets, true) }

func (p *Plan) window(sheets *opening.Sheets, brief bool) (*Window, error) {
	w := &Window{}
	ask := p.asked(w)
	sheet := sheets.Closer(p.Opening.Closer.Sheet)
	w.Missing = p.wanting(sheet)
	if len(w.Missing) > 0 {
		return w, nil
	}
	ask.Spring, ask.Brief = p.spring(sheet, w), brief
	ask.Valves = p.settable(sheet, w)
	ask.Arms = p.otherArms(sheets, sheet)
	if p.Resolved.Drive.Fitted {
		w.note("the closer by itself: what the operator's gear adds to forces by hand and to closing is left out")
	}
	if len(p.Opening.Readings) > 0 {
		w.note("what was computed: readings hold for the setting they were taken at, and no other")
	}
	w.note("best estimates, with nothing kept back for their spread: set it, measure it, check it")
	var f window.Finder
	var err error
	if w.Answer, err = f.Find(&ask); err != nil {
		return w, err
	}
	if w.Best != nil {
		w.predict(p, &ask, sheet)
	}
	return w, nil
}

func (w *Window) note(format string, args ...any) {
	w.Notes = append(w.Notes, fmt.Sprintf(format, args...))
}

// wanting is what keeps the question from being put.
func (p *Plan) wanting(sheet *opening.CloserSheet) (all []string) {
	r := p.Resolved
	say := func(bad bool, what string) {
		if bad {
			all = append(all, what)
		}
	}
	say(!r.Sized, "the leaf's width and height")
	say(r.Free, "a closer: there is none to set")
	say(!r.Free && !r.Link.Closer, "the closer's arm and power setting"+told(r.Notes))
	say(!r.Free && (sheet == nil || len(sheet.Powers) == 0), "the closer's sheet with its marked powers")
	say(r.Link.Closer && r.Sized && !p.Swing.Reachable, "an arm that reaches 90 degrees, from which closings are timed")
	return all
}

func told(notes []string) string {
	if len(notes) == 0 {
		return ""
	}
	return " (" + strings.Join(notes, "; ") + ")"
}

// spring is the closer's marked powers. A spring that was gauged is stronger or
// weaker than its sheet by one share at every power.
func (p *Plan) spring(sheet *opening.CloserSheet, w *Window) window.Spring {
	share := 1.0
	if closed, _, ok := powerAt(sheet, p.Opening.Closer.Size); ok && len(p.Opening.Closer.Gauged) > 0 && closed.Value > 0 {
		share = p.Resolved.Rows[swing.SpringClosed].Value / float64(closed.Value)
		w.note("every power of the sheet taken %.2f times as strong, as gauged at power %g", share, float64(p.Opening.Closer.Size.Value))
	}
	spring := make(window.Spring, len(sheet.Powers))
	for i := range sheet.Powers {
		one := &sheet.Powers[i]
		spring[i] = window.Power{
			Setting: one.Size.Value, Closed: q.Torque(share) * one.Closed.Value, Rise: q.TorsionRate(share) * riseOf(one).Value,
		}
	}
	return spring
}

// Turns of a valve beyond where its flow stops that are looked at; assumed.
const leastTurns, mostTurns = q.Turns(1.0 / 8), q.Turns(4)

// Powers is the spring at the closer's marked powers, as Window takes it; nil where no
// sheet tells.
func (p *Plan) Powers(sheets *opening.Sheets) window.Spring {
	sheet := sheets.Closer(p.Opening.Closer.Sheet)
	if sheet == nil || len(sheet.Powers) == 0 {
		return nil
	}
	return p.spring(sheet, &Window{})
}

// OtherArms are the job's other arms that can be put where their templates say,
// each with the whole model; nil where the closer has no sheet.
func (p *Plan) OtherArms(sheets *opening.Sheets) []window.Arm {
	sheet := sheets.Closer(p.Opening.Closer.Sheet)
	if sheet == nil || len(sheet.Powers) == 0 {
		return nil
	}
	return p.otherArms(sheets, sheet)
}

// settable is between which resistances the valves can be set: by the sheet's
// valve, else a wide range about the resistance in force.
func (p *Plan) settable(sheet *opening.CloserSheet, w *Window) window.Valves {
	of := func(valve *opening.Valve, now float64, name string) [2]q.Damping {
		if a, ok := resistance(valve, mostTurns+valve.Shut.Value); ok {
			b, _ := resistance(valve, leastTurns+valve.Shut.Value)
			return [2]q.Damping{a, b}
		}
		w.note("the %s valve settable from a twentieth to twenty times its resistance now: its sheet gives no position", name)
		return [2]q.Damping{q.Damping(now / 20), q.Damping(now * 20)}
	}
	v := p.Values()
	return window.Valves{
		Sweep: of(&sheet.Sweep, v[swing.SweepViscous], "sweep"),
		Latch: of(&sheet.Latch, v[swing.LatchViscous], "latch"),
	}
}

// resistance is a valve's at so many turns; false where the sheet does not tell.
func resistance(valve *opening.Valve, at q.Turns) (q.Damping, bool) {
	if !valve.At.Known || !valve.Viscous.Known || !(valve.Viscous.Value > 0) {
		return 0, false
	}
	a, _, err := swing.ValveAt(valve.Viscous.Value, 0, valve.At.Value, at, valve.Shut.Value)
	return a, err == nil
}

// turns is where a valve has a resistance, from a ∝ 1/(u − u₀); NaN where the sheet
// does not tell.
func turns(valve *opening.Valve, a q.Damping) q.Turns {
	if _, ok := resistance(valve, valve.At.Value); !ok {
		return q.Turns(math.NaN())
	}
	return valve.Shut.Value + (valve.At.Value-valve.Shut.Value)*q.Turns(valve.Viscous.Value/a)
}

// otherArms are the job's other arms, each where its template puts it.
func (p *Plan) otherArms(sheets *opening.Sheets, sheet *opening.CloserSheet) (arms []window.Arm) {
	own := p.Values()
	for i := range sheets.Arms {
		name := sheets.Arms[i].Name
		if name == p.Opening.Closer.Arm || sheets.Arms[i].ForUnit == "yes" {
			continue
		}
		o := *p.Opening
		o.Closer.Arm, o.Closer.Pinion, o.Closer.Shoe = name, opening.Point{}, opening.Point{}
		o.Closer.Gauged, o.Closer.Size = nil, sheet.Powers[0].Size
		r := Resolve(&o, sheets)
		if !r.Link.Closer {
			continue
		}
		arm := window.Arm{Name: name, Values: r.values(), Link: r.Link}
		for _, v := range []swing.Value{swing.CloserLoss, swing.SweepOrifice, swing.LatchOrifice} {
			arm.Values[v] = own[v]
		}
		m, err := swing.New(&arm.Values, arm.Link)
		if err != nil {
			continue
		}
		if _, ok := m.Arm().Reach(90 * q.Degree); ok {
			arms = append(arms, arm)
		}
	}
	return arms
}

// predict follows the leaf at the best setting.
func (w *Window) predict(p *Plan, ask *window.Question, sheet *opening.CloserSheet) {
	b := w.Best
	for i := range 2 {
		w.Sweep[i], w.Latch[i] = turns(&sheet.Sweep, b.Sweep[1-i]), turns(&sheet.Latch, b.Latch[1-i])
	}
	w.SweepSet, w.LatchSet = turns(&sheet.Sweep, b.SweepSet), turns(&sheet.Latch, b.LatchSet)
	v := ask.Values
	b.Power.Put(&v)
	v[swing.SweepViscous], v[swing.LatchViscous] = float64(b.SweepSet), float64(b.LatchSet)
	m, err := swing.New(&v, ask.Link)
	if err != nil {
		return // Find made the same arm before
	}
	for i, a := range [...]q.Angle{90, 12, 10, 0} {
		w.Marks[i].Angle = a * q.Degree
	}
	oil := v[swing.OilFactor]
	var mover swing.Mover
	mover.Close(&m, 90*q.Degree, w.Marks[:])
	handle := q.Length(p.Resolved.Handle.Value)
	m.SetAir(p.Resolved.Least.Value, oil)
	w.HandStart = swing.HandForce(m.HandMoment(0), handle)
	w.HandOpen = swing.HandForce(m.LargestHandMoment(q.Degree, 90*q.Degree), handle)
}

// joined adds a demand, or its source to one that asks for the same; a published
// source needs no common practice beside it.
func joined(all []window.Demand, d window.Demand) []window.Demand {
	i := slices.IndexFunc(all, func(e window.Demand) bool {
		return e.Kind == d.Kind && e.From == d.From && e.To == d.To && e.At == d.At && e.Limit == d.Limit && e.Pressure == d.Pressure
	})
	if i < 0 {
		return append(all, d)
	}
	if d.Source != commonPractice && !strings.Contains(all[i].Source, d.Source) {
		all[i].Source += "; " + d.Source
	}
	return all
}
