package plan

import (
	"math"
	"os"
	"strings"
	"testing"

	"swingwright/fact"
	"swingwright/internal/propagate"
	"swingwright/job"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/swing"
)

func demoJob(t testing.TB) *job.Job {
	t.Helper()
	j, err := job.Decode(os.DirFS("../demo/harbour-street-clinic"), "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// How long a leaf takes until it is clear of its strike comes by the linear law. Draws
// of the same inputs have to come to the same, a fifth of the spread apart at the most (JCGM 101:2008, clause 8, holds the one against the other so).
func TestClearingAgreesWithDraws(t *testing.T) {
	j := demoJob(t)
	for _, id := range []string{"103", "107"} {
		p := Make(demoOpening(t, j, id), &j.Sheets, nil, Options{Draws: 64})
		c := p.Clearing()
		if !c.Known {
			t.Fatalf("%s: %s", id, c.Why)
		}
		ins, f := p.untilOpen(c.Angle)
		d, err := propagate.MonteCarlo(1, 2000, ins, 1, f)
		if err != nil {
			t.Fatal(err)
		}
		var sum, squares float64
		for _, x := range d.Output(0) {
			sum += x
		}
		mean := sum / float64(d.Len())
		for _, x := range d.Output(0) {
			squares += (x - mean) * (x - mean)
		}
		u := math.Sqrt(squares / float64(d.Len()-1))
		t.Logf("%s: %.3f s ± %.3f s; by draws %.3f s ± %.3f s", id, float64(c.Time), float64(c.U), mean, u)
		if math.Abs(mean-float64(c.Time)) > 0.2*u || math.Abs(u-float64(c.U)) > 0.2*u {
			t.Errorf("%s: %.3f s ± %.3f s; by draws %.3f s ± %.3f s", id, float64(c.Time), float64(c.U), mean, u)
		}
		if c.Longest() < c.Time+2*c.U || c.Longest() > c.Time+2*c.U+0.1 {
			t.Errorf("%s: %v s at the longest", id, c.Longest())
		}
	}
}

// A measured time to open makes the time until the leaf is clear longer in
// proportion; without an operator's sheet nothing is known, and said why; and the
// lip of a long bolt counts beyond 10 degrees.
func TestClearingTakesWhatIsKnown(t *testing.T) {
	j := demoJob(t)
	p := Make(demoOpening(t, j, "107"), &j.Sheets, nil, Options{Draws: 64})
	c := p.Clearing()
	slow := *p
	slow.Facts[fact.PoweredTimeToOpen] = Fact{Known: true, Value: 2 * float64(p.Swing.Power.Usual.Time), Origin: Read}
	if got := slow.Clearing(); math.Abs(float64(got.Time-2*c.Time)) > 1e-9 || math.Abs(float64(got.U-2*c.U)) > 1e-9 {
		t.Errorf("opened in twice the time: %v, then %v", c, got)
	}
	long := *p
	r := *p.Resolved
	long.Resolved = &r
	r.Rows[swing.BoltMeets] = Row{Value: float64(14 * q.Degree), U: float64(q.Degree)}
	if got := long.Clearing(); got.Angle < 16*q.Degree-1e-9 || got.Time <= c.Time {
		t.Errorf("a lip at 14 degrees, give or take one: clear at %v, %v", got.Angle/q.Degree, got.Time)
	}
	bare := *demoOpening(t, j, "107")
	bare.Operator = opening.Operator{}
	got := Make(&bare, &j.Sheets, nil, Options{Draws: 64}).Clearing()
	if got.Known || got.Longest() != 0 || !strings.Contains(got.Words(), "from memory") {
		t.Errorf("without an operator: %+v", got)
	}
}
