package plan

import (
	"fmt"
	"math"
	"strings"

	"swingwright/judge"
	"swingwright/logic"
	q "swingwright/quantity"
)

// WalkGranted is what following people through a vestibule takes for granted.
const WalkGranted = "Everybody stands at the first door as they press, sets out when its leaf is 0.6 open, waits 3 ft before the second until it is open, and presses between the doors when nothing has come for 3 s; people who meet pass each other. They stand clear of a leaf that swings toward them, and move up where that lets the first door close behind them; the second of two goes in behind one who waits there only where both have room, and presses once more then. Leaves take the times of their plans and delays those that are set, rounded to 0.1 s on the side of caution; ± is twice the standard uncertainty by draws of them all."

// WayWords are what somebody meets who goes one way through a vestibule, and
// what is short and would do, in sentences.
func WayWords(w *FollowedWay, policy judge.Policy) []string {
	var say []string
	add := func(format string, args ...any) { say = append(say, fmt.Sprintf(format, args...)) }
	switch {
	case !w.Through:
		add("One person alone does not get through.")
		return say
	case w.Asks:
		add("%s from the press until clear of %s, and the plate between has to be pressed: %s is shut again by the time they are there, or never started. Start it later, or hold it longer.", about(w.Time, w.TimeU), w.To, w.To)
	default:
		add("%s from the press until clear of %s.", about(w.Time, w.TimeU), w.To)
	}
	if w.Wait > 0.05 && !w.Asks {
		add("They wait %s before %s: a delay shorter by that would do.", about(w.Wait, w.WaitU), w.To)
		if w.Stand.MoveUp {
			add("They stand %s before it, nearer than people like to, so that %s can close behind them.", both(q.Exactly(w.Stand.Before)), w.From)
		}
	}
	for i, door := range []string{w.From, w.To} {
		s, u := w.Spare[i], w.SpareU[i]
		if math.IsNaN(float64(s)) {
			continue
		}
		switch w.SpareVerdict(i, policy) {
		case judge.FallsShort:
			add("%s is on their path %s too soon: %s for one person alone.%s", door, about(-s, u), held(s, u, policy), movedBy(w.Drivers[i]))
		case judge.TooClose:
			add("%s would be on their path %s after they are clear of it, which is too close to call: %s, or time it better.%s", door, about(s, u), held(s, u, policy), movedBy(w.Drivers[i]))
		default:
			add("%s would be on their path %s after they are clear of it.", door, about(s, u))
		}
	}
	if w.Forgets {
		deaf := ""
		if w.Deaf != "" {
			deaf = ": " + w.Deaf + " is busy with the first one's press and does not hear theirs"
		}
		add("A second person who sets out %.1f to %.1f s after one who %s can find %s shut and has to press between the doors, or go by hand%s.", float64(w.Earliest), float64(w.Latest), w.ForgetsOn, w.To, deaf)
	}
	return say
}

// holdMore is how much longer a door has to be held for its spare time to meet, guard
// band included.
func holdMore(spare, u q.Time, policy judge.Policy) float64 {
	return math.Ceil((policy.Coverage()*float64(u)-float64(spare))*10-1e-9) / 10
}

// held says how much longer, where that is known.
func held(spare, u q.Time, policy judge.Policy) string {
	if math.IsInf(float64(u), 0) {
		return "hold it longer"
	}
	return fmt.Sprintf("hold it %.1f s longer", holdMore(spare, u, policy))
}

// about is a time with twice its standard uncertainty.
func about(t, u q.Time) string {
	if math.IsInf(float64(u), 0) {
		return fmt.Sprintf("%.1f s, how sure is not known,", float64(t))
	}
	return fmt.Sprintf("%.1f ± %.1f s", float64(t), 2*float64(u))
}

// movedBy says what moves a time most.
func movedBy(of []Driver) string {
	var names []string
	for _, d := range of {
		name := fmt.Sprintf("%s (%.0f %%", d.Input, 100*d.Share)
		if d.Assumed {
			name += ", its spread assumed"
		}
		names = append(names, name+")")
	}
	if len(names) == 0 {
		return ""
	}
	return " What moves it most: " + strings.Join(names, ", ") + "."
}

// SlipWords are what meets those who press nothing and go in by a door that somebody
// else's press holds open.
func SlipWords(s *logic.Slip) string {
	how := "toward somebody who pressed at " + s.To
	if s.Behind {
		how = "behind somebody who pressed there"
	}
	if math.IsNaN(float64(s.Until)) {
		return fmt.Sprintf("Nobody can slip in by %s %s.", s.From, how)
	}
	say := fmt.Sprintf("Whoever slips in by %s %s can until %.1f s after the press.", s.From, how, float64(s.Until))
	if !math.IsNaN(float64(s.Caught)) {
		say += fmt.Sprintf(" From %.1f s on its leaf is on their path before they are clear of it.", float64(s.Caught))
	}
	if math.IsNaN(float64(s.Shut)) {
		return say + fmt.Sprintf(" They find %s open or opening.", s.To)
	}
	say += fmt.Sprintf(" From %.1f s on they find %s shut, and ", float64(s.Shut), s.To)
	return say + [...]string{
		logic.ByWay: "wait for it", logic.ByPlate: "have to press between the doors",
		logic.ByHand: "have to go by hand: put a plate between the doors", logic.NoExit: "are trapped: no plate and no hand opens a door",
	}[s.Meets] + "."
}
