package swing

import (
	"math"

	"swingwright/quantity"
)

// A Mark is a leaf angle whose passing is timed.
type Mark struct {
	Angle quantity.Angle
	// Time is when the mark was first passed, from the start; NaN if it never was.
	Time quantity.Time
}

// WithMark puts a mark at an angle among marks in falling order, once.
func WithMark(marks []Mark, angle quantity.Angle) []Mark {
	i := 0
	for i < len(marks) && marks[i].Angle > angle {
		i++
	}
	if i < len(marks) && marks[i].Angle == angle {
		return marks
	}
	marks = append(marks, Mark{})
	copy(marks[i+1:], marks[i:])
	marks[i] = Mark{Angle: angle}
	return marks
}

// PassedAt is when the mark at an angle was passed; NaN where it never was, or
// where there is none.
func PassedAt(marks []Mark, angle quantity.Angle) quantity.Time {
	for _, m := range marks {
		if m.Angle == angle {
			return m.Time
		}
	}
	return quantity.Time(math.NaN())
}
