package fact

import . "swingwright/quantity"

// How the wiring of the opening, or of the group that shares one, feeds its devices.
const (
	Wired = firstOfPower + iota
	VoltsAtOperator
	DropAtOperator
	VoltsAtLock
	DropAtLock
	SupplyLoad
	SupplyPeakLoad
	ClassTwo
	SourceVolts
	SourcePower
	LinesApart
	ConduitFill
	ConduitCables
	StandbyLasts
	BranchLoad
	BranchOperators
	BranchDrop
	LoopSlack

	count // how many facts there are
)

// of a wiring that is written down, with everything as its labels say or as is usual
const reckoned = "computed from the wiring, or measured"

var fed = [...]Fact{
	Wired - firstOfPower:           {Name: "power.wired", Kind: YesNo, Meaning: "The wiring is written down, that of the opening or of the group that shares one.", Got: surveyed},
	VoltsAtOperator - firstOfPower: {Name: "power.volts_at_operator", Dim: DimVoltage, Meaning: "Voltage at the operator in the worst moment of the sequence.", Got: reckoned},
	DropAtOperator - firstOfPower:  {Name: "power.drop_at_operator", Dim: DimRatio, Meaning: "Share of its rated voltage that the operator lacks in that moment.", Got: reckoned},
	VoltsAtLock - firstOfPower:     {Name: "power.volts_at_lock", Dim: DimVoltage, Meaning: "Voltage at the lock or strike that is worst off, in the worst moment of the sequence.", Got: reckoned},
	DropAtLock - firstOfPower:      {Name: "power.drop_at_lock", Dim: DimRatio, Meaning: "Share of its rated voltage that it lacks in that moment.", Got: reckoned},
	SupplyLoad - firstOfPower:      {Name: "power.supply_load", Dim: DimRatio, Meaning: "What a supply gives for longer than a moment, as a share of its rated current; the most of all supplies.", Got: reckoned},
	SupplyPeakLoad - firstOfPower:  {Name: "power.supply_peak_load", Dim: DimRatio, Meaning: "Largest current of a supply, as a share of what it gives for some seconds; the most of all supplies.", Got: reckoned},
	ClassTwo - firstOfPower:        {Name: "power.class_2", Kind: YesNo, Meaning: "What a supply gives is marked, or wired, as a Class 2 circuit.", Got: surveyed},
	SourceVolts - firstOfPower:     {Name: "power.source_volts", Dim: DimVoltage, Meaning: "Voltage of the supply that could give the most power.", Got: surveyed},
	SourcePower - firstOfPower:     {Name: "power.source_power", Dim: DimPower, Meaning: "Rated current times voltage of that supply.", Got: surveyed},
	LinesApart - firstOfPower:      {Name: "power.lines_apart", Kind: YesNo, Meaning: "Line voltage and low voltage share no conduit, and no box without a barrier.", Got: surveyed},
	ConduitFill - firstOfPower:     {Name: "power.conduit_fill", Dim: DimRatio, Meaning: "Share of the inside of a conduit that its cables take; of the conduit that is fullest for how many it holds.", Got: reckoned},
	ConduitCables - firstOfPower:   {Name: "power.conduit_cables", Dim: DimRatio, Meaning: "How many cables lie in that conduit; 0 where no conduit is written down.", Got: surveyed},
	StandbyLasts - firstOfPower:    {Name: "power.standby_lasts", Dim: DimTime, Meaning: "How long the battery carries on without mains.", Got: reckoned},
	BranchLoad - firstOfPower:      {Name: "power.branch_load", Dim: DimRatio, Meaning: "What a branch circuit gives with everything at work, as a share of its breaker's current; the most of all.", Got: reckoned},
	BranchOperators - firstOfPower: {Name: "power.branch_operators", Dim: DimRatio, Meaning: "How many operators are on the branch circuit, for each 15 A of its breaker; the most of all, 0 where no branch circuit is written down.", Got: surveyed},
	BranchDrop - firstOfPower:      {Name: "power.branch_drop", Dim: DimRatio, Meaning: "Share of the mains voltage that the cables of a branch circuit take in the worst moment; the most of all.", Got: reckoned},
	LoopSlack - firstOfPower:       {Name: "power.loop_slack", Dim: DimRatio, Meaning: "By how much the cord across the hinges is longer than its anchors are ever apart, as a share of that.", Got: "taped, and computed from the plan geometry"},
}
