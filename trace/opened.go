package trace

import (
	"math"

	"swingwright/quantity"
)

// By is who or what opened the leaf.
type By uint8

// The ways of opening.
const (
	NotTold By = iota
	ByHand
	ByPower
)

var byNames = [...]string{"not told", "by hand", "under power"}

// String is the way in words.
func (b By) String() string { return byNames[b] }

// MarshalText writes the way in words.
func (b By) MarshalText() ([]byte, error) { return []byte(b.String()), nil }

// An Opened tells by whom or what a leaf was opened.
type Opened struct {
	By By
	// Sure is the probability of By, at least TellsFrom; zero where it is not told.
	Sure quantity.Ratio
	Why  string // why it is not told
}

// TellsFrom is how probable hand or power has to be for it to be told.
const TellsFrom quantity.Ratio = 0.97

// Of the opening that is looked at, shares of its angle: before, an operator's ramp is
// still under way, and behind, the leaf comes to its stop. Assumed.
const (
	looksFrom  = 0.20
	looksTo    = 0.96
	lookEvery  = 0.02
	lookAround = 0.06 // s, to either side of a rate
)

// The odds of power over hand are even where the rates lie off the broken line by evenOff
// of their mean and it does not rise; they fall with the logarithm of that and with the
// rise. Fitted to 1150 simulated openings, by hand and driven, and then made a quarter less
// sure, since no simulated hand is all hands (record/opened_test.go holds what is told to
// others).
const (
	evenOff   = 0.034
	offWeight = 6.0
	riseMost  = 0.3 // of the mean rate over the whole angle
	riseCosts = 30.0
)

// OpenedBy tells an opening by hand from one under power by its rate over its angle: a
// drive holds an even rate and then lets it fall evenly with the angle, so that a line
// with one break follows it; a hand that gathers and loses speed does not. A drive that
// gives way under its load, and a hand that pushes as evenly, are not told.
func (s *Swing) OpenedBy() Opened {
	if why := s.Spoilt(); why != "" {
		return Opened{Why: why}
	}
	if s.open.none() || s.theta(s.open.to) < 30*degree {
		return Opened{Why: "there is no opening wide enough"}
	}
	odds, ok := s.driven(s.open)
	if !ok {
		return Opened{Why: "the opening is too short for its rates"}
	}
	power := quantity.Ratio(1 / (1 + math.Exp(-odds)))
	switch {
	case power >= TellsFrom:
		return Opened{By: ByPower, Sure: power}
	case 1-power >= TellsFrom:
		return Opened{By: ByHand, Sure: 1 - power}
	}
	return Opened{Why: "the rate is neither as even as a drive's nor as uneven as a hand's"}
}

// driven is the logarithm of the odds that a drive moved the leaf along a way; false where
// the way is too short to tell.
func (s *Swing) driven(w way) (odds float64, ok bool) {
	share, rate := s.spread(w, looksFrom, looksTo)
	if len(share) < 20 {
		return 0, false
	}
	off, rise := unbroken(share, rate)
	return offWeight*math.Log(evenOff/math.Max(off, 1e-4)) - riseCosts*math.Max(0, math.Min(rise, riseMost)), true
}

// spread are the rates, without sign, at even shares of a way's angle, from one to another.
func (s *Swing) spread(w way, from, to float64) (share, rate []float64) {
	start, far := s.theta(w.from), s.theta(w.to)-s.theta(w.from)
	wide := max(1, s.strip.count(lookAround))
	next := from
	for i := w.from + wide; i <= w.to-wide && next <= to; i++ {
		if (s.theta(i)-start)/far >= next {
			share, rate = append(share, next), append(rate, math.Copysign(1, far)*smoothed(s.rate, i-s.lo, wide))
			next += lookEvery
		}
	}
	return share, rate
}

// fewestBeyond is how many rates lie beyond a break to either side.
const fewestBeyond = 4

// unbroken is how far rates lie off the best line with one break, root mean square as a
// share of their mean, and what that line gains before the break over the whole of x.
func unbroken(x, y []float64) (off, rise float64) {
	mean := 0.0
	for _, v := range y {
		mean += v / float64(len(y))
	}
	if !(mean > 0) {
		return math.Inf(1), 0
	}
	best := math.Inf(1)
	for k := fewestBeyond; k < len(x)-fewestBeyond; k++ {
		if left, before := brokenAt(x, y, x[k]); left < best {
			best, rise = left, before/mean
		}
	}
	return math.Sqrt(best/float64(len(x))) / mean, rise
}

// brokenAt fits the line y = a + b·(x−k) + c·max(x−k, 0) by least squares; it returns the
// sum of squares left and b.
func brokenAt(x, y []float64, k float64) (left, b float64) {
	// residuals of y and of b's column, once 1 and c's column are taken out of both
	bend := make([]float64, len(x))
	for i := range x {
		bend[i] = math.Max(x[i]-k, 0)
	}
	b1, _ := lineFit(bend, x)
	b2, _ := lineFit(bend, y)
	mx, my, mb := 0.0, 0.0, 0.0
	n := float64(len(x))
	for i := range x {
		mx, my, mb = mx+x[i]/n, my+y[i]/n, mb+bend[i]/n
	}
	var xx, xy, yy float64
	for i := range x {
		r := x[i] - mx - b1*(bend[i]-mb)
		q := y[i] - my - b2*(bend[i]-mb)
		xx, xy, yy = xx+r*r, xy+r*q, yy+q*q
	}
	if !(xx > 0) {
		return yy, 0
	}
	return math.Max(0, yy-xy*xy/xx), xy / xx
}

// OpenedBy tells by whom or what the leaf was opened in the swings of a recording that
// are told; not, where these do not agree.
func (t *Trace) OpenedBy() Opened {
	out := Opened{Why: "no swing shows an opening"}
	for _, s := range t.Swings {
		switch one := s.OpenedBy(); {
		case one.By == NotTold:
			if out.By == NotTold {
				out.Why = one.Why
			}
		case out.By == NotTold:
			out = one
		case one.By != out.By:
			return Opened{Why: "some swings were opened by hand and some under power"}
		default:
			out.Sure = max(out.Sure, one.Sure)
		}
	}
	return out
}
