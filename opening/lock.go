package opening

import q "swingwright/quantity"

// Lock is what keeps the leaf locked, and what frees it before it opens.
type Lock struct {
	Sheet        string              `key:"sheet" ref:"lock" doc:"Name of the lock's hardware sheet."`
	Kind         LockKind            `key:"kind" doc:"What it is; the sheet tells where one is named."`
	Strike       string              `key:"strike" ref:"strike" doc:"Name of the sheet of its electric strike, where it has one."`
	Release      LockRelease         `key:"release" doc:"What frees the leaf before an operator opens it."`
	StaysLocked  YesNo               `key:"stays_locked" doc:"Whether it has to be locked from one side at some hours."`
	Delayed      YesNo               `key:"delayed_egress" doc:"Whether it lets people out only after a time."`
	ReleaseDelay q.Measured[q.Time]  `key:"release_delay" from:"0" doc:"Time from the signal until the leaf is free, the worst of some tries."`
	Preload      q.Measured[q.Force] `key:"preload" from:"0" doc:"Force with which the locked leaf presses on its strike."`
}

// LockKind is what sort of lock it is.
type LockKind string

// Choices lists the sorts that a file may name.
func (LockKind) Choices() []string {
	return []string{"none", "push-pull", "passage", "classroom", "storeroom", "exit-device", "deadbolt", "magnet"}
}

// LockRelease is what frees a locked leaf before an operator opens it.
type LockRelease string

// Choices lists what a file may name.
func (LockRelease) Choices() []string {
	return []string{"not-needed", "strike", "retraction", "trim", "magnet", "dogged", "by-hand-only"}
}

// FailMode is what a lock does when its power is lost.
type FailMode string

// Choices lists the modes that a file may name.
func (FailMode) Choices() []string { return []string{"fail-safe", "fail-secure"} }

// LockSheet is what the user copied from the maker's paper of a lock or exit device.
type LockSheet struct {
	Name        string                `key:"name" need:"yes" names:"lock" doc:"Name by which openings refer to this sheet."`
	Page        string                `key:"page" doc:"Page of the maker's paper that the values were copied from."`
	Kind        LockKind              `key:"kind" need:"yes" doc:"What it is."`
	Release     LockRelease           `key:"release" doc:"What in it can free the leaf by a signal, if anything."`
	Volts       q.Measured[q.Voltage] `key:"volts" over:"0" doc:"Voltage of its release."`
	Hold        q.Measured[q.Current] `key:"current_hold" from:"0" doc:"Current while it is kept released."`
	Inrush      q.Measured[q.Current] `key:"current_inrush" from:"0" doc:"Current while it releases."`
	ReleaseTime q.Measured[q.Time]    `key:"release_time" from:"0" doc:"Time from the signal until the leaf is free."`
	Fails       FailMode              `key:"fails" doc:"What it does when its power is lost."`
	ForFire     YesNo                 `key:"fire_listed" doc:"Whether it is listed for use on fire doors."`
}

// StrikeSheet is what the user copied from the maker's paper of an electric strike.
type StrikeSheet struct {
	Name        string                `key:"name" need:"yes" names:"strike" doc:"Name by which openings refer to this sheet."`
	Page        string                `key:"page" doc:"Page of the maker's paper that the values were copied from."`
	Kinds       []LockKind            `key:"locks" doc:"Sorts of lock that it takes."`
	Volts       q.Measured[q.Voltage] `key:"volts" over:"0" doc:"Voltage that it needs."`
	Hold        q.Measured[q.Current] `key:"current_hold" from:"0" doc:"Current while it is kept released."`
	Inrush      q.Measured[q.Current] `key:"current_inrush" from:"0" doc:"Current while it releases."`
	ReleaseTime q.Measured[q.Time]    `key:"release_time" from:"0" doc:"Time from the signal until the leaf is free."`
	PreloadMax  q.Measured[q.Force]   `key:"preload_max" from:"0" doc:"Largest force of the bolt on it under which it still releases."`
	Fails       FailMode              `key:"fails" doc:"What it does when its power is lost."`
	ForFire     YesNo                 `key:"fire_listed" doc:"Whether it is listed for use on fire doors."`
	Holes       []Hole                `key:"holes" doc:"Holes of its template, each from named edges."`
}

// ActuatorSheet is what the user copied from the maker's paper of a switch.
type ActuatorSheet struct {
	Name    string                    `key:"name" need:"yes" names:"actuator" doc:"Name by which openings refer to this sheet."`
	Page    string                    `key:"page" doc:"Page of the maker's paper that the values were copied from."`
	Size    q.Measured[q.Length]      `key:"size" over:"0" doc:"Its width or height, the lesser."`
	Force   q.Measured[q.Force]       `key:"force" from:"0" doc:"Force that works it."`
	Range   q.Measured[q.Length]      `key:"range" from:"0" doc:"Distance from which a touchless one works."`
	Radio   q.Measured[q.Length]      `key:"radio_range" from:"0" doc:"Distance over which a wireless one is heard indoors."`
	Volts   q.Measured[q.Voltage]     `key:"volts" over:"0" doc:"Voltage that it needs, where it is wired."`
	Draw    q.Measured[q.Current]     `key:"current" from:"0" doc:"Current that it draws."`
	Coldest q.Measured[q.Temperature] `key:"coldest" doc:"Lowest temperature at which it works."`
}

// SupplySheet is what the user copied from the maker's paper of a power supply.
type SupplySheet struct {
	Name     string                `key:"name" need:"yes" names:"supply" doc:"Name by which openings refer to this sheet."`
	Page     string                `key:"page" doc:"Page of the maker's paper that the values were copied from."`
	Volts    q.Measured[q.Voltage] `key:"volts" need:"yes" over:"0" doc:"Voltage that it gives."`
	Amps     q.Measured[q.Current] `key:"current" need:"yes" over:"0" doc:"Current that it gives all the time."`
	Peak     q.Measured[q.Current] `key:"current_peak" over:"0" doc:"Current that it gives for some seconds."`
	ClassTwo YesNo                 `key:"class_2" doc:"Whether its output is a Class 2 circuit."`
}

// Feed is what power there is for an operator.
type Feed struct {
	Sheet       string               `key:"sheet" ref:"supply" doc:"Name of the sheet of the supply that feeds it."`
	Reachable   YesNo                `key:"reachable" doc:"Whether a circuit with room for it can be brought to the opening."`
	Distance    q.Measured[q.Length] `key:"distance" from:"0" doc:"Way of the wire to the nearest source."`
	Electrician YesNo                `key:"electrician" doc:"Whether a licensed electrician is engaged for the mains work."`
}
