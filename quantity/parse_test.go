package quantity

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// The lengths are exact: an inch is 25.4 mm (NIST SP 811, 2008, B.6), so every
// value is a decimal that the reader must hit to the bit.
func TestParseLengths(t *testing.T) {
	for _, c := range []struct {
		text string
		want Length
	}{
		{"36 in", 0.9144}, {"36in", 0.9144}, {`36"`, 0.9144}, {"36.0 in", 0.9144}, {"36. in", 0.9144}, {"+36 in", 0.9144},
		{"3 ft", 0.9144}, {`3'`, 0.9144}, {`3'-0"`, 0.9144}, {`3' 0"`, 0.9144}, {`3'0"`, 0.9144}, {"3′-0″", 0.9144},
		{`3' - 0"`, 0.9144}, {"3 ft 0 in", 0.9144}, {"3ft0in", 0.9144}, {"3 ft. 0 in.", 0.9144}, {"3 ft-0 in", 0.9144},
		{"914.4 mm", 0.9144}, {"914,4 mm", 0.9144}, {"914.4\u00a0mm", 0.9144}, {"914.4\u2009mm", 0.9144}, {"914.4\u202fmm", 0.9144},
		{"91.44 cm", 0.9144}, {"0.9144 m", 0.9144}, {"0,9144 m", 0.9144}, {"9.144e2 mm", 0.9144}, {"91440e-5 m", 0.9144},
		{`3' 0 1/2"`, 0.9271}, {`3'-0 1/2"`, 0.9271}, {`3'-0-1/2"`, 0.9271}, {`3'0½"`, 0.9271}, {"3 ft 1/2 in", 0.9271},
		{`35-3/4"`, 0.90805}, {"35 3/4 in", 0.90805}, {"35 - 3/4 in", 0.90805}, {"35¾ in", 0.90805}, {"35 3⁄4 in", 0.90805},
		{"35.75 in", 0.90805}, {"35,75 in", 0.90805}, {"1/2 in", 0.0127}, {"½ in", 0.0127}, {"½\"", 0.0127}, {".5 in", 0.0127},
		{",5 in", 0.0127}, {"⅛ in", 0.003175}, {"1/16 in", 0.0015875}, {"3/2 in", 0.0381},
		{"-1/2 in", -0.0127}, {"−35¾″", -0.90805}, {"- 36 in", -0.9144}, {`-3'-6"`, -1.0668}, {"2'-8\"", 0.8128}, {"32 in", 0.8128},
		{"812.8 mm", 0.8128}, {"5ft2in", 1.5748}, {"5ft2.5in", 1.5875}, {"0 mm", 0},
	} {
		got, err := Parse[Length](c.text)
		if err != nil || got.Value != c.want {
			t.Errorf("Parse(%q) = %v, %v; want %v", c.text, got.Value, err, c.want)
		}
		if got.U != 0 || got.Stated || !got.Known || got.Text != c.text {
			t.Errorf("Parse(%q) = %+v; want it known, without spread, with its text", c.text, got)
		}
	}
}

func TestParseOtherQuantities(t *testing.T) {
	// Expected values: factors of NIST SP 811 (2008), B.8, seven digits.
	for _, c := range []struct {
		d    Dimension
		text string
		want float64
	}{
		{DimForce, "15 lbf", 66.72333}, {DimMass, "120 lb", 54.43109}, {DimMass, "120 lb 8 oz", 54.65788},
		{DimTorque, "40 lbf·in", 4.519392}, {DimEnergy, "1.25 lbf·ft", 1.6947725}, {DimPressure, "0.05 in. w.g.", 12.454445},
		{DimAngle, "90°", math.Pi / 2}, {DimTime, "1 min 30 s", 90}, {DimTime, "1 h 5 min 3 s", 3903}, {DimTime, "250 ms", 0.25},
		{DimTemperature, "68 °F", 293.15}, {DimTemperature, "-20 °C", 253.15}, {DimTurns, "1-1/4 turns", 1.25},
		{DimSpeed, "10 mph", 4.4704}, {DimSpeed, "2 ft/s", 0.6096}, {DimSpeed, "36 km/h", 10}, {DimVoltage, "24 V", 24}, {DimCurrent, "300 mA", 0.3},
		{DimResistance, "20 milliohms", 0.02}, {DimLineResistance, "6.5 ohm/kft", 6.5 / 304.8}, {DimPower, "100 VA", 100}, {DimCharge, "7 Ah", 25200}, {DimCharge, "1200 mAh", 4320},
		{DimRatio, "0.35", 0.35}, {DimRatio, "35 %", 0.35}, {DimRatio, "1/4", 0.25}, {DimRatio, "-1", -1},
		{DimViscosity, "1e-5 m²/s", 1e-5}, {DimViscosity, "1E-5 m²/s", 1e-5}, {DimArealDensity, "3.27 lb/ft²", 15.96554},
	} {
		got, u, stated, err := ParseAs(c.d, c.text)
		if err != nil || math.Abs(got-c.want) > 3e-7*math.Abs(c.want) || u != 0 || stated {
			t.Errorf("ParseAs(%s, %q) = %v, %v, %v, %v; want %v", c.d, c.text, got, u, stated, err, c.want)
		}
	}
}

// What stands behind ± is twice the standard uncertainty: JCGM 100:2008, 7.2.4
// with k = 2.
func TestParseSpreads(t *testing.T) {
	for _, c := range []struct {
		d        Dimension
		text     string
		value, u float64
	}{
		{DimMass, "50 kg ± 4 kg", 50, 2}, {DimMass, "50 kg ± 4", 50, 2}, {DimMass, "50 ± 4 kg", 50, 2}, {DimMass, "50kg±4kg", 50, 2},
		{DimMass, "50 kg +/- 4", 50, 2}, {DimMass, "50 kg +- 4", 50, 2}, {DimMass, "(50 ± 4) kg", 50, 2}, {DimMass, "50 kg ± 8 %", 50, 2},
		{DimMass, "50 kg ± 4000 g", 50, 2}, {DimMass, "-50 kg ± 8 %", -50, 2}, {DimMass, "50 kg ± 0", 50, 0}, {DimMass, "50 kg ± +4", 50, 2},
		{DimMass, "100 lb ± 4 kg", 45.359237, 2}, {DimMass, "50 kg +/− 4", 50, 2},
		{DimLength, `3'-0" ± 1/4"`, 0.9144, 0.003175}, {DimLength, `3'-0" ± 1/4`, 0.9144, 0.003175}, {DimLength, `3'-0" ± 0'-1"`, 0.9144, 0.0127},
		{DimLength, "914 ± 2 mm", 0.914, 0.001}, {DimLength, "0.914 m ± 2 mm", 0.914, 0.001},
		{DimTemperature, "20 °C ± 2 °C", 293.15, 1}, {DimTemperature, "20 °C ± 2 K", 293.15, 1}, {DimTemperature, "68 °F ± 9 °F", 293.15, 2.5},
		{DimTemperature, "20 ± 2 °C", 293.15, 1}, {DimAngle, "180 deg ± 360 deg", math.Pi, math.Pi},
		{DimRatio, "0.35 ± 0.05", 0.35, 0.025}, {DimRatio, "35 % ± 5 %", 0.35, 0.025}, {DimRatio, "35 % ± 5", 0.35, 0.025},
		{DimTurns, "1-1/4 ± 1/8 turns", 1.25, 0.0625},
	} {
		value, u, stated, err := ParseAs(c.d, c.text)
		if err != nil || !stated || math.Abs(value-c.value) > 1e-12*math.Abs(c.value) || math.Abs(u-c.u) > 1e-12 {
			t.Errorf("ParseAs(%s, %q) = %v, %v, %v, %v; want %v with %v", c.d, c.text, value, u, stated, err, c.value, c.u)
		}
	}
}

// Every refusal says what is wrong and what to write; the message begins with
// the text and what was wanted.
func TestParseErrors(t *testing.T) {
	for _, c := range []struct {
		d      Dimension
		text   string
		reason string
		hint   string
	}{
		{DimForce, "5 lb", "lb is a mass", "write lbf or N"},
		{DimForce, "5 lbs", "lb is a mass", "write lbf or N"},
		{DimForce, "5 kg", "kg is a mass", "write lbf or N"},
		{DimMass, "5 lbf", "lbf is a force", "write lb or kg"},
		{DimArealDensity, "3.27 psf", "psf is a pressure", "write lb/ft² or kg/m²"},
		{DimPressure, "0.05 in", "in is a length", "write in. w.g. or Pa"},
		{DimLength, "10 m2", "m² is an area", "write in or mm"},
		{DimLength, "10 ft2", "ft² is an area", "write in or mm"},
		{DimAngle, "1 turn", "turn is a number of turns", "write deg"},
		{DimRatio, "5 lb", "lb is a mass", "write a bare number or %"},
		{DimMass, "50 %", "% is a ratio", "write lb or kg"},
		{DimMass, "50 ± 4 %", "it has no unit", "write lb, oz, kg or g"},
		{DimForce, "5 lb ± 1 lb", "lb is a mass", "write lbf or N"},
		{DimForce, "5 lb ± 1 in", "lb is a mass and in is a length", "write lbf or N"},
		{DimForce, "5 lb ± 1/0 N", "lb is a mass and its fraction divides by zero", "write lbf or N; write a fraction such as 3/4"},
		{DimMass, "50 kg ± 4 N", "N is a force", "write lb or kg"},
		{DimLength, "36", "it has no unit", "write in, ft, mm, cm or m"},
		{DimLength, "36 ± 1", "it has no unit", "write in, ft, mm, cm or m"},
		{DimLength, `3'-6`, "6 has no unit", "write in, ft, mm, cm or m"},
		{DimLength, "36 furlongs", "furlongs is not a unit known here", "write in, ft, mm, cm or m"},
		{DimLength, `36" wide`, `"wide" is left over`, "write a number and a unit only"},
		{DimLength, "36 in -", `"-" is left over`, "write a number and a unit only"},
		{DimLength, "1,250 mm", "1,250 can be read in two ways", "write 1250 or 1.250"},
		{DimLength, "1,250.5 mm", "it has more than one decimal mark", "leave thousands together, as in 1250.5"},
		{DimLength, "1.250,5 mm", "it has more than one decimal mark", "leave thousands together, as in 1250.5"},
		{DimLength, "1 250 mm", "a number in it has no unit", "write one number and its unit, thousands together"},
		{DimForce, "20-30 N", "a number in it has no unit", "write one number and its unit, thousands together"},
		{DimForce, "20 N 30 N", "N cannot follow N", "write one number and its unit"},
		{DimLength, "3 in 2 ft", "ft cannot follow in", "write one number and its unit, or ft and in"},
		{DimLength, `3.5' 6"`, "only the last of its numbers may have a fraction", "write whole ft before in"},
		{DimLength, `3' 14"`, "its in make another ft", "write the value in in alone"},
		{DimLength, "1/0 in", "its fraction divides by zero", "write a fraction such as 3/4"},
		{DimLength, "35-3/2 in", "the fraction of its mixed number is not below one", "write a mixed number such as 35-3/4"},
		{DimLength, "1e31 mm", "its power of ten is beyond sense", "keep it between e-30 and e30"},
		{DimLength, "1e-999999999999999999999 mm", "its power of ten is beyond sense", "keep it between e-30 and e30"},
		{DimLength, "10e30 mm", "10e30 is beyond sense", "check the number and its unit"},
		{DimLength, "36 in ± 1 ± 2", "it has ± more than once", "write one value and one spread"},
		{DimLength, "36 in ± -1", "its spread is negative", "write ± and a number without sign"},
		{DimLength, "36 in ±", "there is no number where one belongs", "write a number with in, ft, mm, cm or m"},
		{DimLength, "± 1 in", "there is no number where one belongs", "write a number with in, ft, mm, cm or m"},
		{DimLength, "in", `there is no number where one belongs`, "write a number with in, ft, mm, cm or m"},
		{DimLength, "nan in", "there is no number where one belongs", "write a number with in, ft, mm, cm or m"},
		{DimLength, "inf", "there is no number where one belongs", "write a number with in, ft, mm, cm or m"},
		{DimRatio, "NaN", "there is no number where one belongs", "write a number with a bare number or %"},
		{DimLength, "0x1p4 in", "x is not a unit known here", "write in, ft, mm, cm or m"},
		{DimLength, "1_000 mm", `"_000 mm" is left over`, "write a number and a unit only"},
		{DimLength, "", "it is blank", "write a number with in, ft, mm, cm or m"},
		{DimLength, " \u200b\t", "it is blank", "write a number with in, ft, mm, cm or m"},
		{DimLength, "36 in\xff", "it is not valid UTF-8 text", "save it as UTF-8"},
		{DimLength, strings.Repeat("9", 198) + " in", "it is too long", "write one value in at most 200 bytes"},
		{DimRatio, "35 ± 5 %", "its value is bare and its spread in %", "write both in %, or both as bare numbers"},
		{DimTemperature, "-500 °F", "it is below absolute zero", "check the number and its unit"},
		{DimTemperature, "20 °C ± 5 %", "its spread is a share of the value, which depends on the scale's zero", "write the spread in °F, °C or K"},
		{dimensions, "1 in", "no such kind of quantity exists", "use one of the dimensions of package quantity"},
	} {
		value, u, stated, err := ParseAs(c.d, c.text)
		var bad *ParseError
		if !errors.As(err, &bad) {
			t.Errorf("ParseAs(%s, %q) = %v without a *ParseError: %v", c.d, c.text, value, err)
			continue
		}
		if bad.Reason != c.reason || bad.Hint != c.hint || bad.Text != c.text || bad.Want != c.d {
			t.Errorf("ParseAs(%s, %q): %+v; want %q and %q", c.d, c.text, bad, c.reason, c.hint)
		}
		if value != 0 || u != 0 || stated {
			t.Errorf("ParseAs(%s, %q) gives %v, %v, %v beside an error", c.d, c.text, value, u, stated)
		}
	}
}

func TestParseErrorMessage(t *testing.T) {
	for _, c := range []struct {
		d          Dimension
		text, want string
	}{
		{DimForce, "5 lb", `"5 lb" is not a force: lb is a mass; write lbf or N`},
		{DimAngle, "5", `"5" is not an angle: it has no unit; write deg or rad`},
		{DimTurns, "5", `"5" is not a number of turns: it has no unit; write turn`},
		{DimForce, `5"`, `“5"” is not a force: in is a length; write lbf or N`},
		{DimDamping, "5 N", `"5 N" is not a damping coefficient: N is a force; write in·lbf·s/rad or N·m·s/rad`},
	} {
		if _, _, _, err := ParseAs(c.d, c.text); err == nil || err.Error() != c.want {
			t.Errorf("error of %q = %v, want %s", c.text, err, c.want)
		}
	}
	_, _, _, err := ParseAs(DimForce, strings.Repeat("ü", 150))
	if n := len(err.Error()); n > 200 {
		t.Errorf("the message on a long text has %d bytes: %v", n, err)
	}
}
