package logic

import (
	"fmt"
	"math"
	"slices"

	"swingwright/opening"
	q "swingwright/quantity"
)

const (
	pressTime = 0.5  // s that a plate is pressed (common practice)
	patient   = 3.0  // s before a door that nothing is about to open, until one presses
	mostWalk  = 90.0 // s in which everybody is through or gives up
)

// A walker is somebody on the way; at is how far their front is beyond the first door.
type walker struct {
	way      int
	queued   bool // somebody kept them from setting out
	slips    bool // they press nothing at the first door, and go in while it stands open
	start    int  // tick
	at       float64
	inside   bool // they set out
	done     bool
	held     int // ticks that their plate is still pressed
	lever    int // that they press
	idle     int // ticks of standing with nothing to come
	asked    int // times that the plate between was pressed
	wait     int // ticks before the second door
	deaf     int // output that was busy as they pressed; -1 where none was
	stopped  int // tick at which they first stood before the second door
	clearAt  [2]int
	finished int
	exit     Exit // of whoever is stuck
}

// walker is somebody before the first door of a way who sets out at a tick.
func (t *Traffic) walker(way, lever, start int) walker {
	return walker{way: way, lever: lever, start: start, at: t.startsAt(way), deaf: -1}
}

// forgotten tells that nothing but a hand could help them on.
func (p *walker) forgotten() bool { return p.done && p.finished == 0 && p.inside }

// exitOf is how somebody got out from between the doors.
func (c *crossing) exitOf(p *walker) Exit {
	switch {
	case p.forgotten():
		return p.exit
	case p.asked > 0:
		return ByPlate
	}
	return ByWay
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
	closes  [2]int // tick at which each leaf first began to close, -1 before
	began   [2]int // tick at which each drive took its first start, -1 before
	late    uint64 // outputs whose delay ran before both had
	tale    *tale
	bad     rules
}

// A tale is a story being written.
type tale struct {
	story *Story
	event int
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
	for i := range c.count {
		if p := &c.who[i]; !p.done && !p.slips {
			c.bad |= 1 << BothServed // they wait and press in vain
			note(c)
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
	c.now++
	c.happens(event{what: tick}, "")
	c.leaves()
	for i := range c.count {
		c.move(i)
	}
	c.look()
}

// inSwing tells that somebody is in the way of a door's leaf.
func (c *crossing) inSwing(p *walker, door int) bool {
	from, _ := c.t.sweep(p.way, door)
	return p.inside && p.at > from+1e-9 && p.at < c.t.clearOf(p.way, door)-1e-9
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
	if p.slips && !p.inside {
		// they go in by a door that is open or opening, and else not at all
		p.done = !c.phase(p.way, parting, widening, keeping)
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
		if math.Abs(p.at-c.t.stops(p.way)) > 1e-9 {
			return
		}
	}
	if c.comes(door) || c.pending() {
		p.idle = 0
		if !p.inside {
			c.queue(i)
		}
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

// queue lets somebody whom another one kept from setting out press again before they do.
func (c *crossing) queue(i int) {
	p := &c.who[i]
	switch {
	case c.opened[p.way] < c.t.Enters-1e-9:
	case c.behind(i):
		p.queued = true
	case p.queued:
		p.queued = false
		c.press(i)
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
	p.done, p.exit = true, ByHand
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
		p.exit = NoExit
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
	if c.phase(0, keeping) || c.phase(1, keeping) {
		x.sense()
	}
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
			if c.closes[d.door] < 0 {
				c.closes[d.door] = c.now
			}
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

// move lets somebody walk for a tick.
func (c *crossing) move(i int) {
	p := &c.who[i]
	if p.done || c.now <= p.start {
		return
	}
	if !p.inside {
		if !c.phase(p.way, parting, widening, keeping) || c.opened[p.way] < c.t.Enters-1e-9 || p.queued || c.behind(i) {
			return
		}
		p.inside, p.idle = true, 0
		c.tell(fmt.Sprintf("%s goes in through %s.", c.upper(i), c.Doors[p.way].ID), nil)
	}
	to := p.at + float64(c.t.Speed)*float64(c.Tick)
	stop := c.t.stops(p.way)
	if p.at <= stop+1e-9 && to > stop && !c.passable(1-p.way) {
		to = stop
		if p.wait++; p.stopped == 0 {
			p.stopped = c.now
		}
	}
	if o := &c.who[1-i]; c.count > 1 && o.way == p.way && o.inside && !o.done && o.at > p.at {
		to = math.Min(to, math.Max(p.at, o.at-float64(c.t.Person)))
	}
	p.at = to
	for k, door := range [2]int{p.way, 1 - p.way} {
		if p.clearAt[k] == 0 && p.at >= c.t.clearOf(p.way, door)-1e-9 {
			p.clearAt[k] = c.now
		}
	}
	if p.clearAt[1] > 0 {
		p.done, p.finished = true, c.now
		c.tell(fmt.Sprintf("%s is through %s.", c.upper(i), c.Doors[1-p.way].ID), nil)
	}
}

// passable tells that a door stands fully open.
func (c *crossing) passable(door int) bool {
	return c.phase(door, keeping) || c.phase(door, widening) && c.opened[door] > 1-1e-9
}

// behind tells that somebody ahead leaves no room yet: not to set out, or, while the second
// door is not open, not to stand behind them clear of the first leaf.
func (c *crossing) behind(i int) bool {
	o, p := &c.who[1-i], &c.who[i]
	if c.count > 1 && o.way == p.way && o.inside && !o.done && o.at <= c.t.stops(p.way)+1e-9 && !c.passable(1-p.way) &&
		c.t.stops(p.way)-float64(c.t.Person) < c.t.clearOf(p.way, p.way)-1e-9 {
		return true
	}
	return c.count > 1 && o.way == p.way && o.inside && !o.done && o.at < p.at+float64(c.t.Person)
}

// look holds the rules of those on their way.
func (c *crossing) look() {
	for i := range c.count {
		p := &c.who[i]
		for door := range 2 {
			if !p.done && c.caughtIn(i, door) {
				c.bad |= 1 << ClearOfLeaf
			}
		}
	}
	if c.began[0] < 0 || c.began[1] < 0 {
		for i := range c.outputs {
			if o := &c.outputs[i]; c.s[o.slot] == delayed && c.wiring.Devices[o.dev].Kind != opening.Drive {
				c.late |= 1 << i
			}
		}
	}
}

// caughtIn tells that the closing leaf of a door is on somebody's path.
func (c *crossing) caughtIn(i, door int) bool {
	return c.inSwing(&c.who[i], door) && c.phase(door, closing) && c.beyond(door)
}

// delays are the outputs whose delay ran before both doors had their start.
func (c *crossing) delays() (names []string) {
	for i := range c.outputs {
		if c.late&(1<<i) != 0 {
			names = append(names, c.outputName(&c.outputs[i]))
		}
	}
	return names
}
