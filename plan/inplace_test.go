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
