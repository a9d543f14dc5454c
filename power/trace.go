package power

import (
	"cmp"
	"container/heap"
	"fmt"
	"math"
	"slices"

	"swingwright/opening"
	q "swingwright/quantity"
)

// reach is how the plus side comes to a terminal from a source.
type reach struct {
	at      string
	from    string  // terminal before it, empty at the source
	by      link    // what led here
	ohms    float64 // on the way, for the shortest
	node    int     // of the tree
	through int     // contacts on the way
	order   int
}

// spread of the plus side from the outputs of one source, the way of least resistance
// to every terminal.
type flood struct {
	n       *net
	source  *opening.Device
	reached map[string]*reach
	order   []*reach // as they were settled
	queue   queue
	runs    []*opening.Cable // by run
	parent  []int
	doubled []int
	faults  []Fault
	notes   []string
	told    map[key]bool // links that were seen to close a second way
}

// key is a link, by wire or contact.
type key struct {
	wire  int
	relay string
}

// queue orders by resistance, then by when it was found, so that the result is the
// same every time.
type queue []*reach

func (q queue) Len() int { return len(q) }
func (q queue) Less(i, j int) bool {
	return cmp.Or(cmp.Compare(q[i].ohms, q[j].ohms), cmp.Compare(q[i].order, q[j].order)) < 0
}
func (q queue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *queue) Push(x any)   { *q = append(*q, x.(*reach)) }
func (q *queue) Pop() any {
	last := len(*q) - 1
	x := (*q)[last]
	*q = (*q)[:last]
	return x
}

// ohms is what a link takes on the way, roughly where nobody wrote down its cable.
func (l *link) ohms() float64 {
	if l.cable == nil {
		return 0
	}
	w, length := Wire{Gauge: Gauge(l.cable.Gauge)}, l.cable.Length
	if !w.Gauge.Known() {
		w.Gauge = 18
	}
	if !length.Known {
		length.Value = 10
	}
	return float64(w.Resistance(tableWarmth)) * float64(length.Value)
}

// flow follows the plus side of a source, or the line side of a circuit, from its terminals.
func (n *net) flow(source *opening.Device, outs []string) *flood {
	f := &flood{n: n, source: source, reached: make(map[string]*reach), told: make(map[key]bool)}
	count := 0
	push := func(r reach) {
		count++
		r.order = count
		heap.Push(&f.queue, &r)
	}
	for _, out := range outs {
		push(reach{at: out})
	}
	for f.queue.Len() > 0 {
		r := heap.Pop(&f.queue).(*reach)
		if old := f.reached[r.at]; old != nil {
			f.again(old, r)
			continue
		}
		f.settle(r)
		for _, l := range n.links[r.at] {
			if l.to == r.from && l.wire == r.by.wire && l.relay == r.by.relay {
				continue // back
			}
			if r.by.relay != "" && l.relay != "" {
				continue // no pole of a contact passes on to the other
			}
			through := r.through
			if l.relay != "" {
				through++
			}
			push(reach{at: l.to, from: r.at, by: l, ohms: r.ohms + l.ohms(), through: through})
		}
	}
	return f
}

// settle takes a terminal into the tree.
func (f *flood) settle(r *reach) {
	if r.from != "" {
		before := f.reached[r.from]
		r.node = before.node
		if r.by.cable != nil {
			f.runs = append(f.runs, r.by.cable)
			f.parent = append(f.parent, before.node)
			f.doubled = append(f.doubled, 1)
			r.node = len(f.runs)
		}
	}
	f.reached[r.at] = r
	f.order = append(f.order, r)
}

// again sees a second way to a terminal: two conductors of one cable side by side, a
// second way through a contact, or a ring. Each link is told once.
func (f *flood) again(old, r *reach) {
	from := f.reached[r.from]
	if from == nil || f.told[key{r.by.wire, r.by.relay}] || old.from == r.from && old.by.wire == r.by.wire && old.by.relay == r.by.relay {
		return
	}
	f.told[key{r.by.wire, r.by.relay}] = true
	if r.by.cable == nil && from.node == old.node {
		return // within one place
	}
	a, b := f.runTo(old.node), f.runTo(from.node)
	switch {
	case r.by.cable != nil && r.by.cable == old.by.cable && f.reached[old.from] != nil && f.reached[old.from].node == from.node:
		f.doubled[old.node-1]++
	case r.by.cable == nil && a != nil && a == b && f.parent[old.node-1] == f.parent[from.node-1]:
		// two conductors of a cable that are joined at its end; reckoned as one
	case from.through > 0 || old.through > 0 || r.through > 0:
		f.note(fmt.Sprintf("%s is fed by more than one way through contacts; reckoned by the way of least resistance", r.at))
	default:
		f.faults = append(f.faults, Fault{
			Where: f.name(&r.by, old), What: fmt.Sprintf("closes a ring of wires from %s: %s is fed by two ways", f.source.Name, r.at),
			Hint: "take one of the ways out, so that one wire can be followed from the supply to each device",
		})
		if r.by.cable != nil {
			f.faults = append(f.faults, lacking(r.by.cable)...)
		}
	}
}

// runTo is the cable of the run that leads to a node, nil at the supply.
func (f *flood) runTo(node int) *opening.Cable {
	if node == 0 {
		return nil
	}
	return f.runs[node-1]
}

// name is what a ring is told at.
func (f *flood) name(l *link, old *reach) string {
	switch {
	case l.cable != nil:
		return "cable " + l.cable.Name
	case old.by.cable != nil:
		return "cable " + old.by.cable.Name
	}
	return "wire to " + old.at
}

func (f *flood) note(text string) {
	if !slices.Contains(f.notes, text) {
		f.notes = append(f.notes, text)
	}
}

// Options are what a wiring is reckoned with beside itself.
type Options struct {
	// Warmth of conductors for which no temperature is stated; 75 °C, that of the
	// published table, when zero.
	Warmth q.Temperature
	// Timing of the sequence, by opening; "" for a wiring that names none.
	Timing map[string]Timing
	// Delays are how long after its lock the drive of an opening starts, as its wires
	// make it; an opening that is not in it is taken by what is written down.
	Delays map[string]q.Time
	// AnyTime tells that the openings start independently of each other.
	AnyTime bool
}

// Timing is how long an opening's leaf moves, is held and closes; what is zero is
// assumed. Start is when it starts after the others.
type Timing struct{ Start, Moving, Holding, Closing q.Time }

// A Circuit is one supply with what it feeds.
type Circuit struct {
	Supply *opening.Device
	Sheet  *opening.SupplySheet // nil where there is none
	// Rated is the current that it gives all the time, Peak for some seconds; 0 where
	// not known. Where only one is, it counts for both.
	Rated, Peak q.Current
	ClassTwo    opening.YesNo
	Tree        Tree
	Devices     []*opening.Device // by load
	Cables      []*opening.Cable  // by run
	Openings    []string          // by sequence
	Givens      []Given
	Notes       []string
	// Faults keep it from being reckoned.
	Faults []Fault
}

// Circuits finds every supply of a wiring with what it feeds, and everything that is
// wrong: rings, devices that nothing feeds, supplies side by side, lengths and gauges
// that are missing, and line voltage beside low voltage.
func Circuits(w *opening.Wiring, sheets *opening.Sheets, opt Options) (all []Circuit, faults []Fault) {
	if opt.Warmth == 0 {
		opt.Warmth = tableWarmth
	}
	n := newNet(w)
	fedBy := make(map[string]string) // supply by device
	joined := make(map[*opening.Device]bool)
	for i := range w.Devices {
		d := &w.Devices[i]
		if len(n.outputs(d)) == 0 || joined[d] {
			continue
		}
		f := n.flow(d, n.outputs(d))
		faults = append(faults, f.faults...)
		faults = append(faults, n.beside(f, joined)...)
		c := f.circuit(sheets, opt, fedBy, &faults)
		faults = append(faults, c.Faults...)
		if len(c.Tree.Loads) > 0 || len(c.Faults) > 0 {
			all = append(all, c)
		}
	}
	for i := range w.Devices {
		d := &w.Devices[i]
		if fedBy[d.Name] == "" && n.needs(d, sheets) {
			faults = append(faults, unfed(d))
		}
	}
	return all, append(faults, mixed(n)...)
}

// needs tells a device that cannot do without low voltage.
func (n *net) needs(d *opening.Device, sheets *opening.Sheets) bool {
	if len(n.inputs(d)) == 0 || d.Kind != opening.PowerSupply && n.feedsItself(d) {
		return false
	}
	var unused []Given
	l, _ := loadOf(d, sheets, &unused)
	return slices.Max(l.Draws[:]) > 0 && l.Rated <= lowVoltage
}

// lowVoltage is the highest direct voltage that counts as low here (IEC 61140,
// extra-low voltage: 120 V DC ripple-free, of which half is usual; from memory).
const lowVoltage q.Voltage = 60

// beside finds other sources that the plus side of one comes to without a contact, and
// keeps them: what they feed is reckoned with the first.
func (n *net) beside(f *flood, joined map[*opening.Device]bool) (faults []Fault) {
	for i := range n.w.Devices {
		d := &n.w.Devices[i]
		for _, out := range n.outputs(d) {
			if r := f.reached[out]; r != nil && d != f.source && r.through == 0 {
				joined[d] = true
				faults = append(faults, Fault{
					Where: d.Name, What: "lies side by side with the supply " + f.source.Name + ": neither carries its share, and each feeds the other",
					Hint: "give each supply devices of its own, or one supply large enough", Hazard: true,
					Source: "NEC 725.121(B), from memory: Class 2 sources are not connected in parallel unless listed for it",
				})
				break
			}
		}
	}
	return faults
}

// circuit makes the tree of what was reached.
func (f *flood) circuit(sheets *opening.Sheets, opt Options, fedBy map[string]string, faults *[]Fault) Circuit {
	d := f.source
	c := Circuit{Supply: d, Notes: f.notes}
	c.supply(sheets)
	c.Tree.AnyTime = opt.AnyTime
	var at []int // node by load
	var peaks []q.Time
	for i := range f.n.w.Devices {
		one := &f.n.w.Devices[i]
		if one == d {
			continue
		}
		for _, in := range f.n.inputs(one) {
			r := f.reached[in]
			if r == nil {
				continue
			}
			if other := fedBy[one.Name]; other != "" {
				*faults = append(*faults, Fault{Where: one.Name, What: fmt.Sprintf("is fed by %s and by %s", other, d.Name), Hint: "feed it from one supply", Hazard: r.through == 0})
				break
			}
			l, peak := loadOf(one, sheets, &c.Givens)
			fedBy[one.Name] = d.Name
			if slices.Max(l.Draws[:]) == 0 {
				break
			}
			l.Sequence = c.sequence(one.Opening)
			c.Tree.Loads, c.Devices = append(c.Tree.Loads, l), append(c.Devices, one)
			at, peaks = append(at, r.node), append(peaks, peak)
			break
		}
	}
	c.prune(f, at, opt)
	c.time(f.n.w, sheets, peaks, opt)
	return c
}

// sequence is the place of an opening among the sequences.
func (c *Circuit) sequence(name string) int {
	i := slices.Index(c.Openings, name)
	if i < 0 {
		i = len(c.Openings)
		c.Openings = append(c.Openings, name)
	}
	return i
}

// supply puts in what the source gives.
func (c *Circuit) supply(sheets *opening.Sheets) {
	d, t := c.Supply, &c.Tree
	keep := func(what string, dim q.Dimension, value float64, source string, assumed bool) {
		c.Givens = append(c.Givens, Given{d.Name, what, dim, value, source, assumed})
	}
	volts, rated, peak, from := d.Volts, d.Working, d.Peak, "wiring"
	if d.Kind != opening.PowerSupply { // what a line-fed drive passes on; its own values are those that it takes
		volts, rated, peak = q.Measured[q.Voltage]{}, q.Measured[q.Current]{}, q.Measured[q.Current]{}
	}
	if sheets != nil && d.Sheet != "" {
		if s := sheets.Supply(d.Sheet); s != nil {
			c.Sheet, c.ClassTwo = s, s.ClassTwo
			volts, rated, peak = volts.Or(s.Volts), rated.Or(s.Amps), peak.Or(s.Peak)
			from = "sheet " + s.Name
		}
	}
	t.Volts = usualVolts
	if volts.Known && volts.Value > 0 {
		t.Volts = volts.Value
		keep("voltage that it gives", q.DimVoltage, float64(volts.Value), from, false)
	} else {
		keep("voltage that it gives", q.DimVoltage, float64(usualVolts), "assumed", true)
	}
	t.VoltsU = t.Volts * q.Voltage(supplyU)
	if volts.Known && volts.Stated {
		t.VoltsU = volts.U
	}
	switch {
	case rated.Known && peak.Known:
		c.Rated, c.Peak = rated.Value, peak.Value
	case rated.Known:
		c.Rated, c.Peak = rated.Value, rated.Value
	case peak.Known:
		c.Rated, c.Peak = peak.Value, peak.Value
	}
}

// prune keeps the runs that lead to a load and puts them into the tree, parents first
// and otherwise in the order of the wiring.
func (c *Circuit) prune(f *flood, at []int, opt Options) {
	used := make([]bool, len(f.runs)+1)
	for _, k := range at {
		for k > 0 && !used[k] {
			used[k] = true
			k = f.parent[k-1]
		}
	}
	c.Tree.Warmth, c.Tree.WarmthU = opt.Warmth, tableWarmthU
	place := make([]int, len(f.runs)+1) // in the tree, of the runs that are in it
	for {
		next := -1
		for k := range f.runs {
			if used[k+1] && place[k+1] == 0 && (f.parent[k] == 0 || place[f.parent[k]] > 0) && (next < 0 || f.n.first(f.runs[k], f.runs[next])) {
				next = k
			}
		}
		if next < 0 {
			break
		}
		c.Cables = append(c.Cables, f.runs[next])
		c.Tree.Runs = append(c.Tree.Runs, c.run(f.runs[next], place[f.parent[next]], f.doubled[next], opt))
		place[next+1] = len(c.Tree.Runs)
	}
	for i, k := range at {
		c.Tree.Loads[i].Node = place[k]
	}
}

// first tells whether a cable stands before another in the wiring.
func (n *net) first(a, b *opening.Cable) bool {
	for i := range n.w.Cables {
		switch c := &n.w.Cables[i]; c {
		case b:
			return false
		case a:
			return true
		}
	}
	return false
}

// run is a cable as a run.
func (c *Circuit) run(cable *opening.Cable, parent, doubled int, opt Options) Run {
	r := Run{Name: cable.Name, Parent: parent, Length: cable.Length.Value, Doubled: doubled, Wire: Wire{Gauge: Gauge(cable.Gauge), Solid: cable.Solid == "yes", Tinned: cable.Tinned == "yes"}}
	c.Faults = append(c.Faults, lacking(cable)...)
	u := lengthU
	if cable.Length.Stated && cable.Length.Value > 0 {
		u = q.Ratio(cable.Length.U / cable.Length.Value)
	}
	r.U = q.Ratio(math.Hypot(float64(u), float64(resistanceU)))
	if warm := cable.Warmth; warm.Known {
		// one temperature for the tree: a run of its own is brought to it by its length
		r.Length *= q.Length(share(warm.Value) / share(opt.Warmth))
	} else {
		c.Givens = append(c.Givens, Given{cable.Name, "temperature of its conductors", q.DimTemperature, float64(opt.Warmth), "assumed: that of the published table", true})
	}
	if cable.Solid == "" {
		c.Givens = append(c.Givens, Given{cable.Name, "strands of a conductor", q.DimRatio, 7, "assumed: stranded", true})
	}
	return r
}

// lacking is what a cable that carries power has to tell.
func lacking(cable *opening.Cable) (faults []Fault) {
	where := "cable " + cable.Name
	if !cable.Length.Known {
		faults = append(faults, Fault{Where: where, What: "its length is not given", Hint: "give length, one way, as it will run"})
	}
	if !Gauge(cable.Gauge).Known() {
		what := "its gauge is not given"
		if cable.Gauge != 0 {
			what = fmt.Sprintf("%d AWG is no gauge that can be reckoned with", cable.Gauge)
		}
		faults = append(faults, Fault{Where: where, What: what, Hint: "give gauge, an even number from 24 to 10"})
	}
	return faults
}
