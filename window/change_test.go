package window

import (
	"math"
	"slices"
	"testing"

	"swingwright/quantity"
	"swingwright/swing"
)

// tight is an opening that several changes can open.
func tight() Question {
	ask := excluded()
	for i := 2; i < 5; i++ {
		ask.Demands[i].Limit = 6
	}
	ask.Values[swing.SealStiffness] = 90
	ask.Values[swing.HingeFriction] = 0.9
	lighter := Arm{Name: "longer arm", Values: ask.Values, Link: ask.Link}
	lighter.Values[swing.CloserLoss] = 0.15 // stands for any arm that closes better
	worse := Arm{Name: "worse arm", Values: ask.Values, Link: ask.Link}
	worse.Values[swing.CloserLoss] = 0.35
	ask.Arms = []Arm{worse, lighter}
	return ask
}

// Every change that is said to open a window does, and a little less of it does
// not. With a hundredth more all is kept by motions followed anew, closely: on the
// very edge a leaf may be carried over the place where it should come to rest within
// a step of the integration.
func TestChangesJustOpenAWindow(t *testing.T) {
	ask := tight()
	var f Finder
	f.mover.Exact = true
	a, err := f.Find(&ask)
	if err != nil {
		t.Fatal(err)
	}
	if a.Open() {
		t.Fatal("there is a window before any change")
	}
	opened := 0
	for _, c := range a.Changes {
		if c.Kind == OtherArm || !c.Opens {
			continue
		}
		opened++
		less := ask.changed(c.Kind, float64(c.Share)-2*sharePrecision*max(1, float64(c.Share)))
		f.begin(less)
		if f.open(setOf(less.Demands)) {
			t.Errorf("%v: less than %.4f would do", c.Kind, float64(c.Share))
		}
		changed := ask.changed(c.Kind, float64(c.Share))
		f.begin(changed)
		if !f.open(setOf(changed.Demands)) {
			t.Errorf("%v by %.4f does not open a window", c.Kind, float64(c.Share))
		}
		changed = ask.changed(c.Kind, min(1, float64(c.Share)+1e-2))
		f.begin(changed)
		s := setOf(changed.Demands)
		least := f.decide(s, c.Window.High, make([]bool, len(s.demands)), true)
		for i := range changed.Demands {
			if !keptAt(t, &exact, changed, &changed.Demands[i], c.Window.High, quantity.Damping(math.Exp(least[0])), quantity.Damping(math.Exp(least[1]))) {
				t.Errorf("%v by %.4f: %s is not kept at %.4f", c.Kind, float64(c.Share), changed.Demands[i].Name, float64(c.Window.High))
			}
		}
		if got := math.Abs(c.To-c.From) / c.From; math.Abs(got-float64(c.Share)) > 1e-9 {
			t.Errorf("%v from %g to %g is no share of %g", c.Kind, c.From, c.To, float64(c.Share))
		}
	}
	if opened < 4 {
		t.Errorf("only %d changes open a window; make the opening less tight: %+v", opened, a.Changes)
	}
	for i := 1; i < opened; i++ {
		if a.Changes[i-1].Share > a.Changes[i].Share {
			t.Error("changes are not in order of size")
		}
	}
	arm := slices.IndexFunc(a.Changes, func(c Change) bool { return c.Arm == "longer arm" })
	if arm != opened || !a.Changes[arm].Opens {
		t.Errorf("the arm that helps stands at %d of %+v", arm, a.Changes)
	}
	if last := a.Changes[len(a.Changes)-1]; last.Opens {
		t.Errorf("%v stands last and opens", last.Kind)
	}
	// Waived are the limits that the setting exceeds.
	for _, c := range a.Changes {
		if c.Kind == HigherForces && !slices.Equal(c.Waived, []string{"open"}) {
			t.Errorf("waived %v, want open alone", c.Waived)
		}
	}
}
