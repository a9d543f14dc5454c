package window

import (
	"math"

	"swingwright/quantity"
)

// A Conflict is a minimal set of demands that no setting keeps together: leave
// any one of them out, and some setting keeps the rest. A single demand in it is
// one that no setting keeps.
type Conflict struct {
	Of []Give
}

// A Give is one demand of a conflict and by how much it alone would have to give.
type Give struct {
	Demand Demand
	// By is how far its limit would have to be eased for the others of the
	// conflict to be kept with it, in SI, of the dimension of its kind.
	By float64
	// Enough is false where easing it to the end of sense is not enough; By is then NaN.
	Enough bool
}

// largest is the size up to which every minimal conflict is listed; a larger one
// is only looked for where there is none of these.
const largest = 3

// conflicts lists the minimal conflicts of a question without a window.
func (f *Finder) conflicts(a *Answer) []Conflict {
	// Every demand bounds the settings by itself; a ceiling or floor does
	// nothing else, so that its edge need not be looked for again.
	bar := func(of []int) bool {
		over := a.Settings
		var rest []Demand
		for _, i := range of {
			h := &a.Held[i]
			switch kinds[h.Demand.Kind].role {
			case ceiling, floor:
				over = over.both(h.Span)
			default:
				rest = append(rest, h.Demand)
			}
		}
		return over.Empty() || !f.opens(setOf(rest), over)
	}
	found := minimal(len(a.Held), largest, bar)
	if len(found) == 0 {
		found = [][]int{shrunk(len(a.Held), bar)}
	}
	out := make([]Conflict, len(found))
	for k, of := range found {
		demands := make([]Demand, len(of))
		for j, i := range of {
			demands[j] = a.Held[i].Demand
		}
		for j := range demands {
			out[k].Of = append(out[k].Of, f.give(demands, j))
		}
	}
	return out
}

// minimal lists the sets of up to size numbers below n that are barred and of
// which no part is.
func minimal(n, size int, bar func([]int) bool) (found [][]int) {
	var of []int
	var add func(from, left int)
	add = func(from, left int) {
		if left == 0 {
			if !holdsAny(found, of) && bar(of) {
				found = append(found, append([]int(nil), of...))
			}
			return
		}
		for i := from; i < n; i++ {
			of = append(of, i)
			add(i+1, left-1)
			of = of[:len(of)-1]
		}
	}
	for k := 1; k <= size; k++ {
		add(0, k)
	}
	return found
}

// holdsAny tells whether one of some sets is part of a set, all in rising order.
func holdsAny(sets [][]int, of []int) bool {
	for _, s := range sets {
		k := 0
		for _, i := range of {
			if k < len(s) && s[k] == i {
				k++
			}
		}
		if k == len(s) {
			return true
		}
	}
	return false
}

// shrunk leaves out of all numbers below n what is not needed for a conflict.
func shrunk(n int, bar func([]int) bool) []int {
	of := make([]int, n)
	for i := range of {
		of[i] = i
	}
	for k := 0; k < len(of); {
		without := append(append([]int(nil), of[:k]...), of[k+1:]...)
		if bar(without) {
			of = without
		} else {
			k++
		}
	}
	return of
}

// give finds how far the j-th demand alone has to be eased.
func (f *Finder) give(demands []Demand, j int) Give {
	eased := append([]Demand(nil), demands...)
	most := f.senseless(&demands[j])
	share, ok := least(func(share float64) bool {
		eased[j] = demands[j].eased(share * most)
		return f.open(setOf(eased))
	})
	if !ok {
		return Give{demands[j], math.NaN(), false}
	}
	return Give{demands[j], share * most, true}
}

// senseless is how far a demand can be eased before it says nothing more, in
// its unit; at least above zero.
func (f *Finder) senseless(d *Demand) float64 {
	const some = 1e-6
	over := f.ask.settings()
	beyond := func(setting quantity.Ratio) float64 {
		f.set(setting)
		return max(some, -d.margin(f.still(d))*(1+some))
	}
	switch d.Kind {
	case HandForce, MostPower:
		return beyond(over.High)
	case ClosingMoment, LeastPower:
		return beyond(over.Low)
	case Shuts:
		return max(some, d.bound()) // no pressure at all
	case LeastTime:
		return max(some, d.bound()*0.99)
	case MostTime:
		return 120 // s; no closing is followed longer
	}
	return 99 * d.bound() // a leaf that slams
}

// shares of a change are found this closely.
const sharePrecision = 5e-4

// least finds the least share, 0 to 1, at which a verdict turns good, on its good
// side. It reports false where even 1 is not enough.
func least(good func(float64) bool) (float64, bool) {
	if !good(1) {
		return math.NaN(), false
	}
	low, high := 0.0, 1.0
	for high-low > sharePrecision {
		if mid := (low + high) / 2; good(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return high, true
}
