package power

import (
	"fmt"
	"slices"
	"strings"

	"swingwright/opening"
	q "swingwright/quantity"
)

// time lays out the sequence of every opening: how long the lock needs, when the drive
// starts, and how long each part lasts.
func (c *Circuit) time(w *opening.Wiring, sheets *opening.Sheets, peaks []q.Time, opt Options) {
	for k, name := range c.Openings {
		var s Sequence
		timing := opt.Timing[name]
		s.Start = timing.Start
		keep := func(what string, value q.Time, source string, assumed bool) {
			c.Givens = append(c.Givens, Given{or(name, "sequence"), what, q.DimTime, float64(value), source, assumed})
		}
		take := func(p Phase, what string, value, usual q.Time) {
			s.Lasts[p] = value
			if value <= 0 {
				s.Lasts[p] = usual
				keep(what, usual, "assumed", true)
			}
		}
		lock, drive := q.Time(0), q.Time(0) // how long the largest currents last
		locked, driven := false, false
		for i := range c.Tree.Loads {
			if c.Tree.Loads[i].Sequence != k {
				continue
			}
			switch kind := c.Devices[i].Kind; {
			case kind.IsLock():
				locked, lock = true, max(lock, peaks[i])
			case kind == opening.Drive:
				driven, drive = true, max(drive, peaks[i])
			}
		}
		if locked {
			delay, known := delayOf(w, name)
			if made, ok := opt.Delays[name]; ok {
				delay, known = made, true
				keep("delay from the lock to the drive", delay, "what the wires make of the delays that are written down", false)
			}
			if !known && driven {
				keep("delay from the lock to the drive", 0, "assumed: nobody wrote down an on_delay, so both start at once", true)
			}
			if !driven {
				delay = lock
			}
			s.Lasts[Releasing] = min(lock, delay)
			s.Lasts[Colliding] = max(lock-delay, 0)
			s.Lasts[Waiting] = max(delay-lock, 0)
			s.Lasts[Relocking] = relockingTime
		}
		if driven {
			s.Lasts[Starting] = drive
		}
		take(Moving, "time that the leaf moves", timing.Moving-s.Lasts[Starting], usualMoving)
		take(Holding, "time that the leaf is held", timing.Holding, usualHolding)
		take(Closing, "time that the leaf closes", timing.Closing, usualClosing)
		c.Tree.Sequences = append(c.Tree.Sequences, s)
	}
}

func or(a, b string) string {
	if a == "" {
		return b
	}
	return a
}

// delayOf is how long after the lock the drive of an opening starts, by the longest
// delay that is written down of the drive or what starts it.
func delayOf(w *opening.Wiring, name string) (delay q.Time, known bool) {
	take := func(m q.Measured[q.Time]) {
		if m.Known {
			delay, known = max(delay, m.Value), true
		}
	}
	for i := range w.Devices {
		d := &w.Devices[i]
		if d.Opening != name {
			continue
		}
		switch d.Kind {
		case opening.Drive, opening.DelayRelay, opening.Sequencer:
			take(d.OnDelay)
			for j := range d.Relays {
				take(d.Relays[j].OnDelay)
			}
		}
	}
	return delay, known
}

// mixed finds line voltage beside low voltage: in one conduit, or in one box without
// a barrier.
func mixed(n *net) (faults []Fault) {
	const source = "NEC 725.136, from memory; common practice"
	for i := range n.w.Conduits {
		conduit := &n.w.Conduits[i]
		var line, low []string
		for j := range n.w.Cables {
			if c := &n.w.Cables[j]; c.Conduit == conduit.Name {
				if n.isLine(c) {
					line = append(line, c.Name)
				} else {
					low = append(low, c.Name)
				}
			}
		}
		if len(line) > 0 && len(low) > 0 {
			faults = append(faults, Fault{Where: "conduit " + conduit.Name,
				What: fmt.Sprintf("line voltage (%s) and low voltage (%s) lie in one conduit", together(line), together(low)),
				Hint: "give each a conduit of its own", Hazard: true, Source: source})
		}
	}
	for i := range n.w.Enclosures {
		box := &n.w.Enclosures[i]
		var line, low []string
		for j := range n.w.Devices {
			d := &n.w.Devices[j]
			if d.Enclosure != box.Name {
				continue
			}
			if d.Kind == opening.BranchCircuit || n.wiredAt(d, opening.Line) || d.Kind == opening.PowerSupply {
				line = append(line, d.Name)
			} else {
				low = append(low, d.Name)
			}
		}
		if len(line) > 0 && len(low) > 0 && box.Barrier != "yes" {
			f := Fault{Where: "enclosure " + box.Name, What: fmt.Sprintf("line voltage (%s) and low voltage (%s) share a box, and nobody wrote down a barrier", together(line), together(low)),
				Hint: "say under barrier whether one keeps them apart", Source: source}
			if box.Barrier == "no" {
				f.What, f.Hint, f.Hazard = fmt.Sprintf("line voltage (%s) and low voltage (%s) share a box without a barrier", together(line), together(low)), "put in a barrier, or give each a box of its own", true
			}
			faults = append(faults, f)
		}
	}
	return faults
}

// isLine tells a cable of line voltage, marked as such or joined to mains terminals.
func (n *net) isLine(c *opening.Cable) bool {
	if c.Class != "" {
		return c.Class == opening.LineCircuit
	}
	return slices.ContainsFunc(n.w.Wires, func(x opening.Wire) bool {
		if x.Cable != c.Name {
			return false
		}
		name, terminal, _ := opening.At(x.From)
		d := n.known[name]
		if d == nil {
			return false
		}
		p, _ := d.Point(terminal)
		return p.Function == opening.Line || p.Function == opening.Neutral
	})
}

// together are names in a row.
func together(names []string) string { return strings.Join(names, ", ") }

// LinesApart tells whether line and low voltage are kept apart: no where they share a
// conduit or a box without a barrier, empty where nobody wrote a barrier down.
func LinesApart(w *opening.Wiring) opening.YesNo {
	answer := opening.YesNo("yes")
	for _, f := range mixed(newNet(w)) {
		if f.Hazard {
			return "no"
		}
		answer = ""
	}
	return answer
}
