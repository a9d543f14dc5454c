package power

import (
	"fmt"
	"math"

	q "swingwright/quantity"
)

// Gauge is a size of wire by the American wire gauge; a larger number is a thinner
// wire. Those from 24 to 10, by twos, are in use here.
type Gauge int

// Gauges are the sizes that are in use between a supply and a door, thinnest first.
var Gauges = [...]Gauge{24, 22, 20, 18, 16, 14, 12, 10}

// Thicker is the next size up; the thickest stays.
func (g Gauge) Thicker() Gauge { return max(g-2, Gauges[len(Gauges)-1]) }

// Known tells whether it is one of Gauges.
func (g Gauge) Known() bool { return g >= 10 && g <= 24 && g%2 == 0 }

// String is the size as the trade writes it, 18 AWG.
func (g Gauge) String() string { return fmt.Sprintf("%d AWG", int(g)) }

// Diameter of a solid wire: 0.005 in for No. 36 and 0.46 in for No. 4/0, and 39 equal
// ratios between them (ASTM B258, the definition of the gauge).
func (g Gauge) Diameter() q.Length {
	return 0.005 * q.Inch * q.Length(math.Pow(92, float64(36-g)/39))
}

// Area is the copper's cross-section: that of a solid wire, and of a stranded one of
// the same gauge.
func (g Gauge) Area() q.Area {
	d := float64(g.Diameter())
	return q.Area(math.Pi / 4 * d * d)
}

// Wire is a copper conductor.
type Wire struct {
	Gauge  Gauge
	Solid  bool // one strand; seven and more otherwise
	Tinned bool // coated strands
}

// The temperature note under NEC Chapter 9 Table 8: R2 = R1·[1 + α·(T2 − 75 °C)], with
// α = 0.00323 for copper. T is the conductor's own temperature.
const (
	tableWarmth = q.Celsius0 + 75
	alpha75     = 0.00323 // 1/K
)

// table8 is NEC Chapter 9 Table 8: direct-current resistance of copper conductors at
// 75 °C, Ω per 1000 ft, for sizes 18 to 10. The values stand on two pages each that
// print the table; coated ones on one.
var table8 = map[Wire]float64{
	{Gauge: 18, Solid: true}: 7.77, {Gauge: 18}: 7.95,
	{Gauge: 16, Solid: true}: 4.89, {Gauge: 16}: 4.99,
	{Gauge: 14, Solid: true}: 3.07, {Gauge: 14}: 3.14,
	{Gauge: 12, Solid: true}: 1.93, {Gauge: 12}: 1.98,
	{Gauge: 10, Solid: true}: 1.21, {Gauge: 10}: 1.24,
	{Gauge: 18, Solid: true, Tinned: true}: 8.08, {Gauge: 18, Tinned: true}: 8.45,
	{Gauge: 16, Solid: true, Tinned: true}: 5.08, {Gauge: 16, Tinned: true}: 5.29,
	{Gauge: 14, Solid: true, Tinned: true}: 3.19, {Gauge: 14, Tinned: true}: 3.26,
	{Gauge: 12, Solid: true, Tinned: true}: 2.01, {Gauge: 12, Tinned: true}: 2.05,
	{Gauge: 10, Solid: true, Tinned: true}: 1.26, {Gauge: 10, Tinned: true}: 1.29,
}

// The sizes below the table: solid copper at 20 °C, Ω per 1000 ft (NBS Handbook 100,
// 1966, as a university's wire table repeats it).
var handbook100 = map[Gauge]float64{24: 25.67, 22: 16.14, 20: 10.15}

// What strands and tin add to a solid wire of the sizes that the table does not have,
// like its share for 18 AWG (7.95/7.77 and 8.08/7.77; assumed to hold for thinner wires).
const (
	strandShare = 7.95 / 7.77
	tinShare    = 8.45 / 7.95
	tinSolid    = 8.08 / 7.77
)

// Resistance is the wire's resistance per length of one conductor at its own
// temperature; 0 for a gauge that is not Known.
func (w Wire) Resistance(at q.Temperature) q.LineResistance {
	r75, ok := table8[w]
	if !ok {
		r20, ok := handbook100[w.Gauge]
		if !ok {
			return 0
		}
		r75 = r20 / share(q.Celsius0+20)
		switch {
		case w.Solid && w.Tinned:
			r75 *= tinSolid
		case w.Tinned:
			r75 *= strandShare * tinShare
		case !w.Solid:
			r75 *= strandShare
		}
	}
	return q.LineResistance(r75*share(at)) * q.OhmPerKilofoot
}

// share is a resistance at a temperature over that at 75 °C.
func share(at q.Temperature) float64 { return 1 + alpha75*float64(at-tableWarmth) }

// Drop is the voltage that a run of two conductors takes, out and back: twice its
// length times resistance and current.
func (w Wire) Drop(length q.Length, at q.Temperature, current q.Current) q.Voltage {
	return q.Voltage(2 * float64(length) * float64(w.Resistance(at)) * float64(current))
}
