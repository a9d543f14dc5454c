package plan

import (
	"math"
	"strings"
	"testing"

	"swingwright/fact"
	"swingwright/judge"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/rulebook"
	"swingwright/transit"
)

// member is a leaf under power as the trade's example has it: open in 3.5 s, held
// 5 s, 3 ft wide, its people in wheelchairs.
func member(id string) *Member {
	return &Member{
		ID: id, Powered: true, Speed: transit.Wheelchair, Width: 3 * q.Foot,
		Cycle: Cycle{Cycle: transit.Cycle{Opening: 3.5, Hold: 5}}, known: rulebook.NewEnv(),
	}
}

func vestibuleOf(between q.Length) *opening.Group {
	return &opening.Group{ID: "V", Kind: opening.Vestibule, Of: []string{"A", "B"}, Between: q.Exactly(between), SwingsIn: q.Exactly(3 * q.Foot)}
}

func statement(t *testing.T, g *Group, what string) *Statement {
	t.Helper()
	for i := range g.Statements {
		if strings.HasPrefix(g.Statements[i].What, what) {
			return &g.Statements[i]
		}
	}
	t.Fatalf("nothing is said of %q", what)
	return nil
}

func expect(t *testing.T, s *Statement, v judge.Verdict, margin float64) {
	t.Helper()
	if s.Verdict != v || math.Abs(s.Margin-margin) > 1e-6 {
		t.Errorf("%s: %v by %.4g, want %v by %.4g", s.What, s.Verdict, s.Margin, v, margin)
	}
}

// The trade's vestibule: 10 ft at 2 ft/s. Its rule starts the second door after
// 2.1 + 2.5 = 4.6 s. By its own demand, that it be open when the person is 3 ft away,
// that is 2.5 s too late, since the person is there after 2.1 + 3.5 = 5.6 s, and the
// door after 8.1; and with only 5 s of hold no other delay than 2.1 s will do.
func TestVestibuleOfTheWorkedExample(t *testing.T) {
	v := vestibuleOf(10 * q.Foot)
	v.Delay = q.Exactly(4.6 * q.Second)
	g := Together(v, member("A"), member("B"), nil, judge.Policy{})
	if len(g.Delays) != 2 || g.Delays[0].From != "A" || g.Delays[1].From != "B" {
		t.Fatalf("ways through: %+v", g.Delays)
	}
	d := g.Delays[0]
	for _, c := range []struct{ got, want float64 }{
		{float64(d.Earliest.Value), 2.1}, {float64(d.HalfWay.Value), 4.6}, {float64(d.Latest.Value), 2.1}, {float64(d.Wait), 2.5},
	} {
		if math.Abs(c.got-c.want) > 1e-9 {
			t.Errorf("%.4f s, want %.4f", c.got, c.want)
		}
	}
	expect(t, statement(t, g, "Delay short of the latest"), judge.FallsShort, -2.5)
	expect(t, statement(t, g, "Delay beyond the earliest"), judge.Meets, 2.5)
	expect(t, statement(t, g, "To spare at A"), judge.Meets, 2.9)
	// 10 ft less 48 in and the 3 ft that swing in: 3 ft over.
	room := statement(t, g, "Room between")
	if room.Verdict != judge.Meets || math.Abs(room.Margin-3*0.3048) > 1e-9 || room.Published {
		t.Errorf("room: %+v", room)
	}
	if g.Stand() != Good {
		t.Errorf("advice alone makes it %v", g.Stand())
	}
}

// The earliest delay goes with 0.6 of the first opening's spread and all of what the
// second is open: u² = (0.6·0.1)² + 0.2² + 0.15², by hand 0.2571 s. What lies within
// 1.645 of them of its limit is too close to call.
func TestDelaysHaveTheirSpread(t *testing.T) {
	a, b := member("A"), member("B")
	a.Cycle.Spread.Opening, b.Cycle.Spread.Opening, b.Cycle.Spread.Hold = 0.1, 0.2, 0.15
	v := vestibuleOf(12 * q.Foot)
	v.Between = q.Exactly(12 * q.Foot)
	v.Delay = q.Exactly(3.4 * q.Second)
	g := Together(v, a, b, nil, judge.Policy{})
	if got := float64(g.Delays[0].Earliest.U); math.Abs(got-0.2571) > 1e-4 {
		t.Errorf("spread of the earliest delay %.4f s, want 0.2571", got)
	}
	// earliest: 2.1 + 19/2 - 8.5 = 3.1 s
	if s := statement(t, g, "Delay beyond the earliest"); s.Verdict != judge.TooClose || math.Abs(s.Margin-0.3) > 1e-9 {
		t.Errorf("%v by %.3f s", s.Verdict, s.Margin)
	}
}

func TestTrappedInAVestibule(t *testing.T) {
	v := vestibuleOf(12 * q.Foot)
	v.Delay = q.Exactly(q.Time(0))
	g := Together(v, member("A"), member("B"), nil, judge.Policy{})
	s := statement(t, g, "To spare at B")
	if !g.Delays[0].Trapped || s.Verdict != judge.FallsShort || !strings.Contains(s.Say, "trapped") {
		t.Errorf("both open at once, slow people: %+v", s)
	}
	v.Inside = "yes"
	if g = Together(v, member("A"), member("B"), nil, judge.Policy{}); g.Delays[0].Trapped {
		t.Error("trapped beside a switch")
	}
	frail := member("B")
	frail.Speed = transit.Frail
	if g = Together(v, member("A"), frail, nil, judge.Policy{}); g.Delays[0].Speed != transit.Frail {
		t.Error("the slower people of the two doors do not set the pace")
	}
}

// The room is a rule of the accessibility standard, 404.2.6: 48 in and the swing.
func TestRoomIsARuleWhereTheJobNamesIt(t *testing.T) {
	_, books := clinic(t)
	a := member("A")
	a.known[fact.InSeries] = 1
	g := Together(vestibuleOf(80*q.Inch), a, member("B"), books, judge.Policy{})
	s := statement(t, g, "Room between")
	if !s.Published || s.Verdict != judge.FallsShort || math.Abs(s.Limit-84*0.0254) > 1e-9 || !strings.Contains(s.Source, "404.2.6") {
		t.Errorf("80 in of 84: %+v", s)
	}
	if g.Stand() != Bad {
		t.Errorf("a published limit that is missed makes it %v", g.Stand())
	}
	v := vestibuleOf(80 * q.Inch)
	v.Between = q.Measured[q.Length]{}
	if g = Together(v, a, member("B"), books, judge.Policy{}); statement(t, g, "Room between").Verdict != judge.NotMeasured || g.Stand() != Undecided || len(g.Gaps) == 0 {
		t.Errorf("room that nobody taped: %v, %d gaps", g.Stand(), len(g.Gaps))
	}
}

// With the outer door open the inner one takes the whole pressure: 30 Pa more on a
// leaf of 0.87 N·m per pascal are 26.1 N·m off its 20 N·m of budget.
func TestInnerDoorTakesThePressure(t *testing.T) {
	a, b := member("A"), member("B")
	a.Most, a.Swings, a.SwingsOut = Row{Value: 5, Known: true}, true, true
	a.Least = Row{Value: -40, Known: true} // inward: 40 Pa
	b.Most, b.Swings, b.PerPascal = Row{Value: 10, Known: true}, true, 0.87
	b.Latch = Fact{Known: true, Value: 20, U: 2}
	g := Together(vestibuleOf(10*q.Foot), a, b, nil, judge.Policy{})
	s := statement(t, g, "Inner door latches")
	expect(t, s, judge.FallsShort, 20-30*0.87)
	b.SwingsOut = true // then the cold pushes it shut, and the 5 Pa outward are less than its own
	g = Together(vestibuleOf(10*q.Foot), a, b, nil, judge.Policy{})
	expect(t, statement(t, g, "Inner door latches"), judge.Meets, 20)
}

func pairOf() *opening.Group {
	return &opening.Group{ID: "P", Kind: opening.Pair, Of: []string{"A", "B"}, Opens: "together", Overlaps: "yes", Coordinator: "yes", Rods: "no",
		Stagger: q.Exactly(0.7 * q.Second), CloseAfter: q.Give(1.5*q.Second, q.Time(0))}
}

// 6 s each, 1.5 s later: half a second beyond the second that the trade asks for.
func TestClosingOrderOfAPair(t *testing.T) {
	a, b := member("A"), member("B")
	a.Closes, b.Closes = Fact{Known: true, Value: 6}, Fact{Known: true, Value: 6}
	expect(t, statement(t, Together(pairOf(), a, b, nil, judge.Policy{}), "Other leaf shut"), judge.Meets, 0.5)
	// each time good to 0.3 s: 0.42 s together, and half a second is too close
	a.Closes.U, b.Closes.U = 0.3, 0.3
	s := statement(t, Together(pairOf(), a, b, nil, judge.Policy{}), "Other leaf shut")
	expect(t, s, judge.TooClose, 0.5)
	if math.Abs(s.U-0.3*math.Sqrt2) > 1e-12 {
		t.Errorf("spread %.4f s", s.U)
	}
	g := pairOf()
	g.Opens = "active"
	if s := statement(t, Together(g, a, b, nil, judge.Policy{}), "Other leaf shut"); s.Verdict != judge.DoesNotApply {
		t.Errorf("the other leaf stays shut: %v", s.Verdict)
	}
	g = pairOf()
	g.CloseAfter = q.Measured[q.Time]{}
	out := Together(g, a, b, nil, judge.Policy{})
	if s := statement(t, out, "Other leaf shut"); s.Verdict != judge.FallsShort || len(out.Notes) == 0 {
		t.Errorf("both begin together: %v, notes %q", s.Verdict, out.Notes)
	}
}

func TestCoordinatorAndStagger(t *testing.T) {
	for _, c := range []struct {
		astragal, rods, coordinator opening.YesNo
		want                        judge.Verdict
	}{
		{"yes", "no", "yes", judge.Meets}, {"yes", "no", "no", judge.FallsShort}, {"yes", "no", "", judge.NotMeasured},
		{"no", "yes", "no", judge.Meets}, {"no", "yes", "yes", judge.FallsShort}, {"yes", "yes", "yes", judge.FallsShort},
		{"no", "no", "", judge.DoesNotApply}, {"", "no", "yes", judge.NotMeasured},
	} {
		g := pairOf()
		g.Overlaps, g.Rods, g.Coordinator = c.astragal, c.rods, c.coordinator
		if s := statement(t, Together(g, member("A"), member("B"), nil, judge.Policy{}), "Coordinator"); s.Verdict != c.want {
			t.Errorf("astragal %s, rods %s, coordinator %s: %v, want %v", c.astragal, c.rods, c.coordinator, s.Verdict, c.want)
		}
	}
	for stagger, want := range map[q.Time][2]judge.Verdict{
		0.3: {judge.FallsShort, judge.Meets}, 0.7: {judge.Meets, judge.Meets}, 1.3: {judge.Meets, judge.FallsShort},
	} {
		g := pairOf()
		g.Stagger = q.Exactly(stagger)
		out := Together(g, member("A"), member("B"), nil, judge.Policy{})
		n := len(out.Statements)
		if a, b := out.Statements[n-2].Verdict, out.Statements[n-1].Verdict; a != want[0] || b != want[1] {
			t.Errorf("%g s between the starts: %v and %v, want %v", float64(stagger), a, b, want)
		}
	}
}

// By hand the active leaf alone counts, under power both: two leaves of 20 in miss
// 32 in one by one and keep it together (ADA 404.2.3 and 404.3.1).
func TestClearWidthOfAPair(t *testing.T) {
	_, books := clinic(t)
	twenty := Fact{Known: true, Value: 20 * 0.0254, U: 1e-3, Origin: Read}
	pair := func(operation string, powered bool) *Group {
		a, b := member("A"), member("B")
		a.Powered, b.Powered = powered, powered
		a.ByHand, b.ByHand, a.UnderPower, b.UnderPower = twenty, twenty, twenty, twenty
		a.known[fact.DoorwayDepth] = 0.1
		for i, word := range fact.Operation.Fact().Choices {
			if word == operation {
				a.known[fact.Operation] = float64(i)
			}
		}
		return Together(pairOf(), a, b, books, judge.Policy{})
	}
	hand := pair("manual", false)
	if s := statement(t, hand, "Clear width by hand"); s.Verdict != judge.FallsShort || !s.Published || hand.Stand() != Bad {
		t.Errorf("by hand: %v, published %v", s.Verdict, s.Published)
	}
	both := pair("low-energy", true)
	for _, what := range []string{"Clear width by hand", "Clear width under power"} {
		if s := statement(t, both, what); s.Verdict != judge.Meets || math.Abs(s.Margin-8*0.0254) > 1e-9 {
			t.Errorf("together, %s: %v by %.4f m", what, s.Verdict, s.Margin)
		}
	}
}

func TestDoubleEgress(t *testing.T) {
	group := &opening.Group{ID: "D", Kind: opening.DoubleEgress, Of: []string{"A", "B"}, Stagger: q.Exactly(0.7 * q.Second)}
	a, b := member("A"), member("B")
	a.Push, b.Pull = []string{"plate east"}, []string{"plate east"}
	g := Together(group, a, b, nil, judge.Policy{})
	if s := statement(t, g, "Switch on the push side of A"); s.Verdict != judge.Meets || !strings.Contains(s.Say, "plate east") {
		t.Errorf("%+v", s)
	}
	if s := statement(t, g, "Switch on the push side of B"); s.Verdict != judge.FallsShort {
		t.Errorf("a leaf whose only switch is on its pull side: %v", s.Verdict)
	}
	b.Powered = false
	g = Together(group, a, b, nil, judge.Policy{})
	if s := statement(t, g, "An operator for each"); s.Verdict != judge.FallsShort || s.Published {
		t.Errorf("one operator for two leaves: %+v", s)
	}
}

// A member has what its plan found.
func TestMemberOfAPlan(t *testing.T) {
	j, books := clinic(t)
	p := Make(demoOpening(t, j, "101"), &j.Sheets, books, Options{Draws: 64})
	m := p.Member(&j.Sheets)
	if m.ID != "101" || !m.Powered || m.Closes != p.Facts[fact.CloseTime90ToClosed] || m.ByHand != p.Facts[fact.ClearWidth] || m.Cycle.Hold != 6.5 ||
		len(m.Pull) != 1 || len(m.Push) != 1 || !m.SwingsOut || !m.Swings || m.PerPascal <= 0 {
		t.Errorf("%+v", m)
	}
}
