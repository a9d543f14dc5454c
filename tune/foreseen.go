package tune

import (
	"math"

	"swingwright/judge"
	"swingwright/quantity"
	"swingwright/window"
)

// A Foreseen is what a demand's value is reckoned to be at a state.
type Foreseen struct {
	Demand window.Demand
	Value  float64 // SI, of the dimension of the demand's kind
	U      float64 // standard uncertainty: of the fit, and of where the valves come to stand
	Margin float64 // to the limit with its allowance, above zero on the good side
	// Holds is the probability that the demand is kept.
	Holds   float64
	Verdict judge.Verdict
}

// A Passing is when a leaf let go at rest at 90 degrees passes an angle.
type Passing struct {
	Angle quantity.Angle
	Time  quantity.Time // NaN where it never does
	U     quantity.Time
}

// passings are the angles that limits on times are about.
var passings = [...]quantity.Angle{80, 70, 45, 30, 12, 10, 5, 0}

// An Outlook is what a state is reckoned to be like.
type Outlook struct {
	State    State
	Demands  []Foreseen
	Passings []Passing
	// T and Theta are the closing from 90 degrees, s and rad, every twentieth of a second.
	T, Theta []float64
	timed    []Time
	hand     [2][]float64 // by how much a hand that sets a valve moves the values
	effects  []effect     // of the scout's axes on the demands' values, the passings and the stretches
	sure     []float64    // spreads of the demands' values without that of the valves' positions
	certain  []float64    // margins over their spreads without that of the valves' positions
}

// worst is the least margin over its spread without that of the valves' positions.
func (o *Outlook) worst() float64 {
	least := math.Inf(1)
	for _, z := range o.certain {
		least = min(least, z)
	}
	return least
}

// set is the spread of a demand's value once both valves were set anew, all else as well
// known as it is.
func (o *Outlook) set(i int) float64 {
	return math.Hypot(o.sure[i], math.Hypot(o.hand[0][i], o.hand[1][i]))
}

// pain is what misses and narrow margins weigh in all: about a spread of miss each, little
// where it is kept by two, nothing that matters beyond four.
func (o *Outlook) pain() float64 {
	sum := 0.0
	for _, z := range o.certain {
		z = min(z, 4)
		sum += math.Log1p(math.Exp(-math.Abs(z))) + max(-z, 0)
	}
	return sum
}
