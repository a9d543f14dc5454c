package power

import (
	"math"
	"slices"

	"swingwright/internal/propagate"
	q "swingwright/quantity"
)

// Odds is the share of draws, 0 to 1, in which a load has the least voltage that it
// works at while the sequences are in given phases: supply, temperature, runs and loads
// vary by their uncertainties. Where a tree is near collapse no slope tells this. Same
// seed, same bits; n is 2 or more.
func (t *Tree) Odds(load int, phase []Phase, seed uint64, n int) (float64, error) {
	inputs := []propagate.Input{
		{Mean: float64(t.Volts), U: float64(t.VoltsU), Low: 0.01 * float64(t.Volts), High: 2 * float64(t.Volts)},
		{Mean: float64(t.Warmth), U: float64(t.WarmthU), Low: min(200, float64(t.Warmth)), High: max(400, float64(t.Warmth))},
	}
	factor := func(u q.Ratio) {
		inputs = append(inputs, propagate.Input{Mean: 1, U: float64(u), Low: 0.05, High: math.Inf(1)})
	}
	for k := range t.Runs {
		factor(t.Runs[k].U)
	}
	for i := range t.Loads {
		factor(t.Loads[i].U[phase[t.Loads[i].Sequence]])
	}
	u := *t
	u.Loads = slices.Clone(t.Loads)
	draws, err := propagate.MonteCarlo(seed, n, inputs, 1, func(x, out []float64) {
		u.Volts, u.Warmth = q.Voltage(x[0]), q.Temperature(x[1])
		s := newSolver(&u)
		for k := range t.Runs {
			s.r[k+1] *= x[2+k]
		}
		for i := range t.Loads {
			p := phase[t.Loads[i].Sequence]
			u.Loads[i].Draws[p] = t.Loads[i].Draws[p] * q.Current(x[2+len(t.Runs)+i])
		}
		m := s.at(phase)
		out[0] = 0
		if l := &t.Loads[load]; m.At(l.Node) == Fed && m.Volts[l.Node] >= l.Least {
			out[0] = 1
		}
	})
	if err != nil {
		return 0, err
	}
	return draws.Summary(0).Mean, nil
}
