package opening

import q "swingwright/quantity"

// Operator is the power operator as it is fitted, or as it is meant to be.
type Operator struct {
	Sheet     string                     `key:"sheet" ref:"operator" doc:"Name of the operator's hardware sheet; leave it empty where there is and shall be none."`
	Fitted    YesNo                      `key:"fitted" doc:"yes where it was fitted already when the closing times were taken; no where it is meant only."`
	Arm       string                     `key:"arm" ref:"arm" doc:"Name of the arm sheet of a unit with its own arm; an add-on has none."`
	Pinion    Point                      `key:"pinion" doc:"Where the axis of a unit's own arm really is, if measured."`
	Shoe      Point                      `key:"shoe" doc:"Where the far end of a unit's own arm really is, or a point of the track, if measured."`
	OpenAngle q.Measured[q.Angle]        `key:"open_angle" over:"0" to:"3.15" doc:"Leaf angle at which it is set to stop; 90 degrees when not given."`
	Setting   q.Measured[q.Ratio]        `key:"speed_setting" from:"0" doc:"Opening speed as marked on it, a number such as 3; the sheet tells the rate."`
	Speed     q.Measured[q.AngularSpeed] `key:"speed" over:"0" doc:"Rate of the leaf that its setting commands, where it is known; it outranks the setting."`
	SlowFrom  q.Measured[q.Angle]        `key:"slow_from" from:"0" doc:"Leaf angle from which it slows down; 70 degrees when not given."`
	Creep     q.Measured[q.AngularSpeed] `key:"creep" over:"0" doc:"Rate of the leaf to which it has slowed when it is fully open."`
	Dwell     q.Measured[q.Time]         `key:"dwell" from:"0" doc:"Time for which it is set to hold the leaf open."`
	PushStart q.Measured[q.Angle]        `key:"push_start" from:"0" doc:"Leaf angle to which a hand moves the leaf before the drive takes over; nothing where only a switch starts it."`
}

// OperatorKind is how an operator takes hold of the leaf.
type OperatorKind string

// The kinds of operator.
const (
	AddOn  OperatorKind = "add-on"  // drives the pinion of the closer that is there
	OwnArm OperatorKind = "own-arm" // a unit with an arm of its own
)

// Choices lists the kinds of operator that a file may name.
func (OperatorKind) Choices() []string { return []string{string(AddOn), string(OwnArm)} }

// OperatorSheet is what the user copied from the maker's paper of an operator.
// Its shaft is the closer's pinion, or the axis of its own arm.
type OperatorSheet struct {
	Name       string                     `key:"name" need:"yes" names:"operator" doc:"Name by which openings refer to this sheet."`
	Page       string                     `key:"page" doc:"Page of the maker's paper that the values were copied from."`
	Kind       OperatorKind               `key:"kind" need:"yes" doc:"How it takes hold of the leaf: through the closer's pinion, or by its own arm."`
	Stall      q.Measured[q.Torque]       `key:"stall_torque" need:"yes" over:"0" doc:"Largest torque of the drive at its shaft, standing still, before its own losses."`
	Free       q.Measured[q.AngularSpeed] `key:"free_speed" need:"yes" over:"0" doc:"Rate of its shaft at which no torque is left."`
	Efficiency q.Measured[q.Ratio]        `key:"efficiency" over:"0" to:"1" doc:"Torque that comes out at the shaft over torque of the drive, as 0.8 or 80 %."`
	Gain       q.Measured[q.Damping]      `key:"gain" over:"0" doc:"Torque that the control adds per rate that the leaf lacks of the commanded one."`
	Ramp       q.Measured[q.Time]         `key:"ramp" from:"0" doc:"Time in which the commanded rate rises to its full value."`
	Rotor      q.Measured[q.Inertia]      `key:"rotor_inertia" from:"0" doc:"Inertia of the motor's rotor about its own axis."`
	Gear       q.Measured[q.Ratio]        `key:"gear_ratio" over:"0" doc:"Turns of the rotor per turn of the shaft; 1 when not given, for an inertia given at the shaft."`
	BackDrive  q.Measured[q.Torque]       `key:"back_drive" from:"0" doc:"Torque at the shaft that turns the drive without power."`
	LetsGo     YesNo                      `key:"lets_go" doc:"yes where the drive lets go of the leaf without power, so that neither hand nor closer turns it along."`
	Speeds     []SpeedSetting             `key:"speeds" doc:"Commanded rates by the marked speed settings, slowest first."`
	Limits     UseLimits                  `key:"limits" doc:"Limits of use that the paper states."`
	Volts      q.Measured[q.Voltage]      `key:"volts" over:"0" doc:"Voltage that it needs."`
	Moving     q.Measured[q.Current]      `key:"current_moving" from:"0" doc:"Current while it moves the leaf."`
	Holding    q.Measured[q.Current]      `key:"current_holding" from:"0" doc:"Current while it holds the leaf open."`
	Weight     q.Measured[q.Mass]         `key:"weight" over:"0" doc:"Its weight."`
	Body       Seat                       `key:"body" doc:"What it is fixed to; where not given, an add-on to what its closer is fixed to, a unit to the frame."`
	Holes      []Hole                     `key:"holes" doc:"Holes of its template, each from named edges."`
	Supply     string                     `key:"supply" doc:"Supply that it needs, as the paper says it: volts, and amperes moving, holding and stalled."`
}

// SpeedSetting is one marked setting of an operator's opening speed.
type SpeedSetting struct {
	Setting q.Measured[q.Ratio]        `key:"setting" need:"yes" from:"0" doc:"Marked setting, a number."`
	Rate    q.Measured[q.AngularSpeed] `key:"rate" need:"yes" over:"0" doc:"Rate of the leaf that it commands."`
}

// UseLimits are the limits of use of an operator's paper; what is not given is
// not limited.
type UseLimits struct {
	WidthMin      q.Measured[q.Length]      `key:"width_min" over:"0" doc:"Narrowest leaf."`
	WidthMax      q.Measured[q.Length]      `key:"width_max" over:"0" doc:"Widest leaf."`
	WeightMin     q.Measured[q.Mass]        `key:"weight_min" over:"0" doc:"Lightest leaf."`
	WeightMax     q.Measured[q.Mass]        `key:"weight_max" over:"0" doc:"Heaviest leaf."`
	PowerMin      q.Measured[q.Ratio]       `key:"power_min" over:"0" doc:"Weakest power setting of the closer."`
	PowerMax      q.Measured[q.Ratio]       `key:"power_max" over:"0" doc:"Strongest power setting of the closer."`
	Arms          []ArmKind                 `key:"arm_kinds" doc:"Arms that it may be used with."`
	WallClearance q.Measured[q.Length]      `key:"wall_clearance" from:"0" doc:"Free space that it needs between the open leaf and a wall."`
	RevealMax     q.Measured[q.Length]      `key:"reveal_max" from:"0" doc:"Deepest reveal."`
	OpenMin       q.Measured[q.Angle]       `key:"open_min" over:"0" doc:"Least angle at which the leaf may be fully open."`
	OpenMax       q.Measured[q.Angle]       `key:"open_max" over:"0" doc:"Largest angle at which the leaf may be fully open."`
	CeilingRoom   q.Measured[q.Length]      `key:"ceiling_room" from:"0" doc:"Free height that it needs above the head of the frame, cover included."`
	CyclesMax     q.Measured[q.Ratio]       `key:"cycles_max" over:"0" doc:"Most openings a day."`
	WindMax       q.Measured[q.Speed]       `key:"wind_max" from:"0" doc:"Strongest wind at an opening to the outdoors; 0 mph where it is for indoors only."`
	Coldest       q.Measured[q.Temperature] `key:"coldest" doc:"Lowest temperature at which it works."`
	Hottest       q.Measured[q.Temperature] `key:"hottest" doc:"Highest temperature at which it works."`
	ForFire       YesNo                     `key:"fire_listed" doc:"Whether it is listed for use on fire doors."`
}
