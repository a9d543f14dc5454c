package power

import (
	"math"
	"slices"

	q "swingwright/quantity"
)

// Headroom is by how much a supply exceeds what it gives all the time: a quarter (an
// installers' tip names 25 to 50 %).
const Headroom q.Ratio = 1.25

// Sizes are the rated currents in which supplies are commonly made, A (common practice).
var Sizes = [...]q.Current{0.5, 1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10}

// A Demand is what a supply has to give.
type Demand struct {
	// Idle is all loads at rest, at their rated voltages.
	Idle q.Current
	// Sustained is the sum over the loads of what each takes at most outside the brief
	// phases, diversity counted.
	Sustained q.Current
	// With is Sustained with the headroom: the rated current to ask for.
	With q.Current
	// Size is the smallest of Sizes that gives it and, where briefly is known, the peak;
	// 0 where none does.
	Size q.Current
	// Power is what it gives at Size and its voltage.
	Power q.Power
}

// Demand sums up what the supply of the tree has to give. Diversity is the share of
// the loads beyond their rest that works at once, above 0 to 1; overload is a supply's
// peak current over its rated one, 1 where nothing is known of it.
func (t *Tree) Demand(peak q.Current, diversity, overload q.Ratio) Demand {
	var d Demand
	for i := range t.Loads {
		l := &t.Loads[i]
		d.Idle += l.Draws[Resting]
		d.Sustained += l.Draws[Resting] + q.Current(diversity)*(l.Sustained()-l.Draws[Resting])
	}
	d.With = d.Sustained * q.Current(Headroom)
	for _, size := range Sizes {
		if size >= d.With*(1-rounding) && size*q.Current(max(overload, 1)) >= peak*(1-rounding) {
			d.Size, d.Power = size, q.Power(float64(size)*float64(t.Volts))
			break
		}
	}
	return d
}

// rounding is what sums of a few decimal numbers may be off by, relative.
const rounding = 1e-9

// ClassTwo is what a Class 2 source may give at most, going by its marked voltage.
type ClassTwo struct {
	Current q.Current // marked rated current
	Power   q.Power   // marked apparent power; endless above 30 V, where the current rules
}

// ClassTwoLimit is the limit on a Class 2 source that is not an accident of its load:
// 5 A up to 20 V, 100 VA at 20 to 30 V, 5 mA above (NEC Chapter 9 Tables 11(A) and
// 11(B), nameplate columns: from memory; 100 VA at 30 V or less and 5 mA above stand in
// a trade journal on Article 725).
func ClassTwoLimit(volts q.Voltage) ClassTwo {
	switch {
	case volts <= 20:
		return ClassTwo{5, q.Power(5 * float64(volts))}
	case volts <= 30:
		return ClassTwo{q.Current(100 / float64(volts)), 100}
	}
	return ClassTwo{0.005, q.Power(math.Inf(1))}
}

// A Stagger is a delay between two sequences.
type Stagger struct {
	Delay q.Time
	Peak  q.Current // of the supply with it
	Keeps bool      // whether that is within the limit
}

// BestStagger finds the shortest delay of sequence i against where it starts now with
// which the supply's current never exceeds a limit; where there is none, the shortest of
// those with the lowest peak. Only delays at which two changes coincide matter, since
// between them the current goes through the same values, so all of them are tried.
func (t *Tree) BestStagger(i int, limit q.Current) Stagger {
	var marks [2][]q.Time // ends of phases of sequence i, and of the others
	for k := range t.Sequences {
		s, which := &t.Sequences[k], 1
		if k == i {
			which = 0
		}
		end := s.Start
		marks[which] = append(marks[which], end)
		for p := Releasing; p < Phases; p++ {
			end += s.Lasts[p]
			marks[which] = append(marks[which], end)
		}
	}
	delays := []q.Time{0}
	for _, own := range marks[0] {
		for _, other := range marks[1] {
			if other > own {
				delays = append(delays, other-own)
			}
		}
	}
	slices.Sort(delays)
	u := *t
	u.Sequences = slices.Clone(t.Sequences)
	start := u.Sequences[i].Start
	best := Stagger{Peak: q.Current(math.Inf(1))}
	for _, d := range slices.Compact(delays) {
		u.Sequences[i].Start = start + d
		peak := u.timedPeak()
		if peak <= limit*(1+rounding) {
			return Stagger{d, peak, true}
		}
		if peak < best.Peak*(1-rounding) {
			best = Stagger{Delay: d, Peak: peak}
		}
	}
	return best
}

// timedPeak is the largest current of the supply over the sequences as they start.
func (t *Tree) timedPeak() (peak q.Current) {
	s := newSolver(t)
	for _, one := range t.timeline() {
		if slices.ContainsFunc(one.phase, func(p Phase) bool { return p != Resting }) && one.to-one.from > trifle {
			m := s.at(one.phase)
			peak = max(peak, m.Supply)
		}
	}
	return peak
}

// trifle is a stretch of time that only rounding leaves between two changes.
const trifle q.Time = 1e-9
