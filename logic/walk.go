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
	Leaves  [2]LeafTimes // in the order of the doors
	Between q.Length     // from door to door
	Person  q.Length     // from front to back
	Clear   q.Length     // beyond a doorway until out of its leaf's way
	Near    q.Length     // before the second door, where people wait until it is open
	Enters  float64      // share of the opening after which people set out, 0 to 1
	Speed   q.Speed
}

// LeafTimes are the times of a leaf under power.
type LeafTimes struct {
	Opens  q.Time // from its start until fully open
	Hold   q.Time // held fully open after the last signal
	Usable q.Time // from the start of closing until it reaches the path
	Closes q.Time // from the start of closing until shut
}

// Check collects what makes no sense in a traffic.
func (t *Traffic) Check() error {
	ok := t.Between > 0 && t.Person > 0 && t.Clear > 0 && t.Near >= 0 && t.Speed > 0 && t.Enters >= 0 && t.Enters <= 1
	for _, l := range t.Leaves {
		ok = ok && l.Opens > 0 && l.Hold >= 0 && l.Usable >= 0 && l.Closes > 0
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
	// its leaf would reach their path; below zero it closes on them.
	Spare [2]q.Time
	Asks  bool // they have to press the plate between
	// Where the second of two people finds the second door shut and has to press the
	// plate between: the earliest and the latest start after the first one's, and what
	// did not hear them.
	Forgets          bool
	ForgetsOn        string // whether the first one goes the same way or comes toward them
	Earliest, Latest q.Time
	Deaf             string
}

// Walked is what came of following people through a vestibule.
type Walked struct {
	Ways     []Way
	Verdicts []Verdict // on the rules of WalkRules, in their order
	Runs     int       // pairs of people that were followed
	Longest  q.Time    // the latest that a second one set out after a first
}

const (
	pressTime = 0.5  // s that a plate is pressed (common practice)
	patient   = 3.0  // s before a door that nothing is about to open, until one presses
	mostWalk  = 90.0 // s in which everybody is through or gives up
)

// A walker is somebody on the way; at is how far their front is beyond the first door.
type walker struct {
	way      int
	start    int // tick
	at       float64
	inside   bool // beyond the first door
	done     bool
	held     int // ticks that their plate is still pressed
	lever    int // that they press
	idle     int // ticks of standing with nothing to come
	asked    int // times that the plate between was pressed
	wait     int // ticks before the second door
	deaf     int // output that was busy as they pressed; -1 where none was
	clearAt  [2]int
	finished int
}

// A crossing is people on their way through a machine in time. It is copied to
// fork it.
type crossing struct {
	*Machine
	t       *Traffic
	s       state
	now     int
	opened  [2]float64 // share of each leaf's opening
	kept    [2]int     // ticks held
	who     [2]walker
	count   int
	reached [2]int // tick at which each leaf reached the path, -1 before
	tale    *tale
	bad     rules
}

// A tale is a story being written.
type tale struct {
	story *Story
	event int
}

// Walk follows people through a vestibule of two doors: one alone each way, and a
// second one who sets out at any tick after the first, the same way and the
// opposite one, until everything is at rest again; one who comes later finds what
// the first one found. Everybody presses a plate at the first door, sets out when
// the leaf is open enough, waits before the second door until it is open, presses
// the plate between where nothing is about to open it, and else goes by hand. People
// who meet are taken to pass each other. Times are those given and nothing else
// happens; opening is rounded up and holding and closing down to the tick.
func Walk(w *opening.Wiring, doors []Door, t *Traffic) (*Walked, error) {
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
	x := walks{m: m, t: t, found: make(map[Rule]found)}
	starts := [2][]int{m.platesOf(opening.Outside, 0), m.platesOf(opening.Inside, 1)}
	for way, levers := range starts {
		if len(levers) == 0 {
			return nil, fmt.Errorf("no plate starts the way from %s", doors[way].ID)
		}
	}
	for way, levers := range starts {
		for _, lever := range levers {
			x.alone(way, lever)
		}
	}
	for way, levers := range starts {
		for _, lever := range levers {
			for other, more := range starts {
				for _, second := range more {
					x.both(way, lever, other, second)
				}
			}
		}
	}
	return x.result(), nil
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

// A found breach: who set out how, and after how long it came.
type found struct {
	people [2]walker
	count  int
	at     int
}

type walks struct {
	m       *Machine
	t       *Traffic
	found   map[Rule]found
	ways    [2]*Way
	runs    int
	longest int
}

func (x *walks) set(people [2]walker, count int) *crossing {
	c := &crossing{Machine: x.m, t: x.t, who: people, count: count, reached: [2]int{-1, -1}}
	c.s, _ = x.m.begin()
	return c
}

func newWalker(way, lever, start int) walker {
	return walker{way: way, lever: lever, start: start, deaf: -1}
}

func (x *walks) note(c *crossing) {
	for _, r := range WalkRules() {
		if c.bad&(1<<r) == 0 {
			continue
		}
		// one person before two, then the earliest
		if f, known := x.found[r]; !known || c.count < f.count || c.count == f.count && c.now < f.at {
			x.found[r] = found{c.who, c.count, c.now}
		}
	}
	c.bad = 0
}

// alone follows one person.
func (x *walks) alone(way, lever int) {
	c := x.set([2]walker{newWalker(way, lever, 0)}, 1)
	c.run(x.note, nil)
	p := &c.who[0]
	w := &Way{From: x.m.Doors[way].ID, To: x.m.Doors[1-way].ID, Through: p.done && p.finished > 0, Wait: x.m.secs(p.wait), Time: x.m.secs(p.finished), Asks: p.asked > 0}
	for k, door := range [2]int{way, 1 - way} {
		w.Spare[k] = q.Time(math.NaN())
		if c.reached[door] >= 0 && p.clearAt[k] > 0 {
			w.Spare[k] = x.m.secs(c.reached[door] - p.clearAt[k])
		}
	}
	if old := x.ways[way]; old == nil || w.Time > old.Time {
		x.ways[way] = w
	}
}

// both follows a second person who sets out at any tick after the first.
func (x *walks) both(way, lever, other, second int) {
	first := x.set([2]walker{newWalker(way, lever, 0)}, 1)
	for offset := 0; ; offset++ {
		c := *first
		c.count = 2
		c.who[1] = newWalker(other, second, first.now)
		c.run(x.note, nil)
		x.runs++
		if p := &c.who[1]; p.asked > 0 || c.forgotten(p) {
			x.forgets(other, way == other, offset, p)
		}
		if x.longest = max(x.longest, offset); !first.going() && offset > 0 || first.now > first.ticks(mostWalk) {
			return
		}
		first.step()
		first.bad = 0 // noted as the first one went alone
	}
}

func (c *crossing) forgotten(p *walker) bool { return p.done && p.finished == 0 }

func (x *walks) forgets(way int, same bool, offset int, p *walker) {
	w, t := x.ways[way], x.m.secs(offset)
	if w == nil || w.Asks {
		return // one person alone has to ask, too
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

func (x *walks) result() *Walked {
	r := &Walked{Runs: x.runs, Longest: x.m.secs(x.longest)}
	for _, w := range x.ways {
		r.Ways = append(r.Ways, *w)
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

// retell runs a breach once more and writes it down.
func (x *walks) retell(rule Rule, f found) (*Story, string) {
	people := f.people
	for i := range people {
		people[i] = newWalker(people[i].way, f.people[i].lever, people[i].start)
		if f.count > i {
			people[i].lever = f.people[i].lever
		}
	}
	c := x.set(people, f.count)
	c.tale = &tale{story: &Story{}}
	c.record()
	symptom := ""
	c.run(func(c *crossing) {
		if c.bad&(1<<rule) != 0 && symptom == "" {
			symptom = c.symptomOfWalk(rule)
		}
		c.bad = 0
	}, func() bool { return symptom != "" })
	s := c.tale.story
	s.Events, s.Length, s.last = c.tale.event, x.m.secs(c.now), c.s
	return s, symptom
}

func (m *Machine) secs(ticks int) q.Time      { return q.Time(ticks) * m.Tick }
func (c *crossing) ticks(seconds float64) int { return int(math.Round(seconds / float64(c.Tick))) }
func (c *crossing) whole(t q.Time, up bool) int {
	if up {
		return max(1, c.up(t))
	}
	return c.down(t)
}

// run lets time pass until everybody is through and all is at rest.
func (c *crossing) run(note func(*crossing), stop func() bool) {
	for end := c.now + c.ticks(mostWalk); c.now < end && c.going(); {
		c.step()
		note(c)
		if stop != nil && stop() {
			return
		}
	}
}

// going tells that somebody is on the way or something not at rest.
func (c *crossing) going() bool {
	for i := range c.count {
		if !c.who[i].done {
			return true
		}
	}
	x := step{Machine: c.Machine, s: c.s, hand: -1}
	return !x.atRest()
}

// step is one tick: people act, time passes, leaves and people move.
func (c *crossing) step() {
	for i := range c.count {
		c.act(i)
	}
	c.sensors()
	c.happens(event{what: tick}, "")
	c.now++
	c.leaves()
	for i := range c.count {
		c.move(i)
	}
	c.look()
}

// happens lets an event happen.
func (c *crossing) happens(e event, what string) {
	before := c.s
	c.s, _ = c.next(c.s, e)
	if c.tale == nil {
		return
	}
	if what == "" && e.what != tick {
		what = c.words(e, before)
	}
	c.tell(what, c.changes(before, c.s, e))
}

// tell writes down a moment.
func (c *crossing) tell(what string, changes []string) {
	if c.tale == nil {
		return
	}
	c.tale.event++
	c.record()
	if what != "" || len(changes) > 0 {
		c.tale.story.Moments = append(c.tale.story.Moments, Moment{At: c.secs(c.now), What: what, Event: c.tale.event, Changes: changes})
	}
}

// record writes down the state of everything, people too.
func (c *crossing) record() {
	s := c.tale.story
	had := len(s.Signals)
	people := min(had, c.count)
	if had > 0 {
		people = c.count
	}
	rest := Story{Signals: s.Signals[:had-people]}
	rest.record(c.Machine, c.s, c.now)
	who := s.Signals[had-people:]
	if had == 0 {
		who = make([]Signal, c.count)
	}
	who = slices.Clone(who)
	for i := range who {
		who[i].Name = c.called(i)
		high, word := c.place(&c.who[i])
		who[i].Levels = append(who[i].Levels, Level{c.secs(c.now), high, word})
	}
	s.Signals = append(rest.Signals, who...)
}

// place is where somebody is, for the timing diagram.
func (c *crossing) place(p *walker) (int, string) {
	switch {
	case p.done && p.finished > 0:
		return 2, "through"
	case !p.inside:
		return 0, "before"
	case c.inSwing(p, p.way):
		return 1, "in " + c.Doors[p.way].ID
	case c.inSwing(p, 1-p.way):
		return 1, "in " + c.Doors[1-p.way].ID
	}
	return 1, "between"
}

func (c *crossing) called(i int) string {
	if c.count == 1 {
		return "the person"
	}
	return [2]string{"the first person", "the second person"}[i]
}

func (c *crossing) upper(i int) string { return "T" + c.called(i)[1:] }

// inSwing tells that somebody is in the way of a door's leaf.
func (c *crossing) inSwing(p *walker, door int) bool {
	at := 0.
	if door != p.way {
		at = float64(c.t.Between)
	}
	return p.inside && p.at > at+1e-9 && p.at < at+float64(c.t.Clear+c.t.Person)-1e-9
}

// comes tells that a door is open, opens or is about to.
func (c *crossing) comes(door int) bool {
	return c.phase(door, waiting, parting, widening, keeping)
}

func (c *crossing) phase(door int, of ...byte) bool {
	return slices.ContainsFunc(c.drives, func(d drive) bool { return d.door == door && slices.Contains(of, c.s[d.slot]) })
}

// pending tells that a delay runs.
func (c *crossing) pending() bool {
	return slices.ContainsFunc(c.outputs, func(o output) bool { return c.s[o.slot] == delayed })
}

// act lets somebody press and let go.
func (c *crossing) act(i int) {
	p := &c.who[i]
	if p.held > 0 {
		if p.held--; p.held == 0 {
			for _, l := range c.pressing(p) {
				if c.s[c.levers[l].slot] == 1 && !c.heldByOther(i, l) {
					c.happens(event{letGo, uint8(l)}, "")
				}
			}
		}
		return
	}
	if p.done || c.now < p.start {
		return
	}
	if c.now == p.start {
		for k := range c.accesses {
			if a := &c.accesses[k]; a.reads && !c.hasDay && p.way == 0 && a.door == 0 {
				c.happens(event{credential, uint8(k)}, c.upper(i)+" shows a valid credential.")
			}
		}
		c.press(i)
		return
	}
	door := p.way
	if p.inside {
		door = 1 - p.way
		if p.at < c.stops()-1e-9 || p.at > float64(c.t.Between) {
			return
		}
	} else if p.at > 0 {
		return
	}
	if c.comes(door) || c.pending() {
		p.idle = 0
		return
	}
	if p.idle++; p.idle < c.ticks(patient) {
		return
	}
	p.idle = 0
	switch {
	case !p.inside:
		c.press(i)
	case p.asked < 2 && len(c.platesOf(opening.Between, 0)) > 0:
		p.asked++
		c.press(i)
	default:
		c.stuck(i, door)
	}
}

// pressing are the levers that somebody presses where they are.
func (c *crossing) pressing(p *walker) []int {
	if !p.inside || p.asked == 0 {
		return []int{p.lever}
	}
	return c.platesOf(opening.Between, 0)
}

func (c *crossing) heldByOther(i, lever int) bool {
	o := &c.who[1-i]
	return c.count > 1 && o.held > 0 && slices.Contains(c.pressing(o), lever)
}

func (c *crossing) press(i int) {
	p := &c.who[i]
	p.held = c.ticks(pressTime)
	for _, l := range c.pressing(p) {
		if c.s[c.levers[l].slot] == 1 {
			continue // somebody presses it already
		}
		before := c.s
		c.happens(event{press, uint8(l)}, fmt.Sprintf("%s presses %s.", c.upper(i), c.name(c.levers[l].dev)))
		if !p.inside {
			p.deaf = c.busy(before)
		}
	}
}

// busy is the output that is signalled and was still busy with an earlier signal
// before, so that it does nothing about this one; -1 where there is none.
func (c *crossing) busy(before state) int {
	x := step{Machine: c.Machine, s: c.s, hand: -1}
	x.sense()
	return slices.IndexFunc(c.outputs, func(o output) bool {
		was := before[o.slot]
		return o.oneShot && o.onDelay > 0 && was != off && was == c.s[o.slot] && c.wiring.Devices[o.dev].Kind != opening.Drive && x.signal(&o)
	})
}

// stuck is somebody before the second door whom nothing helps but a hand.
func (c *crossing) stuck(i, door int) {
	p := &c.who[i]
	c.bad |= 1 << BothServed
	p.done = true
	hand := func(d int) bool {
		x := step{Machine: c.Machine, s: c.s, hand: -1}
		if d == 0 { // the way out: only a magnet keeps anybody in
			return !x.magnetHolds(d)
		}
		return !x.lockHolds(d)
	}
	shutBoth := c.s[c.leafSlot] == shut && c.s[c.leafSlot+1] == shut
	if shutBoth && !hand(0) && !hand(1) {
		c.bad |= 1 << NotTrapped
	}
	c.tell(fmt.Sprintf("%s stands before %s, and nothing opens it.", c.upper(i), c.Doors[door].ID), nil)
}

// sensors lets presence sensors see people in the swing of their door.
func (c *crossing) sensors() {
	for i := range c.levers {
		l := &c.levers[i]
		if l.role != opening.PresenceSensor {
			continue
		}
		sees := false
		for k := range c.count {
			sees = sees || c.inSwing(&c.who[k], l.door) && !c.who[k].done
		}
		if sees != (c.s[l.slot] == 1) {
			c.happens(event{map[bool]happening{true: press, false: letGo}[sees], uint8(i)}, "")
		}
	}
}

// leaves lets the leaves move for a tick.
func (c *crossing) leaves() {
	x := step{Machine: c.Machine, s: c.s, hand: -1}
	x.sense()
	for i := range c.drives {
		d := &c.drives[i]
		t := &c.t.Leaves[d.door]
		share := &c.opened[d.door]
		end := false
		switch c.s[d.slot] {
		case parting, widening:
			*share = min(1, *share+1/float64(c.whole(t.Opens, true)))
			c.kept[d.door] = 0
			end = c.s[d.slot] == widening && *share > 1-1e-9
		case keeping:
			if c.kept[d.door]++; x.asserted(d.start) || x.asserted(d.hold) || x.asserted(d.safety) {
				c.kept[d.door] = 0
			}
			end = c.kept[d.door] > 0 && c.kept[d.door] >= c.whole(t.Hold, false)
		case closing:
			*share = max(0, *share-1/float64(max(1, c.whole(t.Closes, false))))
			end = *share < 1e-9
			if c.reached[d.door] < 0 && c.beyond(d.door) {
				c.reached[d.door] = c.now
			}
		case rest, blocked:
			if *share = max(0, *share-1/float64(max(1, c.whole(t.Closes, false)))); *share < 1e-9 && c.s[c.leafSlot+d.door] != shut {
				c.happens(event{ends, endLeaf + uint8(d.door)}, "")
			}
		}
		if end {
			c.happens(event{ends, endDrive + uint8(i)}, "")
		}
	}
}

// beyond tells that a closing leaf has reached the path.
func (c *crossing) beyond(door int) bool {
	t := &c.t.Leaves[door]
	gone := (1 - c.opened[door]) * float64(max(1, c.whole(t.Closes, false)))
	return gone > float64(c.whole(min(t.Usable, t.Closes), false))+1e-6
}

// stops is where people wait before the second door.
func (c *crossing) stops() float64 { return math.Max(0, float64(c.t.Between-c.t.Near)) }

// move lets somebody walk for a tick.
func (c *crossing) move(i int) {
	p := &c.who[i]
	if p.done || c.now <= p.start {
		return
	}
	if !p.inside {
		if !c.phase(p.way, parting, widening, keeping) || c.opened[p.way] < c.t.Enters-1e-9 || c.behind(i) {
			return
		}
		p.inside, p.idle = true, 0
		c.tell(fmt.Sprintf("%s goes in through %s.", c.upper(i), c.Doors[p.way].ID), nil)
	}
	to := p.at + float64(c.t.Speed)*float64(c.Tick)
	stop := c.stops()
	if p.at <= stop+1e-9 && to > stop && !(c.phase(1-p.way, keeping) || c.phase(1-p.way, widening) && c.opened[1-p.way] > 1-1e-9) {
		to = stop
		p.wait++
	}
	if o := &c.who[1-i]; c.count > 1 && o.way == p.way && o.inside && !o.done && o.at > p.at {
		to = math.Min(to, math.Max(p.at, o.at-float64(c.t.Person)))
	}
	p.at = to
	for k, from := range [2]float64{0, float64(c.t.Between)} {
		if p.clearAt[k] == 0 && p.at >= from+float64(c.t.Clear+c.t.Person)-1e-9 {
			p.clearAt[k] = c.now
		}
	}
	if p.clearAt[1] > 0 {
		p.done, p.finished = true, c.now
		c.tell(fmt.Sprintf("%s is through %s.", c.upper(i), c.Doors[1-p.way].ID), nil)
	}
}

// behind tells that somebody just ahead leaves no room yet.
func (c *crossing) behind(i int) bool {
	o, p := &c.who[1-i], &c.who[i]
	return c.count > 1 && o.way == p.way && o.inside && !o.done && o.at < float64(c.t.Person)
}

// look holds the rules of those on their way.
func (c *crossing) look() {
	for i := range c.count {
		p := &c.who[i]
		for door := range 2 {
			if c.inSwing(p, door) && !p.done && c.phase(door, closing) && c.beyond(door) {
				c.bad |= 1 << ClearOfLeaf
			}
		}
	}
}

func (c *crossing) symptomOfWalk(rule Rule) string {
	switch rule {
	case ClearOfLeaf:
		for i := range c.count {
			p := &c.who[i]
			for door := range 2 {
				if !c.inSwing(p, door) || !c.phase(door, closing) || !c.beyond(door) {
					continue
				}
				from := 0.
				if door != p.way {
					from = float64(c.t.Between)
				}
				left := (from + float64(c.t.Clear+c.t.Person) - p.at) / float64(c.t.Speed)
				why := ""
				if door == p.way && p.at <= c.stops()+1e-9 && !c.phase(1-door, keeping) {
					why = fmt.Sprintf(" They stand in it because %s is not open yet.", c.Doors[1-door].ID)
				}
				if i == 1 && door != p.way && p.deaf >= 0 {
					why += fmt.Sprintf(" %s was still busy with the first one's press as theirs came, and did not hear it.", upper(c.outputName(&c.outputs[p.deaf])))
				}
				c.tell(fmt.Sprintf("%s closes on %s.", c.Doors[door].ID, c.called(i)), nil)
				return fmt.Sprintf("%s closes on %s, who at a walk of %.2g ft/s is clear of it %.1f s later at the soonest.%s", c.Doors[door].ID, c.called(i), float64(c.t.Speed/q.FootPerSecond), left, why)
			}
		}
	case BothServed, NotTrapped:
		for i := range c.count {
			p := &c.who[i]
			if !p.done || p.finished > 0 {
				continue
			}
			s := fmt.Sprintf("%s finds %s shut, and nothing opens it for them", c.upper(i), c.Doors[1-p.way].ID)
			if i == 1 && p.deaf >= 0 {
				s += fmt.Sprintf(": %s was still busy with the first one's press as theirs came, and did not hear it", c.outputName(&c.outputs[p.deaf]))
			}
			if rule == NotTrapped {
				return s + ". Both doors are locked to the hand, too: they are trapped."
			}
			return s + ". They have to push or pull it by hand; who cannot, is stuck between the doors."
		}
	}
	return ""
}
