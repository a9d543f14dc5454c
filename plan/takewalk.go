package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"swingwright/judge"
	"swingwright/logic"
	q "swingwright/quantity"
)

// takeWalk adds to a group what people meet who are followed through it as it is wired,
// in place of what was reckoned of them from the delay on paper.
func (g *Group) takeWalk(w *Wired) {
	if w.Walked == nil {
		g.notFollowed(w)
		return
	}
	g.Followed = w.Walked
	g.Statements = slices.DeleteFunc(g.Statements, func(s Statement) bool { return s.onPaper })
	g.agrees(w)
	for i := range w.Walked.Ways {
		g.spare(&w.Walked.Ways[i])
	}
	for i := range w.Proof.Verdicts {
		if v := &w.Proof.Verdicts[i]; v.Rule.OfWalk() {
			g.walkRule(w, v)
		}
	}
	g.slipping(w.Walked)
}

// notFollowed says why nobody could be followed, where somebody should have been.
func (g *Group) notFollowed(w *Wired) {
	if w.Problem != nil {
		return
	}
	for i := range w.Proof.Verdicts {
		if v := &w.Proof.Verdicts[i]; v.Rule.OfWalk() {
			g.yes(v.Rule.String(), judge.NotMeasured, v.Why)
		}
	}
}

// yes adds something that is so or not.
func (g *Group) yes(what string, v judge.Verdict, say string) {
	s := Statement{What: strings.TrimSuffix(what, "."), YesNo: true, Value: 1, Limit: 1, Side: judge.AtLeast, Verdict: v, Source: fromTrade, Say: say}
	switch v {
	case judge.FallsShort:
		s.Value, s.Margin = 0, -1
	case judge.NotMeasured, judge.TooClose:
		s.Value, s.Margin, s.U = math.NaN(), math.NaN(), math.NaN()
	}
	g.Statements = append(g.Statements, s)
}

// agrees holds what the group says of itself against its wiring and its openings.
func (g *Group) agrees(w *Wired) {
	for _, one := range []struct{ key, what string }{{DelayDiffers, "The delay on paper is that of the wiring"}, {SwingDiffers, "The leaves swing as the group says"}} {
		var says []string
		for _, f := range w.Faults {
			if f.Key == one.key {
				says = append(says, f.Says)
			}
		}
		switch {
		case len(says) > 0:
			g.yes(one.what, judge.FallsShort, strings.Join(says, " "))
		case one.key == DelayDiffers && g.Group.Delay.Known:
			g.yes(one.what, judge.Meets, "")
		}
	}
}

// spare judges the time that is left at either door of a way.
func (g *Group) spare(w *FollowedWay) {
	way := ", " + w.From + " to " + w.To
	for k, door := range []string{w.From, w.To} {
		s := Statement{
			What: "To spare at " + door + way, Dim: q.DimTime, Side: judge.AtLeast, Source: fromMemory,
			Value: float64(w.Spare[k]), U: float64(w.SpareU[k]), Margin: float64(w.Spare[k]), Verdict: w.SpareVerdict(k, g.policy),
		}
		if k == 0 {
			s.Say = "As it is wired: clear of the first door before it closes on the path."
		} else {
			s.Say = fmt.Sprintf("As it is wired: %s from the press until clear of it.", about(w.Time, w.TimeU))
			if w.Wait > 0.05 {
				s.Say += fmt.Sprintf(" They wait %s before it.", about(w.Wait, w.WaitU))
			}
		}
		if s.Verdict == judge.TooClose || s.Verdict == judge.FallsShort {
			s.Say += fmt.Sprintf(" What would do: %s.%s", held(w.Spare[k], w.SpareU[k], g.policy), movedBy(w.Drivers[k]))
		}
		g.Statements = append(g.Statements, s)
	}
}

// walkRule judges a rule by people who were followed.
func (g *Group) walkRule(w *Wired, v *logic.Verdict) {
	verdict, say := w.OnRule(v), v.Symptom
	if verdict == judge.TooClose {
		say = fmt.Sprintf("Kept in %.0f %% of %d draws.", 100*w.Walked.Share(v.Rule), w.Walked.Draws)
	}
	g.yes(v.Rule.String(), verdict, say)
}

// slipping tells what meets those who slip in, where that is worth a word: a leaf on
// their path is what slipping in brings, but nobody should need a hand to get out.
func (g *Group) slipping(f *Followed) {
	var say []string
	worst := logic.ByWay
	for i := range f.Slips {
		s := &f.Slips[i]
		if worst = max(worst, s.Meets); s.Meets >= logic.ByHand {
			say = append(say, SlipWords(s))
		}
	}
	verdict := judge.Meets
	if worst >= logic.ByHand {
		verdict = judge.FallsShort
	}
	g.yes("Whoever slips in at another's press gets out without a hand", verdict, strings.Join(say, " "))
}
