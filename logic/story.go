package logic

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"swingwright/opening"
	q "swingwright/quantity"
)

// A Story is one order of events and what came of it.
type Story struct {
	Moments []Moment
	Events  int // how many there are, each tick counted
	Length  q.Time
	Signals []Signal
	last    state
	hand    bool
}

// A Moment is an event and what changed by it.
type Moment struct {
	At      q.Time
	What    string   // what happened, as a sentence; empty for the passing of time
	After   bool     // something of free length ended before or now, so that At counts only what was counted
	Event   int      // its number, counted from 1, ticks too
	Changes []string // what changed by it
}

// story follows the way to the first breach of a rule.
func (x *explored) story(b breach) *Story {
	var way []event
	for i := b.from; i >= 0; i = x.parent[i] {
		if i == b.from && b.from >= 0 {
			way = append(way, b.via)
		}
		if x.parent[i] >= 0 {
			way = append(way, x.via[i])
		}
	}
	slices.Reverse(way)
	return x.tell(way)
}

// tell runs the machine through events.
func (m *Machine) tell(way []event) *Story {
	t := &Story{Events: len(way)}
	s, _ := m.begin()
	t.record(m, s, 0)
	at, after := 0, false
	for i, e := range way {
		next, _ := m.next(s, e)
		if e.what == tick {
			at++
		}
		after = after || e.what == ends
		changes := m.changes(s, next, e)
		what := m.words(e, s)
		now := q.Time(at) * m.Tick
		if what != "" || len(changes) > 0 {
			t.Moments = append(t.Moments, Moment{now, what, after, i + 1, changes})
		}
		s = next
		t.record(m, s, at)
	}
	t.Length, t.last = q.Time(at)*m.Tick, s
	t.hand = len(way) > 0 && way[len(way)-1].what == handOut
	return t
}

func (m *Machine) name(dev int) string {
	if dev < 0 {
		return "the lock"
	}
	return m.wiring.Devices[dev].Name
}

// ofDoor is " of 103" where there are several doors.
func (m *Machine) ofDoor(door int) string {
	if !m.group {
		return ""
	}
	return " of " + m.Doors[door].ID
}

// words says what happens in an event.
func (m *Machine) words(e event, s state) string {
	i := int(e.of)
	switch e.what {
	case ends:
		return m.ending(e.of, s)
	case press, letGo:
		return m.leverWords(i, e.what == press)
	case credential:
		return "A valid credential is shown to " + m.name(m.accesses[i].dev) + "."
	case alarm:
		return "The fire-alarm panel goes into alarm."
	case silence:
		return "The sounders are silenced; the panel stays in alarm."
	case reset:
		return "The panel is reset."
	case mainsFail:
		return "The mains fail."
	case mainsReturn:
		return "The mains come back."
	case night:
		return "The day ends: the schedule locks the door."
	case day:
		return "The day begins: the schedule frees the door."
	case pushClosing:
		return "Somebody pushes against the closing leaf" + m.ofDoor(m.drives[i].door) + "."
	case handOut:
		return "Somebody goes out by hand" + m.through(i) + "."
	case hangs:
		return "The latch of " + m.name(m.locks[i].dev) + " hangs."
	case frees:
		return "The latch of " + m.name(m.locks[i].dev) + " hangs no more."
	case leans:
		return "The leaf leans on " + m.name(m.locks[i].dev) + "."
	case eases:
		return "The leaf leans on " + m.name(m.locks[i].dev) + " no more."
	case sag:
		return "The standby battery runs low, and " + m.fading[i].name + m.givesUp(i) + "."
	}
	return ""
}

func (m *Machine) through(door int) string {
	if !m.group {
		return ""
	}
	return " through " + m.Doors[door].ID
}

func (m *Machine) leverWords(i int, on bool) string {
	l := &m.levers[i]
	name := m.name(l.dev)
	verb := "is let go"
	switch {
	case l.role == opening.EnableSwitch && on:
		verb = "is switched off"
	case l.role == opening.EnableSwitch:
		verb = "is switched on again"
	case l.role == opening.PresenceSensor && on:
		verb = "sees somebody"
	case l.role == opening.PresenceSensor:
		verb = "sees nobody any more"
	case l.kind == kept && on:
		verb = "is turned on"
	case l.kind == kept:
		verb = "is turned off"
	case l.role == opening.RequestToExit && on:
		verb = "sees somebody who wants out"
	case l.role == opening.RequestToExit:
		verb = "sees nobody any more"
	case on:
		verb = "is pressed"
	}
	return fmt.Sprintf("%s %s.", name, verb)
}

func (m *Machine) ending(of uint8, s state) string {
	switch {
	case of >= endLeaf:
		return "The closer shuts the leaf" + m.ofDoor(int(of-endLeaf)) + "."
	case of >= endDrive:
		d := &m.drives[of-endDrive]
		switch s[d.slot] {
		case widening:
			return "The leaf" + m.ofDoor(d.door) + " stands fully open."
		case keeping:
			return "The hold time ends."
		}
		return "The leaf" + m.ofDoor(d.door) + " is shut."
	}
	o := &m.outputs[of]
	return "The time of " + m.outputName(o) + " ends."
}

func (m *Machine) outputName(o *output) string {
	return strings.TrimSpace(m.name(o.dev) + " " + o.name)
}

// changes says what a step changed, apart from the event itself.
func (m *Machine) changes(a, b state, e event) (lines []string) {
	say := func(format string, args ...any) { lines = append(lines, fmt.Sprintf(format, args...)) }
	for i := range m.outputs {
		o := &m.outputs[i]
		was, is := acting(a[o.slot]), acting(b[o.slot])
		switch {
		case is && !was:
			say("%s acts", m.outputName(o))
		case was && !is:
			say("%s falls off", m.outputName(o))
		case b[o.slot] == delayed && a[o.slot] != delayed:
			say("the delay of %s begins", m.outputName(o))
		}
	}
	for i := range m.locks {
		l := &m.locks[i]
		if was, is := a[l.slot], b[l.slot]; was != is {
			say("%s %s", m.name(l.dev), map[byte]string{locked: "is locked", releasing: "begins to release", free: "is free", jammed: "is to let go, and cannot"}[is])
		}
	}
	for i := range m.drives {
		d := &m.drives[i]
		if was, is := a[d.slot], b[d.slot]; was != is && !(e.what == ends && e.of == endDrive+uint8(i)) {
			say("%s %s", m.name(d.dev), driveWords[is])
		}
	}
	for i := range m.accesses {
		x := &m.accesses[i]
		if b[x.slot]&forcedBit != 0 && a[x.slot]&forcedBit == 0 {
			say("%s tells a forced door", m.name(x.dev))
		}
	}
	return lines
}

var driveWords = map[byte]string{
	rest: "stops", waiting: "takes the start and waits for the lock", parting: "starts the leaf",
	widening: "opens the leaf", keeping: "holds the leaf open", closing: "lets the leaf close", blocked: "pushes the leaf against the lock and gives up",
}

var lockWords = [...]string{locked: "locked", releasing: "releasing", free: "free", jammed: "cannot let go"}

// givesUp is the verb to one or several.
func (m *Machine) givesUp(i int) string {
	if m.fading[i].name == controlName {
		return " give up"
	}
	return " gives up"
}

func acting(p byte) bool {
	switch p {
	case on, pulsing, pulsed, holding, held:
		return true
	}
	return false
}

// A Signal is one line of a timing diagram: the state of something after each
// event, the state before the first one coming first.
type Signal struct {
	Name   string
	Levels []Level
}

// A Level is a state from one event to the next.
type Level struct {
	At   q.Time
	High int // 0 to 2
	Word string
}

// record notes the state of everything after an event.
func (t *Story) record(m *Machine, s state, at int) {
	i := 0
	note := func(name string, high byte, words string) {
		if i == len(t.Signals) {
			t.Signals = append(t.Signals, Signal{Name: name})
		}
		t.Signals[i].Levels = append(t.Signals[i].Levels, Level{q.Time(at) * m.Tick, int(high), words})
		i++
	}
	if m.hasAlarm {
		note("fire-alarm panel", min(s[m.alarmSlot], 1), [...]string{"normal", "alarm", "silenced"}[s[m.alarmSlot]])
	}
	note("mains", s[m.mainsSlot], onOff(s[m.mainsSlot], "on", "off"))
	if m.hasDay {
		note("schedule", s[m.daySlot], onOff(s[m.daySlot], "day", "night"))
	}
	for k := range m.levers {
		note(m.name(m.levers[k].dev), s[m.levers[k].slot], "")
	}
	for k := range m.outputs {
		if o := &m.outputs[k]; o.power != none {
			high := byte(0)
			if acting(s[o.slot]) {
				high = 1
			}
			note(m.outputName(o), high, onOff(high, "", onOff(b2(s[o.slot] == delayed), "delay", "")))
		}
	}
	for k := range m.locks {
		l := &m.locks[k]
		note(m.name(l.dev), [...]byte{0, 1, 2, 0}[s[l.slot]], lockWords[s[l.slot]])
	}
	for k := range m.drives {
		d := &m.drives[k]
		high := byte(0)
		switch s[d.slot] {
		case parting, widening, keeping:
			high = 2
		case waiting, closing:
			high = 1
		}
		note(m.name(d.dev), high, [...]string{"rest", "waits", "starts", "opens", "holds", "closes", "blocked"}[s[d.slot]])
	}
	for k := range m.Doors {
		note("leaf"+m.ofDoor(k), min(s[m.leafSlot+k], 2), [...]string{"shut", "ajar", "open"}[s[m.leafSlot+k]])
	}
}

func b2(b bool) byte {
	if b {
		return 1
	}
	return 0
}

func onOff(high byte, yes, no string) string {
	if high > 0 {
		return yes
	}
	return no
}

// Text is the story as lines, times in the first column.
func (t *Story) Text() []string {
	var lines []string
	for _, m := range t.Moments {
		what := cmp.Or(m.What, "Time passes.")
		line := fmt.Sprintf("%.1f s  %s", float64(m.At), upper(what))
		if len(m.Changes) > 0 {
			line += " " + sentence(m.Changes)
		}
		lines = append(lines, line)
	}
	return lines
}

// sentence joins clauses.
func sentence(parts []string) string {
	return upper(strings.Join(parts, "; ")) + "."
}

// upper begins a sentence.
func upper(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
