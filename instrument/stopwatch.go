package instrument

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"swingwright/quantity"
)

// Start is how a stopwatch was started.
type Start uint8

// The ways to start a stopwatch.
const (
	Reacting  Start = iota // on seeing the leaf begin or pass a mark, as it is stopped
	WithPress              // by the same motion of the hand that starts the leaf, so without a delay
)

// Laps are the times of one thing, taken with a stopwatch.
type Laps struct {
	Times []quantity.Time
	Start Start
	// Own is the operator's own scatter of one interval, where it is known from many; it
	// takes the place of the published one.
	Own quantity.Time
}

// What is known of stopwatches beforehand.
const (
	// interval is the scatter of an interval whose begin and end were both reacted to,
	// and delay and single the mean and the scatter of the reaction to one event that is
	// seen to come: Am. J. Phys. 87 (2019) 110, from 4304 timings.
	interval = 0.10 // s
	delay    = 0.11 // s
	single   = 0.07 // s
	// doorScatter is how much a door's own times scatter, and bias what an operator
	// keeps in spite of the mean; assumed.
	doorScatter = 0.04 // s
	bias        = 0.03 // s
	// digit is the last digit of the watch.
	digit = 0.01 // s
	// spreadWide is the share of the mean by which laps may differ before the trade
	// throws them away (common practice).
	spreadWide = 0.15
)

// Read tells what the laps come to. A watch that was started by the hand that started the
// leaf and stopped on seeing reads late by the delay of one reaction, which is taken off.
// A few laps tell little of their own scatter, so the published one counts, unless
// the laps scatter more than chance allows.
func (l Laps) Read() (Read, error) {
	if err := positive("lap", l.Times); err != nil {
		return Read{}, err
	}
	if l.Own < 0 {
		return Read{}, errors.New("the operator's own scatter is below zero")
	}
	n := len(l.Times)
	m, s := mean(l.Times)
	r := Read{Value: m, N: n}
	run, source := interval, "Am. J. Phys. 87 (2019) 110, both ends reacted to"
	if l.Start == WithPress {
		r.Corrected = -delay
		run, source = single, "Am. J. Phys. 87 (2019) 110, one end reacted to"
	}
	if l.Own > 0 {
		run, source = float64(l.Own), "the operator's own"
	}
	r.Value += r.Corrected
	if r.Value <= 0 {
		return Read{}, fmt.Errorf("laps of %.2f s are shorter than the %.2f s by which a watch started with the press reads late: time something longer, or film it", m, delay)
	}
	root := math.Sqrt(float64(n))
	r.Budget = []Term{
		{"reaction", run / root, certain, true, source},
		{"the door's own scatter", doorScatter / root, certain, true, "assumed"},
		{"last digit of the watch", digit / math.Sqrt(12) / root, certain, true, "rectangular"},
		{"what an operator keeps", bias, certain, false, "assumed"},
	}
	r.scattered(s, math.Hypot(run, doorScatter))
	if float64(slices.Max(l.Times)-slices.Min(l.Times)) > spreadWide*m {
		r.Doubts = append(r.Doubts, fmt.Sprintf("the laps differ by more than %.0f %% of their mean: take them again", 100*spreadWide))
	}
	if n < 3 {
		r.Doubts = append(r.Doubts, "three laps are usual")
	}
	r.U, r.DF = combine(r.Budget)
	return r, nil
}

// chance is the probability with which laps of the scatter known beforehand would
// scatter as much as these, below which they are believed instead.
const chance = 0.05

// scattered puts the laps' own scatter in the place of what is known beforehand, where
// it is too large for chance: (n−1)s²/σ² is distributed as χ² with n−1 degrees of freedom.
func (r *Read) scattered(s, known float64) {
	n := float64(r.N)
	if r.N < 2 || (distuv.ChiSquared{K: n - 1}).Survival((n-1)*s*s/(known*known)) >= chance {
		return
	}
	r.Budget[0] = Term{"scatter of the laps", s / math.Sqrt(n), n - 1, true, "these readings"}
	r.Budget[1].U = 0
	r.Doubts = append(r.Doubts, "the laps scatter more than a stopwatch does: look whether the door does the same each time")
}
