package decision

import (
	"fmt"
	"strings"

	"swingwright/fact"
	"swingwright/judge"
	"swingwright/plan"
	q "swingwright/quantity"
	"swingwright/window"
)

// settings: do the closer's settings keep the limits that they move, and if not,
// would others?
func (l *ladder) settings() {
	var short, open []string
	for i := range l.p.Findings {
		f := &l.p.Findings[i]
		switch {
		case !plan.Settable(f.Rule.Of) || f.Rule.Advice:
		case f.Verdict == judge.FallsShort && !f.Caution:
			short = append(short, f.Rule.Title)
		case f.Verdict == judge.TooClose || f.Verdict == judge.FallsShort:
			open = append(open, f.Rule.Title)
		}
	}
	r := Rung{Test: "The closer's settings keep every limit that they move", Source: "the job's rulebooks", Verdict: judge.Meets}
	switch {
	case len(short) > 0:
		r.Verdict, r.Why = judge.FallsShort, strings.Join(short, "; ")
		r.Cures = l.resettings()
	case len(open) > 0:
		r.Verdict, r.Why = judge.TooClose, strings.Join(open, "; ")
	case l.o.Closer.None == "yes":
		return
	}
	failed := Refuse
	if !l.powered {
		failed = Change // a door that stays hand-pushed is never refused
	}
	l.put(r, failed)
}

// resettings are another setting of spring and valves that keeps everything, or else
// what would open a window of such settings.
func (l *ladder) resettings() []Cure {
	find := l.p.Window
	if l.opt.Brief {
		find = l.p.HasWindow
	}
	w, err := find(l.sheets)
	switch {
	case err != nil:
		return []Cure{{What: "another setting; which cannot be told", But: err.Error()}}
	case len(w.Missing) > 0:
		return []Cure{{What: "another setting; which cannot be told", But: "for want of " + strings.Join(w.Missing, "; ")}}
	case w.Open():
		return []Cure{{What: setTo(w), Effort: Adjusting, Answer: Repair, Works: true, But: "by best estimates: set it, measure it, check it"}}
	case l.opt.Brief:
		return []Cure{{What: "no setting of spring and valves keeps them all; the window command tells what would change that", Effort: Building, Answer: Change}}
	}
	var cures []Cure
	for i := range w.Changes {
		if c, ok := l.ofChange(&w.Changes[i]); ok {
			cures = append(cures, c)
		}
	}
	return sorted(cures)
}

// setTo tells the best setting of a window.
func setTo(w *plan.Window) string {
	text := fmt.Sprintf("set the spring to power %.1f", float64(w.Best.Power.Setting))
	if w.SweepSet == w.SweepSet && w.LatchSet == w.LatchSet {
		text += fmt.Sprintf(", the sweep valve to %.2f and the latch valve to %.2f turns open", float64(w.SweepSet), float64(w.LatchSet))
	} else {
		text += " and the valves so"
	}
	return text + fmt.Sprintf(": then 90 to 12 deg takes %.1f s and the rest %.1f s", float64(w.Marks[1].Time), float64(w.Marks[3].Time-w.Marks[1].Time))
}

// leastFriction is what hinges in good order still have, at the latch edge (common
// practice, figure from memory).
const leastFriction = 0.3 * q.PoundForce

// ofChange is a change that opens a window as a cure. That higher forces be
// allowed by hand is none.
func (l *ladder) ofChange(c *window.Change) (Cure, bool) {
	kinds := map[window.ChangeKind]Cure{
		window.LessPressure: {What: "less pressure on the leaf", Effort: Building, Answer: Refer},
		window.WeakerBolt:   {What: "a bolt that goes over its lip more lightly", Effort: Repairing, Answer: Repair},
		window.LighterSeal:  {What: "lighter seals", Effort: Repairing, Answer: Repair},
		window.FreerHinges:  {What: "freer hinges", Effort: Repairing, Answer: Repair},
		window.OtherArm:     {What: c.Arm + " in place of the arm", Effort: Replacing, Answer: Change},
	}
	cure, known := kinds[c.Kind]
	if !known {
		return cure, false
	}
	cure.Works = c.Opens
	if c.Kind != window.OtherArm {
		cure.What += fmt.Sprintf(": %s instead of %s", amount(c.Dim, c.To), amount(c.Dim, c.From))
	}
	edge := l.p.Facts[fact.LatchEdge].Value
	switch eases := c.Kind == window.WeakerBolt || c.Kind == window.LighterSeal; {
	case !c.Opens:
		cure.But = "opens no window"
	case c.Kind == window.FreerHinges && c.To < float64(leastFriction)*edge:
		cure.Works, cure.But = false, "freer than hinges in good order are"
	default:
		cure.But = "then power " + spanned(c.Window) + " keeps everything"
		if eases && c.To < c.From*(1-eased) {
			cure.Effort, cure.Answer = Replacing, Change
			cure.But += "; more than dressing it gives, so another part"
		}
	}
	return cure, true
}

func spanned(s window.Span) string {
	low, high := fmt.Sprintf("%.3g", float64(s.Low)), fmt.Sprintf("%.3g", float64(s.High))
	if low == high {
		return low
	}
	return low + " to " + high
}

// amount writes a value in both systems of units, once where they agree.
func amount(d q.Dimension, si float64) string {
	us, metric := q.Display(d, si, 0, true, q.US), q.Display(d, si, 0, true, q.SI)
	if us == metric {
		return us
	}
	return us + " (" + metric + ")"
}

// published: is everything else that the rulebooks ask kept?
func (l *ladder) published() {
	var short, wait []string
	for i := range l.p.Findings {
		f := &l.p.Findings[i]
		if plan.Settable(f.Rule.Of) || aboutWidth(f.Rule.Of) || f.Rule.Advice {
			continue
		}
		switch {
		case f.Verdict == judge.FallsShort && !f.Caution:
			short = append(short, f.Rule.Title)
		case f.Verdict == judge.NotMeasured || f.Verdict == judge.TooClose || f.Verdict == judge.FallsShort:
			wait = append(wait, f.Rule.Title)
		}
	}
	r := Rung{Test: "Every other published limit is kept", Source: "the job's rulebooks", Verdict: judge.Meets}
	switch {
	case len(l.p.Findings) == 0:
		return
	case len(short) > 0:
		r.Verdict, r.Why = judge.FallsShort, q.Counted(len(short), "rule falls short", "rules fall short")+": "+some(short)
	case len(wait) > 0:
		r.Verdict, r.Why = judge.NotMeasured, q.Counted(len(wait), "rule is open", "rules are open")+": "+some(wait)
	}
	l.put(r, Repair)
}

// some names a few and counts the rest.
func some(all []string) string {
	const few = 3
	if len(all) <= few {
		return strings.Join(all, "; ")
	}
	return strings.Join(all[:few], "; ") + fmt.Sprintf(" and %d more", len(all)-few)
}
