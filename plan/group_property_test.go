package plan

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	_ "swingwright/internal/steady"

	"swingwright/judge"
	"swingwright/opening"
	q "swingwright/quantity"
)

// Whatever two openings and whatever is written down of them as a group, it is
// judged without a fault: every verdict has its number or says that it has none, and
// nothing that nobody published fails it.
func TestAnyGroupIsJudged(t *testing.T) {
	j, books := clinic(t)
	var members []*Member
	for i := range j.Openings {
		members = append(members, Make(&j.Openings[i], &j.Sheets, books, Options{Draws: 64}).Member(&j.Sheets))
	}
	rapid.Check(t, func(t *rapid.T) {
		word := func(name string, of ...string) string { return rapid.SampledFrom(append(of, "")).Draw(t, name) }
		answer := func(name string) opening.YesNo { return opening.YesNo(word(name, "yes", "no")) }
		time := func(name string) (m q.Measured[q.Time]) {
			if rapid.Bool().Draw(t, name+" known") {
				m = q.Measured[q.Time]{Value: q.Time(rapid.Float64Range(0, 10).Draw(t, name)), Known: true}
			}
			return m
		}
		g := opening.Group{
			ID: "G", Kind: opening.GroupKind(rapid.SampledFrom(opening.Pair.Choices()).Draw(t, "kind")),
			Opens: opening.OpensHow(word("opens", "active", "together")), Overlaps: answer("astragal"), Coordinator: answer("coordinator"),
			Rods: answer("rods"), Inside: answer("inside"), Stagger: time("stagger"), CloseAfter: time("after"), Delay: time("delay"),
		}
		if rapid.Bool().Draw(t, "between known") {
			g.Between, g.SwingsIn = q.Exactly(q.Length(rapid.Float64Range(0.5, 8).Draw(t, "between"))), q.Exactly(q.Length(0.9))
		}
		pick := func(name string) *Member { return members[rapid.IntRange(0, len(members)-1).Draw(t, name)] }
		out := Together(&g, pick("first"), pick("second"), books, judge.Policy{})
		if len(out.Statements) == 0 {
			t.Error("nothing is said of it")
		}
		for _, s := range out.Statements {
			known := s.Verdict != judge.NotMeasured && s.Verdict != judge.DoesNotApply
			if s.What == "" || s.Source == "" || known == math.IsNaN(s.Margin) {
				t.Errorf("%+v", s)
			}
			if out.Stand() == Bad && !publishedMiss(out) {
				t.Error("advice fails it")
			}
		}
	})
}

func publishedMiss(g *Group) bool {
	for _, s := range g.Statements {
		if s.Published && s.Verdict == judge.FallsShort {
			return true
		}
	}
	return false
}
