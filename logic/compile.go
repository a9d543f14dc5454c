package logic

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"swingwright/opening"
	q "swingwright/quantity"
)

// A Door is what the machine has to know of an opening beyond its wiring.
type Door struct {
	ID          string
	FireRated   bool
	StaysLocked bool                // it has to be locked from outside at some hours
	LockedByOld bool                // a lock keeps the leaf that nothing in the wiring can release
	Preload     q.Measured[q.Force] // with which the locked leaf presses on its lock
	Clear       q.Time              // from the start of the drive until the leaf is clear of the strike, at the longest; UsualClear when zero
}

// Names of what a switch element is worked by.
type worked uint8

const (
	momentary worked = iota // by a person, as long as they press
	kept                    // by a person, until they turn it back
)

// A lever is something that somebody works: its state is one byte.
type lever struct {
	dev    int
	kind   worked
	slot   int
	role   opening.DeviceKind
	side   opening.DeviceSide
	door   int
	sensed int // sense of its power, or -1
	radio  int // receiver's relay that it starts, or -1
}

// A timed output: contacts of a device that follow something in time.
type output struct {
	dev, slot, door int
	name            string
	follows         opening.Follows
	power, trigger  int   // senses, or -1
	onDelay, hold   int   // ticks
	pulse           int   // ticks; 0 where there is none
	pulseFree       bool  // the pulse lasts longer than counted
	holdFree        bool  // so does the hold
	oneShot         bool  // the pulse begins with the signal, and ends though it lasts; else it begins as the signal ends
	radio           []int // levers that start it
}

type lock struct {
	dev, slot, door, coil int
	safe, magnet          bool
	release               int // ticks, at the slowest, with the margin
	worst                 q.Time
	stuckSlot             int // of what keeps its latch from moving; -1 where nothing can
	hangs                 bool
	sticks                bool // it does not let go under the load of the leaf
	loads                 bool // whether it does is known
	handPole              int  // contact pole worked by the hand on the inside, or -1
}

type drive struct {
	dev, slot, door                    int
	power                              int
	enable, alarm, start, hold, safety []input
	level                              bool
	yields                             bool
	unloads                            bool
	onDelay, clear                     int
	line                               bool // fed by the mains directly
}

// An input is a sense with the state in which it wants to be left.
type input struct {
	sense      int
	normalMade bool
	bare       bool // nothing is connected to it: as delivered, in its normal state
}

type access struct {
	dev, slot, door int
	power           int
	exit, position  []input
	reads           bool // it can hear of a credential
	schedule        bool
}

// What makes a contact act.
type driver struct {
	kind  byte // 'k' monitor of a lock, 'l' lever, 'o' output, 'p' position of a leaf, 'a' alarm until reset, 's' sounders, 'h' hand on the inside
	index int
	no    bool // closed while it acts
	norm  bool // stands closed in use, acts by opening
}

// A Machine is the finite machine of one wiring.
type Machine struct {
	Tick   q.Time
	Doors  []Door
	wiring *opening.Wiring
	circuit
	drivers  []driver // one for each contact
	sensing  int      // switches that act only while they have power
	fading   []fading // what gives up as the standby battery runs low
	levers   []lever
	outputs  []output
	locks    []lock
	drives   []drive
	accesses []access
	slots    int
	feed     []feed
	capTicks int
	want     int
	group    bool
	// slots of the surroundings and of what the rules remember
	sagSlot                                                                         int // one bit for each fading; -1 without a battery
	alarmSlot, mainsSlot, daySlot, promptSlot, wantSlot, outSlot, waySlot, leafSlot int
	hasAlarm, hasDay, hasNight                                                      bool
	asksWho                                                                         bool // some rule asks who prompted something
}

// A feed is what makes a source live.
type feed struct {
	mains   bool
	battery bool
	sense   int // of a device that passes power on; -1 otherwise
}

// marginOfRelease is what a delay must leave between the slowest release that
// was measured and the start of the leaf (common practice).
const marginOfRelease q.Time = 0.2

// Values that stand where nothing was written down (common practice).
const (
	usualRelease q.Time = 0.5 // of a lock whose release nobody measured
	usualMagnet  q.Time = 0.5 // residual hold, the worst of the usual span
	usualUnlock  q.Time = 5   // unlock pulse of an access controller
	usualRadio   q.Time = 0.5 // contact of a receiver
)

// UsualClear is the time from the start of a drive until the leaf is clear of its
// strike, where no swing tells it (common practice, from memory).
const UsualClear q.Time = 0.5

// errTooLarge tells a wiring beyond what a machine holds.
var errTooLarge = errors.New("the wiring has more contacts, coils or timers than can be followed; prove the openings apart")

// Compile makes the machine of a wiring. The doors are those that it serves, in
// the order of their group; the tick is the step of time, above zero.
func Compile(w *opening.Wiring, doors []Door, tick q.Time) (*Machine, error) {
	return compile(w, doors, tick, false)
}

// compile makes the machine of a wiring, with every time counted to its end where
// that is wanted: for telling one story, not for exploring.
func compile(w *opening.Wiring, doors []Door, tick q.Time, exact bool) (*Machine, error) {
	if len(doors) == 0 || tick <= 0 {
		return nil, fmt.Errorf("%d doors and a tick of %v s: needed a door and a tick above zero", len(doors), float64(tick))
	}
	m := &Machine{Tick: tick, Doors: doors, wiring: w, group: len(doors) > 1}
	m.memo = make(map[condition]outcome)
	m.join(w)
	m.surroundings()
	for i := range w.Devices {
		m.device(i)
	}
	m.virtualLocks()
	m.fade()
	m.learn()
	m.caps(exact)
	m.prune()
	m.findWho()
	if len(m.contacts) > most || len(m.senses) > most || len(m.sources) > most || m.slots > len(state{}) {
		return nil, errTooLarge
	}
	return m, nil
}

func (m *Machine) surroundings() {
	for _, s := range []*int{&m.alarmSlot, &m.mainsSlot, &m.daySlot, &m.promptSlot, &m.waySlot} {
		*s = m.slot(1)
	}
	m.leafSlot = m.slot(len(m.Doors))
	m.wantSlot, m.outSlot = m.slot(2), m.slot(2)
	for _, d := range m.Doors {
		m.hasAlarm = m.hasAlarm || d.FireRated
	}
}

func (m *Machine) slot(n int) int {
	m.slots += n
	return m.slots - n
}

func (m *Machine) door(d *opening.Device) int {
	i := slices.IndexFunc(m.Doors, func(x Door) bool { return x.ID == d.Opening })
	return max(i, 0)
}

func (m *Machine) device(i int) {
	d := &m.wiring.Devices[i]
	switch d.Kind {
	case opening.Drive:
		m.addDrive(i, d)
	case opening.PowerSupply, opening.StandbyBattery:
		m.addSupply(i, d)
	case opening.PushPlate, opening.TouchlessPlate, opening.Transmitter, opening.RequestToExit:
		m.addLever(i, d, momentary)
	case opening.KeySwitch, opening.NightSwitch, opening.EnableSwitch, opening.HoldOpenSwitch, opening.PresenceSensor:
		m.addLever(i, d, kept)
	case opening.ElectricStrike, opening.ElectricLock, opening.SolenoidExit, opening.MotorExit, opening.Magnet:
		m.addLock(i, d)
	case opening.Receiver, opening.DelayRelay, opening.Sequencer, opening.PlainRelay:
		m.addRelays(i, d)
	case opening.AccessRelay:
		m.addAccess(i, d)
	case opening.AlarmModule:
		m.hasAlarm = true
		m.contactsOf(i, d, "", true, driver{kind: 'a', norm: d.Normal == opening.Closed})
	case opening.AlarmSounder:
		m.hasAlarm = true
		m.contactsOf(i, d, "", true, driver{kind: 's', norm: d.Normal == opening.Closed})
	case opening.PositionSwitch:
		m.contactsOf(i, d, "", true, driver{kind: 'p', index: m.door(d), norm: d.Normal == opening.Closed})
	}
}

// contactsOf adds the contacts of one relay or pole of a device, of all where
// every is set.
func (m *Machine) contactsOf(i int, d *opening.Device, of string, every bool, by driver) {
	points := d.Points()
	for _, c := range points {
		if c.Function != opening.Common || !every && c.Of != of {
			continue
		}
		for _, t := range points {
			if t.Of != c.Of || t.Function != opening.NormallyOpen && t.Function != opening.NormallyShut {
				continue
			}
			by.no = t.Function == opening.NormallyOpen
			a, b := d.Name+"."+c.Name, d.Name+"."+t.Name
			if !m.wired(a) || !m.wired(b) {
				continue // nothing flows
			}
			m.contacts = append(m.contacts, contact{m.net(a), m.net(b), a + " to " + t.Name})
			m.drivers = append(m.drivers, by)
		}
	}
}

func (m *Machine) wired(end string) bool { _, found := m.of[end]; return found }

// coil is the sense of a device's own power, or -1 where it has no terminals for it.
func (m *Machine) coil(i int, d *opening.Device) int {
	plus, minus := m.first(d, opening.Plus), m.first(d, opening.Minus)
	if plus == "" || minus == "" {
		return -1
	}
	m.senses = append(m.senses, sense{coil: true, a: m.net(plus), b: m.net(minus), dev: i, what: opening.Plus, name: plus})
	return len(m.senses) - 1
}

func (m *Machine) first(d *opening.Device, f opening.Function) string {
	for _, t := range d.Points() {
		if t.Function == f {
			return d.Name + "." + t.Name
		}
	}
	return ""
}

// inputs are the senses of a device's inputs of one function.
func (m *Machine) inputs(i int, d *opening.Device, f opening.Function) []input {
	var commons []int
	for _, t := range d.Points() {
		if end := d.Name + "." + t.Name; t.Function == opening.InputCommon && m.wired(end) {
			commons = append(commons, m.net(end))
		}
	}
	var in []input
	for _, t := range d.Points() {
		if t.Function != f {
			continue
		}
		end := d.Name + "." + t.Name
		x := input{sense: -1, normalMade: t.Normal == opening.Closed, bare: !m.wired(end)}
		if !x.bare {
			m.senses = append(m.senses, sense{a: m.net(end), commons: commons, dev: i, what: f, name: end})
			x.sense = len(m.senses) - 1
		}
		in = append(in, x)
	}
	return in
}

func (m *Machine) addLever(i int, d *opening.Device, how worked) {
	l := lever{dev: i, kind: how, slot: m.slot(1), role: d.Kind, side: d.Side, door: m.door(d), sensed: -1, radio: -1}
	powered := d.Kind == opening.TouchlessPlate || d.Kind == opening.PresenceSensor
	if d.Kind == opening.RequestToExit && (m.wired(m.first(d, opening.Plus)) || m.wired(m.first(d, opening.Minus))) {
		powered = true
	}
	if powered {
		if l.sensed = m.coil(i, d); l.sensed >= 0 {
			m.sensing++
		}
	}
	if d.Kind == opening.RequestToExit && l.side == "" {
		l.side = opening.Inside
	}
	m.levers = append(m.levers, l)
	norm := d.Normal == opening.Closed || d.Kind == opening.EnableSwitch && d.Normal == "" // it stands closed in use
	m.contactsOf(i, d, "", true, driver{kind: 'l', index: len(m.levers) - 1, norm: norm})
}

func (m *Machine) addSupply(i int, d *opening.Device) {
	plus, minus := m.first(d, opening.Plus), m.first(d, opening.Minus)
	if plus == "" || minus == "" {
		return
	}
	f := feed{mains: d.Kind == opening.PowerSupply, battery: d.Kind == opening.StandbyBattery, sense: -1}
	if f.mains {
		for k := range m.wiring.Devices {
			b := &m.wiring.Devices[k]
			if b.Kind == opening.StandbyBattery && m.joined(b, opening.Plus, d, opening.BatteryPlus) && m.joined(b, opening.Minus, d, opening.BatteryMinus) {
				f.battery = true
			}
		}
	}
	m.sources = append(m.sources, source{plus: m.net(plus), minus: m.net(minus), device: i})
	m.feed = append(m.feed, f)
}

func (m *Machine) joined(a *opening.Device, f opening.Function, b *opening.Device, g opening.Function) bool {
	x, y := m.first(a, f), m.first(b, g)
	return m.wired(x) && m.wired(y) && m.net(x) == m.net(y)
}

// passes adds the power that a device passes on while it has power itself.
func (m *Machine) passes(i int, d *opening.Device, power int) {
	plus, minus := m.first(d, opening.OutPlus), m.first(d, opening.OutMinus)
	if m.wired(plus) && m.wired(minus) {
		m.sources = append(m.sources, source{plus: m.net(plus), minus: m.net(minus), device: i, passed: true})
		m.feed = append(m.feed, feed{sense: power, mains: power < 0})
	}
}

func (m *Machine) addLock(i int, d *opening.Device) {
	l := lock{dev: i, slot: m.slot(2), door: m.door(d), magnet: d.Kind == opening.Magnet, handPole: -1, stuckSlot: -1}
	l.safe = l.magnet || d.Fails == "fail-safe"
	l.coil = m.coil(i, d)
	l.worst = worstRelease(d)
	l.release = m.up(l.worst + marginOfRelease)
	m.load(&l, d)
	m.locks = append(m.locks, l)
	m.contactsOf(i, d, "REX", false, driver{kind: 'h', index: l.door})
	for _, r := range d.Relays {
		if r.Follows == opening.FollowsFree {
			m.contactsOf(i, d, r.Name, false, driver{kind: 'k', index: len(m.locks) - 1})
		}
	}
}

// worstRelease is the longest that a lock may take to release: the slowest of the
// tries that were measured or twice their standard deviation above their mean,
// whichever is more; else the time that was written down with twice its spread.
func worstRelease(d *opening.Device) q.Time {
	var sum, most, n float64
	for _, t := range d.Tries {
		if t.Known {
			sum, n = sum+float64(t.Value), n+1
			most = max(most, float64(t.Value+2*t.U))
		}
	}
	if n > 0 {
		var squares float64
		for _, t := range d.Tries {
			if t.Known {
				squares += (float64(t.Value) - sum/n) * (float64(t.Value) - sum/n)
			}
		}
		if n > 1 {
			most = max(most, sum/n+2*math.Sqrt(squares/(n-1)))
		}
		return q.Time(most)
	}
	if d.Kind == opening.Magnet && d.Residual.Known {
		return d.Residual.Value + 2*d.Residual.U
	}
	if d.Release.Known {
		return d.Release.Value + 2*d.Release.U
	}
	if d.Kind == opening.Magnet {
		return usualMagnet
	}
	return usualRelease
}

func (m *Machine) up(t q.Time) int   { return int(math.Ceil(float64(t/m.Tick) - 1e-9)) }
func (m *Machine) down(t q.Time) int { return int(math.Floor(float64(t/m.Tick) + 1e-9)) }

// timed fills in the times of an output.
func (m *Machine) timed(o *output, delay, pulse, hold q.Measured[q.Time]) {
	o.onDelay, o.hold = m.down(delay.Value), m.down(hold.Value)
	if pulse.Known {
		o.pulse = max(1, m.down(pulse.Value))
	}
}

func (m *Machine) addRelays(i int, d *opening.Device) {
	power := m.coil(i, d)
	trigger := power
	if in := m.inputs(i, d, opening.TriggerInput); len(in) > 0 && !in[0].bare {
		trigger = in[0].sense
	}
	relays := d.Relays
	if len(relays) == 0 {
		relays = usualRelays(d)
	}
	for _, r := range relays {
		o := output{dev: i, slot: m.slot(2), door: m.door(d), name: r.Name, follows: r.Follows, power: power, trigger: trigger, oneShot: true}
		if d.Kind == opening.Receiver && trigger == power {
			o.trigger = -1
		}
		m.timed(&o, r.OnDelay, r.Pulse, r.Hold)
		m.outputs = append(m.outputs, o)
		m.contactsOf(i, d, r.Name, len(relays) == 1, driver{kind: 'o', index: len(m.outputs) - 1})
	}
	m.passes(i, d, power)
}

// usualRelays are the outputs of a device that lists none.
func usualRelays(d *opening.Device) []opening.Relay {
	one := func(name string, f opening.Follows) opening.Relay {
		return opening.Relay{Name: name, Follows: f, OnDelay: d.OnDelay, Pulse: d.Pulse, Hold: d.Hold}
	}
	switch d.Kind {
	case opening.Receiver:
		r := one("", opening.FollowsTrigger)
		r.Pulse = r.Pulse.Or(q.Exactly(usualRadio))
		return []opening.Relay{r}
	case opening.Sequencer:
		lock, start := one("LOCK", opening.FollowsTrigger), one("DRIVE", opening.FollowsTrigger)
		lock.OnDelay = q.Measured[q.Time]{}
		lock.Pulse = d.Pulse.Or(q.Exactly(usualUnlock))
		start.Pulse = q.Exactly(usualRadio)
		start.OnDelay = d.OnDelay
		return []opening.Relay{lock, start}
	case opening.AccessRelay:
		r := one("", opening.FollowsRelease)
		r.Pulse = r.Pulse.Or(q.Exactly(usualUnlock))
		return []opening.Relay{r}
	case opening.Drive:
		return []opening.Relay{{Name: "LOCK", Follows: opening.FollowsStart}}
	}
	return []opening.Relay{one("", opening.FollowsTrigger)}
}

func (m *Machine) addAccess(i int, d *opening.Device) {
	a := access{dev: i, slot: m.slot(1), door: m.door(d), power: m.coil(i, d), schedule: d.OnSchedule == "yes", reads: true}
	a.exit, a.position = m.inputs(i, d, opening.ExitInput), m.inputs(i, d, opening.PositionInput)
	m.hasDay = m.hasDay || a.schedule
	m.accesses = append(m.accesses, a)
	relays := d.Relays
	if len(relays) == 0 {
		relays = usualRelays(d)
	}
	for _, r := range relays {
		o := output{dev: i, slot: m.slot(2), door: a.door, name: r.Name, follows: r.Follows, power: a.power, trigger: len(m.accesses) - 1}
		m.timed(&o, r.OnDelay, r.Pulse, r.Hold)
		if o.pulse == 0 && (r.Follows == opening.FollowsCredential || r.Follows == opening.FollowsRelease || r.Follows == opening.FollowsExit) {
			o.pulse = m.down(usualUnlock)
		}
		m.outputs = append(m.outputs, o)
		m.contactsOf(i, d, r.Name, len(relays) == 1, driver{kind: 'o', index: len(m.outputs) - 1})
	}
	m.passes(i, d, a.power)
}

func (m *Machine) addDrive(i int, d *opening.Device) {
	x := drive{dev: i, slot: m.slot(3), door: m.door(d), power: -1, level: d.StartBy == opening.WhileShut, yields: d.NoFight != "no", unloads: d.Unloads == "yes"}
	x.line = m.wired(m.first(d, opening.Line)) || m.first(d, opening.Plus) == ""
	if !x.line {
		x.power = m.coil(i, d)
	}
	x.enable, x.alarm = m.inputs(i, d, opening.EnableInput), m.inputs(i, d, opening.AlarmInput)
	x.start, x.hold = m.inputs(i, d, opening.StartInput), m.inputs(i, d, opening.HoldInput)
	x.safety = m.inputs(i, d, opening.SafetyInput)
	x.onDelay = m.down(d.OnDelay.Value)
	x.clear = max(1, m.up(cmp.Or(m.Doors[x.door].Clear, UsualClear)))
	m.drives = append(m.drives, x)
	relays := d.Relays
	if len(relays) == 0 {
		relays = usualRelays(d)
	}
	for _, r := range relays {
		o := output{dev: i, slot: m.slot(2), door: x.door, name: r.Name, follows: r.Follows, power: x.power, trigger: len(m.drives) - 1, oneShot: true}
		m.timed(&o, r.OnDelay, r.Pulse, r.Hold)
		m.outputs = append(m.outputs, o)
		m.contactsOf(i, d, r.Name, len(relays) == 1, driver{kind: 'o', index: len(m.outputs) - 1})
	}
	m.passes(i, d, x.power)
}

// virtualLocks adds a lock that nothing releases to a door that has one and
// whose wiring knows of none.
func (m *Machine) virtualLocks() {
	for i, d := range m.Doors {
		if d.LockedByOld && !slices.ContainsFunc(m.locks, func(l lock) bool { return l.door == i }) {
			m.locks = append(m.locks, lock{dev: -1, slot: m.slot(2), door: i, coil: -1, handPole: -1, stuckSlot: -1})
		}
	}
}

// learn lets transmitters start the receivers that they are learned to.
func (m *Machine) learn() {
	for k := range m.levers {
		to := m.wiring.Devices[m.levers[k].dev].LearnedTo
		for i := range m.outputs {
			o := &m.outputs[i]
			if d := &m.wiring.Devices[o.dev]; to != "" && d.Name == to && d.Kind == opening.Receiver {
				o.radio = append(o.radio, k)
				if o.pulse == 0 {
					o.pulse = m.down(usualRadio)
				}
			}
		}
	}
}

// caps shortens what is longer than everything that has to happen within it:
// beyond that it may end at any time.
func (m *Machine) caps(exact bool) {
	sum := 0
	for i := range m.outputs {
		sum += m.outputs[i].onDelay
	}
	for i := range m.drives {
		sum = max(sum, sum+m.drives[i].onDelay)
	}
	m.want = sum + m.up(0.3) + 1
	for i := range m.drives {
		d := &m.drives[i]
		if locked := slices.ContainsFunc(m.locks, func(l lock) bool { return l.door == d.door }); !locked && !exact {
			d.clear = 1 // nothing catches its leaf, and how long it opens is left free
		}
	}
	longest := sum
	for i := range m.drives {
		longest = max(longest, sum+m.drives[i].clear)
	}
	for i := range m.locks {
		longest = max(longest, sum+m.locks[i].release)
	}
	m.capTicks = min(longest+2, 120)
	m.want = min(m.want, 120)
	if exact {
		m.capTicks = 250
	}
	for i := range m.outputs {
		o := &m.outputs[i]
		if o.pulse > m.capTicks {
			o.pulse, o.pulseFree = m.capTicks, true
		}
		if o.hold > m.capTicks {
			o.hold, o.holdFree = m.capTicks, true
		}
		o.onDelay = min(o.onDelay, 250)
	}
}

// prune leaves outputs without a wired contact and without an effect where they are.
func (m *Machine) prune() {
	used := make([]bool, len(m.outputs))
	for _, d := range m.drivers {
		if d.kind == 'o' {
			used[d.index] = true
		}
	}
	for i := range m.outputs {
		if o := &m.outputs[i]; !used[i] && m.wiring.Devices[o.dev].Kind != opening.AccessRelay {
			o.power = none // no contact of it is wired: it may as well stay off
		}
	}
}

// none is the sense of what never has power.
const none = -2
