package window

import (
	"math"
	"testing"

	"swingwright/quantity"
)

// At the setting recommended the values are those told with it; elsewhere a demand's
// margin is above zero just where it is kept.
func TestValuesAnywhere(t *testing.T) {
	ask := everyKind()
	a := find(t, &ask)
	var f Finder
	b := a.Best
	got, err := f.At(&ask, b.Power.Setting, b.SweepSet, b.LatchSet)
	if err != nil {
		t.Fatal(err)
	}
	for i := range got {
		off := math.Abs(got[i].Value - b.Kept[i].Value)
		if limit := 0.03 * max(1, math.Abs(b.Kept[i].Value)); !(off <= limit) {
			t.Errorf("%s: %g, with the setting %g", got[i].Demand.Name, got[i].Value, b.Kept[i].Value)
		}
	}
	kept, missed := 0, 0
	for _, setting := range []quantity.Ratio{1, 2.2, 3.5, 5} {
		for _, share := range []quantity.Damping{0.4, 1, 2} {
			got, err := f.At(&ask, setting, share*b.SweepSet, share*b.LatchSet)
			if err != nil {
				t.Fatal(err)
			}
			for i := range got {
				want := keptAt(t, &exact, &ask, &ask.Demands[i], setting, share*b.SweepSet, share*b.LatchSet)
				if near := math.Abs(got[i].Margin) < 0.02*max(1, math.Abs(got[i].Value)); (got[i].Margin >= 0) != want && !near {
					t.Errorf("%s at %g with %g times the resistances: margin %g, kept %v", got[i].Demand.Name, float64(setting), float64(share), got[i].Margin, want)
				}
				if want {
					kept++
				} else {
					missed++
				}
			}
		}
	}
	if kept < 20 || missed < 20 {
		t.Errorf("only %d kept and %d missed", kept, missed)
	}
	if _, err := f.At(&ask, 3, 0, 1); err == nil {
		t.Error("a valve without resistance was taken")
	}
	if _, err := f.At(&Question{}, 3, 1, 1); err == nil {
		t.Error("an empty question was answered")
	}
}
