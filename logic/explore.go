package logic

import (
	"math/bits"
	"runtime"
	"sync"

	"swingwright/opening"
)

// explored is what a machine can come to: every state that some order of events
// leads to, in the order of how few events lead there.
type explored struct {
	*factored
	keys     []key
	parent   []int32              // state from which each was first reached; -1 for the first
	via      []event              // and by what
	table    []uint64             // open addressing: part of the hash, and the number of a state plus one; 0 where free
	steps    int                  // transitions followed
	complete bool                 // no state was left out
	broken   [2 * sagShift]breach // the upper half while the standby battery runs low
	found    rules                // those that are broken
}

// A breach is the first transition that broke a rule.
type breach struct {
	found bool
	from  int32
	via   event
}

func (x *explored) len() int { return len(x.keys) }

// The lower half of an entry of the table is a number, the upper that of the hash.
const numberMask = 1<<32 - 1

// find is the number of a key with its hash, or -1 and the free place in the table for it.
func (x *explored) find(k *key, hash uint64) (number int32, place uint64) {
	mask := uint64(len(x.table) - 1)
	for place = hash & mask; ; place = (place + 1) & mask {
		n := x.table[place]
		if n == 0 {
			return -1, place
		}
		if (n^hash)&^numberMask == 0 && x.keys[n&numberMask-1] == *k {
			return int32(n&numberMask - 1), place
		}
	}
}

// add keeps a state that is new.
func (x *explored) add(k *key, hash uint64, from int32, via event) {
	known, place := x.find(k, hash)
	if known >= 0 {
		return
	}
	x.keys = append(x.keys, *k)
	x.parent, x.via = append(x.parent, from), append(x.via, via)
	x.table[place] = hash&^numberMask | uint64(len(x.keys))
	if len(x.keys)*2 > len(x.table) {
		x.grow()
	}
}

func (x *explored) grow() {
	x.table = make([]uint64, 2*len(x.table))
	mask := uint64(len(x.table) - 1)
	for i := range x.keys {
		hash := x.keys[i].hash()
		place := hash & mask
		for x.table[place] != 0 {
			place = (place + 1) & mask
		}
		x.table[place] = hash&^numberMask | uint64(i+1)
	}
}

// A candidate is where an event leads that may lead to something new.
type candidate struct {
	key   key
	hash  uint64
	from  int32
	event uint16 // its number among those of the configuration
	known bool   // what it does is worked out
	bad   rules
}

// atOnce so many states are looked at between two looks at what was found.
const atOnce = 8192

// explore follows every order of events, breadth first, until nothing new comes
// or more than limit states have. Workers look at the states of a block while
// nothing is added; what they found is then added in the order of the states, so
// that their number changes nothing. The function progress, where there is one, is
// told now and then how many states there are; it stops the search with false.
func (f *factored) explore(limit int, progress func(states int) bool) *explored {
	x := &explored{factored: f, table: make([]uint64, 1<<12), complete: true}
	first, bad := f.begin()
	x.add(&first, first.hash(), -1, event{})
	x.note(bad, -1, event{})
	found := make([][]candidate, runtime.GOMAXPROCS(0))
	for done := 0; done < x.len(); {
		if x.len() > limit || done >= atOnce && progress != nil && !progress(x.len()) {
			x.complete = false
			return x
		}
		block := min(x.len()-done, atOnce, max(1, limit+1-x.len()))
		x.look(done, done+block, found)
		for _, cs := range found {
			for i := range cs {
				x.take(&cs[i])
			}
		}
		for i := done; i < done+block; i++ {
			x.steps += len(x.configs[x.keys[i].config()].events)
		}
		done += block
	}
	x.stuck()
	return x
}

// look looks at the states of a block: at what they lead to, and what that breaks.
func (x *explored) look(from, to int, found [][]candidate) {
	var all sync.WaitGroup
	share := (to - from + len(found) - 1) / len(found)
	for w := range found {
		found[w] = found[w][:0]
		low, high := min(from+w*share, to), min(from+(w+1)*share, to)
		all.Go(func() {
			for i := low; i < high; i++ {
				found[w] = x.lookAt(int32(i), found[w])
			}
		})
	}
	all.Wait()
}

func (x *explored) lookAt(i int32, found []candidate) []candidate {
	k := x.keys[i]
	for e := range x.configs[k.config()].events {
		next, bad, known := x.after(k, e)
		if known && bad&^x.found == 0 {
			hash := next.hash()
			if n, _ := x.find(&next, hash); n < 0 {
				found = append(found, candidate{next, hash, i, uint16(e), true, 0})
			}
			continue
		}
		found = append(found, candidate{next, next.hash(), i, uint16(e), known, bad})
	}
	return found
}

// take adds what a candidate leads to.
func (x *explored) take(c *candidate) {
	if !c.known {
		k := x.keys[c.from]
		if c.key, c.bad, c.known = x.after(k, int(c.event)); !c.known {
			x.work(k, int(c.event))
			c.key, c.bad, _ = x.after(k, int(c.event))
		}
		c.hash = c.key.hash()
	}
	via := x.configs[x.keys[c.from].config()].events[c.event]
	x.note(c.bad, c.from, via)
	x.add(&c.key, c.hash, c.from, via)
}

func (x *explored) note(bad rules, from int32, via event) {
	for bad &^= x.found; bad != 0; bad &= bad - 1 {
		x.broken[bits.TrailingZeros64(uint64(bad))] = breach{true, from, via}
		x.found |= bad & -bad
	}
}

// possible lists what can happen in a state.
func (m *Machine) possible(s state, events []event) []event {
	x := step{Machine: m, s: s, hand: -1}
	x.sense()
	events = x.byItself(events)
	for i := range m.levers {
		if s[m.levers[i].slot] == 0 {
			events = append(events, event{press, uint8(i)})
		} else {
			events = append(events, event{letGo, uint8(i)})
		}
	}
	for i := range m.accesses {
		if m.accesses[i].reads {
			events = append(events, event{credential, uint8(i)})
		}
	}
	if m.hasAlarm {
		switch s[m.alarmSlot] {
		case noAlarm:
			events = append(events, event{alarm, 0})
		case sounding:
			events = append(events, event{silence, 0}, event{reset, 0})
		case silenced:
			events = append(events, event{reset, 0})
		}
	}
	events = append(events, either(s[m.mainsSlot] == 1, mainsFail, mainsReturn))
	if m.hasDay {
		events = append(events, either(s[m.daySlot] == 1, night, day))
	}
	for i := range m.drives {
		if s[m.drives[i].slot] == closing {
			events = append(events, event{pushClosing, uint8(i)})
		}
	}
	for i := range m.Doors {
		if s[m.leafSlot+i] == shut {
			events = append(events, event{handOut, uint8(i)})
		}
	}
	if m.sagSlot >= 0 && s[m.mainsSlot] == 0 {
		for i := range m.fading {
			if x.mayFade(i) {
				events = append(events, event{sag, uint8(i)})
			}
		}
	}
	return x.sticking(events)
}

func either(first bool, a, b happening) event {
	if first {
		return event{a, 0}
	}
	return event{b, 0}
}

// byItself lists what happens with nobody doing anything.
func (x *step) byItself(events []event) []event {
	s := &x.s
	counts := s[x.wantSlot] > 0 || s[x.outSlot] > 0
	for i := range x.outputs {
		o := &x.outputs[i]
		switch s[o.slot] {
		case delayed, pulsing, holding:
			counts = true
		case pulsed, held:
			events = append(events, event{ends, endOutput + uint8(i)})
		}
	}
	for i := range x.locks {
		counts = counts || s[x.locks[i].slot] == releasing
	}
	drives := 0
	for i := range x.drives {
		d := &x.drives[i]
		switch s[d.slot] {
		case waiting, parting:
			counts = true
		case keeping:
			if x.asserted(d.start) || x.asserted(d.hold) || x.asserted(d.safety) {
				break // it is held longer
			}
			events = append(events, event{ends, endDrive + uint8(i)})
		case widening, closing:
			events = append(events, event{ends, endDrive + uint8(i)})
		}
		if p := s[d.slot]; p != rest && p != blocked {
			drives |= 1 << d.door
		}
	}
	for i := range x.Doors {
		if s[x.leafSlot+i] != shut && drives>>i&1 == 0 {
			events = append(events, event{ends, endLeaf + uint8(i)})
		}
	}
	if counts {
		events = append(events, event{tick, 0})
	}
	return events
}

// alone tells a state in which nobody does anything and nothing outside is amiss,
// so that the door ought to come to rest.
func (x *step) alone() bool {
	if x.pressed() || x.s[x.alarmSlot] != noAlarm || x.s[x.mainsSlot] == 0 || x.anyStuck() {
		return false
	}
	for i := range x.levers {
		l := &x.levers[i]
		if x.s[l.slot] == 1 && l.role != opening.EnableSwitch && l.role != opening.NightSwitch {
			return false
		}
	}
	return true
}

// relocked tells that every door that has to be locked now is.
func (x *step) relocked() bool {
	if x.hasDay && x.s[x.daySlot] == 1 {
		return true
	}
	for i := range x.locks {
		if l := &x.locks[i]; x.Doors[l.door].StaysLocked && x.s[l.slot] != locked {
			return false
		}
	}
	return true
}
