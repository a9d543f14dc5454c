package report

import (
	"encoding/json"
	"math"

	"swingwright/quantity"
)

// number is a value as JSON has it: one that does not exist is null, since JSON
// knows no NaN and no infinity.
type number float64

// MarshalJSON writes the number, or null.
func (n number) MarshalJSON() ([]byte, error) {
	if math.IsNaN(float64(n)) || math.IsInf(float64(n), 0) {
		return []byte("null"), nil
	}
	return json.Marshal(float64(n))
}

// siUnit is the coherent SI unit of a dimension, the one whose factor is one;
// empty for a pure ratio.
func siUnit(d quantity.Dimension) string { return siUnits[d] }

var siUnits = func() map[quantity.Dimension]string {
	units := make(map[quantity.Dimension]string)
	for _, d := range quantity.Dimensions() {
		for _, symbol := range quantity.UnitsOf(d) {
			if n, err := quantity.InUnit(d, 1, symbol); err == nil && n == 1 && symbol != "" {
				units[d] = symbol
				break
			}
		}
	}
	return units
}()
