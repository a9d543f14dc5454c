package report

import (
	"encoding/json"
	"math"
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
