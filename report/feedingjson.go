package report

import (
	"encoding/json"
	"io"

	"swingwright/plan"
	"swingwright/power"
	"swingwright/quantity"
)

// feedingFormat names the layout of a feeding's JSON; docs/json.md describes it.
const feedingFormat = "swingwright power 1"

type feedingJSON struct {
	Format      string            `json:"format"`
	Name        string            `json:"name"`
	Standing    string            `json:"standing"`
	Missing     []string          `json:"missing"`
	Faults      []wiringFaultJSON `json:"faults"`
	Circuits    []circuitJSON     `json:"circuits"`
	Branches    []branchJSON      `json:"branches"`
	Conduits    []conduitJSON     `json:"conduits"`
	Cords       []loopJSON        `json:"door_loops"`
	Electrician []string          `json:"electrician"`
	Others      []string          `json:"others"`
	Cautions    []cautionJSON     `json:"cautions"`
}

type wiringFaultJSON struct {
	Where  string `json:"where"`
	What   string `json:"what"`
	Hint   string `json:"hint"`
	Hazard bool   `json:"hazard"`
	Source string `json:"source"`
}

type circuitJSON struct {
	Supply     string          `json:"supply"`
	Volts      number          `json:"volts"`
	VoltsU     number          `json:"volts_u"`
	Rated      *number         `json:"rated"`
	Peak       *number         `json:"peak"`
	Warmth     number          `json:"temperature"`
	Ending     string          `json:"ending"`
	Devices    []fedJSON       `json:"devices"`
	Runs       []runJSON       `json:"runs"`
	Statements []statementJSON `json:"statements"`
	Idle       number          `json:"idle"`
	Sustained  number          `json:"sustained"`
	Size       *number         `json:"smallest_supply"`
	Stagger    *staggerJSON    `json:"stagger"`
	Standby    *standbyJSON    `json:"standby"`
	Currents   []courseJSON    `json:"currents"`
	Givens     []givenJSON     `json:"reckoned_with"`
	Notes      []string        `json:"notes"`
}

type fedJSON struct {
	Device  string        `json:"device"`
	Kind    string        `json:"kind"`
	Node    int           `json:"node"`
	Phase   power.Phase   `json:"phase"`
	Phases  []power.Phase `json:"phases"`
	Takes   number        `json:"takes"`
	Behaves string        `json:"behaves"`
	Ending  string        `json:"ending"`
	Volts   *number       `json:"volts"`
	U       *number       `json:"u"`
	Least   number        `json:"least"`
	Margin  *number       `json:"margin"`
	Verdict string        `json:"verdict"`
	Source  string        `json:"source"`
}

type runJSON struct {
	Cable    string  `json:"cable"`
	Parent   int     `json:"parent"`
	Gauge    int     `json:"gauge"`
	Length   number  `json:"length"`
	Doubled  int     `json:"doubled"`
	Ohms     number  `json:"resistance"`
	Amps     number  `json:"current"`
	Drop     number  `json:"drop"`
	Smallest *number `json:"smallest_gauge"`
}

type staggerJSON struct {
	Delay number `json:"delay"`
	Peak  number `json:"peak"`
	Keeps bool   `json:"keeps"`
}

type standbyJSON struct {
	Time     number  `json:"time"`
	Openings number  `json:"openings"`
	Taken    number  `json:"taken"`
	Needs    number  `json:"needs"`
	Next     *number `json:"next"`
	Lasts    *number `json:"lasts"`
	Aged     number  `json:"aged"`
	Cold     number  `json:"cold"`
	Peukert  number  `json:"peukert"`
}

type courseJSON struct {
	From   number        `json:"from"`
	To     number        `json:"to"`
	Amps   number        `json:"current"`
	Phases []power.Phase `json:"phases"`
}

type givenJSON struct {
	Of      string `json:"of"`
	What    string `json:"what"`
	Unit    string `json:"unit"`
	Value   number `json:"value"`
	Source  string `json:"source"`
	Assumed bool   `json:"assumed"`
}

type conduitJSON struct {
	Name     string `json:"name"`
	Cables   int    `json:"cables"`
	Share    number `json:"share"`
	Limit    number `json:"limit"`
	Smallest string `json:"smallest"`
	Verdict  string `json:"verdict"`
	Source   string `json:"source"`
	Why      string `json:"why"`
}

type loopJSON struct {
	Opening    string          `json:"opening"`
	Cord       cordJSON        `json:"cord"`
	Has        *number         `json:"has"`
	Statements []statementJSON `json:"statements"`
}

type branchJSON struct {
	Breaker    string          `json:"breaker"`
	Volts      number          `json:"volts"`
	Rated      number          `json:"rated"`
	Operators  number          `json:"operators"`
	Devices    []string        `json:"devices"`
	Statements []statementJSON `json:"statements"`
	Runs       []runJSON       `json:"runs"`
	Givens     []givenJSON     `json:"reckoned_with"`
	Missing    []string        `json:"missing"`
}

// FeedingJSON writes what Text.Feeding does for programs, in SI; docs/json.md describes
// the layout.
func FeedingJSON(to io.Writer, f *plan.Feeding) error {
	out := feedingJSON{
		Format: feedingFormat, Name: f.Name, Standing: standWords[f.Stand()].word, Missing: texts(f.Missing), Faults: []wiringFaultJSON{}, Circuits: []circuitJSON{}, Branches: []branchJSON{},
		Conduits: []conduitJSON{}, Cords: []loopJSON{}, Electrician: texts(f.Electrician), Others: texts(f.Others), Cautions: []cautionJSON{},
	}
	for _, one := range f.Faults {
		out.Faults = append(out.Faults, wiringFaultJSON(one))
	}
	for i := range f.Circuits {
		out.Circuits = append(out.Circuits, circuitOf(&f.Circuits[i]))
	}
	for i := range f.Branches {
		out.Branches = append(out.Branches, branchOf(&f.Branches[i]))
	}
	for i := range f.Conduits {
		p := &f.Conduits[i]
		out.Conduits = append(out.Conduits, conduitJSON{p.Conduit.Name, p.Fill.Cables, number(p.Fill.Share), number(p.Fill.Limit), p.Fill.Smallest, p.Verdict.String(), p.Source, p.Why})
	}
	for _, c := range f.Cords {
		out.Cords = append(out.Cords, loopJSON{c.Opening, *cordOf(c.Cord), some(c.Has.Value), statementsOf(c.Statements)})
	}
	for _, c := range f.Cautions {
		out.Cautions = append(out.Cautions, cautionJSON(c))
	}
	encoder := json.NewEncoder(to)
	encoder.SetIndent("", " ")
	return encoder.Encode(out)
}

// some is a number, null for zero.
func some[N ~float64](x N) *number {
	if x == 0 {
		return nil
	}
	n := number(x)
	return &n
}

func circuitOf(d *plan.Fed) circuitJSON {
	out := circuitJSON{
		Supply: d.Supply.Name, Volts: number(d.Tree.Volts), VoltsU: number(d.Tree.VoltsU), Rated: some(d.Rated), Peak: some(d.Peak), Warmth: number(d.Tree.Warmth),
		Devices: []fedJSON{}, Runs: []runJSON{}, Statements: []statementJSON{}, Currents: []courseJSON{}, Givens: []givenJSON{}, Notes: texts(d.Notes),
	}
	out.Givens = givensOf(d.Givens)
	if d.Course == nil {
		return out
	}
	out.Ending, out.Idle, out.Sustained, out.Size = d.Course.Ending.String(), number(d.Demand.Idle), number(d.Demand.Sustained), some(d.Demand.Size)
	for i := range d.Devices {
		out.Devices = append(out.Devices, fedOf(d, &d.Devices[i]))
	}
	for k := range d.Tree.Runs {
		run := runOf(&d.Tree, d.Course, d.Cables[k].Length.Value, k)
		if d.Smallest != nil {
			run.Smallest = some(float64(d.Smallest[k]))
		}
		out.Runs = append(out.Runs, run)
	}
	out.Statements = statementsOf(d.Statements)
	if s := d.Stagger; s != nil {
		out.Stagger = &staggerJSON{number(s.Delay), number(s.Peak), s.Keeps}
	}
	if s := d.Standby; s != nil {
		out.Standby = &standbyJSON{number(s.Time), number(s.Openings), number(s.Taken()), number(d.Needs), some(power.NextCapacity(d.Needs)), some(d.Lasts), number(s.Aged), number(s.Cold), number(s.Peukert)}
	}
	for _, c := range d.Currents {
		out.Currents = append(out.Currents, courseJSON{number(c.From), number(c.To), number(c.Amps), c.Phase})
	}
	return out
}

func fedOf(d *plan.Fed, one *plan.FedDevice) fedJSON {
	load := d.LoadOf(one)
	out := fedJSON{
		Device: one.Device.Name, Kind: string(one.Device.Kind), Node: load.Node, Phase: one.Phase, Phases: one.Others, Takes: number(load.Draws[one.Phase]),
		Behaves: load.Behaviour.String(), Ending: one.Ending.String(), Least: number(one.LeastItWorksAt), Verdict: one.Verdict.String(), Source: one.Source,
	}
	if out.Phases == nil {
		out.Phases = []power.Phase{}
	}
	if one.Works && one.Ending == power.Fed {
		volts, u, margin := number(one.Volts), number(one.U), number(one.Margin)
		out.Volts, out.U, out.Margin = &volts, &u, &margin
	}
	return out
}

func runOf(t *power.Tree, c *power.Course, length quantity.Length, k int) runJSON {
	r, use := &t.Runs[k], &c.Runs[k]
	return runJSON{Cable: r.Name, Parent: r.Parent, Gauge: int(r.Wire.Gauge), Length: number(length), Doubled: max(r.Doubled, 1), Ohms: number(t.Resistance(k)), Amps: number(use.Amps), Drop: number(use.Drop)}
}

func statementsOf(all []plan.Statement) []statementJSON {
	out := []statementJSON{}
	for i := range all {
		out = append(out, statementOf(&all[i]))
	}
	return out
}

func givensOf(all []power.Given) []givenJSON {
	out := []givenJSON{}
	for _, g := range all {
		out = append(out, givenJSON{g.Device, g.What, quantity.SIUnit(g.Dim), number(g.Value), g.Source, g.Assumed})
	}
	return out
}

func branchOf(b *plan.FedBranch) branchJSON {
	out := branchJSON{Breaker: b.Breaker.Name, Volts: number(b.Tree.Volts), Rated: number(b.Rated), Operators: number(b.Operators), Devices: []string{},
		Statements: statementsOf(b.Statements), Runs: []runJSON{}, Givens: givensOf(b.Givens), Missing: texts(b.Missing)}
	for i, d := range b.Devices {
		if d != b.Breaker {
			out.Devices = append(out.Devices, b.Tree.Loads[i].Name)
		}
	}
	if b.Course != nil {
		for k := range b.Tree.Runs {
			out.Runs = append(out.Runs, runOf(&b.Tree, b.Course, b.Cables[k].Length.Value, k))
		}
	}
	return out
}
