package power

import (
	"math"
	"slices"

	q "swingwright/quantity"
)

// Ending is how the search for the voltages of a tree ended.
type Ending uint8

// The endings.
const (
	Fed        Ending = iota // the voltages are found
	Collapses                // there are none: the wires cannot carry what is asked of them
	Unfinished               // not decided within the steps allowed; at the very edge of collapse
)

var endingNames = [...]string{"fed", "collapses", "unfinished"}

// String is the ending in words.
func (e Ending) String() string { return endingNames[e] }

// MarshalText writes the ending in words.
func (e Ending) MarshalText() ([]byte, error) { return []byte(e.String()), nil }

// Moment is a tree in one state: what every load asks for, and what comes of it.
type Moment struct {
	Phase []Phase // of each sequence
	// Ending of the whole: Collapses where any of its branches does.
	Ending
	// Volts by node: 0 is the supply's terminals, k the far end of run k-1. Nothing on a
	// branch that collapses.
	Volts []q.Voltage
	// Dead are the nodes of branches that collapse. Branches that part at the terminals of a
	// supply without resistance of its own do not know of each other.
	Dead []bool
	// Amps by run, and Supply, what the supply gives; on a branch that collapses, what its
	// loads ask for at their rated voltages.
	Amps   []q.Current
	Supply q.Current
	// Residual is by how much the currents at any node fail to add up: proof of the
	// solution, whatever way it was found.
	Residual q.Current
	Steps    int
}

// At is how the search ended at a node.
func (m *Moment) At(node int) Ending {
	if m.Ending == Collapses && !m.Dead[node] {
		return Fed
	}
	return m.Ending
}

// volts of a load.
func (m *Moment) volts(l *Load) q.Voltage { return m.Volts[l.Node] }

// Newton's method stops when no voltage changes by more than this share of the
// supply's, or after so many steps.
const (
	settled  = 1e-13
	mostStep = 100
)

// solver holds a tree's resistances and the arrays of one linear step; r, a, b and v
// have one place per node, 0 for the supply and its own resistance.
type solver struct {
	t           *Tree
	r           []float64
	parent      []int
	a, b        []float64 // current into the subtree at a node is a + b·volts there
	e           []float64 // voltage lost on the way to a node besides r·current
	v, i        []float64
	dead        []bool
	steadyPower bool
}

func newSolver(t *Tree) *solver {
	n := len(t.Runs) + 1
	block := make([]float64, 6*n)
	part := func(k int) []float64 { return block[k*n : (k+1)*n : (k+1)*n] }
	s := &solver{t: t, r: part(0), a: part(1), b: part(2), e: part(3), v: part(4), i: part(5), parent: make([]int, n)}
	s.r[0], s.parent[0] = float64(t.Inner), -1
	s.dead = make([]bool, n)
	for k := range t.Runs {
		s.r[k+1], s.parent[k+1] = t.resistance(&t.Runs[k]), t.Runs[k].Parent
	}
	return s
}

// sweep solves the linear tree. It gives the node at which a pivot or a voltage is not
// above zero, -1 where all are.
func (s *solver) sweep(source float64) int {
	if at := s.eliminate(); at >= 0 {
		return at
	}
	s.follow(source)
	return slices.IndexFunc(s.v, func(v float64) bool { return !(v > 0) })
}

// eliminate goes from the leaves inward, where every subtree becomes one line of
// current over voltage: Gauss elimination in the order in which a tree fills nothing in.
// a and b hold what is taken at each node itself, and are replaced. It gives the node at
// which a pivot is not above zero, -1 where all are.
func (s *solver) eliminate() int {
	for k := len(s.r) - 1; k >= 0; k-- {
		pivot := 1 + s.b[k]*s.r[k]
		if !(pivot > 0) {
			return k
		}
		s.a[k], s.b[k] = (s.a[k]-s.b[k]*s.e[k])/pivot, s.b[k]/pivot
		if p := s.parent[k]; p >= 0 {
			s.a[p] += s.a[k]
			s.b[p] += s.b[k]
		}
	}
	return -1
}

// follow goes from the supply outward and finds currents and voltages.
func (s *solver) follow(source float64) {
	for k := range s.r {
		from := source
		if p := s.parent[k]; p >= 0 {
			from = s.v[p]
		}
		s.i[k] = s.a[k] + s.b[k]*from
		s.v[k] = from - s.r[k]*s.i[k] - s.e[k]
	}
}

// ask puts what the loads take in the given phases, as the tangent at the voltages v,
// into a and b; without voltages those of steady power take nothing.
func (s *solver) ask(phase []Phase, v []float64) {
	clear(s.a)
	clear(s.b)
	s.steadyPower = false
	for k := range s.t.Loads {
		l := &s.t.Loads[k]
		amps, rated := float64(l.Draws[phase[l.Sequence]]), float64(l.Rated)
		if amps == 0 || s.dead[l.Node] {
			continue
		}
		switch l.Behaviour {
		case SteadyCurrent:
			s.a[l.Node] += amps
		case Resistive:
			s.b[l.Node] += amps / rated
		case SteadyPower:
			s.steadyPower = true
			if v == nil {
				continue
			}
			at := v[l.Node]
			s.a[l.Node] += 2 * amps * rated / at
			s.b[l.Node] -= amps * rated / (at * at)
		}
	}
}

// takes is the current that a load takes at a voltage.
func (l *Load) takes(p Phase, v float64) float64 {
	amps := float64(l.Draws[p])
	switch {
	case amps == 0:
		return 0
	case l.Behaviour == Resistive:
		return amps * v / float64(l.Rated)
	case l.Behaviour == SteadyPower:
		return amps * float64(l.Rated) / v
	}
	return amps
}

// At finds the voltages of the tree, which [Tree.Check] finds nothing wrong with, while
// every sequence is in a given phase.
//
// The loads of steady power make the equations F(v) = G·v − s + P/v = 0 convex in every
// voltage, and F is not below zero where they take nothing. From there Newton's steps
// go down and never pass the highest solution, as long as every pivot stays above zero
// (monotone Newton theorem: Ortega and Rheinboldt, Iterative Solution of Nonlinear
// Equations, 1970, 13.3.4; from memory). A pivot that is not, or a voltage that is not,
// at a place above all solutions tells that there is none.
func (t *Tree) At(phase []Phase) Moment { return newSolver(t).at(phase) }

func (s *solver) at(phase []Phase) Moment {
	m := Moment{Phase: phase, Amps: make([]q.Current, len(s.t.Runs)), Volts: make([]q.Voltage, len(s.r))}
	clear(s.e)
	clear(s.dead)
	for {
		ending, at := s.search(phase, &m.Steps)
		if ending != Collapses {
			m.Ending = max(m.Ending, ending)
			break
		}
		m.Ending = Collapses
		if s.fell(at) {
			break
		}
	}
	m.Dead = slices.Clone(s.dead)
	s.report(&m, phase)
	return m
}

// search is Newton's method on what is not dead; it gives the node at which it collapses.
func (s *solver) search(phase []Phase, steps *int) (Ending, int) {
	above := make([]float64, len(s.r)) // a place at or above all solutions
	s.ask(phase, nil)
	for n := 1; n <= mostStep; n++ {
		*steps++
		if at := s.sweep(float64(s.t.Volts)); at >= 0 {
			return Collapses, at
		}
		change := 0.
		for k, v := range s.v {
			change = max(change, math.Abs(v-above[k]))
		}
		copy(above, s.v)
		if !s.steadyPower && n > 1 || change <= settled*float64(s.t.Volts) {
			return Fed, 0
		}
		s.ask(phase, above)
	}
	return Unfinished, 0
}

// fell takes the branch out on which a node lies, from the supply's terminals on. It tells
// whether that is all there is, as where the supply has a resistance that all share.
func (s *solver) fell(at int) bool {
	at = s.branch(at)
	if at == 0 || s.r[0] > 0 {
		for k := range s.dead {
			s.dead[k] = true
		}
		return true
	}
	for k := at; k < len(s.r); k++ { // parents stand before what they lead to
		s.dead[k] = s.dead[k] || s.branch(k) == at
	}
	return false
}

// branch is the first node of a node's branch, 0 for the supply's terminals.
func (s *solver) branch(k int) int {
	for s.parent[k] > 0 {
		k = s.parent[k]
	}
	return k
}

// report puts voltages and currents into the moment, the currents from the loads up.
func (s *solver) report(m *Moment, phase []Phase) {
	into := make([]float64, len(s.r))
	for k := range s.t.Loads {
		l := &s.t.Loads[k]
		v := float64(l.Rated)
		if m.At(l.Node) == Fed {
			v = s.v[l.Node]
		}
		into[l.Node] += l.takes(phase[l.Sequence], v)
	}
	for k := len(into) - 1; k > 0; k-- {
		into[s.parent[k]] += into[k]
		m.Amps[k-1] = q.Current(into[k])
	}
	m.Supply = q.Current(into[0])
	for k, v := range s.v {
		if m.At(k) != Fed {
			continue
		}
		m.Volts[k] = q.Voltage(v)
		from := float64(s.t.Volts)
		if p := s.parent[k]; p >= 0 {
			from = s.v[p]
		}
		if s.r[k] > 0 { // what the drop says against what the loads take, as far as digits carry
			off := math.Abs((from-v)/s.r[k]-into[k]) - 4e-16*float64(s.t.Volts)/s.r[k]
			m.Residual = max(m.Residual, q.Current(off))
		}
	}
}
