package tune

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"swingwright/judge"
	"swingwright/quantity"
	"swingwright/swing"
	"swingwright/window"
)

// visit is a call as it was found, measured once.
func visit(c *call) *Visit {
	v := &Visit{Known: c.door.known, Demands: c.demands, States: []State{c.start}}
	c.measure(&v.Record, c.start, c.start)
	return v
}

// A door that closes far too fast: the sweep valve, unlearned, is turned in by an eighth;
// the latch, slow enough, is left; the restore point is how it was found.
func TestFirstAdviceIsAnEighth(t *testing.T) {
	c := newCall(8)
	c.start.Sweep = quantity.Turns(math.Round((c.door.u0[0]+1.2)*16) / 16)
	v := visit(c)
	a, err := Advise(v)
	if err != nil {
		t.Fatal(err)
	}
	if a.Do != Turn || a.Restore != c.start || a.Now == nil || a.After == nil {
		t.Fatalf("%v %+v", a.Do, a.Moves)
	}
	found := false
	last := SpringPart
	for _, m := range a.Moves {
		if m.Part < last {
			t.Errorf("%v: not in the order of work", a.Moves)
		}
		last = m.Part
		if m.Turns > eighth {
			t.Errorf("%v: more than an eighth, unlearned", m)
		}
		if m.Part == SweepValve {
			found = true
			if m.More || m.Learned || m.Turns != eighth {
				t.Errorf("%v", m)
			}
		}
	}
	if !found {
		t.Errorf("the sweep valve is left: %v", a.Moves)
	}
	if n := len(a.After.T); n < 20 || len(a.After.Theta) != n || math.Abs(a.After.Theta[0]-math.Pi/2) > 1e-9 || a.After.Theta[n-1] > 0.01 {
		t.Errorf("the foreseen closing has %d angles", n)
	}
	for _, p := range a.After.Passings {
		if !(p.Time > 0) || !(p.U > 0) {
			t.Errorf("%.0f degrees at %g s within %g", float64(p.Angle/deg), float64(p.Time), float64(p.U))
		}
	}
}

// A call whose force and pressure exclude each other gets no setting, and is told which
// demands those are.
func TestNoSettingTellsWhatExcludes(t *testing.T) {
	c := newCall(3)
	for i := range c.demands {
		switch c.demands[i].Kind {
		case window.HandForce:
			c.demands[i].Limit = float64(4 * quantity.PoundForce)
		case window.Shuts:
			c.demands[i].Limit = 15
		}
	}
	a, err := Advise(visit(c))
	if err != nil {
		t.Fatal(err)
	}
	if a.Do != NoSetting || len(a.Conflicts) == 0 || len(a.Moves) != 0 || a.To != c.start {
		t.Fatalf("%v, %v", a.Do, a.Conflicts)
	}
	var names []string
	for _, g := range a.Conflicts[0].Of {
		names = append(names, g.Demand.Name)
	}
	if got := strings.Join(names, " "); !strings.Contains(got, "open") || !strings.Contains(got, "from") {
		t.Errorf("excluded: %s", got)
	}
}

// Where all is kept beyond doubt, it is left; where a limit lies too close to call and
// nothing is better, it is said what to measure.
func TestKeepAndMeasure(t *testing.T) {
	c := newCall(5)
	c.start = State{Power: 3, Sweep: quantity.Turns(c.door.u0[0]) + 0.35, Latch: quantity.Turns(c.door.u0[1]) + 0.5}
	c.demands = c.demands[3:5] // times alone
	a, err := Advise(visit(c))
	if err != nil {
		t.Fatal(err)
	}
	if a.Do != Keep || len(a.Moves) != 0 || !a.Now.meets() {
		t.Errorf("%v %v", a.Do, a.Moves)
	}
	m := c.door.model(c.start)
	force := float64(swing.HandForce(m.LargestHandMoment(0, 90*deg), 0.85))
	c.demands = append(c.demands, window.Demand{Name: "open", Kind: window.HandForce, To: 90 * deg, At: 0.85, Limit: force * 1.005})
	c.demands = append(c.demands, window.Demand{Name: "strong", Kind: window.LeastPower, Limit: 3})
	a, err = Advise(visit(c))
	if err != nil {
		t.Fatal(err)
	}
	if a.Do == Turn || a.Do == Measure && !strings.Contains(strings.Join(a.Notes, " "), "gauge the opening force") {
		t.Errorf("%v: %v", a.Do, a.Notes)
	}
	for d := Turn; d <= NoSetting; d++ {
		if d.String() == "" {
			t.Error("an advice without a name")
		}
	}
}

// The same visit gives the same advice, to the bit.
func TestSameVisitSameAdvice(t *testing.T) {
	v := visit(newCall(6))
	a, err1 := Advise(v)
	b, err2 := Advise(v)
	if err1 != nil || err2 != nil || a.Do != b.Do || a.To != b.To {
		t.Fatal(err1, err2, a.To, b.To)
	}
	for i := range a.Now.Demands {
		if math.Float64bits(a.Now.Demands[i].U) != math.Float64bits(b.Now.Demands[i].U) {
			t.Error("spreads differ")
		}
	}
}

func TestVisitsThatCannotBeAdvised(t *testing.T) {
	good := visit(newCall(1))
	for what, spoil := range map[string]func(*Visit){
		"setting is not told":  func(v *Visit) { v.States = nil },
		"counted in turns":     func(v *Visit) { v.States = []State{{Power: 3, Sweep: -1, Latch: 1}} },
		"nothing is demanded":  func(v *Visit) { v.Demands = nil },
		"risk":                 func(v *Visit) { v.Policy = judge.Policy{Risk: 2} },
		"nothing was measured": func(v *Visit) { v.Record = Record{} },
		"two demands":          func(v *Visit) { v.Demands = append(v.Demands, v.Demands[0]) },
	} {
		v := *good
		spoil(&v)
		if _, err := Advise(&v); err == nil || !strings.Contains(err.Error(), what) {
			t.Errorf("%s: %v", what, err)
		}
	}
}

// Whatever a recording shows, it is fitted or refused; nothing panics, and what is told
// are numbers.
func TestAnyCurve(t *testing.T) {
	k := typical()
	random := rand.New(rand.NewPCG(5, 5))
	fitted := 0
	for range 8 {
		c := Curve{State: usual, U: math.Exp(-7 + 5*random.Float64())}
		theta, at, drift := -0.5+2.5*random.Float64(), 0.0, -0.1+0.15*random.Float64()
		for range 20 + random.IntN(100) {
			at += 0.01 + 0.3*random.Float64()
			theta = clamp(theta+drift+0.1*random.NormFloat64(), -3, 3)
			c.T, c.Theta = append(c.T, at), append(c.Theta, theta)
		}
		f, err := Identify(&k, &Record{Curves: []Curve{c}})
		if err != nil {
			continue
		}
		fitted++
		for i := range f.Quantities {
			if q := &f.Quantities[i]; math.IsNaN(q.Value) || math.IsNaN(q.U) {
				t.Fatalf("%s: %g within %g", q.Name, q.Value, q.U)
			}
		}
	}
	t.Logf("%d fitted", fitted)
}
