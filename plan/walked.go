package plan

import (
	"errors"
	"fmt"
	"strings"

	"swingwright/logic"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/transit"
)

// walk follows people through a vestibule whose doors share the wiring; why not,
// where something is missing for it.
func (w *Wired) walk(g *opening.Group, a, b *Member) {
	if w.Problem != nil || g.Kind != opening.Vestibule {
		return
	}
	t, err := trafficOf(g, a, b)
	if err == nil {
		w.Walked, err = logic.Walk(w.Wiring, w.Doors, t)
	}
	if err == nil {
		w.Proof.Verdicts = append(w.Proof.Verdicts, w.Walked.Verdicts...)
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
	t := &logic.Traffic{
		Between: g.Between.Value, Person: transit.Chair, Clear: max(a.Width, b.Width), Speed: min(a.Speed, b.Speed),
		Near: transit.Meets, Enters: transit.Enters,
	}
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
		t.Leaves[i] = logic.LeafTimes{Opens: m.Cycle.Leaf, Hold: m.Cycle.Hold, Usable: m.Cycle.Usable, Closes: q.Time(m.Closes.Value)}
	}
	if len(missing) > 0 {
		return nil, errors.New("to be known: " + strings.Join(missing, "; "))
	}
	return t, nil
}

// WayWords are what somebody meets who goes one way through a vestibule, and
// what is short and would do, in sentences.
func WayWords(w *logic.Way) []string {
	var say []string
	add := func(format string, args ...any) { say = append(say, fmt.Sprintf(format, args...)) }
	switch {
	case !w.Through:
		add("One person alone does not get through.")
		return say
	case w.Asks:
		add("%.1f s from the press until clear of %s, and the plate between has to be pressed: %s is shut again by the time they are there, or never started. Start it later, or hold it longer.", float64(w.Time), w.To, w.To)
	default:
		add("%.1f s from the press until clear of %s.", float64(w.Time), w.To)
	}
	if w.Wait > 0.05 {
		add("They wait %.1f s before %s: a delay shorter by that would do.", float64(w.Wait), w.To)
	}
	for i, door := range []string{w.From, w.To} {
		switch s := float64(w.Spare[i]); {
		case s < 0:
			add("%s is on their path %.1f s too soon: hold it at least %.1f s longer for one person alone.", door, -s, -s)
		case s >= 0:
			add("%s would be on their path %.1f s after they are clear of it.", door, s)
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
