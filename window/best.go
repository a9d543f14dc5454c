package window

import (
	"math"

	"swingwright/quantity"
)

// A Setting is a setting of spring and valves, and how well it keeps the demands.
type Setting struct {
	Power Power
	// Sweep and Latch are the resistances between which the valves may be left,
	// each wherever the other is, at the oil's reference temperature. It is not
	// looked beyond eight times the least: nobody wants a leaf that slow.
	Sweep, Latch [2]quantity.Damping
	// SweepSet and LatchSet are those reckoned with: a tenth more than the least
	// where there is room, so that the leaf is a little slower than it must be
	// (common practice).
	SweepSet, LatchSet quantity.Damping
	// Margin is the least moment on the leaf, about the hinge axis, by which a
	// demand on the spring is kept: on hands and closing moments as they are, on
	// Shuts as the moment of more pressure on the closed leaf, on power settings
	// and the ends of the spring as closing moment.
	Margin quantity.Torque
	Kept   []Kept // every demand, in the order given
}

// A Kept is a demand's value at a setting and its margin to the limit with its
// allowance, both in SI, of the dimension of the demand's kind.
type Kept struct {
	Demand        Demand
	Value, Margin float64
}

// bisections of choices that people could not set more closely.
const fine = 7

// best chooses from a window the setting whose least moment to spare is
// largest: where what is spared upward meets what is spared downward.
func (f *Finder) best(over Span, s *set) Setting {
	low, high := over.Low, over.High
	for range fine {
		middle := low + (high-low)/2
		up := f.above(s, middle)
		if f.below(s, middle) < up || !f.bears(s, middle, up) {
			low = middle
		} else {
			high = middle
		}
	}
	out := f.settle(s, high)
	spare := min(f.above(s, high), f.below(s, high))
	for _, k := range out.Kept {
		if k.Demand.Kind == Shuts {
			spare = min(spare, k.Margin*f.perPascal())
		}
	}
	out.Margin = quantity.Torque(spare)
	return out
}

// perPascal is the moment of a pascal on the closed leaf, N·m/Pa.
func (f *Finder) perPascal() float64 { return float64(f.model.PressureMoment(quantity.Pascal)) }

// pull is the closing moment of the closed leaf at a setting, N·m: there the
// pinion has not turned, so that it goes with the spring's torque closed.
func (f *Finder) pull(setting quantity.Ratio) float64 {
	return float64(f.model.ClosingMoment(0)) / float64(f.ask.Spring.At(f.at).Closed) * float64(f.ask.Spring.At(setting).Closed)
}

// above is the least moment that ceilings and the spring's upper end spare, N·m.
func (f *Finder) above(s *set, setting quantity.Ratio) float64 {
	top := f.ask.settings().High
	least := math.Inf(1)
	f.set(setting)
	for _, i := range s.still {
		switch d := &s.demands[i]; d.Kind {
		case HandForce:
			least = min(least, d.margin(f.still(d))*float64(d.At))
		case MostPower:
			top = min(top, quantity.Ratio(d.bound()))
		}
	}
	return min(least, f.pull(top)-f.pull(setting))
}

// below is the least moment that floors and the spring's lower end spare, N·m.
func (f *Finder) below(s *set, setting quantity.Ratio) float64 {
	bottom := f.ask.settings().Low
	least := math.Inf(1)
	f.set(setting)
	for _, i := range s.still {
		switch d := &s.demands[i]; d.Kind {
		case ClosingMoment:
			least = min(least, d.margin(f.still(d)))
		case LeastPower:
			bottom = max(bottom, quantity.Ratio(d.bound()))
		}
	}
	return min(least, f.pull(setting)-f.pull(bottom))
}

// bears tells whether the quick demands are kept with so much more moment, N·m,
// of pressure on the leaf.
func (f *Finder) bears(s *set, setting quantity.Ratio, moment float64) bool {
	f.extra = moment / f.perPascal()
	defer func() { f.extra = 0 }()
	return f.keeps(s, setting)
}

func all(good []bool, of []int) bool {
	for _, i := range of {
		if !good[i] {
			return false
		}
	}
	return true
}

// settle finds the valves' span at a setting in the window and all values there.
func (f *Finder) settle(s *set, setting quantity.Ratio) Setting {
	good := make([]bool, len(s.demands))
	least := f.decide(s, setting, good, true)
	_, most := f.box()
	reach := min(math.Log(8), max(most[0]-least[0], most[1]-least[1]))
	slower := func(by float64) [2]float64 {
		return [2]float64{min(most[0], least[0]+by), min(most[1], least[1]+by)}
	}
	by := f.farthest(reach, func(by float64) bool {
		f.quick(s, slower(by), good)
		return all(good, s.quick)
	})
	at, end := slower(min(math.Log(1.1), by/2)), slower(by)
	resist := func(x float64) quantity.Damping { return quantity.Damping(math.Exp(x)) }
	out := Setting{
		Power:    f.ask.Spring.At(setting),
		Sweep:    [2]quantity.Damping{resist(least[0]), resist(end[0])},
		Latch:    [2]quantity.Damping{resist(least[1]), resist(end[1])},
		SweepSet: resist(at[0]), LatchSet: resist(at[1]),
	}
	out.Kept = f.values(s, at)
	return out
}

// farthest is how far, up to reach, a verdict that is good at zero stays good.
func (f *Finder) farthest(reach float64, good func(float64) bool) float64 {
	if good(reach) {
		return reach
	}
	low, high := 0.0, reach
	for range fine {
		if mid := low + (high-low)/2; good(mid) {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// values are those of every demand with the valves at logarithms of resistances.
func (f *Finder) values(s *set, at [2]float64) []Kept {
	return f.valued(s, at, f.borne)
}

// valued is values with its own way to find pressures against which the leaf shuts.
func (f *Finder) valued(s *set, at [2]float64, shuts func(*set, *group, []float64)) []Kept {
	f.turn(at)
	value := make([]float64, len(s.demands))
	for _, i := range s.still {
		value[i] = f.still(&s.demands[i])
	}
	for _, groups := range [][]group{s.slow, s.late} {
		for k := range groups {
			f.motion(s, &groups[k], value)
		}
	}
	for k := range s.shuts {
		shuts(s, &s.shuts[k], value)
	}
	out := make([]Kept, len(s.demands))
	for i := range out {
		d := s.demands[i]
		out[i] = Kept{d, value[i], d.margin(value[i])}
	}
	return out
}

// borne finds the largest pressures, Pa, against which the leaf shuts from a
// group's angles, to a hundredth of what the closed leaf's closing moment could
// bear, and never above.
func (f *Finder) borne(s *set, g *group, value []float64) {
	span := float64(f.model.ClosingMoment(0)) / f.perPascal()
	low, high := make([]float64, len(s.demands)), make([]float64, len(s.demands))
	for _, i := range g.of {
		low[i], high[i] = 0, 2*span
	}
	f.bracket(s, g, low, high, f.extra, fine+1, 0)
	for _, i := range g.of {
		value[i] = g.pressure + low[i]
	}
}

// bracket narrows the brackets of a group's demands about the pressures, Pa above base,
// from which on the leaf no longer shuts: always the widest, as often as rounds and no
// further than enough.
func (f *Finder) bracket(s *set, g *group, low, high []float64, base float64, rounds int, enough float64) {
	before := f.extra
	defer func() { f.extra = before }()
	good := make([]bool, len(s.demands))
	for range rounds {
		widest := g.of[0]
		for _, i := range g.of {
			if high[i]-low[i] > high[widest]-low[widest] {
				widest = i
			}
		}
		if high[widest]-low[widest] <= enough {
			return
		}
		mid := (low[widest] + high[widest]) / 2
		f.extra = base + mid
		f.shuts(s, g, good)
		for _, i := range g.of {
			if good[i] {
				low[i] = max(low[i], min(mid, high[i]))
			} else {
				high[i] = min(high[i], max(mid, low[i]))
			}
		}
	}
}
