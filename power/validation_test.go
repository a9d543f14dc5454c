package power

import (
	"flag"
	"fmt"
	"math"
	"strings"
	"testing"

	"swingwright/internal/reference"
	q "swingwright/quantity"
)

var update = flag.Bool("update", false, "write this package's part of docs/validation.md anew")

// The page tells how resistances, drops, batteries and fills agree with printed ones.
func TestValidationPage(t *testing.T) {
	var b strings.Builder
	table := func(source string) {
		fmt.Fprintf(&b, "\nSource: %s\n\n| Quantity | Ours | Reference | Open |\n|---|---|---|---|\n", source)
	}
	row := func(what, unit string, digits int, got, want, open float64) {
		near(t, what, got, want, open)
		fmt.Fprintf(&b, "| %s | %.*f %s | %.*f %s | ±%g |\n", what, digits, got, unit, digits, want, unit, open)
	}
	b.WriteString("## Wires, batteries and conduits (package power)\n")
	table("NEC Chapter 9 Table 8 and its temperature note; the resistance at 75 °C from the law of the gauge (ASTM B258) and annealed copper\nof 10.371 Ω·cmil/ft at 20 °C, which the table does not use; at 20 °C NBS Handbook 100.")
	at20 := map[Gauge]float64{24: 25.67, 22: 16.14, 20: 10.15, 18: 6.385, 16: 4.016, 14: 2.525, 12: 1.588, 10: 0.9989}
	for _, g := range Gauges {
		ours := float64(Wire{Gauge: g, Solid: true}.Resistance(q.Celsius0+20) / q.OhmPerKilofoot)
		row(g.String()+", solid, at 20 °C", "Ω/1000 ft", 3, ours, at20[g], 0.005*at20[g])
	}
	for _, g := range []Gauge{18, 16, 14, 12, 10} {
		d := float64(g.Diameter()/q.Inch) * 1000
		law := 10.371 / (d * d) * 1000 * (1 + 0.00393*55)
		row(g.String()+", solid, at 75 °C", "Ω/1000 ft", 2, float64(Wire{Gauge: g, Solid: true}.Resistance(tableWarmth)/q.OhmPerKilofoot), law, 0.01*law)
	}
	table("trade table of drops at 24 V, two conductors, at the trade's own resistances of about 20 °C, printed to 0.1 %.")
	for _, c := range []struct {
		amps, feet float64
		g          Gauge
		want       float64
	}{{0.25, 200, 22, 6.9}, {0.5, 150, 18, 4.1}, {1, 100, 16, 3.4}, {2, 100, 14, 4.3}, {3, 75, 12, 3.0}, {16, 60, 12, 13.0}, {16, 60, 10, 8.2}} {
		got := 100 * float64(Wire{Gauge: c.g, Solid: true}.Drop(q.Length(c.feet)*q.Foot, q.Celsius0+20, q.Current(c.amps))) / 24
		row(fmt.Sprintf("%g A, %g ft, %v", c.amps, c.feet, c.g), "%", 1, got, c.want, 0.05+0.03*c.want)
	}
	table("trade example of a standby battery, with shares of 0.8 for age and 0.85 for cold, the rate of discharge left out.")
	four := Standby{Time: 4 * 3600, Idle: 0.15, Openings: 10, Cycle: []Stretch{{4, 2}, {7, 0.6}}, Aged: Aged, Cold: Cold, Peukert: 1}
	row("4 h, 10 openings: taken", "A·h", 2, float64(four.Taken()/q.AmpereHour), 0.63, 0.006)
	row("the same: capacity", "A·h", 2, float64(four.Needs()/q.AmpereHour), 0.93, 0.006)
	day := four
	day.Time, day.Openings = 24*3600, 60
	row("24 h, 60 openings: taken", "A·h", 1, float64(day.Taken()/q.AmpereHour), 3.8, 0.06)
	row("the same: capacity", "A·h", 1, float64(day.Needs()/q.AmpereHour), 5.6, 0.06)
	table("NEC Chapter 9 Table 1, and the inside areas of Table 4 for metallic tubing (from memory).")
	for _, c := range []struct {
		trade string
		area  float64
	}{{"1/2", 0.304}, {"3/4", 0.533}, {"1", 0.864}, {"1-1/4", 1.496}, {"1-1/2", 2.036}, {"2", 3.356}} {
		d, _ := Tube(c.trade)
		in := float64(d / q.Inch)
		row("inside of "+c.trade+" in tubing", "in²", 3, math.Pi/4*in*in, c.area, 0.001)
	}
	if err := reference.Section(b.String(), "power", *update); err != nil {
		t.Error(err)
	}
}
