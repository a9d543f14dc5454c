package logic

import (
	"slices"

	"swingwright/opening"
)

// A state is everything that the future of a wiring hangs on, a byte for each
// thing that can differ.
type state [64]byte

// Phases of an output.
const (
	off     byte = iota
	delayed      // the signal is there, its delay runs
	on           // as long as the signal
	pulsing      // for its pulse
	pulsed       // for the rest of a pulse that is longer than counted
	holding      // after the signal, for its hold
	held         // for the rest of a hold that is longer than counted
	spent        // after its pulse, until the signal ends
)

// Phases of a lock.
const (
	locked byte = iota
	releasing
	free
	jammed // it is given power, or has lost it, to let go, and its latch cannot move
)

// Phases of a drive.
const (
	rest    byte = iota
	waiting      // it took a start and lets the lock release
	parting      // it drives the leaf, which is not yet clear of the strike
	widening
	keeping // it holds the leaf open
	closing
	blocked // it drove the leaf against its lock and gave up
)

// Places of a leaf.
const (
	shut byte = iota
	ajar      // not clear of the strike
	wide
)

// The surroundings.
const (
	noAlarm  byte = iota
	sounding      // the panel is in alarm and the sounders are on
	silenced      // the panel is in alarm and the sounders are off
)

// What prompted whatever runs, since all was at rest.
const (
	byInside byte = 1 << iota
	byCredential
	byOutside
	byBetween
	afterReset  // the panel was reset, and nobody did anything since
	afterReturn // the mains came back, and nobody did anything since
)

// What happens.
type happening uint8

// The sorts of event.
const (
	tick happening = iota
	ends           // something of free length ends
	press
	letGo
	credential
	alarm
	silence
	reset
	mainsFail
	mainsReturn
	night
	day
	pushClosing // somebody pushes against the closing leaf
	handOut     // somebody opens the leaf from the inside by hand
	hangs       // a latch begins to hang
	frees       // and ceases
	leans       // the leaf begins to lean on its lock
	eases       // and ceases
	sag         // something gives up as the standby battery runs low
)

// An event is one thing that happens; of is the lever, access controller, drive,
// output or door that it happens to.
type event struct {
	what happening
	of   uint8
}

// The things that can end by themselves at any time.
const (
	endOutput uint8 = 0   // and its number
	endDrive  uint8 = 64  // and its number
	endLeaf   uint8 = 128 // and its door: a leaf that nobody drives falls shut
)

// A step is one run of the machine from a state through an event.
type step struct {
	*Machine
	s    state
	out  outcome
	hand int // door that a hand opens from the inside, or -1
	bad  rules
}

// begin is the state in which everything stands as it is left, by day, with power.
func (m *Machine) begin() (state, rules) {
	x := step{Machine: m, hand: -1}
	x.s[m.mainsSlot], x.s[m.daySlot] = 1, 1
	x.settle()
	x.s[m.promptSlot] = 0
	return x.s, x.bad
}

// next is the state after an event, and the rules that it broke.
func (m *Machine) next(s state, e event) (state, rules) {
	x := step{Machine: m, s: s, hand: -1}
	x.happen(e)
	if m.sagSlot >= 0 && x.s[m.sagSlot] != 0 {
		x.bad <<= sagShift
	}
	x.calm()
	return x.s, x.bad
}

// on tells a bit of what was prompted.
func (x *step) prompted(by byte) bool { return x.s[x.promptSlot]&by != 0 }

func (x *step) prompt(by byte) {
	x.s[x.promptSlot] = x.s[x.promptSlot]&^(afterReset|afterReturn) | by
}

func (x *step) happen(e event) {
	s := &x.s
	x.sense()
	switch e.what {
	case tick:
		x.tick()
	case ends:
		x.end(e.of)
	case press:
		x.press(int(e.of))
	case letGo:
		x.letGo(int(e.of))
	case credential:
		s[x.accesses[e.of].slot] |= cardBit
		x.prompt(byCredential)
		x.settle()
		s[x.accesses[e.of].slot] &^= cardBit
	case alarm, silence, reset:
		x.alarm(e.what)
	case mainsFail, mainsReturn:
		x.mains(e.what)
	case night, day:
		s[x.daySlot] = 1
		if e.what == night {
			s[x.daySlot] = 0
			x.s[x.promptSlot] |= byCredential // what runs out now began by right
		}
	case pushClosing:
		x.pushClosing(int(e.of))
	case handOut:
		x.handOut(int(e.of))
	case hangs:
		x.stick(int(e.of), hung)
	case leans:
		x.stick(int(e.of), leaning)
	case frees:
		x.loosen(&x.locks[e.of], hung)
	case eases:
		x.loosen(&x.locks[e.of], leaning)
	case sag:
		x.sag(int(e.of))
	}
	x.settle()
}

// grace lets what is under way when a lock is set come to its end.
func (x *step) grace(by byte) {
	if !x.atRest() {
		x.s[x.promptSlot] |= by
	}
}

func (x *step) alarm(what happening) {
	x.patient()
	x.s[x.alarmSlot] = map[happening]byte{alarm: sounding, silence: silenced, reset: noAlarm}[what]
	x.s[x.wantSlot], x.s[x.wantSlot+1], x.s[x.waySlot] = 0, 0, 0
	if what == reset && !x.pressed() {
		x.s[x.promptSlot] |= afterReset
	}
}

func (x *step) mains(what happening) {
	x.s[x.wantSlot], x.s[x.wantSlot+1], x.s[x.waySlot] = 0, 0, 0
	x.patient()
	x.recharge()
	x.s[x.mainsSlot] = 0
	if what == mainsReturn {
		x.s[x.mainsSlot] = 1
		if !x.pressed() {
			x.s[x.promptSlot] |= afterReturn
		}
	}
}

// pressed tells that somebody is pressing something.
func (x *step) pressed() bool {
	for i := range x.levers {
		if l := &x.levers[i]; l.kind == momentary && x.s[l.slot] == 1 {
			return true
		}
	}
	return false
}

func (x *step) press(i int) {
	l := &x.levers[i]
	wasRest := x.atRest()
	x.s[l.slot] = 1
	if l.kind == kept {
		x.s[x.wantSlot], x.s[x.wantSlot+1], x.s[x.waySlot] = 0, 0, 0
		switch l.role {
		case opening.NightSwitch:
			x.grace(byInside)
		case opening.HoldOpenSwitch:
			x.prompt(byInside)
		case opening.KeySwitch:
			x.prompt(byCredential)
		}
		return
	}
	switch l.side {
	case opening.Outside:
		x.prompt(byOutside)
	case opening.Between:
		x.prompt(byBetween)
	default:
		x.prompt(byInside)
	}
	x.transmit(i)
	x.expect(i, l)
	x.wayOf(l, wasRest)
}

// transmit starts the receivers that a transmitter is learned to: each press is
// heard anew, however long another plate is pressed.
func (x *step) transmit(lever int) {
	for i := range x.outputs {
		if o := &x.outputs[i]; slices.Contains(o.radio, lever) && x.powered(o.power) {
			if x.act(o); o.onDelay > 0 {
				x.s[o.slot], x.s[o.slot+1] = delayed, byte(o.onDelay)
			}
		}
	}
}

// expect notes that a press from the inside, or between two doors, has to open a
// leaf, unless something stands against it that is meant to.
func (x *step) expect(i int, l *lever) {
	if l.side == opening.Outside || l.side == "" || l.role == opening.RequestToExit || x.s[x.wantSlot] != 0 ||
		x.s[x.mainsSlot] == 0 || x.s[x.alarmSlot] != noAlarm || len(x.drives) == 0 || x.anyStuck() {
		return
	}
	for k := range x.levers {
		switch o := &x.levers[k]; {
		case x.s[o.slot] == 0:
		case o.role == opening.EnableSwitch, o.role == opening.PresenceSensor:
			return
		case o.role == opening.NightSwitch && l.side == opening.Between:
			return
		}
	}
	x.s[x.wantSlot], x.s[x.wantSlot+1] = byte(x.want), byte(i)
}

// wayOf notes the way on which somebody sets out through a vestibule.
func (x *step) wayOf(l *lever, wasRest bool) {
	if !x.group {
		return
	}
	x.s[x.waySlot] = 0
	switch {
	case !wasRest:
	case l.side == opening.Outside && l.door == 0:
		x.s[x.waySlot] = 1
	case l.side == opening.Inside && l.door == len(x.Doors)-1:
		x.s[x.waySlot] = 2
	}
}

func (x *step) letGo(i int) {
	l := &x.levers[i]
	x.s[l.slot] = 0
	if l.kind == kept {
		x.s[x.wantSlot], x.s[x.wantSlot+1] = 0, 0
		if l.role == opening.EnableSwitch && !x.pressed() {
			x.s[x.promptSlot] |= afterReturn
		}
	}
	if l.role == opening.RequestToExit {
		x.s[x.outSlot], x.s[x.outSlot+1] = 0, 0
	}
}

// pushClosing is somebody who pushes against the closing leaf.
func (x *step) pushClosing(i int) {
	d := &x.drives[i]
	x.prompt(byInside)
	if !d.yields {
		x.bad |= rules(1) << Yields
		return
	}
	x.s[d.slot] = widening
}

// handOut is somebody who wants out by hand. A motion detector on the inside sees
// them. A leaf that no magnet holds opens, whatever its lock.
func (x *step) handOut(door int) {
	x.prompt(byInside)
	x.s[x.waySlot] = 0 // somebody else is on another way
	for i := range x.levers {
		if l := &x.levers[i]; l.role == opening.RequestToExit && l.door == door && l.side == opening.Inside {
			x.s[l.slot] = 1
		}
	}
	x.hand = door
	x.settle()
	if x.magnetHolds(door) {
		x.s[x.outSlot], x.s[x.outSlot+1] = byte(x.outTicks()), byte(door)
	} else {
		x.s[x.leafSlot+door] = wide
		for i := range x.locks {
			if l := &x.locks[i]; l.door == door && l.stuckSlot >= 0 {
				x.loosen(l, standing) // a hand draws the latch
			}
		}
		x.settle()
	}
	x.hand = -1
}

// patient lets somebody who waits at a magnet wait anew: what the mains and the
// panel do does not count against it.
func (x *step) patient() {
	if x.s[x.outSlot] > 0 {
		x.s[x.outSlot] = byte(x.outTicks())
	}
}

func (m *Machine) outTicks() int { return min(m.up(maxOut), 255) }

// maxOut is how long a magnet may hold somebody who asked to get out.
const maxOut = 1.0

func (x *step) magnetHolds(door int) bool {
	for i := range x.locks {
		if l := &x.locks[i]; l.magnet && l.door == door && x.s[l.slot] != free {
			return true
		}
	}
	return false
}

// end ends something of free length.
func (x *step) end(of uint8) {
	switch {
	case of >= endLeaf:
		x.s[x.leafSlot+int(of-endLeaf)] = shut
	case of >= endDrive:
		d := &x.drives[of-endDrive]
		switch x.s[d.slot] {
		case widening:
			x.s[d.slot] = keeping
		case keeping:
			x.s[d.slot] = closing
		case closing:
			x.s[d.slot], x.s[x.leafSlot+d.door] = rest, shut
		}
	default:
		x.over(&x.outputs[of])
	}
}

// over ends the pulse or the hold of an output.
func (x *step) over(o *output) {
	x.s[o.slot], x.s[o.slot+1] = off, 0
	if o.oneShot && x.signal(o) {
		x.s[o.slot] = spent
	}
}

// count takes one tick off a counter and tells that it has run out.
func (x *step) count(slot int) bool {
	if x.s[slot] > 0 {
		x.s[slot]--
	}
	return x.s[slot] == 0
}

// tick lets the least time pass. Locks come before drives: a lock that is free
// at the very moment is free.
func (x *step) tick() {
	s := &x.s
	for i := range x.locks {
		if l := &x.locks[i]; s[l.slot] == releasing && x.count(l.slot+1) {
			s[l.slot] = free
			x.settled(l)
		}
	}
	for i := range x.outputs {
		o := &x.outputs[i]
		switch s[o.slot] {
		case delayed:
			if x.count(o.slot + 1) {
				x.act(o)
			}
		case pulsing:
			if x.count(o.slot+1) && o.pulseFree {
				s[o.slot] = pulsed
			} else if s[o.slot+1] == 0 {
				x.over(o)
			}
		case holding:
			if x.count(o.slot+1) && o.holdFree {
				s[o.slot] = held
			} else if s[o.slot+1] == 0 {
				x.over(o)
			}
		}
	}
	for i := range x.drives {
		d := &x.drives[i]
		switch s[d.slot] {
		case waiting:
			if x.count(d.slot + 1) {
				x.part(i, d)
			}
		case parting:
			if x.count(d.slot + 1) {
				s[d.slot], s[x.leafSlot+d.door] = widening, wide
			}
		}
	}
	x.patience()
}

// patience runs down for those who wait for a leaf.
func (x *step) patience() {
	if x.s[x.wantSlot] > 0 && x.count(x.wantSlot) {
		rule := InsideWorks
		if x.levers[x.s[x.wantSlot+1]].side == opening.Between {
			rule = BetweenWorks
		}
		x.bad |= 1 << rule
		x.s[x.wantSlot+1] = 0
	}
	if x.s[x.outSlot] > 0 && x.count(x.outSlot) {
		x.s[x.outSlot+1] = 0
		x.bad |= 1 << WayOut
	}
}

// part starts the leaf: it has to be free.
func (x *step) part(i int, d *drive) {
	x.ordered(d.door)
	if x.s[x.leafSlot+d.door] != shut { // a hand was there first
		x.s[d.slot], x.s[d.slot+1], x.s[x.leafSlot+d.door] = widening, 0, wide
		return
	}
	if x.lockHolds(d.door) {
		switch by := x.heldBy(d.door); {
		case x.s[x.alarmSlot] != noAlarm: // in alarm it must not start at all
		case by&hung != 0:
			x.bad |= 1 << RetractedFirst
		case by&leaning != 0:
			x.bad |= 1 << LetsGoLoaded
		default:
			x.bad |= 1 << ReleasedFirst
		}
		x.s[d.slot], x.s[d.slot+1] = blocked, 0
		return
	}
	x.s[d.slot], x.s[d.slot+1], x.s[x.leafSlot+d.door] = parting, byte(d.clear), ajar
}

// lockHolds tells a lock of a door that is not free.
func (x *step) lockHolds(door int) bool {
	for i := range x.locks {
		if l := &x.locks[i]; l.door == door && x.s[l.slot] != free {
			return true
		}
	}
	return false
}

// ordered notes which door of a vestibule starts, and whether it is its turn.
func (x *step) ordered(door int) {
	const started = 4
	way := x.s[x.waySlot]
	if way == 0 {
		return
	}
	first := 0
	if way&2 != 0 {
		first = len(x.Doors) - 1
	}
	if door == first {
		x.s[x.waySlot] |= started
	} else if way&started == 0 {
		x.bad |= 1 << InOrder
		x.s[x.waySlot] = 0
	}
}
