package packet

import (
	"math"
	"slices"
	"strings"

	"swingwright/internal/draw"
	"swingwright/internal/paper"
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/picture"
	"swingwright/plan"
	q "swingwright/quantity"
)

// through is what people meet who go through a vestibule as it is wired, with what to
// try on site.
func (s *sheet) through(w *plan.Wired) {
	f := w.Walked
	if f == nil {
		return
	}
	s.Heading("Through the vestibule")
	t := paper.NewTable("from", "to", "clear of it after", "waits", "stands before it", "spare at the first", "spare at the second", "timed")
	t.Columns[7].Width = 20
	for i := range f.Ways {
		way := &f.Ways[i]
		t.Cells(paper.Cell{Text: way.From, Bold: true}, paper.Cell{Text: way.To, Bold: true}, paper.Cell{Text: around(way.Time, way.TimeU)}, paper.Cell{Text: around(way.Wait, way.WaitU)},
			paper.Cell{Text: exact(s, way.Stand.Before)}, spareCell(way, 0, w.Policy), spareCell(way, 1, w.Policy), paper.Cell{Line: true})
	}
	s.Table(t)
	for i := range f.Ways {
		s.Say(f.Ways[i].From + " to " + f.Ways[i].To + ": " + strings.Join(plan.WayWords(&f.Ways[i], w.Policy), " "))
	}
	s.Subheading("Try it on site: nobody may be shut in")
	for _, step := range trapTest(w) {
		s.Todo("", step)
	}
	for i := range f.Slips {
		s.Say(plan.SlipWords(&f.Slips[i]))
	}
	s.Note(plan.WalkGranted)
	for i := range f.Ways {
		way := &f.Ways[i]
		s.Float(s.picture("timing from "+way.From, func() *draw.Scene { return picture.Through(w, way) }))
	}
}

// trapTest is how to try that nobody is shut in (common practice).
func trapTest(w *plan.Wired) (steps []string) {
	plate := slices.ContainsFunc(w.Wiring.Devices, func(d opening.Device) bool { return d.Side == opening.Between })
	out := "Press the plate between: a door opens. Stand again, and"
	slip := "they get out by the plate between."
	if !plate {
		out, slip = "There is no plate between:", "they get out by hand."
	}
	for i := range w.Walked.Ways {
		way := &w.Walked.Ways[i]
		steps = append(steps, say("Press at %s, go in and stand between the doors until both are shut, with somebody outside who can help. %s try each door by hand: one lets you out.", way.From, out))
		if !math.IsNaN(float64(way.Starts[1])) {
			steps = append(steps, say("Press at %s with a stopwatch: %s starts after %.1f s.", way.From, way.To, float64(way.Starts[1])))
		}
	}
	return append(steps,
		"Let one person go through, and a second one press as the first is between the doors, then earlier and later: the second door opens for them too.",
		"Let somebody slip in as the first door begins to close: "+slip,
		"Take the power away while somebody is between the doors: one door lets them out by hand.")
}

func spareCell(w *plan.FollowedWay, k int, policy judge.Policy) paper.Cell {
	v := w.SpareVerdict(k, policy)
	c := paper.Cell{Text: around(w.Spare[k], w.SpareU[k]), Bold: v != judge.Meets}
	switch v {
	case judge.FallsShort:
		c.Text += ", too little"
	case judge.TooClose:
		c.Text += ", too close"
	}
	return c
}

// around is a time with twice its standard uncertainty.
func around(t, u q.Time) string {
	const least = 0.05 // s: less than is written
	switch {
	case math.IsNaN(float64(t)), math.Abs(float64(t)) < least && u < least:
		return "–"
	case math.IsInf(float64(u), 0):
		return say("%.1f\u00a0s", float64(t))
	}
	return say("%.1f\u00a0±\u00a0%.1f\u00a0s", float64(t), 2*float64(u))
}
