package fact

import . "swingwright/quantity"

// The facts, numbered as in Table.
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

	LeafWidth
	LeafHeight
	LeafThickness
	LeafMass
	LeafInertia
	LeafEquivalentMass
	LatchEdge
	HandleRadius

	CloseTime90To12
	CloseTime90To10
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

	PoweredTimeToCheck
	PoweredTimeTo90
	PoweredTimeToOpen
	PoweredBackcheckFrom
	PoweredDwell
	PoweredStallMoment
	PoweredPeakEnergy

	PressureMost
	PressureLeast

	count // how many facts there are
)

// Count is how many facts the table has.
const Count = int(count)

const (
	surveyed = "surveyed"
	computed = "computed from the survey, or measured"
	measured = "measured"
)

// Table holds every fact, in the order of the constants.
var Table = [...]Fact{
	Interior:      {Name: "opening.interior", Kind: YesNo, Meaning: "The opening joins two indoor spaces.", Got: surveyed},
	Exterior:      {Name: "opening.exterior", Kind: YesNo, Meaning: "The opening leads outdoors.", Got: surveyed},
	FireRated:     {Name: "opening.fire_rated", Kind: YesNo, Meaning: "The leaf or frame carries a fire label, or is required to be fire rated.", Got: surveyed},
	Egress:        {Name: "opening.egress", Kind: YesNo, Meaning: "The opening serves a way out.", Got: surveyed},
	HasCloser:     {Name: "opening.has_closer", Kind: YesNo, Meaning: "A closer shuts the leaf.", Got: surveyed},
	HasLatch:      {Name: "opening.has_latch", Kind: YesNo, Meaning: "A latch bolt holds the closed leaf.", Got: surveyed},
	Operation:     {Name: "opening.operation", Kind: Choice, Choices: []string{"manual", "low-energy", "power-assist", "full-power"}, Meaning: "How the leaf is opened, as it is or as it is meant to be after the work.", Got: surveyed},
	Activation:    {Name: "opening.activation", Kind: Choice, Choices: []string{"none", "switch", "touchless", "access-control", "push-pull", "sensor"}, Meaning: "What starts powered opening.", Got: surveyed},
	ReleaseMotion: {Name: "latch.release_motion", Kind: Choice, Choices: []string{"none", "push-pull", "rotating"}, Meaning: "How the hand releases the latch.", Got: surveyed},
	SpringHinges:  {Name: "opening.spring_hinges", Kind: YesNo, Meaning: "Spring hinges shut the leaf.", Got: surveyed},

	LeafWidth:          {Name: "leaf.width", Dim: DimLength, Meaning: "Width of the leaf.", Got: surveyed},
	LeafHeight:         {Name: "leaf.height", Dim: DimLength, Meaning: "Height of the leaf.", Got: surveyed},
	LeafThickness:      {Name: "leaf.thickness", Dim: DimLength, Meaning: "Thickness of the leaf.", Got: surveyed},
	LeafMass:           {Name: "leaf.mass", Dim: DimMass, Meaning: "Total mass of the leaf with what is fixed to it; the trade says weight.", Got: computed},
	LeafInertia:        {Name: "leaf.inertia", Dim: DimInertia, Meaning: "Moment of inertia of the leaf about its hinge axis.", Got: computed},
	LeafEquivalentMass: {Name: "leaf.equivalent_mass", Dim: DimMass, Meaning: "Mass of the uniform leaf that would have the same inertia, 3I/r².", Got: computed},
	LatchEdge:          {Name: "leaf.latch_edge", Dim: DimLength, Meaning: "Distance from the hinge axis to the latch edge.", Got: surveyed},
	HandleRadius:       {Name: "leaf.handle", Dim: DimLength, Meaning: "Distance from the hinge axis to where the hand works the leaf.", Got: surveyed},

	CloseTime90To12:     {Name: "closing.time_90_to_12", Dim: DimTime, Meaning: "Time to close from 90 degrees to 12 degrees.", Got: computed},
	CloseTime90To10:     {Name: "closing.time_90_to_10", Dim: DimTime, Meaning: "Time to close from 90 degrees to 10 degrees.", Got: computed},
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

	PoweredTimeToCheck:   {Name: "powered.time_to_check", Dim: DimTime, Meaning: "Powered opening from closed to backcheck or 80 degrees, whichever comes first.", Got: measured},
	PoweredTimeTo90:      {Name: "powered.time_to_90", Dim: DimTime, Meaning: "Powered opening from closed to 90 degrees.", Got: measured},
	PoweredTimeToOpen:    {Name: "powered.time_to_open", Dim: DimTime, Meaning: "Powered opening from closed to fully open.", Got: measured},
	PoweredBackcheckFrom: {Name: "powered.backcheck_from", Dim: DimAngle, Meaning: "Leaf angle at which powered opening begins to slow.", Got: measured},
	PoweredDwell:         {Name: "powered.dwell", Dim: DimTime, Meaning: "Time that the operator holds the leaf fully open.", Got: measured},
	PoweredStallMoment:   {Name: "powered.stall_moment", Dim: DimTorque, Meaning: "Moment that stops the powered leaf or holds it stopped.", Got: measured},
	PoweredPeakEnergy:    {Name: "powered.peak_energy", Dim: DimEnergy, Meaning: "Largest kinetic energy of the leaf while it is driven open.", Got: measured},

	PressureMost:  {Name: "air.pressure_most", Dim: DimPressure, Meaning: "Largest stated pressure that pushes the closed leaf open.", Got: surveyed},
	PressureLeast: {Name: "air.pressure_least", Dim: DimPressure, Meaning: "Smallest stated pressure on the closed leaf; below zero it pushes the leaf shut.", Got: surveyed},
}
