package record

import (
	"math"

	"swingwright/quantity"
	"swingwright/trace"
)

// Phases are what a reader should find, the latch zone parted from the sweep
// where the model's latch valve takes over.
func (c *Course) Phases() (list []trace.Phase) {
	for _, p := range c.parts {
		from, to := quantity.Time(p.from+p.held), quantity.Time(p.to)
		ph := trace.Phase{Kind: p.kind, From: from, To: to}
		ph.Start, _ = c.in(&p, p.from)
		ph.End, _ = c.in(&p, p.to)
		if n := len(list); n > 0 && (p.held > 0 || list[n-1].Kind == ph.Kind) {
			if list[n-1].To = from; list[n-1].Kind == ph.Kind {
				list[n-1].To, list[n-1].End = ph.To, ph.End
				continue
			}
		}
		if at, ok := c.pass(&p, float64(c.zone), -1); ok && p.kind == trace.Sweep && c.zone > 0 {
			latch := ph
			latch.Kind, latch.From, latch.Start = trace.LatchZone, quantity.Time(at), c.zone
			ph.To, ph.End = latch.From, c.zone
			list = append(list, ph, latch)
			continue
		}
		list = append(list, ph)
	}
	return list
}

func (c *Course) in(p *part, t float64) (quantity.Angle, quantity.AngularSpeed) {
	y := p.at(t - p.from)
	return quantity.Angle(y.Angle), quantity.AngularSpeed(y.Rate)
}

// fine is the step in which the truth is looked through, s.
const fine = 0.002

// pass is when a part passes an angle, upward (sense 1) the first time, downward
// (-1) the last time.
func (c *Course) pass(p *part, angle, sense float64) (at float64, ok bool) {
	beyond := func(t float64) bool { return sense*(p.at(t-p.from).Angle-angle) >= 0 }
	for t := p.from; t < p.to; t += fine {
		lo, hi := t, math.Min(t+fine, p.to)
		if beyond(lo) || !beyond(hi) {
			continue
		}
		for range 40 {
			if mid := (lo + hi) / 2; beyond(mid) {
				hi = mid
			} else {
				lo = mid
			}
		}
		if at, ok = hi, true; sense > 0 {
			return at, ok
		}
	}
	return at, ok
}

// Between is the true time between two angles, as trace tells it; NaN where they
// are not passed.
func (c *Course) Between(from, to quantity.Angle, closing bool) quantity.Time {
	return quantity.Time(c.mark(to, closing) - c.mark(from, closing))
}

func (c *Course) mark(angle quantity.Angle, closing bool) float64 {
	at := math.NaN()
	for i := range c.parts {
		p := &c.parts[i]
		switch {
		case closing && p.kind == trace.Reopening: // the closing that ends the swing begins anew
			at = math.NaN()
		case closing && p.kind == trace.Sweep && angle == 0:
			if c.endsShut(p) {
				at = p.to
			}
		case closing && p.kind == trace.Sweep:
			if t, ok := c.pass(p, float64(angle), -1); ok {
				at = t
			}
		case !closing && p.kind == trace.Opening && angle == 0 && math.IsNaN(at):
			at = p.from + p.held
		case !closing && p.kind == trace.Opening && math.IsNaN(at):
			if t, ok := c.pass(p, float64(angle), 1); ok {
				at = t
			}
		}
	}
	return at
}

func (c *Course) endsShut(p *part) bool {
	angle, _ := c.in(p, p.to)
	return math.Abs(float64(angle)) < 1e-6
}

// PeakRate is the largest rate of opening or closing, without sign.
func (c *Course) PeakRate(closing bool) (peak quantity.AngularSpeed) {
	kind := trace.Opening
	if closing {
		kind = trace.Sweep
	}
	for i := range c.parts {
		p := &c.parts[i]
		if closing && p.kind == trace.Reopening {
			peak = 0
		}
		for t := p.from; p.kind == kind && t < p.to; t += fine {
			_, rate := c.in(p, t)
			peak = max(peak, quantity.AngularSpeed(math.Abs(float64(rate))))
		}
	}
	return peak
}

// ImpactRate is the rate with which the leaf reaches its frame, without sign.
func (c *Course) ImpactRate() quantity.AngularSpeed {
	for i := len(c.parts) - 1; i >= 0; i-- {
		if p := &c.parts[i]; p.kind == trace.Sweep && c.endsShut(p) {
			_, rate := c.in(p, p.to)
			return quantity.AngularSpeed(math.Abs(float64(rate)))
		}
	}
	return quantity.AngularSpeed(math.NaN())
}

// HoldTime is how long the leaf is held open.
func (c *Course) HoldTime() (held quantity.Time) {
	for _, p := range c.parts {
		if p.kind == trace.Held {
			held += quantity.Time(p.to - p.from)
		}
	}
	return held
}

// OpenAngle is the largest angle.
func (c *Course) OpenAngle() (top quantity.Angle) {
	for i := range c.parts {
		p := &c.parts[i]
		for t := p.from; t < p.to; t += fine {
			angle, _ := c.in(p, t)
			top = max(top, angle)
		}
	}
	return top
}
