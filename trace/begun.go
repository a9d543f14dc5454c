package trace

import "math"

// Begin is how the leaf stood when a recording began.
type Begin uint8

// How a recording begins. Where it is not told, the moves of the leaf have to tell it.
const (
	BeginNotTold Begin = iota
	BegunClosed
	BegunOpen
)

// Of how a move ends: the rate just before it is over as a share of that a little earlier.
// A leaf that meets its frame keeps most of its rate to the end; a hand that opens it lets
// it go to nothing. Times before the end, and of gathering speed after the begin, s.
const (
	lateFrom, lateTo     = 0.16, 0.04
	earlyFrom, earlyTo   = 0.50, 0.30
	gatherFrom, gatherTo = 0.40, 0.70
)

// Of the rates of a move that are looked at: shares of its way, and where a drive may
// begin to slow.
const (
	shapeFrom, shapeTo = 0.15, 0.97
	slowsFrom, slowsTo = 0.40, 0.95
	shapeEvery         = 0.02
	quarterWay         = 0.25
	lateWay            = 0.95
	fewestRates        = 12
)

// By how much, in the logarithm of the odds, moves have to speak for a leaf that began
// closed, or open, for that to be believed: openings against closings, and a move alone, for
// closed, as recordings are asked to begin, and for open. Set so that of simulated
// recordings hardly one is read the wrong way round (record/begun_test.go holds it to
// others than those that the odds were fitted to).
const (
	sureBegun     = 1.2
	sureAlone     = 0.5
	sureAloneOpen = 3.5
)

// shape is what a move of the leaf looks like in time, whichever way it goes. A drive goes
// at an even rate that from somewhere on falls evenly with the angle: even, off, slows and
// left are of the best such course, by least squares.
type shape struct {
	arrival float64 // how abruptly it ends: about 1 at a stop, 0 where it dies away
	gathers float64 // rate soon after the begin over the even rate
	off     float64 // logarithm of how far rates lie off, root mean square over the even rate
	slows   float64 // share of the way from which the rate falls
	left    float64 // rate of that course at the end over the even rate
	early   float64 // rate at a quarter of the way over the even rate
	late    float64 // and shortly before the end
	lasts   float64 // logarithm of how long it takes in seconds: closers are slower than hands
}

// openings are the logarithms of the odds of an opening over a closing, linear in the
// shape of the move: by hands that let go before the leaf is open, by a push on to its
// stop, and driven. Fitted by logistic regression to 3080 openings and as many closings,
// simulated.
var openings = [...]struct {
	by                                                           By
	base, arrival, gathers, off, slows, left, early, late, lasts float64
}{
	{ByHand, 8.40, -11.8, -0.247, 0.239, 4.98, 1.44, 3.35, 0.985, -6.06},
	{ByHand, 7.74, 4.91, -3.46, 3.28, 1.85, 0.763, 0.463, 3.26, -6.36},
	{ByPower, -13.5, -3.70, 4.75, -4.04, 13.2, 9.56, -11.3, -13.6, 1.68},
}

// opens is the logarithm of the odds that a move of this shape is an opening: by what
// opens the leaf, or, where that is not told, by each of the three as soon.
func (x *shape) opens(by By) float64 {
	sum, n := 0.0, 0.0
	for _, o := range openings {
		if by != NotTold && by != o.by {
			continue
		}
		odds := o.base + o.arrival*x.arrival + o.gathers*x.gathers + o.off*x.off + o.slows*x.slows +
			o.left*x.left + o.early*x.early + o.late*x.late + o.lasts*x.lasts
		sum, n = sum+math.Exp(clamp(odds, -12, 12)), n+1
	}
	return math.Log(sum / n)
}

func clamp(x, low, high float64) float64 { return math.Max(low, math.Min(high, x)) }

// shape looks at a move; false where it is too short to tell.
func (s *Swing) shape(w way) (x shape, ok bool) {
	share, rate := s.spread(w, shapeFrom, shapeTo)
	if len(share) < fewestRates {
		return x, false
	}
	best, even := math.Inf(1), 0.0
	for at := slowsFrom; at <= slowsTo; at += shapeEvery {
		bend := make([]float64, len(share))
		for i, v := range share {
			bend[i] = math.Max(v-at, 0)
		}
		fall, off := lineFit(bend, rate)
		level := mean(rate) - fall*mean(bend)
		if off < best && level > 0 {
			best, even, x.slows, x.left = off, level, at, (level+fall*(1-at))/level
		}
	}
	from, sense := s.strip.t[w.from], math.Copysign(1, s.theta(w.to)-s.theta(w.from))
	x.arrival, x.gathers = s.arrival(w.to), sense*s.meanRate(w.from, w.to, from+gatherFrom, from+gatherTo)/even
	if !(even > 0) || math.IsNaN(x.arrival+x.gathers) {
		return x, false
	}
	x.off = clamp(math.Log(math.Sqrt(best/float64(len(share)))/even+1e-4), -7, 0)
	x.early, x.late = rateAtShare(share, rate, quarterWay)/even, rateAtShare(share, rate, lateWay)/even
	x.lasts = clamp(math.Log(s.strip.t[w.to]-s.strip.t[w.from]), -1, 4)
	x.early, x.late = clamp(x.early, 0, 3), clamp(x.late, 0, 3)
	x.arrival, x.gathers, x.left = clamp(x.arrival, -0.2, 1.5), clamp(x.gathers, 0, 2), clamp(x.left, -1, 3)
	return x, true
}

func mean(x []float64) (m float64) {
	for _, v := range x {
		m += v / float64(len(x))
	}
	return m
}

// rateAtShare is the first rate from a share of the way on, else the last.
func rateAtShare(share, rate []float64, from float64) float64 {
	for i, at := range share {
		if at >= from {
			return rate[i]
		}
	}
	return rate[len(rate)-1]
}

// meanRate is the mean rate between two times, at samples from one to another; NaN
// where there are none.
func (s *Swing) meanRate(from, to int, begin, end float64) float64 {
	sum, n := 0.0, 0.0
	for i := from; i <= to; i++ {
		if t := s.strip.t[i]; t >= begin && t <= end {
			sum, n = sum+s.rate[i-s.lo], n+1
		}
	}
	return sum / n
}

// arrival is how abruptly a move of the leaf ends at sample to: about 1 where a stop ends
// it, near 0 where it dies away; NaN where that cannot be seen.
func (s *Swing) arrival(to int) float64 {
	end := s.strip.t[to]
	for _, p := range s.spans {
		if p.to == to && p.end != (moment{}) {
			end = p.end.t
		}
	}
	return s.meanRate(s.lo, to, end-lateFrom, end-lateTo) / s.meanRate(s.lo, to, end-earlyFrom, end-earlyTo)
}

// begun weighs whether a recording began closed, as its swings were read, or open, by
// the logarithm of the odds: above zero speaks for closed. What is taken for an opening
// has to look more like one than what is taken for a closing. n are how many of each are
// wide enough to tell.
func begun(swings []*Swing, by By) (odds float64, n [2]float64) {
	var sum [2]float64
	for _, s := range swings {
		for i, p := range s.spans {
			last := i == len(s.spans)-1
			switch {
			case p.kind != Opening && p.kind != Sweep || math.Abs(s.theta(p.to)-s.theta(p.from)) < 30*degree,
				!last && s.spans[i+1].kind == Reopening, // a hand turned it back
				last && s.after < 0:                     // its end was not recorded
				continue
			}
			x, seen := s.shape(way{p.from, p.to})
			if !seen {
				continue
			}
			k := 0
			if p.kind == Sweep {
				k = 1
			}
			sum[k], n[k] = sum[k]+x.opens(by), n[k]+1
		}
	}
	for k, sense := range [2]float64{1, -1} {
		odds += sense * sum[k] / math.Max(1, n[k])
	}
	return odds, n
}

// begins tells how the leaf stood at first by swings that were read as if it was closed.
// Where their moves do not tell it, that spoils them: read the wrong way round, every time
// would be another's.
func (s *strip) begins(swings []*Swing, by By) Begin {
	if len(swings) == 0 || swings[0].before < 0 {
		return BegunClosed // it moves from the begin, which tells by where it ends
	}
	odds, n := begun(swings, by)
	closed, open := sureBegun, sureBegun
	if n[0]*n[1] == 0 {
		closed, open = sureAlone, sureAloneOpen
	}
	switch {
	case n[0]+n[1] == 0 || odds >= closed:
		return BegunClosed
	case odds <= -open:
		return BegunOpen
	}
	for _, g := range swings {
		g.tell(g.blocks[0].first, true, "say how it began (read --begins closed, or open) or who opened it (--by), or begin with the leaf closed and open it by hand",
			"it does not show whether the leaf was closed or open when the recording began")
	}
	return BeginNotTold
}
