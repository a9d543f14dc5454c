package swing

import (
	"math"
	"testing"

	"swingwright/quantity"
)

// Fitted to times, the model closes in them; refitted once to times and a
// spring that differ, it still does, within half a percent.
func TestFitValvesGivesTheTimesFound(t *testing.T) {
	v, link := typical()
	var mv Mover
	m, err := New(&v, link)
	if err != nil {
		t.Fatal(err)
	}
	fit, err := mv.FitValves(&m, Found{Sweep: 5.8, Latch: 2.2})
	if err != nil {
		t.Fatal(err)
	}
	got, ok := timesOf(&mv, &m)
	if !ok || math.Abs(got[0]-5.8) > 1e-5 || math.Abs(got[1]-2.2) > 1e-5 {
		t.Errorf("fitted model closes in %v, want 5.8 s and 2.2 s", got)
	}
	v = *m.Values()
	v[SpringClosed] *= 1.15
	v[SlabMass] *= 0.9
	other, err := New(&v, link)
	if err != nil {
		t.Fatal(err)
	}
	marks := foundMarks()
	if !mv.Refit(&other, &fit, Found{Sweep: 6, Latch: 2}, Guess{}, marks[:]).Closed {
		t.Fatal("refit: does not close")
	}
	got, _ = timesOf(&mv, &other)
	if math.Abs(got[0]/6-1) > 0.005 || math.Abs(got[1]/2-1) > 0.02 {
		t.Errorf("refitted model closes in %v, want 6 s within 0.5 %% and 2 s within 2 %%", got)
	}
	t.Log(got, m.Values()[SweepViscous], m.Values()[LatchViscous])
}

func TestFitValvesRefusesALeafThatDoesNotClose(t *testing.T) {
	v, link := typical()
	v[Pressure] = 200 * float64(quantity.Pascal)
	m, err := New(&v, link)
	if err != nil {
		t.Fatal(err)
	}
	var mv Mover
	if _, err := mv.FitValves(&m, Found{Sweep: 6, Latch: 2}); err != errDoesNotClose {
		t.Errorf("got %v, want %v", err, errDoesNotClose)
	}
}

// timesOf are those of a Found, s, for the model as it is.
func timesOf(mv *Mover, m *Model) (t [2]float64, ok bool) {
	marks := foundMarks()
	ok = mv.Close(m, marksFound[0], marks[:]).End.Shut()
	sweep := float64(marks[1].Time)
	return [2]float64{sweep, float64(marks[2].Time) - sweep}, ok
}
