package logic

import (
	"slices"
	"strings"

	"swingwright/opening"
	q "swingwright/quantity"
)

// A rig is a wiring under construction, for tests.
type rig struct{ opening.Wiring }

func (r *rig) add(name string, kind opening.DeviceKind, more ...func(d *opening.Device)) {
	d := opening.Device{Name: name, Kind: kind}
	for _, f := range more {
		f(&d)
	}
	r.Devices = append(r.Devices, d)
}

// join lays wires along terminals, one after the other.
func (r *rig) join(ends ...string) {
	for i := 1; i < len(ends); i++ {
		r.Wires = append(r.Wires, opening.Wire{From: ends[i-1], To: ends[i]})
	}
}

// cut takes away the wires between two terminals.
func (r *rig) cut(a, b string) {
	n := len(r.Wires)
	r.Wires = slices.DeleteFunc(r.Wires, func(w opening.Wire) bool {
		return w.From == a && w.To == b || w.From == b && w.To == a
	})
	if len(r.Wires) == n {
		panic("no wire from " + a + " to " + b)
	}
}

// move takes an end of wires from one terminal to another.
func (r *rig) move(from, to string) {
	moved := false
	for i := range r.Wires {
		w := &r.Wires[i]
		for _, end := range []*string{&w.From, &w.To} {
			if *end == from {
				*end, moved = to, true
			}
		}
	}
	if !moved {
		panic("no wire at " + from)
	}
}

func (r *rig) set(name string, f func(d *opening.Device)) { f(r.Device(name)) }

func (r *rig) remove(name string) {
	r.Devices = slices.DeleteFunc(r.Devices, func(d opening.Device) bool { return d.Name == name })
	r.Wires = slices.DeleteFunc(r.Wires, func(w opening.Wire) bool {
		return strings.HasPrefix(w.From, name+".") || strings.HasPrefix(w.To, name+".")
	})
}

func seconds(t q.Time) q.Measured[q.Time] { return q.Exactly(t) }

func side(s opening.DeviceSide) func(d *opening.Device) {
	return func(d *opening.Device) { d.Side = s }
}

func at(door string) func(d *opening.Device) {
	return func(d *opening.Device) { d.Opening = door }
}

func delay(t q.Time) func(d *opening.Device) {
	return func(d *opening.Device) { d.OnDelay = seconds(t) }
}

func release(t q.Time) func(d *opening.Device) {
	return func(d *opening.Device) { d.Release = seconds(t) }
}

// doubled gives a device two poles of contacts, 1 and 2.
func doubled(d *opening.Device) {
	d.Terminals = nil
	for _, of := range []string{"1", "2"} {
		for _, c := range []struct {
			name string
			f    opening.Function
		}{{"C", opening.Common}, {"NO", opening.NormallyOpen}, {"NC", opening.NormallyShut}} {
			d.Terminals = append(d.Terminals, opening.Terminal{Name: c.name + of, Function: c.f, Of: of})
		}
	}
}

// relay gives a device one more relay with a contact.
func relay(name string, follows opening.Follows, pulse q.Time) func(d *opening.Device) {
	return func(d *opening.Device) {
		if len(d.Relays) == 0 {
			d.Terminals = slices.DeleteFunc(slices.Clone(d.Points()), func(t opening.Terminal) bool {
				return t.Function == opening.Common || t.Function == opening.NormallyOpen || t.Function == opening.NormallyShut
			})
		}
		r := opening.Relay{Name: name, Follows: follows}
		if pulse > 0 {
			r.Pulse = seconds(pulse)
		}
		d.Relays = append(d.Relays, r)
		d.Terminals = append(d.Terminals, opening.Terminal{Name: name + " C", Function: opening.Common, Of: name},
			opening.Terminal{Name: name + " NO", Function: opening.NormallyOpen, Of: name}, opening.Terminal{Name: name + " NC", Function: opening.NormallyShut, Of: name})
	}
}

// office is a fire door that stays locked: plates on both sides, an access
// controller, a fail-secure strike, the alarm in the drive's loop and in the
// strike's feed. It is sound.
func office() *rig {
	r := new(rig)
	r.add("supply", opening.PowerSupply)
	r.add("drive", opening.Drive, delay(0.8), relay("LOCK", opening.FollowsStart, 0), relay("SHUNT", opening.FollowsStart, 0))
	r.add("strike", opening.ElectricStrike, release(0.3))
	r.add("plate in", opening.PushPlate, side(opening.Inside))
	r.add("plate out", opening.PushPlate, side(opening.Outside))
	r.add("reader", opening.Reader, side(opening.Outside))
	r.add("access", opening.AccessRelay, relay("LOCK", opening.FollowsRelease, 5), relay("AUX", opening.FollowsCredential, 5))
	r.add("motion", opening.RequestToExit, side(opening.Inside))
	r.add("alarm", opening.AlarmModule, doubled)
	r.add("motor", opening.EnableSwitch)
	r.add("contact", opening.PositionSwitch)
	r.join("supply.+", "drive.+", "access.+", "reader.+")
	r.join("supply.-", "drive.-", "access.-", "reader.-", "strike.-")
	r.join("reader.D", "access.D")
	r.join("supply.+", "alarm.C2") // the strike's feed goes through the alarm
	r.join("alarm.NC2", "drive.LOCK C", "access.LOCK C")
	r.join("drive.LOCK NO", "strike.+")
	r.join("access.LOCK NO", "strike.+")
	r.join("plate in.C", "drive.COM")
	r.join("plate in.NO", "drive.START")
	r.join("plate out.C", "access.AUX C") // dead unless the access controller lets somebody in
	r.join("access.AUX NO", "drive.COM")
	r.join("plate out.NO", "drive.START")
	r.join("drive.ALARM", "alarm.C1")
	r.join("alarm.NC1", "drive.COM")
	r.join("drive.ENABLE", "motor.C")
	r.join("motor.NO", "drive.COM")
	r.join("drive.SHUNT C", "access.COM")
	r.join("drive.SHUNT NO", "access.REX")
	r.join("motion.C", "access.COM")
	r.join("motion.NO", "access.REX")
	r.join("contact.C", "access.DPS")
	r.join("contact.NC", "access.COM")
	return r
}

// plain is a door without a lock: radio plates and a receiver.
func plain() *rig {
	r := new(rig)
	r.add("supply", opening.PowerSupply)
	r.add("drive", opening.Drive)
	r.add("receiver", opening.Receiver)
	to := func(d *opening.Device) { d.LearnedTo = "receiver" }
	r.add("plate in", opening.Transmitter, side(opening.Inside), to)
	r.add("plate out", opening.Transmitter, side(opening.Outside), to)
	r.join("supply.+", "drive.+")
	r.join("supply.-", "drive.-")
	r.join("drive.OUT+", "receiver.+")
	r.join("drive.OUT-", "receiver.-")
	r.join("receiver.C", "drive.COM")
	r.join("receiver.NO", "drive.START")
	return r
}

// glass is a glass door with a magnet: the alarm and the exit button cut its feed.
func glass() *rig {
	r := new(rig)
	r.add("supply", opening.PowerSupply)
	r.add("drive", opening.Drive, delay(1))
	r.add("magnet", opening.Magnet, func(d *opening.Device) { d.Residual = seconds(0.5) })
	r.add("plate in", opening.PushPlate, side(opening.Inside))
	r.add("exit", opening.RequestToExit, side(opening.Inside))
	r.add("alarm", opening.AlarmModule, doubled)
	r.join("supply.+", "drive.+")
	r.join("supply.-", "drive.-", "magnet.-")
	r.join("supply.+", "alarm.C2")
	r.join("alarm.NC2", "exit.C")
	r.join("exit.NC", "drive.LOCK C")
	r.join("drive.LOCK NC", "magnet.+")
	r.join("plate in.C", "drive.COM")
	r.join("plate in.NO", "drive.START")
	r.join("drive.ALARM", "alarm.C1")
	r.join("alarm.NC1", "drive.COM")
	return r
}

// lobby is a vestibule: a press at either end opens that door, and after a delay
// the other; a plate between opens both.
func lobby() *rig {
	r := new(rig)
	r.add("supply", opening.PowerSupply)
	r.add("drive A", opening.Drive, at("A"))
	r.add("drive B", opening.Drive, at("B"))
	r.add("plate out", opening.PushPlate, side(opening.Outside), at("A"), doubled)
	r.add("plate in", opening.PushPlate, side(opening.Inside), at("B"), doubled)
	r.add("plate between", opening.PushPlate, side(opening.Between), doubled)
	r.add("to B", opening.DelayRelay, func(d *opening.Device) { d.OnDelay, d.Pulse = seconds(2), seconds(0.5) })
	r.add("to A", opening.DelayRelay, func(d *opening.Device) { d.OnDelay, d.Pulse = seconds(2), seconds(0.5) })
	r.join("supply.+", "drive A.+", "drive B.+", "to A.+", "to B.+")
	r.join("supply.-", "drive A.-", "drive B.-", "to A.-", "to B.-")
	r.join("plate out.C1", "drive A.COM")
	r.join("plate out.NO1", "drive A.START")
	r.join("plate out.C2", "to B.COM")
	r.join("plate out.NO2", "to B.TRIG")
	r.join("to B.C", "drive B.COM")
	r.join("to B.NO", "drive B.START")
	r.join("plate in.C1", "drive B.COM")
	r.join("plate in.NO1", "drive B.START")
	r.join("plate in.C2", "to A.COM")
	r.join("plate in.NO2", "to A.TRIG")
	r.join("to A.C", "drive A.COM")
	r.join("to A.NO", "drive A.START")
	r.join("plate between.C1", "drive A.COM")
	r.join("plate between.NO1", "drive A.START")
	r.join("plate between.C2", "drive B.COM")
	r.join("plate between.NO2", "drive B.START")
	return r
}

// ward is a fire door with an exit device whose latch a motor retracts: a sequencer
// retracts it, and the latch's own monitor contact starts the drive. It is sound.
func ward() *rig {
	r := new(rig)
	r.add("supply", opening.PowerSupply)
	r.add("drive", opening.Drive)
	r.add("exit device", opening.MotorExit, release(0.6), func(d *opening.Device) {
		d.Relays = []opening.Relay{{Name: "BACK", Follows: opening.FollowsFree}}
		d.Terminals = slices.Concat(d.Points(), []opening.Terminal{{Name: "BACK C", Function: opening.Common, Of: "BACK"}, {Name: "BACK NO", Function: opening.NormallyOpen, Of: "BACK"}})
	})
	r.add("sequencer", opening.Sequencer, func(d *opening.Device) {
		d.Relays = []opening.Relay{{Name: "LOCK", Follows: opening.FollowsTrigger, Hold: seconds(4)}, {Name: "DRIVE", Follows: opening.FollowsTrigger, OnDelay: seconds(1), Pulse: seconds(0.5)}}
	})
	r.add("switch in", opening.TouchlessPlate, side(opening.Inside))
	r.add("alarm", opening.AlarmModule, doubled)
	r.join("supply.+", "drive.+", "switch in.+")
	r.join("supply.-", "drive.-", "sequencer.-", "switch in.-", "exit device.-")
	r.join("supply.+", "alarm.C2") // sequencer and latch are fed through the alarm
	r.join("alarm.NC2", "sequencer.+", "sequencer.LOCK C")
	r.join("sequencer.LOCK NO", "exit device.+")
	r.join("switch in.C", "sequencer.COM")
	r.join("switch in.NO", "sequencer.TRIG")
	r.join("sequencer.DRIVE C", "drive.COM")
	r.join("sequencer.DRIVE NO", "exit device.BACK C") // dead unless the latch is back
	r.join("exit device.BACK NO", "drive.START")
	r.join("drive.ALARM", "alarm.C1")
	r.join("alarm.NC1", "drive.COM")
	return r
}

// backed is a door with a strike, and a battery behind its supply.
func backed(strike, drive q.Voltage) *rig {
	r := new(rig)
	least := func(v q.Voltage) func(d *opening.Device) {
		return func(d *opening.Device) { d.Least = q.Give(v, 0.1) }
	}
	r.add("supply", opening.PowerSupply)
	r.add("battery", opening.StandbyBattery)
	r.add("drive", opening.Drive, delay(0.8), least(drive))
	r.add("strike", opening.ElectricStrike, release(0.3), least(strike))
	r.add("plate in", opening.PushPlate, side(opening.Inside))
	r.join("supply.B+", "battery.+")
	r.join("supply.B-", "battery.-")
	r.join("supply.+", "drive.+", "drive.LOCK C")
	r.join("supply.-", "drive.-", "strike.-")
	r.join("drive.LOCK NO", "strike.+")
	r.join("plate in.C", "drive.COM")
	r.join("plate in.NO", "drive.START")
	return r
}

// strong is how hard a strike may be leaned on.
func strong(f q.Force) func(d *opening.Device) {
	return func(d *opening.Device) { d.PreloadMax = q.Exactly(f) }
}

// A trial is a wiring with the rules that it has to break, none where it is sound.
type trial struct {
	name  string
	rig   *rig
	doors []Door
	tick  q.Time // the finest that is tried where zero
	broke []Rule
}

var (
	fireDoor = []Door{{ID: "101", FireRated: true, StaysLocked: true}}
	anyDoor  = []Door{{ID: "101"}}
	keptDoor = []Door{{ID: "101", StaysLocked: true}}
	twoDoors = []Door{{ID: "A"}, {ID: "B"}}
	windy    = []Door{{ID: "101", Preload: q.Give(30*q.Newton, 2*q.Newton)}}
	slowDoor = []Door{{ID: "101", FireRated: true, StaysLocked: true, Clear: 1.3}}
)

func altered(r *rig, change func(r *rig)) *rig {
	change(r)
	return r
}

// trials are sound wirings, and each common mistake put into one of them
// (the table of mistakes is common practice).
func trials() []trial {
	return []trial{
		{"office, sound", office(), fireDoor, 0, nil},
		{"plain, sound", plain(), anyDoor, 0, nil},
		{"glass, sound", glass(), keptDoor, 0, nil},
		{"lobby, sound", lobby(), twoDoors, 0.5, nil},
		{"outside plate straight to the drive", altered(office(), func(r *rig) { r.join("plate out.C", "drive.COM") }), fireDoor, 0.25, []Rule{OutsideDead}},
		{"pulse shorter than the release", altered(office(), func(r *rig) {
			r.set("drive", func(d *opening.Device) { d.Relays[0].Pulse = seconds(0.3) })
			r.cut("drive.SHUNT NO", "access.REX")
			r.remove("contact")
		}), fireDoor, 0.25, []Rule{ReleasedFirst, StaysReleased}},
		{"relocks before the leaf is clear", altered(office(), func(r *rig) {
			r.set("drive", func(d *opening.Device) { d.Relays[0].Pulse = seconds(1) })
			r.cut("drive.SHUNT NO", "access.REX")
			r.remove("contact")
		}), fireDoor, 0.25, []Rule{ReleasedFirst, StaysReleased}},
		{"no delay", altered(office(), func(r *rig) { r.set("drive", func(d *opening.Device) { d.OnDelay = seconds(0) }) }), fireDoor, 0, []Rule{ReleasedFirst}},
		{"delay at the release itself", altered(office(), func(r *rig) { r.set("drive", delay(0.4)) }), fireDoor, 0, []Rule{ReleasedFirst}},
		{"delay with just the margin", altered(office(), func(r *rig) { r.set("drive", delay(0.5)) }), fireDoor, 0, nil},
		{"link left in at the alarm", altered(office(), func(r *rig) { r.join("drive.ALARM", "drive.COM") }), fireDoor, 0.25, []Rule{ReleasedFirst, StaysReleased, NoDriveInAlarm}},
		{"alarm contact swapped", altered(office(), func(r *rig) { r.move("alarm.NC1", "alarm.NO1") }), fireDoor, 0.25, []Rule{InsideWorks, NoDriveInAlarm}},
		{"alarm off the sounders", altered(office(), func(r *rig) { r.set("alarm", func(d *opening.Device) { d.Kind = opening.AlarmSounder }) }), fireDoor, 0.25, []Rule{NoDriveInAlarm}},
		{"strike fed past the alarm by day", altered(office(), func(r *rig) {
			r.set("access", func(d *opening.Device) { d.OnSchedule = "yes" })
			r.move("alarm.C2", "alarm.NC2")
		}), fireDoor, 0.25, []Rule{LatchesInAlarm}},
		{"exit not told", altered(office(), func(r *rig) { r.cut("drive.SHUNT NO", "access.REX") }), fireDoor, 0.25, []Rule{NoFalseAlarm}},
		{"no motion detector", altered(office(), func(r *rig) { r.remove("motion") }), fireDoor, 0.25, []Rule{NoFalseAlarm}},
		{"held open past the alarm", altered(plain(), func(r *rig) {
			r.add("hold relay", opening.AlarmModule)
			r.join("hold relay.C", "drive.COM")
			r.join("hold relay.NC", "drive.HOLD")
		}), []Door{{ID: "101", FireRated: true}}, 0, []Rule{NoDriveInAlarm, NoSelfStart, ComesToRest, NothingQueued}},
		{"press kept over the alarm", altered(plain(), func(r *rig) {
			r.add("alarm", opening.AlarmModule)
			r.add("keeper", opening.DelayRelay, func(d *opening.Device) { d.Hold = seconds(30) })
			r.set("drive", func(d *opening.Device) { d.StartBy = opening.WhileShut })
			r.cut("receiver.C", "drive.COM")
			r.cut("receiver.NO", "drive.START")
			r.join("supply.+", "keeper.+")
			r.join("supply.-", "keeper.-")
			r.join("receiver.C", "keeper.COM")
			r.join("receiver.NO", "keeper.TRIG")
			r.join("keeper.C", "drive.COM")
			r.join("keeper.NO", "drive.START")
			r.join("drive.ALARM", "alarm.C")
			r.join("alarm.NC", "drive.COM")
		}), anyDoor, 0, []Rule{NothingQueued}},
		{"nobody connects the lock", altered(plain(), func(r *rig) {}), []Door{{ID: "101", LockedByOld: true}}, 0, []Rule{ReleasedFirst}},
		{"strike wire missing", altered(office(), func(r *rig) {
			r.cut("drive.LOCK NO", "strike.+")
			r.cut("drive.SHUNT NO", "access.REX")
			r.remove("contact")
		}), fireDoor, 0.25, []Rule{ReleasedFirst, StaysReleased}},
		{"magnet off the sounders", altered(glass(), func(r *rig) { r.set("alarm", func(d *opening.Device) { d.Kind = opening.AlarmSounder }) }), keptDoor, 0, []Rule{NoDriveInAlarm, FreeInAlarm}},
		{"magnet without an exit detector", altered(glass(), func(r *rig) { r.move("exit.C", "exit.NC") }), keptDoor, 0, []Rule{WayOut}},
		{"magnet with a detector that needs power", altered(glass(), func(r *rig) {
			r.join("supply.+", "exit.+")
			r.join("supply.-", "exit.-")
		}), keptDoor, 0, nil},
		{"maintained start", altered(plain(), func(r *rig) {
			r.add("key", opening.KeySwitch)
			r.join("key.C", "drive.COM")
			r.join("key.NO", "drive.START")
			r.set("drive", func(d *opening.Device) { d.StartBy = opening.WhileShut })
		}), anyDoor, 0, []Rule{NoSelfStart}},
		{"drive that fights", altered(plain(), func(r *rig) { r.set("drive", func(d *opening.Device) { d.NoFight = "no" }) }), anyDoor, 0, []Rule{Yields}},
		{"motor switch bridged", altered(office(), func(r *rig) { r.join("motor.C", "motor.NO") }), fireDoor, 0.25, []Rule{MotorOff}},
		{"night lock not in the way", altered(office(), func(r *rig) { r.add("night", opening.NightSwitch) }), fireDoor, 0.25, []Rule{NightLock}},
		{"night lock in series", altered(office(), func(r *rig) {
			r.add("night", opening.NightSwitch)
			r.cut("plate out.NO", "drive.START")
			r.join("plate out.NO", "night.C")
			r.join("night.NC", "drive.START")
		}), fireDoor, 0.25, nil},
		{"relay that takes its own power", altered(plain(), func(r *rig) {
			r.add("relay", opening.PlainRelay)
			r.join("supply.+", "relay.C")
			r.join("relay.NC", "relay.+")
			r.join("relay.-", "supply.-")
		}), anyDoor, 0, []Rule{NoChatter}},
		{"plate shorts the supply", altered(plain(), func(r *rig) {
			r.add("wrong plate", opening.PushPlate, side(opening.Inside))
			r.join("wrong plate.C", "supply.+")
			r.join("wrong plate.NO", "supply.-")
		}), anyDoor, 0, []Rule{NoShort, InsideWorks}},
		{"relay that holds itself", altered(plain(), func(r *rig) {
			r.add("relay", opening.PlainRelay, func(d *opening.Device) {
				d.Terminals = slices.Concat(d.Points()[:2], []opening.Terminal{
					{Name: "C1", Function: opening.Common, Of: "1"}, {Name: "NO1", Function: opening.NormallyOpen, Of: "1"},
					{Name: "C2", Function: opening.Common, Of: "2"}, {Name: "NO2", Function: opening.NormallyOpen, Of: "2"}})
			})
			r.add("plate", opening.PushPlate, side(opening.Inside))
			r.join("supply.+", "plate.C", "relay.C1")
			r.join("plate.NO", "relay.+", "relay.NO1")
			r.join("relay.-", "supply.-")
			r.join("relay.C2", "drive.COM")
			r.join("relay.NO2", "drive.START")
		}), anyDoor, 0, []Rule{ComesToRest}},
		{"lobby, second door at once", altered(lobby(), func(r *rig) {
			r.set("to B", func(d *opening.Device) { d.OnDelay = seconds(0) })
			r.set("drive A", delay(1))
		}), twoDoors, 0.5, []Rule{InOrder}},
		{"ward, sound", ward(), fireDoor, 0.25, nil},
		{"latch not confirmed", altered(ward(), func(r *rig) { r.move("exit device.BACK C", "drive.START") }), fireDoor, 0.25, []Rule{RetractedFirst}},
		{"latch's monitor contact swapped", altered(ward(), func(r *rig) {
			r.set("exit device", func(d *opening.Device) { d.Terminals[len(d.Terminals)-1].Function = opening.NormallyShut })
		}), fireDoor, 0.25, []Rule{InsideWorks, RetractedFirst}},
		{"strike under load", altered(backed(12, 18), func(r *rig) { r.set("strike", strong(25*q.Newton)) }), windy, 0.25, []Rule{LetsGoLoaded}},
		{"strike that bears the load", altered(backed(12, 18), func(r *rig) { r.set("strike", strong(60*q.Newton)) }), windy, 0.25, nil},
		{"drive that takes the load off", altered(backed(12, 18), func(r *rig) {
			r.set("strike", strong(25*q.Newton))
			r.set("drive", func(d *opening.Device) { d.Unloads = "yes" })
		}), windy, 0.25, nil},
		{"drive that takes the load off too late", altered(backed(12, 18), func(r *rig) {
			r.set("strike", strong(25*q.Newton))
			r.set("drive", func(d *opening.Device) { d.Unloads, d.OnDelay = "yes", seconds(0) })
		}), windy, 0.25, []Rule{ReleasedFirst}},
		{"battery, drive gives up first", backed(12, 18), anyDoor, 0.25, nil},
		{"battery, strike gives up first", backed(21, 18), anyDoor, 0.25, []Rule{LowBattery}},
		{"battery, normally shut relay starts the drive as it gives up", altered(backed(12, 18), func(r *rig) {
			r.add("relay", opening.PlainRelay, func(d *opening.Device) { d.Least = q.Give[q.Voltage](20, 0.1) })
			r.join("supply.+", "relay.+")
			r.join("supply.-", "relay.-")
			r.join("relay.C", "drive.COM")
			r.join("relay.NC", "drive.START")
		}), anyDoor, 0.25, []Rule{LowBattery}},
		{"slow leaf, unlock pulse ends before it is clear", altered(office(), func(r *rig) {
			r.set("drive", func(d *opening.Device) { d.Relays[0].Pulse = seconds(1.6) })
			r.cut("drive.SHUNT NO", "access.REX")
			r.remove("contact")
		}), slowDoor, 0.5, []Rule{StaysReleased}},
		{"ward, presence sensor stops the start", altered(ward(), func(r *rig) {
			r.add("sensor", opening.PresenceSensor, side(opening.Inside))
			r.join("supply.+", "sensor.+")
			r.join("supply.-", "sensor.-")
			r.join("sensor.C", "drive.COM")
			r.join("sensor.NO", "drive.SAFETY")
		}), fireDoor, 0.25, nil},
		{"presence sensor on the start", altered(plain(), func(r *rig) {
			r.add("sensor", opening.PresenceSensor, side(opening.Inside))
			r.join("supply.+", "sensor.+")
			r.join("supply.-", "sensor.-")
			r.join("sensor.C", "drive.COM")
			r.join("sensor.NC", "drive.START") // it was to be NO on SAFETY
		}), anyDoor, 0.25, []Rule{NoSelfStart, ComesToRest}},
		{"touchless switch, sound", altered(plain(), func(r *rig) {
			r.add("switch", opening.TouchlessPlate, side(opening.Inside))
			r.join("supply.+", "switch.+")
			r.join("supply.-", "switch.-")
			r.join("switch.C", "drive.COM")
			r.join("switch.NO", "drive.START")
		}), anyDoor, 0.25, nil},
		{"touchless switch without power", altered(plain(), func(r *rig) {
			r.add("switch", opening.TouchlessPlate, side(opening.Inside))
			r.join("supply.+", "switch.+")
			r.join("switch.C", "drive.COM")
			r.join("switch.NO", "drive.START")
		}), anyDoor, 0.25, []Rule{InsideWorks}},
		{"touchless switch stands shut", altered(plain(), func(r *rig) {
			r.add("switch", opening.TouchlessPlate, side(opening.Inside))
			r.join("supply.+", "switch.+")
			r.join("supply.-", "switch.-")
			r.join("switch.C", "drive.COM")
			r.join("switch.NC", "drive.START")
		}), anyDoor, 0.25, []Rule{InsideWorks, ComesToRest}},
		{"sequencer without its delay", altered(ward(), func(r *rig) {
			r.set("sequencer", func(d *opening.Device) { d.Relays[1].OnDelay = seconds(0) })
			r.move("exit device.BACK C", "drive.START")
		}), fireDoor, 0.25, []Rule{ReleasedFirst, RetractedFirst}},
		{"sequencer whose latch pulse is short", altered(ward(), func(r *rig) {
			r.set("sequencer", func(d *opening.Device) { d.Relays[0].Hold = seconds(1.2) })
		}), fireDoor, 0.25, []Rule{StaysReleased, InsideWorks}},
		{"exit device off the alarm's feed", altered(ward(), func(r *rig) { r.move("alarm.C2", "alarm.NC2") }), fireDoor, 0.25, []Rule{NothingQueued}},
		{"hold-open switch without the alarm", altered(plain(), func(r *rig) {
			r.add("hold", opening.HoldOpenSwitch)
			r.join("hold.C", "drive.COM")
			r.join("hold.NO", "drive.HOLD")
		}), anyDoor, 0.25, []Rule{NoSelfStart}},
		{"lobby, plate between not connected", altered(lobby(), func(r *rig) {
			r.cut("plate between.NO1", "drive A.START")
			r.cut("plate between.NO2", "drive B.START")
		}), twoDoors, 0.5, []Rule{BetweenWorks}},
	}
}
