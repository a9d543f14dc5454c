package power

import (
	"fmt"

	"swingwright/opening"
)

// A Fault is something in a wiring that cannot be, must not be, or keeps it from being
// reckoned.
type Fault struct {
	Where string // device, cable, conduit or wire
	What  string
	Hint  string
	// Hazard tells a fault that is dangerous or forbidden, not a gap in what is known.
	Hazard bool
	Source string // of what forbids it
}

// net is a wiring as the plus side sees it: terminals, and what joins them.
type net struct {
	w     *opening.Wiring
	known map[string]*opening.Device
	cable map[string]*opening.Cable
	links map[string][]link // by terminal, in the order of the file
	wired map[string]bool   // terminals on which a wire ends
}

// A link leads from one terminal to another.
type link struct {
	to    string
	cable *opening.Cable // nil inside an enclosure or device
	// wire is the place of the wire in the wiring's list, -1 inside a device.
	wire int
	// relay is the contact that the link is, with its device; empty for copper.
	relay string
}

// newNet lays out the wires, and what devices join inside. Wires that the job's reader
// would refuse are left out. A wiring of cables only, none of them a wire, is taken as if
// each cable, unless it is marked as line, data or fire alarm, fed one device from the
// other.
func newNet(w *opening.Wiring) *net {
	n := &net{w: w, known: make(map[string]*opening.Device), cable: make(map[string]*opening.Cable), links: make(map[string][]link), wired: make(map[string]bool)}
	for i := range w.Devices {
		n.known[w.Devices[i].Name] = &w.Devices[i]
	}
	for i := range w.Cables {
		n.cable[w.Cables[i].Name] = &w.Cables[i]
	}
	for i := range w.Wires {
		x := &w.Wires[i]
		if n.is(x.From) && n.is(x.To) {
			n.join(x.From, x.To, link{cable: n.cable[x.Cable], wire: i})
		}
	}
	if len(w.Wires) == 0 {
		n.cablesOnly()
		return n
	}
	for i := range w.Devices {
		n.inside(&w.Devices[i])
	}
	return n
}

func (n *net) join(a, b string, l link) {
	l.to = b
	n.links[a] = append(n.links[a], l)
	l.to = a
	n.links[b] = append(n.links[b], l)
	if l.wire >= 0 {
		n.wired[a], n.wired[b] = true, true
	}
}

// is tells whether a terminal exists.
func (n *net) is(end string) bool {
	name, terminal, _ := opening.At(end)
	d := n.known[name]
	if d == nil {
		return false
	}
	_, has := d.Point(terminal)
	return has
}

// plus is the terminal by which a device of a wiring without wires is known.
func plus(d *opening.Device) string { return d.Name + ".+" }

func (n *net) cablesOnly() {
	for i := range n.w.Cables {
		c := &n.w.Cables[i]
		from, to := n.known[c.From], n.known[c.To]
		if from != nil && to != nil && (c.Class == "" || c.Class == opening.ClassTwoCircuit) {
			n.join(plus(from), plus(to), link{cable: c, wire: i})
		}
	}
}

// inside joins a device's own terminals: contacts by their poles, power that is passed
// on, and nothing else: an input by a dry contact feeds nobody.
func (n *net) inside(d *opening.Device) {
	points := d.Points()
	for _, a := range points {
		for _, b := range points {
			from, to := d.Name+"."+a.Name, d.Name+"."+b.Name
			switch {
			case a.Function == opening.Common && a.Of == b.Of && (b.Function == opening.NormallyOpen || b.Function == opening.NormallyShut):
				n.join(from, to, link{wire: -1, relay: d.Name + "." + a.Of + "/" + string(b.Function)})
			case a.Function == opening.Plus && b.Function == opening.OutPlus && !n.feedsItself(d):
				n.join(from, to, link{wire: -1})
			}
		}
	}
}

// feedsItself tells a device that turns mains into the low voltage that it gives:
// mains are wired to it, and nothing to its plus.
func (n *net) feedsItself(d *opening.Device) bool {
	return n.wiredAt(d, opening.Line) && !n.wiredAt(d, opening.Plus)
}

// wiredAt tells whether a wire ends on a terminal of that function.
func (n *net) wiredAt(d *opening.Device, f opening.Function) bool {
	for _, p := range d.Points() {
		if p.Function == f && n.wired[d.Name+"."+p.Name] {
			return true
		}
	}
	return false
}

// outputs are the terminals at which a device gives power, nothing where it is no source.
func (n *net) outputs(d *opening.Device) (out []string) {
	if len(n.w.Wires) == 0 {
		if d.Kind == opening.PowerSupply {
			out = append(out, plus(d))
		}
		return out
	}
	for _, p := range d.Points() {
		switch {
		case d.Kind == opening.PowerSupply && (p.Function == opening.Plus || p.Function == opening.OutPlus),
			d.Kind != opening.PowerSupply && p.Function == opening.OutPlus && n.feedsItself(d):
			out = append(out, d.Name+"."+p.Name)
		}
	}
	return out
}

// inputs are the terminals at which a device takes power.
func (n *net) inputs(d *opening.Device) (in []string) {
	if d.Kind == opening.PowerSupply || d.Kind == opening.StandbyBattery || d.Kind == opening.BranchCircuit {
		return nil
	}
	for _, p := range d.Points() {
		if p.Function == opening.Plus {
			in = append(in, d.Name+"."+p.Name)
		}
	}
	if len(n.w.Wires) == 0 && len(in) > 0 {
		return []string{plus(d)}
	}
	return in
}

// unfed is what a device that needs power and gets none lacks.
func unfed(d *opening.Device) Fault {
	return Fault{Where: d.Name, What: "no supply feeds it", Hint: fmt.Sprintf("wire its plus to a supply, or give it a current of 0 A if it needs none; a supply is a device of kind %s", opening.PowerSupply)}
}
