package quantity

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	_ "swingwright/internal/steady"
)

// anyValue draws a dimension and a value in SI that has 1e-9 to 1e9 of the
// dimension's units.
func anyValue(t *rapid.T) (Dimension, float64) {
	d := Dimension(rapid.IntRange(0, int(dimensions)-1).Draw(t, "dimension"))
	number := math.Exp(rapid.Float64Range(math.Log(1e-9), math.Log(1e9)).Draw(t, "log"))
	if rapid.Bool().Draw(t, "negative") && d != DimTemperature {
		number = -number
	}
	return d, shown[d][SI].toSI(number, 1)
}

// Without a spread, the text keeps the decimals of the unit and three digits
// at least; a fraction may stray by 0.0025.
func TestFormatThenParseWithoutSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, value := anyValue(t)
		for s := range systems {
			u := shown[d][s]
			text := Display(d, value, 0, true, s)
			got, spread, stated, err := ParseAs(d, text)
			if err != nil || stated || spread != 0 {
				t.Fatalf("%s: %v, %v, %v", text, spread, stated, err)
			}
			number := u.fromSI(value)
			place := math.Min(math.Pow10(-u.places), math.Pow10(int(math.Floor(math.Log10(math.Abs(number))))-2))
			if d == DimLength && s == US || d == DimTurns {
				place = math.Max(place, 0.005) // 0.002 to the third decimal
			}
			if off := math.Abs(u.fromSI(got) - number); off > 0.5001*place+1e-12*math.Abs(number) {
				t.Fatalf("%v %s is printed as %s, off by %v", number, u.symbol, text, off)
			}
		}
	})
}

// With a spread, two digits of it are kept: it moves by a twentieth at most,
// and the value by no more than that. US and SI tell the same value.
func TestFormatThenParseWithSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, value := anyValue(t)
		relative := math.Exp(rapid.Float64Range(math.Log(1e-6), math.Log(10)).Draw(t, "log relative spread"))
		u := math.Abs(value) * relative
		var read [systems]float64
		for s := range systems {
			text := Display(d, value, u, true, s)
			got, gotU, stated, err := ParseAs(d, text)
			if err != nil || !stated {
				t.Fatalf("%s: %v, %v", text, stated, err)
			}
			rounding := 1e-12*math.Abs(value) + 0.0501*2*u
			if math.Abs(got-value) > rounding || math.Abs(gotU-u) > 0.0501*u {
				t.Fatalf("%v with %v is printed as %s and read as %v with %v", value, u, text, got, gotU)
			}
			read[s] = got
		}
		if math.Abs(read[SI]-read[US]) > 0.2004*u+1e-12*math.Abs(value) {
			t.Fatalf("SI reads %v, US reads %v, with %v", read[SI], read[US], u)
		}
	})
}

// Printing what was read gives the same text again.
func TestFormatIsStable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, value := anyValue(t)
		for s := range systems {
			text := Display(d, value, 0, true, s)
			again, _, _, err := ParseAs(d, text)
			if err != nil {
				t.Fatal(err)
			}
			if got := Display(d, again, 0, true, s); got != text {
				t.Fatalf("%s is read and printed as %s", text, got)
			}
		}
	})
}
