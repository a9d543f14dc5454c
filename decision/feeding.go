package decision

import (
	"fmt"
	"math"
	"strings"

	"swingwright/judge"
	"swingwright/plan"
	"swingwright/power"
	q "swingwright/quantity"
)

// fed: does the wiring, where there is one, feed every device in its worst moment?
func (l *ladder) fed() {
	if l.o.Wiring.None() {
		return
	}
	f := l.p.Power(l.sheets, l.opt.Policy)
	const safe = "Nothing in its wiring is dangerous or forbidden"
	sound := true
	for i := range f.Faults {
		if x := &f.Faults[i]; x.Hazard {
			sound = false
			source := x.Source
			if source == "" {
				source = practice
			}
			l.fails(safe, source, x.Where+" "+x.What, Change, Cure{What: x.Hint, Effort: Repairing, Answer: Repair, Works: true})
		}
	}
	if sound {
		l.put(Rung{Test: safe, Source: practice, Verdict: judge.Meets}, Change)
	}
	const test = "Every device has the voltage that it needs, in its worst moment"
	var gaps []string
	for i := range f.Faults {
		if x := &f.Faults[i]; !x.Hazard {
			gaps = append(gaps, "wiring: "+x.Where+": "+x.What)
		}
	}
	gaps = append(gaps, f.Missing...)
	if len(gaps) > 0 {
		l.put(Rung{Test: test, Source: "computed", Verdict: judge.NotMeasured, Missing: gaps}, Change)
	}
	for i := range f.Circuits {
		if d := &f.Circuits[i]; d.Course != nil {
			l.volts(test, d)
			l.gives(d)
		}
	}
}

// volts puts the device that is worst off.
func (l *ladder) volts(test string, d *plan.Fed) {
	worst := -1
	for i := range d.Devices {
		one := &d.Devices[i]
		if one.Works && (worst < 0 || worseOff(one, &d.Devices[worst])) {
			worst = i
		}
	}
	if worst < 0 {
		return
	}
	one := &d.Devices[worst]
	r := Rung{Test: test, Source: one.Source, Verdict: one.Verdict, Why: fmt.Sprintf("%s, fed by %s: %s", one.Device.Name, d.Supply.Name, one.Phase)}
	if one.Ending == power.Fed {
		r.Number = &Number{Dim: q.DimVoltage, Side: judge.AtLeast, Value: float64(one.Volts), U: float64(one.U), Limit: float64(one.LeastItWorksAt)}
	} else {
		r.Why += "; the wires cannot carry what is asked of them"
	}
	if r.Verdict == judge.Meets {
		r.Why = ""
	}
	if r.Verdict == judge.FallsShort {
		r.Cures = []Cure{thicker(d, worst)}
	}
	l.put(r, Change)
}

// worseOff orders devices by verdict, then by what they have above their least voltage.
func worseOff(a, b *plan.FedDevice) bool {
	if (a.Verdict == judge.FallsShort) != (b.Verdict == judge.FallsShort) {
		return a.Verdict == judge.FallsShort
	}
	if (a.Verdict == judge.TooClose) != (b.Verdict == judge.TooClose) {
		return a.Verdict == judge.TooClose
	}
	return a.Margin < b.Margin
}

// thicker reckons the tree again with the smallest gauges that do.
func thicker(d *plan.Fed, worst int) Cure {
	c := Cure{What: "thicker wire", Effort: Replacing, Answer: Change}
	if d.Smallest == nil {
		c.But = "no gauge up to 10 AWG does: a supply nearer to it, or fewer devices on it"
		return c
	}
	t := d.Tree
	t.Runs = append([]power.Run(nil), d.Tree.Runs...)
	var parts []string
	for k, g := range d.Smallest {
		if g < t.Runs[k].Wire.Gauge {
			parts = append(parts, t.Runs[k].Name+" of "+g.String())
		}
		t.Runs[k].Wire.Gauge = min(g, t.Runs[k].Wire.Gauge)
	}
	if len(parts) > 0 {
		c.What += ": " + strings.Join(parts, ", ")
	}
	w := t.Follow().Loads[worst]
	c.Number = &Number{Dim: q.DimVoltage, Side: judge.AtLeast, Value: float64(w.Volts), U: float64(w.U), Limit: float64(w.LeastItWorksAt)}
	c.Works = w.Ending == power.Fed && w.Margin > 0
	return c
}

// gives puts what the supply gives against what is asked of it.
func (l *ladder) gives(d *plan.Fed) {
	for i := range d.Statements {
		s := &d.Statements[i]
		if !s.Published || s.Dim != q.DimCurrent {
			continue
		}
		r := Rung{Test: "The supply " + d.Supply.Name + " gives what is asked of it. " + s.What, Source: s.Source, Verdict: s.Verdict}
		if !math.IsNaN(s.Value) {
			r.Number = &Number{Dim: s.Dim, Side: s.Side, Value: s.Value, U: s.U, Limit: s.Limit}
		}
		if s.Verdict == judge.FallsShort {
			if s.Say != "" {
				r.Why = s.Say
			}
			c := Cure{What: "a larger supply", Effort: Replacing, Answer: Change, Works: d.Demand.Size > 0}
			if d.Demand.Size > 0 {
				c.What = fmt.Sprintf("a supply of %g A", float64(d.Demand.Size))
				c.Number = &Number{Dim: s.Dim, Side: s.Side, Value: s.Value, U: s.U, Limit: max(float64(d.Demand.Size), s.Value)}
			} else {
				c.But = "none that is commonly made is large enough"
			}
			r.Cures = []Cure{c}
		}
		l.put(r, Change)
	}
}
