package plan

import (
	"math"
	"strings"
	"testing"

	"swingwright/fact"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/window"
)

func windowOf(t *testing.T, p *Plan, sheets *opening.Sheets) *Window {
	t.Helper()
	w, err := p.Window(sheets)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// At the window's upper edge for a limit on the hand, a plan made anew with the
// closer set to that power finds the very limit: 15 lbf where the standard gauges
// it, 1 in from the latch edge (ANSI/BHMA A156.19-2007, 4.6). Edges are found to
// 1e-4 of the span of powers, of which a whole one here is some 2.5 lbf.
func TestWindowEdgeIsWhereThePlanMeetsTheLimit(t *testing.T) {
	j, books := clinic(t)
	o := *demoOpening(t, j, "102")
	o.Operator = opening.Operator{} // the window is the closer's by itself
	w := windowOf(t, Make(&o, &j.Sheets, books, Options{}), &j.Sheets)
	for _, h := range w.Held {
		if h.Demand.Name != "a156.19-2007 open-by-hand" {
			continue
		}
		o.Closer.Size = q.Exactly(h.Span.High)
		p := Make(&o, &j.Sheets, books, Options{})
		got := p.Facts[fact.HandToOpen].Value / (p.Facts[fact.LatchEdge].Value - float64(q.Inch))
		if want := float64(15 * q.PoundForce); math.Abs(got-want) > 0.01 {
			t.Errorf("at power %.4f the leaf opens with %.3f N, want %.3f", float64(h.Span.High), got, want)
		}
		return
	}
	t.Error("the limit on opening by hand was not put")
}

// What the window promises at its best setting, a plan made anew for that setting
// and those times finds too.
func TestBestSettingIsWhatThePlanFinds(t *testing.T) {
	j, books := clinic(t)
	o := *demoOpening(t, j, "102")
	o.Operator = opening.Operator{}
	o.Air.Surveyed = o.Air.Temperature // times are taken with the oil as it is reckoned with
	w := windowOf(t, Make(&o, &j.Sheets, books, Options{}), &j.Sheets)
	if !w.Open() || !(w.Sweep[0] < w.Sweep[1] && w.Latch[0] < w.Latch[1]) {
		t.Fatalf("no setting, or valves without room: %+v", w)
	}
	o.Closer.Size = q.Exactly(w.Best.Power.Setting)
	o.Closer.SweepTime = q.Exactly(w.Marks[1].Time)
	o.Closer.LatchTime = q.Exactly(w.Marks[3].Time - w.Marks[1].Time)
	p := Make(&o, &j.Sheets, books, Options{})
	for id, want := range map[fact.ID]float64{
		fact.CloseTime90To10:     float64(w.Marks[2].Time),
		fact.CloseTime90ToClosed: float64(w.Marks[3].Time),
		fact.HandToStart:         float64(w.HandStart) * p.Resolved.Handle.Value,
	} {
		if got := p.Facts[id].Value; math.Abs(got-want) > 0.01*want {
			t.Errorf("%v is %.3f, promised %.3f", id, got, want)
		}
	}
	for i := range p.Findings {
		if f := &p.Findings[i]; strings.HasPrefix(f.Rule.ID, "close-") && f.Margin < 0 {
			t.Errorf("%s is missed by %g at the best setting", f.Rule.ID, -f.Margin)
		}
	}
}

// Opening 103 stands against 34.9 Pa (0.14 in. w.g.), more than any power shuts
// against; opening 105 has no arm to reckon with.
func TestNoWindow(t *testing.T) {
	j, _ := clinic(t)
	w := windowOf(t, demoPlan(t, "103"), &j.Sheets)
	if w.Open() || len(w.Conflicts) == 0 || len(w.Changes) == 0 || w.Changes[0].Kind != window.LessPressure || !w.Changes[0].Opens {
		t.Errorf("opening 103: %+v", w)
	}
	w = windowOf(t, demoPlan(t, "105"), &j.Sheets)
	if len(w.Missing) == 0 || len(w.Left) == 0 {
		t.Errorf("opening 105 lacks its arm, found missing: %q, left: %q", w.Missing, w.Left)
	}
}

// At opening 112 the 5 lbf by hand (ADA Standards 2010, 404.2.9) and latching against
// the fans exclude each other, and each of the two is named.
func TestNoWindowByHandAndLatch(t *testing.T) {
	j, _ := clinic(t)
	w := windowOf(t, demoPlan(t, "112"), &j.Sheets)
	var names []string
	for _, c := range w.Conflicts {
		for _, g := range c.Of {
			names = append(names, g.Demand.Name)
		}
	}
	all := strings.Join(names, "; ")
	if w.Open() || !strings.Contains(all, "ada-2010 opening-force") || !strings.Contains(all, "latches-from-5") {
		t.Errorf("open %v, conflicts %s", w.Open(), all)
	}
}

// An add-on operator's paper bounds the power, and a limit that two books share is
// one demand with both sources.
func TestDemandsArePutOnce(t *testing.T) {
	p := demoPlan(t, "102")
	all, _ := p.demands()
	operator := 0
	for i, d := range all {
		if strings.HasPrefix(d.Source, "limits of use") {
			operator++
		}
		if d.Source == "" || d.What == "" {
			t.Errorf("%s has no source or no words", d.Name)
		}
		for _, e := range all[:i] {
			if e.Kind == d.Kind && e.From == d.From && e.To == d.To && e.At == d.At && e.Limit == d.Limit && e.Pressure == d.Pressure {
				t.Errorf("%s and %s ask for the same", e.Name, d.Name)
			}
		}
	}
	if operator != 2 {
		t.Errorf("%d demands from the operator's limits of use, want 2", operator)
	}
}
