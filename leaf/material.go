package leaf

import (
	"swingwright/opening"
	"swingwright/quantity"
)

// Stuff is what is known of a material.
type Stuff struct {
	// Density, or for a core that is sold by its area, Areal.
	Density quantity.Density
	Areal   quantity.ArealDensity
	// Spread is the relative standard uncertainty of either.
	Spread quantity.Ratio
	// Source tells where the value comes from.
	Source string
}

const (
	lbPerFt2 = quantity.ArealDensity(0.45359237 / (0.3048 * 0.3048))
	lbPerFt3 = quantity.Density(0.45359237 / (0.3048 * 0.3048 * 0.3048))
	inRange  = 0.28867513459481287 // standard uncertainty of an even spread, as a share of its width: 1/√12 (JCGM 100:2008, 4.3.7)
)

// between is a material known by the ends of a range.
func between(low, high quantity.Density, source string) Stuff {
	mid := (low + high) / 2
	return Stuff{Density: mid, Spread: quantity.Ratio((high - low) * inRange / mid), Source: source}
}

func arealBetween(low, high quantity.ArealDensity, source string) Stuff {
	mid := (low + high) / 2
	return Stuff{Areal: mid, Spread: quantity.Ratio((high - low) * inRange / mid), Source: source}
}

// Materials are the materials whose density is known.
var Materials = map[opening.Material]Stuff{
	"steel":                {Density: 7850, Spread: 0.005, Source: "handbook value for carbon steel"},
	"aluminium":            {Density: 2700, Spread: 0.005, Source: "from memory"},
	"glass":                {Density: 2500, Spread: 0.005, Source: "trade tables of glass weights"},
	"laminated glass":      {Density: 2470, Spread: 0.01, Source: "trade tables of glass weights"},
	"wired glass":          {Density: 2600, Spread: 0.01, Source: "trade tables of glass weights"},
	"particleboard":        between(28*lbPerFt3, 32*lbPerFt3, "low-density door core grades, from memory"),
	"honeycomb core":       arealBetween(0.2*lbPerFt2, 0.4*lbPerFt2, "estimate, from memory"),
	"polystyrene core":     arealBetween(0.1*lbPerFt2, 0.2*lbPerFt2, "estimate, from memory"),
	"polyurethane core":    arealBetween(0.2*lbPerFt2, 0.4*lbPerFt2, "estimate, from memory"),
	"steel-stiffened core": arealBetween(1.2*lbPerFt2, 2*lbPerFt2, "estimate, from memory"),
	"mineral core":         arealBetween(2*lbPerFt2, 3*lbPerFt2, "estimate, from memory; weigh it"),
	"oak":                  between(630, 680, "Wood Handbook densities at 12 % moisture, from memory"),
	"maple":                {Density: 630, Spread: 0.06, Source: "Wood Handbook densities at 12 % moisture, from memory"},
	"poplar":               {Density: 420, Spread: 0.06, Source: "Wood Handbook densities at 12 % moisture, from memory"},
	"pine":                 between(350, 500, "Wood Handbook densities at 12 % moisture, from memory"),
}

// gauges are steel sheet thicknesses, in: the least that ANSI/SDI A250.8 allows
// for the door levels that use the gauge (2023 edition, read second-hand), and
// the nominal thickness of the Manufacturers' Standard Gauge.
var gauges = map[int][2]quantity.Length{
	20: {0.032 * quantity.Inch, 0.0359 * quantity.Inch},
	18: {0.042 * quantity.Inch, 0.0478 * quantity.Inch},
	16: {0.053 * quantity.Inch, 0.0598 * quantity.Inch},
	14: {0.067 * quantity.Inch, 0.0747 * quantity.Inch},
}

// Gauge is the thickness of a steel face sheet and its standard uncertainty:
// evenly spread between the least thickness allowed and the nominal one. ok is
// false for a gauge that is not known.
func Gauge(gauge int) (t, u quantity.Length, ok bool) {
	ends, ok := gauges[gauge]
	return (ends[0] + ends[1]) / 2, quantity.Length(float64(ends[1]-ends[0]) * inRange), ok
}
