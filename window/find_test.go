package window

import (
	"math"
	"strings"
	"testing"

	"swingwright/quantity"
	"swingwright/swing"
)

func find(t *testing.T, ask *Question) Answer {
	t.Helper()
	var f Finder
	a, err := f.Find(ask)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// excluded is the typical opening with a force limit and a pressure that no
// setting meets together.
func excluded() Question {
	ask := typical()
	ask.Demands[1].Limit = float64(5 * quantity.PoundForce)
	for i := 2; i < 5; i++ {
		ask.Demands[i].Limit = 14
	}
	return ask
}

// exact follows motions closely.
var exact = swing.Mover{Exact: true}

// keptAt tells, with nothing of this package but the spring's proportion, whether
// a demand is kept at a setting and resistances.
func keptAt(t *testing.T, mv *swing.Mover, ask *Question, d *Demand, setting quantity.Ratio, sweep, latch quantity.Damping) bool {
	t.Helper()
	v := ask.Values
	p := ask.Spring.At(setting)
	v[swing.SpringClosed], v[swing.SpringRise] = float64(p.Closed), float64(p.Rise)
	v[swing.SweepViscous], v[swing.LatchViscous] = float64(sweep), float64(latch)
	v[swing.Pressure] = float64(d.Pressure)
	if d.Kind == Shuts {
		v[swing.Pressure] = d.Limit + d.Allowance
	}
	v[swing.OilFactor] = max(float64(d.Oil), 1)
	m, err := swing.New(&v, ask.Link)
	if err != nil {
		t.Fatal(err)
	}
	switch d.Kind {
	case HandForce:
		return float64(m.LargestHandMoment(d.From, d.To))/float64(d.At) <= d.Limit-d.Allowance
	case MostPower:
		return float64(setting) <= d.Limit-d.Allowance
	case Shuts:
		return mv.Close(&m, d.From, nil).End.Shut()
	case LeastTime:
		marks := []swing.Mark{{Angle: d.From}, {Angle: d.To}}
		mv.Close(&m, 90*deg, marks)
		took := float64(marks[1].Time - marks[0].Time)
		return math.IsNaN(took) || took >= d.Limit+d.Allowance
	case MostTime:
		marks := []swing.Mark{{Angle: d.From}, {Angle: d.To}}
		mv.Close(&m, 90*deg, marks)
		return float64(marks[1].Time-marks[0].Time) <= d.Limit-d.Allowance
	case PeakEnergy:
		return float64(mv.Close(&m, 90*deg, nil).Energy) <= d.Limit-d.Allowance
	case ImpactEnergy:
		return float64(mv.Close(&m, 90*deg, nil).Impact) <= d.Limit-d.Allowance
	case ClosingMoment:
		return float64(m.LeastClosingMoment(d.From, d.To)) >= d.Limit+d.Allowance
	case LeastPower:
		return float64(setting) >= d.Limit+d.Allowance
	}
	t.Fatalf("no independent check of %v", d.Kind)
	return false
}

// everyKind is the typical opening with demands of every kind.
func everyKind() Question {
	ask := typical()
	ask.Demands = append(ask.Demands,
		Demand{Name: "closer", Kind: ClosingMoment, To: 4 * deg, Limit: 9, Allowance: 0.5},
		Demand{Name: "size", Kind: LeastPower, Limit: 1.5},
		Demand{Name: "not too slow", Kind: MostTime, From: 90 * deg, To: 0, Limit: 12},
		Demand{Name: "no slam", Kind: ImpactEnergy, Limit: 0.2, Oil: 1.1, Pressure: -2},
	)
	return ask
}

// At the setting recommended every demand is kept, at every corner of the
// valves' spans.
func TestBestKeepsEverything(t *testing.T) {
	for name, ask := range map[string]Question{"typical": typical(), "every kind": everyKind()} {
		t.Run(name, func(t *testing.T) { checkBest(t, ask) })
	}
}

func checkBest(t *testing.T, ask Question) {
	a := find(t, &ask)
	if !a.Open() || a.Best == nil {
		t.Fatal("no window")
	}
	b := a.Best
	if b.Power.Setting < a.Window.Low || b.Power.Setting > a.Window.High || !(b.Margin > 0) {
		t.Errorf("setting %.3f with margin %.3f N·m, window %v", float64(b.Power.Setting), float64(b.Margin), a.Window)
	}
	for _, sweep := range append(b.Sweep[:], b.SweepSet) {
		for _, latch := range append(b.Latch[:], b.LatchSet) {
			for i := range ask.Demands {
				if !keptAt(t, &exact, &ask, &ask.Demands[i], b.Power.Setting, sweep, latch) {
					t.Errorf("sweep %.2f, latch %.2f: %s is not kept", float64(sweep), float64(latch), ask.Demands[i].Name)
				}
			}
		}
	}
	for _, k := range b.Kept {
		if !(k.Margin >= 0) {
			t.Errorf("%s: margin %g", k.Demand.Name, k.Margin)
		}
	}
}

// No other setting spares a tenth more moment than the one recommended, which a
// bisection to 1/128 of the window found.
func TestBestIsBest(t *testing.T) {
	ask := typical()
	a := find(t, &ask)
	var f Finder
	f.begin(&ask)
	s := setOf(ask.Demands)
	more := float64(a.Best.Margin) * 1.1
	for k := range 41 {
		q := a.Window.Low + a.Window.Width()*quantity.Ratio(k)/40
		if up, down := f.above(s, q), f.below(s, q); up >= more && down >= more && f.bears(s, q, more) {
			t.Errorf("setting %.3f spares %.2f N·m; the best one, %.3f, only %.2f", float64(q), more, float64(a.Best.Power.Setting), float64(a.Best.Margin))
		}
	}
}

// A step of twice the precision across an edge turns the verdict, a demand
// looked at by itself.
func TestEdgesFlip(t *testing.T) {
	ask := typical()
	ask.Valves.Sweep[1] = 40 // so that the sweep has an edge too
	var f Finder
	a := f.window(&ask)
	s := setOf(ask.Demands)
	step := 2 * Precision * a.Settings.Width()
	turned := 0
	judge := func(q quantity.Ratio) []bool {
		good := make([]bool, len(s.demands))
		f.stillGood(s, q, good)
		f.slowest(s, q, good)
		f.quickGood(s, q, good)
		return good
	}
	for i, h := range a.Held {
		for _, e := range []struct{ edge, away quantity.Ratio }{{h.Span.Low, -step}, {h.Span.High, step}} {
			if e.edge == a.Settings.Low || e.edge == a.Settings.High {
				continue
			}
			turned++
			if !judge(e.edge)[i] || judge(e.edge + e.away)[i] {
				t.Errorf("%s does not turn at %.5f", h.Demand.Name, float64(e.edge))
			}
		}
	}
	if turned < 6 {
		t.Errorf("only %d edges looked at", turned)
	}
}

func TestCheckCollectsEveryProblem(t *testing.T) {
	ask := typical()
	ask.Spring[2].Closed = 1
	ask.Valves.Sweep = [2]quantity.Damping{5, 2}
	ask.Demands[0].At = 0
	ask.Demands[5].From = 95 * deg
	ask.Demands[6].Name = "sweep"
	ask.Demands[7].Limit = math.NaN()
	ask.Arms = []Arm{{Name: "short", Values: ask.Values, Link: ask.Link}}
	ask.Arms[0].Values[swing.Forearm] = 0.01
	var f Finder
	_, err := f.Find(&ask)
	for _, part := range []string{"power 3", "sweep valve", `"start": radius`, `"sweep": from 95`, `two demands are named "sweep"`, `"energy": limit`, `arm "short"`} {
		if err == nil || !strings.Contains(err.Error(), part) {
			t.Errorf("the problem with %s is not told: %v", part, err)
		}
	}
	if _, err := f.Find(&Question{}); err == nil || !strings.Contains(err.Error(), "no closer") {
		t.Errorf("an empty question: %v", err)
	}
}

// A closer that cannot be slow enough for one demand and not fast enough for
// another is told, each by how much.
func TestTimesThatExcludeEachOther(t *testing.T) {
	ask := typical()
	ask.Demands = append(ask.Demands[5:6:6], Demand{Name: "brisk", Kind: MostTime, From: 90 * deg, To: 12 * deg, Limit: 4})
	a := find(t, &ask)
	if a.Open() || len(a.Conflicts) != 1 || len(a.Conflicts[0].Of) != 2 {
		t.Fatalf("5 s at least and 4 s at most: %+v", a)
	}
	for _, g := range a.Conflicts[0].Of {
		if !g.Enough || math.Abs(g.By-1) > 0.06 { // 120 s times the precision of shares
			t.Errorf("%s has to give %g s, want 1 s", g.Demand.Name, g.By)
		}
	}
}

// A closer whose spring cannot be set has a window of one setting, or none.
func TestSinglePower(t *testing.T) {
	ask := typical()
	ask.Spring = ask.Spring[2:3]
	if a := find(t, &ask); !a.Open() || a.Window != (Span{3, 3}) || a.Best.Power.Setting != 3 {
		t.Errorf("window %v", a.Window)
	}
	ask.Demands[1].Limit = 10
	if a := find(t, &ask); a.Open() || len(a.Conflicts) != 1 || !a.Conflicts[0].Of[0].Enough {
		t.Errorf("a limit of 10 N: %+v", a)
	}
}

// Words and dimensions of the kinds.
func TestKindsAreNamed(t *testing.T) {
	for k := range Kind(len(kinds)) {
		if k.String() == "" || k.Dim() == quantity.DimRatio != (k == LeastPower || k == MostPower) {
			t.Errorf("kind %d: %q of dimension %d", k, k, k.Dim())
		}
	}
	if got := Kind(99).String(); !strings.Contains(got, "99") {
		t.Errorf("an unknown kind is %q", got)
	}
	for k := LessPressure; k <= OtherArm; k++ {
		if k.String() == "" {
			t.Errorf("change %d has no name", k)
		}
	}
	if Latches.String() != "latches" || StaysOpen.String() != "stays open" {
		t.Error("outcomes are misnamed")
	}
}

func BenchmarkWindow(b *testing.B) {
	ask := typical()
	var f Finder
	for b.Loop() {
		f.Find(&ask)
	}
}

func BenchmarkExcluded(b *testing.B) {
	ask := excluded()
	var f Finder
	for b.Loop() {
		f.Find(&ask)
	}
}
