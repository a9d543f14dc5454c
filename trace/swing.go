package trace

import (
	"fmt"
	"math"

	"swingwright/quantity"
)

// Kind is what sort of swing was recorded.
type Kind uint8

// The kinds.
const (
	Full        Kind = iota // opens and closes again
	OnlyAStart              // opens a little and closes again, while other swings go on
	Interrupted             // the recording ends, or breaks, while the leaf moves
	StaysOpen               // the leaf comes to rest and has not closed
	Unreadable              // something is wrong, see Faults
)

var kindNames = [...]string{"full swing", "false start", "interrupted swing", "swing that stays open", "unreadable swing"}

// String is the kind in words.
func (k Kind) String() string { return kindNames[k] }

// MarshalText writes the kind in words.
func (k Kind) MarshalText() ([]byte, error) { return []byte(k.String()), nil }

// A Sample is the leaf at one time, from the recording's first stamp.
type Sample struct {
	Time  quantity.Time
	Angle quantity.Angle        // from closed
	Rate  quantity.AngularSpeed // positive on opening
}

// A Swing is one opening of the leaf and what follows, until it is at rest in
// its frame again. Its methods tell what was measured, each with its budget.
type Swing struct {
	Kind   Kind
	Phases []Phase
	// Faults are what is wrong with the recording of this swing. With one that
	// spoils, its methods give reasons and no numbers.
	Faults []Fault

	strip         *strip
	rests         []rest
	before, after int // rests in the frame; -1 where there is none, as before a leaf that moves from the begin
	blocks        []block
	closes        bool // it is in its frame at the end, so that its angle there is known to be zero

	lo    int       // sample of the strip that is first in the arrays below
	angle []float64 // rad, before the scale
	rate  []float64 // rad/s, before the scale
	tau   []float64 // time moved, s
	mom   []float64 // ∫(t − t of lo) over the time moved, s²
	left  float64   // the leftover that was spread, rad
	kicks []kick    // errors of the angle that come at one time

	spans            []span
	open, shut, hold way
	held             span // of hold
	knee             int  // sample at which the latch zone begins, -1 without one
	scale            scale
}

// kick is an error of the angle that comes in between two samples.
type kick struct {
	at int     // the later one
	u  float64 // rad
	// stops tells the sudden stop that ends the closing: it lies anywhere between
	// two samples, and the same doubt is in the time of the stop.
	stops bool
}

// ScaleSpread is the relative standard uncertainty that all angles and rates of the swing
// share since the recorder's scale is known no better.
func (s *Swing) ScaleSpread() quantity.Ratio { return quantity.Ratio(s.scale.u) }

// theta is the angle at sample i of the strip, rad, before the scale.
func (s *Swing) theta(i int) float64 { return s.angle[i-s.lo] }

// at is the time of sample i of the strip.
func (s *Swing) at(i int) quantity.Time { return quantity.Time(s.strip.t[i]) }

// Samples is the swing from its rest before to its rest after, for plots.
func (s *Swing) Samples() []Sample {
	out := make([]Sample, len(s.angle))
	for k := range out {
		out[k] = Sample{s.at(s.lo + k), quantity.Angle(s.scale.k * s.angle[k]), quantity.AngularSpeed(s.scale.k * s.rate[k])}
	}
	return out
}

// Spoilt is why nothing is told of the swing; empty where something is.
func (s *Swing) Spoilt() string {
	for _, f := range s.Faults {
		if f.Spoils {
			return f.Found
		}
	}
	return ""
}

func (s *Swing) tell(i int, spoils bool, better, found string, args ...any) {
	if len(s.Faults) >= mostFaults && !spoils || len(s.Faults) >= 2*mostFaults {
		return
	}
	s.Faults = append(s.Faults, Fault{At: s.at(i), Found: fmt.Sprintf(found, args...), Better: better, Spoils: spoils})
}

// integrate sums the rate u, without bias and positive on opening, to the angle.
// Between the moves the leaf is at rest and its angle stays.
func (s *Swing) integrate(u []float64) {
	st := s.strip
	first, last := s.blocks[0].first, s.blocks[len(s.blocks)-1].last
	lead := st.count(0.1)
	lo, hi := max(0, first-lead), min(len(u), last+lead+1)
	if s.before >= 0 {
		s.lo = max(s.rests[s.before].from, 0)
	} else {
		s.lo = 0
	}
	end := len(u)
	if s.after >= 0 {
		end = s.rests[s.after].to
	}
	n := end - s.lo
	memory := make([]float64, 4*n)
	s.angle, s.rate, s.tau, s.mom = memory[:n:n], memory[n:2*n:2*n], memory[2*n:3*n:3*n], memory[3*n:]
	moving := s.moving(n, lead, lo, hi)
	for k := 1; k < n; k++ {
		i := s.lo + k
		h := st.t[i] - st.t[i-1]
		s.angle[k], s.tau[k], s.mom[k] = s.angle[k-1], s.tau[k-1], s.mom[k-1]
		if moving[k] {
			s.rate[k] = u[i]
		}
		if moving[k] && moving[k-1] {
			s.angle[k] += (u[i] + u[i-1]) / 2 * h
			s.tau[k] += h
			s.mom[k] += h * ((st.t[i]+st.t[i-1])/2 - st.t[s.lo])
		}
	}
	s.close()
}

// moving marks the samples in which the leaf may move.
func (s *Swing) moving(n, lead, lo, hi int) []bool {
	moving := make([]bool, n)
	for _, b := range s.blocks {
		for i := max(lo, b.first-lead); i < min(hi, b.last+lead+1); i++ {
			moving[i-s.lo] = true
		}
	}
	return moving
}

// close makes the angle zero at the end of a swing that closed, by spreading the
// leftover over the time moved; without a rest before it counts back from there.
func (s *Swing) close() {
	if !s.closes {
		return
	}
	n := len(s.angle)
	s.left = s.angle[n-1]
	if s.before < 0 {
		for k := range s.angle {
			s.angle[k] -= s.left
		}
		return
	}
	total := s.tau[n-1]
	for k := range s.angle {
		s.angle[k] -= s.left * s.tau[k] / total
		if k > 0 && s.tau[k] > s.tau[k-1] {
			s.rate[k] -= s.left / total
		}
	}
}

// findKnee finds where the rate of closing changes for good, in the last degrees:
// where the means over three degrees above and below differ most, by a quarter at
// least. The last two degrees, where seals and bolt brake, are left out.
func (s *Swing) findKnee() {
	s.knee = -1
	times := s.descent()
	mean := func(low, high int) (float64, bool) { // in quarters of a degree a second
		a, b := times[high], times[low]
		return float64(high-low) / (b - a), b > a // false where one is NaN
	}
	best, at, level := math.Log(1.25), 0, 0.0
	for k := 20; k < 120; k++ {
		above, ok1 := mean(k+2, k+14)
		below, ok2 := mean(max(k-14, 8), k-2)
		if change := math.Abs(math.Log(above / below)); ok1 && ok2 && change > best {
			best, at, level = change, k, math.Sqrt(above*below)
		}
	}
	if at > 0 {
		s.knee = s.halfway(float64(at)*quarter, level*quarter)
	}
}

// quarter is the step of angles in which the knee is looked for, rad.
const quarter = degree / 4

// descent are the times at which the closing passes every quarter of a degree up
// to 34°, the last time each, s; NaN where it does not.
func (s *Swing) descent() (times [137]float64) {
	for k := range times {
		times[k] = math.NaN()
	}
	if s.shut.none() {
		return times
	}
	for i := s.shut.from; i < s.shut.to; i++ {
		a, b := s.theta(i), s.theta(i+1)
		if !(b < a) || a < 0 || b > 34*degree {
			continue
		}
		for k := max(0, int(math.Ceil(b/quarter))); k < len(times) && float64(k)*quarter <= a; k++ {
			share := (a - float64(k)*quarter) / (a - b)
			times[k] = s.strip.t[i] + share*(s.strip.t[i+1]-s.strip.t[i])
		}
	}
	return times
}

// halfway is the sample within two degrees of an angle at which the closing
// passes a rate, else that at the angle.
func (s *Swing) halfway(theta, rate float64) int {
	a, ok1 := s.cross(s.shut, theta+2*degree, -1)
	b, ok2 := s.cross(s.shut, theta-2*degree, -1)
	mid, _ := s.cross(s.shut, theta, -1)
	if !ok1 || !ok2 {
		return mid.i
	}
	wide := s.strip.count(0.05)
	faster := func(i int) bool { return -smoothed(s.rate, i-s.lo, wide) > rate }
	begin := faster(a.i)
	for i := a.i; i < b.i; i++ {
		if faster(i) != begin {
			return i
		}
	}
	return mid.i
}
