package opening

import q "swingwright/quantity"

// A Point is a place in the plan view, measured on site from the hinge pin.
type Point struct {
	Along q.Measured[q.Length] `key:"along" doc:"Distance from the hinge pin along the closed leaf, toward the latch edge."`
	Off   q.Measured[q.Length] `key:"off" doc:"Distance from the line through the hinge pin along the closed leaf, toward the side on which the closer sits."`
}

// ArmKind is how the closer is fixed and linked.
type ArmKind string

// The arrangements of closer and arm.
const (
	RegularArm  ArmKind = "regular"     // body on the leaf, pull side, two-bar arm
	ParallelArm ArmKind = "parallel"    // body on the leaf, push side, two-bar arm folded beside the frame
	TopJamb     ArmKind = "top-jamb"    // body on the frame, push side, two-bar arm
	SlideTrack  ArmKind = "slide-track" // single arm whose roller runs in a track
)

// Choices lists the kinds of arm that a file may name.
func (ArmKind) Choices() []string {
	return []string{string(RegularArm), string(ParallelArm), string(TopJamb), string(SlideTrack)}
}

// Side is a side of the closed leaf.
type Side string

// The sides of a closed leaf.
const (
	PullSide Side = "pull" // the side toward which the leaf swings
	PushSide Side = "push" // the other side
)

// Choices lists the sides that a file may name.
func (Side) Choices() []string { return []string{string(PullSide), string(PushSide)} }

// Seat is what the closer's body is fixed to.
type Seat string

// The seats of a closer's body.
const (
	OnLeaf  Seat = "leaf"
	OnFrame Seat = "frame"
)

// Choices lists the seats that a file may name.
func (Seat) Choices() []string { return []string{string(OnLeaf), string(OnFrame)} }

// ArmSheet is what the user copied from the maker's paper of an arm.
type ArmSheet struct {
	Name    string               `key:"name" need:"yes" names:"arm" doc:"Name by which openings refer to this sheet."`
	Page    string               `key:"page" doc:"Page of the maker's paper that the values were copied from."`
	Kind    ArmKind              `key:"kind" need:"yes" doc:"How the closer is fixed and linked."`
	Main    q.Measured[q.Length] `key:"main_arm" need:"yes" over:"0" doc:"Length of the arm on the pinion, axis to axis."`
	Fore    q.Measured[q.Length] `key:"forearm" over:"0" doc:"Length of the forearm, elbow to shoe; not for a slide track."`
	Pinion  Point                `key:"pinion" doc:"Where the template puts the pinion; an opening may say where it really is."`
	Shoe    Point                `key:"shoe" doc:"Where the template puts the shoe, or one point of the track's line."`
	Elbow   Side                 `key:"elbow" doc:"Side toward which the elbow lies when the leaf is closed; not for a slide track."`
	Body    Seat                 `key:"body" doc:"What a slide track's closer body is fixed to; the other arms imply it."`
	Side    Side                 `key:"side" doc:"Side on which a slide track's closer sits; the other arms imply it."`
	Roller  RollerSide           `key:"roller" doc:"Where a slide track's roller lies from the pinion when the leaf is closed."`
	ForUnit YesNo                `key:"for_unit" doc:"Whether it is the arm of a power unit, and none for a closer."`
	Holes   []Hole               `key:"holes" doc:"Holes of its shoe, bracket or track, each from named edges."`
	Limits  ArmLimits            `key:"limits" doc:"Limits of use that the paper states."`
}

// ArmLimits are the limits of use of an arm's paper; what is not given is not limited.
type ArmLimits struct {
	OpenMax   q.Measured[q.Angle]  `key:"open_max" over:"0" doc:"Largest angle to which the leaf may open with it."`
	RevealMax q.Measured[q.Length] `key:"reveal_max" from:"0" doc:"Deepest reveal."`
	HoldsOpen YesNo                `key:"holds_open" doc:"Whether the arm itself can hold the leaf open."`
}

// RollerSide is where a slide track's roller lies from the pinion.
type RollerSide string

// The places of a roller.
const (
	TowardLatch RollerSide = "latch"
	TowardHinge RollerSide = "hinge"
)

// Choices lists the places of a roller that a file may name.
func (RollerSide) Choices() []string { return []string{string(TowardLatch), string(TowardHinge)} }

// CloserSheet is what the user copied from the maker's paper of a closer.
type CloserSheet struct {
	Name          string                `key:"name" need:"yes" names:"closer" doc:"Name by which openings refer to this sheet."`
	Page          string                `key:"page" doc:"Page of the maker's paper that the values were copied from."`
	Powers        []Power               `key:"powers" need:"yes" doc:"Spring by power setting, weakest first."`
	Efficiency    q.Measured[q.Ratio]   `key:"efficiency" over:"0" to:"1" doc:"Closing moment over opening moment, as 0.6 or 60 %."`
	Sweep         Valve                 `key:"sweep" doc:"Sweep valve at one known position."`
	Latch         Valve                 `key:"latch" doc:"Latch valve at one known position."`
	Backcheck     Valve                 `key:"backcheck" doc:"Backcheck valve at one known position."`
	LatchFrom     q.Measured[q.Angle]   `key:"latch_zone_from" from:"0" doc:"Pinion turn from closed below which the latch valve governs closing."`
	BackcheckFrom q.Measured[q.Angle]   `key:"backcheck_from" from:"0" doc:"Pinion turn from closed above which the backcheck valve governs opening."`
	FreeFlow      q.Measured[q.Damping] `key:"opening_resistance" from:"0" doc:"Resistance at the pinion to opening below backcheck, torque per rate of turn."`
	Oil           Oil                   `key:"oil" doc:"Oil, for the effect of temperature."`
	Weight        q.Measured[q.Mass]    `key:"weight" over:"0" doc:"Its weight."`
	Holes         []Hole                `key:"holes" doc:"Holes of its template, each from named edges."`
	Limits        CloserLimits          `key:"limits" doc:"Limits of use that the paper states."`
}

// CloserLimits are the limits of use of a closer's paper; what is not given is not limited.
type CloserLimits struct {
	Arms    []ArmKind                 `key:"arm_kinds" doc:"Arms that it may be used with."`
	OpenMax q.Measured[q.Angle]       `key:"open_max" over:"0" doc:"Largest angle to which the leaf may open."`
	Coldest q.Measured[q.Temperature] `key:"coldest" doc:"Lowest temperature at which it works."`
	Hottest q.Measured[q.Temperature] `key:"hottest" doc:"Highest temperature at which it works."`
	ForFire YesNo                     `key:"fire_suitable" doc:"Whether it is marked as suitable for fire doors."`
}

// Power is one marked setting of a closer's spring.
type Power struct {
	Size   q.Measured[q.Ratio]       `key:"size" need:"yes" over:"0" doc:"Marked power setting, a number such as 3 or 3.5."`
	Closed q.Measured[q.Torque]      `key:"torque_closed" need:"yes" from:"0" doc:"Spring torque at the pinion with the leaf closed."`
	Rate   q.Measured[q.TorsionRate] `key:"torque_rise" from:"0" doc:"Rise of the spring torque per angle that the pinion turns."`
	Width  q.Measured[q.Length]      `key:"width_max" over:"0" doc:"Widest leaf at this setting, as the paper says."`
	Weight q.Measured[q.Mass]        `key:"weight_max" over:"0" doc:"Heaviest leaf at this setting, as the paper says."`
}

// Valve is one valve's resistance at one known position.
type Valve struct {
	At      q.Measured[q.Turns]         `key:"at" over:"0" doc:"Turns from shut at which the resistances hold."`
	Shut    q.Measured[q.Turns]         `key:"shut" from:"0" doc:"Turns at which flow really stops; zero when not given."`
	Viscous q.Measured[q.Damping]       `key:"viscous" from:"0" doc:"Resisting torque at the pinion per rate of turn."`
	Orifice q.Measured[q.SquareDamping] `key:"orifice" from:"0" doc:"Resisting torque at the pinion per square of the rate of turn."`
}

// Oil is a closer's oil at the two standard temperatures.
type Oil struct {
	At40  q.Measured[q.Viscosity] `key:"viscosity_40C" over:"0" doc:"Kinematic viscosity at 40 °C."`
	At100 q.Measured[q.Viscosity] `key:"viscosity_100C" over:"0" doc:"Kinematic viscosity at 100 °C."`
}

// LatchSheet is what the user copied from the maker's paper of a latch.
type LatchSheet struct {
	Name   string               `key:"name" need:"yes" names:"latch" doc:"Name by which openings refer to this sheet."`
	Page   string               `key:"page" doc:"Page of the maker's paper that the values were copied from."`
	Force  q.Measured[q.Force]  `key:"force" need:"yes" from:"0" doc:"Force at the bolt, square to the leaf, that pushes the bolt over the strike lip."`
	Throw  q.Measured[q.Length] `key:"throw" from:"0" doc:"How far the bolt stands out."`
	Motion ReleaseMotion        `key:"release_motion" doc:"How the hand releases it."`
}

// ReleaseMotion is how the hand releases a latch.
type ReleaseMotion string

// Choices lists the motions that a file may name.
func (ReleaseMotion) Choices() []string { return []string{"none", "push-pull", "rotating"} }

// SealSheet is what the user copied from the maker's paper of a seal.
type SealSheet struct {
	Name  string               `key:"name" need:"yes" names:"seal" doc:"Name by which openings refer to this sheet."`
	Page  string               `key:"page" doc:"Page of the maker's paper that the values were copied from."`
	Force q.Measured[q.Force]  `key:"force" need:"yes" from:"0" doc:"Force at the latch edge that holds the leaf closed against the seals alone."`
	Gap   q.Measured[q.Length] `key:"gap" from:"0" doc:"Opening at the latch edge at which the seals first touch."`
}

// Sheets are the hardware sheets that a job may refer to, by kind and name.
type Sheets struct {
	Closers   []CloserSheet   `key:"closers" doc:"Closers."`
	Arms      []ArmSheet      `key:"arms" doc:"Arms and tracks."`
	Latches   []LatchSheet    `key:"latches" doc:"Latches."`
	Seals     []SealSheet     `key:"seals" doc:"Seals."`
	Operators []OperatorSheet `key:"operators" doc:"Power operators."`
	Locks     []LockSheet     `key:"locks" doc:"Locks and exit devices."`
	Strikes   []StrikeSheet   `key:"strikes" doc:"Electric strikes."`
	Actuators []ActuatorSheet `key:"actuators" doc:"Plates, touchless switches and whatever else starts an operator."`
	Supplies  []SupplySheet   `key:"supplies" doc:"Power supplies."`
	Fixtures  []FixtureSheet  `key:"fixtures" doc:"Anything else that is fixed with holes."`
}
