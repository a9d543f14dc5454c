package draw

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	_ "swingwright/internal/steady"
)

var unit = Box{Point{0, 0}, Point{1, 1}}

func TestClip(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		name string
		line []Point
		want [][]Point
	}{
		{"inside", []Point{{0.1, 0.2}, {0.3, 0.4}}, [][]Point{{{0.1, 0.2}, {0.3, 0.4}}}},
		{"through", []Point{{-1, 0.5}, {3, 0.5}}, [][]Point{{{0, 0.5}, {1, 0.5}}}},
		{"out and in again", []Point{{0.5, 0.5}, {0.5, 2}, {0.75, 2}, {0.75, 0}},
			[][]Point{{{0.5, 0.5}, {0.5, 1}}, {{0.75, 1}, {0.75, 0}}}},
		{"beside", []Point{{2, 0}, {2, 1}}, nil},
		{"past the corner", []Point{{0.9, 2}, {2, 0.9}}, nil},
		{"a gap", []Point{{0.1, 0.1}, {0.2, 0.1}, {nan, 0.1}, {0.4, 0.1}, {0.5, 0.1}},
			[][]Point{{{0.1, 0.1}, {0.2, 0.1}}, {{0.4, 0.1}, {0.5, 0.1}}}},
		{"to infinity", []Point{{0.1, 0.1}, {math.Inf(1), 0.1}}, nil},
		{"one point", []Point{{0.1, 0.1}}, nil},
	} {
		got := unit.clip(c.line)
		if len(got) != len(c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
			continue
		}
		for i := range got {
			for k := range got[i] {
				if len(got[i]) != len(c.want[i]) || math.Hypot(got[i][k].X-c.want[i][k].X, got[i][k].Y-c.want[i][k].Y) > 1e-15 {
					t.Errorf("%s: %v, want %v", c.name, got, c.want)
				}
			}
		}
	}
}

// TestClipKeepsWhatIsInside walks along random lines and compares place by place.
func TestClipKeepsWhatIsInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		coordinate := rapid.Float64Range(-1, 2)
		a := Point{coordinate.Draw(t, "ax"), coordinate.Draw(t, "ay")}
		b := Point{coordinate.Draw(t, "bx"), coordinate.Draw(t, "by")}
		length := 0.
		for _, run := range unit.clip([]Point{a, b}) {
			length += math.Hypot(run[1].X-run[0].X, run[1].Y-run[0].Y)
		}
		const steps = 2000
		inside := 0
		for i := range steps {
			u := (float64(i) + 0.5) / steps
			if x, y := a.X+u*(b.X-a.X), a.Y+u*(b.Y-a.Y); x >= 0 && x <= 1 && y >= 0 && y <= 1 {
				inside++
			}
		}
		whole := math.Hypot(b.X-a.X, b.Y-a.Y)
		if math.Abs(length-whole*float64(inside)/steps) > 2*whole/steps {
			t.Fatalf("kept %v of %v, counted %v", length, whole, whole*float64(inside)/steps)
		}
	})
}
