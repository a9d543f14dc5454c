package plan

import (
	"fmt"
	"math"
	"strings"

	"swingwright/fact"
	"swingwright/judge"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/transit"
)

// handTimed is the standard uncertainty of a time that a control is set to where
// none was stated; assumed.
const handTimed = 0.2 * q.Second

// pair judges two leaves in one frame that swing the same way.
func (k grouper) pair() {
	k.clearWidth()
	k.closingOrder()
	k.coordinator()
	k.stagger()
}

// together tells that a press opens both leaves.
func (k grouper) together() bool { return k.Group.Group.Opens == "together" }

// powered tells that operators open both leaves.
func (k grouper) powered() bool { return k.Members[0].Powered && k.Members[1].Powered }

// clearWidth: by hand the active leaf alone has to give the way, under power all
// leaves that open together.
func (k grouper) clearWidth() {
	a, b := k.Members[0], k.Members[1]
	all := k.powered() && k.together()
	one := func(what string, of func(*Member) Fact) (Fact, string) {
		if all {
			return sum(of(a), of(b)), what + ", both leaves, which open together"
		}
		return of(a), what + ", active leaf alone"
	}
	byHand, what := one("Clear width by hand", func(m *Member) Fact { return m.ByHand })
	under, whatUnder := one("Clear width under power", func(m *Member) Fact { return m.UnderPower })
	exchanged := map[fact.ID]float64{fact.ClearWidth: byHand.or(), fact.PoweredClearWidth: under.or()}
	const say = "What is measured at either leaf alone does not decide; this does."
	ruled := k.ruled(fact.ClearWidth, what, byHand, exchanged, say)
	if ruled = k.ruled(fact.PoweredClearWidth, whatUnder, under, exchanged, say) || ruled; !ruled {
		k.skip("Clear width", fromTrade, "No rulebook of this job asks for one.")
	}
}

// sum is two facts added up.
func sum(a, b Fact) Fact {
	return Fact{Known: a.Known && b.Known, Value: a.Value + b.Value, U: math.Hypot(a.U, b.U), Origin: min(a.Origin, b.Origin)}
}

// or is the fact's value, NaN where it is not known.
func (f Fact) or() float64 {
	if f.Known {
		return f.Value
	}
	return math.NaN()
}

// closingOrder: a leaf that is lapped over has to be shut first.
func (k grouper) closingOrder() {
	const what = "Other leaf shut before the active one"
	g, a, b := k.Group.Group, k.Members[0], k.Members[1]
	switch {
	case g.Overlaps == "no":
		k.skip(what, fromTrade, "Neither leaf laps over the other: they may close in any order.")
		return
	case g.Overlaps == "" || g.Opens == "":
		k.answer(what, fromTrade, "Whether one leaf laps over the other, and whether both open, has to be known.", false, false)
		return
	case !k.together():
		k.skip(what, fromTrade, "A press opens the active leaf only; the other one stays shut.")
		return
	}
	s := Statement{What: what, Dim: q.DimTime, Limit: float64(transit.Lead), Side: judge.AtLeast, Source: fromTrade}
	if !a.Closes.Known || !b.Closes.Known {
		s.Say = "The closing of either leaf has not been timed."
		k.put(s, math.NaN(), math.NaN())
		return
	}
	after := g.CloseAfter.WithSpread(handTimed)
	if !after.Known {
		after = q.Exactly(q.Time(0))
		k.Notes = append(k.Notes, "nobody wrote down that the active leaf begins to close later (close_after): both are taken to begin together")
	}
	c := transit.Closings{Active: q.Time(a.Closes.Value), Other: q.Time(b.Closes.Value), After: after.Value}
	u := math.Hypot(math.Hypot(a.Closes.U, b.Closes.U), float64(after.U))
	lacks := float64(transit.Lead-c.Leads()) + k.policy.Coverage()*u
	s.Say = fmt.Sprintf("%s shuts in %.1f s and %s in %.1f s, begun %.1f s later.", b.ID, float64(c.Other), a.ID, float64(c.Active), float64(after.Value))
	if lacks > 0 {
		s.Say += fmt.Sprintf(" Let %s begin %.1f s later than it does, or close so much slower; else its edge meets the other leaf's astragal, and a coordinator holds it there.", a.ID, lacks)
	}
	k.put(s, float64(c.Leads()), u)
}

// coordinator: an overlap needs one, rods on both leaves should have none.
func (k grouper) coordinator() {
	const what = "Coordinator"
	g := k.Group.Group
	has, known := g.Coordinator == "yes", g.Coordinator != ""
	switch {
	case g.Overlaps == "yes" && g.Rods == "yes":
		k.answer(what, fromTrade, "An overlapping astragal needs a coordinator, and vertical rods on both leaves should have none: one of the two has to go.", true, false)
	case g.Overlaps == "yes":
		k.answer(what, fromTrade, "An overlapping astragal needs one, so that the leaves close in order whoever opened them.", known, has)
	case g.Rods == "yes":
		k.answer(what, fromTrade, "With vertical rods on both leaves there should be none: either leaf latches by itself.", known, !has)
	case g.Overlaps == "" || g.Rods == "":
		k.answer(what, fromTrade, "It depends on the astragal and on what latches the leaves.", false, false)
	default:
		k.skip(what, fromTrade, "Nothing laps over, and nothing asks for one.")
	}
}

// stagger: two operators that start at once draw both their inrush currents.
func (k grouper) stagger() {
	const what = "Time between the starts of the operators"
	g := k.Group.Group
	switch {
	case !k.powered():
		k.skip(what, fromMemory, "There are not two operators.")
		return
	case g.Opens == "active":
		k.skip(what, fromMemory, "A press starts one of them only.")
		return
	}
	given := g.Stagger.WithSpread(handTimed / 2)
	value, u := math.NaN(), math.NaN()
	if given.Known {
		value, u = float64(given.Value), float64(given.U)
	}
	k.put(Statement{What: what, Dim: q.DimTime, Limit: float64(transit.LeastStagger), Side: judge.AtLeast, Source: fromMemory,
		Say: "Started at once, both motors and both releases draw their inrush current together."}, value, u)
	k.put(Statement{What: what, Dim: q.DimTime, Limit: float64(transit.MostStagger), Side: judge.AtMost, Source: fromMemory,
		Say: "Longer, and people wait for the second leaf."}, value, u)
}

// doubleEgress judges two leaves in one frame that swing opposite ways.
func (k grouper) doubleEgress() {
	const own = "An operator for each leaf"
	a, b := k.Members[0], k.Members[1]
	switch {
	case !a.Powered && !b.Powered:
		k.skip(own, fromMemory, "Neither leaf is opened under power.")
	default:
		k.answer(own, fromMemory, "The leaves swing opposite ways: each has its operator on its own pull or push side.", true, k.powered())
	}
	for i, m := range k.Members {
		if m.Powered {
			k.ownSwitch(m, k.Members[1-i])
		}
	}
	k.stagger()
}

// ownSwitch: people meet the leaf that opens away from them, on whose push side
// they stand.
func (k grouper) ownSwitch(m, other *Member) {
	say := fmt.Sprintf("People who stand on the push side of %s, which is the pull side of %s, are let through by %s, which opens away from them", m.ID, other.ID, m.ID)
	if len(m.Push) > 0 {
		say += ": by " + strings.Join(m.Push, ", ") + ". Label that side for it."
	} else {
		say += ". Write its switch down with side: push, and label that side for it."
	}
	k.answer("Switch on the push side of "+m.ID, fromMemory, say, len(m.Push)+len(m.Pull) > 0, len(m.Push) > 0)
}

// switchName is what a switch is called.
func switchName(c *opening.Control, i int) string {
	if c.What != "" {
		return c.What
	}
	return fmt.Sprintf("switch %d", i+1)
}
