package plan

import (
	"math"
	"slices"

	"swingwright/judge"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/trace"
	"swingwright/tune"
)

// Tuning is what to turn next at an opening's closer.
type Tuning struct {
	*tune.Advice // nil where something is missing
	// Missing is what has to be known before anything can be advised.
	Missing []string
	// Left are demands that could not be put, each with the reason.
	Left []string
	// Track is how good the times were that were foretold before, where any were.
	Track tune.Track
	// Checks are what recordings tell of backcheck, one each.
	Checks []Checked
	// Log are the states that the closer was in, as found first.
	Log []tune.Adjustment
}

// Tune advises what to turn next, from what was found at the opening and after every
// adjustment, so that every limit of the plan's findings is kept that the closer's
// setting moves. Recordings of closings, if there are any, count beside the times. It
// fails where the question, or a recording, makes no sense.
func (p *Plan) Tune(sheets *opening.Sheets, recorded []Curved, policy judge.Policy) (*Tuning, error) {
	out := &Tuning{}
	sheet := sheets.Closer(p.Opening.Closer.Sheet)
	v := tune.Visit{Policy: policy}
	v.Demands, out.Left = p.demands()
	out.Missing = p.untunable(sheet)
	if len(out.Missing) > 0 {
		return out, nil
	}
	v.Known = tune.Known{Values: p.Values(), Link: p.Resolved.Link, Spring: p.Powers(sheets)}
	for i := range p.Resolved.Rows {
		v.Known.U[i] = p.Resolved.Rows[i].U
	}
	v.Sweep, v.Latch = sheet.Sweep.Shut, sheet.Latch.Shut
	v.States, v.Record = p.states(sheet)
	var err error
	if v.Record.Curves, err = curves(recorded, v.States); err != nil {
		return out, err
	}
	if out.Advice, err = tune.Advise(&v); err != nil {
		return out, err
	}
	if out.Fit != nil {
		out.Checks = checks(recorded, out.Fit, v.States, v.Known.Link)
	}
	out.log(&v, recorded)
	return out, nil
}

// untunable is what keeps anything from being advised.
func (p *Plan) untunable(sheet *opening.CloserSheet) []string {
	all := p.wanting(sheet)
	c := &p.Opening.Closer
	say := func(bad bool, what string) {
		if bad {
			all = append(all, what)
		}
	}
	say(!c.Size.Known, "the power that the spring is set to (closer.size)")
	say(!c.SweepTurns.Known, "the turns of the sweep valve from shut (closer.sweep_turns): turn it in gently until it resists, counting, and back")
	say(!c.LatchTurns.Known, "the turns of the latch valve from shut (closer.latch_turns): turn it in gently until it resists, counting, and back")
	say(!c.SweepTime.Known, "the time from 90 to 12 degrees (closer.sweep_time)")
	return all
}

// states are the settings that the closer was in, in order, and what was found at each.
func (p *Plan) states(sheet *opening.CloserSheet) (states []tune.State, record tune.Record) {
	c := &p.Opening.Closer
	now := tune.State{Power: c.Size.Value, Sweep: c.SweepTurns.Value, Latch: c.LatchTurns.Value}
	oil := q.Ratio(1)
	found := func(sweep, latch q.Measured[q.Time], latched opening.YesNo) {
		states = append(states, now)
		lap := func(from, to q.Angle, m q.Measured[q.Time]) {
			if m.Known {
				m = m.WithSpread(stopwatch)
				record.Laps = append(record.Laps, tune.Lap{State: now, Oil: oil, From: from, To: to, Time: m.Value, U: m.U})
			}
		}
		lap(90*q.Degree, 12*q.Degree, sweep)
		lap(12*q.Degree, 0, latch)
		if latched != "" {
			record.Latchings = append(record.Latchings, tune.Latching{State: now, Latched: latched == "yes"})
		}
	}
	found(c.SweepTime, c.LatchTime, "")
	for i := range p.Opening.Adjusted {
		a := &p.Opening.Adjusted[i]
		now.Power, now.Sweep, now.Latch = a.Size.Or(q.Exactly(now.Power)).Value, a.Sweep.Or(q.Exactly(now.Sweep)).Value, a.Latch.Or(q.Exactly(now.Latch)).Value
		oil = p.oilAt(sheet, a.Warmth)
		found(a.SweepTime, a.LatchTime, a.Latched)
	}
	return states, record
}

// oilAt is the oil's viscosity at a temperature over that at the survey's, by ASTM
// D341; 1 where one of them, or the oil, is not known.
func (p *Plan) oilAt(sheet *opening.CloserSheet, now q.Measured[q.Temperature]) q.Ratio {
	then := p.Opening.Air.Surveyed
	if !now.Known || !then.Known || !sheet.Oil.At40.Known || !sheet.Oil.At100.Known {
		return 1
	}
	thicker, err := oilFactor(&sheet.Oil, now.Value, then.Value)
	if err != nil {
		return 1
	}
	return thicker
}

// log foretells every adjustment from what was known before it, and scores how good
// that was, by laps and by recordings.
func (out *Tuning) log(v *tune.Visit, recorded []Curved) {
	for n := 1; n < len(v.States); n++ {
		before := *v
		before.States = v.States[:n]
		before.Record = upTo(&v.Record, v.States[:n])
		outlook, err := tune.Foretell(&before, v.States[n])
		if err != nil {
			continue // too little was known to foretell anything
		}
		foreseen, found := outlook.Times(), laps(&v.Record, v.States[n])
		found = append(found, timed(recorded, n, foreseen)...)
		if len(found) > 0 {
			out.Log = append(out.Log, tune.Adjustment{From: v.States[n-1], To: v.States[n], Foreseen: foreseen, Found: found})
		}
	}
	out.Track = tune.Score(out.Log)
}

// upTo is what was measured at some states.
func upTo(r *tune.Record, states []tune.State) (out tune.Record) {
	in := func(s tune.State) bool { return slices.Contains(states, s) }
	for _, lap := range r.Laps {
		if in(lap.State) {
			out.Laps = append(out.Laps, lap)
		}
	}
	for _, c := range r.Curves {
		if in(c.State) {
			out.Curves = append(out.Curves, c)
		}
	}
	for _, l := range r.Latchings {
		if in(l.State) {
			out.Latchings = append(out.Latchings, l)
		}
	}
	return out
}

// laps are the times found at a state.
func laps(r *tune.Record, at tune.State) (all []tune.Time) {
	for _, lap := range r.Laps {
		if lap.State == at {
			all = append(all, tune.Time{From: lap.From, To: lap.To, Time: lap.Time, U: lap.U})
		}
	}
	return all
}

// nearRelease is how far from where a foretold closing is let go a recorded one may have
// been for their times from there to be compared; assumed. A leaf let go 2 degrees higher
// runs already as it passes, and takes 0.2 s less.
const nearRelease = 0.3 * q.Degree

// timed are the stretches that were foretold as recordings made at a state show them. A
// stretch that begins where the leaf is let go is left out where it was let go elsewhere.
func timed(recorded []Curved, state int, foreseen []tune.Time) (all []tune.Time) {
	for _, f := range foreseen {
		var shown []trace.Reading[q.Time]
		for _, one := range recorded {
			if one.State != state {
				continue
			}
			for _, s := range one.Trace.Swings {
				open := s.OpenAngle()
				if s.Kind != trace.Full || !open.Known || f.From == 90*q.Degree && math.Abs(float64(open.Value-f.From)) > float64(nearRelease) {
					continue
				}
				shown = append(shown, s.Between(f.From, f.To, true))
			}
		}
		if sum := trace.Repeat(shown...); sum.N > 0 {
			all = append(all, tune.Time{From: f.From, To: f.To, Time: sum.Mean, U: sum.U})
		}
	}
	return all
}
