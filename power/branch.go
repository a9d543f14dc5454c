package power

import (
	"math"
	"slices"

	"swingwright/opening"
	q "swingwright/quantity"
)

// A Branch is a branch circuit of the mains with what it feeds, as far as one wiring
// tells. Its tree has one sequence: everything at rest, all of it at work, and all of
// it at its largest current at once.
type Branch struct {
	Breaker *opening.Device
	Rated   q.Current // of its breaker
	Tree    Tree
	Devices []*opening.Device // by load
	Cables  []*opening.Cable  // by run
	// Operators is how many operators hang on it, directly and by supplies; those of
	// other openings are counted where the wiring tells of them.
	Operators float64
	Givens    []Given
	Missing   []string // what keeps its cables from being reckoned
}

// What a branch circuit is taken to be where nobody says (common practice in North
// America).
const (
	usualMains   q.Voltage = 120
	usualBreaker q.Current = 15
)

// mains is what a supply gives of what it takes in volt-amperes: efficiency times power
// factor, of small supplies without and with correction (from memory).
var mains = between{0.45, 0.85}

// DoorsOnCircuit are how many operators a circuit of 15 A may feed: up to the first
// without a second thought, beyond the second not (common practice: 4 to 6, by inrush).
var DoorsOnCircuit = [2]float64{4, 6}

// DoorCircuit is the circuit that [DoorsOnCircuit] counts for.
const DoorCircuit = usualBreaker

// BranchDrop is the share of its voltage that a branch circuit may lose on the way
// (NEC 210.19(A), informational note, from memory: 3 %, which is advice there).
const BranchDrop q.Ratio = 0.03

// Branches finds the branch circuits of a wiring: what their line terminals lead to,
// and what that takes of them. The circuits are those of the same wiring.
func Branches(w *opening.Wiring, sheets *opening.Sheets, circuits []Circuit, opt Options) (all []Branch) {
	if opt.Warmth == 0 {
		opt.Warmth = tableWarmth
	}
	n := newNet(w)
	if len(w.Wires) == 0 {
		n.lineCables()
	}
	for i := range w.Devices {
		if d := &w.Devices[i]; d.Kind == opening.BranchCircuit {
			all = append(all, n.branch(d, sheets, circuits, opt))
		}
	}
	return all
}

// lineCables joins, in a wiring of cables only, what cables of line voltage join.
func (n *net) lineCables() {
	for i := range n.w.Cables {
		c := &n.w.Cables[i]
		from, to := n.known[c.From], n.known[c.To]
		if from == nil || to == nil || !(c.Class == opening.LineCircuit || c.Class == "" && (from.Kind == opening.BranchCircuit || to.Kind == opening.BranchCircuit)) {
			continue
		}
		for _, a := range lineOf(from) {
			for _, b := range lineOf(to) {
				n.join(a, b, link{cable: c, wire: i})
			}
		}
	}
}

// lineOf are the terminals of a device for line voltage.
func lineOf(d *opening.Device) (all []string) {
	for _, p := range d.Points() {
		if p.Function == opening.Line {
			all = append(all, d.Name+"."+p.Name)
		}
	}
	return all
}

func (n *net) branch(d *opening.Device, sheets *opening.Sheets, circuits []Circuit, opt Options) Branch {
	b := Branch{Breaker: d, Rated: usualBreaker}
	t := &b.Tree
	t.Volts = usualMains
	keep := func(of, what string, dim q.Dimension, value float64, source string, assumed bool) {
		b.Givens = append(b.Givens, Given{of, what, dim, value, source, assumed})
	}
	if d.Volts.Known {
		t.Volts = d.Volts.Value
		keep(d.Name, "voltage of the circuit", q.DimVoltage, float64(t.Volts), "wiring", false)
	} else {
		keep(d.Name, "voltage of the circuit", q.DimVoltage, float64(t.Volts), "assumed (common practice)", true)
	}
	if d.Working.Known && d.Working.Value > 0 {
		b.Rated = d.Working.Value
		keep(d.Name, "current of its breaker", q.DimCurrent, float64(b.Rated), "wiring", false)
	} else {
		keep(d.Name, "current of its breaker", q.DimCurrent, float64(b.Rated), "assumed (common practice)", true)
	}
	t.VoltsU = t.Volts * q.Voltage(mainsU)
	t.Sequences = []Sequence{{Lasts: [Phases]q.Time{Starting: 1, Moving: 1}}}
	f := n.flow(d, lineOf(d))
	var at []int
	for i := range n.w.Devices {
		one := &n.w.Devices[i]
		if one == d {
			continue
		}
		node := -1
		for _, in := range lineOf(one) {
			if r := f.reached[in]; r != nil && node < 0 {
				node = r.node
			}
		}
		if node < 0 {
			continue
		}
		l, operators := n.atMains(one, sheets, circuits, t.Volts, keep)
		b.Operators += operators
		if slices.Max(l.Draws[:]) == 0 {
			continue
		}
		t.Loads, b.Devices, at = append(t.Loads, l), append(b.Devices, one), append(at, node)
	}
	if d.Doors.Known {
		b.others(float64(d.Doors.Value), &at)
	}
	c := Circuit{Supply: d, Tree: *t}
	c.prune(f, at, opt)
	b.Tree, b.Cables = c.Tree, c.Cables
	for _, one := range append(f.faults, c.Faults...) {
		b.Missing = append(b.Missing, one.Where+": "+one.What)
	}
	b.Givens = append(b.Givens, c.Givens...)
	return b
}

// mainsU is the relative standard uncertainty of the mains voltage: ±5 % as if every
// value in it were as likely (ANSI C84.1 service range, from memory; JCGM 100:2008, 4.3.7).
const mainsU q.Ratio = 0.05 / 1.7320508075688772

// others puts the operators of other openings at the breaker itself: each is taken to
// take as much as those of this wiring do on average.
func (b *Branch) others(count float64, at *[]int) {
	if b.Operators > 0 && count > 0 {
		sum := Load{Name: "operators of other openings", Rated: b.Tree.Volts, Behaviour: SteadyPower}
		share := count / b.Operators
		for i := range b.Tree.Loads {
			for p, a := range b.Tree.Loads[i].Draws {
				sum.Draws[p] += a * q.Current(share)
				sum.U[p] = max(sum.U[p], b.Tree.Loads[i].U[p])
			}
		}
		b.Tree.Loads, b.Devices, *at = append(b.Tree.Loads, sum), append(b.Devices, b.Breaker), append(*at, 0)
	}
	b.Operators += count
}

// atMains is what a device takes of the mains, and how many operators it drives.
func (n *net) atMains(d *opening.Device, sheets *opening.Sheets, circuits []Circuit, volts q.Voltage, keep func(string, string, q.Dimension, float64, string, bool)) (Load, float64) {
	l := Load{Name: d.Name, Rated: volts, Least: volts * q.Voltage(1-BranchDrop), Behaviour: SteadyPower}
	put := func(idle, working, peak q.Current, at q.Voltage, u q.Ratio) {
		takes, spread := mains.middle()
		scale := q.Current(float64(at) / (float64(volts) * takes))
		if at > lowVoltage { // said of the mains itself
			scale, spread = 1, 0
		} else {
			keep(d.Name, "share of its volt-amperes that it gives as power", q.DimRatio, takes, fromMemory, true)
		}
		u = q.Ratio(math.Hypot(float64(u), spread))
		for p := range l.Draws {
			l.Draws[p] = idle * scale
			l.U[p] = u
		}
		l.Draws[Moving], l.Draws[Starting] = working*scale, max(peak, working)*scale
		keep(d.Name, "largest current that it takes of the mains", q.DimCurrent, float64(l.Draws[Starting]), "computed", false)
	}
	operators := 0.
	if d.Kind == opening.PowerSupply {
		var idle, working, peak q.Current
		at := usualVolts
		for i := range circuits {
			c := &circuits[i]
			if c.Supply != d {
				continue
			}
			at = c.Tree.Volts
			for k := range c.Tree.Loads {
				one := &c.Tree.Loads[k]
				share := q.Current(one.Rated / at)
				idle += one.Draws[Resting] * share
				working += one.Sustained() * share
				peak += slices.Max(one.Draws[:]) * share
				if c.Devices[k].Kind == opening.Drive {
					operators++
				}
			}
		}
		put(idle, working, peak, at, statedCurrentU)
		return l, operators
	}
	if d.Kind == opening.Drive {
		operators = 1
	}
	var givens []Given
	own, _ := loadOf(d, sheets, &givens)
	at := own.Rated
	if d.Working.Known && !d.Volts.Known {
		at = volts // a current off the label of a device that hangs on the mains
	}
	put(own.Draws[Resting], own.Sustained(), slices.Max(own.Draws[:]), at, slices.Max(own.U[:]))
	return l, operators
}

// Currents are what everything on the branch takes at work and at its largest, at the
// circuit's voltage, with the standard uncertainties.
func (b *Branch) Currents() (working, peak, workingU, peakU q.Current) {
	w, p := b.sum(Moving), b.sum(Starting)
	return w.Current, p.Current, w.U, p.U
}
