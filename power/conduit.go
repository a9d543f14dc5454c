package power

import (
	"math"

	q "swingwright/quantity"
)

// emt are the inside diameters of electrical metallic tubing by trade size, in (NEC
// Chapter 9 Table 4; from memory; their areas, from memory too, agree in a test).
var emt = map[string]q.Length{"1/2": 0.622 * q.Inch, "3/4": 0.824 * q.Inch, "1": 1.049 * q.Inch, "1-1/4": 1.380 * q.Inch, "1-1/2": 1.610 * q.Inch, "2": 2.067 * q.Inch}

// Tubes are the trade sizes of electrical metallic tubing that are known, smallest first.
var Tubes = [...]string{"1/2", "3/4", "1", "1-1/4", "1-1/2", "2"}

// Tube is the inside diameter of electrical metallic tubing of a trade size; false
// where the size is not known.
func Tube(trade string) (q.Length, bool) {
	d, ok := emt[trade]
	return d, ok
}

// FillLimit is the share of a conduit's inside that so many cables may fill: 53 % for
// one, 31 % for two, 40 % for more (NEC Chapter 9 Table 1; a cable of several
// conductors counts as one).
func FillLimit(cables int) q.Ratio {
	switch cables {
	case 1:
		return 0.53
	case 2:
		return 0.31
	}
	return 0.40
}

// A Fill is how full a conduit is.
type Fill struct {
	Cables int
	Share  q.Ratio // of the inside, 0 and more
	Limit  q.Ratio
	// Smallest is the trade size of the smallest tubing that is not too full, empty
	// where none of those known is large enough.
	Smallest string
}

// Fits tells whether the cables are within the limit.
func (f *Fill) Fits() bool { return f.Share <= f.Limit*(1+rounding) }

// FillOf sums up the cables, by their outer diameters, in a conduit of an inside
// diameter above zero.
func FillOf(inside q.Length, cables []q.Length) Fill {
	area := 0.
	for _, d := range cables {
		area += float64(d) * float64(d)
	}
	f := Fill{Cables: len(cables), Limit: FillLimit(len(cables)), Share: q.Ratio(area / (float64(inside) * float64(inside)))}
	for _, size := range Tubes {
		d := float64(emt[size])
		if q.Ratio(area/(d*d)) <= f.Limit*(1+rounding) {
			f.Smallest = size
			break
		}
	}
	return f
}

// CableDiameter is the outer diameter of a jacketed cable of stranded conductors,
// where nobody measured it: conductors of twice their copper's width with insulation,
// laid up round with a third of the circle empty, and a jacket of 0.5 mm (assumed).
func CableDiameter(g Gauge, conductors int) q.Length {
	core := 1.15*g.Diameter() + 2*0.4*q.Millimetre
	n := float64(max(conductors, 1))
	bundle := float64(core)
	if n > 1 {
		bundle = float64(core) * max(2, math.Sqrt(n/0.68))
	}
	return q.Length(bundle) + 2*0.5*q.Millimetre
}
