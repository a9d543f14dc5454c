package leaf

import (
	"math"
	"strings"
	"testing"

	"swingwright/opening"
	"swingwright/quantity"
)

// sheet is a layer of a thickness in inches.
func sheet(m opening.Material, inches float64) opening.Layer {
	return opening.Layer{What: "sheet", Material: m, Thickness: quantity.Exactly(quantity.Length(inches) * quantity.Inch)}
}

// Areal weights in lb/ft². Steel: two faces of the least thickness that
// ANSI/SDI A250.8 (2023, read second-hand) allows for 20, 18, 16 and 14 gauge, at
// 7850 kg/m³. Glass: tables of the trade for nominal inches, which lie up to
// 0.7 % above plain arithmetic at 2500 kg/m³.
func TestArealWeights(t *testing.T) {
	for _, c := range []struct {
		material opening.Material
		inches   float64
		count    int
		want     float64
		within   float64
	}{
		{"steel", 1, 1, 40.84, 0.005},
		{"steel", 0.032, 2, 2.61, 0.005}, {"steel", 0.042, 2, 3.43, 0.005}, {"steel", 0.053, 2, 4.33, 0.005}, {"steel", 0.067, 2, 5.47, 0.005},
		{"glass", 1. / 8, 1, 1.64, 0.02}, {"glass", 3. / 16, 1, 2.45, 0.02}, {"glass", 1. / 4, 1, 3.27, 0.025},
		{"glass", 3. / 8, 1, 4.91, 0.035}, {"glass", 1. / 2, 1, 6.54, 0.045}, {"glass", 3. / 4, 1, 9.8, 0.06}, {"glass", 1, 1, 13.1, 0.1},
		{"glass", 6 / 25.4, 1, 3.07, 0.005}, // 6 mm
	} {
		l := sheet(c.material, c.inches)
		l.Count = c.count
		got, source, err := Areal(l)
		if err != nil || source == "" || math.Abs(float64(got.Value/lbPerFt2)-c.want) > c.within {
			t.Errorf("%d × %g in of %s: %.4f lb/ft² (%s, %v), want %g", c.count, c.inches, c.material, got.Value/lbPerFt2, source, err, c.want)
		}
	}
}

// A gauge stands evenly between the least thickness of A250.8 and the nominal
// one of the Manufacturers' Standard Gauge, so both ends lie √3 standard
// uncertainties from the middle (JCGM 100:2008, 4.3.7).
func TestGauge(t *testing.T) {
	for gauge, ends := range map[int][2]float64{20: {0.032, 0.0359}, 18: {0.042, 0.0478}, 16: {0.053, 0.0598}, 14: {0.067, 0.0747}} {
		mid, u, ok := Gauge(gauge)
		low, high := (mid-u*quantity.Length(math.Sqrt(3)))/quantity.Inch, (mid+u*quantity.Length(math.Sqrt(3)))/quantity.Inch
		if !ok || math.Abs(float64(low)-ends[0]) > 1e-9 || math.Abs(float64(high)-ends[1]) > 1e-9 {
			t.Errorf("%d gauge runs from %g to %g in, want %v", gauge, low, high, ends)
		}
	}
	if _, _, ok := Gauge(21); ok {
		t.Error("a gauge that no list names is known")
	}
}

// Every material that a file may name is known, with a spread and a source.
func TestEveryMaterialIsKnown(t *testing.T) {
	for _, name := range opening.Material("").Choices() {
		s, ok := Materials[opening.Material(name)]
		if !ok || s.Source == "" || !(s.Spread > 0 && s.Spread < 0.5) || (s.Density > 0) == (s.Areal > 0) {
			t.Errorf("%s: %+v", name, s)
		}
	}
	if len(Materials) != len(opening.Material("").Choices()) {
		t.Errorf("%d materials are known, %d may be named", len(Materials), len(opening.Material("").Choices()))
	}
}

func TestArealSaysWhatIsMissing(t *testing.T) {
	for want, l := range map[string]opening.Layer{
		"names no material":                {What: "core"},
		"has no thickness":                 {What: "face", Material: "steel"},
		"thickness of 21 gauge steel":      {What: "face", Material: "steel", Gauge: 21},
		`layer "unobtainium" names no mat`: {What: "unobtainium", Material: "unobtainium", Thickness: quantity.Exactly(quantity.Inch)},
	} {
		if _, _, err := Areal(l); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: %v, want %q", l, err, want)
		}
	}
}

// Spreads of independent factors add as squares (JCGM 100:2008, 5.1.6): 3 % of
// density and 4 % of thickness make 5 %.
func TestArealSpread(t *testing.T) {
	got, _, err := Areal(opening.Layer{
		Density:   quantity.Give(quantity.Density(500), 15),
		Thickness: quantity.Give(quantity.Length(0.04), 0.0016),
		Count:     2,
	})
	if err != nil || math.Abs(float64(got.Value)-40) > 1e-12 || math.Abs(float64(got.U)-2) > 1e-12 {
		t.Errorf("%+v %v, want 40 ± 2 kg/m²", got, err)
	}
	got, _, err = Areal(opening.Layer{Areal: quantity.Give(quantity.ArealDensity(10), 1), Count: 3})
	if err != nil || got.Value != 30 || got.U != 3 {
		t.Errorf("%+v %v, want 30 ± 3 kg/m²", got, err)
	}
}
