package main

import (
	"swingwright/logic"
	"swingwright/opening"
	"swingwright/plan"
)

// groups judges the groups of a job while its plans stream by. It keeps of a plan
// no more than a group needs, and that only until the group's other opening has
// come.
type groups struct {
	task    *task
	of      map[string][]int // by opening, the groups that it belongs to
	waiting []map[string]*plan.Member
	done    []*plan.Group // by their place in the job; nil until whole
}

// newGroups gets ready for the groups of a job both of whose openings are looked at.
func newGroups(t *task) *groups {
	g := &groups{task: t, of: make(map[string][]int), waiting: make([]map[string]*plan.Member, len(t.Groups)), done: make([]*plan.Group, len(t.Groups))}
	picked := make(map[string]bool, len(t.picked))
	for _, o := range t.picked {
		picked[o.ID] = true
	}
	for i := range t.Groups {
		if of := t.Groups[i].Of; len(of) == 2 && picked[of[0]] && picked[of[1]] {
			for _, id := range of {
				g.of[id] = append(g.of[id], i)
			}
		}
	}
	return g
}

// take keeps of a plan what its groups need, and judges those that are whole. The wiring
// that the opening shares is proved again where no proof is given.
func (g *groups) take(p *plan.Plan, wired *plan.Wired) {
	at := g.of[p.Opening.ID]
	if len(at) == 0 {
		return
	}
	m := p.Member(&g.task.Sheets)
	for _, i := range at {
		if g.waiting[i] == nil {
			g.waiting[i] = make(map[string]*plan.Member, 2)
		}
		g.waiting[i][m.ID] = m
		if len(g.waiting[i]) == 2 {
			g.done[i] = g.judge(&g.task.Groups[i], g.waiting[i], wired)
			g.waiting[i] = nil
		}
	}
}

func (g *groups) judge(group *opening.Group, of map[string]*plan.Member, wired *plan.Wired) *plan.Group {
	one := plan.Together(group, of[group.Of[0]], of[group.Of[1]], g.task.books, g.task.opt.Policy)
	if group.Wiring.None() {
		return one
	}
	if wired != nil && wired.Of == group.ID {
		one.TakeWiring(wired)
		return one
	}
	if both, err := g.task.openings(group.Of); err == nil && len(both) == 2 {
		if both[0].ID != group.Of[0] {
			both[0], both[1] = both[1], both[0]
		}
		one.TakeWiring(plan.WireGroup(group, both, &g.task.Sheets, logic.Effort{}, g.task.opt.Policy, one.Members[:]...))
	}
	return one
}

// whole are the groups both of whose openings have come, in the job's order.
func (g *groups) whole() (all []*plan.Group) {
	for _, one := range g.done {
		if one != nil {
			all = append(all, one)
		}
	}
	return all
}

// write writes the groups that are whole, in the job's order, and tells their worst.
func (g *groups) write(out writer) (worst plan.Standing, err error) {
	for _, one := range g.whole() {
		worst = max(worst, one.Stand())
		if err := out.Group(one); err != nil {
			return worst, err
		}
	}
	return worst, nil
}
