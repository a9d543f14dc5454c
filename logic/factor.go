package logic

import (
	"fmt"
	"math/bits"
)

// A counter is a byte of a state that only ever is set, counts down with a tick,
// and does something as it runs out.
type counter struct {
	slot, most  int // the most that it is set to
	word, shift int // where it lies in a key
}

func (c *counter) mask() uint64 { return 1<<bits.Len(uint(c.most)) - 1 }

// A key is a state in short: its counters side by side, and the number of its
// configuration in the upper half of the second word.
type key [2]uint64

const configShift = 32

func (k *key) config() int { return int(k[1] >> configShift) }

// hash mixes a key, with the finalizer of SplitMix64 (Steele, Lea and Flood, 2014).
func (k *key) hash() uint64 {
	h := k[0] + 0x9e3779b97f4a7c15*(k[1]+1)
	h = (h ^ h>>30) * 0xbf58476d1ce4e5b9
	h = (h ^ h>>27) * 0x94d049bb133111eb
	return h ^ h>>31
}

// A configuration is a state but for how far its counters are. What an event does
// hangs on the configuration alone, and with a tick on which counters run out:
// it is worked out once, and then holds for every state of the configuration.
type configuration struct {
	state    state // each counter that runs stands at 1
	events   []event
	itself   int // the first so many happen by themselves
	moves    []move
	ticking  []int // counters from which a tick takes
	takes    key   // one from each of them
	runOut   []uint32
	tickMove []move // as runOut: which of them run out
	runs     bool   // some counter does
	alone    bool   // nobody does anything and nothing is amiss
	calm     bool   // it is at rest, and locked where it has to be
}

// A move is what an event does to a key: some of it is kept, the rest is set.
type move struct {
	keep, set key
	bad       rules
	known     bool
}

// A factored machine is taken apart into configurations and counters.
type factored struct {
	*Machine
	counters []counter
	configs  []configuration
	number   map[state]int
}

// factor takes a machine apart; it fails where the counters do not fit into a key.
func (m *Machine) factor() (*factored, error) {
	f := &factored{Machine: m, number: make(map[state]int)}
	add := func(slot, most int) {
		if most > 0 {
			f.counters = append(f.counters, counter{slot: slot, most: most})
		}
	}
	for i := range m.outputs {
		o := &m.outputs[i]
		add(o.slot+1, max(o.onDelay, o.pulse, o.hold))
	}
	for i := range m.locks {
		add(m.locks[i].slot+1, min(m.locks[i].release, 255))
	}
	for i := range m.drives {
		add(m.drives[i].slot+1, min(max(m.drives[i].onDelay, m.drives[i].clear), 255))
	}
	add(m.wantSlot, m.want)
	add(m.outSlot, m.outTicks())
	room := [2]int{64, configShift}
	for i := range f.counters {
		c := &f.counters[i]
		width := bits.Len(uint(c.most))
		if c.word = 0; room[0] < width {
			c.word = 1
		}
		if room[c.word] < width {
			return nil, errTooLarge
		}
		room[c.word] -= width
		c.shift = room[c.word]
	}
	return f, nil
}

// split is the key of a state; its configuration is numbered if it is new.
func (f *factored) split(s state) (k key) {
	for i := range f.counters {
		c := &f.counters[i]
		if v := s[c.slot]; v > 0 {
			k[c.word] |= uint64(v) << c.shift
			s[c.slot] = 1
		}
	}
	n, known := f.number[s]
	if !known {
		n = len(f.configs)
		f.number[s] = n
		f.configs = append(f.configs, f.configure(s))
	}
	k[1] |= uint64(n) << configShift
	return k
}

// configure works out what can happen in a configuration.
func (f *factored) configure(s state) configuration {
	c := configuration{state: s}
	x := step{Machine: f.Machine, s: s, hand: -1}
	c.events = f.possible(s, nil)
	for i := range f.counters {
		c.runs = c.runs || s[f.counters[i].slot] > 0
	}
	x.sense()
	c.itself = len(x.byItself(nil))
	c.moves = make([]move, len(c.events))
	c.alone = x.alone()
	c.calm = x.atRest() && x.relocked()
	return c
}

// begin is the key of the state in which everything is left.
func (f *factored) begin() (key, rules) {
	s, bad := f.Machine.begin()
	f.alike(&s)
	return f.split(s), bad
}

// after is the key after an event, and the rules that it broke; known is false
// where what the event does was not worked out yet.
func (f *factored) after(k key, event int) (next key, bad rules, known bool) {
	c := &f.configs[k.config()]
	m := &c.moves[event]
	if c.events[event].what == tick && m.known {
		if m = c.tickMoveOf(f.out(c, k)); m == nil {
			return key{}, 0, false
		}
		k[0], k[1] = k[0]-c.takes[0], k[1]-c.takes[1]
	}
	return key{k[0]&m.keep[0] | m.set[0], k[1]&m.keep[1] | m.set[1]}, m.bad, m.known
}

// out tells which of the counters of a tick run out with it, one bit for each.
func (f *factored) out(c *configuration, k key) (out uint32) {
	for i, n := range c.ticking {
		if t := &f.counters[n]; k[t.word]>>t.shift&t.mask() == 1 {
			out |= 1 << i
		}
	}
	return out
}

func (c *configuration) tickMoveOf(out uint32) *move {
	for i, o := range c.runOut {
		if o == out {
			return &c.tickMove[i]
		}
	}
	return nil
}

// work works out what an event does in the configuration of a key.
func (f *factored) work(k key, event int) {
	n := k.config()
	if c := &f.configs[n]; !c.moves[event].known {
		if c.events[event].what == tick {
			f.ticks(c)
			f.configs[n].moves[event].known = true
		} else {
			m := f.moveOf(n, event, nil)
			f.configs[n].moves[event] = m
			return
		}
	}
	c := &f.configs[n]
	out := f.out(c, k)
	if c.tickMoveOf(out) != nil {
		return
	}
	var last []int // counters that run out
	for i, t := range c.ticking {
		if out>>i&1 == 1 {
			last = append(last, t)
		}
	}
	m := f.moveOf(n, event, last)
	c = &f.configs[n]
	c.runOut, c.tickMove = append(c.runOut, out), append(c.tickMove, m)
}

// Two values at which a counter stands far from its end: what differs after an
// event as they do was kept.
const farA, farB byte = 100, 101

// ticks finds the counters from which a tick takes.
func (f *factored) ticks(c *configuration) {
	next, _ := f.next(f.stand(c, farA, nil), event{what: tick})
	for i := range f.counters {
		t := &f.counters[i]
		if c.state[t.slot] > 0 && next[t.slot] == farA-1 {
			c.ticking = append(c.ticking, i)
			c.takes[t.word] |= 1 << t.shift
		}
	}
}

// stand is a state of a configuration: those counters that run stand at a value,
// but at 1 those that are about to run out.
func (f *factored) stand(c *configuration, at byte, last []int) state {
	s := c.state
	for i := range f.counters {
		if t := &f.counters[i]; s[t.slot] > 0 {
			s[t.slot] = at
		}
	}
	for _, i := range last {
		s[f.counters[i].slot] = 1
	}
	return s
}

// moveOf works out a move from two states of a configuration that differ in how
// far their counters are.
func (f *factored) moveOf(config, event int, last []int) move {
	c := &f.configs[config]
	e := c.events[event]
	a, bad := f.next(f.stand(c, farA, last), e)
	b, badB := a, bad
	if c.runs {
		b, badB = f.next(f.stand(c, farB, last), e)
	}
	m := move{bad: bad, known: true}
	f.alike(&a)
	f.alike(&b)
	result := a
	for i := range f.counters {
		t := &f.counters[i]
		switch va, vb := a[t.slot], b[t.slot]; {
		case va == vb: // set
			m.set[t.word] |= uint64(va) << t.shift
		case vb == va+1 && (va == farA || e.what == tick && va == farA-1 && c.takes[t.word]>>t.shift&1 == 1):
			m.keep[t.word] |= t.mask() << t.shift
		default:
			panic(fmt.Sprintf("a counter came to %d from %d, and to %d from %d", va, farA, vb, farB))
		}
		b[t.slot] = a[t.slot]
	}
	if a != b || bad != badB {
		panic("what an event does hangs on how far a counter is")
	}
	to := f.split(result)
	m.set[1] |= to[1] >> configShift << configShift
	return m
}
