package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"swingwright/fact"
	"swingwright/internal/propagate"
	"swingwright/judge"
	q "swingwright/quantity"
	"swingwright/transit"
)

// A Delay is when the second door of a vestibule has to start, for people who go
// one way: times from the press, each with its standard uncertainty.
type Delay struct {
	From, To                  string // the openings, in the order of the way
	Speed                     q.Speed
	Earliest, HalfWay, Latest q.Measured[q.Time]
	// Passage is how they get through with the delay that is set; without one it
	// is reckoned with the latest that needs no waiting.
	Set bool
	transit.Passage
}

// vestibule judges two doors in series.
func (k grouper) vestibule() {
	k.room()
	a, b := k.Members[0], k.Members[1]
	for _, m := range k.Members {
		if m.Powered && len(m.Cycle.Missing) > 0 {
			for _, what := range m.Cycle.Missing {
				k.Notes = append(k.Notes, "of "+m.ID+" is missing "+what)
			}
		}
	}
	switch {
	case !k.powered():
		k.skip("Delay of the second door", fromTrade, "Not both doors are opened under power: people open the other one themselves.")
	case !k.Group.Group.Between.Known || len(a.Cycle.Missing)+len(b.Cycle.Missing) > 0 || !(min(a.Width, b.Width) > 0):
		k.answer("Delay of the second door", fromTrade, "The distance between the doors, and width and times of both, have to be known.", false, false)
	default:
		k.passes(a, b)
		k.passes(b, a)
	}
	k.pressure()
}

// room: beyond a door that swings into it, the vestibule has to take a person.
func (k grouper) room() {
	const what = "Room between the doors"
	g := k.Group.Group
	between, swing := row(g.Between.WithSpread(tape), surveyed), row(g.SwingsIn.WithSpread(tape), surveyed)
	exchanged := map[fact.ID]float64{fact.InSeries: 1, fact.SeriesSwing: math.NaN()}
	if swing.Known {
		exchanged[fact.SeriesSwing] = swing.Value
	}
	value := of(between)
	value.U = math.Hypot(between.U, swing.U)
	say := "From door to door, beyond the width of any leaf that swings into it."
	if k.ruled(fact.SeriesDistance, what, value, exchanged, say) {
		return
	}
	s := Statement{What: what, Dim: q.DimLength, Limit: float64(transit.Room) + swing.Value, Side: judge.AtLeast, Source: "ADA Standards 2010, 404.2.6, which this job does not name", Say: say}
	if !between.Known || !swing.Known {
		value.Value, value.U = math.NaN(), math.NaN()
	}
	k.put(s, value.Value, value.U)
}

// passes judges one way through.
func (k grouper) passes(a, b *Member) {
	g := k.Group.Group
	v := transit.Vestibule{
		A: a.Cycle.Cycle, B: b.Cycle.Cycle, Gap: g.Between.Value, Person: transit.Chair, Clear: max(a.Width, b.Width),
		Speed: min(a.Speed, b.Speed), Delay: g.Delay.Value, Inside: g.Inside == "yes", Swing: g.SwingsIn.Value,
	}
	delay := g.Delay.WithSpread(handTimed)
	if !delay.Known {
		v.Delay = max(0, v.Latest())
	}
	d := Delay{From: a.ID, To: b.ID, Speed: v.Speed, Set: delay.Known, Passage: v.Pass()}
	t := k.spreads(v, a, b, g.Between.WithSpread(tape), delay)
	d.Earliest, d.HalfWay, d.Latest = t.time(earliest), t.time(halfWay), t.time(latest)
	k.Delays = append(k.Delays, d)
	k.window(&d, t)
	if delay.Known {
		k.delayed(&d, t)
	} else if g.Inside != "yes" {
		k.answer("Delay from "+a.ID+" to "+b.ID, fromMemory, "Write down after how long the second door starts by itself, or that a switch inside opens it.", false, false)
	}
}

// The outcomes of a way through whose spreads are reckoned.
const (
	earliest = iota
	halfWay
	latest
	first
	second
	span
	tooEarly
	tooLate
	outcomes
)

// times are the outcomes of a way with their spreads by the linear law.
type times struct{ *propagate.Budget }

func (t times) time(j int) q.Measured[q.Time] {
	if t.Budget == nil {
		return q.Measured[q.Time]{}
	}
	return q.Give(q.Time(t.Value(j)), q.Time(t.U(j)))
}

// spreads reckons the outcomes of a way with the spreads of all that was timed.
func (k grouper) spreads(v transit.Vestibule, a, b *Member, gap q.Measured[q.Length], delay q.Measured[q.Time]) times {
	inputs := []propagate.Input{
		{Mean: float64(v.A.Opening), U: float64(a.Cycle.Spread.Opening)}, {Mean: float64(v.A.Hold), U: float64(a.Cycle.Spread.Hold)},
		{Mean: float64(v.A.Usable), U: float64(a.Cycle.Spread.Usable)}, {Mean: float64(v.B.Opening), U: float64(b.Cycle.Spread.Opening)},
		{Mean: float64(v.B.Hold), U: float64(b.Cycle.Spread.Hold)}, {Mean: float64(v.B.Usable), U: float64(b.Cycle.Spread.Usable)},
		{Mean: float64(v.Gap), U: float64(gap.U)}, {Mean: float64(v.Delay), U: float64(delay.U)},
	}
	budget, err := propagate.Linear(inputs, outcomes, func(x, out []float64) {
		w := v
		w.A = transit.Cycle{Opening: q.Time(x[0]), Hold: q.Time(x[1]), Usable: q.Time(x[2])}
		w.B = transit.Cycle{Opening: q.Time(x[3]), Hold: q.Time(x[4]), Usable: q.Time(x[5])}
		w.Gap, w.Delay = q.Length(x[6]), q.Time(x[7])
		p := w.Pass()
		out[earliest], out[halfWay], out[latest] = float64(w.Earliest()), float64(w.HalfWay()), float64(w.Latest())
		out[first], out[second] = float64(p.FirstMargin), float64(p.SecondMargin)
		out[span] = out[latest] - out[earliest]
		out[tooEarly], out[tooLate] = x[7]-out[earliest], out[latest]-x[7]
	})
	if err != nil {
		k.Notes = append(k.Notes, err.Error())
		return times{}
	}
	return times{budget}
}

// seconds holds a time that has to be left over against nothing.
func (k grouper) seconds(what, say string, m q.Measured[q.Time]) {
	value, u := math.NaN(), math.NaN()
	if m.Known {
		value, u = float64(m.Value), float64(m.U)
	}
	k.put(Statement{What: what, Dim: q.DimTime, Side: judge.AtLeast, Source: fromMemory, Say: say}, value, u)
}

// window: is there a delay with which nobody waits and nobody is caught?
func (k grouper) window(d *Delay, t times) {
	say := fmt.Sprintf("From %s to %s the second door may start %.1f to %.1f s after the press; half-way rule: %.1f s.",
		d.From, d.To, float64(max(0, d.Earliest.Value)), float64(d.Latest.Value), float64(d.HalfWay.Value))
	if width := t.time(span); width.Value < 0 {
		say = fmt.Sprintf("From %s to %s no delay will do: by the time the person is through %s, it would have to start %.1f s later than it may without making them wait. Hold %s so much longer, or put a switch between the doors.",
			d.From, d.To, d.To, -float64(width.Value), d.To)
	}
	k.seconds("Room for a delay, "+d.From+" to "+d.To, say, t.time(span))
}

// delayed judges the delay that is set.
func (k grouper) delayed(d *Delay, t times) {
	way := ", " + d.From + " to " + d.To
	k.seconds("Delay beyond the earliest"+way, fmt.Sprintf("Any earlier, and %s closes before a person who goes %.2g ft/s (%.2f m/s) is through.", d.To, float64(d.Speed/q.FootPerSecond), float64(d.Speed)), t.time(tooEarly))
	wait := "nobody waits"
	if d.Wait > 0 {
		wait = fmt.Sprintf("they wait %.1f s before %s", float64(d.Wait), d.To)
	}
	k.seconds("Delay short of the latest"+way, "With the delay set "+wait+".", t.time(tooLate))
	k.seconds("To spare at "+d.From+way, "Clear of the first door before it closes on the path.", t.time(first))
	say := "Through the second door before it closes on the path."
	switch {
	case d.Trapped:
		say = "The second door closes before they are through, and nothing between the doors opens one: they are trapped. Put a switch there."
	case d.SecondMargin < 0:
		say = "The second door closes before they are through; the switch between the doors opens it again."
	}
	k.seconds("To spare at "+d.To+way, say, t.time(second))
	for i := 1; i <= 2; i++ {
		k.Statements[len(k.Statements)-i].onPaper = true
	}
}

// pressure: while one door stands open the other one holds all of it.
func (k grouper) pressure() {
	const what = "Inner door latches while the outer stands open"
	outer, inner := k.Members[0], k.Members[1]
	low, high := outer.inward()
	s := Statement{What: what, Dim: q.DimTorque, Side: judge.AtLeast, Source: fromTrade,
		Say: "With both shut the pressure divides as they leak, most of it on the tighter door; with one open the other takes it all."}
	if !outer.Swings || !inner.Swings || !inner.Latch.Known || inner.PerPascal == 0 {
		s.Say += " Toward where both leaves swing, and the latch budget of the inner one, have to be known."
		k.put(s, math.NaN(), math.NaN())
		return
	}
	opens := []Row{low, high}
	if inner.SwingsOut {
		opens[0].Value, opens[1].Value = -low.Value, -high.Value
	}
	worst := slices.MaxFunc(opens, func(a, b Row) int { return cmp.Compare(a.Value, b.Value) })
	extra := worst.Value - inner.Most.Value
	if extra <= 0 {
		s.Say += fmt.Sprintf(" %s is reckoned with more than that already.", inner.ID)
		extra, worst.U = 0, 0
	} else {
		s.Say += fmt.Sprintf(" That pushes %s open by %s; it is reckoned with %s.", inner.ID, pascals(worst.Value), pascals(inner.Most.Value))
	}
	per := float64(inner.PerPascal)
	k.put(s, inner.Latch.Value-extra*per, math.Hypot(inner.Latch.U, worst.U*per))
}

// pascals is a pressure in both systems of units.
func pascals(p float64) string { return both(q.Exactly(q.Pressure(p))) }
