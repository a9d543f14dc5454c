package logic

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"swingwright/opening"
	q "swingwright/quantity"
)

// A fading is a device, or all that only control, that gives up as the voltage of
// the standby battery sinks.
type fading struct {
	name      string
	senses    uint64
	low, high q.Voltage // between which it gives up
	known     bool      // whether anybody knows
}

// apart is by how much two least voltages have to differ for their order to be
// certain, as a share: wires between battery and device take some (common practice).
const apart = 0.05

const controlName = "the devices that control"

// mostFading are told apart; more count as one.
const mostFading = 6

// fade finds what a standby battery feeds that gives up as it runs low: locks and
// drives each by itself, all else together.
func (m *Machine) fade() {
	m.sagSlot = -1
	battery := slices.ContainsFunc(m.feed, func(f feed) bool { return f.battery })
	driven := slices.ContainsFunc(m.drives, func(d drive) bool { return !d.line && d.power >= 0 })
	if !battery || !driven {
		return
	}
	control := fading{name: controlName, known: true}
	for i := range m.senses {
		n := &m.senses[i]
		if !n.coil {
			continue
		}
		d := &m.wiring.Devices[n.dev]
		one := fading{name: d.Name, senses: 1 << i, known: d.Least.Known, low: d.Least.Value - 2*d.Least.U, high: d.Least.Value + 2*d.Least.U}
		if (d.Kind.IsLock() || d.Kind == opening.Drive) && len(m.fading) < mostFading {
			m.fading = append(m.fading, one)
			continue
		}
		if control.senses == 0 {
			control.low, control.high = one.low, one.high
		}
		control.senses |= one.senses
		control.known = control.known && one.known
		control.low, control.high = min(control.low, one.low), max(control.high, one.high)
	}
	if control.senses != 0 {
		m.fading = append(m.fading, control)
	}
	m.sagSlot = m.slot(1)
}

// before tells that one certainly gives up before another.
func (f *fading) before(g *fading) bool {
	return f.known && g.known && f.low*(1-apart) > g.high
}

// mayFade tells that one may be the next to give up.
func (x *step) mayFade(i int) bool {
	gone := x.s[x.sagSlot]
	if gone>>i&1 == 1 {
		return false
	}
	for k := range x.fading {
		if gone>>k&1 == 0 && x.fading[k].before(&x.fading[i]) {
			return false
		}
	}
	return true
}

// sagged are the senses of what has given up.
func (x *step) sagged() (senses uint64) {
	if x.sagSlot < 0 {
		return 0
	}
	for i := range x.fading {
		if x.s[x.sagSlot]>>i&1 == 1 {
			senses |= x.fading[i].senses
		}
	}
	return senses
}

// wasLow tells that the mains came back to a battery that had run low, and that not
// all has come to rest since.
const wasLow byte = 1 << (mostFading + 1)

// recharge is the battery once the mains fail or come back.
func (x *step) recharge() {
	if x.sagSlot >= 0 && x.s[x.sagSlot] != 0 {
		x.s[x.sagSlot] = wasLow
	}
}

// sag lets something give up.
func (x *step) sag(i int) {
	x.s[x.wantSlot], x.s[x.wantSlot+1], x.s[x.waySlot] = 0, 0, 0
	x.patient()
	x.s[x.sagSlot] |= 1 << i
	if !x.pressed() {
		x.s[x.promptSlot] |= afterReturn
	}
}

// orderKnown tells that it is known in which order things give up.
func (m *Machine) orderKnown() bool {
	for i := range m.fading {
		for k := range i {
			if !m.fading[i].before(&m.fading[k]) && !m.fading[k].before(&m.fading[i]) {
				return false
			}
		}
	}
	return true
}

// Fading tells in sentences in which order things give up as the standby battery
// runs low, none without one.
func (m *Machine) Fading() []string {
	if m.sagSlot < 0 {
		return nil
	}
	fs := slices.Clone(m.fading)
	slices.SortStableFunc(fs, func(a, b fading) int {
		return cmp.Or(-cmp.Compare(b2(a.known), b2(b.known)), -cmp.Compare(a.high, b.high))
	})
	var steps, unknown []string
	for _, f := range fs {
		if f.known {
			steps = append(steps, fmt.Sprintf("%s below %.1f V", f.name, float64(f.high)))
		} else {
			unknown = append(unknown, f.name)
		}
	}
	var say []string
	if len(steps) > 0 {
		say = append(say, "As the standby battery runs low, these give up, in this order: "+strings.Join(steps, ", then ")+".")
	}
	if len(unknown) > 0 {
		say = append(say, "Nobody wrote down at which voltage these give up (volts_min): "+strings.Join(unknown, ", ")+".")
	} else if !m.orderKnown() {
		say = append(say, "Some of these lie too near to each other to tell which gives up first.")
	}
	return say
}
