package plan

import (
	"math"
	"testing"

	"swingwright/fact"
	q "swingwright/quantity"
	"swingwright/swing"
)

// A changed opening keeps the closer as it was found: its gauged spring goes with
// the power set, its valves stay, and what does not change comes out the same.
func TestInPlaceOfKeepsTheCloser(t *testing.T) {
	j, books := clinic(t)
	o := demoOpening(t, j, "104") // gauged at power 6, closing times found
	base := Make(o, &j.Sheets, books, Options{Draws: 64})
	opt := Options{Draws: 64, InPlaceOf: base}

	same := *o
	same.Readings = nil
	p := Make(&same, &j.Sheets, books, opt)
	for _, id := range []fact.ID{fact.CloseTime90To12, fact.CloseTime10ToClosed, fact.LatchMargin, fact.HandToOpen} {
		a, b := base.Facts[id], p.Facts[id]
		if math.Abs(a.Value-b.Value) > 1e-3*math.Abs(a.Value) { // the fit's own tolerance
			t.Errorf("nothing was changed, and %v went from %g to %g", id, a.Value, b.Value)
		}
	}

	weaker := same
	weaker.Closer.Size = q.Exactly(q.Ratio(4))
	p = Make(&weaker, &j.Sheets, books, opt)
	sheet := j.Sheets.Closer(o.Closer.Sheet)
	now, _, _ := powerAt(sheet, weaker.Closer.Size)
	before, _, _ := powerAt(sheet, o.Closer.Size)
	want := base.Resolved.Rows[swing.SpringClosed].Value * float64(now.Value/before.Value)
	if got := p.Resolved.Rows[swing.SpringClosed].Value; math.Abs(got-want) > 1e-12*want {
		t.Errorf("spring at power 4 is %g N·m, want %g: as gauged at 6, in proportion to the sheet", got, want)
	}
	if a, b := base.Swing.Sweep, p.Swing.Sweep; a != b {
		t.Errorf("the sweep valve went from %g to %g", a, b)
	}
	if a, b := base.Facts[fact.CloseTime90To12].Value, p.Facts[fact.CloseTime90To12].Value; !(b > a) {
		t.Errorf("with a weaker spring and the same valves it closes in %g s after %g s", b, a)
	}
}

// A change that turns the valves to where the window reckons them closes in the time that
// the window foretells; where it was counted how they were found, they go on from there.
func TestInPlaceOfTurnsTheValves(t *testing.T) {
	j, books := clinic(t)
	o := demoOpening(t, j, "102")
	base := Make(o, &j.Sheets, books, Options{Draws: 64})
	w, err := base.Window(&j.Sheets)
	if err != nil || !w.Open() {
		t.Fatalf("no window: %v", err)
	}
	set := *o
	set.Closer.Size = q.Exactly(w.Best.Power.Setting)
	set.Closer.SweepTurns, set.Closer.LatchTurns = q.Exactly(w.SweepSet), q.Exactly(w.LatchSet)
	p := Make(&set, &j.Sheets, books, Options{Draws: 64, InPlaceOf: base})
	want := float64(w.Marks[1].Time - w.Marks[0].Time)
	if got := p.Facts[fact.CloseTime90To12].Value; math.Abs(got-want) > 0.01*want {
		t.Errorf("90 to 12 degrees take %.3f s, by the window %.3f s", got, want)
	}

	counted := *o
	counted.Closer.SweepTurns, counted.Closer.LatchTurns = q.Exactly(q.Turns(1.5)), q.Exactly(q.Turns(1))
	base = Make(&counted, &j.Sheets, books, Options{Draws: 64})
	closed := counted
	closed.Closer.SweepTurns = q.Exactly(q.Turns(0.75))
	p = Make(&closed, &j.Sheets, books, Options{Draws: 64, InPlaceOf: base})
	shut := j.Sheets.Closer(o.Closer.Sheet).Sweep.Shut.Value
	ratio := float64((1.5 - shut) / (0.75 - shut))
	if got, want := p.Swing.Sweep, base.Swing.Sweep*ratio; math.Abs(got-want) > 1e-9*want {
		t.Errorf("half as far open the sweep valve has %g N·m·s/rad, want %g", got, want)
	}
	if a, b := base.Swing.Latch, p.Swing.Latch; a != b {
		t.Errorf("nobody turned the latch valve, and it went from %g to %g", a, b)
	}
}
