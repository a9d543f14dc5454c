package logic

import (
	"slices"

	"swingwright/opening"
)

// Rule is one of the rules that a wiring has to keep, whatever happens in
// whatever order.
type Rule uint8

// The rules. They are the interlocks that the trade wires for (common practice);
// those of the alarm follow NFPA 80-2016, 6.1.3 and 6.4.4.3, and NFPA 80-2010,
// 6.1.4, and those of egress IBC 1010, as far as they are known second-hand.
const (
	ReleasedFirst  Rule = iota // a lock is free before the leaf is driven
	StaysReleased              // and stays so until the leaf is clear of it
	OutsideDead                // the outside opens nothing that is locked
	InsideWorks                // the inside always opens
	NoDriveInAlarm             // no motor while the panel is in alarm
	LatchesInAlarm             // a fire door is left latched in alarm
	FreeInAlarm                // magnets let go in alarm
	NothingQueued              // nothing opens by itself after the panel's reset
	NoSelfStart                // nor when the mains come back
	Yields                     // somebody who pushes a closing leaf is not fought
	MotorOff                   // a leaf whose motor is switched off is left to the hand
	NightLock                  // at night the outside does nothing
	NoFalseAlarm               // nobody who leaves or enters rightly is taken for a burglar
	WayOut                     // one gets out by hand in every state
	ComesToRest                // every state comes to rest in the end
	NoShort                    // no order of contacts shorts a source
	NoChatter                  // contacts and coils agree
	InOrder                    // the doors of a vestibule start in order of the way
	BetweenWorks               // nobody is trapped between two doors
	RetractedFirst             // a latch that hangs is not driven against
	LetsGoLoaded               // a lock lets go though the leaf leans on it
	LowBattery                 // all of this holds as the standby battery runs low
	ruleCount
)

// The rules that people followed through a vestibule in time show; see Walk.
const (
	NotTrapped  = ruleCount + iota // nobody is left between two doors that neither plate nor hand opens
	BothServed                     // nobody has to go by hand, the second of two neither
	ClearOfLeaf                    // no leaf closes on them
	allRules
)

// A ruleText is what people read of a rule.
type ruleText struct{ key, says string }

var ruleTexts = [allRules]ruleText{
	ReleasedFirst:  {"released-first", "The lock is released before the leaf is driven."},
	StaysReleased:  {"stays-released", "The lock stays released until the leaf is clear of it."},
	OutsideDead:    {"outside-dead", "The button outside does nothing while the door is locked."},
	InsideWorks:    {"inside-works", "The button inside always works."},
	NoDriveInAlarm: {"no-drive-in-alarm", "The drive is off the leaf as long as the panel is in alarm."},
	LatchesInAlarm: {"latches-in-alarm", "In alarm the fire door is left latched."},
	FreeInAlarm:    {"free-in-alarm", "In alarm the magnet lets go, until the panel is reset."},
	NothingQueued:  {"nothing-queued", "After the alarm is reset nothing opens by itself."},
	NoSelfStart:    {"no-self-start", "When power comes back nothing opens by itself."},
	Yields:         {"yields", "The closing leaf gives way to somebody who pushes it."},
	MotorOff:       {"motor-off", "With the motor switched off the leaf is left to the hand."},
	NightLock:      {"night-lock", "With the night lock on, nothing outside opens the door."},
	NoFalseAlarm:   {"no-false-alarm", "Nobody who goes in or out rightly sets off the forced-door alarm."},
	WayOut:         {"way-out", "One gets out by hand in every state."},
	ComesToRest:    {"comes-to-rest", "Left alone, the door shuts, locks and stays so."},
	NoShort:        {"no-short", "No order of switching shorts a supply."},
	NoChatter:      {"no-chatter", "No relay chatters."},
	InOrder:        {"in-order", "The doors start in the order of the way."},
	BetweenWorks:   {"between-works", "The button between the doors always opens one of them."},
	RetractedFirst: {"retracted-first", "The drive starts only once the latch is known to be retracted: one that hangs is not driven against."},
	LetsGoLoaded:   {"lets-go-loaded", "The lock lets go though the leaf leans on it, so that the drive does not stall."},
	LowBattery:     {"low-battery", "As the standby battery runs low, whatever gives up first, these rules still hold."},
	NotTrapped:     {"not-trapped", "Nobody is left between two shut doors that neither plate nor hand opens."},
	BothServed:     {"both-served", "Whoever sets out gets through under power, the second of two people, too."},
	ClearOfLeaf:    {"clear-of-leaf", "No door closes on somebody on their way through."},
}

// Key is the rule's name, in words with hyphens.
func (r Rule) Key() string { return ruleTexts[r].key }

// String says what has to hold, in one sentence.
func (r Rule) String() string { return ruleTexts[r].says }

// WalkRules are the rules that Walk looks at.
func WalkRules() []Rule { return []Rule{NotTrapped, BothServed, ClearOfLeaf} }

// OfWalk tells a rule of WalkRules.
func (r Rule) OfWalk() bool { return r >= ruleCount }

// Rules are the rules that Prove looks at.
func Rules() []Rule {
	rs := make([]Rule, ruleCount)
	for i := range rs {
		rs[i] = Rule(i)
	}
	return rs
}

// applies tells whether a rule says anything of this wiring; why not, where it
// does not.
func (m *Machine) applies(r Rule) (does bool, why string) {
	magnets := slices.ContainsFunc(m.locks, func(l lock) bool { return l.magnet })
	latches := slices.ContainsFunc(m.locks, func(l lock) bool { return !l.magnet && m.Doors[l.door].FireRated })
	stays := slices.ContainsFunc(m.Doors, func(d Door) bool { return d.StaysLocked })
	role := func(k opening.DeviceKind) bool {
		return slices.ContainsFunc(m.levers, func(l lever) bool { return l.role == k })
	}
	button := func(s opening.DeviceSide) bool {
		return slices.ContainsFunc(m.levers, func(l lever) bool { return l.side == s && l.kind == momentary && l.role != opening.RequestToExit })
	}
	position := slices.ContainsFunc(m.accesses, func(a access) bool {
		return slices.ContainsFunc(a.position, func(i input) bool { return !i.bare })
	})
	noDrive := "nothing drives the leaf"
	switch r {
	case ReleasedFirst, StaysReleased:
		return len(m.locks) > 0 && len(m.drives) > 0, "no lock has to be released"
	case OutsideDead:
		return stays, "the door need not stay locked"
	case InsideWorks:
		return button(opening.Inside) && len(m.drives) > 0, "there is no button inside"
	case NoDriveInAlarm, NothingQueued:
		return m.hasAlarm && len(m.drives) > 0, "no fire alarm comes here, and none has to"
	case LatchesInAlarm:
		return latches, "no electric latch on a fire door"
	case FreeInAlarm:
		return magnets && m.hasAlarm, "no magnet, or no fire alarm"
	case NoSelfStart, Yields:
		return len(m.drives) > 0, noDrive
	case MotorOff:
		return role(opening.EnableSwitch), "no switch takes the motor off"
	case NightLock:
		return role(opening.NightSwitch), "no night lock"
	case NoFalseAlarm:
		return position, "nothing watches the door's position"
	case InOrder:
		return m.group && len(m.drives) > 1, "one door"
	case RetractedFirst:
		return m.atDrive(func(l *lock) bool { return l.hangs }), "no latch is retracted by power"
	case LetsGoLoaded:
		return m.atDrive(func(l *lock) bool { return l.loads }), "nobody knows both the force on the lock and the most that it bears: try it on site, where there is one"
	case LowBattery:
		return m.sagSlot >= 0, "no standby battery feeds a drive"
	case BetweenWorks:
		return m.group && button(opening.Between), "no button between two doors"
	}
	return true, ""
}

// atDrive tells a lock of that sort at a door that is driven.
func (m *Machine) atDrive(sort func(l *lock) bool) bool {
	return slices.ContainsFunc(m.locks, func(l lock) bool {
		return sort(&l) && slices.ContainsFunc(m.drives, func(d drive) bool { return d.door == l.door })
	})
}
