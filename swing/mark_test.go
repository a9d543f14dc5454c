package swing

import (
	"math"
	"testing"

	"swingwright/quantity"
)

func TestMarksStandInFallingOrderOnce(t *testing.T) {
	var marks []Mark
	for _, a := range []quantity.Angle{0.2, 1.5, 0, 0.2, 0.7, 1.5} {
		marks = WithMark(marks, a)
	}
	for i, want := range []quantity.Angle{1.5, 0.7, 0.2, 0} {
		if i >= len(marks) || marks[i].Angle != want {
			t.Fatalf("marks are %v, want 1.5, 0.7, 0.2 and 0", marks)
		}
		marks[i].Time = quantity.Time(i)
	}
	if len(marks) != 4 || PassedAt(marks, 0.2) != 2 || !math.IsNaN(float64(PassedAt(marks, 0.3))) {
		t.Errorf("marks %v: 0.2 is passed at %v and 0.3 at %v, want 2 and never", marks, PassedAt(marks, 0.2), PassedAt(marks, 0.3))
	}
}
