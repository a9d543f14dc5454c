package logic

import (
	"fmt"
	"slices"
	"strings"

	"swingwright/opening"
)

// A Passage is one paragraph of the sequence of operation: what is done, and
// what comes of it, in plain sentences.
type Passage struct {
	When  string
	Then  []string
	Story *Story
}

// Sequence is the sequence of operation of a wiring: what comes of each thing
// that people, the panel and the mains can do, found by letting the machine run.
func Sequence(w *opening.Wiring, doors []Door) ([]Passage, error) {
	m, err := compile(w, doors, ticks[0], true)
	if err != nil {
		return nil, err
	}
	var ps []Passage
	add := func(when string, way ...event) {
		story := m.tell(m.unfold(way))
		made := 0
		if k := slices.IndexFunc(way, func(e event) bool { return e.what == quiet }); k >= 0 {
			made = len(m.unfold(way[:k+1]))
		}
		ps = append(ps, Passage{when, story.plain(made), story})
	}
	m.usual(add)
	m.unusual(add)
	return ps, nil
}

// These are no events: until lets time pass until the leaf is held open, quiet
// until all is at rest.
const (
	until happening = 254 + iota
	quiet
)

// usual are the passages of everyday.
func (m *Machine) usual(add func(when string, way ...event)) {
	for i := range m.levers {
		l := &m.levers[i]
		if l.kind != momentary || l.role == opening.RequestToExit {
			continue
		}
		name := m.name(l.dev)
		press := []event{{press, uint8(i)}, {letGo, uint8(i)}}
		switch {
		case l.side == opening.Outside && len(m.accesses) > 0:
			when, before := "Somebody", []event(nil)
			if m.hasDay {
				add("By day somebody presses "+name, press...)
				when, before = "By night somebody", []event{{what: night}, {what: quiet}}
			}
			add(when+" presses "+name+" without a credential", append(slices.Clone(before), press...)...)
			for a := range m.accesses {
				card := event{credential, uint8(a)}
				add(when+" shows a valid credential to "+m.name(m.accesses[a].dev)+" and presses "+name, append(append(slices.Clone(before), card), press...)...)
			}
		default:
			add("Somebody presses "+name, press...)
		}
	}
	for i := range m.Doors {
		add("Somebody goes out by hand"+m.through(i), event{handOut, uint8(i)})
	}
}

// unusual are those of alarm, power and switches.
func (m *Machine) unusual(add func(when string, way ...event)) {
	start := m.startEvent()
	if m.hasAlarm {
		add("The panel goes into alarm while the leaf is held open", append(start, event{what: until}, event{what: alarm})...)
		if len(start) > 0 {
			add("Somebody asks for the door in alarm, and the panel is reset", append(append([]event{{what: alarm}}, start...), event{what: reset})...)
		}
	}
	add("The mains fail while the leaf is held open, and come back", append(start, event{what: until}, event{what: mainsFail}, event{what: tick}, event{what: mainsReturn})...)
	for i := range m.levers {
		l := &m.levers[i]
		if l.kind == kept && len(start) > 0 {
			switch l.role {
			case opening.EnableSwitch:
				add(m.name(l.dev)+" is switched off, and somebody asks for the door", append([]event{{press, uint8(i)}}, start...)...)
			case opening.NightSwitch:
				add(m.name(l.dev)+" is turned on, and somebody inside asks for the door", append([]event{{press, uint8(i)}}, start...)...)
			}
		}
	}
	if m.hasDay {
		add("The day ends", event{what: night})
	}
}

// startEvent is a press from the inside, or whatever starts a drive.
func (m *Machine) startEvent() []event {
	for _, side := range []opening.DeviceSide{opening.Inside, "", opening.Between, opening.Outside} {
		for i := range m.levers {
			if l := &m.levers[i]; l.kind == momentary && l.side == side && l.role != opening.RequestToExit {
				return []event{{press, uint8(i)}, {letGo, uint8(i)}}
			}
		}
	}
	return nil
}

// unfold adds to a way what happens by itself: between its events where it says
// until, and after the last until all is at rest.
func (m *Machine) unfold(way []event) []event {
	s, _ := m.begin()
	var full []event
	keep := func(e event, _ state) { full = append(full, e) }
	for _, e := range way {
		switch e.what {
		case quiet:
			s = m.runOn(s, nil, keep)
		case until:
			s = m.runOn(s, m.keeps, keep)
		default:
			s, _ = m.next(s, e)
			full = append(full, e)
		}
	}
	m.runOn(s, nil, keep)
	return full
}

// keeps tells that a drive holds its leaf open.
func (m *Machine) keeps(s state) bool {
	return slices.ContainsFunc(m.drives, func(d drive) bool { return s[d.slot] == keeping })
}

// runOn lets happen what happens by itself until all is at rest, or stop says so
// before the next event, and shows each event with the state that it led to.
func (m *Machine) runOn(s state, stop func(state) bool, see func(event, state)) state {
	const longest = 1500 // events; a machine that never rests is a rule's matter
	for range longest {
		x := step{Machine: m, s: s, hand: -1}
		x.sense()
		events := x.byItself(nil)
		if len(events) == 0 || stop != nil && stop(s) {
			break
		}
		e := preferred(events)
		s, _ = m.next(s, e)
		see(e, s)
	}
	return s
}

// preferred lets time pass first, so that what is counted comes before what is
// of free length.
func preferred(events []event) event {
	for _, e := range events {
		if e.what == tick {
			return e
		}
	}
	return events[0]
}

// plain is the story in sentences, without the events that begin it: the first so
// many, which made the hour that it is told of, and the one that is done then, from
// which it counts. What happens at the same time stands together.
func (t *Story) plain(made int) []string {
	var lines []string
	moments := slices.Clone(t.Moments)
	moments = slices.DeleteFunc(moments, func(m Moment) bool { return m.Event <= made })
	last := ""
	for i, m := range moments {
		var parts []string
		if m.What != "" && i > 0 {
			parts = append(parts, lower(strings.TrimSuffix(m.What, ".")))
		}
		parts = append(parts, m.Changes...)
		if len(parts) == 0 || len(m.Changes) == 0 && (strings.HasSuffix(m.What, " is let go.") || strings.HasSuffix(m.What, " is pressed.")) {
			continue
		}
		when := "At once"
		if m.After {
			when = "Then"
		} else if at := m.At - moments[0].At; at > 0 {
			when = fmt.Sprintf("After %.1f s", float64(at))
		}
		told := strings.Join(parts, "; ") + "."
		if when == last && when != "Then" {
			k := len(lines) - 1
			lines[k] = strings.TrimSuffix(lines[k], ".") + "; " + told
		} else {
			lines = append(lines, when+": "+told)
		}
		last = when
	}
	if len(lines) == 0 {
		lines = []string{"Nothing happens."}
	}
	return lines
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

// A Cell is what a device does in one state of panel and mains.
type Cell struct{ Does, Should string }

// Right tells that it does what it should; nothing is demanded where Should is empty.
func (c Cell) Right() bool { return c.Should == "" || c.Does == c.Should }

// An AlarmRow is one device of the fire-alarm matrix.
type AlarmRow struct {
	Device, Door string
	Cells        []Cell // as AlarmColumns
}

// AlarmColumns are the states of panel and mains of the fire-alarm matrix.
var AlarmColumns = []string{"normal", "alarm", "silenced", "reset", "mains lost"}

// Alarmed tells that a fire alarm comes to the opening, or has to.
func (m *Machine) Alarmed() bool { return m.hasAlarm }

// AlarmMatrix is what each drive and lock does in each state of the panel, and
// what it should do.
func (m *Machine) AlarmMatrix() []AlarmRow {
	ways := [][]event{nil, {{what: alarm}}, {{what: alarm}, {what: silence}}, {{what: alarm}, {what: silence}, {what: reset}}, {{what: mainsFail}}}
	var rows []AlarmRow
	add := func(dev, door int, cell func(s state, column int) Cell) {
		r := AlarmRow{Device: m.name(dev), Door: m.Doors[door].ID}
		for c, way := range ways {
			s, _ := m.begin()
			for _, e := range way {
				s, _ = m.next(s, e)
			}
			for range 255 { // let what is on its way arrive
				s, _ = m.next(s, event{what: tick})
			}
			r.Cells = append(r.Cells, cell(s, c))
		}
		rows = append(rows, r)
	}
	for i := range m.drives {
		d := &m.drives[i]
		add(d.dev, d.door, func(s state, column int) Cell {
			c := Cell{Does: "off the leaf"}
			if s[d.slot+2]&readyBit != 0 {
				c.Does = "takes a start"
			}
			switch column {
			case 0, 3:
				c.Should = "takes a start"
			case 1, 2:
				if m.hasAlarm {
					c.Should = "off the leaf"
				}
			}
			return c
		})
	}
	for i := range m.locks {
		l := &m.locks[i]
		add(l.dev, l.door, func(s state, column int) Cell {
			c := Cell{Does: lockWords[s[l.slot]]}
			if column == 1 || column == 2 {
				switch {
				case l.magnet:
					c.Should = "free"
				case m.Doors[l.door].FireRated:
					c.Should = "locked"
				}
			}
			return c
		})
	}
	return rows
}

// A Connection is one terminal of the map of inputs and outputs.
type Connection struct {
	Device, Terminal string
	Function         opening.Function
	Of               string
	Normal           string   // open or closed, as everything is left; empty where neither
	To               []string // terminals at the other ends of its wires, with cable and conductor
}

// Connections is the map of inputs and outputs: every terminal that has a wire,
// in the order of the devices.
func (m *Machine) Connections() []Connection {
	s, _ := m.begin()
	x := step{Machine: m, s: s, hand: -1}
	x.sense()
	var list []Connection
	for i := range m.wiring.Devices {
		d := &m.wiring.Devices[i]
		for _, t := range d.Points() {
			c := Connection{Device: d.Name, Terminal: t.Name, Function: t.Function, Of: t.Of, Normal: x.normalOf(i, d, t)}
			end := d.Name + "." + t.Name
			for _, w := range m.wiring.Wires {
				other := ""
				switch end {
				case w.From:
					other = w.To
				case w.To:
					other = w.From
				default:
					continue
				}
				if note := strings.TrimSpace(w.Cable + " " + w.Conductor); note != "" {
					other += " (" + note + ")"
				}
				c.To = append(c.To, other)
			}
			if len(c.To) > 0 {
				list = append(list, c)
			}
		}
	}
	return list
}

func (x *step) normalOf(dev int, d *opening.Device, t opening.Terminal) string {
	end := d.Name + "." + t.Name
	for k := range x.contacts {
		by := &x.drivers[k]
		if c := &x.contacts[k]; strings.HasPrefix(c.name, d.Name+".") && strings.HasSuffix(c.name, " to "+t.Name) {
			if x.acts(by) != by.norm == by.no {
				return "closed"
			}
			return "open"
		}
	}
	for k := range x.senses {
		if n := &x.senses[k]; n.dev == dev && n.name == end {
			switch {
			case n.coil && x.made(k):
				return "powered"
			case n.coil:
				return "no power"
			case x.made(k):
				return "closed"
			}
			return "open"
		}
	}
	return ""
}
