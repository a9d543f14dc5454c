package opening

import q "swingwright/quantity"

// Rates are what work and material cost, as the one who quotes reckons them. What
// is not given is taken from memory, or is not priced at all.
type Rates struct {
	Currency    string              `key:"currency" doc:"The currency of every amount of money here, as it shall stand on paper."`
	Labour      Span                `key:"labour" doc:"Price of one own hour."`
	Markup      Span                `key:"material_markup" doc:"What is added to the cost of material, as 30 %."`
	SubsMarkup  Span                `key:"subs_markup" doc:"What is added to the price of other firms' work, as 12 %."`
	Contingency Span                `key:"contingency" doc:"What is added to the sum for what nobody foresees, as 8 %."`
	Spares      Span                `key:"spares" doc:"Share of the parts that is bought besides, as 5 %; counted from ten openings on."`
	Permit      Span                `key:"permit" doc:"Price of permits, for the whole job."`
	Travel      Span                `key:"travel" doc:"Price of the way there and back, for every own visit."`
	CableExtra  q.Measured[q.Ratio] `key:"cable_extra" from:"1" to:"3" doc:"Length bought over length run of cable and raceway; 1.15 when not given."`
	Hours       []TaskHours         `key:"hours" doc:"Own hours of the tasks, where yours differ from those the program has from memory."`
	Prices      []Price             `key:"prices" doc:"What a part costs you, each; a part without a price is counted and not priced."`
	Subs        []SubPrice          `key:"subs" doc:"What other firms ask for one opening; a firm without a price is named and not priced."`
}

// Span is a number that is known to lie in a range.
type Span struct {
	Low    q.Measured[q.Ratio] `key:"low" from:"0" doc:"The least it may come to; the likely one when not given."`
	Likely q.Measured[q.Ratio] `key:"likely" from:"0" doc:"What it most likely comes to; the middle of the other two when not given."`
	High   q.Measured[q.Ratio] `key:"high" from:"0" doc:"The most it may come to; the likely one when not given."`
}

// TaskHours are the own hours of a task.
type TaskHours struct {
	Task  Task `key:"task" need:"yes" doc:"The task."`
	Hours Span `key:"hours" need:"yes" doc:"Hours of one technician, each time that it is done."`
}

// Price is what one part costs.
type Price struct {
	Part  Part   `key:"part" doc:"The sort of part."`
	Sheet string `key:"sheet" doc:"Name of the hardware sheet, where the price is that of one make only; it outranks the sort."`
	Price Span   `key:"price" need:"yes" doc:"Price of one; of cable and raceway, price of the unit length named."`
	Per   PerLen `key:"per" doc:"Unit length that the price is for, of cable and raceway; a foot when not given."`
}

// SubPrice is what another firm asks.
type SubPrice struct {
	Trade Trade `key:"trade" need:"yes" doc:"The trade."`
	Price Span  `key:"price" need:"yes" doc:"Its price for one opening."`
}

// PerLen is a unit length of a price.
type PerLen string

// Choices lists the unit lengths that a file may name.
func (PerLen) Choices() []string { return []string{"ft", "m"} }

// Task is a piece of own work that is reckoned as one.
type Task string

// The tasks.
const (
	Mobilise      Task = "mobilise"
	TuneCloser    Task = "repair or tune closer"
	MountOperator Task = "mount operator"
	LoopAndCover  Task = "loop and cover"
	WirelessPlate Task = "wireless switch"
	WiredPlate    Task = "wired switch with raceway"
	FitStrike     Task = "electric strike"
	FitRetraction Task = "latch retraction"
	AccessTie     Task = "access-control interface"
	AlarmTie      Task = "fire-alarm tie"
	Commission    Task = "commission"
	CloseOut      Task = "close out"
)

// Choices lists the tasks that a file may name.
func (Task) Choices() []string {
	return []string{string(Mobilise), string(TuneCloser), string(MountOperator), string(LoopAndCover), string(WirelessPlate), string(WiredPlate),
		string(FitStrike), string(FitRetraction), string(AccessTie), string(AlarmTie), string(Commission), string(CloseOut)}
}

// Part is a sort of part that is taken off.
type Part string

// The sorts of part.
const (
	OperatorPart    Part = "operator"
	CloserPart      Part = "closer"
	ArmPart         Part = "arm"
	PlatePart       Part = "mounting plate"
	BoltPart        Part = "through-bolt set"
	ScrewPart       Part = "screw set"
	LoopPart        Part = "door loop"
	WirelessPart    Part = "wireless switch"
	WiredPart       Part = "wired switch"
	BoxPart         Part = "switch box"
	ReceiverPart    Part = "receiver"
	CellPart        Part = "transmitter cell set"
	BatteryPart     Part = "standby battery"
	ModePart        Part = "mode switch"
	AlarmRelayPart  Part = "alarm relay"
	LogicPart       Part = "logic module"
	StrikePart      Part = "electric strike"
	RetractionPart  Part = "latch retraction kit"
	SupplyPart      Part = "power supply"
	DevicePart      Part = "other device"
	CablePart       Part = "cable"
	RacewayPart     Part = "raceway"
	FittingPart     Part = "raceway fitting"
	CautionPart     Part = "caution sign"
	InstructionPart Part = "instruction sign"
	StickerPart     Part = "daily-check sticker"
	TagPart         Part = "torque tag"
)

// Choices lists the sorts of part that a file may name.
func (Part) Choices() []string {
	return []string{string(OperatorPart), string(CloserPart), string(ArmPart), string(PlatePart), string(BoltPart), string(ScrewPart), string(LoopPart),
		string(WirelessPart), string(WiredPart), string(BoxPart), string(ReceiverPart), string(CellPart), string(BatteryPart), string(ModePart),
		string(AlarmRelayPart), string(LogicPart), string(StrikePart), string(RetractionPart), string(SupplyPart), string(DevicePart), string(CablePart), string(RacewayPart), string(FittingPart),
		string(CautionPart), string(InstructionPart), string(StickerPart), string(TagPart)}
}

// Trade is a trade that takes part in the work.
type Trade string

// The trades.
const (
	Electrician   Trade = "licensed electrician"
	AlarmFirm     Trade = "fire-alarm contractor"
	AccessFirm    Trade = "access-control integrator"
	DoorInspector Trade = "fire-door inspector"
	OwnTrade      Trade = "door technician"
)

// Choices lists the trades that a file may give a price for.
func (Trade) Choices() []string {
	return []string{string(Electrician), string(AlarmFirm), string(AccessFirm), string(DoorInspector)}
}

// Work is where in the job an opening stands, and under which conditions it is
// worked on: what groups visits and what makes hours longer.
type Work struct {
	Building string `key:"building" doc:"The building; visits are grouped by it."`
	Floor    string `key:"floor" doc:"The floor."`
	Phase    string `key:"phase" doc:"The phase of the job in which it is done, such as summer; visits are grouped by it."`
	HardWall YesNo  `key:"masonry" doc:"Whether wires go through masonry or above a closed ceiling."`
	Hospital YesNo  `key:"occupied" doc:"Whether it is worked on in an occupied hospital or the like."`
	Night    YesNo  `key:"night" doc:"Whether it is worked on at night."`
	Tall     YesNo  `key:"tall" doc:"Whether head and operator are out of reach of an ordinary stepladder."`
	Winter   YesNo  `key:"winter" doc:"Whether it is an outer opening worked on in winter."`
	First    YesNo  `key:"first_of_kind" doc:"Whether it is the first of its kind for who does it."`
}
