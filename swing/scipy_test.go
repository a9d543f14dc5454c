package swing

import (
	"fmt"
	"math"
	"sync"
	"testing"

	"swingwright/internal/reference"
	"swingwright/quantity"
)

// A refCase is one motion as testdata/closing.py reads it.
type refCase struct {
	Values map[string]float64 `json:"values"`
	Closer bool               `json:"closer"`
	Track  bool               `json:"track"`
	OnLeaf bool               `json:"on_leaf"`
	Bend   int                `json:"bend"`
	Latch  bool               `json:"latch"`
	From   float64            `json:"from"`
	Push   float64            `json:"push,omitempty"`
	To     *float64           `json:"to,omitempty"`
	Marks  []float64          `json:"marks"`

	seed  uint64
	model Model
}

// A refMotion is what it writes.
type refMotion struct {
	End    string     `json:"end"`
	Time   float64    `json:"time"`
	Angle  float64    `json:"angle"`
	Rate   float64    `json:"rate"`
	Energy float64    `json:"energy"`
	Marks  []*float64 `json:"marks"`
}

// limits are what is asked of two reckonings of one motion.
type limits struct {
	time   float64 // s, of every mark
	energy float64 // of the peak energy
	angle  float64 // rad, where the leaf ends
}

// Mover as it is, and with Exact set. The second shows the equations to be the
// same; the first how much the coarser steps and the chart cost.
var (
	usual = limits{2e-3, 1e-3, 0.05 * deg}
	exact = limits{1e-5, 1e-6, 1e-4 * deg}
)

var closingMarks = []float64{90 * deg, 80 * deg, 70 * deg, 12 * deg, 10 * deg, 0}
var openingMarks = []float64{10 * deg, 60 * deg, 80 * deg, 90 * deg}

// askSciPy hands cases to a program in testdata and reads what it writes into out.
func askSciPy(program string, cases, out any, args ...string) error {
	return reference.SciPy.Ask(program, map[string]any{"cases": cases}, out, args...)
}

// motionsBySciPy follows each case by a program in testdata.
func motionsBySciPy[Case any](program string, cases []Case) ([]refMotion, error) {
	var out struct{ Motions []refMotion }
	if err := askSciPy(program, cases, &out); err != nil {
		return nil, err
	}
	if len(out.Motions) != len(cases) {
		return nil, fmt.Errorf("%s returned %d motions of %d", program, len(out.Motions), len(cases))
	}
	return out.Motions, nil
}

// apart is how far two reckonings of one motion lie apart at worst, and what
// exceeds the limits.
func (l limits) apart(got *Motion, marks []Mark, want *refMotion) (off limits, problems []string) {
	say := func(format string, args ...any) { problems = append(problems, fmt.Sprintf(format, args...)) }
	if got.End.String() != want.End {
		say("%v at %.3f° after %.3f s, SciPy: %s at %.3f° after %.3f s", got.End, float64(got.Angle)/deg, got.Time, want.End, want.Angle/deg, want.Time)
		return off, problems
	}
	for i, m := range marks {
		at := math.NaN()
		if want.Marks[i] != nil {
			at = *want.Marks[i]
		}
		if math.IsNaN(float64(m.Time)) && math.IsNaN(at) {
			continue
		}
		apart := math.Abs(float64(m.Time) - at)
		if !(apart <= l.time) {
			say("%.0f° at %.5f s, SciPy: %.5f s", float64(m.Angle)/deg, m.Time, at)
		}
		off.time = max(off.time, apart)
	}
	off.energy = math.Abs(float64(got.Energy)/want.Energy - 1)
	if want.Energy == 0 && got.Energy == 0 {
		off.energy = 0
	}
	if !(off.energy <= l.energy) {
		say("peak energy %.6g J, SciPy: %.6g J", got.Energy, want.Energy)
	}
	off.angle = math.Abs(float64(got.Angle) - want.Angle)
	if !(off.angle <= l.angle) {
		say("ends at %.5f°, SciPy: %.5f°", float64(got.Angle)/deg, want.Angle/deg)
	}
	return off, problems
}

// worst is the farther of two in each.
func (l limits) worst(m limits) limits {
	return limits{max(l.time, m.time), max(l.energy, m.energy), max(l.angle, m.angle)}
}

// refOf is a model as the reference reads it.
func refOf(m Model, seed uint64) refCase {
	c := refCase{
		Values: map[string]float64{}, Closer: m.link.Closer, Track: m.link.Track, OnLeaf: m.link.OnLeaf,
		Bend: m.link.Bend, Latch: m.link.Latch, From: 90 * deg, Marks: closingMarks, seed: seed, model: m,
	}
	for i, s := range Symbols {
		c.Values[s.Key] = m.v[i]
	}
	return c
}

// referenceCases are 200 closings from 70° to 105° and 60 openings by a
// push that carries some to 100° and leaves others standing.
func referenceCases() ([]refCase, error) {
	var cases []refCase
	for seed := range uint64(200) {
		m, err := random(seed)
		if err != nil {
			return nil, err
		}
		c, d := refOf(m, seed), diceOf(seed+1000)
		if d.chance(0.7) {
			c.From = d.in(71, 105) * deg
		}
		cases = append(cases, c)
	}
	for seed := range uint64(60) {
		m, err := random(500 + seed)
		if err != nil {
			return nil, err
		}
		c, d := refOf(m, 500+seed), diceOf(seed+2000)
		to := 100 * deg
		c.From, c.To, c.Marks = 0, &to, openingMarks
		c.Push = d.in(0.9, 1.7) * float64(m.LargestHandMoment(0, 100*quantity.Degree))
		cases = append(cases, c)
	}
	return cases, nil
}

// ours is the same motion by this package.
func (c *refCase) ours(mv *Mover) (Motion, []Mark) {
	marks := make([]Mark, len(c.Marks))
	for i, a := range c.Marks {
		marks[i].Angle = quantity.Angle(a)
	}
	if c.To != nil {
		return mv.Open(&c.model, quantity.Torque(c.Push), quantity.Angle(c.From), quantity.Angle(*c.To), marks), marks
	}
	return mv.Close(&c.model, quantity.Angle(c.From), marks), marks
}

// agreement is how far two reckonings of the same motions lie apart at worst.
type agreement struct {
	limits, worst      limits
	closings, openings int
	marks              int
	ends               map[End]int
	arms               map[string]int // closings that shut, by arm
	problems           []string
}

// compare runs the reference motions here, as usual and exactly, and in SciPy,
// once for all tests.
var compare = sync.OnceValues(func() ([2]agreement, error) {
	var both [2]agreement
	for i, l := range []limits{usual, exact} {
		both[i] = agreement{limits: l, ends: map[End]int{}, arms: map[string]int{}}
	}
	cases, err := referenceCases()
	if err != nil {
		return both, err
	}
	want, err := motionsBySciPy("testdata/closing.py", cases)
	if err != nil {
		return both, err
	}
	for i := range both {
		mv := Mover{Exact: i == 1}
		for k := range cases {
			got, marks := cases[k].ours(&mv)
			both[i].add(&cases[k], &got, marks, &want[k])
		}
	}
	return both, nil
})

func (a *agreement) add(c *refCase, got *Motion, marks []Mark, want *refMotion) {
	what := "opening"
	a.ends[got.End]++
	if c.To != nil {
		a.openings++
	} else {
		what = "closing"
		a.closings++
		if got.End.Shut() {
			a.arms[armKinds[c.seed%uint64(len(armKinds))].name]++
		}
	}
	for _, m := range marks {
		if !math.IsNaN(float64(m.Time)) {
			a.marks++
		}
	}
	off, problems := a.limits.apart(got, marks, want)
	a.worst = a.worst.worst(off)
	for _, p := range problems {
		a.problems = append(a.problems, fmt.Sprintf("%s %d: %s", what, c.seed, p))
	}
}

// Two hundred random closings and sixty openings agree with an independent
// program in the time of every mark, the peak energy and the ending.
func TestMotionsAgreeWithSciPy(t *testing.T) {
	if testing.Short() {
		t.Skip("the reference runs take a minute")
	}
	both, err := compare()
	if err != nil {
		t.Fatal(err)
	}
	for i, name := range []string{"usual", "exact"} {
		a := &both[i]
		for _, p := range a.problems {
			t.Errorf("%s: %s", name, p)
		}
		t.Logf("%s: worst %.4f ms, energy %.5f %%, angle %.6f°", name, a.worst.time*1e3, a.worst.energy*100, a.worst.angle/deg)
	}
	a := &both[0]
	t.Logf("%d closings, %d openings, %d marks; endings %v; shut by arm %v", a.closings, a.openings, a.marks, a.ends, a.arms)
	// The comparison is worth something only while every ending and every arm is in it.
	for _, e := range []End{Latched, Closed, RestsOpen, Struck, TimedOut} {
		if a.ends[e] < 3 {
			t.Errorf("only %d motions end %q; draw other models", a.ends[e], e)
		}
	}
	for _, k := range armKinds {
		if a.arms[k.name] < 15 {
			t.Errorf("only %d closings shut with a %s; draw other models", a.arms[k.name], k.name)
		}
	}
}
