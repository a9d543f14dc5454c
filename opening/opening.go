// Package opening holds one opening as it was found on site, and the hardware
// sheets that the user copied: plain data, with the meaning of every field in
// its tags, from which the job file's reader, its schema and its starter file
// are made. It also tells what is missing and what is implausible.
//
// The tags of a field say:
//
//	key    its name in a file
//	doc    its meaning, in one sentence for people
//	need   "yes" where a file must give it
//	over   a number in SI that the value must exceed
//	from   a number in SI that the value may not be below
//	to     a number in SI that the value may not exceed
//	form   how a text is written: date, or file
//	names  the sort of thing that this text names, once in a job
//	ref    the sort of thing whose name this text must be
//	own    "yes" where same_as never takes the field over from another opening
//	whole  "yes" where same_as takes the record over as a whole or not at all
package opening

import q "swingwright/quantity"

// An Opening is one doorway with its leaf and hardware, as found.
type Opening struct {
	ID        string         `key:"id" need:"yes" names:"opening" own:"yes" doc:"The owner's number of the opening, or one of yours; it names the opening everywhere."`
	Name      string         `key:"name" own:"yes" doc:"Where it is, room to room."`
	SameAs    string         `key:"same_as" ref:"opening" own:"yes" doc:"Another opening whose fields hold here too, save those given here, its name, its readings and its survey notes."`
	Use       Use            `key:"use" doc:"What the opening is for."`
	InPlaceOf string         `key:"in_place_of" ref:"opening" own:"yes" doc:"Another opening of which this is a possible change, to be compared with it: its fields hold here too, save those given here, its name, its readings and its survey notes. check leaves it out."`
	Leaf      Leaf           `key:"leaf" doc:"The leaf."`
	Frame     Frame          `key:"frame" doc:"Frame and hinges."`
	Closer    Closer         `key:"closer" doc:"Closer and arm as found."`
	Operator  Operator       `key:"operator" doc:"Power operator, as it is fitted or as it is meant to be."`
	Lock      Lock           `key:"lock" doc:"What keeps the leaf locked, and what frees it before it opens."`
	Latch     Latch          `key:"latch" doc:"Latch as found."`
	Seal      Seal           `key:"seal" doc:"Seals as found."`
	Air       Air            `key:"air" doc:"Pressure and temperature at the opening."`
	Doorway   Doorway        `key:"doorway" doc:"The way through: clear width, threshold and gaps."`
	Room      Room           `key:"room" doc:"Walls, ceiling and things around the swing."`
	Drilling  Drilling       `key:"drilling" doc:"What holes are to be drilled."`
	DoorLoop  DoorLoop       `key:"door_loop" doc:"Where the cord that carries wires from frame to leaf is anchored."`
	Power     Feed           `key:"power" doc:"What power there is for an operator."`
	Wiring    Wiring         `key:"wiring" whole:"yes" doc:"How the devices of the opening are connected, point to point."`
	Approach  Approach       `key:"approach" doc:"The free floor on either side."`
	Controls  []Control      `key:"controls" doc:"Switches and other things that start the leaf."`
	Signs     Signs          `key:"signs" doc:"Signs on leaf and wall."`
	Hinges    Hinges         `key:"hinges" doc:"The hinges as found."`
	Building  Building       `key:"building" doc:"The building and its users, as rules ask for them."`
	Fire      Fire           `key:"fire" doc:"What was found of a fire door: label, preparation on site, yearly look."`
	Safety    Safety         `key:"safety" doc:"What guards people at a powered leaf."`
	Service   Service        `key:"service" doc:"How the opening is looked after."`
	Work      Work           `key:"work" doc:"Where in the job it stands, and under which conditions it is worked on."`
	Readings  []Reading      `key:"readings" own:"yes" doc:"What was measured, under the names of the facts table; a reading outranks what is computed."`
	Adjusted  []Adjustment   `key:"adjustments" own:"yes" doc:"What was turned at the closer, in order, and what was found after each turn; the state found first stands under closer."`
	Survey    map[string]any `key:"survey" own:"yes" doc:"Anything else that was written down; kept as it is."`
}

// Place is where an opening is.
type Place string

// Choices lists the places that a file may name.
func (Place) Choices() []string {
	return []string{"interior", "exterior", "vestibule-outer", "vestibule-inner"}
}

// Operation is how a leaf is opened, as it is or is meant to be.
type Operation string

// Choices lists the operations that a file may name.
func (Operation) Choices() []string {
	return []string{"manual", "low-energy", "power-assist", "full-power"}
}

// Activation is what starts powered opening.
type Activation string

// Choices lists the activations that a file may name.
func (Activation) Choices() []string {
	return []string{"none", "switch", "touchless", "access-control", "push-pull", "sensor"}
}

// YesNo is an answer; empty is unknown.
type YesNo string

// Choices lists the answers that a file may give.
func (YesNo) Choices() []string { return []string{"yes", "no"} }

// Use is what the opening is for.
type Use struct {
	Place      Place               `key:"place" doc:"Where the opening is."`
	FireRated  YesNo               `key:"fire_rated" doc:"Whether leaf or frame carries a fire label, or must."`
	Egress     YesNo               `key:"egress" doc:"Whether the opening serves a way out."`
	Operation  Operation           `key:"operation" doc:"How the leaf is opened, as it is or is meant to be after the work."`
	Activation Activation          `key:"activation" doc:"What starts powered opening."`
	Cycles     q.Measured[q.Ratio] `key:"cycles_per_day" from:"0" doc:"How many times a day it is opened under power, or will be."`
}

// Powered tells a leaf that is, or is meant to be, opened by an operator.
func (u *Use) Powered() bool { return u.Operation != "" && u.Operation != "manual" }

// Outdoors tells an opening that leads to the outdoors.
func (u *Use) Outdoors() bool { return u.Place == "exterior" || u.Place == "vestibule-outer" }

// Leaf is the leaf as found.
type Leaf struct {
	Nominal     Nominal              `key:"nominal" doc:"Nominal size, such as 3070; used with a wide spread where the leaf was not measured."`
	Width       q.Measured[q.Length] `key:"width" over:"0" doc:"Width of the leaf, edge to edge."`
	Height      q.Measured[q.Length] `key:"height" over:"0" doc:"Height of the leaf."`
	Thickness   q.Measured[q.Length] `key:"thickness" over:"0" doc:"Thickness of the leaf."`
	Weight      q.Measured[q.Mass]   `key:"weight" over:"0" doc:"Total weight with all that is fixed to the leaf, if it was weighed."`
	SwingTest   SwingTest            `key:"swing_test" doc:"Weighing in place: the leaf pushed from rest with a constant force, arm off."`
	Layers      []Layer              `key:"layers" doc:"Construction over the whole leaf: faces, core, glass that replaces nothing."`
	Lites       []Lite               `key:"lites" doc:"Glass that replaces the construction in a cut-out."`
	Hardware    []Hardware           `key:"hardware" doc:"Things fixed to the leaf, each with its weight and place."`
	Projections []Projection         `key:"projections" doc:"Things that stand out from the faces of the leaf: lever, pull, bar, body of a closer."`
	Asbestos    YesNo                `key:"asbestos_doubt" doc:"Whether its core may hold asbestos: an old fire door without papers that say otherwise."`
	Concealed   YesNo                `key:"concealed" doc:"Whether rods, wires or raceways run hidden in the leaf where it would be drilled."`
	Inside      []Inner              `key:"inside" doc:"What is in the leaf or the frame where holes would go: what to keep clear of, and what screws are to hold in."`
	Holes       []OldHole            `key:"holes" doc:"Holes that are there already, in leaf and frame."`
	Handle      q.Measured[q.Length] `key:"handle" over:"0" doc:"Distance from the latch edge to where the hand works the leaf."`
}

// Nominal is a nominal size as the trade writes it, 3070.
type Nominal struct {
	Text          string
	Width, Height q.Length
}

// SwingTest is a weighing in place (the leaf's inertia from a free push).
type SwingTest struct {
	Force    q.Measured[q.Force]  `key:"force" over:"0" doc:"Constant push, square to the leaf."`
	Friction q.Measured[q.Force]  `key:"friction" from:"0" doc:"Slow push at the same place that just keeps the leaf moving."`
	At       q.Measured[q.Length] `key:"at" over:"0" doc:"Distance of the push from the hinge pin."`
	Angle    q.Measured[q.Angle]  `key:"angle" over:"0" doc:"Angle swept from rest."`
	Time     q.Measured[q.Time]   `key:"time" over:"0" doc:"Time it took."`
}

// Layer is one sheet of a leaf's construction, over its whole area.
type Layer struct {
	What      string                     `key:"what" doc:"What it is, for people."`
	Material  Material                   `key:"material" doc:"A material whose density the program knows."`
	Density   q.Measured[q.Density]      `key:"density" over:"0" doc:"Density, where the material is not in the list or is known better."`
	Thickness q.Measured[q.Length]       `key:"thickness" over:"0" doc:"Thickness of the sheet."`
	Gauge     int                        `key:"gauge" from:"12" to:"22" doc:"Steel sheet gauge, 12 to 22, in place of a thickness."`
	Areal     q.Measured[q.ArealDensity] `key:"areal" over:"0" doc:"Mass per area, in place of density and thickness."`
	Count     int                        `key:"count" from:"1" doc:"How many such sheets; 1 when not given, 2 for a pair of faces."`
}

// Material is a material whose density the program knows.
type Material string

// Choices lists the materials that a file may name.
func (Material) Choices() []string {
	return []string{"steel", "aluminium", "glass", "laminated glass", "wired glass", "particleboard", "honeycomb core", "polystyrene core", "polyurethane core", "steel-stiffened core", "mineral core", "oak", "maple", "poplar", "pine"}
}

// Lite is a pane that replaces the construction in a cut-out of the leaf.
type Lite struct {
	Width     q.Measured[q.Length] `key:"width" need:"yes" over:"0" doc:"Width of the cut-out."`
	Height    q.Measured[q.Length] `key:"height" need:"yes" over:"0" doc:"Height of the cut-out."`
	Thickness q.Measured[q.Length] `key:"thickness" need:"yes" over:"0" doc:"Thickness of the glass, all panes together."`
	Material  Material             `key:"material" doc:"Sort of glass; glass when not given."`
	FromHinge q.Measured[q.Length] `key:"from_hinge" over:"0" doc:"Distance from the hinge edge to the middle of the cut-out; the leaf's middle when not given."`
	FromTop   q.Measured[q.Length] `key:"from_top" over:"0" doc:"Distance from the top of the leaf to the upper edge of the cut-out."`
}

// Hardware is a thing fixed to the leaf.
type Hardware struct {
	What      string               `key:"what" need:"yes" doc:"What it is."`
	Weight    q.Measured[q.Mass]   `key:"weight" need:"yes" over:"0" doc:"Its weight."`
	FromHinge q.Measured[q.Length] `key:"from_hinge" need:"yes" from:"0" doc:"Distance from the hinge pin to its middle, along the leaf."`
	Off       q.Measured[q.Length] `key:"off" doc:"Distance of its middle from the leaf's middle plane; nothing when not given."`
}

// Hand is the side on which the hinges are.
type Hand string

// Choices lists the hands that a file may name.
func (Hand) Choices() []string {
	return []string{"LH", "RH", "LHR", "RHR"}
}

// Frame is frame and hinges as found.
type Frame struct {
	Hand     Hand                 `key:"hand" doc:"Side of the hinges, seen from the outside or key side: left or right, and reverse where the leaf swings toward you."`
	PinAlong q.Measured[q.Length] `key:"pin_to_edge" doc:"Distance from the hinge pin to the leaf's hinge edge, along the closed leaf."`
	PinOff   q.Measured[q.Length] `key:"pin_to_face" doc:"Distance from the hinge pin to the leaf's pull face, square to it."`
	Friction q.Measured[q.Force]  `key:"friction" from:"0" doc:"Slow push that keeps the leaf moving, arm off."`
	At       q.Measured[q.Length] `key:"friction_at" over:"0" doc:"Distance of that push from the hinge pin; 1 in from the latch edge when not given."`
	Lean     q.Measured[q.Length] `key:"lean" from:"0" doc:"How far the top hinge stands out of plumb over the lowest one."`
	Span     q.Measured[q.Length] `key:"lean_over" over:"0" doc:"Height over which the lean was measured."`
	Toward   Lean                 `key:"lean_toward" doc:"Which way the top leans."`
	Width    q.Measured[q.Length] `key:"opening_width" over:"0" doc:"Width between the jambs where the leaf sits, rabbet to rabbet; for one leaf of a pair, to where the leaves meet."`
	Stop     q.Measured[q.Length] `key:"stop" from:"0" doc:"How far the stops stand out from the jambs into the opening."`
	StopDeep q.Measured[q.Length] `key:"stop_depth" from:"0" doc:"How far the stops run on from the closed leaf, toward the push side."`
	Proud    q.Measured[q.Length] `key:"proud" doc:"How far the jambs stand out past the pull face of the closed leaf; below zero where they end behind it."`
	Face     q.Measured[q.Length] `key:"face_width" over:"0" doc:"Width of the frame's face, away from the opening."`
	Binds    YesNo                `key:"binds" doc:"Whether the leaf, arm off, drags or binds anywhere in its swing."`
	BindsAt  q.Measured[q.Angle]  `key:"binds_at" from:"0" doc:"Leaf angle at which it binds."`
	Drift    q.Measured[q.Angle]  `key:"drift" from:"0" doc:"How far the leaf, arm off, drifts by itself when it is let go at 45 or 90 degrees; 0 deg where it stays."`
	Sound    YesNo                `key:"sound" doc:"Whether the frame is straight, fast in its wall and fit to carry an operator."`
}

// Lean is which way the top of a hinge line leans.
type Lean string

// Choices lists the ways that a file may name.
func (Lean) Choices() []string { return []string{"pull", "push", "latch", "hinge"} }

// Closer is closer and arm as found.
type Closer struct {
	Sheet         string              `key:"sheet" ref:"closer" doc:"Name of the closer's hardware sheet."`
	Arm           string              `key:"arm" ref:"arm" doc:"Name of the arm's hardware sheet."`
	Size          q.Measured[q.Ratio] `key:"size" over:"0" doc:"Power setting found, a number such as 3 or 3.5."`
	Pinion        Point               `key:"pinion" doc:"Where the pinion really is, if measured."`
	Shoe          Point               `key:"shoe" doc:"Where the shoe really is, or a point of the track, if measured."`
	Gauged        []Gauged            `key:"gauged" doc:"Force gauge readings, opening and closing at one angle: they tell spring and friction."`
	SweepTime     q.Measured[q.Time]  `key:"sweep_time" over:"0" doc:"Time found from 90 to 12 degrees, closing."`
	LatchTime     q.Measured[q.Time]  `key:"latch_time" over:"0" doc:"Time found from 12 degrees to closed."`
	SweepTurns    q.Measured[q.Turns] `key:"sweep_turns" from:"0" doc:"Turns of the sweep valve from shut, where no time was taken."`
	LatchTurns    q.Measured[q.Turns] `key:"latch_turns" from:"0" doc:"Turns of the latch valve from shut, where no time was taken."`
	CheckTurns    q.Measured[q.Turns] `key:"backcheck_turns" from:"0" doc:"Turns of the backcheck valve from shut."`
	LatchFrom     q.Measured[q.Angle] `key:"latch_zone_from" from:"0" doc:"Leaf angle at which latching speed is seen to begin."`
	BackcheckFrom q.Measured[q.Angle] `key:"backcheck_from" from:"0" doc:"Leaf angle at which backcheck is felt to begin."`
	None          YesNo               `key:"none" doc:"yes where the opening has no closer."`
	Seated        CloserSeat          `key:"mounting" doc:"Where the closer is: on the surface, concealed in leaf or head, or in the floor."`
	Leaks         YesNo               `key:"leaks" doc:"Whether oil is at its valves or its shaft."`
	HoldOpen      YesNo               `key:"hold_open" doc:"Whether closer or arm can hold the leaf open by itself."`
	Grade         q.Measured[q.Ratio] `key:"grade" over:"0" doc:"Its grade by the standard it was tested to, 1 the best."`
	ForFire       YesNo               `key:"fire_suitable" doc:"Whether it is marked as suitable for fire doors."`
}

// Gauged is a pair of force gauge readings at one angle, leaf moving slowly.
type Gauged struct {
	Angle   q.Measured[q.Angle]  `key:"angle" need:"yes" from:"0" doc:"Leaf angle."`
	Opening q.Measured[q.Force]  `key:"opening" need:"yes" from:"0" doc:"Force while the leaf is slowly opened."`
	Closing q.Measured[q.Force]  `key:"closing" need:"yes" from:"0" doc:"Force while the leaf is slowly let close."`
	At      q.Measured[q.Length] `key:"at" need:"yes" over:"0" doc:"Distance of the gauge from the hinge pin."`
}

// Latch is the latch as found.
type Latch struct {
	Sheet  string               `key:"sheet" ref:"latch" doc:"Name of the latch's hardware sheet."`
	None   YesNo                `key:"none" doc:"yes where the opening has no latch."`
	Force  q.Measured[q.Force]  `key:"force" from:"0" doc:"Force that pushes the bolt over the strike lip, if gauged."`
	At     q.Measured[q.Length] `key:"at" over:"0" doc:"Distance of that force from the hinge pin; 1 in from the latch edge when not given."`
	Throw  q.Measured[q.Length] `key:"throw" from:"0" doc:"How far the bolt stands out."`
	Motion ReleaseMotion        `key:"release_motion" doc:"How the hand releases it."`
}

// Seal is the seals as found.
type Seal struct {
	Sheet string               `key:"sheet" ref:"seal" doc:"Name of the seal's hardware sheet."`
	None  YesNo                `key:"none" doc:"yes where the opening has no seals."`
	Force q.Measured[q.Force]  `key:"force" from:"0" doc:"Force that holds the leaf closed against the seals alone, if gauged."`
	At    q.Measured[q.Length] `key:"at" over:"0" doc:"Distance of that force from the hinge pin; 1 in from the latch edge when not given."`
	Gap   q.Measured[q.Length] `key:"gap" from:"0" doc:"Opening at the latch edge at which the seals first touch."`
}

// Air is pressure and temperature at the opening.
type Air struct {
	Usual       q.Measured[q.Pressure]    `key:"pressure" doc:"Usual pressure on the closed leaf; above zero it pushes the leaf open."`
	Most        q.Measured[q.Pressure]    `key:"pressure_most" doc:"Largest pressure to be reckoned with, pushing the leaf open."`
	Least       q.Measured[q.Pressure]    `key:"pressure_least" doc:"Smallest pressure to be reckoned with; below zero it pushes the leaf shut."`
	Temperature q.Measured[q.Temperature] `key:"temperature" doc:"Temperature of the closer for which the swing is reckoned."`
	Surveyed    q.Measured[q.Temperature] `key:"temperature_surveyed" doc:"Temperature of the closer when its times were taken."`
	Below       q.Measured[q.Length]      `key:"below_neutral" doc:"How far the opening lies below the height at which the building's air and the outdoors balance, about half its height; below zero above it. It tells the pressure of cold weather at a door to the outdoors."`
	Wind        q.Measured[q.Speed]       `key:"wind" from:"0" doc:"Strongest wind to be reckoned with, toward the opening; the largest and smallest pressure are reckoned with it in place of the months' own, and no month with more."`
	SwingsOut   YesNo                     `key:"swings_out" doc:"Whether the leaf swings toward the outdoors, so that pressure from outside pushes it shut."`
}

// Kept are readings that were kept in a file of their own, beside the job.
type Kept struct {
	Of        string    `key:"of" need:"yes" ref:"opening" doc:"The opening that was measured."`
	Recording string    `key:"recording" doc:"The recording that they were read from: its file, and a fingerprint of what it holds by which it is known again."`
	Readings  []Reading `key:"readings" need:"yes" doc:"What was measured; a later reading of a fact takes the place of an earlier one."`
}

// WatchStart is how a stopwatch was started.
type WatchStart string

// Choices lists the ways that a file may name.
func (WatchStart) Choices() []string { return []string{"reacting", "with-press"} }

// Reading is something measured, under the name of a fact.
type Reading struct {
	Fact       string               `key:"fact" need:"yes" ref:"fact" doc:"Name in the facts table, such as closing.time_90_to_10."`
	Value      string               `key:"value" doc:"What was read, with its unit and spread, or yes or no. A force may stand for a moment where at is given."`
	Values     []string             `key:"values" doc:"In place of value: what was read each time, stopwatch laps or forces; spread and bias follow from how often and how."`
	Start      WatchStart           `key:"start" doc:"How the stopwatch was started: on seeing the leaf pass, or by the press that starts the leaf."`
	Own        q.Measured[q.Time]   `key:"operator_scatter" over:"0" doc:"Scatter of one lap of the person with the watch, where it is known from many; the published one when not given."`
	Range      q.Measured[q.Force]  `key:"gauge_range" over:"0" doc:"Full scale of the force gauge; 200 N when not given."`
	Askew      q.Measured[q.Angle]  `key:"off_square" over:"0" to:"0.785" doc:"How far off square the gauge may have been held; 10 degrees when not given."`
	At         q.Measured[q.Length] `key:"at" over:"0" doc:"Distance from the hinge pin at which a force was read."`
	Instrument string               `key:"instrument" doc:"What it was read with."`
	By         string               `key:"by" doc:"Who read it."`
	On         string               `key:"on" form:"date" doc:"When, as 2026-11-25."`
}
