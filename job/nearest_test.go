package job

import (
	"testing"

	"pgregory.net/rapid"
)

// Distances by hand: kitten to sitting is the classic of Levenshtein (two
// replaced, one inserted); neighbours exchanged count once (Damerau 1964).
func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"", "", 0}, {"", "abc", 3}, {"width", "width", 0}, {"kitten", "sitting", 3}, {"widht", "width", 1}, {"hieght", "height", 1}, {"ca", "abc", 3},
	} {
		if got := distance(c.a, c.b); got != c.want {
			t.Errorf("from %q to %q are %d steps, want %d", c.a, c.b, got, c.want)
		}
	}
}

func TestDistanceIsAMeasure(t *testing.T) {
	word := rapid.StringOfN(rapid.RuneFrom([]rune("abc")), 0, 6, -1)
	rapid.Check(t, func(t *rapid.T) {
		a, b := word.Draw(t, "a"), word.Draw(t, "b")
		d := distance(a, b)
		if d != distance(b, a) || (d == 0) != (a == b) || d > max(len(a), len(b)) || d < max(len(a), len(b))-min(len(a), len(b)) {
			t.Errorf("from %q to %q are %d steps", a, b, d)
		}
	})
}

func TestNearest(t *testing.T) {
	names := []string{"width", "height", "weight", "sweep_time", "LH", "RH", "LHR"}
	for word, want := range map[string]string{
		"widht": "width", "Sweep-Time": "sweep_time", "lh": "LH", "wieght": "weight", "colour": "", "": "", "--": "",
	} {
		if got := Nearest(word, names); got != want {
			t.Errorf("nearest to %q is %q, want %q", word, got, want)
		}
	}
}
