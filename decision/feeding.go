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
	l.loop()
	f := l.p.Feeding
	if f == nil {
		return
	}
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
		if d := &f.Circuits[i]; d.Course != nil && f.Feeds(d, l.o.ID) {
			l.volts(test, f, d)
			l.gives("The supply "+d.Supply.Name, d.Statements, supplyCure(d))
		}
	}
	for i := range f.Branches {
		b := &f.Branches[i]
		l.gives("The branch circuit "+b.Breaker.Name, b.Statements, Cure{What: "a branch circuit of its own", Effort: Repairing, Answer: Change, But: "a licensed electrician's work"})
	}
}

// loop: does the cord across the hinges reach, wherever the leaf is?
func (l *ladder) loop() {
	for _, c := range l.p.Power(l.sheets, l.opt.Policy).Cords {
		for i := range c.Statements {
			s := &c.Statements[i]
			if c.Opening != l.o.ID || !s.Published {
				continue
			}
			r := Rung{Test: "The cord across the hinges reaches wherever the leaf is", Source: "computed", Verdict: s.Verdict,
				Number: &Number{Dim: s.Dim, Side: s.Side, Value: s.Value, U: s.U, Limit: s.Limit}}
			if s.Verdict == judge.FallsShort {
				r.Why = "it is pulled tight as the leaf opens, and fails after months, at the cap of its end"
				r.Cures = []Cure{{What: "a longer cord", Effort: Replacing, Answer: Change, Works: true,
					Number: &Number{Dim: s.Dim, Side: s.Side, Value: float64(c.Length), U: s.U, Limit: s.Limit}}}
			}
			l.put(r, Change)
		}
	}
}

// volts puts the device that is worst off.
func (l *ladder) volts(test string, f *plan.Feeding, d *plan.Fed) {
	worst := -1
	for i := range d.Devices {
		one := &d.Devices[i]
		if one.Works && f.Concerns(one.Device, l.o.ID) && (worst < 0 || worseOff(one, &d.Devices[worst])) {
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

// gives puts what a supply or a branch circuit gives against what is asked of it.
func (l *ladder) gives(what string, statements []plan.Statement, cure Cure) {
	for i := range statements {
		s := &statements[i]
		if !s.Published || s.Dim != q.DimCurrent {
			continue
		}
		r := Rung{Test: what + " gives what is asked of it. " + s.What, Source: s.Source, Verdict: s.Verdict}
		if !math.IsNaN(s.Value) {
			r.Number = &Number{Dim: s.Dim, Side: s.Side, Value: s.Value, U: s.U, Limit: s.Limit}
		}
		if s.Verdict == judge.FallsShort {
			r.Why = s.Say
			if cure.Number != nil {
				n := *cure.Number
				n.Value, n.U, n.Limit = s.Value, s.U, max(n.Limit, s.Value)
				cure.Number = &n
			}
			r.Cures = []Cure{cure}
		}
		l.put(r, Change)
	}
}

// supplyCure is the smallest supply that does.
func supplyCure(d *plan.Fed) Cure {
	c := Cure{What: "a larger supply", Effort: Replacing, Answer: Change, Works: d.Demand.Size > 0}
	if d.Demand.Size > 0 {
		c.What = fmt.Sprintf("a supply of %g A", float64(d.Demand.Size))
		c.Number = &Number{Dim: q.DimCurrent, Side: judge.AtMost, Limit: float64(d.Demand.Size)}
	} else {
		c.But = "none that is commonly made is large enough"
	}
	return c
}
