package logic

import (
	"slices"
	"strings"

	"swingwright/opening"
)

// A Passage is one paragraph of the sequence of operation: what is done, and
// what comes of it, in plain sentences, with times counted from what is done.
type Passage struct {
	Part string // what it is about; those of one part follow each other
	When string
	Then []string
}

// The parts of a sequence of operation.
const (
	PowerUp   = "Power-up and rest"
	Everyday  = "Everyday use"
	OnAlarm   = "Fire alarm"
	PowerLoss = "Loss of power"
	Switches  = "Switches and schedule"
)

// Sequence is the sequence of operation of a wiring, as it is handed to whoever
// inspects it: power-up and rest, each thing that people, the panel and the mains can
// do, and what comes of it until all is at rest again, found by letting the machine
// run. The times of the leaves, in the order of the doors, put what they do in its
// place; where they are not known, it is told without a time.
func Sequence(w *opening.Wiring, doors []Door, leaves ...Times) ([]Passage, error) {
	m, err := compile(w, doors, ticks[0], true)
	if err != nil {
		return nil, err
	}
	s := sequence{m: m, leaves: leaves}
	s.power()
	s.everyday()
	s.alarm()
	s.loss()
	s.switches()
	return s.list, nil
}

// A sequence is one under way.
type sequence struct {
	m      *Machine
	leaves []Times
	list   []Passage
}

// These are no events: open lets time pass until a leaf is held open, shutting until
// one closes, quiet until all is at rest, some for two seconds; tellNow lets telling begin.
const (
	untilOpen happening = 250 + iota
	untilShutting
	quiet
	some
	tellNow
)

// add tells what comes of a way.
func (s *sequence) add(part, when string, way ...event) {
	c := newClock(s.m, s.leaves)
	if !slices.ContainsFunc(way, func(e event) bool { return e.what == tellNow }) {
		c.begins()
	}
	for _, e := range way {
		switch e.what {
		case tellNow:
			c.begins()
		case quiet:
			c.run(nil)
		case untilOpen:
			c.run(func(s state) bool { return c.any(s, keeping) })
		case untilShutting:
			c.run(func(s state) bool { return c.any(s, closing) })
		case some:
			c.pass(2)
		default:
			c.happens(e)
		}
	}
	c.run(nil)
	s.list = append(s.list, Passage{part, when, c.sentences()})
}

// power are the passages of power-up and rest.
func (s *sequence) power() {
	s.add(PowerUp, "The mains come on, with everything as it is left", event{what: mainsFail}, event{what: quiet}, event{what: tellNow}, event{what: mainsReturn})
	begin, _ := s.m.begin()
	if !s.m.hasDay {
		s.list = append(s.list, Passage{PowerUp, "With nobody doing anything", []string{s.m.standing(begin)}})
		return
	}
	s.list = append(s.list, Passage{PowerUp, "By day, with nobody doing anything", []string{s.m.standing(begin)}})
	night, _ := s.m.next(begin, event{what: night})
	night = s.m.runOn(night, nil, func(event, state) {})
	s.list = append(s.list, Passage{PowerUp, "By night, with nobody doing anything", []string{s.m.standing(night)}})
}

// whoWords are people by where they stand.
var whoWords = map[opening.DeviceSide]string{opening.Outside: "Somebody outside", opening.Inside: "Somebody inside", opening.Between: "Somebody between the doors"}

func who(side opening.DeviceSide) string {
	if w, known := whoWords[side]; known {
		return w
	}
	return "Somebody"
}

// everyday are the passages of everyday: each plate, each detector, each hand.
func (s *sequence) everyday() {
	m := s.m
	for i := range m.levers {
		l := &m.levers[i]
		if l.kind == momentary && l.role != opening.RequestToExit && l.role != opening.PresenceSensor {
			s.plate(i)
		}
	}
	start := m.startEvent()
	if len(start) > 0 {
		name := m.name(m.levers[start[0].of].dev)
		s.add(Everyday, name+" is pressed again while the leaf is held open", slices.Concat(start, []event{{what: untilOpen}, {what: some}, {what: tellNow}}, start)...)
		for i := range m.drives {
			s.add(Everyday, "Somebody pushes against the closing leaf"+m.ofDoor(m.drives[i].door), slices.Concat(s.opened(i), []event{{what: untilShutting}, {what: tellNow}, {pushClosing, uint8(i)}})...)
		}
	}
	for i := range m.levers {
		if m.levers[i].role == opening.PresenceSensor {
			s.add(Everyday, m.name(m.levers[i].dev)+" sees somebody for two seconds while the leaf is held open", slices.Concat(start, []event{{what: untilOpen}, {what: tellNow}, {press, uint8(i)}, {what: some}, {letGo, uint8(i)}})...)
		}
	}
	for i := range m.Doors {
		s.add(Everyday, "Somebody goes out by hand"+m.through(i), s.byHand(i)...)
	}
}

// opened are events after which a drive moves its leaf alone, or first.
func (s *sequence) opened(drive int) []event {
	m := s.m
	for i := range m.levers {
		l := &m.levers[i]
		if l.kind == momentary && l.role != opening.RequestToExit && l.role != opening.PresenceSensor && l.door == m.drives[drive].door && (l.side == opening.Inside || l.side == "") {
			return []event{{press, uint8(i)}, {letGo, uint8(i)}}
		}
	}
	return m.startEvent()
}

// join puts a sentence after what it begins with, if anything.
func join(at, does string) string {
	if at == "" {
		return does
	}
	return at + lower(does)
}

// byHand is somebody who goes out by hand, and is away after two seconds.
func (s *sequence) byHand(door int) []event {
	way := []event{{handOut, uint8(door)}, {what: some}}
	if slices.ContainsFunc(s.m.locks, func(l lock) bool { return l.magnet && l.door == door }) {
		way = append(way, event{handOut, uint8(door)}, event{what: some}) // once it has let go
	}
	for i := range s.m.levers {
		if l := &s.m.levers[i]; l.role == opening.RequestToExit && l.door == door && l.side == opening.Inside {
			way = append(way, event{letGo, uint8(i)})
		}
	}
	return way
}

// plate is what comes of a plate, with and without the right to come in.
func (s *sequence) plate(i int) {
	m := s.m
	l := &m.levers[i]
	does := who(l.side) + " presses " + m.name(l.dev)
	press := []event{{press, uint8(i)}, {letGo, uint8(i)}}
	if l.side != opening.Outside || len(m.accesses) == 0 {
		s.add(Everyday, does, press...)
		return
	}
	at, before := "", []event(nil)
	if m.hasDay {
		s.add(Everyday, "By day "+lower(does), press...)
		at, before = "By night ", []event{{what: night}, {what: quiet}, {what: tellNow}}
	}
	s.add(Everyday, join(at, does)+" without a credential", slices.Concat(before, press)...)
	for a := range m.accesses {
		s.add(Everyday, join(at, who(l.side))+" shows a valid credential to "+m.name(m.accesses[a].dev)+" and presses "+m.name(l.dev), slices.Concat(before, []event{{credential, uint8(a)}}, press)...)
	}
}

// alarm are the passages of the fire alarm.
func (s *sequence) alarm() {
	if !s.m.hasAlarm {
		return
	}
	start := s.m.startEvent()
	s.add(OnAlarm, "The panel goes into alarm at rest; then the sounders are silenced, and the panel is reset", event{what: alarm}, event{what: some}, event{what: silence}, event{what: some}, event{what: reset})
	if len(start) > 0 {
		s.add(OnAlarm, "The panel goes into alarm while the leaf is held open", slices.Concat(start, []event{{what: untilOpen}, {what: tellNow}, {what: alarm}})...)
		s.add(OnAlarm, "Somebody asks for the door in alarm, and the panel is reset", slices.Concat([]event{{what: alarm}, {what: quiet}, {what: tellNow}}, start, []event{{what: some}, {what: reset}})...)
	}
}

// loss are the passages of the loss of power.
func (s *sequence) loss() {
	start := s.m.startEvent()
	s.add(PowerLoss, "The mains fail at rest", event{what: mainsFail})
	if len(start) > 0 {
		s.add(PowerLoss, "The mains fail while the leaf is held open", slices.Concat(start, []event{{what: untilOpen}, {what: tellNow}, {what: mainsFail}})...)
		s.add(PowerLoss, "Somebody asks for the door without power, and the mains come back", slices.Concat([]event{{what: mainsFail}, {what: quiet}, {what: tellNow}}, start, []event{{what: some}, {what: mainsReturn}})...)
	}
	for i := range s.m.Doors {
		s.add(PowerLoss, "Somebody goes out by hand"+s.m.through(i)+" without power", slices.Concat([]event{{what: mainsFail}, {what: quiet}, {what: tellNow}}, s.byHand(i))...)
	}
}

// switches are the passages of switches that are left as they are turned, and of the day.
func (s *sequence) switches() {
	m := s.m
	start := m.startEvent()
	for i := range m.levers {
		l := &m.levers[i]
		if l.kind != kept || l.role == opening.PresenceSensor {
			continue
		}
		name, turn := m.name(l.dev), event{press, uint8(i)}
		switch {
		case l.role == opening.EnableSwitch && len(start) > 0:
			s.add(Switches, name+" is switched off, and somebody asks for the door", slices.Concat([]event{turn, {what: quiet}, {what: tellNow}}, start)...)
		case l.role == opening.NightSwitch && len(start) > 0:
			s.add(Switches, name+" is turned on, and somebody inside asks for the door", slices.Concat([]event{turn, {what: quiet}, {what: tellNow}}, start)...)
		case l.role == opening.HoldOpenSwitch, l.role == opening.KeySwitch:
			s.add(Switches, name+" is turned on, and off again", turn, event{what: quiet}, event{letGo, uint8(i)})
		}
	}
	if m.hasDay {
		s.add(Switches, "The day ends", event{what: night})
		s.add(Switches, "The day begins", event{what: night}, event{what: quiet}, event{what: tellNow}, event{what: day})
	}
}

// startEvent is a press from the inside, or whatever starts a drive.
func (m *Machine) startEvent() []event {
	for _, side := range []opening.DeviceSide{opening.Inside, "", opening.Between, opening.Outside} {
		for i := range m.levers {
			if l := &m.levers[i]; l.kind == momentary && l.side == side && l.role != opening.RequestToExit && l.role != opening.PresenceSensor {
				return []event{{press, uint8(i)}, {letGo, uint8(i)}}
			}
		}
	}
	return nil
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
