package logic

import "slices"

// stuck looks for states from which nothing that happens by itself leads to
// rest. What can end at any time is taken to end at some time.
func (x *explored) stuck() {
	var calm, from, to []int32 // states at rest; edges between states left alone
	left := make([]bool, x.len())
	for i := range x.keys {
		k := x.keys[i]
		c := &x.configs[k.config()]
		if !c.alone {
			continue
		}
		left[i] = true
		if c.calm {
			calm = append(calm, int32(i))
			continue
		}
		for e := range c.itself {
			next, _, _ := x.after(k, e)
			n, _ := x.find(&next, next.hash())
			from, to = append(from, int32(i)), append(to, n)
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
