package draw

import "testing"

// The fonts have Latin, Greek and Cyrillic letters, and none of China, Japan and Korea.
func TestLacking(t *testing.T) {
	for _, c := range []struct{ text, lacking, printed string }{
		{"Harbour St. 12", "", "Harbour St. 12"},
		{"Gärtnerstraße, Łódź, ½ × 3″", "", "Gärtnerstraße, Łódź, ½ × 3″"},
		{"Οδός, Улица", "", "Οδός, Улица"},
		{"門 A 大門", "大門", "? A ??"},
	} {
		if got := string(Lacking(c.text)); got != c.lacking {
			t.Errorf("%q lacks %q, want %q", c.text, got, c.lacking)
		}
		if got := Printable(c.text); got != c.printed {
			t.Errorf("%q is printed as %q, want %q", c.text, got, c.printed)
		}
	}
}

// A letter without a picture is as wide as what stands in its place, and a scene tells of it.
func TestSceneTellsOfLetters(t *testing.T) {
	if a, b := (Text{Body: "門1", Height: 3}).Width(), (Text{Body: InPlace + "1", Height: 3}).Width(); a != b {
		t.Errorf("%v mm, and %v mm as printed", a, b)
	}
	s := &Scene{Items: []Item{Text{Body: "門 A"}, Line(Point{}, Point{X: 1}, Style{}), Text{Body: "大門"}}}
	if got := string(s.Lacking()); got != "大門" {
		t.Errorf("the scene lacks %q", got)
	}
}
