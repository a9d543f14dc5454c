package tune

import (
	"math"

	"swingwright/quantity"
)

// A Time is one stretch of a closing and how long it took, or is reckoned to take.
type Time struct {
	From, To quantity.Angle
	Time, U  quantity.Time
}

// An Adjustment is one line of the log: what was turned, what that was reckoned to come to
// before it was turned, and what was found after.
type Adjustment struct {
	From, To State
	Foreseen []Time
	Found    []Time
}

// Times are the stretches that people time, by an outlook; those that the leaf does not
// get through are left out.
func (o *Outlook) Times() []Time { return o.timed }

// Stretches are those that limits on closing are about: 90 to 12 and 10 degrees, 12 and 10
// to closed, and the whole; and 70 to 12, which takes as long wherever above the leaf is
// let go, so that it can be held against any recording.
var stretches = [...][2]quantity.Angle{{90, 12}, {90, 10}, {70, 12}, {12, 0}, {10, 0}, {90, 0}}

// A Track is how good foretold times were.
type Track struct {
	N int // times that were foretold and then found
	// Bias and Spread are mean and root mean square of the misses over their standard
	// uncertainties, those of both times together: 0 and 1 where these are honest. Spread
	// counts from zero, not from Bias.
	Bias, Spread float64
	// Within1 and Within2 are the shares of misses within one and two standard
	// uncertainties: 0.68 and 0.95 where these are honest.
	Within1, Within2 quantity.Ratio
	// Miss is the root mean square of the misses as shares of the times found.
	Miss quantity.Ratio
}

// Score tells how good the foretold times of a log were.
func Score(log []Adjustment) Track {
	var t Track
	for i := range log {
		for _, found := range log[i].Found {
			for _, seen := range log[i].Foreseen {
				if seen.From == found.From && seen.To == found.To {
					t.count(seen, found)
				}
			}
		}
	}
	n := float64(t.N)
	t.Bias, t.Spread = t.Bias/n, math.Sqrt(t.Spread/n)
	t.Within1, t.Within2 = t.Within1/quantity.Ratio(n), t.Within2/quantity.Ratio(n)
	t.Miss = quantity.Ratio(math.Sqrt(float64(t.Miss) / n))
	return t
}

func (t *Track) count(seen, found Time) {
	miss := float64(found.Time - seen.Time)
	z := miss / math.Hypot(float64(seen.U), float64(found.U))
	t.N++
	t.Bias += z
	t.Spread += z * z
	if math.Abs(z) <= 1 {
		t.Within1++
	}
	if math.Abs(z) <= 2 {
		t.Within2++
	}
	share := miss / float64(found.Time)
	t.Miss += quantity.Ratio(share * share)
}
