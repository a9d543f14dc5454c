package logic

import (
	"swingwright/opening"
)

// Bits of an access controller's byte.
const (
	cardBit   byte = 1 << iota // a valid credential is being shown
	openBit                    // its position input told an open leaf
	forcedBit                  // it tells a forced door
)

// mostRounds in which contacts and coils must come to agree. Each settled relay
// takes one; more than that chatters like a bell.
const mostRounds = 24

// settle lets everything that takes no time happen, until nothing changes.
func (x *step) settle() {
	for range mostRounds {
		before := x.s
		x.sense()
		for i := range x.accesses {
			x.watch(&x.accesses[i])
		}
		for i := range x.drives {
			x.drive(i)
		}
		for i := range x.outputs {
			x.output(&x.outputs[i])
		}
		for i := range x.locks {
			x.lock(&x.locks[i])
		}
		if x.s == before {
			x.hold()
			return
		}
	}
	x.bad |= 1 << NoChatter
	x.hold()
}

// sense works out what is energized and what is made. A switch that needs power
// acts only while it has some, which is known only once that is worked out.
func (x *step) sense() {
	x.senseOnce()
	for range x.sensing {
		before := x.out.made
		if x.senseOnce(); x.out.made == before {
			break
		}
	}
}

func (x *step) senseOnce() {
	var at condition
	for i := range x.contacts {
		if d := &x.drivers[i]; x.acts(d) != d.norm == d.no {
			at.closed |= 1 << i
		}
	}
	live := x.livePower(0)
	for { // a device that passes power on is live only with power of its own
		at.live = live
		x.out = x.solve(at)
		x.out.made &^= x.sagged()
		if live = x.livePower(x.out.made); live|at.live == at.live {
			break
		}
		live |= at.live
	}
	if x.out.short != 0 {
		x.bad |= 1 << NoShort
	}
}

func (x *step) livePower(made uint64) (live uint64) {
	for i := range x.feed {
		f := &x.feed[i]
		if f.battery || f.mains && x.s[x.mainsSlot] == 1 || f.sense >= 0 && made>>f.sense&1 == 1 {
			live |= 1 << i
		}
	}
	return live
}

// acts tells whether what works a contact acts.
func (x *step) acts(d *driver) bool {
	switch d.kind {
	case 'k':
		return x.s[x.locks[d.index].slot] == free
	case 'l':
		l := &x.levers[d.index]
		return x.s[l.slot] == 1 && (l.sensed < 0 || x.made(l.sensed))
	case 'o':
		switch x.s[x.outputs[d.index].slot] {
		case on, pulsing, pulsed, holding, held:
			return true
		}
		return false
	case 'p':
		return x.s[x.leafSlot+d.index] != shut
	case 'a':
		return x.s[x.alarmSlot] != noAlarm
	case 's':
		return x.s[x.alarmSlot] == sounding
	}
	return x.hand == d.index
}

func (x *step) made(sense int) bool { return sense >= 0 && x.out.made>>sense&1 == 1 }

// asserted tells an input that is not as it wants to be left; one to which
// nothing is connected is as delivered.
func (x *step) asserted(in []input) bool {
	for _, i := range in {
		if !i.bare && x.made(i.sense) != i.normalMade {
			return true
		}
	}
	return false
}

// powered tells a device whose power is the sense.
func (x *step) powered(sense int) bool { return sense == -1 || sense >= 0 && x.made(sense) }

// watch lets an access controller see whether the door was forced.
func (x *step) watch(a *access) {
	b := &x.s[a.slot]
	if !x.powered(a.power) {
		*b = *b&cardBit | openBit // it takes the leaf as it finds it when its power comes back
		return
	}
	open := x.asserted(a.position)
	if open && *b&openBit == 0 && !x.expects(a) {
		*b |= forcedBit
		if x.prompted(byInside|byCredential) || x.hand >= 0 || x.authorized() {
			x.bad |= 1 << NoFalseAlarm
		}
	}
	if *b |= openBit; !open {
		*b &^= openBit | forcedBit
	}
}

// expects tells that an access controller has reason to expect an open leaf.
func (x *step) expects(a *access) bool {
	if x.s[a.slot]&cardBit != 0 || x.asserted(a.exit) || a.schedule && x.s[x.daySlot] == 1 {
		return true
	}
	for i := range x.outputs {
		o := &x.outputs[i]
		if o.dev != a.dev || o.follows == opening.FollowsForced {
			continue
		}
		if p := x.s[o.slot]; p != off && p != spent {
			return true
		}
	}
	return false
}

// authorized tells that somebody who may has turned a key or holds a leaf open.
func (x *step) authorized() bool {
	for i := range x.levers {
		if l := &x.levers[i]; (l.role == opening.KeySwitch || l.role == opening.HoldOpenSwitch) && x.s[l.slot] == 1 {
			return true
		}
	}
	return false
}

// signal tells whether what an output follows is there.
func (x *step) signal(o *output) bool {
	switch o.follows {
	case opening.FollowsStart:
		p := x.s[x.drives[o.trigger].slot]
		return p == waiting || p == parting || p == widening
	case opening.FollowsMoving:
		p := x.s[x.drives[o.trigger].slot]
		return p == parting || p == widening
	case opening.FollowsOpen:
		return x.s[x.leafSlot+o.door] != shut
	case opening.FollowsCredential, opening.FollowsExit, opening.FollowsRelease:
		a := &x.accesses[o.trigger]
		let := x.s[a.slot]&cardBit != 0 || a.schedule && x.s[x.daySlot] == 1
		out := x.asserted(a.exit)
		return let && o.follows != opening.FollowsExit || out && o.follows != opening.FollowsCredential
	case opening.FollowsForced:
		return x.s[x.accesses[o.trigger].slot]&forcedBit != 0
	}
	return x.made(o.trigger)
}

// act makes an output act after its delay.
func (x *step) act(o *output) {
	x.s[o.slot], x.s[o.slot+1] = on, 0
	if o.oneShot && o.pulse > 0 {
		x.s[o.slot], x.s[o.slot+1] = pulsing, byte(o.pulse)
	}
}

func (x *step) output(o *output) {
	p := &x.s[o.slot]
	if !x.powered(o.power) {
		x.s[o.slot], x.s[o.slot+1] = off, 0
		return
	}
	in := x.signal(o)
	switch {
	case *p == off && in:
		if o.onDelay == 0 {
			x.act(o)
			return
		}
		x.s[o.slot], x.s[o.slot+1] = delayed, byte(o.onDelay)
	case *p == delayed && !in && o.pulse == 0, *p == spent && !in:
		x.s[o.slot], x.s[o.slot+1] = off, 0
	case *p == on && !in:
		switch {
		case o.pulse > 0:
			x.s[o.slot], x.s[o.slot+1] = pulsing, byte(o.pulse)
		case o.hold > 0:
			x.s[o.slot], x.s[o.slot+1] = holding, byte(o.hold)
		default:
			*p = off
		}
	case in && (*p == holding || *p == held || !o.oneShot && (*p == pulsing || *p == pulsed)):
		x.s[o.slot], x.s[o.slot+1] = on, 0
	}
}

func (x *step) lock(l *lock) {
	wants := x.made(l.coil) != l.safe
	p := &x.s[l.slot]
	switch {
	case !wants:
		x.s[l.slot], x.s[l.slot+1] = locked, 0
		x.settled(l)
	case *p == locked && x.stuck(l)&standing != 0:
		*p = jammed
	case *p == jammed && x.stuck(l)&standing != 0:
	case (*p == locked || *p == jammed) && l.release > 0:
		x.s[l.slot], x.s[l.slot+1] = releasing, byte(min(l.release, 255))
	case *p == locked || *p == jammed:
		*p = free
	}
}

// Bits of a drive's memory.
const (
	startBit byte = 1 << iota // its start contact was made
	readyBit                  // it would have taken a start
)

func (x *step) drive(i int) {
	d := &x.drives[i]
	p, memory := &x.s[d.slot], &x.s[d.slot+2]
	start := x.asserted(d.start)
	ready := x.powered(d.power) && (!d.line || x.s[x.mainsSlot] == 1) && !x.asserted(d.enable) && !x.asserted(d.alarm)
	edge := start && *memory == readyBit
	*memory = 0
	if start {
		*memory |= startBit
	}
	if !ready {
		x.s[d.slot], x.s[d.slot+1] = rest, 0
		return
	}
	*memory |= readyBit
	hold := x.asserted(d.hold)
	if start || hold {
		x.wanted(d)
	}
	goes := edge || d.level && start || hold
	switch {
	case *p == blocked && !start && !hold:
		*p = rest
	case goes && (*p == rest || *p == closing) && !(x.asserted(d.safety) && x.s[x.leafSlot+d.door] == shut):
		x.take(i, d)
	}
}

// wanted tells those who wait for a leaf that its drive heard them.
func (x *step) wanted(d *drive) {
	if x.s[x.wantSlot] == 0 {
		return
	}
	if l := &x.levers[x.s[x.wantSlot+1]]; l.door == d.door || l.side == opening.Between || x.group {
		x.s[x.wantSlot], x.s[x.wantSlot+1] = 0, 0
	}
}

// take takes a start.
func (x *step) take(i int, d *drive) {
	x.allowed(d)
	if d.unloads {
		x.unload(d.door)
	}
	switch {
	case x.s[x.leafSlot+d.door] != shut:
		x.ordered(d.door)
		x.s[d.slot], x.s[x.leafSlot+d.door] = widening, wide
	case d.onDelay == 0:
		x.part(i, d)
	default:
		x.s[d.slot], x.s[d.slot+1] = waiting, byte(min(d.onDelay, 255))
	}
}

// allowed notes a start that nobody who may asked for.
func (x *step) allowed(d *drive) {
	switch {
	case x.prompted(afterReset):
		x.bad |= 1 << NothingQueued
	case x.prompted(afterReturn):
		x.bad |= 1 << NoSelfStart
	}
	if x.prompted(byOutside|byBetween) && !x.mayEnter(d.door) {
		x.bad |= 1 << OutsideDead
	}
	if !x.prompted(byInside) && x.prompted(byOutside|byCredential) && x.nightLocked(d.door) {
		x.bad |= 1 << NightLock
	}
}

// mayEnter tells that somebody may come in at a door: it is not kept locked, or
// it is day, or somebody with the right to it asked.
func (x *step) mayEnter(door int) bool {
	between := byte(0)
	if door == 0 && x.group {
		between = byBetween // from between the doors one goes out through the outer one
	}
	return !x.Doors[door].StaysLocked || x.hasDay && x.s[x.daySlot] == 1 || x.prompted(byInside|byCredential|between) || x.authorized()
}

func (x *step) nightLocked(door int) bool {
	for i := range x.levers {
		if l := &x.levers[i]; l.role == opening.NightSwitch && x.s[l.slot] == 1 && (l.door == door || x.group) {
			return true
		}
	}
	return false
}

// hold holds the rules against a settled state.
func (x *step) hold() {
	s := &x.s
	for i := range x.drives {
		d := &x.drives[i]
		p := s[d.slot]
		driven := p == parting || p == widening || p == keeping
		if driven && s[x.alarmSlot] != noAlarm {
			x.bad |= 1 << NoDriveInAlarm
		}
		if driven && x.switchedOff(d.door) {
			x.bad |= 1 << MotorOff
		}
		if p == parting && x.lockHolds(d.door) && s[x.alarmSlot] == noAlarm {
			x.bad |= 1 << StaysReleased
		}
	}
	if s[x.outSlot] > 0 && !x.magnetHolds(int(s[x.outSlot+1])) {
		s[x.outSlot], s[x.outSlot+1] = 0, 0
	}
	quiet := x.idle() && !x.pressed() && x.drivesRest()
	for i := range x.locks {
		l := &x.locks[i]
		door := &x.Doors[l.door]
		alarmed := s[x.alarmSlot] != noAlarm
		if l.magnet && alarmed && s[l.slot] == locked {
			x.bad |= 1 << FreeInAlarm
		}
		if !l.magnet && door.FireRated && alarmed && quiet && s[x.leafSlot+l.door] == shut && s[l.slot] != locked {
			x.bad |= 1 << LatchesInAlarm
		}
		if s[l.slot] == free && x.prompted(byOutside|byBetween) && !x.mayEnter(l.door) && !alarmed && s[x.mainsSlot] == 1 {
			x.bad |= 1 << OutsideDead
		}
	}
}

// switchedOff tells that somebody took the motor off the leaf.
func (x *step) switchedOff(door int) bool {
	for i := range x.levers {
		if l := &x.levers[i]; l.role == opening.EnableSwitch && l.door == door && x.s[l.slot] == 1 {
			return true
		}
	}
	return false
}

// idle tells that nothing runs: no delay, pulse or hold, and no lock on its way.
func (x *step) idle() bool {
	for i := range x.outputs {
		switch o := &x.outputs[i]; x.s[o.slot] {
		case delayed, pulsing, pulsed, holding, held:
			return false
		}
	}
	for i := range x.locks {
		if x.s[x.locks[i].slot] == releasing {
			return false
		}
	}
	for i := range x.accesses {
		if x.s[x.accesses[i].slot]&cardBit != 0 {
			return false
		}
	}
	return true
}

// atRest tells that all is as it is left: the leaf shut, its drive at rest, no
// time running, nobody pressing.
func (x *step) atRest() bool {
	if !x.drivesRest() {
		return false
	}
	for i := range x.Doors {
		if x.s[x.leafSlot+i] != shut {
			return false
		}
	}
	return x.idle() && !x.pressed()
}

func (x *step) drivesRest() bool {
	for i := range x.drives {
		if p := x.s[x.drives[i].slot]; p != rest && p != blocked {
			return false
		}
	}
	return true
}

// calm forgets what prompted things once all is at rest.
func (x *step) calm() {
	if x.atRest() {
		x.s[x.promptSlot], x.s[x.waySlot] = 0, 0
		if x.sagSlot >= 0 {
			x.s[x.sagSlot] &^= wasLow
		}
	}
}

// rules is a set of rules that were broken: those that are while the standby battery
// runs low stand sagShift higher.
type rules uint64

const sagShift = 32
