package opening

import q "swingwright/quantity"

// Building is what is known of the building and its users.
type Building struct {
	Existing         YesNo               `key:"existing" doc:"Whether the doorway stood before and is altered, not built anew."`
	Occupancy        Occupancy           `key:"occupancy" doc:"What the building is used for, as the model code sorts it: A-1 to A-4, B, M, R-1, or other."`
	OccupantLoad     q.Measured[q.Ratio] `key:"occupant_load" from:"0" doc:"How many people it is reckoned for."`
	Entrance         YesNo               `key:"entrance" doc:"Whether the opening is an entrance from outdoors that people with disabilities use too."`
	InSeries         YesNo               `key:"in_series" doc:"Whether another door follows, as in a vestibule."`
	SwingsIntoPath   YesNo               `key:"swings_into_path" doc:"Whether the powered leaf swings into a path that people walk along."`
	FrailUsers       YesNo               `key:"frail_users" doc:"Whether many users are old, infirm, disabled or small children, so that the leaf must not touch them."`
	AccessibleEgress YesNo               `key:"accessible_egress" doc:"Whether it is on a way out that people with disabilities need."`
	StandbyPower     YesNo               `key:"standby_power" doc:"Whether a second supply keeps the operator working when the mains fail."`
	StaysOpen        YesNo               `key:"stays_open" doc:"Whether the powered leaf stays open while there is no power."`
}

// Occupancy is what a building is used for.
type Occupancy string

// Choices lists the uses that a file may name.
func (Occupancy) Choices() []string {
	return []string{"other", "assembly", "business", "mercantile", "transient"}
}

// LeafClass is what a leaf is mainly made of.
type LeafClass string

// Choices lists the classes that a file may name.
func (LeafClass) Choices() []string {
	return []string{"steel", "wood", "composite", "aluminium", "glass"}
}

// Fire is what was found of a fire door: its label, what was prepared on site,
// and the yearly look.
type Fire struct {
	LabelTime      q.Measured[q.Time]   `key:"label_time" from:"0" doc:"How long the leaf withstands fire by its label, as 20 min."`
	Class          LeafClass            `key:"leaf_class" doc:"What the leaf is mainly made of."`
	SmokeControl   YesNo                `key:"smoke_control" doc:"Whether it also has to keep smoke back."`
	OperatorListed YesNo                `key:"operator_listed" doc:"Whether the operator is listed for use on fire doors."`
	AlarmReleases  YesNo                `key:"alarm_releases" doc:"Whether an alarm takes the operator off the leaf, so that it closes and latches by itself."`
	LatchElectric  YesNo                `key:"latch_electric" doc:"Whether electricity can keep the latch from holding: a strike or retracted bolts."`
	LatchSignal    YesNo                `key:"latch_signal" doc:"Whether an alarm makes such a latch hold again."`
	LabelLegible   YesNo                `key:"label_legible" doc:"Whether the labels of leaf and frame are there and can be read."`
	OpenHoles      YesNo                `key:"open_holes" doc:"Whether there are open holes or breaks in leaf or frame."`
	GlazingSound   YesNo                `key:"glazing_sound" doc:"Whether glass, its frames and its beads are whole and fast; yes too where there is none."`
	HardwareSound  YesNo                `key:"hardware_sound" doc:"Whether leaf, frame, hinges, hardware and threshold are fast, in line, working and undamaged."`
	PartsMissing   YesNo                `key:"parts_missing" doc:"Whether parts are missing or broken."`
	Interference   YesNo                `key:"interference" doc:"Whether something that was added hinders it from closing or latching."`
	SealsIntact    YesNo                `key:"seals_intact" doc:"Whether gaskets and edge seals are there and intact, where they are needed."`
	HoleDiameter   q.Measured[q.Length] `key:"hole_diameter" from:"0" doc:"Diameter of the largest hole drilled on site, cylinders left out."`
	HolesListed    YesNo                `key:"holes_listed" doc:"Whether the listings of both leaf and hardware allow holes of that size."`
	Undercut       q.Measured[q.Length] `key:"undercut" from:"0" doc:"How much was cut off the bottom of the leaf on site."`
	Modified       YesNo                `key:"modified" doc:"Whether more was done on site than may be prepared there: holes that are not round, mortises, cuts in the frame, glass, raceways for wire."`
	Approved       YesNo                `key:"modification_approved" doc:"Whether the laboratory that lists the leaf approved that before the work."`
}

// Safety is what guards people at a powered leaf.
type Safety struct {
	Sensors     YesNo                `key:"sensors" doc:"Whether sensors keep the leaf from touching anybody in its swing."`
	StopSwitch  YesNo                `key:"stop_switch" doc:"Whether a switch within reach stops the leaf."`
	Unpowered   YesNo                `key:"opens_unpowered" doc:"Whether it opens without power, by itself or by hand."`
	GuardHeight q.Measured[q.Length] `key:"guard_height" from:"0" doc:"Height up to which places that can crush or shear are guarded."`
	GuardRail   YesNo                `key:"guard_rail" doc:"Whether guards square to the wall keep people out of the swing."`
	SensorDepth q.Measured[q.Length] `key:"sensor_depth" from:"0" doc:"How far beyond the leading edge of the open leaf sensors see people coming, on the side that it opens to."`
}

// Service is how the opening is looked after.
type Service struct {
	Inspected    YesNo `key:"inspected" doc:"Whether somebody qualified inspected it within the last twelve months."`
	CheckedDaily YesNo `key:"checked_daily" doc:"Whether somebody looks it over every day, and after every loss of power."`
	Logbook      YesNo `key:"logbook" doc:"Whether a log book is kept, with the signed and dated check of the finished work."`
	Marked       YesNo `key:"marked" doc:"Whether a plate on the operator tells maker, type and date."`
}
