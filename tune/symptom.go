package tune

import (
	"math"
	"slices"
	"strings"

	"swingwright/quantity"
)

// A Nudge is a part and the way to turn it.
type Nudge struct {
	Part Part
	More bool // a stronger spring, a valve farther open, a faster operator
}

// A Symptom is what people see a door do, in the trade's words, and what to turn for it,
// one thing at a time, each time an eighth of a turn or a little, with a test in between.
type Symptom struct {
	Name   string
	Said   []string // ways of saying it; every word of one has to be there
	First  []Nudge  // to turn first; one of them, or one after another
	Then   []Nudge  // if that is not enough, or has done harm
	Else   string   // what to look at where turning does not help
	Source string
}

const practice = "common practice"

// symptoms are the rules of the trade. Faster is a valve farther open.
var symptoms = []Symptom{
	{
		Name:  "closes too fast",
		Said:  []string{"closes too fast", "closing too quick", "shuts too fast", "too fast overall"},
		First: []Nudge{{SweepValve, false}, {LatchValve, false}}, Then: []Nudge{{SpringPart, false}},
		Else: "look for oil on the closer's body: one that leaks cannot be slowed", Source: practice,
	},
	{
		Name:  "fast, then abruptly slow just before closed",
		Said:  []string{"fast then slow", "fast then abruptly slow", "slows abruptly before closed"},
		First: []Nudge{{SweepValve, false}}, Then: []Nudge{{LatchValve, true}},
		Else: "look at the arm's preload", Source: practice,
	},
	{
		Name:  "slow, then fast just before closed",
		Said:  []string{"slow then fast", "speeds up before closed", "slow then speeds up"},
		First: []Nudge{{LatchValve, false}}, Then: []Nudge{{SweepValve, true}},
		Else: "see whether air draws it shut", Source: practice,
	},
	{
		Name:  "slams",
		Said:  []string{"slams", "bangs shut", "slams shut"},
		First: []Nudge{{LatchValve, false}}, Then: []Nudge{{SweepValve, false}, {SpringPart, false}},
		Else: "see whether air draws it shut, and look for oil on the closer's body", Source: practice,
	},
	{
		Name:  "does not latch",
		Said:  []string{"does not latch", "will not latch", "won't latch", "doesn't latch", "closes slow but does not latch"},
		First: []Nudge{{LatchValve, true}}, Then: []Nudge{{SpringPart, true}},
		Else: "look at seal, strike and hinges, and try it with the ventilation off", Source: practice,
	},
	{
		Name:  "hangs just before the latch",
		Said:  []string{"hangs before latching", "hangs at the latch", "stops before latching", "stops just before closed"},
		First: []Nudge{{LatchValve, true}}, Then: []Nudge{{SpringPart, true}},
		Else: "look at seal and strike, and try it with the ventilation off", Source: practice,
	},
	{
		Name:  "closes too slowly",
		Said:  []string{"closes too slow", "closes too slowly", "takes too long to close"},
		First: []Nudge{{SweepValve, true}}, Then: []Nudge{{LatchValve, true}},
		Else: "cold oil is slow: measure again when it is warm, before the valves are opened for good", Source: practice,
	},
	{
		Name: "stalls midway",
		Said: []string{"stalls midway", "stops midway", "stalls half open", "stays half open"},
		Then: []Nudge{{SpringPart, true}},
		Else: "first see whether hinges bind or the leaf drags on the floor; a closer that sticks is to be replaced", Source: practice,
	},
	{
		Name: "too hard to push",
		Said: []string{"too hard to push", "hard to open", "too heavy to open", "opens too hard"},
		// backcheck is felt as weight too, once the leaf is well open
		First: []Nudge{{SpringPart, false}}, Then: []Nudge{{BackcheckValve, true}},
		Else: "see that it still latches; else hinges, seals and air are to be eased, or the leaf powered", Source: practice,
	},
	{
		Name:  "opens too fast by hand and bangs the stop",
		Said:  []string{"bangs the stop", "bangs open", "hits the stop", "opens too fast by hand"},
		First: []Nudge{{BackcheckValve, false}}, Then: []Nudge{{OperatorSpeed, false}},
		Else: "backcheck is no stop: fit one", Source: practice,
	},
	{
		Name:  "struggles past 70 degrees under power",
		Said:  []string{"struggles past 70", "struggles to open fully", "slows past 70 under power"},
		First: []Nudge{{BackcheckValve, true}}, Then: []Nudge{{SpringPart, false}},
		Else: "see whether the arm is square, what rubs, and the voltage at the operator while it moves", Source: practice,
	},
	{
		Name: "opens too fast under power", Said: []string{"opens too fast under power", "opening time too short"},
		First: []Nudge{{OperatorSpeed, false}},
		Else:  "weigh the leaf: perhaps its time was looked up for another", Source: practice,
	},
	{
		Name: "opens too slowly under power", Said: []string{"opens too slow under power", "opens too slowly under power", "opening time too long"},
		First: []Nudge{{OperatorSpeed, true}}, Then: []Nudge{{SpringPart, false}},
		Else: "see what rubs, whether a seal holds it in the first degrees, and the voltage at the operator while it moves", Source: practice,
	},
	{
		Name: "drifts open by itself", Said: []string{"drifts open", "opens by itself", "creeps open"},
		Then: []Nudge{{SpringPart, true}},
		Else: "first look at what pushes it: air, a seal, a hinge line out of plumb", Source: practice,
	},
	{
		Name: "stays open too long before it closes", Said: []string{"stays open too long", "waits too long before closing"},
		First: []Nudge{{DelayValve, true}},
		Else:  "an operator's hold time is set at its control", Source: practice,
	},
}

// Symptoms lists all symptoms that are known, in the order of the table.
func Symptoms() []Symptom { return slices.Clone(symptoms) }

// Recognise lists the symptoms that words like these are about, the one that takes in most
// of them first.
func Recognise(words string) []Symptom {
	said := strings.FieldsFunc(strings.ToLower(words), func(r rune) bool { return strings.ContainsRune(" ,.;:!?\t\n", r) })
	type hit struct{ at, words int }
	var hits []hit
	for i := range symptoms {
		best := 0
		for _, way := range append([]string{symptoms[i].Name}, symptoms[i].Said...) {
			need := strings.FieldsFunc(way, func(r rune) bool { return r == ' ' || r == ',' })
			if inOrder(need, said) {
				best = max(best, len(need))
			}
		}
		if best > 0 {
			hits = append(hits, hit{i, best})
		}
	}
	slices.SortStableFunc(hits, func(a, b hit) int { return b.words - a.words })
	var all []Symptom
	for _, h := range hits {
		all = append(all, symptoms[h.at])
	}
	return all
}

// inOrder tells that all words needed are among those said, one after another.
func inOrder(need, said []string) bool {
	for _, w := range said {
		if len(need) > 0 && w == need[0] {
			need = need[1:]
		}
	}
	return len(need) == 0
}

// quarter is the change of a resistance that a nudge of a learned valve makes.
const quarter = 1.25

// Moves are a symptom's first nudges as moves from a state: an eighth of a turn, or where
// a valve was learned what changes its resistance by a quarter, if that is less. A valve
// that may go no farther is left out: never past the screw's resistance.
func (s *Symptom) Moves(now State, sweep, latch *Valve) (all []Move) {
	for _, n := range s.First {
		m := Move{Part: n.Part, More: n.More, PowerFrom: now.Power, PowerTo: now.Power}
		switch n.Part {
		case SweepValve:
			m.size(sweep, now.Sweep)
		case LatchValve:
			m.size(latch, now.Latch)
		case BackcheckValve, DelayValve:
			m.Turns = eighth
		}
		if n.Part == SweepValve || n.Part == LatchValve {
			if m.Turns < grain/2 {
				continue
			}
		}
		all = append(all, m)
	}
	return all
}

// size sets how far a valve at u is nudged.
func (m *Move) size(v *Valve, u quantity.Turns) {
	if v == nil {
		v = &Valve{Shut: stops, ShutU: seat}
	}
	by := eighth
	if v.Known {
		open := u - v.Shut
		by = min(by, open-open/quarter)
	}
	low, high := v.Reach(u)
	to := max(u-by, low)
	if m.More {
		to = min(u+by, high)
	}
	m.From, m.To, m.Learned = u, to, v.Known
	m.Turns = quantity.Turns(math.Abs(float64(to - u)))
}
