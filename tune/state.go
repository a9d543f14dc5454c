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
	return fmt.Sprintf("spring at %.2f, sweep %s and latch %s open", float64(s.Power), turnsText(s.Sweep), turnsText(s.Latch))
}

// turnsText writes turns as one counts them at a valve: in fractions of a turn where they
// are whole eighths, else in eighths, to a quarter of one.
func turnsText(t quantity.Turns) string {
	quarters := int(float64(t)*32 + 0.5) // of an eighth
	switch {
	case quarters%4 != 0 && quarters < 4:
		return mixed(quarters, 4) + " of an eighth of a turn"
	case quarters%4 != 0:
		return mixed(quarters, 4) + " eighths of a turn"
	}
	switch text := mixed(quarters/4, 8); {
	case quarters == 32:
		return "1 turn"
	case quarters > 0 && quarters < 32:
		return text + " of a turn"
	default:
		return text + " turns"
	}
}

// mixed is n/under as a mixed number in lowest terms.
func mixed(n, under int) string {
	whole, part := n/under, n%under
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
