package trace

import "math"

// Of how a move ends: the rate just before it is over as a share of that a little earlier.
// A leaf that meets its frame keeps most of its rate to the end; a hand that opens it lets
// it go to nothing. Times before the end in seconds; the limits lie between the two on
// simulated swings.
const (
	lateFrom, lateTo   = 0.16, 0.04
	earlyFrom, earlyTo = 0.50, 0.30
	gentle             = 0.35
	abrupt             = 0.50
)

// How much less like a drive's an opening has to be than a closing, in the logarithm of
// the odds, for a recording to have begun with the leaf open, where both ends are abrupt:
// few do begin so. And how much for doubt.
const (
	turnedOdds  = 5.0
	doubtedOdds = 1.0
	shoved      = 0.6 // of the time of closing: a leaf that opens faster was shoved
)

// arrival is how abruptly a move of the leaf ends at sample to: about 1 where a stop ends
// it, near 0 where it dies away; NaN where that cannot be seen.
func (s *Swing) arrival(to int) float64 {
	end := s.strip.t[to]
	for _, p := range s.spans {
		if p.to == to && p.end != (moment{}) {
			end = p.end.t
		}
	}
	mean := func(from, to0 float64) float64 {
		sum, n := 0.0, 0.0
		for i := to; i >= s.lo && s.strip.t[i] > end-from; i-- {
			if s.strip.t[i] <= end-to0 {
				sum += s.rate[i-s.lo]
				n++
			}
		}
		return sum / n
	}
	return mean(lateFrom, lateTo) / mean(earlyFrom, earlyTo)
}

// turned weighs whether a swing was read the wrong way round, since the recording began
// with the leaf open: above zero speaks for it, by the logarithm of the odds; zero where
// it shows nothing of it. What is taken for the opening then ends as a closing does, at a
// stop, and what is taken for the closing as a hand leaves a leaf or as a drive runs.
func (s *Swing) turned() float64 {
	if s.open.none() || s.before < 0 || s.after < 0 || math.Abs(s.theta(s.open.to)) < 30*degree {
		return 0
	}
	if s.shut.none() || math.Abs(s.theta(s.shut.from)-s.theta(s.shut.to)) < 30*degree {
		return 0
	}
	up, down := s.arrival(s.open.to), s.arrival(s.shut.to)
	switch {
	case up < gentle && down > abrupt:
		return -turnedOdds
	case up > abrupt && down < gentle:
		return 1.5 * turnedOdds
	}
	if !(up > abrupt && down > abrupt) {
		return 0
	}
	if s.took(s.open) < shoved*s.took(s.shut) { // a shove against the stop ends abruptly too
		return 0
	}
	opening, ok1 := s.driven(s.open)
	closing, ok2 := s.driven(s.shut)
	if !ok1 || !ok2 {
		return 0
	}
	return closing - opening
}

// took is how long a way takes, s.
func (s *Swing) took(w way) float64 { return s.strip.t[w.to] - s.strip.t[w.from] }

// turned weighs all swings together.
func turned(swings []*Swing) (odds float64) {
	for _, g := range swings {
		odds += g.turned()
	}
	return odds
}
