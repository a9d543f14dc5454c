package logic

import "slices"

// A full is what a machine can come to, followed state by state with nothing made
// short: no configurations, nothing forgotten, one after the other. It is what the
// search that Prove makes is held against.
type full struct {
	m        *Machine
	states   []state
	number   map[state]int32
	depth    []int // events that lead there
	complete bool
	events   [2 * sagShift]int // in how many a rule is broken, 0 where it is not
}

func (m *Machine) exploreFully(limit int) *full {
	x := &full{m: m, number: make(map[state]int32), complete: true}
	add := func(s state, depth int) {
		if _, known := x.number[s]; !known {
			x.number[s] = int32(len(x.states))
			x.states, x.depth = append(x.states, s), append(x.depth, depth)
		}
	}
	for r := range x.events {
		x.events[r] = -1
	}
	note := func(bad rules, depth int) {
		for r := range x.events {
			if bad>>r&1 == 1 && x.events[r] < 0 {
				x.events[r] = depth
			}
		}
	}
	first, bad := m.begin()
	add(first, 0)
	note(bad, 0)
	for i := 0; i < len(x.states); i++ {
		if len(x.states) > limit {
			x.complete = false
			return x
		}
		for _, e := range m.possible(x.states[i], nil) {
			next, bad := m.next(x.states[i], e)
			note(bad, x.depth[i]+1)
			add(next, x.depth[i]+1)
		}
	}
	x.unrest()
	return x
}

// unrest finds the first state that is left alone and from which nothing leads to rest.
func (x *full) unrest() {
	rests := make([]bool, len(x.states))
	from := make(map[int32][]int32)
	var todo, alone []int32
	for i, s := range x.states {
		w := step{Machine: x.m, s: s, hand: -1}
		if !w.alone() {
			continue
		}
		alone = append(alone, int32(i))
		if w.atRest() && w.relocked() {
			rests[i] = true
			todo = append(todo, int32(i))
			continue
		}
		w.sense()
		for _, e := range w.byItself(nil) {
			next, _ := x.m.next(s, e)
			n := x.number[next]
			from[n] = append(from[n], int32(i))
		}
	}
	for len(todo) > 0 {
		n := todo[0]
		todo = todo[1:]
		for _, i := range from[n] {
			if !rests[i] {
				rests[i] = true
				todo = append(todo, i)
			}
		}
	}
	if i := slices.IndexFunc(alone, func(i int32) bool { return !rests[i] }); i >= 0 {
		x.events[ComesToRest] = x.depth[alone[i]]
	}
}
