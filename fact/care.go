package fact

import . "swingwright/quantity"

// What guards people, and how the opening is looked after.
const (
	// fire: label, preparation on site and yearly look
	LabelTime = firstOfCare + iota
	SmokeControl
	OperatorListed
	AlarmReleases
	LatchElectric
	LatchSignal
	LabelLegible
	OpenHoles
	GlazingSound
	HardwareSound
	PartsMissing
	Interference
	SealsIntact
	HoleDiameter
	HolesListed
	Undercut
	Modified
	ModificationApproved

	// safety: what guards people
	SafetySensors
	SafetyStop
	SafetyUnpowered
	SafetyGuardHeight
	SafetyGuardRail
	SensorDepth

	// service
	Inspected
	CheckedDaily
	Logbook
	Marked

	firstOfPower // the table goes on with power
)

var care = [...]Fact{
	LabelTime - firstOfCare:            {Name: "fire.label_time", Dim: DimTime, Meaning: "How long the leaf withstands fire by its label.", Got: surveyed},
	SmokeControl - firstOfCare:         {Name: "fire.smoke_control", Kind: YesNo, Meaning: "The leaf also has to keep smoke back.", Got: surveyed},
	OperatorListed - firstOfCare:       {Name: "fire.operator_listed", Kind: YesNo, Meaning: "The operator is listed for use on fire doors.", Got: surveyed},
	AlarmReleases - firstOfCare:        {Name: "fire.alarm_releases", Kind: YesNo, Meaning: "An alarm takes the operator off the leaf, so that it closes and latches by itself.", Got: surveyed},
	LatchElectric - firstOfCare:        {Name: "fire.latch_electric", Kind: YesNo, Meaning: "Electricity can keep the latch from holding: a strike or retracted bolts.", Got: surveyed},
	LatchSignal - firstOfCare:          {Name: "fire.latch_signal", Kind: YesNo, Meaning: "An alarm makes such a latch hold again.", Got: surveyed},
	LabelLegible - firstOfCare:         {Name: "fire.label_legible", Kind: YesNo, Meaning: "The labels of leaf and frame are there and can be read.", Got: surveyed},
	OpenHoles - firstOfCare:            {Name: "fire.open_holes", Kind: YesNo, Meaning: "There are open holes or breaks in leaf or frame.", Got: surveyed},
	GlazingSound - firstOfCare:         {Name: "fire.glazing_sound", Kind: YesNo, Meaning: "Glass, its frames and its beads are whole and fast; also where there is none.", Got: surveyed},
	HardwareSound - firstOfCare:        {Name: "fire.hardware_sound", Kind: YesNo, Meaning: "Leaf, frame, hinges, hardware and threshold are fast, in line, working and undamaged.", Got: surveyed},
	PartsMissing - firstOfCare:         {Name: "fire.parts_missing", Kind: YesNo, Meaning: "Parts are missing or broken.", Got: surveyed},
	Interference - firstOfCare:         {Name: "fire.interference", Kind: YesNo, Meaning: "Something that was added hinders the leaf from closing or latching.", Got: surveyed},
	SealsIntact - firstOfCare:          {Name: "fire.seals_intact", Kind: YesNo, Meaning: "Gaskets and edge seals are there and intact, where they are needed.", Got: surveyed},
	HoleDiameter - firstOfCare:         {Name: "fire.hole_diameter", Dim: DimLength, Meaning: "Diameter of the largest hole drilled on site, or to be drilled by the hardware sheets, cylinders left out.", Got: surveyed},
	HolesListed - firstOfCare:          {Name: "fire.holes_listed", Kind: YesNo, Meaning: "The listings of both leaf and hardware allow holes of that size.", Got: surveyed},
	Undercut - firstOfCare:             {Name: "fire.undercut", Dim: DimLength, Meaning: "How much was cut off the bottom of the leaf on site.", Got: surveyed},
	Modified - firstOfCare:             {Name: "fire.modified", Kind: YesNo, Meaning: "More was done on site than the standard lets be prepared there: holes that are not round, mortises, cuts in the frame, glass, raceways for wire.", Got: surveyed},
	ModificationApproved - firstOfCare: {Name: "fire.modification_approved", Kind: YesNo, Meaning: "The laboratory that lists the leaf approved it before the work.", Got: surveyed},

	SafetySensors - firstOfCare:     {Name: "safety.sensors", Kind: YesNo, Meaning: "Sensors keep the leaf from touching anybody in its swing.", Got: surveyed},
	SafetyStop - firstOfCare:        {Name: "safety.stop_switch", Kind: YesNo, Meaning: "A switch within reach stops the leaf.", Got: surveyed},
	SafetyUnpowered - firstOfCare:   {Name: "safety.opens_unpowered", Kind: YesNo, Meaning: "Without power the leaf opens by itself, or by hand.", Got: surveyed},
	SafetyGuardHeight - firstOfCare: {Name: "safety.guard_height", Dim: DimLength, Meaning: "Height up to which places that can crush or shear are guarded.", Got: surveyed},
	SafetyGuardRail - firstOfCare:   {Name: "safety.guard_rail", Kind: YesNo, Meaning: "Guards square to the wall keep people out of the swing of the leaf.", Got: surveyed},
	SensorDepth - firstOfCare:       {Name: "safety.sensor_depth", Dim: DimLength, Meaning: "How far beyond the leading edge of the open leaf the sensors see people coming, on the side that the leaf opens to.", Got: measured},

	Inspected - firstOfCare:    {Name: "service.inspected", Kind: YesNo, Meaning: "Somebody qualified inspected it within the last twelve months.", Got: surveyed},
	CheckedDaily - firstOfCare: {Name: "service.checked_daily", Kind: YesNo, Meaning: "Somebody looks it over every day, and after every loss of power.", Got: surveyed},
	Logbook - firstOfCare:      {Name: "service.logbook", Kind: YesNo, Meaning: "A log book is kept, with the signed and dated check of the finished work.", Got: surveyed},
	Marked - firstOfCare:       {Name: "service.marked", Kind: YesNo, Meaning: "A plate on the operator tells maker, type and date.", Got: surveyed},
}
