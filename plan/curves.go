package plan

import (
	"fmt"
	"slices"

	"swingwright/fact"
	"swingwright/job"
	q "swingwright/quantity"
	"swingwright/swing"
	"swingwright/trace"
	"swingwright/tune"
)

// Curved are the swings of a recording that was made while the closer was in one of
// its states: 0 as found, 1 after the first adjustment, and so on.
type Curved struct {
	Name  string
	State int
	Trace *trace.Trace
}

// sampleSpread is the standard deviation of a recorded leaf angle about the smooth
// course, as far as closure and bias are taken out; assumed.
const sampleSpread = 0.05 * q.Degree

// curves are the closings of some recordings, as identification looks at them: from
// when the leaf is let go, at rest, until it is shut. It fails where a recording names a
// state that there is not, or shows no whole swing.
func curves(all []Curved, states []tune.State) (out []tune.Curve, err error) {
	for _, one := range all {
		if one.State < 0 || one.State >= len(states) {
			return nil, fmt.Errorf("recording %s: there is no state %d; 0 is as found, %d the last adjustment", one.Name, one.State, len(states)-1)
		}
		n := 0
		for i, s := range one.Trace.Swings {
			if s.Kind != trace.Full || s.Spoilt() != "" {
				continue
			}
			c := curve(s)
			c.Name, c.State = fmt.Sprintf("%s, swing %d", one.Name, i+1), states[one.State]
			if len(c.T) > 10 {
				out = append(out, c)
				n++
			}
		}
		if n == 0 {
			return nil, fmt.Errorf("recording %s shows no whole swing: read tells what is wrong with it", one.Name)
		}
	}
	return out, nil
}

// KeptAngle is how far the leaf was open by what was kept of a recording of this name;
// not known where nothing of it was.
func (p *Plan) KeptAngle(recording string) q.Measured[q.Angle] {
	for _, r := range slices.Backward(p.Opening.Readings) {
		if r.Fact != fact.PoweredOpenAngle.String() || r.Instrument != "recording "+recording {
			continue
		}
		if got, err := job.ResolveReading(r); err == nil && got.Stated {
			return q.Give(q.Angle(got.Value), q.Angle(got.U))
		}
	}
	return q.Measured[q.Angle]{}
}

// curve is the closing of one swing.
func curve(s *trace.Swing) (c tune.Curve) {
	c.U, c.Scale = float64(sampleSpread), s.ScaleSpread()
	from, to, found := q.Time(0), q.Time(0), false
	for _, ph := range s.Phases {
		switch ph.Kind {
		case trace.Sweep, trace.LatchZone:
			if !found {
				from, found = ph.From, true
			}
			to = ph.To
		}
	}
	for _, x := range s.Samples() {
		if x.Time >= from && x.Time <= to {
			c.T, c.Theta = append(c.T, float64(x.Time-from)), append(c.Theta, float64(x.Angle))
		}
	}
	return c
}

// A Checked is what the openings on a recording tell of backcheck.
type Checked struct {
	Name string
	tune.Check
	Why string // why it is not told; empty where it is
}

// checks looks for backcheck in every recording, with the model as fitted: the swing that
// tells it best stands for its recording.
func checks(all []Curved, fit *tune.Fit, states []tune.State, link swing.Linkage) (out []Checked) {
	sweep, latch := fit.Sweep[0].Viscous, fit.Latch[0].Viscous // a leaf that opens does not feel them
	for _, one := range all {
		got := Checked{Name: one.Name, Why: "no swing shows an opening"}
		v := fit.Values(states[one.State].Power, sweep, latch, 1)
		for _, s := range one.Trace.Swings {
			if s.Kind != trace.Full || s.Spoilt() != "" {
				continue
			}
			if s.OpenedBy().By == trace.ByPower {
				got.Why = "it was opened under power, and a drive holds its rate whatever resists: push it open by hand with the power off"
				continue
			}
			c := openingOf(s)
			check, err := tune.Backcheck(&c, &v, link)
			if err != nil {
				got.Why = err.Error()
				continue
			}
			if got.Why != "" || check.U/check.Viscous < got.U/got.Viscous {
				got.Check, got.Why = check, ""
			}
		}
		out = append(out, got)
	}
	return out
}

// openingOf is the opening of one swing.
func openingOf(s *trace.Swing) (c tune.Curve) {
	c.U = float64(sampleSpread)
	for _, ph := range s.Phases {
		if ph.Kind != trace.Opening {
			continue
		}
		for _, x := range s.Samples() {
			if x.Time >= ph.From && x.Time <= ph.To {
				c.T, c.Theta = append(c.T, float64(x.Time-ph.From)), append(c.Theta, float64(x.Angle))
			}
		}
		break
	}
	return c
}
