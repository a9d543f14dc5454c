package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"swingwright/fact"
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/power"
	q "swingwright/quantity"
)

// Feeding is how the devices of an opening, or of a group that shares a wiring, are
// fed: the volts of each in its worst moment, what the supplies have to give, how long
// a battery carries on and how full the conduits are.
type Feeding struct {
	Name     string // of the opening, or of the group
	Wiring   *opening.Wiring
	Faults   []power.Fault // what is wrong with the wiring, or missing from it
	Circuits []Fed
	Branches []FedBranch
	Conduits []Pipe
	Cords    []CordFit
	// Electrician is the work that a licensed electrician has to do, Others what
	// somebody else was named for.
	Electrician, Others []string
	Cautions            []Caution
	Missing             []string // why nothing could be reckoned
	// Group is the one that shares the wiring; nil for that of one opening.
	Group *opening.Group
}

// Concerns tells whether a device counts for an opening: in the wiring of a group those
// of other openings do not.
func (f *Feeding) Concerns(d *opening.Device, id string) bool {
	return f.Group == nil || d.Opening == "" || d.Opening == id
}

// Fed is a supply and what it feeds, reckoned and judged.
type Fed struct {
	*power.Circuit
	Course   *power.Course   // nil where faults keep it from being reckoned
	Currents []power.Current // of the supply, over the sequence
	Demand   power.Demand
	// Devices are the loads, judged; Statements what is judged of the supply and its
	// battery. What nobody published is advice.
	Devices    []FedDevice
	Statements []Statement
	// Smallest are the thinnest gauges that will do, by run; nil where none do.
	Smallest []power.Gauge
	// Stagger is the delay between the two openings of a group that keeps the peak
	// within the supply's; nil for one opening, where the supply's peak is not known, and
	// where both may be asked at any time, so that no delay keeps them apart.
	Stagger *power.Stagger
	Standby *power.Standby // nil where none is asked for
	Needs   q.Charge       // rated capacity that the standby needs
	Lasts   q.Time         // how long the battery that is there carries on; 0 where none is
}

// FedDevice is a load in its worst moment.
type FedDevice struct {
	*power.Worst
	Device  *opening.Device
	Verdict judge.Verdict
	Source  string // of the least voltage
}

// Pipe is a conduit and how full it is.
type Pipe struct {
	Conduit *opening.Conduit
	Fill    power.Fill
	Verdict judge.Verdict
	Source  string
	Why     string // what is not known, or assumed
}

// FedBranch is a branch circuit of the mains, reckoned and judged. What nobody
// published is advice.
type FedBranch struct {
	*power.Branch
	Course     *power.Course // nil where something keeps its cables from being reckoned
	Statements []Statement
}

// CordFit is the flexible cord of an opening across its hinges, and how the length that
// it has suits; without statements where nobody wrote its length down.
type CordFit struct {
	Opening string
	*Cord
	Has        q.Measured[q.Length]
	Statements []Statement
}

// Power is how the devices of an opening are fed, by its own wiring or by that of the
// group that shares one.
func (p *Plan) Power(sheets *opening.Sheets, policy judge.Policy) *Feeding {
	if p.Feeding == nil { // nothing is written down
		f := &Feeding{Name: p.Opening.ID, Wiring: &p.Opening.Wiring}
		f.reckon([]*Plan{p}, nil, false, sheets, policy)
		return f
	}
	return p.Feeding
}

// feed reckons how the devices of an opening are fed, if anything is written down of
// it: by its own wiring, or by that of its group, with what the leaves of the others do.
func (p *Plan) feed(facts []float64, sheets *opening.Sheets, opt Options) {
	own := timingOf(func(id fact.ID) float64 { return facts[id] })
	if !p.Opening.Wiring.None() {
		p.Feeding = &Feeding{Name: p.Opening.ID, Wiring: &p.Opening.Wiring}
		p.Feeding.reckon([]*Plan{p}, map[string]power.Timing{"": own, p.Opening.ID: own}, false, sheets, opt.Policy)
		return
	}
	g := opening.Sharing(opt.Groups, p.Opening.ID)
	if g == nil {
		return
	}
	p.Feeding = &Feeding{Name: g.ID, Wiring: &g.Wiring, Group: g}
	timing := map[string]power.Timing{"": own}
	var plans []*Plan
	for i, id := range g.Of {
		one, moves := p, own
		if id != p.Opening.ID {
			one, moves = otherOf(id, sheets, opt)
		}
		if one == nil {
			moves = own
		} else {
			plans = append(plans, one)
		}
		timing[id] = starting(moves, g, i)
	}
	p.Feeding.reckon(plans, timing, g.Kind == opening.Vestibule, sheets, opt.Policy)
}

// otherOf is another opening of the job as far as the feeding of its group needs it, and
// how long its leaf moves, by best estimates; nil where the job has none of the id.
func otherOf(id string, sheets *opening.Sheets, opt Options) (*Plan, power.Timing) {
	at := slices.IndexFunc(opt.Openings, func(o opening.Opening) bool { return o.ID == id })
	if at < 0 {
		return nil, power.Timing{}
	}
	opt.InPlaceOf, opt.Recorded = nil, nil
	p := &Plan{Opening: &opt.Openings[at]}
	best := p.begin(new(reckoner), sheets, opt)
	return p, timingOf(func(id fact.ID) float64 { return best[id] })
}

// PowerOf reckons how the devices of a group are fed, of the plans of whose openings it
// takes how long their leaves move. The doors of a vestibule may be asked at any time,
// the leaves of a pair together, the second by the group's stagger later.
func PowerOf(g *opening.Group, plans []*Plan, sheets *opening.Sheets, policy judge.Policy) *Feeding {
	f := &Feeding{Name: g.ID, Wiring: &g.Wiring, Group: g}
	timing := make(map[string]power.Timing)
	for i, p := range plans {
		own := timingOf(func(id fact.ID) float64 {
			if one := p.Facts[id]; one.Known {
				return one.Value
			}
			return math.NaN()
		})
		timing[p.Opening.ID] = starting(own, g, i)
	}
	f.reckon(plans, timing, g.Kind == opening.Vestibule, sheets, policy)
	return f
}

// timingOf is how long the leaf moves, is held and closes, as far as that is reckoned or
// measured.
func timingOf(value func(fact.ID) float64) power.Timing {
	of := func(id fact.ID) q.Time {
		if x := value(id); x > 0 {
			return q.Time(x)
		}
		return 0
	}
	return power.Timing{Moving: of(fact.PoweredTimeToOpen), Holding: of(fact.PoweredDwell), Closing: of(fact.CloseTime90ToClosed)}
}

// starting is a timing as the opening of a place in its group starts.
func starting(t power.Timing, g *opening.Group, place int) power.Timing {
	if place > 0 && g.Kind != opening.Vestibule {
		t.Start = g.Stagger.Value
	}
	return t
}

func (f *Feeding) reckon(plans []*Plan, timing map[string]power.Timing, anyTime bool, sheets *opening.Sheets, policy judge.Policy) {
	f.Cautions = powerCautions
	f.electrician(plans)
	for _, p := range plans {
		f.cord(p, policy)
	}
	if f.Wiring.None() {
		f.Missing = append(f.Missing, "wiring: devices, cables and wires, point to point")
		return
	}
	var all []power.Circuit
	opt := power.Options{Timing: timing, AnyTime: anyTime, Delays: f.delays(plans, sheets)}
	all, f.Faults = power.Circuits(f.Wiring, sheets, opt)
	for i := range all {
		f.Circuits = append(f.Circuits, f.feed(&all[i], policy))
	}
	for _, b := range power.Branches(f.Wiring, sheets, all, opt) {
		f.Branches = append(f.Branches, f.branch(&b, policy))
	}
	f.mainsWork()
	f.pipes()
	if len(all) == 0 {
		f.Missing = append(f.Missing, "a supply: a device of kind supply whose plus leads to the devices")
	}
}

// feed reckons and judges one circuit.
func (f *Feeding) feed(c *power.Circuit, policy judge.Policy) Fed {
	d := Fed{Circuit: c}
	if len(c.Faults) > 0 {
		return d
	}
	t := &c.Tree
	if err := t.Check(); err != nil {
		c.Notes = append(c.Notes, "it cannot be reckoned: "+err.Error())
		return d
	}
	d.Course, d.Currents = t.Follow(), t.Currents()
	for i := range d.Course.Loads {
		w := &d.Course.Loads[i]
		one := FedDevice{Worst: w, Device: c.Devices[i], Verdict: judge.DoesNotApply, Source: leastOf(c, c.Devices[i].Name)}
		if w.Works {
			one.Verdict = decideVolts(t, i, w, policy)
		}
		d.Devices = append(d.Devices, one)
	}
	overload := q.Ratio(1)
	if c.Rated > 0 {
		overload = q.Ratio(c.Peak / c.Rated)
	}
	diversity := q.Ratio(1)
	if m := f.Wiring.Diversity; m.Known {
		diversity = m.Value
	}
	d.Demand = t.Demand(d.Course.Peak, diversity, overload)
	d.supply(policy, f.Wiring)
	d.Smallest, _ = t.Smallest(thinnest, func(int) bool { return true }, lacking(policy))
	if len(t.Sequences) > 1 && c.Peak > 0 && !t.AnyTime {
		s := t.BestStagger(len(t.Sequences)-1, c.Peak)
		d.Stagger = &s
	}
	d.standby(f.Wiring, policy)
	return d
}

// thinnest is the thinnest gauge that is proposed for a run to a door: what is thinner
// breaks easily where it is pulled and stripped (common practice).
const thinnest power.Gauge = 22

// leastOf is where the least voltage of a device comes from.
func leastOf(c *power.Circuit, name string) string {
	for _, g := range c.Givens {
		if g.Device == name && g.What == "least voltage" {
			return g.Source
		}
	}
	return ""
}

// Draws by which it is judged whether a device has enough.
const (
	feedDraws = 256
	feedSeed  = 1
)

// decideVolts judges by draws: near collapse no slope tells the odds.
func decideVolts(t *power.Tree, load int, w *power.Worst, policy judge.Policy) judge.Verdict {
	yes, err := t.Odds(load, w.Others, feedSeed, feedDraws)
	if err != nil {
		return judge.NotMeasured
	}
	return judge.DecideProbability(yes, feedDraws, policy)
}

// lacking is by how much the worst devices of a tree miss their least voltages with the
// guard band on top.
func lacking(policy judge.Policy) func(*power.Tree) float64 {
	return func(t *power.Tree) float64 {
		lack := 0.
		for _, w := range t.Follow().Loads {
			if !w.Works {
				continue
			}
			if w.Ending != power.Fed {
				lack += float64(w.Rated + w.Drop)
				continue
			}
			lack += max(0, float64(judge.AcceptanceLimit(judge.AtLeast, float64(w.LeastItWorksAt), float64(w.U), policy))-float64(w.Volts))
		}
		return lack
	}
}

// state adds a value held against a limit. What neither the supply nor the battery
// itself says is advice.
func (d *Fed) state(s Statement, policy judge.Policy) {
	d.Statements = append(d.Statements, decided(s, policy))
}

// decided is a statement with its verdict.
func decided(s Statement, policy judge.Policy) Statement {
	s.Margin = judge.Margin(s.Side, s.Value, s.Limit)
	s.Verdict = judge.Decide(s.Margin, s.U, policy)
	return s
}

// supply judges what the supply has to give against what it can.
func (d *Fed) supply(policy judge.Policy, w *opening.Wiring) {
	c := d.Circuit
	ask := fmt.Sprintf("a supply of %g A", float64(d.Demand.Size))
	if d.Demand.Size == 0 {
		ask = "several supplies: none that is commonly made is large enough"
	}
	if c.Rated > 0 {
		d.state(Statement{What: "Current that it gives all the time", Dim: q.DimCurrent, Side: judge.AtMost, Value: float64(d.Demand.Sustained), Limit: float64(c.Rated),
			U: float64(d.Course.SustainedU), Published: true, Source: "what the supply gives", Say: ask + " would do"}, policy)
		d.state(Statement{What: "The same with a quarter on top", Dim: q.DimCurrent, Side: judge.AtMost, Value: float64(d.Demand.With), Limit: float64(c.Rated),
			U: float64(d.Course.SustainedU) * float64(power.Headroom), Source: "common practice", Say: ask + " would do"}, policy)
		d.state(Statement{What: "Largest current, for a moment: " + phases(d.Course.Moments[d.Course.PeakAt].Phase, c.Openings), Dim: q.DimCurrent, Side: judge.AtMost,
			Value: float64(d.Course.Peak), U: float64(d.Course.PeakU), Limit: float64(c.Peak), Published: true, Source: "what the supply gives", Say: cmp.Or(d.easing(), ask+" would do")}, policy)
	} else {
		d.Statements = append(d.Statements, Statement{What: "Current that the supply gives", Dim: q.DimCurrent, Value: math.NaN(), Limit: float64(d.Demand.With), Margin: math.NaN(), U: math.NaN(),
			Side: judge.AtLeast, Verdict: judge.NotMeasured, Source: "common practice", Say: ask + " would do; write down current_working of " + c.Supply.Name})
	}
	if d.classTwo(w) {
		limit := power.ClassTwoLimit(c.Tree.Volts)
		value := float64(max(c.Rated, d.Course.Sustained))
		d.state(Statement{What: "Class 2 source, its rated current", Dim: q.DimCurrent, Side: judge.AtMost, Value: value, Limit: float64(limit.Current),
			Source: "NEC Chapter 9 Tables 11(A) and 11(B), 100 VA at 20 to 30 V; from memory", Say: "a source beyond this is no Class 2 source, and its wiring is done as line voltage"}, policy)
	}
}

// classTwo tells a supply whose output is, or is wired as, a Class 2 circuit.
func (d *Fed) classTwo(w *opening.Wiring) bool {
	return d.ClassTwo == "yes" || slices.ContainsFunc(d.Cables, func(c *opening.Cable) bool { return c.Class == opening.ClassTwoCircuit })
}

// easing is what would keep the peak down.
func (d *Fed) easing() string {
	for i := range d.Tree.Sequences {
		if s := &d.Tree.Sequences[i]; s.Lasts[power.Colliding] > 0 {
			return fmt.Sprintf("start the drive at least %.2g s after the lock, and their largest currents no longer meet", float64(s.Lasts[power.Releasing]+s.Lasts[power.Colliding]))
		}
	}
	return ""
}

// phases names a moment.
func phases(all []power.Phase, openings []string) string {
	text := ""
	for i, p := range all {
		if i > 0 {
			text += ", "
		}
		if len(all) > 1 {
			text += openings[i] + " "
		}
		text += p.String()
	}
	return text
}

// standby reckons what a battery has to hold.
func (d *Fed) standby(w *opening.Wiring, policy judge.Policy) {
	var battery *opening.Device
	for i := range w.Devices {
		if w.Devices[i].Kind == opening.StandbyBattery && battery == nil {
			battery = &w.Devices[i]
		}
	}
	if !w.Standby.Time.Known {
		return
	}
	cold := power.Cold
	if w.Standby.Coldest.Known {
		cold = power.ColdShare(w.Standby.Coldest.Value)
	}
	const day = 24 * 3600
	s := power.Standby{Time: w.Standby.Time.Value, Idle: d.Demand.Idle, Openings: float64(w.Standby.Openings.Value) * float64(w.Standby.Time.Value) / day,
		Cycle: d.Tree.Cycle(), Aged: power.Aged, Cold: cold, Peukert: power.Peukert}
	d.Standby, d.Needs = &s, s.Needs()
	if battery == nil || !battery.Capacity.Known {
		return
	}
	d.Lasts = s.Lasts(battery.Capacity.Value)
	d.state(Statement{What: "Capacity of the battery", Dim: q.DimCharge, Side: judge.AtLeast, Value: float64(battery.Capacity.Value), Limit: float64(d.Needs),
		U: float64(battery.Capacity.U), Published: true, Source: "computed, with age, cold and rate of discharge (shares: common practice and from memory)", Say: fmt.Sprintf("it carries on for %.1f h", float64(d.Lasts)/3600)}, policy)
}

// pipes reckons how full the conduits are.
func (f *Feeding) pipes() {
	const source = "NEC Chapter 9 Table 1; inside diameters of Table 4 from memory"
	for i := range f.Wiring.Conduits {
		c := &f.Wiring.Conduits[i]
		pipe := Pipe{Conduit: c, Verdict: judge.NotMeasured, Source: source}
		inside, known := c.Inside.Value, c.Inside.Known
		if !known && (c.Kind == "" || c.Kind == "EMT") {
			inside, known = power.Tube(c.Trade)
		}
		var cables []q.Length
		for j := range f.Wiring.Cables {
			cable := &f.Wiring.Cables[j]
			if cable.Conduit != c.Name {
				continue
			}
			d := cable.Diameter.Value
			if !cable.Diameter.Known {
				d = power.CableDiameter(power.Gauge(cable.Gauge), cable.Conductors)
				pipe.Why = "outer diameters of cables are assumed from gauge and conductors"
			}
			cables = append(cables, d)
		}
		switch {
		case len(cables) == 0:
			continue
		case !known || inside <= 0:
			pipe.Why = "its inside diameter is not known"
			if c.Trade != "" {
				pipe.Why += ": trade size " + c.Trade
			}
			pipe.Fill = power.FillOf(1, cables)
		default:
			pipe.Fill = power.FillOf(inside, cables)
			pipe.Verdict = judge.FallsShort
			if pipe.Fill.Fits() {
				pipe.Verdict = judge.Meets
			}
		}
		f.Conduits = append(f.Conduits, pipe)
	}
}

// electrician lists what is a licensed electrician's work, and what others were named for.
func (f *Feeding) electrician(plans []*Plan) {
	for _, p := range plans {
		if p.Opening.Power.Reachable == "no" {
			f.Electrician = append(f.Electrician, "a new branch circuit to "+p.Opening.ID)
		}
	}
	for i := range f.Wiring.Devices {
		d := &f.Wiring.Devices[i]
		switch {
		case d.Kind == opening.BranchCircuit:
			f.Electrician = append(f.Electrician, "branch circuit "+d.Name+", with a label on its breaker")
		case d.Kind == opening.PowerSupply:
			f.Electrician = append(f.Electrician, "the mains side of the supply "+d.Name)
		}
		if d.By != "" {
			f.Others = append(f.Others, d.Name+": "+d.By)
		}
	}
	for i := range f.Wiring.Cables {
		c := &f.Wiring.Cables[i]
		if c.By != "" {
			f.Others = append(f.Others, "cable "+c.Name+": "+c.By)
		}
	}
}

// powerCautions stand wherever power is reckoned.
var powerCautions = []Caution{
	{"power", "Isolate before opening a cover, and measure that it is off."},
	{"mains", "New circuits, mains work, and wiring that is not Class 2 are a licensed electrician's, under the local electrical code."},
	{"alarm", "Connections at the fire-alarm panel or its module are its contractor's; test together."},
	{"standing", "This is a computation, not a certificate: the local electrical code, the labels of the devices and the licensed person on site come first."},
}

// Stand sums up how a wiring is fed: a device short of volts, a supply or battery that
// cannot give what is asked, and a hazard are bad. What is not known leaves it undecided,
// and so does falling short of what is common practice or from memory.
func (f *Feeding) Stand() Standing {
	if len(f.Missing) > 0 {
		return Undecided
	}
	s := Good
	worse := func(v judge.Verdict) {
		switch v {
		case judge.FallsShort:
			s = Bad
		case judge.TooClose, judge.NotMeasured:
			s = max(s, Undecided)
		}
	}
	weigh := func(one Statement) {
		switch {
		case one.Published:
			worse(one.Verdict)
		case one.Verdict == judge.FallsShort:
			worse(judge.TooClose)
		}
	}
	for _, one := range f.Faults {
		s = max(s, Undecided)
		if one.Hazard {
			s = Bad
		}
	}
	for i := range f.Circuits {
		for _, d := range f.Circuits[i].Devices {
			worse(d.Verdict)
		}
		for _, one := range f.Circuits[i].Statements {
			if one.Verdict == judge.NotMeasured {
				worse(one.Verdict)
			}
			weigh(one)
		}
	}
	for i := range f.Conduits {
		if f.Conduits[i].Verdict != judge.Meets {
			worse(judge.TooClose)
		}
	}
	for i := range f.Branches {
		for _, one := range f.Branches[i].Statements {
			weigh(one)
		}
	}
	for i := range f.Cords {
		for _, one := range f.Cords[i].Statements {
			weigh(one)
		}
	}
	return s
}

// LoadOf is the load that a device of the circuit is.
func (d *Fed) LoadOf(one *FedDevice) *power.Load {
	i := slices.Index(d.Circuit.Devices, one.Device)
	return &d.Tree.Loads[i]
}
