package power

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"swingwright/internal/reference"
	_ "swingwright/internal/steady"
	q "swingwright/quantity"
)

// ohms is a run of a given resistance, out and back.
func ohms(name string, parent int, r q.Resistance) Run {
	return Run{Name: name, Parent: parent, Wire: Wire{Gauge: 18}, Extra: r}
}

func (l Load) at(node int, b Behaviour) Load { l.Node, l.Behaviour = node, b; return l }

// One run of 1 Ω at 24 V in closed form: a steady 4 A leave 20 V; a coil of 4 A at 24 V is
// 6 Ω, which leaves 24·6/7; and 96 W leave (24 + √(24² − 4·96))/2.
func TestOneRun(t *testing.T) {
	for b, want := range map[Behaviour]float64{SteadyCurrent: 20, Resistive: 24. * 6 / 7, SteadyPower: (24 + math.Sqrt(24*24-4*96)) / 2} {
		tree := Tree{Volts: 24, Runs: []Run{ohms("a", 0, 1)}, Loads: []Load{always("x", 4).at(1, b)}, Sequences: make([]Sequence, 1)}
		m := tree.At([]Phase{Moving})
		if m.Ending != Fed {
			t.Fatalf("%v: %v", b, m.Ending)
		}
		near(t, b.String(), float64(m.Volts[1]), want, 1e-10)
		near(t, b.String()+" current", float64(m.Supply), 24-want, 1e-10)
		near(t, "residual", float64(m.Residual), 0, 1e-10)
	}
}

// A run of R carries no more than E²/4R to a load of steady power: at 1 Ω and 24 V, 144 W.
func TestCollapse(t *testing.T) {
	for _, c := range []struct {
		watts float64
		want  Ending
	}{{143.999, Fed}, {144.001, Collapses}, {1e6, Collapses}, {100, Fed}} {
		tree := Tree{Volts: 24, Runs: []Run{ohms("a", 0, 1)}, Loads: []Load{always("x", q.Current(c.watts/24)).at(1, SteadyPower)}, Sequences: make([]Sequence, 1)}
		if m := tree.At([]Phase{Moving}); m.Ending != c.want {
			t.Errorf("%v W: %v after %d steps, want %v", c.watts, m.Ending, m.Steps, c.want)
		}
	}
	// and no steady current beyond E/R
	tree := Tree{Volts: 24, Runs: []Run{ohms("a", 0, 1)}, Loads: []Load{always("x", 25).at(1, SteadyCurrent)}, Sequences: make([]Sequence, 1)}
	if m := tree.At([]Phase{Moving}); m.Ending != Collapses {
		t.Errorf("25 A through 1 Ω from 24 V: %v", m.Ending)
	}
}

// draw a tree that passes Check.
func drawTree(t *rapid.T, hard float64) Tree {
	f := func(low, high float64, name string) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	n := func(low, high int, name string) int { return rapid.IntRange(low, high).Draw(t, name) }
	tree := Tree{Volts: q.Voltage(f(10, 30, "volts")), VoltsU: 0.2, Warmth: q.Celsius0 + q.Temperature(f(-10, 75, "warmth")), WarmthU: 5, Inner: q.Resistance(f(0, 0.05, "inner"))}
	tree.Sequences = make([]Sequence, n(1, 2, "sequences"))
	for i := range tree.Sequences {
		tree.Sequences[i].Start = q.Time(n(0, 3, "start"))
		for p := Releasing; p < Phases; p++ {
			tree.Sequences[i].Lasts[p] = q.Time(n(0, 4, "lasts"))
		}
	}
	for k := range n(1, 10, "runs") {
		tree.Runs = append(tree.Runs, Run{Parent: n(0, k, "parent"), Length: q.Length(f(0, 20, "length")), U: 0.05,
			Wire: Wire{Gauge: rapid.SampledFrom(Gauges[:]).Draw(t, "gauge"), Solid: rapid.Bool().Draw(t, "solid")}, Doubled: n(0, 2, "doubled"), Extra: q.Resistance(f(0, 0.05, "extra"))})
	}
	for range n(1, 8, "loads") {
		l := Load{Node: n(0, len(tree.Runs), "node"), Rated: tree.Volts, Least: tree.Volts * 0.9, Behaviour: Behaviour(n(0, 2, "behaviour")), Sequence: n(0, len(tree.Sequences)-1, "of")}
		for p := range l.Draws {
			l.Draws[p], l.U[p] = q.Current(f(0, hard, "amps")), q.Ratio(f(0, 0.2, "u"))
		}
		tree.Loads = append(tree.Loads, l)
	}
	return tree
}

// Currents add up at every node, voltages fall from the supply outward, and the same
// tree with its loads in another order has the same voltages.
func TestSolutionHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tree := drawTree(t, 2)
		if err := tree.Check(); err != nil {
			t.Fatal(err)
		}
		phase := tree.states()[0]
		for i := range phase {
			phase[i] = Phase(rapid.IntRange(0, Phases-1).Draw(t, "phase"))
		}
		m := tree.At(phase)
		if m.Ending == Unfinished {
			t.Fatalf("unfinished after %d steps", m.Steps)
		}
		back := tree
		back.Loads = nil
		for i := range tree.Loads {
			back.Loads = append(back.Loads, tree.Loads[len(tree.Loads)-1-i])
		}
		other := back.At(phase)
		if other.Ending != m.Ending {
			t.Fatalf("%v, but %v with its loads in another order", m.Ending, other.Ending)
		}
		if m.Ending != Fed {
			return
		}
		if m.Residual > 1e-6 {
			t.Fatalf("residual %v after %d steps", m.Residual, m.Steps)
		}
		for k := range tree.Runs {
			up, down := m.Volts[tree.Runs[k].Parent], m.Volts[k+1]
			if down > up+1e-12 || math.Abs(float64(down-other.Volts[k+1])) > 1e-6 {
				t.Fatalf("run %d: %v to %v, and %v", k, up, down, other.Volts[k+1])
			}
		}
	})
}

// More copper never lowers a voltage beyond it, and never makes a tree collapse. Where
// there is no coil, whose current grows with its voltage, it lowers none anywhere; a coil
// that gets more takes more from its neighbours.
func TestMoreCopperNeverLowersAVoltage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tree := drawTree(t, 2)
		coils := false
		for i := range tree.Loads {
			coils = coils || tree.Loads[i].Behaviour == Resistive
		}
		k := rapid.IntRange(0, len(tree.Runs)-1).Draw(t, "run")
		more := tree
		more.Runs = append([]Run(nil), tree.Runs...)
		more.Runs[k].Wire.Gauge = more.Runs[k].Wire.Gauge.Thicker()
		beyond := make([]bool, len(tree.Runs)+1)
		for i := range tree.Runs {
			beyond[i+1] = i == k || beyond[tree.Runs[i].Parent]
		}
		for _, phase := range tree.states() {
			before, after := tree.At(phase), more.At(phase)
			if before.Ending != Fed {
				continue
			}
			if after.Ending != Fed && !coils {
				t.Fatalf("%v with more copper", after.Ending)
			}
			for i := range before.Volts {
				if after.Ending == Fed && (beyond[i] || !coils) && after.Volts[i] < before.Volts[i]-1e-7 {
					t.Fatalf("place %d: %v V, then %v V", i, before.Volts[i], after.Volts[i])
				}
			}
		}
	})
}

// The spread is the linear law's: the same as from moving every input by a little.
func TestSpreadIsTheLinearLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tree := drawTree(t, 0.5)
		phase := make([]Phase, len(tree.Sequences))
		for i := range phase {
			phase[i] = Phase(rapid.IntRange(0, Phases-1).Draw(t, "phase"))
		}
		node := rapid.IntRange(0, len(tree.Runs)).Draw(t, "node")
		m := tree.At(phase)
		if m.Ending != Fed || m.Volts[node] < tree.Volts/2 {
			return // near the edge nothing is linear
		}
		const h = 1e-4
		slope := func(change func(*Tree, float64)) float64 {
			var v [2]float64
			for i, by := range []float64{h, -h} {
				moved := tree
				moved.Runs, moved.Loads = append([]Run(nil), tree.Runs...), append([]Load(nil), tree.Loads...)
				change(&moved, by)
				v[i] = float64(moved.At(phase).Volts[node])
			}
			return (v[0] - v[1]) / (2 * h)
		}
		sum := square(slope(func(t *Tree, by float64) { t.Volts += q.Voltage(by) }) * float64(tree.VoltsU))
		sum += square(slope(func(t *Tree, by float64) { t.Warmth += q.Temperature(by) }) * float64(tree.WarmthU))
		for k := range tree.Runs {
			r := &tree.Runs[k]
			// by their resistance, which the supply's own temperature leaves alone
			full := tree.resistance(r)
			sum += square(slope(func(t *Tree, by float64) { t.Runs[k].Extra += q.Resistance(by * full) }) * float64(r.U))
		}
		for k := range tree.Loads {
			sum += square(slope(func(t *Tree, by float64) {
				for p := range t.Loads[k].Draws {
					t.Loads[k].Draws[p] *= q.Current(1 + by)
				}
			}) * float64(tree.Loads[k].U[phase[tree.Loads[k].Sequence]]))
		}
		want, got := math.Sqrt(sum), float64(newSolver(&tree).spread(&m, node))
		if math.Abs(got-want) > 1e-4*want+1e-6 {
			t.Fatalf("spread %v, want %v", got, want)
		}
	})
}

// Nodal analysis by SciPy on trees drawn here: voltages of all nodes, and whether there
// are any.
func TestAgainstNodalAnalysis(t *testing.T) {
	if testing.Short() {
		t.Skip("asks SciPy")
	}
	type asked struct {
		Volts, Inner float64
		Parent       []int
		Ohms         []float64
		Node, Kind   []int
		Amps, Rated  []float64
	}
	var all []asked
	var found []Moment
	trees := rapid.Custom(func(t *rapid.T) Tree { return drawTree(t, rapid.SampledFrom([]float64{0.3, 6, 60}).Draw(t, "hard")) })
	for seed := range 300 {
		tree := trees.Example(seed)
		a := asked{Volts: float64(tree.Volts), Inner: float64(tree.Inner)}
		for k := range tree.Runs {
			tree.Runs[k].Extra += 1e-6 // no two places are one
			a.Parent, a.Ohms = append(a.Parent, tree.Runs[k].Parent), append(a.Ohms, tree.resistance(&tree.Runs[k]))
		}
		for i := range tree.Loads {
			l := &tree.Loads[i]
			a.Node, a.Kind = append(a.Node, l.Node), append(a.Kind, int(l.Behaviour))
			a.Amps, a.Rated = append(a.Amps, float64(l.Draws[Resting])), append(a.Rated, float64(l.Rated))
		}
		all, found = append(all, a), append(found, tree.At(make([]Phase, len(tree.Sequences))))
	}
	var answers []struct {
		Fed   bool
		Volts []float64
	}
	if err := reference.SciPy.Ask("testdata/nodal.py", all, &answers); err != nil {
		t.Fatal(err)
	}
	worst, fed, collapsed := 0., 0, 0
	for i := range answers {
		m := &found[i]
		if answers[i].Fed != (m.Ending == Fed) {
			t.Errorf("tree %d: SciPy says fed %v, we say %v: %+v", i, answers[i].Fed, m.Ending, all[i])
			continue
		}
		if m.Ending != Fed {
			collapsed++
			continue
		}
		fed++
		for k, v := range answers[i].Volts {
			worst = max(worst, math.Abs(v-float64(m.Volts[k])))
		}
	}
	if worst > 1e-7 || fed < 100 || collapsed < 10 {
		t.Errorf("off by %v V over %d trees that are fed and %d that collapse", worst, fed, collapsed)
	}
	t.Logf("%d fed trees agree within %.1e V, %d collapse in both", fed, worst, collapsed)
}

// Impossible input is refused with everything that is wrong, and never reckoned.
func TestCheckFindsEverything(t *testing.T) {
	nan, bad := q.Current(math.NaN()), Tree{
		Volts: 0, VoltsU: -1,
		Runs:      []Run{{Name: "a", Parent: 3, Wire: Wire{Gauge: 18}}, {Name: "b", Length: -1, Wire: Wire{Gauge: 18}}, {Name: "c", Wire: Wire{Gauge: 3}}},
		Sequences: []Sequence{{Start: -1}},
	}
	bad.Loads = []Load{{Name: "x", Node: 9, Sequence: 4, Behaviour: 7}, {Name: "y", Rated: 24}}
	bad.Loads[1].Draws[Moving] = nan
	err, ok := bad.Check().(interface{ Unwrap() []error })
	if !ok || len(err.Unwrap()) != 11 {
		t.Fatalf("%v", bad.Check())
	}
}

// Where nothing is near collapse the draws say what the linear law says, by the normal
// distribution; and near it they see what the slope cannot.
func TestOdds(t *testing.T) {
	tree := Tree{Volts: 24, VoltsU: 0.2, Warmth: tableWarmth, Runs: []Run{{Length: 60 * q.Foot, Wire: Wire{Gauge: 18}, U: 0.05}}, Sequences: make([]Sequence, 1)}
	l := always("x", 2).at(1, Resistive)
	for p := range l.U {
		l.U[p] = 0.1
	}
	tree.Loads = []Load{l}
	phase := []Phase{Moving}
	m := tree.At(phase)
	u := float64(newSolver(&tree).spread(&m, 1))
	for _, z := range []float64{-1, 0, 1} {
		tree.Loads[0].Least = m.Volts[1] - q.Voltage(z*u)
		got, err := tree.Odds(0, phase, 1, 4096)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "share", got, 0.5*math.Erfc(-z/math.Sqrt2), 0.02)
	}
	// 130 W of at most 144: the slope at 15.7 V says nothing of 21.6 V, which would take half the power
	edge := Tree{Volts: 24, VoltsU: 0.2, Warmth: tableWarmth, Runs: []Run{ohms("a", 0, 1)}, Sequences: make([]Sequence, 1)}
	l = always("x", 130./24).at(1, SteadyPower)
	for p := range l.U {
		l.U[p] = 0.1
	}
	l.Least = 21.6
	edge.Loads = []Load{l}
	if got, err := edge.Odds(0, phase, 1, 256); err != nil || got != 0 {
		t.Errorf("near the edge %v of the draws have enough, %v", got, err)
	}
}

// A branch that collapses takes no other with it where they part at the supply's
// terminals, and all where the supply has a resistance that they share.
func TestOneBranchCollapses(t *testing.T) {
	tree := Tree{Volts: 24, Runs: []Run{ohms("a", 0, 1), ohms("b", 0, 1), ohms("c", 1, 1)}, Sequences: make([]Sequence, 1),
		Loads: []Load{always("x", 20).at(3, SteadyPower), always("y", 4).at(2, SteadyCurrent), always("z", 1).at(1, Resistive)}}
	m := tree.At([]Phase{Moving})
	if m.Ending != Collapses || m.At(1) != Collapses || m.At(3) != Collapses || m.At(2) != Fed {
		t.Fatalf("%+v", m)
	}
	near(t, "the other branch", float64(m.Volts[2]), 20, 1e-10)
	c := tree.Follow()
	if c.Loads[0].Ending != Collapses || c.Loads[1].Ending != Fed || c.Loads[2].Ending != Collapses || c.Ending != Collapses {
		t.Errorf("%+v", c.Loads)
	}
	near(t, "what is asked of the collapsed one", float64(c.Loads[0].Drop), 21+20, 1e-9)
	tree.Inner = 0.01
	if m = tree.At([]Phase{Moving}); m.At(2) != Collapses {
		t.Errorf("%+v", m)
	}
}
