package tune

import (
	"fmt"

	"swingwright/quantity"
)

// A State is how a closer is set.
type State struct {
	Power quantity.Ratio // spring, as marked; any number where the spring cannot be set
	// Sweep and Latch are how far the valves are open, in turns from seated, not forced.
	Sweep, Latch quantity.Turns
}

// String is the state in words.
func (s State) String() string {
	return fmt.Sprintf("spring at %.2f, sweep %s and latch %s turns open", float64(s.Power), turnsText(s.Sweep), turnsText(s.Latch))
}

// turnsText writes turns to a thirty-second, as fractions of the trade.
func turnsText(t quantity.Turns) string {
	whole, part := 0, int(float64(t)*32+0.5)
	whole, part = part/32, part%32
	under := 32
	for part > 0 && part%2 == 0 {
		part, under = part/2, under/2
	}
	switch {
	case part == 0:
		return fmt.Sprint(whole)
	case whole == 0:
		return fmt.Sprintf("%d/%d", part, under)
	}
	return fmt.Sprintf("%d-%d/%d", whole, part, under)
}
