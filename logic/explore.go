package logic

import (
	"encoding/binary"
	"slices"

	"swingwright/opening"
)

// explored is what a machine can come to: every state that some order of events
// leads to, in the order of how few events lead there.
type explored struct {
	m        *Machine
	stride   int
	bytes    []byte  // the states, one after the other
	parent   []int32 // state from which each was first reached; -1 for the first
	via      []event // and by what
	table    []int32 // open addressing: number of a state plus one, 0 where free
	mask     uint64
	steps    int  // transitions followed
	complete bool // no state was left out
	broken   [ruleCount]breach
}

// A breach is the first transition that broke a rule.
type breach struct {
	found bool
	from  int32
	via   event
}

func (x *explored) len() int { return len(x.parent) }

func (x *explored) state(i int) (s state) {
	copy(s[:], x.bytes[i*x.stride:(i+1)*x.stride])
	return s
}

// hash mixes the words of a state, with the finalizer of SplitMix64 (Steele, Lea
// and Flood, 2014).
func hash(s *state) uint64 {
	h := uint64(0x9e3779b97f4a7c15)
	for i := 0; i < len(s); i += 8 {
		h ^= binary.LittleEndian.Uint64(s[i:])
		h = (h ^ h>>30) * 0xbf58476d1ce4e5b9
		h = (h ^ h>>27) * 0x94d049bb133111eb
		h ^= h >> 31
	}
	return h
}

// find is the number of a state, or the free place in the table for it.
func (x *explored) find(s *state) (number int32, place uint64) {
	for place = hash(s) & x.mask; ; place = (place + 1) & x.mask {
		n := x.table[place]
		if n == 0 {
			return -1, place
		}
		if at := int(n-1) * x.stride; string(x.bytes[at:at+x.stride]) == string(s[:x.stride]) {
			return n - 1, place
		}
	}
}

// add keeps a state that is new, and tells whether it is.
func (x *explored) add(s *state, from int32, via event) bool {
	known, place := x.find(s)
	if known >= 0 {
		return false
	}
	x.bytes = append(x.bytes, s[:x.stride]...)
	x.parent, x.via = append(x.parent, from), append(x.via, via)
	x.table[place] = int32(len(x.parent))
	if uint64(len(x.parent))*2 > x.mask {
		x.grow()
	}
	return true
}

func (x *explored) grow() {
	x.mask = x.mask<<1 | 1
	x.table = make([]int32, x.mask+1)
	for i := range x.len() {
		s := x.state(i)
		_, place := x.find(&s)
		x.table[place] = int32(i + 1)
	}
}

// explore follows every order of events, breadth first, until nothing new comes
// or more than limit states have. The function progress, where there is one, is
// told now and then how many states there are; it stops the search with false.
func (m *Machine) explore(limit int, progress func(states int) bool) *explored {
	x := &explored{m: m, stride: m.slots, table: make([]int32, 1<<12), mask: 1<<12 - 1, complete: true}
	first, bad := m.begin()
	x.add(&first, -1, event{})
	x.note(bad, -1, event{})
	var events []event
	for i := 0; i < x.len(); i++ {
		if i%4096 == 4095 && progress != nil && !progress(x.len()) || x.len() > limit {
			x.complete = false
			break
		}
		s := x.state(i)
		events = m.possible(s, events[:0])
		for _, e := range events {
			next, bad := m.next(s, e)
			x.steps++
			x.note(bad, int32(i), e)
			x.add(&next, int32(i), e)
		}
	}
	if x.complete {
		x.stuck()
	}
	return x
}

func (x *explored) note(bad rules, from int32, via event) {
	for ; bad != 0; bad &= bad - 1 {
		for r := range x.broken {
			if bad&-bad == 1<<r && !x.broken[r].found {
				x.broken[r] = breach{true, from, via}
			}
		}
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
	return events
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
	if x.pressed() || x.s[x.alarmSlot] != noAlarm || x.s[x.mainsSlot] == 0 {
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

// stuck looks for states from which nothing that happens by itself leads to
// rest. What can end at any time is taken to end at some time.
func (x *explored) stuck() {
	const none = -1
	var calm, from, to []int32 // states at rest; edges between states left alone
	left := make([]bool, x.len())
	var events []event
	for i := range x.len() {
		w := step{Machine: x.m, s: x.state(i), hand: none}
		if !w.alone() {
			continue
		}
		left[i] = true
		if w.atRest() && w.relocked() {
			calm = append(calm, int32(i))
			continue
		}
		w.sense()
		events = w.byItself(events[:0])
		for _, e := range events {
			next, _ := x.m.next(w.s, e)
			if n, _ := x.find(&next); n >= 0 {
				from, to = append(from, int32(i)), append(to, n)
			}
		}
	}
	for _, i := range reach(x.len(), calm, from, to) {
		left[i] = false
	}
	if i := slices.Index(left, true); i >= 0 {
		x.broken[ComesToRest] = breach{true, x.parent[i], x.via[i]}
	}
}

// reach lists the states from which edges lead to one of the goals, the goals too.
func reach(states int, goals, from, to []int32) []int32 {
	start := make([]int32, states+1)
	for _, t := range to {
		start[t+1]++
	}
	for i := range states {
		start[i+1] += start[i]
	}
	back, at := make([]int32, len(to)), slices.Clone(start)
	for k, t := range to {
		back[at[t]] = from[k]
		at[t]++
	}
	seen := make([]bool, states)
	todo := slices.Clone(goals)
	for _, g := range goals {
		seen[g] = true
	}
	for i := 0; i < len(todo); i++ {
		for _, b := range back[start[todo[i]]:start[todo[i]+1]] {
			if !seen[b] {
				seen[b] = true
				todo = append(todo, b)
			}
		}
	}
	return todo
}
