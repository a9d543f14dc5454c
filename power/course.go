package power

import (
	"cmp"
	"math"
	"slices"

	q "swingwright/quantity"
)

// A Worst is a load in the moment in which it has the least voltage while it is asked
// to work.
type Worst struct {
	Ending         // of that moment
	Volts, U       q.Voltage
	Drop           q.Voltage // from the supply's voltage; where it collapses, what the currents asked for would take
	Phase          Phase     // of its own sequence
	Others         []Phase   // of every sequence
	Works          bool      // whether it is asked to work at all
	Margin         q.Voltage // above the least voltage that it works at
	SupplyAmps     q.Current // what the supply gives then
	Rated          q.Voltage
	LeastItWorksAt q.Voltage
}

// NearCollapse tells a voltage so near to where there is none that its spread, which
// rests on a slope, says nothing: it comes to more than a tenth of it.
func (w *Worst) NearCollapse() bool { return w.Ending == Fed && w.U > w.Volts/10 }

// Course is what a tree comes to over the sequence.
type Course struct {
	Moments []Moment // every combination of phases that can meet
	Loads   []Worst  // by load
	Runs    []RunUse // by run
	// Peak is the largest current of the supply in any moment, and PeakAt which;
	// Sustained the largest outside the brief phases.
	Peak, Sustained   q.Current
	PeakU, SustainedU q.Current // standard uncertainties, from those of the loads
	PeakAt            int
	Ending            // the worst of all moments
}

// RunUse is what a run carries at most, and what it takes of the voltage then.
type RunUse struct {
	Amps q.Current
	Drop q.Voltage
	At   int // the moment
}

// mostTogether is how many sequences may start at any time; the moments grow as the
// phases to this power.
const mostTogether = 3

// states are the combinations of phases that can meet.
func (t *Tree) states() [][]Phase {
	if t.AnyTime && len(t.Sequences) <= mostTogether {
		return t.anyMeet()
	}
	var all [][]Phase
	for _, span := range t.timeline() {
		if !slices.ContainsFunc(all, func(one []Phase) bool { return slices.Equal(one, span.phase) }) {
			all = append(all, span.phase)
		}
	}
	return all
}

// anyMeet are all combinations of the phases that the sequences have.
func (t *Tree) anyMeet() [][]Phase {
	all := [][]Phase{{}}
	for i := range t.Sequences {
		var more [][]Phase
		for _, head := range all {
			for p := Resting; p < Phases; p++ {
				if p == Resting || t.Sequences[i].Lasts[p] > 0 {
					more = append(more, append(slices.Clone(head), p))
				}
			}
		}
		all = more
	}
	return all
}

// span is a stretch of time in which no sequence changes its phase.
type span struct {
	from, to q.Time
	phase    []Phase
}

// timeline are the spans from just before the first sequence starts until just after
// the last has ended.
func (t *Tree) timeline() []span {
	var marks []q.Time
	for i := range t.Sequences {
		s := &t.Sequences[i]
		end := s.Start
		marks = append(marks, end)
		for p := Releasing; p < Phases; p++ {
			end += s.Lasts[p]
			marks = append(marks, end)
		}
	}
	slices.Sort(marks)
	marks = slices.Compact(marks)
	phases := func(at q.Time) []Phase {
		all := make([]Phase, len(t.Sequences))
		for i := range t.Sequences {
			all[i] = t.Sequences[i].at(at)
		}
		return all
	}
	resting := make([]Phase, len(t.Sequences))
	if len(marks) == 0 {
		return []span{{phase: resting}}
	}
	all := []span{{marks[0] - 1, marks[0], resting}}
	for i := range len(marks) - 1 {
		all = append(all, span{marks[i], marks[i+1], phases(marks[i])})
	}
	end := marks[len(marks)-1]
	return append(all, span{end, end + 1, resting})
}

// Follow reckons every moment of the sequence, and for each load the worst. The tree
// has to pass [Tree.Check].
func (t *Tree) Follow() *Course {
	c := &Course{Loads: make([]Worst, len(t.Loads)), Runs: make([]RunUse, len(t.Runs))}
	s := newSolver(t)
	for i := range c.Loads {
		c.Loads[i] = Worst{Volts: q.Voltage(math.Inf(1)), Rated: t.Loads[i].Rated, LeastItWorksAt: t.Loads[i].Least}
	}
	for i, phase := range t.states() {
		m := s.at(phase)
		c.Moments = append(c.Moments, m)
		c.take(t, s, i, &m)
	}
	return c
}

// take keeps of a moment what is worse than before.
func (c *Course) take(t *Tree, s *solver, at int, m *Moment) {
	c.Ending = max(c.Ending, m.Ending)
	if m.Supply > c.Peak {
		c.Peak, c.PeakU, c.PeakAt = m.Supply, t.supplyU(m), at
	}
	if !slices.ContainsFunc(m.Phase, Phase.Brief) && m.Supply > c.Sustained {
		c.Sustained, c.SustainedU = m.Supply, t.supplyU(m)
	}
	for k := range c.Runs {
		if r := &c.Runs[k]; m.Amps[k] > r.Amps {
			*r = RunUse{m.Amps[k], q.Voltage(s.r[k+1]) * q.Voltage(m.Amps[k]), at}
		}
	}
	for k := range c.Loads {
		l, w := &t.Loads[k], &c.Loads[k]
		phase := m.Phase[l.Sequence]
		if l.Draws[phase] == 0 || w.Works && m.volts(l) >= w.Volts {
			continue
		}
		*w = Worst{
			Ending: m.At(l.Node), Works: true, Volts: m.volts(l), Phase: phase, Others: m.Phase, SupplyAmps: m.Supply,
			Drop: t.Volts - m.volts(l), Margin: m.volts(l) - l.Least, Rated: l.Rated, LeastItWorksAt: l.Least,
		}
		if w.Ending == Fed {
			w.U = s.spread(m, l.Node)
		} else {
			w.Drop = s.asked(m, l.Node)
		}
	}
}

// asked is what the runs to a node would take if the currents that are asked for flowed.
func (s *solver) asked(m *Moment, node int) (drop q.Voltage) {
	for k := node; k > 0; k = s.parent[k] {
		drop += q.Voltage(s.r[k] * float64(m.Amps[k-1]))
	}
	return drop + q.Voltage(s.r[0]*float64(m.Supply))
}

// supplyU is the standard uncertainty of the supply's current, by the linear law, from
// the loads' own; what wires and voltage add is less.
func (t *Tree) supplyU(m *Moment) q.Current {
	sum := 0.
	for i := range t.Loads {
		l := &t.Loads[i]
		sum += square(float64(l.Draws[m.Phase[l.Sequence]]) * float64(l.U[m.Phase[l.Sequence]]))
	}
	return q.Current(math.Sqrt(sum))
}

// spread is the standard uncertainty of the voltage at a node of a moment that is
// fed, by the linear law (JCGM 100:2008, 5.1.2): from the supply's voltage, the
// temperature that all wires share, each run's own resistance, and each load's own
// current.
func (s *solver) spread(m *Moment, node int) q.Voltage {
	t := s.t
	// by reciprocity one solution tells all: what the voltage at node does for an ampere
	// more at any node is what an ampere more at node does there
	v := make([]float64, len(s.r))
	for k := range v {
		v[k] = float64(m.Volts[k])
	}
	s.tangent(m.Phase, v)
	clear(s.e)
	s.a[node]++
	for k := range s.dead {
		s.dead[k] = m.Dead[k]
	}
	if s.eliminate() >= 0 {
		return q.Voltage(math.Inf(1)) // at the very edge of collapse
	}
	s.follow(0)
	per := slices.Clone(s.v) // ohms, below zero
	amps := slices.Clone(s.i)
	// a volt more of the supply acts like one lost less on the way out of it
	sum := square(amps[0] * float64(t.VoltsU))
	warm := 0.
	for k := range t.Runs {
		r := &t.Runs[k]
		drop := s.r[k+1] * float64(m.Amps[k])
		// a volt lost in a run acts like a source of a volt less behind it
		by := -amps[k+1] * drop
		sum += square(by * float64(r.U))
		copper := s.r[k+1] - float64(r.Extra)
		warm += -amps[k+1] * float64(m.Amps[k]) * copper * alpha75 / share(t.Warmth)
	}
	sum += square(warm * float64(t.WarmthU))
	for k := range t.Loads {
		l := &t.Loads[k]
		if s.dead[l.Node] {
			continue
		}
		sum += square(per[l.Node] * l.takes(m.Phase[l.Sequence], v[l.Node]) * float64(l.U[m.Phase[l.Sequence]]))
	}
	return q.Voltage(math.Sqrt(sum))
}

func square(x float64) float64 { return x * x }

// tangent puts the change of what the loads take per change of voltage into b, and
// nothing into a.
func (s *solver) tangent(phase []Phase, v []float64) {
	s.ask(phase, v)
	clear(s.a)
}

// Current is what a supply gives over a stretch of time.
type Current struct {
	From, To q.Time
	Amps     q.Current
	Phase    []Phase
}

// Currents follows the supply's current over the sequences as they start, from a
// second before the first to a second after the last.
func (t *Tree) Currents() []Current {
	s := newSolver(t)
	var all []Current
	for _, one := range t.timeline() {
		m := s.at(one.phase)
		all = append(all, Current{one.from, one.to, m.Supply, one.phase})
	}
	slices.SortStableFunc(all, func(a, b Current) int { return cmp.Compare(a.From, b.From) })
	return all
}
