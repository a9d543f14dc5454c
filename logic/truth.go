package logic

import (
	"slices"
	"strings"

	"swingwright/opening"
)

// A TruthTable tells what comes of everything that people can ask of a door, in
// each condition in which they may find it.
type TruthTable struct {
	Conditions []string
	Rows       []TruthRow
}

// A TruthRow is one thing that people do, and what comes of it in each condition.
type TruthRow struct {
	Ask   string
	Comes []Came // as Conditions
}

// Came is what came of an ask before all was at rest again: the locks that were
// freed, the drives that moved their leaf and the doors that opened by hand, by
// their names. All empty where nothing came of it.
type Came struct{ Freed, Driven, ByHand []string }

// String is what came of it in words.
func (c Came) String() string {
	var parts []string
	for _, p := range []struct {
		names []string
		words string
	}{{c.Freed, " freed"}, {c.Driven, " drives"}, {c.ByHand, " opens by hand"}} {
		for _, name := range p.names {
			parts = append(parts, name+p.words)
		}
	}
	if len(parts) == 0 {
		return "nothing"
	}
	return strings.Join(parts, ", ")
}

// ask is something that people do, in words and as events.
type ask struct {
	words string
	way   []event
}

// TruthTable lets the machine run from each condition through each ask.
func (m *Machine) TruthTable() TruthTable {
	var t TruthTable
	conditions := m.conditions()
	for _, c := range conditions {
		t.Conditions = append(t.Conditions, c.words)
	}
	for _, a := range m.asks() {
		row := TruthRow{Ask: a.words}
		for _, c := range conditions {
			row.Comes = append(row.Comes, m.comes(c.way, a.way))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// conditions are those in which an ask may find the door, with all at rest.
func (m *Machine) conditions() []ask {
	all := []ask{{"as it is left", nil}}
	if m.hasDay {
		all = []ask{{"by day", nil}, {"by night", []event{{what: night}}}}
	}
	for i := range m.levers {
		if l := &m.levers[i]; l.kind == kept {
			words := " on"
			if l.role == opening.EnableSwitch {
				words = " off"
			}
			all = append(all, ask{m.name(l.dev) + words, []event{{press, uint8(i)}}})
		}
	}
	if m.hasAlarm {
		all = append(all, ask{"in alarm", []event{{what: alarm}}})
	}
	return append(all, ask{"mains lost", []event{{what: mainsFail}}})
}

// asks are what people do to get through.
func (m *Machine) asks() (all []ask) {
	for i := range m.levers {
		l := &m.levers[i]
		if l.kind != momentary || l.role == opening.RequestToExit {
			continue
		}
		name, press := m.name(l.dev), []event{{press, uint8(i)}, {letGo, uint8(i)}}
		all = append(all, ask{"press " + name, press})
		if l.side != opening.Outside {
			continue
		}
		for a := range m.accesses {
			card := event{credential, uint8(a)}
			all = append(all, ask{"credential to " + m.name(m.accesses[a].dev) + ", press " + name, slices.Concat([]event{card}, press)})
		}
	}
	for i := range m.Doors {
		all = append(all, ask{"go out by hand" + m.through(i), []event{{handOut, uint8(i)}}})
	}
	return all
}

// comes is what comes of an ask once all has come to rest in a condition.
func (m *Machine) comes(condition, way []event) (c Came) {
	s, _ := m.begin()
	for _, e := range condition {
		s, _ = m.next(s, e)
		s = m.runOn(s, nil, func(event, state) {})
	}
	before := s
	see := func(_ event, s state) {
		for i := range m.locks {
			if l := &m.locks[i]; s[l.slot] == free && before[l.slot] != free {
				c.Freed = with(c.Freed, m.name(l.dev))
			}
		}
		driven := 0
		for i := range m.drives {
			if d := &m.drives[i]; s[d.slot] == parting || s[d.slot] == widening || s[d.slot] == keeping || s[d.slot] == closing {
				c.Driven = with(c.Driven, m.name(d.dev))
				driven |= 1 << d.door
			}
		}
		for i := range m.Doors {
			if s[m.leafSlot+i] != shut && driven>>i&1 == 0 {
				c.ByHand = with(c.ByHand, m.Doors[i].ID)
			}
		}
	}
	for _, e := range way {
		s, _ = m.next(s, e)
		see(e, s)
	}
	m.runOn(s, nil, see)
	return c
}

// with is a list that has a name once.
func with(list []string, name string) []string {
	if slices.Contains(list, name) {
		return list
	}
	return append(list, name)
}
