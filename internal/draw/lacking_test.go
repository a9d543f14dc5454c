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
