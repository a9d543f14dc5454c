package quantity

import (
	"math"
	"testing"
)

// JCGM 100:2008, 7.2.6 rounds y = 10.057 62 with u = 0.027 to 10.058, and its
// 7.2.4 prints 100.021 47 ± 0.000 79. The others follow from the rule of 7.2.6:
// two digits of the expanded uncertainty, the value to the same place.
func TestDigitsFollowTheSpread(t *testing.T) {
	for _, c := range []struct {
		value, u float64
		want     string
	}{
		{10.05762, 0.027, "10.058 ± 0.054"},
		{100.02147, 0.000395, "100.02147 ± 0.00079"},
		{0.35, 0.025, "0.350 ± 0.050"},
		{-0.0004, 0.5, "0.0 ± 1.0"}, // never -0.0
		{12345, 612, "12300 ± 1200"},
		{12355, 50, "12360 ± 100"}, // 1.0e2: to tens; the tie goes to the even digit
		{1, 0.04984, "1.00 ± 0.10"},
		{1, 0.00498, "1.000 ± 0.010"},
		{0, 0.005, "0.000 ± 0.010"},
		{1, 0, "1"},
		{2e-22, 5e-23, "2.0e-22 ± 1.0e-22"},
		{1e17, 1e16, "1.00e+17 ± 2.0e+16"},
		{1, 1e-19, "1.00000000000000000e+00 ± 2.0e-19"},
	} {
		if got := Display(DimRatio, c.value, c.u, true, SI); got != c.want {
			t.Errorf("%v with %v = %q, want %q", c.value, c.u, got, c.want)
		}
	}
}

// Conversions: NIST SP 811 (2008), B.8.
func TestFormatWithSpread(t *testing.T) {
	for _, c := range []struct {
		d        Dimension
		value, u float64
		us, si   string
	}{
		{DimMass, 54.4310844, 1.133980925, "120.0 ± 5.0 lb", "54.4 ± 2.3 kg"},
		{DimForce, 66.7233, 1.0, "15.00 ± 0.45 lbf", "66.7 ± 2.0 N"},
		{DimTemperature, 293.15, 1, "68.0 ± 3.6 °F", "20.0 ± 2.0 °C"}, // no zero point in the spread
		{DimEnergy, 1.6947725, 0.05, "1.250 ± 0.074 ft·lbf", "1.69 ± 0.10 J"},
		{DimAngle, math.Pi / 2, math.Pi / 180, "90.0 ± 2.0 deg", "90.0 ± 2.0 deg"},
		{DimPressure, 12.4544455, 1, "0.0500 ± 0.0080 in. w.g.", "12.5 ± 2.0 Pa"},
		{DimTime, 5, 0.1, "5.00 ± 0.20 s", "5.00 ± 0.20 s"},
	} {
		us, si := Display(c.d, c.value, c.u, true, US), Display(c.d, c.value, c.u, true, SI)
		if us != c.us || si != c.si {
			t.Errorf("%v with %v = %q and %q, want %q and %q", c.value, c.u, us, si, c.us, c.si)
		}
	}
}

func TestFormatWithoutSpread(t *testing.T) {
	for _, c := range []struct {
		d      Dimension
		value  float64
		us, si string
	}{
		{DimLength, 0.9144, "36 in", "914.4 mm"},
		{DimMass, 45.359237, "100 lb", "45.36 kg"},
		{DimRatio, 0.35, "0.35", "0.35"},
		{DimRatio, -1e-9, "-0.000000001", "-0.000000001"}, // three digits at least, zeros left out
		{DimRatio, 0.000123456, "0.000123", "0.000123"},
		{DimRatio, math.Copysign(0, -1), "0", "0"},
		{DimTorque, 4.519392, "40 in·lbf", "4.52 N·m"},
		{DimTemperature, 293.15, "68 °F", "20 °C"},
		{DimTime, 3.0006, "3.001 s", "3.001 s"},
		{DimTurns, 1, "1 turn", "1 turn"},
		{DimTurns, 0.25, "1/4 turn", "1/4 turn"},
		{DimTurns, 1.25, "1-1/4 turns", "1-1/4 turns"},
		{DimTurns, 0.3, "0.3 turns", "0.3 turns"},
		{DimTurns, 0, "0 turns", "0 turns"},
		{DimSpeed, 4.4704, "10 mph", "4.47 m/s"},
		{DimVoltage, 24, "24 V", "24 V"},
		{DimCurrent, 0.25, "0.25 A", "0.25 A"},
		{DimLineResistance, 0.0254, "7.74 Ω/kft", "25.4 Ω/km"},
		{DimCharge, 4320, "1.2 A·h", "1.2 A·h"},
	} {
		us, si := Display(c.d, c.value, 0, true, US), Display(c.d, c.value, 0, true, SI)
		if us != c.us || si != c.si {
			t.Errorf("%s %v = %q and %q, want %q and %q", c.d, c.value, us, si, c.us, c.si)
		}
	}
}

func TestFormatValueKeepsItsDecimals(t *testing.T) {
	for _, c := range []struct {
		decimals int
		want     string
	}{{0, "4 s"}, {1, "3.5 s"}, {3, "3.500 s"}, {-1, "3.5 s"}} {
		if got := FormatValue(3.5*Second, SI, c.decimals); got != c.want {
			t.Errorf("with %d decimals = %q, want %q", c.decimals, got, c.want)
		}
	}
	if got := FormatValue(-0.004*Newton, SI, 2); got != "0.00 N" {
		t.Errorf("a small negative value = %q, want no minus", got)
	}
}

// What is no number must not look like one.
func TestFormatOfWhatIsNoNumber(t *testing.T) {
	for _, c := range []struct {
		value, u float64
		known    bool
		want     string
	}{
		{1, 1, false, "unknown"},
		{math.NaN(), 0, true, "NaN in"},
		{math.NaN(), 1, true, "NaN in"},
		{math.Inf(1), 1, true, "+Inf in"},
		{math.Inf(-1), 0, true, "-Inf in"},
		{0.9144, math.NaN(), true, "36 in"},
		{0.9144, math.Inf(1), true, "36 in"},
	} {
		if got := Display(DimLength, c.value, c.u, c.known, US); got != c.want {
			t.Errorf("%v with %v = %q, want %q", c.value, c.u, got, c.want)
		}
	}
	if got := Display(dimensions, 1, 0, true, US); got != "unknown" {
		t.Errorf("a value of no dimension = %q, want unknown", got)
	}
	if got := FormatValue(1*Metre, systems, 1); got != "unknown" {
		t.Errorf("a value in no system = %q, want unknown", got)
	}
}

// A steel rule is divided into 1/64 in; drills are sold by it.
func TestByRule(t *testing.T) {
	for _, c := range []struct {
		inches float64
		us, si string
	}{
		{2.882, "2-7/8 in", "73.2 mm"},
		{0.0938, "3/32 in", "2.4 mm"},
		{0.375, "3/8 in", "9.5 mm"},
		{-1.015, "-1-1/64 in", "-25.8 mm"},
		{0.001, "0 in", "0 mm"},
		{13, "13 in", "330.2 mm"},
	} {
		l := Length(c.inches) * Inch
		if us, si := ByRule(l, US), ByRule(l, SI); us != c.us || si != c.si {
			t.Errorf("%g in: %s and %s, want %s and %s", c.inches, us, si, c.us, c.si)
		}
	}
}
