package window

import (
	"math"

	"swingwright/quantity"
)

// headroom is by how much a slow demand is kept, as a logarithm of time: ln of
// a time over its bound, half of ln of its bound over an energy, which goes with
// the square of the rate.
func headroom(d *Demand, value float64) float64 {
	if d.Kind == LeastTime {
		if d.bound() <= 0 {
			return math.Inf(1)
		}
		return math.Log(value / d.bound())
	}
	if value <= 0 {
		return math.Inf(1)
	}
	return math.Log(d.bound()/value) / 2
}

// forLatch tells that a slow demand is the latch valve's to keep: at least half
// of its way lies below the latch zone, or its peak, at the angle peak.
func (f *Finder) forLatch(d *Demand, peak quantity.Angle) bool {
	switch d.Kind {
	case PeakEnergy:
		return peak < f.zone
	case ImpactEnergy:
		return true
	}
	return (d.From+d.To)/2 < f.zone
}

// kept is the least headroom of the slow demands of each valve, at logarithms
// of the resistances; infinite where a valve has none.
func (f *Finder) kept(s *set, at [2]float64) (sweep, latch float64) {
	f.turn(at)
	sweep, latch = math.Inf(1), math.Inf(1)
	values := make([]float64, len(s.demands))
	for k := range s.slow {
		g := &s.slow[k]
		peak := f.motion(s, g, values)
		for _, i := range g.of {
			d := &s.demands[i]
			if r := headroom(d, values[i]); f.forLatch(d, peak) {
				latch = min(latch, r)
			} else {
				sweep = min(sweep, r)
			}
		}
	}
	return sweep, latch
}

// sweep finds the least sweep resistance that keeps the sweep valve's demands
// with the latch valve at y, and how far the demands left to the latch valve are
// then kept: its own, and those for which the sweep valve has not enough. all
// hands the latch valve's demands to the sweep valve instead.
func (f *Finder) sweep(s *set, y, guess float64, all bool) (x, left float64) {
	low, high := f.box()
	k := newSeeker(low[0], high[0], guess, f.slopes[0])
	for range tries {
		x = k.x
		mine, other := f.kept(s, [2]float64{x, y})
		left = other
		if all {
			mine, left = min(mine, other), math.Inf(1)
		}
		if mine < 0 {
			left = min(left, mine)
		}
		if !k.step(mine) {
			break
		}
	}
	if k.near() {
		f.slopes[0], f.guess[0] = k.slope, x-f.torque()
	}
	return x, left
}

// torque is the logarithm of the spring's torque closed, to which resistances go
// in proportion.
func (f *Finder) torque() float64 { return math.Log(float64(f.ask.Spring.At(f.at).Closed)) }

// tries bounds every search; bisection needs fewer.
const tries = 60

// fastest is how far the demands left to the latch valve may be missed before
// it is worth asking whether the leaf still latches: beyond, no more resistance
// can be right if it does not.
const fastest = 0.02

// decide finds, at a setting, which of the quick demands are kept by some
// resistances that keep the slow ones, and puts it into good by place in the set.
// Where the valves cannot keep the slow demands, the quick ones are tried with
// both at their most. least are the logarithms of the least resistances tried
// that keep the slow demands; those it need not find for an answer it does not
// look for, unless wanted.
func (f *Finder) decide(s *set, setting quantity.Ratio, good []bool, wanted bool) (least [2]float64) {
	f.set(setting)
	low, high := f.box()
	open := len(s.quick) // demands not decided
	closed := make([]bool, len(s.demands))
	now := make([]bool, len(s.demands))
	k := newSeeker(low[1], high[1], f.guess[1]+f.torque(), f.slopes[1])
	x := f.guess[0] + f.torque()
	for range tries {
		var left float64
		x, left = f.sweep(s, k.x, x, false)
		if left < 0 && k.x >= high[1] {
			x, left = f.sweep(s, k.x, x, true)
		}
		at := [2]float64{x, k.x}
		fails := left < 0 && k.x >= high[1] // the valves cannot keep them
		if left >= 0 || fails {
			least = at
		}
		if open > 0 && (left >= 0 || fails || left < -fastest) {
			f.quick(s, at, now)
			for _, i := range s.quick {
				switch {
				case closed[i]:
				case now[i] == (left >= 0 || fails):
					// kept where the slow are kept, or missed where they are not
					good[i], closed[i] = now[i], true
					open--
				case fails:
					good[i], closed[i] = false, true
					open--
				}
			}
		}
		if open == 0 && !wanted || !k.step(left) {
			break
		}
	}
	for _, i := range s.quick {
		if !closed[i] {
			good[i] = false
		}
	}
	if k.near() {
		f.slopes[1], f.guess[1] = k.slope, least[1]-f.torque()
	}
	return least
}

// quick tries the quick demands at logarithms of the resistances.
func (f *Finder) quick(s *set, at [2]float64, good []bool) {
	f.turn(at)
	for k := range s.shuts {
		f.shuts(s, &s.shuts[k], good)
	}
	if len(s.late) == 0 {
		return
	}
	values := make([]float64, len(s.demands))
	for k := range s.late {
		f.motion(s, &s.late[k], values)
		for _, i := range s.late[k].of {
			good[i] = s.demands[i].margin(values[i]) >= 0
		}
	}
}

// slowest tells which slow demands the valves can keep at a setting. Both at
// their most decide, but closings of a minute are long to follow; so resistances
// near the last ones found are tried first: what these keep, more would keep too.
func (f *Finder) slowest(s *set, setting quantity.Ratio, good []bool) {
	f.set(setting)
	low, high := f.box()
	values := make([]float64, len(s.demands))
	for _, more := range [...]float64{0.3, 1.5, math.Inf(1)} {
		var at [2]float64
		for i := range at {
			at[i] = max(low[i], min(high[i], f.guess[i]+f.torque()+more))
		}
		f.turn(at)
		missed := false
		for k := range s.slow {
			f.motion(s, &s.slow[k], values)
			for _, i := range s.slow[k].of {
				good[i] = headroom(&s.demands[i], values[i]) >= 0
				missed = missed || !good[i]
			}
		}
		if !missed || at == high {
			return
		}
	}
}
