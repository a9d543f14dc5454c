package picture

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"swingwright/internal/draw"
)

// However a line runs, it keeps its ends, and what is left out lies on what is left.
func TestThinnedStaysInPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var line []draw.Point
		for i := range rapid.IntRange(2, 60).Draw(t, "points") {
			line = append(line, draw.Point{X: float64(i), Y: rapid.Float64Range(-0.1, 0.1).Draw(t, "y")})
		}
		got := thinned(line)
		if got[0] != line[0] || got[len(got)-1] != line[len(line)-1] {
			t.Fatalf("the ends have moved: %v to %v", got[0], got[len(got)-1])
		}
		for _, p := range line {
			least := math.Inf(1)
			for i := 1; i < len(got); i++ {
				least = min(least, apart(p, got[i-1], got[i]))
			}
			if least > flat {
				t.Errorf("%v lies %v mm off", p, least)
			}
		}
	})
}

// A straight line needs two points; a corner is kept.
func TestThinnedLeavesOut(t *testing.T) {
	var line []draw.Point
	for i := range 11 {
		line = append(line, draw.Point{X: float64(i), Y: math.Abs(float64(i - 5))})
	}
	if got := thinned(line); len(got) != 3 || got[1] != line[5] {
		t.Errorf("a corner comes to %v", got)
	}
}
