package logic

import (
	"fmt"
	"slices"
	"strings"

	"swingwright/opening"
	q "swingwright/quantity"
)

// symptom is what the technician would see of a broken rule, from how the story
// ends (common practice).
func (x *explored) symptom(r Rule, t *Story) string {
	m := x.Machine
	switch r {
	case ReleasedFirst:
		return m.symptomOfLock(t)
	case StaysReleased:
		return "The lock catches the leaf again as it leaves: it rattles and stops, or works once in three. The unlock pulse is too short, or cut off."
	case OutsideDead:
		if slices.ContainsFunc(m.drives, func(d drive) bool { return t.last[d.slot] != rest }) {
			return "Somebody outside presses, and the drive pushes the locked door, or opens it: strike damage, a fault beep, a forced-door alarm."
		}
		return "Somebody outside presses, and the lock lets them in without a credential."
	case InsideWorks:
		if m.neverReady() {
			return "The button never works: an input of the drive stands as in alarm or switched off. Normally open and normally closed may be swapped, or a link is missing."
		}
		return "The button inside does nothing at times."
	case NoDriveInAlarm:
		return m.symptomOfAlarm(t)
	case LatchesInAlarm:
		return "In alarm the fire door closes and does not latch: its lock stays released."
	case FreeInAlarm:
		if t.last[m.alarmSlot] == silenced {
			return "The door locks again as soon as the sounders are silenced, while people are still inside."
		}
		return "In alarm the magnet goes on holding."
	case NothingQueued:
		return "The panel is reset, and the door opens by itself."
	case NoSelfStart:
		return "The power comes back, or the motor is switched on again, and the door opens by itself."
	case Yields:
		return "The closing leaf presses on against somebody who pushes it."
	case MotorOff:
		return "The motor is switched off, and the leaf is driven all the same."
	case NightLock:
		return "The night lock is on, and the door still opens for somebody outside."
	case NoFalseAlarm:
		return "A forced-door alarm each time that somebody leaves rightly: the access controller is not told."
	case WayOut:
		return "Somebody inside cannot get out: the magnet holds and nothing they do releases it."
	case ComesToRest:
		return m.symptomOfUnrest(t)
	case NoShort:
		return "A supply is shorted by the contacts: it hums, its fuse goes, or it resets everything that it feeds."
	case NoChatter:
		return "A relay chatters: it takes away its own power as it acts."
	case RetractedFirst:
		return "The latch hangs, and the drive pushes the leaf against it: nothing in the wiring tells the drive that the latch is back. Lead its start through the latch's own monitor contact."
	case LetsGoLoaded:
		return "The leaf leans on its strike, wind or a seal behind it, and the strike cannot let go: it hums or clicks, the drive pushes, and stalls. Take the load off: line up latch and strike, or let the drive draw the leaf shut first."
	case LowBattery:
		return "Hours into a power cut: " + m.symptomOfFading(t)
	case InOrder:
		return "Whoever comes meets the second door first: it opens, and closes before they are there."
	}
	return "Somebody stands between two shut doors and the button there does nothing."
}

func (m *Machine) symptomOfLock(t *Story) string {
	for i := range m.locks {
		l := &m.locks[i]
		switch {
		case t.last[l.slot] == free:
			continue
		case l.dev < 0:
			return "The drive opens onto a locked door: nothing here releases the lock, whoever was to see to it."
		case t.last[l.slot] == releasing:
			return fmt.Sprintf("The leaf hits its latch, rattles and reverses: %s needs up to %.2g s to release, and %.1g s are kept over it; the drive does not wait that long.",
				m.name(l.dev), float64(l.worst), float64(marginOfRelease))
		case slices.ContainsFunc(t.Signals, func(s Signal) bool {
			return s.Name == m.name(l.dev) && slices.ContainsFunc(s.Levels, func(v Level) bool { return v.High > 0 })
		}):
			return fmt.Sprintf("It works once in three: the signal to %s ends before the leaf starts.", m.name(l.dev))
		case slices.ContainsFunc(m.drives, func(d drive) bool { return d.door == l.door && d.onDelay == 0 }):
			return fmt.Sprintf("The leaf hits its latch, rattles and reverses: the drive starts at once, and nothing has released %s by then.", m.name(l.dev))
		default:
			return fmt.Sprintf("The drive opens onto a locked door: nothing released %s.", m.name(l.dev))
		}
	}
	return "The leaf hits its latch."
}

func (m *Machine) symptomOfAlarm(t *Story) string {
	switch {
	case t.last[m.alarmSlot] == silenced:
		return "As soon as the sounders are silenced the door works again, though the panel is still in alarm."
	case slices.ContainsFunc(m.drives, func(d drive) bool {
		return slices.ContainsFunc(d.hold, func(i input) bool { return !i.bare && m.normal(i) })
	}):
		return "In alarm the fire door is held open by its drive."
	}
	return "The drive is never switched off in alarm: the button goes on opening the door. A link may be left in beside the alarm contact, or the contact is the wrong one of the two."
}

// normal tells an input that is in its normal state as everything is left.
func (m *Machine) normal(i input) bool {
	s, _ := m.begin()
	x := step{Machine: m, s: s, hand: -1}
	x.sense()
	return x.made(i.sense) != i.normalMade
}

// neverReady tells that some drive would not take a start as everything is left.
func (m *Machine) neverReady() bool {
	s, _ := m.begin()
	return slices.ContainsFunc(m.drives, func(d drive) bool { return s[d.slot+2]&readyBit == 0 })
}

func (m *Machine) symptomOfUnrest(t *Story) string {
	for i := range m.drives {
		d := &m.drives[i]
		switch t.last[d.slot] {
		case keeping:
			return "The door stays open though nobody asks for it."
		case rest, blocked:
		default:
			return "The door opens again and again by itself."
		}
	}
	for i := range m.locks {
		if l := &m.locks[i]; m.Doors[l.door].StaysLocked && t.last[l.slot] != locked {
			return fmt.Sprintf("%s stays released: the door shuts and anybody can open it.", m.name(l.dev))
		}
	}
	return "Something stays on for good though nobody asks for it."
}

// A Delay is what the drive of a door has to wait for its lock.
type Delay struct {
	Lock, Drive string
	Door        string // the opening that both are at
	Release     q.Time // the longest that the lock may take
	Measured    bool   // from tries; else from one value or what is usual
	Needed      q.Time // with the margin over it
	Set         q.Time // what the wiring gives between signal and start, at the least
	Known       bool   // whether Set was found
}

// Delays are the delays that the locks of a wiring ask for. The margin over the
// slowest release is common practice.
func Delays(w *opening.Wiring, doors []Door) ([]Delay, error) {
	m, err := compile(w, doors, ticks[0], true)
	if err != nil {
		return nil, err
	}
	var ds []Delay
	for i := range m.locks {
		l := &m.locks[i]
		if l.dev < 0 {
			continue
		}
		dev := &m.wiring.Devices[l.dev]
		for k := range m.drives {
			if d := &m.drives[k]; d.door == l.door {
				x := Delay{Lock: dev.Name, Drive: m.name(d.dev), Door: m.Doors[l.door].ID, Release: l.worst, Measured: len(dev.Tries) > 1, Needed: l.worst + marginOfRelease}
				x.Set, x.Known = m.delayBetween(l, d)
				ds = append(ds, x)
			}
		}
	}
	return ds, nil
}

// delayBetween is the least time from the signal at a lock until the drive
// starts, over the ways in which people can open the door.
func (m *Machine) delayBetween(l *lock, d *drive) (q.Time, bool) {
	least, found := 0, false
	for i := range m.levers {
		v := &m.levers[i]
		if v.kind != momentary || v.role == opening.RequestToExit {
			continue
		}
		for _, first := range append([]event{{what: press, of: uint8(i)}}, m.cards()...) {
			s, _ := m.begin()
			s, _ = m.next(s, event{night, 0})
			if s, _ = m.next(s, first); first.what == credential {
				s, _ = m.next(s, event{press, uint8(i)})
			}
			signal, start := -1, -1
			for at := 0; at < 255 && start < 0; at++ {
				if signal < 0 && s[l.slot] != locked {
					signal = at
				}
				if p := s[d.slot]; p == parting || p == blocked {
					start = at
				}
				s, _ = m.next(s, event{tick, 0})
			}
			if signal >= 0 && start >= signal && (!found || start-signal < least) {
				least, found = start-signal, true
			}
		}
	}
	return q.Time(least) * m.Tick, found
}

func (m *Machine) cards() (es []event) {
	for i := range m.accesses {
		es = append(es, event{credential, uint8(i)})
	}
	return es
}

// symptomOfFading is what one sees of a battery that runs low, from what gave up.
func (m *Machine) symptomOfFading(t *Story) string {
	var gone []string
	for i := range m.fading {
		if t.last[m.sagSlot]>>i&1 == 1 {
			gone = append(gone, m.fading[i].name)
		}
	}
	if slices.ContainsFunc(m.drives, func(d drive) bool { return t.last[d.slot] == blocked }) {
		return strings.Join(gone, " and ") + " no longer has enough, the drive still has: it pushes against the locked door, and that empties the battery."
	}
	return strings.Join(gone, " and ") + " no longer has enough, and what is left does what it should not."
}
