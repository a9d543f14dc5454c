package plan

import (
	"errors"
	"strings"

	"swingwright/logic"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/transit"
)

// walk follows people through a vestibule whose doors share the wiring; why not,
// where something is missing for it.
func (w *Wired) walk(g *opening.Group, a, b *Member) {
	t, err := trafficOf(g, a, b)
	var walked *logic.Walked
	if err == nil {
		walked, err = logic.Walk(w.Wiring, w.Doors, t)
	}
	if err == nil {
		w.Proof.Verdicts = append(w.Proof.Verdicts, walked.Verdicts...)
		w.Walked = follow(w, walked, t, g, a, b)
		w.Faults = append(w.Faults, contradictions(w.Walked, g, a, b)...)
		return
	}
	for _, r := range logic.WalkRules() {
		w.Proof.Verdicts = append(w.Proof.Verdicts, logic.Verdict{Rule: r, Applies: true, Undone: true, Why: err.Error()})
	}
}

// trafficOf are the times of the leaves and of the slowest people, as the plans
// of the two openings have them.
func trafficOf(g *opening.Group, a, b *Member) (*logic.Traffic, error) {
	var missing []string
	if !g.Between.Known {
		missing = append(missing, "the distance between the doors (between)")
	}
	t := &logic.Traffic{Between: g.Between.Value, Person: transit.Chair, Speed: min(a.Speed, b.Speed), Near: transit.Meets, Enters: transit.Enters}
	for i, m := range []*Member{a, b} {
		switch {
		case !m.Powered:
			missing = append(missing, m.ID+" opened under power")
			continue
		case len(m.Cycle.Missing) > 0:
			for _, what := range m.Cycle.Missing {
				missing = append(missing, "of "+m.ID+" "+what)
			}
			continue
		case !m.Closes.Known:
			missing = append(missing, "of "+m.ID+" the time to close")
			continue
		case !(m.Width > 0):
			missing = append(missing, "of "+m.ID+" the width of the leaf")
		}
		t.Leaves[i] = logic.Leaf{
			Opens: m.Cycle.Leaf, Hold: m.Cycle.Hold, Usable: m.Cycle.Usable, Closes: q.Time(m.Closes.Value), Width: m.Width, Swing: swingOf(g, i, m),
		}
	}
	if len(missing) > 0 {
		return nil, errors.New("to be known: " + strings.Join(missing, "; "))
	}
	return t, nil
}

// swingOf is to which side the leaf of a door swings, the outer door first: as the
// opening tells it, else as the group does that knows of no leaf that swings in.
func swingOf(g *opening.Group, door int, m *Member) logic.Swing {
	switch {
	case m.Swings && m.SwingsOut == (door == 0):
		return logic.SwingsOut
	case m.Swings:
		return logic.SwingsIn
	case g.SwingsIn.Known && g.SwingsIn.Value == 0:
		return logic.SwingsOut
	}
	return logic.EitherWay
}
