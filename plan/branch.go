package plan

import (
	"fmt"
	"math"
	"slices"

	"swingwright/clearance"
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/power"
	q "swingwright/quantity"
)

// branch reckons and judges a branch circuit.
func (f *Feeding) branch(b *power.Branch, policy judge.Policy) FedBranch {
	out := FedBranch{Branch: b}
	if len(b.Devices) == 0 {
		return out
	}
	state := func(s Statement) { out.Statements = append(out.Statements, decided(s, policy)) }
	working, peak, u, peakU := b.Currents()
	hours := b.Continuous()
	state(Statement{What: "Current with everything at work", Dim: q.DimCurrent, Side: judge.AtMost, Value: float64(working), U: float64(u), Limit: float64(b.Rated),
		Published: true, Source: "what its breaker carries", Say: "ask the electrician for a circuit of its own"})
	state(continuousOn(hours, b.Rated))
	state(Statement{What: "Largest current, everything starting at once", Dim: q.DimCurrent, Side: judge.AtMost, Value: float64(peak), U: float64(peakU), Limit: float64(b.Rated),
		Source: "common practice", Say: "start the openings one after another, or put them on two circuits"})
	if b.Operators > 0 {
		out.Statements = append(out.Statements, onCircuit(b.Operators, b.Rated))
	}
	if len(b.Missing) > 0 || b.Tree.Check() != nil {
		return out
	}
	out.Course = b.Tree.Follow()
	worst := 0
	for i := range out.Course.Loads {
		if w := &out.Course.Loads[i]; w.Works && w.Volts < out.Course.Loads[worst].Volts {
			worst = i
		}
	}
	if w := &out.Course.Loads[worst]; w.Works && len(b.Tree.Runs) > 0 {
		s := Statement{What: "Voltage lost on the way to " + b.Devices[worst].Name + ", 3 % at most", Dim: q.DimVoltage, Side: judge.AtMost,
			Value: float64(w.Drop), Limit: float64(power.BranchDrop) * float64(b.Tree.Volts), Source: "NEC 210.19(A), informational note, from memory: a recommendation", Say: "thicker wire, or a nearer circuit"}
		s.U = s.Value * relativeDrop
		if w.Ending != power.Fed {
			s.Value, s.U = float64(b.Tree.Volts), 0
		}
		state(s)
	}
	return out
}

// relativeDrop is the relative standard uncertainty of what line cables take: currents
// mostly, from [power.Branches] (assumed).
const relativeDrop = 0.2

// continuousOn is the current that a breaker is chosen for.
func continuousOn(hours power.Sum, rated q.Current) Statement {
	return Statement{What: "Current at work, with a quarter on top of what flows for hours", Dim: q.DimCurrent, Side: judge.AtMost, Value: float64(hours.Current), U: float64(hours.U), Limit: float64(rated),
		Source: "NEC 210.20(A), continuous loads at 125 %: from memory", Say: "ask the electrician for a circuit of its own"}
}

// onCircuit judges how many operators hang on a branch circuit.
func onCircuit(operators float64, rated q.Current) Statement {
	per := float64(rated / power.DoorCircuit)
	s := Statement{What: "Operators on it", Dim: q.DimRatio, Side: judge.AtMost, Value: operators, Limit: math.Floor(power.DoorsOnCircuit[1] * per), Verdict: judge.Meets,
		Source: "common practice: 4 to 6 on 15 A, by their inrush", Say: "put some of them on another circuit"}
	s.Margin = s.Limit - s.Value
	switch {
	case s.Value > s.Limit:
		s.Verdict = judge.FallsShort
	case s.Value > power.DoorsOnCircuit[0]*per:
		s.Verdict = judge.TooClose
	}
	return s
}

// cord judges the length of the cord across the hinges of an opening, as far as it is
// written down: it must reach, and have slack.
func (f *Feeding) cord(p *Plan, policy judge.Policy) {
	if p.Room == nil || p.Room.Cord == nil {
		return
	}
	c := CordFit{Opening: p.Opening.ID, Cord: p.Room.Cord, Has: p.Opening.DoorLoop.Length}
	if c.Has.Known {
		has := c.Has.WithSpread(tape)
		u := math.Hypot(float64(has.U), float64(c.U))
		fails := fmt.Sprintf("a cord of %.0f mm (%.3g in) or more; one that is pulled tight fails after months, at the cap of its end", math.Ceil(float64(c.Length)*1e3), math.Ceil(float64(c.Length/q.Inch)*4)/4)
		c.Statements = []Statement{
			decided(Statement{What: "Cord, against the farthest that its anchors are apart", Dim: q.DimLength, Side: judge.AtLeast, Value: float64(has.Value), Limit: float64(c.Longest),
				U: u, Published: true, Source: "computed from the plan geometry", Say: fails}, policy),
			decided(Statement{What: fmt.Sprintf("The same with %.0f %% of slack", 100*float64(clearance.LoopSlack)), Dim: q.DimLength, Side: judge.AtLeast, Value: float64(has.Value), Limit: float64(c.Length),
				U: math.Hypot(float64(has.U), float64(c.U)*(1+float64(clearance.LoopSlack))), Source: "common practice", Say: fails}, policy),
		}
	}
	f.Cords = append(f.Cords, c)
}

// mainsWork lists the cables of line voltage, which a licensed electrician pulls.
func (f *Feeding) mainsWork() {
	for i := range f.Wiring.Cables {
		c := &f.Wiring.Cables[i]
		line := c.Class == opening.LineCircuit
		for k := range f.Branches {
			line = line || slices.Contains(f.Branches[k].Cables, c)
		}
		if line {
			f.Electrician = append(f.Electrician, "cable "+c.Name+", line voltage")
		}
	}
}
