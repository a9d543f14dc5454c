package picture

import (
	"strings"
	"testing"

	"swingwright/fact"
	"swingwright/internal/draw"
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/rulebook"
)

// plainSpaces is a text without unbreakable spaces.
func plainSpaces(text string) string { return strings.ReplaceAll(text, "\u00a0", " ") }

// Every limit that the plan holds the shown quantities against is written down,
// with the work it is from and the verdict.
func TestLimitsAreWrittenDown(t *testing.T) {
	// by name, so that no fact that joins the table goes unnoticed
	var inClosing, inHand []fact.ID
	for i := range fact.Table {
		switch f := &fact.Table[i]; {
		case f.Dim == quantity.DimTime && strings.HasPrefix(f.Name, "closing."), fact.ID(i) == fact.ClosePeakEnergy:
			inClosing = append(inClosing, fact.ID(i))
		case f.Dim == quantity.DimTorque && strings.HasPrefix(f.Name, "closer.") && strings.Contains(f.Name, "moment"),
			f.Dim == quantity.DimTorque && strings.HasPrefix(f.Name, "hand.") && fact.ID(i) != fact.HandReleaseTorque:
			inHand = append(inHand, fact.ID(i))
		}
	}
	j, books := demo(t)
	seen := 0
	for i := range j.Openings[:4] {
		p := plan.Make(&j.Openings[i], &j.Sheets, books, quick)
		for _, sys := range systems {
			for _, c := range []struct {
				scene *draw.Scene
				ids   []fact.ID
			}{{Closing(p, sys), inClosing}, {HandForce(p, sys), inHand}} {
				text := words(c.scene)
				for _, f := range limited(p, c.ids...) {
					seen++
					limit := plainSpaces(quantity.Display(f.Rule.Dim(), f.Limit, 0, true, sys))
					for _, want := range []string{limit, f.Book.Work, f.Book.Edition, f.Verdict.String()} {
						if !strings.Contains(text, want) {
							t.Errorf("opening %s, rule %s: the picture lacks %q", p.Opening.ID, f.Rule.ID, want)
						}
					}
				}
			}
		}
	}
	if seen < 50 {
		t.Errorf("only %d limits were looked for", seen)
	}
}

// Limits at other radii than the handle's are drawn with the same moment: 15 lbf
// at 35-7/8 - 1 in on opening 101, whose handle is 2-3/4 in from the latch edge and
// so 33-1/8 in from the pin, are 15·34.875/33.125 = 15.792 lbf there.
func TestForceAtTheHandle(t *testing.T) {
	o, sheets, books := demoOpening(t, "101")
	p := plan.Make(&o, sheets, books, quick)
	for _, l := range forceLimits(p, quantity.Length(p.Resolved.Handle.Value)) {
		if l.finding.Rule.ID == "open-by-hand" && l.finding.Book.Work == "ANSI/BHMA A156.19" {
			if got := float64(l.here / quantity.PoundForce); got < 15.791 || got > 15.793 {
				t.Errorf("15 lbf at 34.875 in are %v lbf at the handle", got)
			}
			return
		}
	}
	t.Error("the limit of 15 lbf is not there")
}

// The time to latch check ends where the latch zone begins if that lies above
// 10 degrees (ANSI/BHMA A156.19, section 4); on opening 101 it was seen at 13.
func TestLatchCheck(t *testing.T) {
	for from, want := range map[quantity.Angle]string{13: "90° to latch check at 13° not before", 8: "90° to 10° not before"} {
		o, sheets, books := demoOpening(t, "101")
		o.Closer.LatchFrom = quantity.Give(from*quantity.Degree, 0)
		if text := words(Closing(plan.Make(&o, sheets, books, quick), quantity.US)); !strings.Contains(text, want) {
			t.Errorf("latch zone from %v°: no %q in %s", float64(from), want, text)
		}
	}
}

// What cannot be shown is said.
func TestWantOfKnowledgeIsSaid(t *testing.T) {
	out := func(inches float64) quantity.Measured[quantity.Length] {
		return quantity.Give(quantity.Length(inches)*quantity.Inch, quantity.Inch/16)
	}
	for name, c := range map[string]struct {
		change              func(*opening.Opening)
		closing, hand, plan string
	}{
		"no closer": {func(o *opening.Opening) { o.Closer = opening.Closer{} },
			"without them the closing cannot be reckoned", "No closer.", "No arm is drawn"},
		"closer without an arm": {func(o *opening.Opening) { o.Closer.Arm = "" },
			"without them the closing cannot be reckoned", "There is a closer", "No arm is drawn"},
		"arm without a spring": {func(o *opening.Opening) {
			o.Closer.Size, o.Closer.Gauged = quantity.Measured[quantity.Ratio]{}, nil
		}, "without them the closing cannot be reckoned", "There is a closer", "Main arm"},
		"arm too short": {func(o *opening.Opening) {
			o.Closer.Pinion = opening.Point{Along: out(6.5), Off: out(2.25)}
			o.Closer.Shoe = opening.Point{Along: out(20), Off: out(1)}
		}, "does not carry the leaf to 90°", "The arm works only to", "works only to"},
		"arm that cannot be put together": {func(o *opening.Opening) {
			o.Closer.Pinion = opening.Point{Along: out(6.5), Off: out(2.25)}
			o.Closer.Shoe = opening.Point{Along: out(35), Off: out(1)}
		}, "without them the closing cannot be reckoned", "There is a closer", "cannot be assembled"},
		"no times": {func(o *opening.Opening) {
			o.Closer.SweepTime, o.Closer.LatchTime = quantity.Measured[quantity.Time]{}, quantity.Measured[quantity.Time]{}
		}, "take the time from 90° to 12°", "opened slowly by hand", "Main arm"},
		"impossible times": {func(o *opening.Opening) { o.Closer.SweepTime = quantity.Give[quantity.Time](0.01, 0.001) },
			"The closing cannot be reckoned", "opened slowly by hand", "Main arm"},
		"no width": {func(o *opening.Opening) {
			o.Leaf.Width, o.Leaf.Nominal = quantity.Measured[quantity.Length]{}, opening.Nominal{}
		}, "", "", "The width of the leaf is not known"},
		"a gale": {func(o *opening.Opening) { o.Air.Most = quantity.Give[quantity.Pressure](150, 0) },
			"At the largest pressure stated, 150 Pa: comes to rest open", "", ""},
		"a name of one word": {func(o *opening.Opening) { o.Name = strings.Repeat("Waiting", 30) + "\nroom" }, "", "", ""},
	} {
		o, sheets, books := demoOpening(t, "101")
		c.change(&o)
		p := plan.Make(&o, sheets, books[:1], quick)
		for _, sys := range systems {
			for i, n := range All(p, sys) {
				text := words(n.Scene)
				if sys == quantity.US {
					text = strings.ReplaceAll(text, "0.6022 in. w.g.", "150 Pa") // 150/249.08891
				}
				if want := []string{c.closing, c.hand, c.plan}[i]; !strings.Contains(text, want) {
					t.Errorf("%s: %s lacks %q: %s", name, n.Name, want, text)
				}
				for _, fault := range faults(n.Scene) {
					t.Errorf("%s: %s in %v: %s", name, n.Name, sys, fault)
				}
			}
		}
	}
}

// An opening of which nothing at all is known has its pictures, too.
func TestEmptyOpening(t *testing.T) {
	p := plan.Make(&opening.Opening{ID: "x"}, &opening.Sheets{}, []*rulebook.Book{}, quick)
	for _, n := range All(p, quantity.SI) {
		for _, fault := range faults(n.Scene) {
			t.Errorf("%s: %s", n.Name, fault)
		}
	}
}

// What must hold has neither a value nor a limit to tell, a reading is told from what
// was reckoned, and a limit that nobody confirmed says so.
func TestOutcomesAreWorded(t *testing.T) {
	latches := &rulebook.Rule{Of: fact.LatchesFrom90, Side: rulebook.MustHold}
	sweep := &rulebook.Rule{Of: fact.CloseTime90To10, Side: rulebook.AtLeast}
	for _, c := range []struct {
		f    plan.Finding
		want string
	}{
		{plan.Finding{Rule: latches, Verdict: judge.Meets, Value: 1, Limit: 1, Origin: plan.Read}, "meets; must hold"},
		{plan.Finding{Rule: latches, Verdict: judge.FallsShort, Value: 0, Limit: 1, Caution: true}, "falls short (limit not confirmed); must hold"},
		{plan.Finding{Rule: sweep, Verdict: judge.FallsShort, Value: 3, Limit: 5, Origin: plan.Read}, "3 s measured, falls short; at least 5 s"},
	} {
		if got := plainSpaces(outcome(&c.f, quantity.SI) + "; " + bound(&c.f, quantity.SI)); got != c.want {
			t.Errorf("got  %s\nwant %s", got, c.want)
		}
	}
}
