package logic

import (
	"fmt"
	"math"
	"slices"
	"strings"

	q "swingwright/quantity"
)

// Times are what a leaf takes under power; zero where it is not known.
type Times struct {
	Opens  q.Time // from its start until fully open
	Hold   q.Time // held open after the last signal
	Closes q.Time // from the start of closing until shut
}

// A clock lets a machine run in time: what the machine leaves of free length ends
// when the leaf has taken its time, where that is known.
type clock struct {
	*Machine
	leaves []Times
	s      state
	now    int     // tick
	loose  bool    // something of unknown length has ended since telling began
	since  [64]int // by slot, the tick at which its state was entered
	from   int     // the tick from which is counted
	tells  bool    // telling has begun
	lines  []saying
}

// A saying is what happened at a moment.
type saying struct {
	at    int
	loose bool
	parts []string
}

func newClock(m *Machine, leaves []Times) *clock {
	c := &clock{Machine: m, leaves: leaves}
	c.s, _ = m.begin()
	return c
}

// begins lets telling begin now.
func (c *clock) begins() { c.tells, c.from, c.loose, c.lines = true, c.now, false, nil }

func (c *clock) any(s state, phase byte) bool {
	return slices.ContainsFunc(c.drives, func(d drive) bool { return s[d.slot] == phase })
}

// happens lets an event happen and says what came of it.
func (c *clock) happens(e event) {
	before := c.s
	c.s, _ = c.next(c.s, e)
	for i := range c.s {
		if c.s[i] != before[i] {
			c.since[i] = c.now
		}
	}
	c.keepOn()
	if !c.tells {
		return
	}
	parts := c.deeds(before, c.s, e)
	what := lower(strings.TrimSuffix(c.words(e, before), "."))
	switch {
	case e.what == tick, what == "", len(c.lines) == 0 && c.now == c.from && e.what != ends:
		// what is done first is what the passage is about
		if len(c.lines) == 0 {
			c.lines = append(c.lines, saying{at: c.now})
		}
	case len(parts) == 0 && (e.what == press || e.what == letGo):
	default:
		parts = append([]string{what}, parts...)
	}
	if len(parts) == 0 {
		return
	}
	if k := len(c.lines) - 1; k >= 0 && c.lines[k].at == c.now && c.lines[k].loose == c.loose {
		c.lines[k].parts = append(c.lines[k].parts, parts...)
	} else {
		c.lines = append(c.lines, saying{c.now, c.loose, parts})
	}
}

// keepOn lets the hold begin anew as long as a leaf is asked for.
func (c *clock) keepOn() {
	x := step{Machine: c.Machine, s: c.s, hand: -1}
	for i := range c.drives {
		if d := &c.drives[i]; c.s[d.slot] == keeping {
			x.sense()
			if x.asserted(d.start) || x.asserted(d.hold) || x.asserted(d.safety) {
				c.since[d.slot] = c.now
			}
		}
	}
}

// pass lets seconds pass.
func (c *clock) pass(seconds float64) {
	end := c.now + c.up(q.Time(seconds))
	c.until(end, nil)
	c.now = end
}

// run lets happen what happens by itself until all is at rest, or stop says so before
// the next event.
func (c *clock) run(stop func(state) bool) { c.until(math.MaxInt, stop) }

// until is run as far as a tick, and what has no time does not happen before it.
func (c *clock) until(end int, stop func(state) bool) {
	const longest = 3000 // events; a machine that never rests is a rule's matter
	for range longest {
		x := step{Machine: c.Machine, s: c.s, hand: -1}
		x.sense()
		events := x.byItself(nil)
		if len(events) == 0 || stop != nil && stop(c.s) {
			return
		}
		e, at := c.soonest(events)
		if at > end || at < 0 && end < math.MaxInt {
			return
		} else if at < 0 {
			at, c.loose = c.now, true
		}
		c.now = max(c.now, at)
		c.happens(e)
	}
}

// soonest is the event that comes next, and when: time before what is of unknown
// length, which has no time.
func (c *clock) soonest(events []event) (next event, at int) {
	at = math.MaxInt
	var ticks, unknown *event
	for i := range events {
		e := &events[i]
		if e.what == tick {
			ticks = e
		} else if due, known := c.due(*e); !known {
			unknown = e
		} else if due < at {
			next, at = *e, due
		}
	}
	switch {
	case ticks != nil && at > c.now:
		return *ticks, c.now + 1
	case at < math.MaxInt:
		return next, at
	}
	return *unknown, -1
}

// due is when something of free length ends.
func (c *clock) due(e event) (at int, known bool) {
	slot, door, takes := 0, 0, q.Time(0)
	leaf := func(door int) Times {
		if door < len(c.leaves) {
			return c.leaves[door]
		}
		return Times{}
	}
	switch {
	case e.of >= endLeaf:
		door = int(e.of - endLeaf)
		slot, takes = c.leafSlot+door, leaf(door).Closes
		for i := range c.drives { // it falls from when its drive let go
			if d := &c.drives[i]; d.door == door && c.since[d.slot] > c.since[slot] {
				slot = d.slot
			}
		}
	case e.of >= endDrive:
		d := &c.drives[e.of-endDrive]
		slot = d.slot
		switch t := leaf(d.door); c.s[slot] {
		case widening:
			if takes = t.Opens - q.Time(d.clear)*c.Tick; t.Opens > 0 {
				takes = max(takes, c.Tick)
			}
		case keeping:
			takes = t.Hold
		case closing:
			takes = t.Closes
		}
	}
	return c.since[slot] + c.up(takes), takes > 0
}

// sentences are what was told, and how all stands at the end.
func (c *clock) sentences() (lines []string) {
	for _, l := range c.lines {
		if len(l.parts) == 0 {
			continue
		}
		when := "At once"
		if len(lines) == 0 && (l.loose || l.at > c.from) {
			lines = append(lines, "At once nothing moves.")
		}
		switch {
		case l.loose:
			when = "Then"
		case l.at > c.from:
			when = fmt.Sprintf("After %.1f s", float64(q.Time(l.at-c.from)*c.Tick))
		}
		lines = append(lines, when+": "+strings.Join(l.parts, "; ")+".")
	}
	if len(lines) == 0 {
		lines = []string{"Nothing moves and nothing is released."}
	}
	return append(lines, c.standing(c.s))
}

// standing is how leaves and locks stand, in a sentence.
func (m *Machine) standing(s state) string {
	var parts []string
	for i := range m.Doors {
		parts = append(parts, "leaf"+m.ofDoor(i)+" "+[...]string{"shut", "ajar", "open"}[min(s[m.leafSlot+i], 2)])
	}
	for i := range m.locks {
		l := &m.locks[i]
		word := lockWords[s[l.slot]]
		if s[l.slot] == free {
			word = "released"
		}
		parts = append(parts, m.name(l.dev)+" "+word)
	}
	for i := range m.outputs {
		if o := &m.outputs[i]; acting(s[o.slot]) {
			parts = append(parts, m.outputName(o)+" held in")
		}
	}
	x := step{Machine: m, s: s, hand: -1}
	if !x.drivesRest() {
		return "It stays so: " + strings.Join(parts, ", ") + "."
	}
	return "At rest: " + strings.Join(parts, ", ") + "."
}

// deeds says what a step changed, as it is said to whoever inspects: relays pick up and
// drop out, locks release and lock, drives and leaves move.
func (m *Machine) deeds(a, b state, e event) (parts []string) {
	say := func(format string, args ...any) { parts = append(parts, fmt.Sprintf(format, args...)) }
	for i := range m.outputs {
		o := &m.outputs[i]
		was, is := acting(a[o.slot]), acting(b[o.slot])
		switch {
		case is && !was:
			say("%s picks up", m.outputName(o))
		case was && !is:
			say("%s drops out", m.outputName(o))
		case b[o.slot] == delayed && a[o.slot] != delayed:
			say("%s waits %.1f s", m.outputName(o), float64(q.Time(b[o.slot+1])*m.Tick))
		}
	}
	for i := range m.locks {
		l := &m.locks[i]
		was, is := a[l.slot], b[l.slot]
		switch {
		case was == is:
		case is == free:
			say("%s is released: the door is unlocked", m.name(l.dev))
		case is == locked:
			say("%s locks", m.name(l.dev))
		case is == releasing:
			say("%s begins to release", m.name(l.dev))
		default:
			say("%s %s", m.name(l.dev), lockWords[is])
		}
	}
	if door := int(e.of); e.what == handOut && b[m.leafSlot+door] == shut {
		say("the leaf%s stays shut", m.ofDoor(door))
	} else if e.what == handOut {
		say("the leaf%s opens by hand", m.ofDoor(door))
	}
	for i := range m.drives {
		d := &m.drives[i]
		was, is := a[d.slot], b[d.slot]
		switch {
		case was == is:
		case is == waiting:
			say("%s takes the start and waits %.1f s for the lock", m.name(d.dev), float64(q.Time(b[d.slot+1])*m.Tick))
		case is == widening && was == parting:
			say("the leaf%s is clear of its latch and opens on", m.ofDoor(d.door))
		case is == widening:
			say("%s opens the leaf again", m.name(d.dev))
		case is == closing:
			say("the leaf%s begins to close", m.ofDoor(d.door))
		case e.what == ends && e.of == endDrive+uint8(i):
		case is == rest && (was == parting || was == widening || was == keeping || was == closing):
			say("%s is off: the closer has the leaf", m.name(d.dev))
		default:
			say("%s %s", m.name(d.dev), driveWords[is])
		}
	}
	for i := range m.accesses {
		x := &m.accesses[i]
		if b[x.slot]&forcedBit != 0 && a[x.slot]&forcedBit == 0 {
			say("%s tells a forced door", m.name(x.dev))
		}
	}
	return parts
}

// lower lets a sentence go on within another.
func lower(s string) string {
	for _, word := range []string{"The ", "A ", "Somebody "} {
		if strings.HasPrefix(s, word) {
			return strings.ToLower(s[:1]) + s[1:]
		}
	}
	return s
}
