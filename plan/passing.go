package plan

import (
	"math"
	"slices"

	"swingwright/judge"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/swing"
	"swingwright/transit"
)

// Passing is whether people get from the switch through the doorway while the
// leaf is held open for them. All of it is advice: speeds and way are common
// practice, from memory.
type Passing struct {
	Cycle
	// Clear is how far the way goes on beyond the doorway: the leaf's width.
	Clear, Person q.Length
	Walks         []Walked // for every switch whose distance is known, slowest people first
	Holds         []Held   // for every such switch
}

// Walked is one person's way from one switch.
type Walked struct {
	Control string // what it is, for people
	From    q.Length
	Who     string
	Speed   q.Speed
	// Must tells that these people have to get through here; others are shown
	// beside them.
	Must bool
	transit.Advice
	U       q.Time // standard uncertainty of the margin
	Verdict judge.Verdict
}

// Held is the hold that the low-energy standard recommends for a switch's distance.
type Held struct {
	Control string
	From    q.Length
	Least   q.Time // ANSI/BHMA A156.19-2013, A-5, advisory
	U       q.Time // of the hold that there is
	Verdict judge.Verdict
}

// People are who has to get through, slowest first (speeds: common practice, from memory).
var people = [...]struct {
	who   string
	speed q.Speed
}{{"frail", transit.Frail}, {"wheelchair", transit.Wheelchair}, {"brisk", transit.Brisk}}

// slowest is the speed that has to fit: that of frail people where many use the
// opening, else that of a wheelchair.
func slowest(o *opening.Opening) q.Speed {
	if o.Building.FrailUsers == "yes" {
		return transit.Frail
	}
	return transit.Wheelchair
}

// passing is whether people get through; nil where no switch starts the opening.
func (p *Plan) passing(sheets *opening.Sheets, policy judge.Policy) *Passing {
	o := p.Opening
	if !o.Use.Powered() || o.Use.Activation == "push-pull" || o.Use.Activation == "sensor" || len(o.Controls) == 0 {
		return nil
	}
	s := &Passing{Cycle: p.Cycle(sheets), Clear: q.Length(p.Resolved.Rows[swing.LeafWidth].Value), Person: transit.Chair}
	controls := p.Room.filled(o)
	if !slices.ContainsFunc(controls, func(c opening.Control) bool { return c.FromMiddle.Known }) {
		s.Missing = append(s.Missing, "how far the switches are from the middle of the doorway (controls.from_middle)")
	}
	if !(s.Clear > 0) {
		s.Missing = append(s.Missing, "the leaf's width")
	}
	if len(s.Missing) > 0 {
		return s
	}
	for i := range controls {
		if c := &controls[i]; c.FromMiddle.Known {
			s.walk(c, i, slowest(o), policy)
		}
	}
	return s
}

// walk adds the ways from one switch.
func (s *Passing) walk(c *opening.Control, i int, must q.Speed, policy judge.Policy) {
	name := switchName(c, i)
	from := c.FromMiddle.WithSpread(tape)
	for _, who := range people {
		w := transit.Walk{Actuator: from.Value, Clear: s.Clear, Person: s.Person, Speed: who.speed}
		u := math.Hypot(float64(transit.Spread(s.Spread)), float64(from.U)/float64(who.speed))
		one := Walked{Control: name, From: from.Value, Who: who.who, Speed: who.speed, Must: who.speed == must, U: q.Time(u)}
		// the spare time asked for is the guard band, so that the hold advised meets
		one.Advice = transit.Advise(w, s.Cycle.Cycle, q.Time(policy.Coverage()*u))
		one.Verdict = judge.Decide(float64(one.Margin), u, policy)
		s.Walks = append(s.Walks, one)
	}
	least := transit.HoldByDistance(from.Value)
	s.Holds = append(s.Holds, Held{name, from.Value, least, s.Spread.Hold,
		judge.Decide(judge.Margin(judge.AtLeast, float64(s.Hold), float64(least)), float64(s.Spread.Hold), policy)})
}
