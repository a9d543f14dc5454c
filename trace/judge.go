package trace

import (
	"math"

	"swingwright/quantity"
)

// Limits of what is accepted of a recording.
const (
	longGap  = 0.25       // of a gap while the leaf moves, s
	askew    = 3 * degree // a change of gravity in the device that is told
	slipped  = 15 * degree
	mostLeft = 5 * degree // of what is left when the leaf has closed
)

// still3 is how to record rests.
const still3 = "hold still for 3 s before the swing and 3 s after"

// judge tells what is wrong with the recording of a swing, and keeps what it
// does to the angle.
func (s *Swing) judge() {
	first, last := s.blocks[0].first, s.blocks[len(s.blocks)-1].last
	switch {
	case s.before < 0 && s.strip.open && s.closes:
		s.tell(first, false, "begin with the leaf closed, and open it first", "the recording begins with the leaf open: it is read from its first closing on")
	case s.before < 0 && s.strip.open:
		s.tell(first, true, "begin with the leaf closed, and open it first", "the recording begins with the leaf open, and does not show it closed, so its angle cannot be told")
	case s.before < 0 && !s.closes:
		s.tell(first, true, still3, "the leaf moves from the begin and does not close, so its angle cannot be told")
	case s.before < 0:
		s.tell(first, false, still3, "there is no rest before: the bias is that of the rest after")
	case s.short(s.before):
		s.tell(first, false, still3, "it rests for only %.1f s before", s.lasts(s.before))
	}
	switch {
	case !s.closes && s.after >= 0:
		s.tell(last, false, "begin with the leaf closed, and record until it has closed and rested for 3 s", "the leaf does not close again: it rests at %.1f°", s.angle[len(s.angle)-1]/degree)
	case s.after < 0:
		s.tell(last, false, "record until the leaf has closed and rested for 3 s", "the recording ends while the leaf moves")
	case s.short(s.after):
		s.tell(last, false, still3, "it rests for only %.1f s after", s.lasts(s.after))
	}
	if math.Abs(s.left) > mostLeft && s.before >= 0 {
		s.tell(last, true, "fix the recorder so that it cannot move on the leaf, and let it warm up before", "%.1f° are left when the leaf has closed", s.left/degree)
	}
	if low := s.lowest(); low < -4*degree {
		s.tell(last, true, "begin the recording with the leaf closed, and open it first", "the leaf goes %.0f° beyond where it began", -low/degree)
	}
	s.gaps()
	s.impact()
}

func (s *Swing) lasts(rest int) float64 {
	r := s.rests[rest]
	return s.strip.t[r.to-1] - s.strip.t[r.from]
}

func (s *Swing) short(rest int) bool { return s.lasts(rest) < 1 }

func (s *Swing) lowest() (low float64) {
	for _, a := range s.angle {
		low = math.Min(low, a)
	}
	return low
}

// gaps finds steps that are too long while the leaf moves. A line across one
// misses the angle by no more than the change of rate times a quarter of the
// step, taken for three standard uncertainties.
func (s *Swing) gaps() {
	t := s.strip.t
	for k := 1; k < len(s.angle); k++ {
		i := s.lo + k
		if h := t[i] - t[i-1]; h > s.strip.gap && (s.tau[k] > s.tau[k-1]) {
			change := math.Abs(s.rate[k] - s.rate[k-1])
			s.kicks = append(s.kicks, kick{at: i, u: change*h/12 + h*h*0.5/36})
			s.tell(i, h > longGap, "see that nothing else keeps the recorder busy, and keep its screen on", "a gap of %.2f s while the leaf moved", h)
		}
	}
}

// impact counts what sudden stops do to the sum of the rates: where the leaf
// meets its frame, and is thrown back, the rate leaps anywhere between two samples.
func (s *Swing) impact() {
	if s.shut.none() || !s.closes {
		return
	}
	last := s.blocks[len(s.blocks)-1].last
	s.leap(s.shut.to)
	s.kicks[len(s.kicks)-1].stops = true
	if last > s.shut.to+1 {
		s.leap(last)
	}
}

// leap keeps the error by the largest change of rate within a few samples of i.
func (s *Swing) leap(i int) {
	wide := s.strip.count(smoothHalf) + 2
	most, at := 0.0, i
	for k := max(s.lo+1, i-wide); k < min(s.lo+len(s.rate), i+wide); k++ {
		if change := math.Abs(s.rate[k-s.lo] - s.rate[k-s.lo-1]); change > most {
			most, at = change, k
		}
	}
	s.kicks = append(s.kicks, kick{at: at, u: most * s.strip.step / math.Sqrt(12)})
}

// slip tells by how much gravity turned in the device between the rests.
func (s *Swing) slip(r *Recording) {
	if r.accel[0] == nil || s.before < 0 || s.after < 0 {
		return
	}
	a, b := s.gravity(r, s.before), s.gravity(r, s.after)
	if !(a.norm() > 0 && b.norm() > 0) {
		return
	}
	if off := between(a, b); off > askew {
		s.Faults = append(s.Faults, Fault{
			At: quantity.Time(s.strip.t[s.rests[s.after].from]), Spoils: off > slipped,
			Found: "the recorder slipped: gravity turned by " + degreesText(off) + " between the rests", Better: "fix it with tape on two sides",
		})
	}
}

// gravity is the mean acceleration of a rest.
func (s *Swing) gravity(r *Recording, rest int) (g vector) {
	at := s.rests[rest]
	n := 0.0
	for i := at.from; i < at.to; i++ {
		row := s.strip.row[i]
		a := vector{r.accel[0][row], r.accel[1][row], r.accel[2][row]}
		if a.dot(a) == a.dot(a) { // no NaN
			for k := range g {
				g[k] += a[k]
			}
			n++
		}
	}
	for k := range g {
		g[k] /= math.Max(n, 1)
	}
	return g
}

// clipped tells that a rate stays at its largest value for some samples, and
// came there at a pace that would have gone on.
func (r *Recording) clipped() bool {
	for k := range r.axes {
		if cutOff(r.rate[k], 1) || cutOff(r.rate[k], -1) {
			return true
		}
	}
	return false
}

func cutOff(v []float64, sign float64) bool {
	top := math.Inf(-1)
	for _, x := range v {
		top = math.Max(top, sign*x)
	}
	if top < 20*degree {
		return false
	}
	for i := 1; i < len(v); i++ {
		if sign*v[i] != top {
			continue
		}
		k := i
		for k < len(v) && sign*v[k] == top {
			k++
		}
		if rise := top - sign*v[i-1]; k-i >= 5 && rise > 1*degree && rise > top/100 {
			return true
		}
		i = k
	}
	return false
}
