package quantity

import (
	"math"
	"strings"
	"testing"
)

// The trade's notation (from memory): first two digits width in feet and
// inches, last two height. Lengths are exact in metres.
func TestParseNominal(t *testing.T) {
	for _, c := range []struct {
		text          string
		width, height Length
	}{
		{"3070", 0.9144, 2.1336}, {" 3070 ", 0.9144, 2.1336}, {"2868", 0.8128, 2.032}, {"4080", 1.2192, 2.4384},
		{"3-0×7-0", 0.9144, 2.1336}, {"3-0 x 7-0", 0.9144, 2.1336}, {"3-0X7-0", 0.9144, 2.1336}, {"3-0 by 7-0", 0.9144, 2.1336},
		{`3'-0" x 7'-0"`, 0.9144, 2.1336}, {`3'0" × 7'0"`, 0.9144, 2.1336}, {"3′-0″ × 7′-0″", 0.9144, 2.1336},
		{"3'-0 x 7'-0", 0.9144, 2.1336}, {"3 ft 0 in x 7 ft 0 in", 0.9144, 2.1336}, {"2-10 x 7-0", 0.8636, 2.1336},
		{"3-6 x 6-11", 1.0668, 2.1082}, {`36" x 84"`, 0.9144, 2.1336}, {"914 mm x 2134 mm", 0.914, 2.134}, {"3-0\u2009x\u20097-0", 0.9144, 2.1336},
		{`2'-8 1/2" x 7'-0"`, 0.8255, 2.1336},
	} {
		width, height, err := ParseNominal(c.text)
		if err != nil || width != c.width || height != c.height {
			t.Errorf("ParseNominal(%q) = %v, %v, %v; want %v, %v", c.text, width, height, err, c.width, c.height)
		}
	}
}

func TestParseNominalErrors(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "it is blank"}, {"0070", "write 3070 or 3-0 x 7-0"}, {"307", "write 3070 or 3-0 x 7-0"},
		{"30700", "write 3070 or 3-0 x 7-0"}, {"3-0", "it does not give a width and a height"},
		{"3-0 x 7-0 x 2-0", "it does not give a width and a height"}, {"3-12 x 7-0", `"3-12" is not a length`},
		{"3-0 x 7", `"7" is not a length: it has no unit`}, {"900 x 2100", `"900" is not a length: it has no unit`},
		{"900 x 2100", `"900" is not a length: it has no unit and "2100" is not a length: it has no unit`},
		{"0 mm x 2134 mm", `"0 mm" is not above zero`}, {"-914 mm x 2134 mm", `"-914 mm" is not above zero`},
		{"914 mm ± 2 mm x 2134 mm", "a nominal size has no spread"}, {"3-0 x 7-0 lb", "lb is a mass"},
	} {
		width, height, err := ParseNominal(c.text)
		if err == nil || width != 0 || height != 0 {
			t.Errorf("ParseNominal(%q) = %v, %v, %v; want an error alone", c.text, width, height, err)
			continue
		}
		if !strings.Contains(err.Error(), "is not a nominal size: ") || !strings.Contains(err.Error(), c.want) {
			t.Errorf("ParseNominal(%q): %v; want it to say %s", c.text, err, c.want)
		}
	}
}

func FuzzParseNominal(f *testing.F) {
	for _, text := range []string{"3070", "3-0×7-0", `3'-0" x 7'-0"`, "914 mm x 2134 mm", "3-12x7-0", "x", "", "by"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		width, height, err := ParseNominal(text)
		fine := width > 0 && height > 0 && !math.IsInf(float64(width+height), 0)
		if (err == nil) != fine {
			t.Fatalf("%q: %v by %v, %v", text, width, height, err)
		}
	})
}
