package instrument

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
	_ "swingwright/internal/steady"

	"swingwright/judge"
	q "swingwright/quantity"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if math.Abs(got-want) > within {
		t.Errorf("%s is %.5g, want %.5g", what, got, want)
	}
}

func laps(n int, at float64) (all []q.Time) {
	for range n {
		all = append(all, q.Time(at))
	}
	return all
}

// The worked budget for 3.00 s at least, both ends reacted to: 0.10 s of reaction and
// 0.04 s of the door per run, 0.01/√12 s of the watch, 0.03 s kept (derived from Am. J.
// Phys. 87 (2019) 110; the last two assumed).
func TestStopwatchBudget(t *testing.T) {
	for _, c := range []struct {
		n      int
		u      float64
		accept float64 // at 5 %
	}{{1, 0.112, 3.18}, {3, 0.069, 3.11}, {5, 0.057, 3.09}} {
		r, err := Laps{Times: laps(c.n, 3.5)}.Read()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "u", r.U, c.u, 0.0005)
		near(t, "acceptance limit", judge.AcceptanceLimit(judge.AtLeast, 3, r.U, judge.Policy{}), c.accept, 0.006)
		if !math.IsInf(r.DF, 1) || r.Value != 3.5 {
			t.Errorf("%d laps come to %+v", c.n, r)
		}
	}
}

// A press that starts watch and leaf alike reads 0.11 s late, with 0.07 s of one reaction.
func TestPressedStart(t *testing.T) {
	r, err := Laps{Times: laps(1, 3.11), Start: WithPress}.Read()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "corrected time", r.Value, 3.00, 1e-12)
	near(t, "u", r.U, math.Sqrt(0.07*0.07+0.04*0.04+0.01*0.01/12+0.03*0.03), 1e-12)
}

// Laps that scatter more than a stopwatch does are believed, with their few degrees of freedom.
func TestWildLaps(t *testing.T) {
	r, err := Laps{Times: []q.Time{3, 4, 5}}.Read()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "u", r.U, 1/math.Sqrt(3), 0.002)
	near(t, "degrees of freedom", r.DF, 2, 0.02)
	if len(r.Doubts) != 2 || !strings.Contains(r.Doubts[0], "scatter more") || !strings.Contains(r.Doubts[1], "15 %") {
		t.Errorf("doubts: %v", r.Doubts)
	}
}

// The worked budget of a gauge at 60 N: 200 N range, 0.5 %, 0.1 N digit, ±10 mm on
// 900 mm, up to 10° off square, three readings with s = 1.5 N. The page's 0.26 N for
// off square takes the loss as rectangular; any angle alike gives 0.27 N.
func TestForceGaugeBudget(t *testing.T) {
	r, err := Pulls{Forces: []q.Force{58.5, 60, 61.5}, At: q.Exactly(q.Length(0.9))}.Read()
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{0.58, 0.03, 0.39, 0.27, 0.87} {
		near(t, r.Budget[i].What, r.Budget[i].U/0.9, want, 0.006)
	}
	near(t, "u", r.U/0.9, 1.14, 0.015)
	near(t, "degrees of freedom", r.DF, 6, 0.3)
	near(t, "bias taken off", r.Corrected/0.9, 0.005*60, 0.01)
}

// Off-square loss at a stated angle: 5° 0.4 %, 10° 1.5 %, 15° 3.4 %, 20° 6.0 %, of
// which the mean over all angles up to it is a third.
func TestOffSquare(t *testing.T) {
	for angle, loss := range map[float64]float64{5: 0.004, 10: 0.015, 15: 0.034, 20: 0.060} {
		shown, _ := askew(angle * math.Pi / 180)
		near(t, "mean loss", 1-shown, loss/3, 0.0005)
	}
}

func TestNonsenseIsRefused(t *testing.T) {
	for name, err := range map[string]error{
		"no laps":       second(Laps{}.Read()),
		"a lap of zero": second(Laps{Times: []q.Time{0}}.Read()),
		"all reaction":  second(Laps{Times: []q.Time{0.05, 0.06, 0.05}, Start: WithPress}.Read()),
		"no place":      second(Pulls{Forces: []q.Force{20}}.Read()),
		"beyond range":  second(Pulls{Forces: []q.Force{300}, At: q.Exactly(q.Length(1))}.Read()),
		"far askew":     second(Pulls{Forces: []q.Force{20}, At: q.Exactly(q.Length(1)), Askew: 60 * q.Degree}.Read()),
	} {
		if err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func second(_ Read, err error) error { return err }

// With as many readings as More says the call is made, with one less it is not.
func TestMoreDecides(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(t, "n")
		r, err := Laps{Times: laps(n, 3)}.Read()
		if err != nil {
			t.Fatal(err)
		}
		margin := rapid.Float64Range(0.01, 0.3).Draw(t, "margin")
		fixed := rapid.Float64Range(0, 0.05).Draw(t, "fixed")
		policy := judge.Policy{}
		decides := func(n int) bool {
			u, df := r.with(n, fixed)
			return judge.DecideDF(margin, u, df, policy) == judge.Meets
		}
		switch more := r.More(margin, fixed, policy.CoverageDF); {
		case more == 0:
			if decides(mostReadings) {
				t.Fatal("thirty would decide")
			}
		case !decides(more):
			t.Fatalf("%d do not decide", more)
		case more > n+1 && decides(more-1):
			t.Fatalf("%d would do", more-1)
		}
	})
}
