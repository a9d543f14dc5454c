package power

import (
	"math"
	"slices"

	q "swingwright/quantity"
)

// What is left of a battery's capacity when it is old, and when it is cold. The
// shares are the trade's; both come near to IEEE 485 (1.25 for ageing; 1.19 at 10 °C;
// from memory).
const (
	Aged q.Ratio = 0.8
	Cold q.Ratio = 0.85
)

// Peukert is the exponent by which a sealed lead-acid battery gives less at a higher
// current (assumed, from memory: 1.1 to 1.25). It is rated at a discharge of 20 hours.
const (
	Peukert        q.Ratio = 1.15
	ratedDischarge         = 20 * 3600. // s
)

// cold485 is by how much a lead-acid battery has to be larger at a temperature, °F,
// than at 77 °F (IEEE 485, Table 1; from memory).
var cold485 = [...][2]float64{{25, 1.52}, {30, 1.43}, {35, 1.35}, {40, 1.30}, {45, 1.25}, {50, 1.19}, {55, 1.15}, {60, 1.11}, {65, 1.08}, {70, 1.04}, {77, 1}}

// ColdShare is the share of its capacity that a lead-acid battery gives at a
// temperature: 1 from 77 °F up, between the values of IEEE 485 along a line, and below
// 25 °F, where the table ends, along its last line, not below 0.2.
func ColdShare(at q.Temperature) q.Ratio {
	f := float64(at)*9/5 - 459.67
	last := len(cold485) - 1
	if !(f < cold485[last][0]) {
		return 1
	}
	i := 0
	for i < last-1 && f > cold485[i+1][0] {
		i++
	}
	a, b := cold485[i], cold485[i+1]
	by := a[1] + (b[1]-a[1])*(f-a[0])/(b[0]-a[0])
	return q.Ratio(max(1/by, 0.2))
}

// Standby is what a battery has to do while the mains are off.
type Standby struct {
	Time     q.Time    // how long
	Idle     q.Current // what the loads take at rest
	Openings float64   // how many openings under power in that time, not below zero
	Cycle    []Stretch // what one opening takes, beyond nothing: the whole current
	Aged     q.Ratio   // what age leaves of the capacity, above 0 to 1
	Cold     q.Ratio   // what cold leaves of it
	Peukert  q.Ratio   // 1 and more; 1 counts every current alike
}

// A Stretch is a current for a time.
type Stretch struct {
	For  q.Time
	Amps q.Current
}

// Cycle is what a battery gives in one opening: every stretch of the sequences as they
// start, those at rest left out.
func (t *Tree) Cycle() (all []Stretch) {
	for _, one := range t.Currents() {
		if slices.ContainsFunc(one.Phase, func(p Phase) bool { return p != Resting }) {
			all = append(all, Stretch{one.To - one.From, one.Amps})
		}
	}
	return all
}

// Taken is the charge that the standby takes, with nothing counted for rate, age and
// cold: the idle current all the time, and each opening on top.
func (s *Standby) Taken() q.Charge {
	sum := float64(s.Idle) * float64(s.Time)
	for _, one := range s.Cycle {
		sum += s.Openings * float64(one.For) * float64(one.Amps)
	}
	return q.Charge(sum)
}

// counts is what the charge taken comes to for a battery of a capacity: what is taken
// faster than in 20 hours counts more (Peukert's law: the time to empty goes as the
// current to the power -k).
func (s *Standby) counts(capacity float64) float64 {
	rated := capacity / ratedDischarge
	rate := func(amps float64) float64 {
		if amps <= rated || amps <= 0 {
			return 1
		}
		return math.Pow(amps/rated, float64(s.Peukert)-1)
	}
	sum := float64(s.Idle) * float64(s.Time) * rate(float64(s.Idle))
	for _, one := range s.Cycle {
		amps := float64(one.Amps)
		sum += s.Openings * float64(one.For) * amps * rate(amps)
	}
	return sum
}

// Needs is the smallest rated capacity that lasts.
func (s *Standby) Needs() q.Charge {
	left := float64(s.Aged) * float64(s.Cold)
	if s.Taken() <= 0 {
		return 0
	}
	if !(left > 0) {
		return q.Charge(math.Inf(1))
	}
	low, high := float64(s.Taken())/left, 0.
	for high = low; s.counts(high) > high*left; high *= 2 {
		if math.IsInf(high, 0) {
			return q.Charge(high)
		}
	}
	for range 200 { // counts falls as the capacity grows, so there is one root
		mid := (low + high) / 2
		if mid == low || mid == high {
			break
		}
		if s.counts(mid) > mid*left {
			low = mid
		} else {
			high = mid
		}
	}
	return q.Charge(high)
}

// Lasts is how long a battery of a rated capacity carries on, its openings spread
// evenly over the time; endless where nothing is taken.
func (s *Standby) Lasts(capacity q.Charge) q.Time {
	if s.Time <= 0 || s.Taken() <= 0 {
		return q.Time(math.Inf(1))
	}
	return s.Time * q.Time(float64(capacity)*float64(s.Aged)*float64(s.Cold)/s.counts(float64(capacity)))
}

// Capacities are the rated capacities in which small sealed batteries are commonly
// made, A·h (common practice).
var Capacities = [...]float64{1.2, 2.3, 3.4, 4, 5, 7, 9, 12, 18, 26}

// NextCapacity is the smallest of Capacities that is at least a charge; 0 where none is.
func NextCapacity(needed q.Charge) q.Charge {
	for _, c := range Capacities {
		if has := q.Charge(c) * q.AmpereHour; has >= needed {
			return has
		}
	}
	return 0
}
