package fact

import (
	"slices"

	. "swingwright/quantity"
)

// The facts of the opening, its leaf and how it moves, numbered as in Table.
const (
	Interior ID = iota
	Exterior
	FireRated
	Egress
	HasCloser
	HasLatch
	Operation
	Activation
	ReleaseMotion
	SpringHinges
	Existing
	Entrance
	InSeries
	SwingsIntoPath
	FrailUsers
	StandbyPower
	AccessibleEgress
	StaysOpen
	Occupancy
	OccupantLoad

	LeafWidth
	LeafHeight
	LeafThickness
	LeafMass
	LeafInertia
	LeafEquivalentMass
	LatchEdge
	HandleRadius
	LeafClass
	SmoothBottom
	VisionLight
	VisionBottom

	CloseTime90To12
	CloseTime90To10
	CloseTime90ToCheck
	CloseTime10ToClosed
	CloseTime90ToClosed
	CloseTime70To75mm
	CloseTime70ToClosed
	ClosePeakEnergy
	CloseImpactEnergy
	CloseImpactRate
	CloseRestAngle
	LatchesFrom90
	LatchesFrom30
	LatchesFrom5
	LatchMargin

	HandToStart
	HandToOpen
	Hand0To30
	Hand30To60
	HandReleaseForce
	HandReleaseTorque

	CloserSize
	CloserMoment0To4
	CloserMoment88To92
	CloserMomentElsewhere
	CloserOpeningMoment0To60
	CloserEfficiency
	BackcheckFrom
	LatchZoneFrom
	CloserGrade
	CloserHoldOpen
	CloserForFire
	CloserFastest
	CloserSlowest
	CloserTimeCold
	CloserTimeWarm
	DelayLongest
	DelayShortest
	DelayUntil
	DelayOverride

	PoweredTimeToCheck
	PoweredTimeTo90
	PoweredTimeToOpen
	PoweredBackcheckFrom
	PoweredDwell
	PoweredStallMoment
	PoweredPeakEnergy
	PoweredTimeTo80
	PoweredOpenAngle
	PoweredStallLast10
	PoweredSensorDwell
	PoweredClearWidth

	PressureMost
	PressureLeast

	firstOfSite // the table goes on with what is seen at the opening
)

// Count is how many facts the table has.
const Count = int(count)

const (
	surveyed = "surveyed"
	computed = "computed from the survey, or measured"
	measured = "measured"
	laidOut  = "taped, or computed from the plan geometry"
)

// Table holds every fact, in the order of the constants.
var Table = slices.Concat(motion[:], site[:], care[:], fed[:])

var motion = [...]Fact{
	Interior:         {Name: "opening.interior", Kind: YesNo, Meaning: "The opening joins two indoor spaces.", Got: surveyed},
	Exterior:         {Name: "opening.exterior", Kind: YesNo, Meaning: "The opening leads outdoors.", Got: surveyed},
	FireRated:        {Name: "opening.fire_rated", Kind: YesNo, Meaning: "The leaf or frame carries a fire label, or is required to be fire rated.", Got: surveyed},
	Egress:           {Name: "opening.egress", Kind: YesNo, Meaning: "The opening serves a way out.", Got: surveyed},
	HasCloser:        {Name: "opening.has_closer", Kind: YesNo, Meaning: "A closer shuts the leaf.", Got: surveyed},
	HasLatch:         {Name: "opening.has_latch", Kind: YesNo, Meaning: "A latch bolt holds the closed leaf.", Got: surveyed},
	Operation:        {Name: "opening.operation", Kind: Choice, Choices: []string{"manual", "low-energy", "power-assist", "full-power"}, Meaning: "How the leaf is opened, as it is or as it is meant to be after the work.", Got: surveyed},
	Activation:       {Name: "opening.activation", Kind: Choice, Choices: []string{"none", "switch", "touchless", "access-control", "push-pull", "sensor"}, Meaning: "What starts powered opening.", Got: surveyed},
	ReleaseMotion:    {Name: "latch.release_motion", Kind: Choice, Choices: []string{"none", "push-pull", "rotating"}, Meaning: "How the hand releases the latch.", Got: surveyed},
	SpringHinges:     {Name: "opening.spring_hinges", Kind: YesNo, Meaning: "Spring hinges shut the leaf.", Got: surveyed},
	Existing:         {Name: "opening.existing", Kind: YesNo, Meaning: "The doorway stood before and is altered, not built anew.", Got: surveyed},
	Entrance:         {Name: "opening.entrance", Kind: YesNo, Meaning: "The opening is an entrance from outdoors that people with disabilities use too.", Got: surveyed},
	InSeries:         {Name: "opening.in_series", Kind: YesNo, Meaning: "Another door follows this one, as in a vestibule.", Got: surveyed},
	SwingsIntoPath:   {Name: "opening.swings_into_path", Kind: YesNo, Meaning: "The powered leaf swings into a path that people walk along.", Got: surveyed},
	FrailUsers:       {Name: "opening.frail_users", Kind: YesNo, Meaning: "Many who use it are old, infirm, disabled or small children, so that the leaf must not touch them.", Got: surveyed},
	StandbyPower:     {Name: "opening.standby_power", Kind: YesNo, Meaning: "A second supply keeps the operator working when the mains fail.", Got: surveyed},
	AccessibleEgress: {Name: "opening.accessible_egress", Kind: YesNo, Meaning: "It is on a way out that people with disabilities need.", Got: surveyed},
	StaysOpen:        {Name: "opening.stays_open", Kind: YesNo, Meaning: "The powered leaf stays open while there is no power.", Got: surveyed},
	Occupancy:        {Name: "building.occupancy", Kind: Choice, Choices: []string{"other", "assembly", "business", "mercantile", "transient"}, Meaning: "What the building is used for, as the model code sorts it: assembly is A-1 to A-4, business B, mercantile M, transient lodging R-1.", Got: surveyed},
	OccupantLoad:     {Name: "building.occupant_load", Dim: DimRatio, Meaning: "How many people the building is reckoned for.", Got: surveyed},

	LeafWidth:          {Name: "leaf.width", Dim: DimLength, Meaning: "Width of the leaf.", Got: surveyed},
	LeafHeight:         {Name: "leaf.height", Dim: DimLength, Meaning: "Height of the leaf.", Got: surveyed},
	LeafThickness:      {Name: "leaf.thickness", Dim: DimLength, Meaning: "Thickness of the leaf.", Got: surveyed},
	LeafMass:           {Name: "leaf.mass", Dim: DimMass, Meaning: "Total mass of the leaf with what is fixed to it; the trade says weight.", Got: computed},
	LeafInertia:        {Name: "leaf.inertia", Dim: DimInertia, Meaning: "Moment of inertia of the leaf about its hinge axis.", Got: computed},
	LeafEquivalentMass: {Name: "leaf.equivalent_mass", Dim: DimMass, Meaning: "Mass of the uniform leaf that would have the same inertia, 3I/r².", Got: computed},
	LatchEdge:          {Name: "leaf.latch_edge", Dim: DimLength, Meaning: "Distance from the hinge axis to the latch edge.", Got: surveyed},
	HandleRadius:       {Name: "leaf.handle", Dim: DimLength, Meaning: "Distance from the hinge axis to where the hand works the leaf.", Got: surveyed},
	LeafClass:          {Name: "leaf.class", Kind: Choice, Choices: []string{"steel", "wood", "composite", "aluminium", "glass"}, Meaning: "What the leaf is mainly made of; a wood leaf may have plastic faces.", Got: surveyed},
	SmoothBottom:       {Name: "leaf.smooth_bottom", Dim: DimLength, Meaning: "Height from the floor up to which the push side is one smooth surface over its whole width.", Got: surveyed},
	VisionLight:        {Name: "leaf.vision_light", Kind: YesNo, Meaning: "The leaf, or a sidelight beside it, has a pane to look through.", Got: surveyed},
	VisionBottom:       {Name: "leaf.vision_bottom", Dim: DimLength, Meaning: "Height from the floor to the lowest glass that one can look through.", Got: surveyed},

	CloseTime90To12:     {Name: "closing.time_90_to_12", Dim: DimTime, Meaning: "Time to close from 90 degrees to 12 degrees.", Got: computed},
	CloseTime90To10:     {Name: "closing.time_90_to_10", Dim: DimTime, Meaning: "Time to close from 90 degrees to 10 degrees.", Got: computed},
	CloseTime90ToCheck:  {Name: "closing.time_90_to_check", Dim: DimTime, Meaning: "Time to close from 90 degrees to where the latch zone begins, or to 10 degrees where it begins below that or is not known.", Got: computed},
	CloseTime10ToClosed: {Name: "closing.time_10_to_closed", Dim: DimTime, Meaning: "Time to close from 10 degrees to fully closed.", Got: computed},
	CloseTime90ToClosed: {Name: "closing.time_90_to_closed", Dim: DimTime, Meaning: "Time to close from 90 degrees to fully closed.", Got: computed},
	CloseTime70To75mm:   {Name: "closing.time_70_to_75mm", Dim: DimTime, Meaning: "Time to close from 70 degrees to 75 mm from closed, measured at the latch edge.", Got: computed},
	CloseTime70ToClosed: {Name: "closing.time_70_to_closed", Dim: DimTime, Meaning: "Time to close from 70 degrees to fully closed.", Got: computed},
	ClosePeakEnergy:     {Name: "closing.peak_energy", Dim: DimEnergy, Meaning: "Largest kinetic energy of the leaf while it closes.", Got: computed},
	CloseImpactEnergy:   {Name: "closing.impact_energy", Dim: DimEnergy, Meaning: "Kinetic energy of the leaf as it reaches its frame.", Got: computed},
	CloseImpactRate:     {Name: "closing.impact_rate", Dim: DimAngularSpeed, Meaning: "Rate of turn of the leaf as it reaches its frame.", Got: computed},
	CloseRestAngle:      {Name: "closing.rest_angle", Dim: DimAngle, Meaning: "Where the leaf comes to rest when it closes by itself from 90 degrees; zero is closed.", Got: computed},
	LatchesFrom90:       {Name: "closing.latches_from_90", Kind: YesNo, Meaning: "Closes and latches by itself, let go at rest at 90 degrees, at the worst stated pressure.", Got: computed},
	LatchesFrom30:       {Name: "closing.latches_from_30", Kind: YesNo, Meaning: "Closes and latches by itself, let go at rest at 30 degrees, at the worst stated pressure.", Got: computed},
	LatchesFrom5:        {Name: "closing.latches_from_5", Kind: YesNo, Meaning: "Closes and latches by itself, let go at rest at 5 degrees, at the worst stated pressure.", Got: computed},
	LatchMargin:         {Name: "closing.latch_margin", Dim: DimTorque, Meaning: "Closing moment at 5 degrees less latch, seal, friction and air, at the worst stated pressure: the latch budget.", Got: computed},

	HandToStart:       {Name: "hand.to_start", Dim: DimTorque, Meaning: "Moment by hand that sets the released leaf in motion from closed, power off.", Got: computed},
	HandToOpen:        {Name: "hand.to_open", Dim: DimTorque, Meaning: "Largest moment by hand that moves the leaf slowly on from 1 to 90 degrees, power off.", Got: computed},
	Hand0To30:         {Name: "hand.largest_0_to_30", Dim: DimTorque, Meaning: "Largest moment by hand from closed to 30 degrees.", Got: computed},
	Hand30To60:        {Name: "hand.largest_30_to_60", Dim: DimTorque, Meaning: "Largest moment by hand from 30 to 60 degrees.", Got: computed},
	HandReleaseForce:  {Name: "hand.release_force", Dim: DimForce, Meaning: "Force by hand that releases the latch, hardware that is pushed or pulled.", Got: measured},
	HandReleaseTorque: {Name: "hand.release_torque", Dim: DimTorque, Meaning: "Torque by hand that releases the latch, hardware that is turned.", Got: measured},

	CloserSize:               {Name: "closer.size", Dim: DimRatio, Meaning: "Spring power the closer is set to, by the standard's size numbers.", Got: surveyed},
	CloserMoment0To4:         {Name: "closer.moment_0_to_4", Dim: DimTorque, Meaning: "Closing moment of the closer on the leaf, least between 0 and 4 degrees.", Got: computed},
	CloserMoment88To92:       {Name: "closer.moment_88_to_92", Dim: DimTorque, Meaning: "Closing moment of the closer on the leaf, least between 88 and 92 degrees.", Got: computed},
	CloserMomentElsewhere:    {Name: "closer.moment_elsewhere", Dim: DimTorque, Meaning: "Closing moment of the closer on the leaf, least anywhere from 0 to 90 degrees.", Got: computed},
	CloserOpeningMoment0To60: {Name: "closer.opening_moment_0_to_60", Dim: DimTorque, Meaning: "Opening moment against the closer alone, largest between 0 and 60 degrees.", Got: computed},
	CloserEfficiency:         {Name: "closer.efficiency", Dim: DimRatio, Meaning: "Closing moment over opening moment of the closer near closed.", Got: computed},
	BackcheckFrom:            {Name: "closer.backcheck_from", Dim: DimAngle, Meaning: "Leaf angle at which backcheck begins.", Got: computed},
	LatchZoneFrom:            {Name: "closer.latch_zone_from", Dim: DimAngle, Meaning: "Leaf angle at which the latch zone begins on closing.", Got: computed},
	CloserGrade:              {Name: "closer.grade", Dim: DimRatio, Meaning: "Grade of the closer by its standard, 1 the best.", Got: surveyed},
	CloserHoldOpen:           {Name: "closer.hold_open", Kind: YesNo, Meaning: "The closer or its arm can hold the leaf open by itself.", Got: surveyed},
	CloserForFire:            {Name: "closer.fire_suitable", Kind: YesNo, Meaning: "The closer is marked as suitable for fire doors.", Got: surveyed},
	CloserFastest:            {Name: "closer.fastest_time", Dim: DimTime, Meaning: "Shortest time from 90 degrees to closed that its valves can be set to.", Got: measured},
	CloserSlowest:            {Name: "closer.slowest_time", Dim: DimTime, Meaning: "Longest time from 90 degrees to closed that its valves can be set to.", Got: measured},
	CloserTimeCold:           {Name: "closer.time_at_minus_15", Dim: DimTime, Meaning: "Time from 90 degrees to closed at -15 °C, valves set to 5 s at 20 °C.", Got: measured},
	CloserTimeWarm:           {Name: "closer.time_at_40", Dim: DimTime, Meaning: "Time from 90 degrees to closed at 40 °C, valves set to 5 s at 20 °C.", Got: measured},
	DelayLongest:             {Name: "closer.delay_longest", Dim: DimTime, Meaning: "Longest delay of closing, from 120 degrees to the end of the delay zone, that it can be set to.", Got: measured},
	DelayShortest:            {Name: "closer.delay_shortest", Dim: DimTime, Meaning: "Shortest delay of closing, from 120 degrees to the end of the delay zone, that it can be set to.", Got: measured},
	DelayUntil:               {Name: "closer.delay_until", Dim: DimAngle, Meaning: "Leaf angle at which delayed closing ends.", Got: measured},
	DelayOverride:            {Name: "closer.delay_override", Dim: DimTorque, Meaning: "Moment by hand that closes the leaf in spite of the delay.", Got: measured},

	PoweredTimeToCheck:   {Name: "powered.time_to_check", Dim: DimTime, Meaning: "Powered opening from closed to backcheck or 80 degrees, whichever comes first.", Got: computed},
	PoweredTimeTo90:      {Name: "powered.time_to_90", Dim: DimTime, Meaning: "Powered opening from closed to 90 degrees, or to fully open where that is within 5 degrees of it.", Got: computed},
	PoweredTimeToOpen:    {Name: "powered.time_to_open", Dim: DimTime, Meaning: "Powered opening from closed to fully open.", Got: computed},
	PoweredBackcheckFrom: {Name: "powered.backcheck_from", Dim: DimAngle, Meaning: "Leaf angle at which powered opening begins to slow.", Got: computed},
	PoweredDwell:         {Name: "powered.dwell", Dim: DimTime, Meaning: "Time that the operator holds the leaf fully open.", Got: computed},
	PoweredStallMoment:   {Name: "powered.stall_moment", Dim: DimTorque, Meaning: "Moment that stops the powered leaf or holds it stopped.", Got: computed},
	PoweredPeakEnergy:    {Name: "powered.peak_energy", Dim: DimEnergy, Meaning: "Largest kinetic energy of the leaf while it is driven open.", Got: computed},
	PoweredTimeTo80:      {Name: "powered.time_to_80", Dim: DimTime, Meaning: "Powered opening from closed to 80 degrees.", Got: computed},
	PoweredOpenAngle:     {Name: "powered.open_angle", Dim: DimAngle, Meaning: "Leaf angle at which the operator stops, fully open.", Got: computed},
	PoweredStallLast10:   {Name: "powered.stall_moment_last_10", Dim: DimTorque, Meaning: "Moment that stops the powered leaf in the last 10 degrees of opening.", Got: computed},
	PoweredSensorDwell:   {Name: "powered.sensor_dwell", Dim: DimTime, Meaning: "Time that the leaf stays open after sensors have lost sight of everybody.", Got: measured},
	PoweredClearWidth:    {Name: "powered.clear_width", Dim: DimLength, Meaning: "Clear width where the operator has opened the leaf: from its face to the stop.", Got: laidOut},

	PressureMost:  {Name: "air.pressure_most", Dim: DimPressure, Meaning: "Largest pressure to be reckoned with that pushes the closed leaf open, stated or from the weather.", Got: surveyed},
	PressureLeast: {Name: "air.pressure_least", Dim: DimPressure, Meaning: "Smallest pressure to be reckoned with on the closed leaf, stated or from the weather; below zero it pushes the leaf shut.", Got: surveyed},
}
