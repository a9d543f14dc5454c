package logic

import (
	"fmt"
	"slices"
	"strings"

	"swingwright/opening"
)

// A Fault is something wrong with a wiring that no order of events is needed to
// see: what is there, and what the technician would see of it. What the trade
// would see of each is common practice.
type Fault struct {
	Key     string
	Advice  bool // it is no fault for certain
	Says    string
	Symptom string
}

// Faults looks a wiring over.
func Faults(w *opening.Wiring) []Fault {
	f := &faults{w: w}
	f.circuit.join(w)
	f.supplies()
	f.coils()
	f.boxes()
	f.radio()
	f.loose()
	f.cables()
	f.rings()
	return f.list
}

type faults struct {
	circuit
	w    *opening.Wiring
	list []Fault
}

func (f *faults) add(key string, advice bool, symptom, format string, args ...any) {
	f.list = append(f.list, Fault{key, advice, fmt.Sprintf(format, args...), symptom})
}

func (f *faults) terminal(d *opening.Device, what opening.Function) string {
	for _, t := range d.Points() {
		if t.Function == what {
			return d.Name + "." + t.Name
		}
	}
	return ""
}

// netOf is the net of a terminal that has a wire, -1 of one that has none.
func (f *faults) netOf(end string) int {
	if n, found := f.of[end]; found {
		return n
	}
	return -1
}

// supplies finds supplies that are joined to one another, and to themselves.
func (f *faults) supplies() {
	type pole struct {
		name        string
		plus, minus int
	}
	var ps []pole
	for i := range f.w.Devices {
		if d := &f.w.Devices[i]; d.Kind == opening.PowerSupply {
			ps = append(ps, pole{d.Name, f.netOf(f.terminal(d, opening.Plus)), f.netOf(f.terminal(d, opening.Minus))})
		}
	}
	for i, a := range ps {
		if a.plus >= 0 && a.plus == a.minus {
			f.add("supply-shorted", false, "Its fuse goes, or it hums and gives nothing.", "The poles of %s are joined by wires.", a.name)
		}
		for _, b := range ps[i+1:] {
			switch {
			case a.plus >= 0 && a.plus == b.plus && a.minus == b.minus:
				f.add("supplies-in-parallel", false, "One of them heats up and odd things happen: the stronger one feeds the weaker.", "%s and %s are connected in parallel.", a.name, b.name)
			case a.minus >= 0 && a.minus == b.minus:
				f.add("shared-return", true, "Ghost opens: current of one system lifts the return of the other. Let an isolating relay part them.", "%s and %s share their return.", a.name, b.name)
			}
		}
	}
}

// coils finds locks without a suppressor, and whatever is connected the wrong way round.
func (f *faults) coils() {
	var plus, minus []int
	for i := range f.w.Devices {
		if d := &f.w.Devices[i]; d.Kind == opening.PowerSupply {
			plus, minus = append(plus, f.netOf(f.terminal(d, opening.Plus))), append(minus, f.netOf(f.terminal(d, opening.Minus)))
		}
	}
	for i := range f.w.Devices {
		d := &f.w.Devices[i]
		a, b := f.netOf(f.terminal(d, opening.Plus)), f.netOf(f.terminal(d, opening.Minus))
		if d.Kind == opening.PowerSupply || d.Kind == opening.StandbyBattery || a < 0 || b < 0 {
			continue
		}
		if slices.Contains(minus, a) || slices.Contains(plus, b) {
			f.add("reversed", false, "It does nothing, or is damaged.", "%s is connected the wrong way round.", d.Name)
		}
		if d.Kind.IsLock() && !f.suppressed(a, b) {
			f.add("no-suppressor", true, "The controller restarts now and then as the lock lets go.", "Nothing takes up the voltage that the coil of %s gives as it is switched off; put a diode or another suppressor across it, unless its sheet says that one is inside.", d.Name)
		}
	}
}

// suppressed tells a suppressor across two nets.
func (f *faults) suppressed(a, b int) bool {
	return slices.ContainsFunc(f.w.Devices, func(d opening.Device) bool {
		if d.Kind != opening.Snubber {
			return false
		}
		var nets []int
		for _, t := range d.Points() {
			nets = append(nets, f.netOf(d.Name+"."+t.Name))
		}
		return slices.Contains(nets, a) && slices.Contains(nets, b)
	})
}

// boxes finds line and low voltage side by side.
func (f *faults) boxes() {
	const symptom = "The inspector fails it, and one slipped wire puts line voltage on a push plate."
	for _, e := range f.w.Enclosures {
		line, low := "", ""
		for i := range f.w.Devices {
			d := &f.w.Devices[i]
			if d.Enclosure != e.Name {
				continue
			}
			if f.netOf(f.terminal(d, opening.Line)) >= 0 || d.Kind == opening.BranchCircuit {
				line = d.Name
			} else if d.Kind != opening.TerminalStrip {
				low = d.Name
			}
		}
		if line != "" && low != "" && e.Barrier != "yes" {
			f.add("line-beside-low", e.Barrier == "", symptom, "%s holds %s, at line voltage, and %s, at low voltage, and no barrier between them is noted. The barrier is the licensed electrician's.", e.Name, line, low)
		}
	}
	for _, k := range f.w.Conduits {
		line, low := "", ""
		for _, c := range f.w.Cables {
			switch {
			case c.Conduit != k.Name:
			case c.Class == opening.LineCircuit:
				line = c.Name
			case c.Class != "":
				low = c.Name
			}
		}
		if line != "" && low != "" {
			f.add("line-beside-low", false, symptom, "Conduit %s holds %s, at line voltage, and %s.", k.Name, line, low)
		}
	}
}

// radio finds what is learned to nothing, or to another opening.
func (f *faults) radio() {
	for i := range f.w.Devices {
		d := &f.w.Devices[i]
		switch {
		case d.Kind == opening.Transmitter && d.LearnedOf != "" && d.LearnedOf != d.Opening:
			f.add("learned-elsewhere", false, "Pressing it opens the wrong door; that one opens by itself.", "%s is learned to the receiver of opening %s.", d.Name, d.LearnedOf)
		case d.Kind == opening.Transmitter && d.LearnedTo == "":
			f.add("not-learned", false, "Pressing it does nothing.", "%s is learned to no receiver.", d.Name)
		case d.Kind == opening.Receiver && !slices.ContainsFunc(f.w.Devices, func(t opening.Device) bool { return t.LearnedTo == d.Name }) &&
			f.netOf(f.terminal(d, opening.TriggerInput)) < 0:
			f.add("nobody-learned", true, "It never acts, or acts on a neighbour's plate.", "No transmitter of this wiring is learned to %s.", d.Name)
		}
	}
}

// loose finds devices with nothing connected, or half of what they need.
func (f *faults) loose() {
	for i := range f.w.Devices {
		d := &f.w.Devices[i]
		wired := func(t opening.Terminal) bool { return f.netOf(d.Name+"."+t.Name) >= 0 }
		if d.Kind == opening.Transmitter || len(d.Points()) == 0 {
			continue
		}
		if !slices.ContainsFunc(d.Points(), wired) {
			who := "."
			if d.By != "" {
				who = fmt.Sprintf("; %s is to see to it, and no wire says how.", d.By)
			}
			f.add("not-connected", false, "It does nothing; where it is a lock, the drive opens onto a locked door.", "%s has no wire%s", d.Name, who)
			continue
		}
		plus, minus := f.netOf(f.terminal(d, opening.Plus)) >= 0, f.netOf(f.terminal(d, opening.Minus)) >= 0
		if plus != minus {
			f.add("half-connected", false, "It has no power.", "One pole of %s has no wire.", d.Name)
		}
		for _, c := range d.Points() {
			if c.Function != opening.Common {
				continue
			}
			other := slices.ContainsFunc(d.ContactsOf(c.Of), func(t opening.Terminal) bool { return t.Function != opening.Common && wired(t) })
			if other != wired(c) {
				f.add("half-connected", false, "Its contact switches nothing.", "Of the contact %s of %s one end has no wire.", strings.TrimSpace(c.Of+" "+c.Name), d.Name)
			}
		}
		inputs := slices.ContainsFunc(d.Points(), func(t opening.Terminal) bool { return isInput(t.Function) && wired(t) })
		commons := slices.ContainsFunc(d.Points(), func(t opening.Terminal) bool { return t.Function == opening.InputCommon && wired(t) })
		if inputs && !commons {
			f.add("half-connected", false, "Its inputs never act.", "The common of the inputs of %s has no wire.", d.Name)
		}
	}
}

func isInput(f opening.Function) bool {
	switch f {
	case opening.StartInput, opening.EnableInput, opening.AlarmInput, opening.HoldInput, opening.SafetyInput, opening.TriggerInput, opening.ExitInput, opening.PositionInput:
		return true
	}
	return false
}

// cables finds cables with more wires than conductors, with none, and of the wrong sort.
func (f *faults) cables() {
	for _, c := range f.w.Cables {
		wires, line := 0, false
		for _, w := range f.w.Wires {
			if w.Cable != c.Name {
				continue
			}
			wires++
			line = line || f.isLine(w.From) || f.isLine(w.To)
		}
		switch {
		case c.Conductors > 0 && wires > c.Conductors:
			f.add("too-few-conductors", false, "A wire is missing on site.", "Cable %s has %d conductors and is to carry %d wires.", c.Name, c.Conductors, wires)
		case wires == 0:
			f.add("idle-cable", true, "Nobody knows what it is for.", "No wire runs in cable %s.", c.Name)
		}
		if line && c.Class != opening.LineCircuit && c.Class != "" {
			f.add("line-in-low-cable", false, "Line voltage runs in a cable that is not made for it.", "Cable %s, noted as %s, carries line voltage. That is the licensed electrician's to mend.", c.Name, c.Class)
		}
	}
}

func (f *faults) isLine(end string) bool {
	name, terminal, _ := opening.At(end)
	d := f.w.Device(name)
	if d == nil {
		return false
	}
	t, _ := d.Point(terminal)
	return t.Function == opening.Line || t.Function == opening.Neutral
}

// rings finds wires between terminals that are joined already.
func (f *faults) rings() {
	index := make(map[string]int)
	var parent []int
	at := func(end string) int {
		i, found := index[end]
		if !found {
			i = len(parent)
			index[end], parent = i, append(parent, i)
		}
		return find(parent, i)
	}
	for _, w := range f.w.Wires {
		a, b := at(w.From), 0
		b = at(w.To)
		if a == b {
			f.add("ring", true, "A fault is hard to find, since either way carries the current.", "The wire from %s to %s joins what other wires join already.", w.From, w.To)
		}
		parent[b] = a
	}
}
