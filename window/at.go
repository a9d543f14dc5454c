package window

import (
	"fmt"
	"math"

	"swingwright/quantity"
)

// At is the value of every demand of a question, kept or not, at a setting of the spring
// and resistances of the valves that need not lie within the question's range, and the
// margin to its limit. The largest pressure against which the leaf shuts is found within a
// hundredth of what the closed leaf's closing moment could bear; a leaf that shuts against
// less than none tells a value below zero. It fails where Question.Check does.
func (f *Finder) At(ask *Question, setting quantity.Ratio, sweep, latch quantity.Damping) ([]Kept, error) {
	if err := ask.Check(); err != nil {
		return nil, err
	}
	if !(sweep > 0 && latch > 0) {
		return nil, fmt.Errorf("resistances of %g and %g N·m·s/rad: give two above zero", float64(sweep), float64(latch))
	}
	f.begin(ask)
	f.set(setting)
	s := setOf(ask.Demands)
	at := [2]float64{math.Log(float64(sweep)), math.Log(float64(latch))}
	return f.valued(s, at, f.bearing), nil
}

// bearing finds the largest pressures against which the leaf shuts from a group's angles,
// Pa, below the demand's bound too.
func (f *Finder) bearing(s *set, g *group, value []float64) {
	span := float64(f.model.ClosingMoment(0)) / f.perPascal()
	low, high := make([]float64, len(s.demands)), make([]float64, len(s.demands))
	for _, i := range g.of {
		low[i], high[i] = -span, 2*span
	}
	f.bracket(s, g, low, high, -g.pressure, 2*(fine+1), span/128)
	for _, i := range g.of {
		value[i] = (low[i] + high[i]) / 2
	}
}
