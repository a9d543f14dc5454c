package opening

import q "swingwright/quantity"

// Wiring is how the devices of an opening, or of a group that shares one, are
// connected, point to point.
type Wiring struct {
	Devices    []Device            `key:"devices" doc:"Everything with a terminal, and what is learned by radio."`
	Wires      []Wire              `key:"wires" doc:"Every conductor, from terminal to terminal."`
	Cables     []Cable             `key:"cables" doc:"The cables that the wires run in."`
	Conduits   []Conduit           `key:"conduits" doc:"The conduits that the cables lie in."`
	Enclosures []Enclosure         `key:"enclosures" doc:"Boxes and housings that hold several devices."`
	Diversity  q.Measured[q.Ratio] `key:"diversity" over:"0" to:"1" doc:"Share of what the devices take at work, beyond rest, that a supply is sized for, where they never all work at once; all of it when not given."`
	Standby    Standby             `key:"standby" doc:"What a battery has to do when the mains fail."`
}

// None tells a wiring of which nothing was written down.
func (w *Wiring) None() bool { return len(w.Devices) == 0 && len(w.Wires) == 0 && len(w.Cables) == 0 }

// Device is the device of a name, nil where there is none.
func (w *Wiring) Device(name string) *Device {
	for i := range w.Devices {
		if w.Devices[i].Name == name {
			return &w.Devices[i]
		}
	}
	return nil
}

// Standby is what a battery has to do when the mains fail.
type Standby struct {
	Time     q.Measured[q.Time]        `key:"time" from:"0" doc:"How long the devices have to work without mains, as 4 h."`
	Openings q.Measured[q.Ratio]       `key:"openings" from:"0" doc:"How often a day the leaf is opened under power meanwhile."`
	Coldest  q.Measured[q.Temperature] `key:"coldest" doc:"Lowest temperature of the battery; 85 % of its capacity is reckoned with when not given."`
}

// A Device is one thing with terminals, or one that is learned by radio.
type Device struct {
	Name       string                `key:"name" need:"yes" doc:"Name of the device, once in this wiring, without a dot."`
	Kind       DeviceKind            `key:"kind" need:"yes" doc:"What it is."`
	Sheet      string                `key:"sheet" doc:"Name of its hardware sheet, where there is one of its sort: operator, lock, strike, actuator or supply."`
	Opening    string                `key:"opening" ref:"opening" doc:"The opening that it belongs to, in the wiring of a group."`
	Side       DeviceSide            `key:"side" doc:"From where one works it: outside is the side that is locked, between is in a vestibule."`
	Place      string                `key:"place" doc:"Where it sits, in your words."`
	Enclosure  string                `key:"enclosure" doc:"Name of the enclosure that it sits in, where that holds several devices."`
	By         string                `key:"by" doc:"Who supplies and connects it, where that is not you."`
	Volts      q.Measured[q.Voltage] `key:"volts" over:"0" doc:"Voltage that it needs, or gives where it is a source."`
	Least      q.Measured[q.Voltage] `key:"volts_min" over:"0" doc:"Lowest voltage at which it is sure to work, as its label or paper says."`
	Idle       q.Measured[q.Current] `key:"current_idle" from:"0" doc:"Current that it draws while nothing happens."`
	Working    q.Measured[q.Current] `key:"current_working" from:"0" doc:"Current that it draws while it works; the rated one where it is a source, that of its breaker for a branch circuit."`
	Peak       q.Measured[q.Current] `key:"current_peak" from:"0" doc:"Largest current, at its start; the largest for some seconds where it is a source."`
	Holding    q.Measured[q.Current] `key:"current_holding" from:"0" doc:"Current that a drive draws while it holds the leaf open."`
	PeakTime   q.Measured[q.Time]    `key:"peak_time" from:"0" doc:"How long the largest current lasts."`
	OnDelay    q.Measured[q.Time]    `key:"on_delay" from:"0" doc:"Time from the signal until its output acts; for a drive, until it starts the leaf."`
	Pulse      q.Measured[q.Time]    `key:"pulse" over:"0" doc:"How long its output acts once started, whatever the signal does meanwhile."`
	Hold       q.Measured[q.Time]    `key:"hold" from:"0" doc:"How long its output acts after the signal has ended; for a drive, how long it holds the leaf open."`
	Release    q.Measured[q.Time]    `key:"release" from:"0" doc:"Time from the signal until a lock is free."`
	Tries      []q.Measured[q.Time]  `key:"release_tries" doc:"That time as it was measured, try by try, under the preload of the closed leaf."`
	Residual   q.Measured[q.Time]    `key:"residual" from:"0" doc:"How long a magnet still holds after its current has ended."`
	PreloadMax q.Measured[q.Force]   `key:"preload_max" from:"0" doc:"Largest force of the leaf on a lock under which it still lets go; the strike's sheet tells where not given."`
	Unloads    YesNo                 `key:"unloads" doc:"Whether a drive draws the leaf shut for a moment before it opens it, which takes the load off its lock."`
	Fails      FailMode              `key:"fails" doc:"What a lock does when its power is lost: fail-safe is free, fail-secure is locked."`
	Normal     ContactState          `key:"normal" doc:"State of a switch's contact, from C to NO, with nobody at it and no alarm: open, or closed where it stands so in use."`
	StartBy    StartBy               `key:"start_by" doc:"What starts a drive: closing of its start contact, or the contact as long as it stays closed."`
	NoFight    YesNo                 `key:"yields" doc:"Whether a drive stops and opens again when somebody pushes the leaf while it closes; yes when not given."`
	LearnedTo  string                `key:"learned_to" doc:"For a transmitter: name of the receiver of this wiring that it is learned to."`
	LearnedOf  string                `key:"learned_opening" ref:"opening" doc:"For a transmitter: another opening, whose receiver it starts."`
	OnSchedule YesNo                 `key:"free_by_day" doc:"For an access controller: whether it keeps the lock released by day."`
	Relays     []Relay               `key:"relays" doc:"Outputs of a device that has several, or that has one which follows something other than usual."`
	Terminals  []Terminal            `key:"terminals" doc:"Its terminals as they are marked; those usual for its kind when not given."`
	Range      q.Measured[q.Length]  `key:"radio_range" from:"0" doc:"Distance over which it is heard."`
	Capacity   q.Measured[q.Charge]  `key:"capacity" over:"0" doc:"For a standby battery: its rated capacity, as 7 A·h."`
	Circuit    string                `key:"circuit" doc:"For a branch circuit: panel and number by which the building knows it, as L1-7; wirings that name the same one are added up."`
	Doors      q.Measured[q.Ratio]   `key:"other_doors" from:"0" doc:"For a branch circuit: how many operators of other openings are on it too."`
	Battery    q.Measured[q.Time]    `key:"battery_life" from:"0" doc:"How long its own battery lasts."`
}

// A Relay is one output of a device.
type Relay struct {
	Name    string             `key:"name" need:"yes" doc:"Its name; terminals name it under of."`
	Follows Follows            `key:"follows" need:"yes" doc:"What makes it act."`
	OnDelay q.Measured[q.Time] `key:"on_delay" from:"0" doc:"Time from that until it acts."`
	Pulse   q.Measured[q.Time] `key:"pulse" over:"0" doc:"How long it acts once started, whatever happens meanwhile."`
	Hold    q.Measured[q.Time] `key:"hold" from:"0" doc:"How long it acts after what it follows has ended."`
}

// A Terminal is one point of a device to which a wire can go.
type Terminal struct {
	Name     string       `key:"name" need:"yes" doc:"As it is marked."`
	Function Function     `key:"function" need:"yes" doc:"What it does."`
	Of       string       `key:"of" doc:"The relay, or the pole of a switch, that a contact belongs to, where the device has several."`
	Normal   ContactState `key:"normal" doc:"For an input: the state in which it wants to be left while nothing happens; open when not given."`
}

// A Wire is one conductor from terminal to terminal.
type Wire struct {
	From      string `key:"from" need:"yes" doc:"Device and terminal with a dot between them, as strike.+ is one."`
	To        string `key:"to" need:"yes" doc:"Device and terminal at the other end."`
	Cable     string `key:"cable" doc:"Name of the cable that it runs in; none for a link within one enclosure."`
	Conductor string `key:"conductor" doc:"Colour or number of the conductor."`
}

// A Cable joins two devices, or two enclosures.
type Cable struct {
	Name       string                    `key:"name" need:"yes" doc:"Number or name of the cable, once in this wiring."`
	From       string                    `key:"from" need:"yes" doc:"The device at which it begins."`
	To         string                    `key:"to" need:"yes" doc:"The device at which it ends."`
	Gauge      int                       `key:"gauge" from:"4" to:"30" doc:"Gauge of its conductors, AWG, as 18."`
	Solid      YesNo                     `key:"solid" doc:"Whether its conductors are one solid wire each; stranded when not given."`
	Tinned     YesNo                     `key:"tinned" doc:"Whether its copper is tinned; bare when not given."`
	Conductors int                       `key:"conductors" from:"1" to:"100" doc:"How many conductors it has."`
	Length     q.Measured[q.Length]      `key:"length" from:"0" doc:"Its length, one way."`
	Diameter   q.Measured[q.Length]      `key:"diameter" over:"0" doc:"Its outer diameter."`
	Conduit    string                    `key:"conduit" doc:"Name of the conduit that it lies in."`
	Class      CircuitClass              `key:"class" doc:"What sort of circuit it carries."`
	Warmth     q.Measured[q.Temperature] `key:"temperature" doc:"Temperature of its conductors; 75 °C when not given."`
	By         string                    `key:"by" doc:"Who pulls it, where that is not you."`
}

// A Conduit holds cables.
type Conduit struct {
	Name   string               `key:"name" need:"yes" doc:"Name of the conduit, once in this wiring."`
	Kind   ConduitKind          `key:"kind" doc:"What it is made as."`
	Trade  string               `key:"trade_size" doc:"Trade size, as 3/4."`
	Inside q.Measured[q.Length] `key:"inside" over:"0" doc:"Its inside diameter, where it is known."`
	Length q.Measured[q.Length] `key:"length" from:"0" doc:"Its length."`
}

// An Enclosure is a box or housing that holds several devices.
type Enclosure struct {
	Name    string `key:"name" need:"yes" doc:"Name of the enclosure, once in this wiring."`
	Place   string `key:"place" doc:"Where it is."`
	Barrier YesNo  `key:"barrier" doc:"Whether a barrier keeps line and low voltage apart in it."`
}

// DeviceKind is what a device is, in general words of the trade.
type DeviceKind string

// The kinds of device.
const (
	Drive          DeviceKind = "operator"            // drive on or at the leaf with its control
	PowerSupply    DeviceKind = "supply"              // mains in, low voltage out
	StandbyBattery DeviceKind = "battery"             // on a supply
	BranchCircuit  DeviceKind = "branch-circuit"      // the electrician's mains outlet or breaker
	PushPlate      DeviceKind = "push-plate"          // momentary contact
	TouchlessPlate DeviceKind = "touchless-switch"    // momentary contact that needs power
	Transmitter    DeviceKind = "transmitter"         // wireless push plate
	Receiver       DeviceKind = "receiver"            // what a transmitter is learned to
	ElectricStrike DeviceKind = "strike"              // electric strike
	ElectricLock   DeviceKind = "electrified-lock"    // mortise or cylindrical lock whose lever or bolt is released
	SolenoidExit   DeviceKind = "retraction-solenoid" // exit device whose latch a solenoid retracts
	MotorExit      DeviceKind = "retraction-motor"    // exit device whose latch a motor retracts
	Magnet         DeviceKind = "magnet"              // magnetic lock
	Reader         DeviceKind = "reader"              // reads a credential and tells the access controller
	AccessRelay    DeviceKind = "access-controller"   // its relays, request-to-exit and door inputs
	RequestToExit  DeviceKind = "request-to-exit"     // motion detector, button or touch bar on the inside
	AlarmModule    DeviceKind = "alarm-module"        // relay that follows the fire-alarm panel until it is reset
	AlarmSounder   DeviceKind = "alarm-sounder"       // relay on the sounder circuit: falls off when it is silenced
	DelayRelay     DeviceKind = "delay-relay"         // one input, one output with a time
	Sequencer      DeviceKind = "sequencer"           // one or more inputs, several outputs with times
	PlainRelay     DeviceKind = "relay"               // isolating relay
	PositionSwitch DeviceKind = "position-contact"    // tells whether the leaf is shut
	KeySwitch      DeviceKind = "key-switch"          // stays as it is turned
	NightSwitch    DeviceKind = "night-switch"        // locks the outside at night
	EnableSwitch   DeviceKind = "enable-switch"       // takes the motor off the leaf
	HoldOpenSwitch DeviceKind = "hold-open-switch"    // asks the drive to hold the leaf open
	PresenceSensor DeviceKind = "presence-sensor"     // sees somebody in the swing
	Snubber        DeviceKind = "snubber"             // diode or other suppressor across a coil
	TerminalStrip  DeviceKind = "terminal-strip"      // terminals that join wires; a name that occurs twice is one point
)

// Choices lists the kinds that a file may name.
func (DeviceKind) Choices() []string {
	var s []string
	for _, k := range []DeviceKind{Drive, PowerSupply, StandbyBattery, BranchCircuit, PushPlate, TouchlessPlate, Transmitter, Receiver,
		ElectricStrike, ElectricLock, SolenoidExit, MotorExit, Magnet, Reader, AccessRelay, RequestToExit, AlarmModule, AlarmSounder,
		DelayRelay, Sequencer, PlainRelay, PositionSwitch, KeySwitch, NightSwitch, EnableSwitch, HoldOpenSwitch, PresenceSensor, Snubber, TerminalStrip} {
		s = append(s, string(k))
	}
	return s
}

// IsLock tells a kind of device that keeps the leaf locked.
func (k DeviceKind) IsLock() bool {
	switch k {
	case ElectricStrike, ElectricLock, SolenoidExit, MotorExit, Magnet:
		return true
	}
	return false
}

// DeviceSide is from where one works a device.
type DeviceSide string

// The sides of an opening.
const (
	Inside  DeviceSide = "inside"  // the side from which one gets out
	Outside DeviceSide = "outside" // the side that is locked
	Between DeviceSide = "between" // between the doors of a vestibule
)

// Choices lists the sides that a file may name.
func (DeviceSide) Choices() []string {
	return []string{string(Inside), string(Outside), string(Between)}
}

// ContactState is whether a contact lets current through.
type ContactState string

// The states of a contact.
const (
	Open   ContactState = "open"
	Closed ContactState = "closed"
)

// Choices lists the states that a file may name.
func (ContactState) Choices() []string { return []string{string(Open), string(Closed)} }

// StartBy is what starts a drive.
type StartBy string

// The ways to start a drive.
const (
	ByClosing StartBy = "closing" // each time that the start contact closes
	WhileShut StartBy = "closed"  // as long as the start contact is closed
)

// Choices lists the ways that a file may name.
func (StartBy) Choices() []string { return []string{string(ByClosing), string(WhileShut)} }

// Follows is what makes a relay act.
type Follows string

// What a relay may follow.
const (
	FollowsTrigger    Follows = "trigger"    // the device's own trigger input or coil
	FollowsStart      Follows = "start"      // a drive: from the start that it took until the leaf stands open
	FollowsMoving     Follows = "moving"     // a drive: while it drives the leaf
	FollowsOpen       Follows = "open"       // a drive: while the leaf is not shut
	FollowsCredential Follows = "credential" // an access controller: a valid credential, or its schedule
	FollowsExit       Follows = "exit"       // an access controller: its request-to-exit input
	FollowsRelease    Follows = "release"    // an access controller: either of the two
	FollowsForced     Follows = "forced"     // an access controller: the door was opened without either
	FollowsFree       Follows = "free"       // a lock: while it is free, as its own monitor contact tells
)

// Choices lists what a file may name.
func (Follows) Choices() []string {
	return []string{string(FollowsTrigger), string(FollowsStart), string(FollowsMoving), string(FollowsOpen),
		string(FollowsCredential), string(FollowsExit), string(FollowsRelease), string(FollowsForced), string(FollowsFree)}
}

// CircuitClass is what sort of circuit a cable carries.
type CircuitClass string

// The sorts of circuit.
const (
	LineCircuit     CircuitClass = "line"
	ClassTwoCircuit CircuitClass = "class-2"
	AlarmCircuit    CircuitClass = "fire-alarm"
	DataCircuit     CircuitClass = "data"
)

// Choices lists the sorts that a file may name.
func (CircuitClass) Choices() []string {
	return []string{string(LineCircuit), string(ClassTwoCircuit), string(AlarmCircuit), string(DataCircuit)}
}

// ConduitKind is how a conduit is made.
type ConduitKind string

// Choices lists the kinds that a file may name.
func (ConduitKind) Choices() []string {
	return []string{"EMT", "ENT", "FMC", "IMC", "LFMC", "PVC-40", "PVC-80", "RMC", "surface-raceway"}
}

// Function is what a terminal does.
type Function string

// The functions of terminals. A load takes its power at plus and minus; a source
// gives it there.
const (
	Line          Function = "line"
	Neutral       Function = "neutral"
	Earth         Function = "earth"
	Plus          Function = "plus"
	Minus         Function = "minus"
	OutPlus       Function = "out-plus"  // power that a device passes on
	OutMinus      Function = "out-minus" //
	BatteryPlus   Function = "battery-plus"
	BatteryMinus  Function = "battery-minus"
	Common        Function = "common"          // of a contact
	NormallyOpen  Function = "normally-open"   // joined to common while its relay or switch acts
	NormallyShut  Function = "normally-closed" // joined to common while it does not
	InputCommon   Function = "input-common"    // what the inputs below are joined to by dry contacts
	StartInput    Function = "start"           // opens the leaf
	EnableInput   Function = "enable"          // lets the drive work
	AlarmInput    Function = "alarm"           // takes the drive off the leaf
	HoldInput     Function = "hold-open"       // holds the leaf open once it is
	SafetyInput   Function = "safety"          // keeps the drive from moving the leaf into somebody
	TriggerInput  Function = "trigger"         // starts a receiver, delay relay or sequencer by a dry contact
	ExitInput     Function = "exit"            // request to exit, of an access controller
	PositionInput Function = "position"        // whether the leaf is shut, of an access controller
	Data          Function = "data"            // reader to controller
	Joint         Function = "point"           // joins the wires on it and does nothing
)

// Choices lists the functions that a file may name.
func (Function) Choices() []string {
	var s []string
	for _, f := range []Function{Line, Neutral, Earth, Plus, Minus, OutPlus, OutMinus, BatteryPlus, BatteryMinus, Common, NormallyOpen, NormallyShut,
		InputCommon, StartInput, EnableInput, AlarmInput, HoldInput, SafetyInput, TriggerInput, ExitInput, PositionInput, Data, Joint} {
		s = append(s, string(f))
	}
	return s
}
