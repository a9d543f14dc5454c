package opening

import (
	"slices"
	"strings"
)

// At splits the end of a wire into device and terminal; found is false where no
// dot parts them.
func At(end string) (device, terminal string, found bool) { return strings.Cut(end, ".") }

// Points are the terminals of the device: those that were written down, else
// those usual for its kind.
func (d *Device) Points() []Terminal {
	if len(d.Terminals) > 0 {
		return d.Terminals
	}
	return usual[d.Kind]
}

// Point is the terminal of a name, and whether the device has it.
func (d *Device) Point(name string) (Terminal, bool) {
	points := d.Points()
	i := slices.IndexFunc(points, func(t Terminal) bool { return t.Name == name })
	if i < 0 {
		return Terminal{}, false
	}
	return points[i], true
}

// MayHave tells whether a device of this kind can have a terminal of that function.
func (k DeviceKind) MayHave(f Function) bool {
	return f == Joint || f == Earth || slices.Contains(possible[k], f) ||
		slices.ContainsFunc(usual[k], func(t Terminal) bool { return t.Function == f })
}

// Functions are those that a terminal of such a device may have.
func (k DeviceKind) Functions() []Function {
	var fs []Function
	for _, f := range (Function("")).Choices() {
		if k.MayHave(Function(f)) {
			fs = append(fs, Function(f))
		}
	}
	return fs
}

// ContactsOf are the terminals of one relay or pole.
func (d *Device) ContactsOf(of string) []Terminal {
	var ts []Terminal
	for _, t := range d.Points() {
		if t.Of == of && (t.Function == Common || t.Function == NormallyOpen || t.Function == NormallyShut) {
			ts = append(ts, t)
		}
	}
	return ts
}

var (
	fed     = []Terminal{{Name: "+", Function: Plus}, {Name: "-", Function: Minus}}
	contact = []Terminal{{Name: "C", Function: Common}, {Name: "NO", Function: NormallyOpen}, {Name: "NC", Function: NormallyShut}}
	mains   = []Terminal{{Name: "L", Function: Line}, {Name: "N", Function: Neutral}, {Name: "PE", Function: Earth}}
)

func contactOf(of string) []Terminal {
	return []Terminal{{Name: of + " C", Function: Common, Of: of}, {Name: of + " NO", Function: NormallyOpen, Of: of}, {Name: of + " NC", Function: NormallyShut, Of: of}}
}

// usual are the terminals of each kind of device, as such devices commonly have
// them (common practice); a device with other marks lists its own.
var usual = map[DeviceKind][]Terminal{
	Drive: slices.Concat(fed, []Terminal{
		{Name: "START", Function: StartInput}, {Name: "COM", Function: InputCommon},
		{Name: "ENABLE", Function: EnableInput, Normal: Closed}, {Name: "ALARM", Function: AlarmInput, Normal: Closed},
		{Name: "HOLD", Function: HoldInput}, {Name: "SAFETY", Function: SafetyInput},
		{Name: "OUT+", Function: OutPlus}, {Name: "OUT-", Function: OutMinus}}, contactOf("LOCK")),
	PowerSupply:    slices.Concat(mains, fed, []Terminal{{Name: "B+", Function: BatteryPlus}, {Name: "B-", Function: BatteryMinus}}),
	StandbyBattery: fed,
	BranchCircuit:  mains,
	PushPlate:      contact,
	TouchlessPlate: slices.Concat(fed, contact),
	Transmitter:    nil,
	Receiver:       slices.Concat(fed, contact),
	ElectricStrike: fed,
	ElectricLock:   slices.Concat(fed, contactOf("REX")),
	SolenoidExit:   slices.Concat(fed, contactOf("REX")),
	MotorExit:      slices.Concat(fed, contactOf("REX")),
	Magnet:         fed,
	Reader:         slices.Concat(fed, []Terminal{{Name: "D", Function: Data}}),
	AccessRelay: slices.Concat(fed, []Terminal{{Name: "D", Function: Data}, {Name: "COM", Function: InputCommon},
		{Name: "REX", Function: ExitInput}, {Name: "DPS", Function: PositionInput, Normal: Closed}}, contact),
	RequestToExit:  slices.Concat(fed, contact),
	AlarmModule:    contact,
	AlarmSounder:   contact,
	DelayRelay:     slices.Concat(fed, []Terminal{{Name: "TRIG", Function: TriggerInput}, {Name: "COM", Function: InputCommon}}, contact),
	Sequencer:      slices.Concat(fed, []Terminal{{Name: "TRIG", Function: TriggerInput}, {Name: "COM", Function: InputCommon}}, contactOf("LOCK"), contactOf("DRIVE")),
	PlainRelay:     slices.Concat(fed, contact),
	PositionSwitch: contact,
	KeySwitch:      contact,
	NightSwitch:    contact,
	EnableSwitch:   contact,
	HoldOpenSwitch: contact,
	PresenceSensor: slices.Concat(fed, contact),
	Snubber:        {{Name: "a", Function: Joint}, {Name: "b", Function: Joint}},
}

// possible are further functions that a device of the kind can have.
var possible = map[DeviceKind][]Function{
	Drive:          {Line, Neutral},
	StandbyBattery: {BatteryPlus, BatteryMinus},
	AccessRelay:    {TriggerInput, OutPlus, OutMinus},
	AlarmModule:    {Plus, Minus},
	AlarmSounder:   {Plus, Minus},
	ElectricStrike: {Common, NormallyOpen, NormallyShut},
	Magnet:         {Common, NormallyOpen, NormallyShut},
	Receiver:       {TriggerInput, InputCommon},
	PushPlate:      {Plus, Minus},
	DelayRelay:     {OutPlus, OutMinus},
	Sequencer:      {OutPlus, OutMinus},
}
