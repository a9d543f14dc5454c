package window

import (
	"cmp"
	"slices"
)

// A set is some of a question's demands, sorted by what decides them.
type set struct {
	demands []Demand
	still   []int   // ceilings and floors
	slow    []group // kept by all resistances above some
	quick   []int   // kept by all resistances below some: shuts and late
	shuts   []group
	late    []group
}

// setOf sorts demands.
func setOf(demands []Demand) *set {
	s := &set{demands: demands}
	for i := range demands {
		d := &demands[i]
		switch kinds[d.Kind].role {
		case ceiling, floor:
			s.still = append(s.still, i)
		case slow:
			s.slow = grouped(s.slow, float64(d.Pressure), d.oil(), i)
		case quick:
			s.quick = append(s.quick, i)
			if d.Kind == Shuts {
				s.shuts = grouped(s.shuts, d.bound(), d.oil(), i)
			} else {
				s.late = grouped(s.late, float64(d.Pressure), d.oil(), i)
			}
		}
	}
	for _, g := range s.shuts {
		slices.SortStableFunc(g.of, func(a, b int) int { return cmp.Compare(demands[a].From, demands[b].From) })
	}
	return s
}

// grouped puts a demand with those of the same air.
func grouped(groups []group, pressure, oil float64, i int) []group {
	for k := range groups {
		if g := &groups[k]; g.pressure == pressure && g.oil == oil {
			g.of = append(g.of, i)
			return groups
		}
	}
	return append(groups, group{pressure, oil, []int{i}})
}

// slowOnes lists the slow demands.
func (s *set) slowOnes() []int {
	var all []int
	for _, g := range s.slow {
		all = append(all, g.of...)
	}
	return all
}
