package logic

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"swingwright/opening"
	q "swingwright/quantity"
)

// Traffic is what leaves and people take on the way through a vestibule.
type Traffic struct {
	Leaves  [2]Leaf  // in the order of the doors
	Between q.Length // from door to door
	Person  q.Length // from front to back
	Near    q.Length // before the second door, where people wait until it is open
	Enters  float64  // share of the opening after which people set out, 0 to 1
	Speed   q.Speed
	Every   q.Time // from one start of a second person that is tried to the next; each tick where zero
}

// A Leaf is what a door of a vestibule takes, in time and on the floor.
type Leaf struct {
	Opens  q.Time // from its start until fully open
	Hold   q.Time // held fully open after the last signal
	Usable q.Time // from the start of closing until it reaches the path
	Closes q.Time // from the start of closing until shut
	Width  q.Length
	Swing  Swing
}

// Check collects what makes no sense in a traffic.
func (t *Traffic) Check() error {
	ok := t.Between > 0 && t.Person > 0 && t.Near >= 0 && t.Speed > 0 && t.Enters >= 0 && t.Enters <= 1 && t.Every >= 0
	for _, l := range t.Leaves {
		ok = ok && l.Opens > 0 && l.Hold >= 0 && l.Usable >= 0 && l.Closes > 0 && l.Width > 0
	}
	if !ok {
		return errors.New("lengths, speed and times of a vestibule have to be above zero to follow people through it")
	}
	return nil
}

// A Way is what somebody meets who goes through a vestibule alone in one direction.
type Way struct {
	From, To string
	Through  bool   // whether they get through by what the wiring does, the plate between included
	Time     q.Time // from the press until clear of the second door
	Wait     q.Time // before the second door
	// Spare is how long after they are clear of the first and of the second door
	// its leaf would reach their path; below zero it closes on them, or it began to close
	// so long before they were there. NaN where it does not close or they do not come clear of it.
	Spare [2]q.Time
	// Starts is when the first and the second door take their start, counted from the
	// press, NaN where one takes none; By are the outputs whose delay ran meanwhile.
	Starts [2]q.Time
	By     []string
	Asks   bool // they have to press the plate between
	// Where the second of two people finds the second door shut and has to press the
	// plate between: the earliest and the latest start after the first one's, and what
	// did not hear them.
	Forgets          bool
	ForgetsOn        string // whether the first one goes the same way or comes toward them
	Earliest, Latest q.Time
	Deaf             string
	Stand            Stand // where they wait before the second door
}

// A Slip is what meets people who press nothing and go in by the door that somebody
// else's press holds open: behind them, or toward them.
type Slip struct {
	From, To string
	Behind   bool // whether the one who pressed goes the same way
	// Until is the latest that they can go in, counted from the press, NaN where they
	// never can. Whoever comes from Caught on has the first leaf on their path before
	// they are clear of it, and whoever comes from Shut on finds the second door shut
	// and nothing about to open it; NaN where nobody does.
	Until, Caught, Shut q.Time
	// Meets is the worst of what those who find it shut can do.
	Meets Exit
}

// An Exit is how somebody between two doors gets out.
type Exit uint8

// The exits, the best first.
const (
	ByWay   Exit = iota // the second door opens for them, or is open
	ByPlate             // they press the plate between
	ByHand              // they push or pull a door
	NoExit              // both doors are shut and locked to the hand, too
)

// Walked is what came of following people through a vestibule.
type Walked struct {
	Ways     []Way
	Slips    []Slip
	Verdicts []Verdict // on the rules of WalkRules, in their order
	Runs     int       // pairs of people that were followed
	Longest  q.Time    // the latest that a second one set out after a first
}

// Broken tells that a rule of WalkRules is broken.
func (w *Walked) Broken(r Rule) bool {
	return slices.ContainsFunc(w.Verdicts, func(v Verdict) bool { return v.Rule == r && v.Broken })
}

// Walk follows people through a vestibule of two doors: one alone each way, and a
// second one who sets out at any tick after the first, the same way and the
// opposite one, until everything is at rest again; one who comes later finds what
// the first one found. The second one presses a plate of their own, or presses nothing
// and slips in by the door that the first one's press holds open.
//
// Everybody stands at the first door as they press, clear of a leaf that swings toward
// them, sets out when the leaf is open enough, waits before the second door until it is
// open, clear of both leaves where there is room for it, and goes in behind somebody who
// waits there only where there is room for both, pressing once more. They press the plate between where
// nothing is about to open it, and else goes by hand. People who meet are taken to pass
// each other. Times are those given and nothing else happens; opening is rounded up and
// holding and closing down to the tick.
func Walk(w *opening.Wiring, doors []Door, t *Traffic) (*Walked, error) {
	x, err := newWalks(w, doors, t)
	if err != nil {
		return nil, err
	}
	x.everybodyAlone()
	for way, levers := range x.starts {
		for _, lever := range levers {
			for other, more := range x.starts {
				for _, second := range more {
					x.both(way, lever, other, second)
				}
				x.slips(way, lever, other)
			}
		}
	}
	return x.result(), nil
}

// WalkAlone follows one person each way, as Walk does.
func WalkAlone(w *opening.Wiring, doors []Door, t *Traffic) ([]Way, error) {
	x, err := newWalks(w, doors, t)
	if err != nil {
		return nil, err
	}
	x.everybodyAlone()
	return []Way{*x.ways[0], *x.ways[1]}, nil
}

// A found breach: who set out how, and after how long it came.
type found struct {
	people [2]walker
	count  int
	at     int
}

type walks struct {
	m       *Machine
	t       *Traffic
	starts  [2][]int // the plates at either end
	found   map[Rule]found
	ways    [2]*Way
	slipped []Slip
	runs    int
	longest int
}

func newWalks(w *opening.Wiring, doors []Door, t *Traffic) (*walks, error) {
	if len(doors) != 2 {
		return nil, errors.New("only two doors in series can be walked through")
	}
	if err := t.Check(); err != nil {
		return nil, err
	}
	m, err := compile(w, doors, ticks[0], true)
	if err != nil {
		return nil, err
	}
	if slices.ContainsFunc(m.outputs, func(o output) bool { return o.pulseFree || o.holdFree }) {
		return nil, fmt.Errorf("a pulse or hold longer than %.0f s is not followed", float64(250*m.Tick))
	}
	for door := range 2 {
		if !slices.ContainsFunc(m.drives, func(d drive) bool { return d.door == door }) {
			return nil, errors.New("nothing drives " + doors[door].ID)
		}
	}
	x := &walks{m: m, t: t, found: make(map[Rule]found)}
	x.starts = [2][]int{m.platesOf(opening.Outside, 0), m.platesOf(opening.Inside, 1)}
	for way, levers := range x.starts {
		if len(levers) == 0 {
			return nil, fmt.Errorf("no plate starts the way from %s", doors[way].ID)
		}
	}
	return x, nil
}

// platesOf are the plates at one end.
func (m *Machine) platesOf(side opening.DeviceSide, door int) (levers []int) {
	for i := range m.levers {
		if l := &m.levers[i]; l.kind == momentary && l.role != opening.RequestToExit && l.side == side && (l.door == door || side == opening.Between) {
			levers = append(levers, i)
		}
	}
	return levers
}

func (x *walks) set(people [2]walker, count int) *crossing {
	c := &crossing{Machine: x.m, t: x.t, who: people, count: count, reached: [2]int{-1, -1}, began: [2]int{-1, -1}, closes: [2]int{-1, -1}}
	c.s, _ = x.m.begin()
	return c
}

// note keeps the rules that a crossing broke: of one person before those of two, then
// the earliest.
func (x *walks) note(c *crossing) {
	for _, r := range WalkRules() {
		if c.bad&(1<<r) == 0 {
			continue
		}
		if f, known := x.found[r]; !known || c.count < f.count || c.count == f.count && c.now < f.at {
			x.found[r] = found{c.who, c.count, c.now}
		}
	}
	c.bad = 0
}

func (x *walks) everybodyAlone() {
	for way, levers := range x.starts {
		for _, lever := range levers {
			x.alone(way, lever)
		}
	}
}

// alone follows one person, and keeps the slower of those who go the same way.
func (x *walks) alone(way, lever int) {
	c := x.set([2]walker{x.t.walker(way, lever, 0)}, 1)
	c.run(x.note, nil)
	p := &c.who[0]
	w := &Way{
		From: x.m.Doors[way].ID, To: x.m.Doors[1-way].ID, Through: p.done && p.finished > 0, Wait: x.m.secs(p.wait), Time: x.m.secs(p.finished), Asks: p.asked > 0,
		By: c.delays(), Stand: x.t.stand(way),
	}
	nan := q.Time(math.NaN())
	for k, door := range [2]int{way, 1 - way} {
		w.Spare[k] = nan
		switch {
		case c.reached[door] < 0 || p.clearAt[k] == 0:
		case k == 1 && p.asked > 0: // they came too late: for it to be open still, or for its leaf
			through := int(math.Ceil((x.t.clearOf(way, door) - x.t.stops(way)) / (float64(x.t.Speed) * float64(x.m.Tick))))
			w.Spare[k] = x.m.secs(min(c.closes[door]-p.stopped, c.reached[door]-p.stopped-through))
		default:
			w.Spare[k] = x.m.secs(c.reached[door] - p.clearAt[k])
		}
		if w.Starts[k] = nan; c.began[door] >= 0 {
			w.Starts[k] = x.m.secs(c.began[door])
		}
	}
	if old := x.ways[way]; old == nil || w.Time > old.Time {
		x.ways[way] = w
	}
}

// after goes with a first person from tick to tick, and shows each crossing into which a
// second one may set out, until there is nothing left that one would find otherwise.
func (x *walks) after(way, lever int, second func(c crossing, offset int)) {
	first := x.set([2]walker{x.t.walker(way, lever, 0)}, 1)
	every := max(1, first.down(x.t.Every))
	for offset := 0; ; offset++ {
		if offset%every == 0 {
			c := *first
			c.count = 2
			second(c, offset)
			x.longest = max(x.longest, offset)
		}
		if !first.going() && offset > 0 || first.now > first.ticks(mostWalk) {
			return
		}
		first.step()
		first.bad = 0 // noted as the first one went alone
	}
}

// both follows a second person who presses a plate after the first.
func (x *walks) both(way, lever, other, second int) {
	x.after(way, lever, func(c crossing, offset int) {
		c.who[1] = x.t.walker(other, second, c.now)
		c.run(x.note, func() bool { return c.who[0].done && c.who[1].done })
		x.runs++
		if p := &c.who[1]; p.asked > 0 || p.forgotten() {
			x.forgets(other, way == other, offset, p)
		}
	})
}

func (x *walks) forgets(way int, same bool, offset int, p *walker) {
	w, t := x.ways[way], x.m.secs(offset)
	if w == nil || w.Asks || !w.Through {
		return // one person alone fares no better
	}
	on := "comes toward them"
	if same {
		on = "goes the same way"
	}
	switch {
	case !w.Forgets:
		w.Forgets, w.ForgetsOn, w.Earliest, w.Latest = true, on, t, t
	case w.ForgetsOn == on:
		w.Earliest, w.Latest = min(w.Earliest, t), max(w.Latest, t)
	default:
		return
	}
	if p.deaf >= 0 {
		w.Deaf = x.m.outputName(&x.m.outputs[p.deaf])
	}
}

// slips follows a second person who presses nothing. What the leaf does to them, and
// that they have to ask, they brought on themselves; that they are shut in counts.
func (x *walks) slips(way, lever, other int) {
	nan := q.Time(math.NaN())
	s := Slip{From: x.m.Doors[other].ID, To: x.m.Doors[1-other].ID, Behind: way == other, Until: nan, Caught: nan, Shut: nan}
	x.after(way, lever, func(c crossing, offset int) {
		c.who[1] = x.t.walker(other, 0, c.now)
		c.who[1].slips = true
		caught := false
		c.run(func(c *crossing) {
			caught = caught || c.caughtIn(1, other)
			c.bad &= 1 << NotTrapped
			x.note(c)
		}, func() bool { return c.who[1].done })
		p := &c.who[1]
		if !p.inside {
			return
		}
		x.runs++
		t := x.m.secs(offset)
		s.Until = t
		if caught && math.IsNaN(float64(s.Caught)) {
			s.Caught = t
		}
		exit := c.exitOf(p)
		if exit != ByWay && math.IsNaN(float64(s.Shut)) {
			s.Shut = t
		}
		s.Meets = max(s.Meets, exit)
	})
	x.slipped = append(x.slipped, s)
}

func (x *walks) result() *Walked {
	r := &Walked{Runs: x.runs, Longest: x.m.secs(x.longest)}
	for _, w := range x.ways {
		r.Ways = append(r.Ways, *w)
	}
	for _, s := range x.slipped {
		if i := slices.IndexFunc(r.Slips, func(o Slip) bool { return o.From == s.From && o.Behind == s.Behind }); i < 0 {
			r.Slips = append(r.Slips, s)
		} else {
			r.Slips[i].join(&s)
		}
	}
	for _, rule := range WalkRules() {
		v := Verdict{Rule: rule, Applies: true}
		if f, broken := x.found[rule]; broken {
			v.Broken = true
			v.Story, v.Symptom = x.retell(rule, f)
		}
		r.Verdicts = append(r.Verdicts, v)
	}
	return r
}

// join takes the worse of two.
func (s *Slip) join(o *Slip) {
	least := func(a *q.Time, b q.Time) {
		if math.IsNaN(float64(*a)) || b < *a {
			*a = b
		}
	}
	least(&s.Caught, o.Caught)
	least(&s.Shut, o.Shut)
	if math.IsNaN(float64(s.Until)) || o.Until > s.Until {
		s.Until = o.Until
	}
	s.Meets = max(s.Meets, o.Meets)
}
