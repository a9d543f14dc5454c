package quantity

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Gaps between the parts of a quantity may be left out (␣) or are needed (_);
// how wide they are must not matter.
func TestParseIgnoresSpacing(t *testing.T) {
	forms := []struct {
		d    Dimension
		form string
	}{
		{DimLength, `␣3␣'␣-␣0␣"␣`}, {DimLength, `-␣3␣ft␣0_1␣/␣2␣in`}, {DimLength, "35_3␣/␣4␣in␣±␣1␣/␣16␣in"},
		{DimLength, "35␣-␣3␣/␣4␣in"}, {DimMass, "120␣lb␣±␣5␣kg"}, {DimMass, "(␣120␣±␣5␣)␣lb"}, {DimForce, "22,5␣N␣±␣10␣%"},
		{DimTorque, "12␣in␣-␣lbf"}, {DimTorque, "12␣N_m"}, {DimArealDensity, "3.27␣lb␣/␣ft²"}, {DimArealDensity, "3_lb_per_sq_ft"},
		{DimPressure, "0.05␣in.␣w.g."}, {DimTemperature, "20␣°␣C"}, {DimTurns, "1_1␣/␣4␣turns"}, {DimRatio, "35␣%␣±␣5␣%"},
		{DimTime, "1␣h␣5␣min␣3␣s"},
	}
	gap := rapid.SampledFrom([]string{" ", "  ", "\t", "\u00a0", "\u2009", "\u202f", " \u2003"})
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.SampledFrom(forms).Draw(t, "form")
		var text strings.Builder
		for _, r := range c.form {
			switch {
			case r == '_', r == '␣' && rapid.Bool().Draw(t, "gap"):
				text.WriteString(gap.Draw(t, "width"))
			case r != '␣':
				text.WriteRune(r)
			}
		}
		want, wantU, _, err := ParseAs(c.d, strings.NewReplacer("␣", "", "_", " ").Replace(c.form))
		if err != nil {
			t.Fatal(err)
		}
		if got, u, _, err := ParseAs(c.d, text.String()); err != nil || got != want || u != wantU {
			t.Fatalf("ParseAs(%q) = %v ± %v, %v; want %v ± %v", text.String(), got, u, err, want, wantU)
		}
	})
}

// A decimal number is read to the nearest float64, as strconv reads it, when
// the unit is the SI unit itself; a point and a comma mean the same.
func TestParseReadsDecimalsAsGoDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[0-9]{1,12}(\.[0-9]{1,2})?(e-?[0-9])?`).Draw(t, "text")
		want, err := strconv.ParseFloat(text, 64)
		if err != nil {
			t.Fatal(err)
		}
		for _, text := range []string{text, strings.Replace(text, ".", ",", 1)} {
			if got, err := Parse[Force](text + " N"); err != nil || float64(got.Value) != want {
				t.Fatalf("Parse(%q) = %v, %v; want %v", text+" N", got.Value, err, want)
			}
		}
	})
}

// Sixteenths of an inch are exact in binary, so feet and inches, a mixed number
// and a decimal must give the same bits.
func TestParseWritesOfOneLengthAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		feet := rapid.IntRange(0, 20).Draw(t, "feet")
		inches := rapid.IntRange(0, 11).Draw(t, "inches")
		part := rapid.IntRange(0, 15).Draw(t, "sixteenths")
		whole := strconv.Itoa(12*feet + inches)
		fraction := strconv.Itoa(part) + "/16"
		decimal := strconv.FormatFloat(float64(12*feet+inches)+float64(part)/16, 'f', -1, 64)
		var first Length
		for i, text := range []string{
			decimal + " in",
			whole + "-" + fraction + " in",
			strconv.Itoa(feet) + "'-" + strconv.Itoa(inches) + " " + fraction + `"`,
			strconv.Itoa(feet) + " ft " + strconv.Itoa(inches) + "-" + fraction + " in",
		} {
			got, err := Parse[Length](text)
			if err != nil {
				t.Fatal(err)
			}
			if i == 0 {
				first = got.Value
			}
			if got.Value != first {
				t.Fatalf("%q = %v, %q = %v", decimal+" in", first, text, got.Value)
			}
		}
	})
}

// Whatever is read is a finite value or an error, never both and never neither.
func FuzzParse(f *testing.F) {
	for _, text := range []string{
		"36 in", `3'-0 1/2"`, "35¾″ ± 1/16", "914,4 mm", "120 lb ± 5 kg", "(120 ± 5) lb", "20 °C ± 2 K", "35 % ± 5 %",
		"1-1/4 turns", "3 lb per sq. ft.", "0.05 in. w.g.", "12 in-lbf/deg", "3 N·m·s²/rad²", "1e-30 m²/s", "nan", "inf N",
		"0x1p-2 m", "1_0 s", "±", "( )", "°", "1/0", "5ft2in", "..", "-", "9e30 %", strings.Repeat("9", 200), "1\xff",
	} {
		for _, d := range Dimensions() {
			f.Add(uint8(d), text)
		}
	}
	f.Fuzz(func(t *testing.T, d uint8, text string) {
		value, u, stated, err := ParseAs(Dimension(d), text)
		if err != nil {
			if value != 0 || u != 0 || stated || err.Error() == "" {
				t.Fatalf("%q: %v, %v, %v beside the error %v", text, value, u, stated, err)
			}
			return
		}
		if math.IsNaN(value) || math.IsInf(value, 0) || math.IsNaN(u) || math.IsInf(u, 0) || u < 0 || (u > 0 && !stated) {
			t.Fatalf("%q was read as %v with %v, stated %v", text, value, u, stated)
		}
		for s := range systems {
			if Display(Dimension(d), value, u, true, s) == "" {
				t.Fatalf("%q is printed as nothing in %s", text, s)
			}
		}
	})
}

func BenchmarkParse(b *testing.B) {
	for _, c := range []struct {
		name string
		d    Dimension
		text string
	}{
		{"decimal", DimLength, "914.4 mm"},
		{"feet and inches", DimLength, `3'-0 1/2"`},
		{"spread", DimMass, "120 lb ± 5 kg"},
		{"product", DimTorque, "12 in-lbf"},
		{"refused", DimForce, "5 lb"},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, _, _, err := ParseAs(c.d, c.text); (err != nil) != (c.name == "refused") {
					b.Fatal(err)
				}
			}
		})
	}
}
