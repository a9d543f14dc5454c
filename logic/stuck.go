package logic

import "swingwright/opening"

// Bits of what keeps a latch from moving.
const (
	hung    byte = 1 << iota // it hangs, as dirt or a bent rod makes it
	leaning                  // the leaf leans on it, with all its preload
	wasHung                  // it did, and lets go late for that
	wasLeaning
)

// What stands against a latch now, and what did.
const (
	standing = hung | leaning
	stood    = wasHung | wasLeaning
)

// load finds out what may keep the latch of a lock from moving. One that is
// retracted may hang (common practice). One that presses on its strike may be held
// by that; whether it is hangs on what was gauged and what its paper allows, twice
// their spreads counted.
func (m *Machine) load(l *lock, d *opening.Device) {
	l.hangs = d.Kind == opening.SolenoidExit || d.Kind == opening.MotorExit
	if p := m.Doors[l.door].Preload; p.Known && d.PreloadMax.Known && !l.magnet {
		l.loads = true
		l.sticks = p.Value+2*p.U > d.PreloadMax.Value-2*d.PreloadMax.U
	}
	if l.hangs || l.sticks {
		l.stuckSlot = m.slot(1)
	}
}

// stuck is what keeps the latch of a lock from moving, now or until just now.
func (x *step) stuck(l *lock) byte {
	if l.stuckSlot < 0 {
		return 0
	}
	return x.s[l.stuckSlot]
}

// unload takes the load of the leaf off the locks of a door.
func (x *step) unload(door int) {
	for i := range x.locks {
		if l := &x.locks[i]; l.door == door && x.stuck(l)&leaning != 0 {
			x.loosen(l, leaning)
		}
	}
}

// loosen takes away what stood against a latch. One that was to let go begins now.
func (x *step) loosen(l *lock, how byte) {
	x.s[l.stuckSlot] &^= how
	if x.s[l.slot] == jammed {
		x.s[l.stuckSlot] |= how << 2
	}
}

// settled forgets what made a lock late, once it is free or locked again.
func (x *step) settled(l *lock) {
	if l.stuckSlot >= 0 {
		x.s[l.stuckSlot] &= standing
	}
}

// stick is a latch that begins to hang, or a leaf that begins to lean on it. What
// is asked for meanwhile need not come.
func (x *step) stick(i int, how byte) {
	x.s[x.locks[i].stuckSlot] |= how
	x.s[x.wantSlot], x.s[x.wantSlot+1], x.s[x.waySlot] = 0, 0, 0
}

// anyStuck tells that some latch cannot move, or is late because it could not.
func (x *step) anyStuck() bool {
	for i := range x.locks {
		if x.stuck(&x.locks[i]) != 0 {
			return true
		}
	}
	return false
}

// sticking lists how latches may begin, and cease, to be kept from moving: they
// begin only where they lie, behind a shut leaf.
func (x *step) sticking(events []event) []event {
	for i := range x.locks {
		l := &x.locks[i]
		is := x.stuck(l)
		for _, how := range []struct {
			may        bool
			bit        byte
			begins, is happening
		}{{l.hangs, hung, hangs, frees}, {l.sticks, leaning, leans, eases}} {
			switch {
			case !how.may:
			case is&how.bit != 0:
				events = append(events, event{how.is, uint8(i)})
			case x.s[l.slot] == locked && x.s[x.leafSlot+l.door] == shut:
				events = append(events, event{how.begins, uint8(i)})
			}
		}
	}
	return events
}

// heldBy is what keeps a lock of a door from being free: nothing that is stuck
// where it is not released at all.
func (x *step) heldBy(door int) byte {
	for i := range x.locks {
		switch l := &x.locks[i]; {
		case l.door != door:
		case x.s[l.slot] == jammed:
			return x.stuck(l) & standing
		case x.s[l.slot] == releasing && x.stuck(l)&stood != 0:
			return x.stuck(l) & stood >> 2
		}
	}
	return 0
}
